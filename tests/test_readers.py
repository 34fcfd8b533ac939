"""Every public function reads a position, move, line, side, square in every form, and refuses alike.

The functions are found in the export lists, and so are their parameters: one whose name
stands in no table fails here, and so does a function of which no call is known.
"""

import dataclasses
import importlib
import inspect
import re
from collections.abc import Callable, Iterator
from typing import Any

import chess
import chess.pgn
import pytest

from chessnb import claims, recall
from chessnb.claims import FalseClaim, UnprovedClaim
from chessnb.errors import ChessnbError
from chessnb.lessons import Lesson
from chessnb.notation import write_line, write_move
from chessnb.proof import Mate
from chessnb.verdicts import Depth

MODULES = (
    "charts", "claims", "diagrams", "engine", "facts", "lessons", "motifs", "notation", "search",
    "teaching.questions", "teaching.recall", "verdicts", "widgets", "",
)  # fmt: skip
"""The modules whose export lists are gone through; the last is the package itself."""

READ = {
    "address": "address", "at": "address", "better": "move", "end": "moment", "lesson": "lesson",
    "last_move": "last move", "line": "line", "move": "move", "position": "position",
    "side": "side", "square": "square", "squares": "squares", "start": "moment", "taking": "square",
    "threat": "move",
    "diagrams.Diagram.fen": "position", "diagrams.Mark.to": "square", "claims.pinned.to": "behind",
    "teaching.questions.find_move.right": "move", "teaching.questions.threatened.right": "move",
    "teaching.questions.hanging.right": "squares", "teaching.questions.why_not_take.by": "square",
}  # fmt: skip
"""What is read from a parameter, by its name, or where that is not enough by where it stands."""

OTHER = {
    "about", "adviser", "against", "ask", "at_least", "book", "budget", "bundle", "by", "callback", "caption",
    "chart", "claim", "columns", "defended_by", "depth", "engine", "facts", "for_good", "form", "game", "geometric", "given",
    "goal", "goals", "is_", "language", "letters", "level", "lines", "looked", "marks", "mate",
    "minutes", "most", "motif", "name", "note", "options", "overwrite", "path", "patience", "positions", "recall",
    "question", "remember", "reveal", "role", "rule", "says", "searching", "shell", "size", "spread", "text", "theme", "title",
    "turned", "use", "variable", "verdicts", "watch", "where", "wing", "within", "words",
    "clock", "draw", "ever", "hints", "lessons", "only", "right", "seconds", "shown",
    "wrong", "questions", "args", "key", "stops", "grade", "schedule",
    # Moments of a clock.
    "teaching.recall.Schedule.due.at", "teaching.recall.Schedule.reviewed.at",
    # A line to recall is that of a lesson, or goes on from a position of one.
    "teaching.recall.drill.line", "teaching.recall.guess.line",
    # Numbers of moves to go back or forth on a board.
    "widgets.LiveBoard.back.moves", "widgets.LiveBoard.forward.moves",
    # The number of a step.
    "widgets.StudentLesson.open.number", "widgets.StudentLesson.step.number",
    # Below a widget: what cannot be played on is shown as it is, without a board to play on.
    "widgets.still_and_live.position",
    # A page shows a position of a lesson, and nothing else; see test_page_block.py.
    "widgets.page.position",
    # A figure of a diagram's own, and a value's own field: they are written by the package.
    "diagrams.Diagram.last_move",
}  # fmt: skip
"""Parameters that are none of these; their own tests are elsewhere."""

MADE_BY_HAND = ("Diagram", "Mark")
"""The values that a teacher makes; all others come out of functions."""


# -- what there is ---------------------------------------------------------------------------


def functions() -> Iterator[tuple[str, Callable[..., Any]]]:
    """Yield every public function, method and constructor with the name it goes by here."""
    met = set()
    for module in MODULES:
        package = importlib.import_module(f"chessnb.{module}".rstrip("."))
        for name in package.__all__:
            what = getattr(package, name)
            if id(what) in met or not getattr(what, "__module__", "").startswith("chessnb"):
                continue
            met.add(id(what))
            if inspect.isfunction(what):
                yield f"{module}.{name}", what
            elif inspect.isclass(what) and not issubclass(what, Exception):
                yield from methods(f"{module}.{name}", what)


def methods(name: str, owner: type) -> Iterator[tuple[str, Callable[..., Any]]]:
    if not dataclasses.is_dataclass(owner) or owner.__name__ in MADE_BY_HAND:
        yield name, owner
    for key, what in inspect.getmembers_static(owner):
        plain = getattr(what, "__func__", what)
        if key.startswith("_") or not inspect.isfunction(plain):
            continue
        if plain.__module__.startswith("chessnb"):
            yield f"{name}.{key}", plain


FUNCTIONS = dict(functions())


def parameters(function: Callable[..., Any]) -> list[inspect.Parameter]:
    known = inspect.signature(function).parameters.values()
    return [one for one in known if one.name not in ("self", "cls")]


def kind_of(name: str, parameter: str) -> str | None:
    """Return what is read from a parameter; None for other things; KeyError if nobody has said."""
    where = f"{name}.{parameter}"
    if where in OTHER:
        return None
    if where in READ:
        return READ[where]
    return None if parameter in OTHER else READ[parameter]


PLACES = [
    (name, parameter.name)
    for name, function in FUNCTIONS.items()
    for parameter in parameters(function)
    if parameter.name in READ or f"{name}.{parameter.name}" in READ
    if kind_of(name, parameter.name)
]


def test_it_is_known_of_every_parameter_what_it_is():
    unknown = [
        f"{name}.{parameter.name}"
        for name, function in FUNCTIONS.items()
        for parameter in parameters(function)
        if parameter.name not in READ and parameter.name not in OTHER
        if f"{name}.{parameter.name}" not in READ and f"{name}.{parameter.name}" not in OTHER
    ]
    assert not unknown, "say in READ or OTHER what they are"


def test_nothing_is_said_of_parameters_that_are_not_there():
    names = {parameter.name for what in FUNCTIONS.values() for parameter in parameters(what)}
    places = {f"{name}.{one.name}" for name, what in FUNCTIONS.items() for one in parameters(what)}
    assert {*READ, *OTHER} <= names | places
    assert not set(READ) & OTHER


def test_the_functions_are_found():
    """Some of each kind, so that a mistake in the looking does not pass for their absence."""
    assert len(FUNCTIONS) > 80
    assert len(PLACES) > 100
    assert {
        "claims.mates", "facts.changes", "charts.mobility", "engine.opinion", "notation.read_line",
        "lessons.Lesson.add_line", "lessons.Moment.after", "widgets.LiveBoard.play",
        "widgets.MotifTags", "diagrams.Mark", "verdicts.reply_table", "search.prove",
    } <= set(FUNCTIONS)  # fmt: skip


# -- a call of each --------------------------------------------------------------------------

BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
THREATENED = "6k1/5ppp/8/8/8/8/8/R3K3 b - - 0 1"
FORK = "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"
ROOK = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"
UNDEFENDED = "4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1"
TRADE = "4k3/8/4p3/3p4/2P5/2N5/8/4K3 w - - 0 1"
ONE_REPLY = "7k/8/8/8/8/8/6r1/7K w - - 0 1"
CORNERED = "6k1/8/8/2q5/8/8/5nPP/R3R1K1 b - - 0 1"
DEFENCE = "8/4Q3/8/k4K2/8/1R6/r1p5/8 b - - 0 1"
CASTLING = "4k3/8/8/8/8/8/8/4K2R w K - 0 1"
DEFENDED = "3r2k1/5ppp/8/3p4/8/8/3R1PPP/6K1 w - - 0 1"
PINS = "3qk3/8/2n2b2/1B4B1/8/8/8/4K3 b - - 0 1"


@dataclasses.dataclass(frozen=True)
class Moves:
    """Moves in a position, as they are given where nothing else is tried."""

    fen: str
    text: str

    @property
    def board(self) -> chess.Board:
        return chess.Board() if self.fen == "start" else chess.Board(self.fen)

    @property
    def moves(self) -> list[chess.Move]:
        board = self.board
        return [board.push_san(san) for san in self.text.split()]


def a_lesson() -> Lesson:
    return Lesson.from_text("1. e4 e5 2. Nf3 (2. f4 exf4) 2... Nc6", title="First moves")


def passed(fen: str) -> str:
    board = chess.Board(fen)
    board.push(chess.Move.null())
    return board.fen()


def after(fen: str, san: str) -> str:
    board = chess.Board(fen)
    board.push_san(san)
    return board.fen()


def stretch() -> dict[str, Any]:
    lesson = a_lesson()
    return {"start": lesson.start, "end": lesson.end}


def lesson_with(**given: Any) -> dict[str, Any]:
    return {"self": a_lesson(), **given}


def moved_board() -> Any:
    from chessnb.widgets import LiveBoard

    return LiveBoard("start")


QUICK = {"mate": 1, "within": 1}
WHITE = {"side": chess.WHITE}
AT_ONCE = {**QUICK, "at_least": 1}

CALLS: dict[str, Callable[[], dict[str, Any]]] = {
    "charts.material": lambda: {"lesson": a_lesson()},
    "charts.mobility": lambda: {"square": "g1", **stretch()},
    "charts.pressure_on": lambda: {"square": "e5", **stretch()},
    "claims.attacked": lambda: {
        "position": TRADE, "square": "d5", "by": 2, "defended_by": 1, **WHITE
    },
    "claims.can_castle": lambda: {"position": CASTLING, "wing": "kingside", **WHITE},
    "claims.cannot_castle": lambda: {"position": CASTLING, "wing": "queenside", **WHITE},
    "claims.checkmate": lambda: {"position": "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1"},
    "claims.defended": lambda: {"position": TRADE, "square": "d5", "by": 1},
    "claims.drawn": lambda: {"position": "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"},
    "claims.fastest_mate": lambda: {"position": BACK_RANK, "within": 1, **WHITE},
    "claims.forced": lambda: {
        "position": CORNERED, "line": Moves(CORNERED, "Nh3+ Kh1 Qg1+ Rxg1 Nf2#"), **WHITE
    },
    "claims.forces_stalemate": lambda: {
        "position": "6rk/6R1/8/8/8/1q6/8/K7 w - - 0 1", "within": 1, **WHITE,
        "move": Moves("6rk/6R1/8/8/8/1q6/8/K7 w - - 0 1", "Rh7+"),
    },
    "claims.illegal": lambda: {"position": THREATENED, "move": "Kg7"},
    "claims.legal": lambda: {"position": FORK, "move": Moves(FORK, "Nc7+")},
    "claims.loses": lambda: {
        "position": "4r1k1/5ppp/8/3n4/8/6B1/5PPP/3R2K1 w - - 0 1", **QUICK,
        "move": Moves("4r1k1/5ppp/8/3n4/8/6B1/5PPP/3R2K1 w - - 0 1", "Rxd5"),
        "better": Moves("4r1k1/5ppp/8/3n4/8/6B1/5PPP/3R2K1 w - - 0 1", "h3"),
    },
    "claims.material": lambda: {"position": "start", "says": "even"},
    "claims.mates": lambda: {
        "position": BACK_RANK, "within": 1, "move": Moves(BACK_RANK, "Ra8#"), **WHITE
    },
    "claims.mates_or_wins": lambda: {
        "position": BACK_RANK, **AT_ONCE, "move": Moves(BACK_RANK, "Ra8#"), **WHITE
    },
    "claims.must_check": lambda: {
        "position": "6k1/R2p1ppp/8/8/5n2/7q/7P/7K w - - 0 1", "mate": 1
    },
    "claims.only_defence": lambda: {
        "position": DEFENCE, "move": Moves(DEFENCE, "Ka6"), **QUICK
    },
    "claims.only_legal_reply": lambda: {
        "position": ONE_REPLY, "move": Moves(ONE_REPLY, "Kxg2")
    },
    "claims.parries": lambda: {
        "position": THREATENED, "move": Moves(THREATENED, "h6"), **AT_ONCE,
        "threat": Moves(passed(THREATENED), "Ra8#"),
    },
    "claims.pawn": lambda: {
        "position": "4k3/8/8/3P4/8/8/8/4K3 w - - 0 1", "square": "d5", "is_": "passed"
    },
    "claims.perpetual": lambda: {
        "position": "6k1/6p1/8/7Q/8/8/1q6/6K1 w - - 0 1", **WHITE,
        "move": Moves("6k1/6p1/8/7Q/8/8/1q6/6K1 w - - 0 1", "Qe8+"),
    },
    "claims.pinned": lambda: {"position": PINS, "square": "c6", "to": "king"},
    "claims.refuted": lambda: {"position": PINS, "claim": "checkmate"},
    "claims.shows": lambda: {
        "position": FORK, "motif": "fork", "move": Moves(FORK, "Nc7+"), "within": 2,
        "line": Moves(after(FORK, "Nc7+"), "Kd8 Nxa8"),
    },
    "claims.threatens": lambda: {
        "position": THREATENED, "move": Moves(passed(THREATENED), "Ra8#"), **AT_ONCE
    },
    "claims.trapped": lambda: {
        "position": "6k1/5ppp/8/8/8/1P6/bKP5/8 b - - 0 1", "square": "a2", "within": 1
    },
    "claims.wins_material": lambda: {
        "position": UNDEFENDED, "at_least": 5, "within": 1, "move": Moves(UNDEFENDED, "Qxd5"), **WHITE
    },
    "claims.zugzwang": lambda: {"position": "8/8/8/3pK3/2kP4/8/8/8 w - - 0 1", **QUICK},
    "diagrams.Diagram": lambda: {"fen": FORK},
    "diagrams.Mark": lambda: {"role": "force", "square": "e4", "to": "e5"},
    "diagrams.diagram": lambda: {"position": FORK, "last_move": "g2g3"},
    "engine.opinion": lambda: {"position": ROOK, "positions": 500},
    "facts.castling": lambda: {"position": CASTLING, **WHITE},
    "facts.changes": lambda: {"position": FORK, "move": Moves(FORK, "Nc7+")},
    "facts.draws": lambda: {"position": ROOK},
    "facts.ending": lambda: {"position": ROOK},
    "facts.exchange": lambda: {"position": TRADE, "square": "d5", **WHITE},
    "facts.files": lambda: {"position": TRADE},
    "facts.material": lambda: {"position": "start"},
    "facts.pawns": lambda: {"position": TRADE},
    "facts.pressure": lambda: {"position": TRADE, "square": "d5", **WHITE},
    "facts.purpose": lambda: {
        "position": FORK, "move": Moves(FORK, "Nc7+"),
        "line": Moves(after(FORK, "Nc7+"), "Kd8 Nxa8"),
    },
    "facts.structure": lambda: {"position": TRADE},
    "lessons.Lesson.add_line": lambda: lesson_with(
        at="1... e5", line=Moves(after(after(chess.STARTING_FEN, "e4"), "e5"), "d4 exd4")
    ),
    "lessons.Lesson.add_position": lambda: lesson_with(position=FORK),
    "lessons.Lesson.after": lambda: lesson_with(address="2. Nf3"),
    "lessons.Lesson.at": lambda: lesson_with(address="2. Nf3"),
    "lessons.Lesson.before": lambda: lesson_with(address="2. Nf3"),
    "lessons.Lesson.player": lambda: {
        "self": Lesson.from_text('[White "Quill, Ada"]\n[Black "Marsh"]\n\n1. e4 *'), **WHITE
    },
    "lessons.Lesson.remove_line": lambda: lesson_with(at="2. f4"),
    "lessons.Moment.after": lambda: {
        "self": a_lesson().start, "line": Moves("start", "e4 e5 Nf3")
    },
    "motifs.scan": lambda: {"lesson": a_lesson()},
    "motifs.tag": lambda: {
        "position": FORK, "move": Moves(FORK, "Nc7+"), "within": 2,
        "line": Moves(after(FORK, "Nc7+"), "Kd8 Nxa8"),
    },
    "motifs.tags": lambda: {"position": TRADE, "squares": ["d5", "c4"]},
    "lessons.opening_of": lambda: {"lesson": a_lesson()},
    "notation.read_line": lambda: {"position": FORK, "line": Moves(FORK, "Nc7+ Kd8 Nxa8")},
    "notation.read_move": lambda: {"position": FORK, "move": Moves(FORK, "Nc7+")},
    "notation.read_movetext": lambda: {"text": "1. Nc7+ Kd8", "position": FORK},
    "notation.write_last_move": lambda: {"position": FORK},
    "notation.write_line": lambda: {"position": FORK, "line": Moves(FORK, "Nc7+ Kd8 Nxa8")},
    "notation.write_move": lambda: {"position": FORK, "move": Moves(FORK, "Nc7+")},
    "search.best_replies": lambda: {"position": THREATENED, "goal": Mate(within=1)},
    "search.fastest": lambda: {"position": BACK_RANK, "within": 1, **WHITE},
    "search.keys": lambda: {"position": BACK_RANK, "goal": Mate(within=1)},
    "search.mates": lambda: {"position": BACK_RANK, "within": 1},
    "search.prove": lambda: {
        "position": BACK_RANK, "goal": Mate(within=1), "move": Moves(BACK_RANK, "Ra8#"), **WHITE
    },
    "search.refute_mate": lambda: {"position": ROOK, "within": 1, **WHITE},
    "search.threat": lambda: {"position": THREATENED, "goal": Mate(within=1)},
    "teaching.questions.ahead": lambda: {"position": TRADE},
    "teaching.questions.captures": lambda: {"position": TRADE},
    "teaching.questions.castling": lambda: {"position": CASTLING, **WHITE},
    "teaching.questions.checks": lambda: {"position": FORK},
    "teaching.questions.count": lambda: {"position": TRADE, "square": "d5", **WHITE},
    "teaching.questions.find_line": lambda: {"position": BACK_RANK, "mate": 1},
    "teaching.questions.find_move": lambda: {
        "position": BACK_RANK, "mate": 1, "right": Moves(BACK_RANK, "Ra8#")
    },
    "teaching.questions.hanging": lambda: {
        "position": UNDEFENDED, "right": ["d1"], **WHITE
    },
    "teaching.questions.legal_moves": lambda: {"position": ONE_REPLY},
    "teaching.questions.name_tactic": lambda: {
        "position": FORK, "move": Moves(FORK, "Nc7+"),
        "line": Moves(after(FORK, "Nc7+"), "Kd8 Nxa8"),
    },
    "teaching.questions.overloaded": lambda: {"position": ROOK, **WHITE},
    "teaching.questions.pinned": lambda: {"position": PINS, **WHITE},
    "teaching.questions.purpose": lambda: {"position": FORK, "move": Moves(FORK, "Nc7+")},
    "teaching.questions.threatened": lambda: {
        "position": THREATENED, "right": Moves(passed(THREATENED), "Ra8#")
    },
    "teaching.questions.true_or_false": lambda: {
        "claim": claims.mates, "position": BACK_RANK, "within": 1
    },
    "teaching.questions.why_not_take": lambda: {"position": DEFENDED, "square": "d5", "by": "d2"},
    "teaching.recall.Drill.answer": lambda: {
        "self": recall.drill(a_lesson()), "move": Moves("start", "e4")
    },
    "teaching.recall.Guessing.answer": lambda: {
        "self": recall.guess(a_lesson(), depth=Depth(**QUICK)), "move": Moves("start", "e4")
    },
    "teaching.recall.drill": lambda: {"line": a_lesson(), **WHITE},
    "teaching.recall.guess": lambda: {"line": a_lesson(), **WHITE},
    "verdicts.reply_table": lambda: {"position": TRADE, "taking": "d5", **QUICK},
    "verdicts.verdict": lambda: {
        "position": BACK_RANK, "move": Moves(BACK_RANK, "Ra8#"), "depth": Depth(**QUICK)
    },
    "verdicts.verdicts": lambda: {"position": ROOK, "depth": Depth(**QUICK)},
    "widgets.BranchExplorer": lambda: {"lesson": a_lesson(), "at": "2. Nf3"},
    "widgets.LiveBoard": lambda: {"position": FORK},
    "widgets.LiveBoard.play": lambda: {"self": moved_board(), "move": Moves("start", "Nf3")},
    "widgets.LiveBoard.show": lambda: {"self": moved_board(), "position": FORK},
    "widgets.MotifTags": lambda: {"position": FORK, "move": Moves(FORK, "Nc7+")},
    "widgets.ReplyExplorer": lambda: {"position": THREATENED, **QUICK},
    ".mates_with_adviser": lambda: {
        "position": BACK_RANK, "within": 1, "move": Moves(BACK_RANK, "Ra8#")
    },
}  # fmt: skip


def answer(name: str, **changed: Any) -> tuple[str, ...]:
    """Call a function as in the table, but for what is changed, and say all that came of it."""
    given = {**CALLS[name](), **changed}
    plain = {key: value.text if isinstance(value, Moves) else value for key, value in given.items()}
    owner = plain.pop("self", None)
    found = FUNCTIONS[name](*([] if owner is None else [owner]), **plain)
    lesson = owner.pgn if isinstance(owner, Lesson) else ""
    told = str(found) if isinstance(found, chess.pgn.Game) else repr(found)
    return told, str(getattr(found, "line", "")), repr(owner), lesson


def test_there_is_a_call_of_every_function_that_reads_something():
    assert set(CALLS) == {name for name, _ in PLACES}


@pytest.mark.parametrize(("name", "parameter"), PLACES)
def test_every_call_says_what_its_parameters_are(name, parameter):
    assert parameter in CALLS[name]()


# -- in every form ---------------------------------------------------------------------------

ALSO_KING = ["king", "King", " KING ", "K", "k", "♔", "♚", chess.Piece(chess.KING, chess.WHITE)]


def forms(kind: str, given: Any) -> list[Any]:
    """Return a value in all forms in which it may be given."""
    return list(FORMS[kind](given))


def positions(given: Any) -> Iterator[Any]:
    board = chess.Board() if given == "start" else chess.Board(given)
    game = chess.pgn.Game()
    game.setup(board)
    yield from (board, board.fen(), f"  {board.fen()}\n", " ".join(board.fen().split()[:4]), game)
    yield Lesson(title="A position").add_position(board)
    if given == "start":
        yield from ("start", " Start ", "startpos")


def moves(given: Moves) -> Iterator[Any]:
    board, (move,) = given.board, given.moves
    yield move
    for form in ("san", "long", "uci", "figurine", "long figurine", "spoken"):
        yield write_move(board, move, form=form)
    number = f"{board.fullmove_number}{'.' if board.turn else '...'}"
    yield from (f"{number} {board.san(move)}", f" {board.san(move)}! ")


def lines(given: Moves) -> Iterator[Any]:
    board, played = given.board, given.moves
    yield from (write_line(board, played), given.text, played, tuple(played), iter(played))
    written: dict[str, list[str]] = {"san": [], "long": [], "uci": [], "spoken": []}
    for move in played:
        for form, so_far in written.items():
            so_far.append(write_move(board, move, form=form))
        board.push(move)
    yield from written.values()
    yield " ".join(written["uci"])
    yield [played[0], *written["spoken"][1:]]


def sides(given: chess.Color) -> Iterator[Any]:
    name = "White" if given else "Black"
    yield from (given, name, name.lower(), name.upper(), f" {name} ", name[0], name[0].lower())


def squares(given: str) -> Iterator[Any]:
    yield from (given, given.upper(), f" {given} ", chess.parse_square(given))


def several_squares(given: list[str]) -> Iterator[Any]:
    yield from zip(*map(squares, given), strict=True)
    yield from (given, iter(given))


def addresses(given: str) -> Iterator[Any]:
    yield from (given, f" {given} ", given.replace(". ", "."))


def last_moves(given: str) -> Iterator[Any]:
    yield from (given, chess.Move.from_uci(given))


def behind(given: str) -> Iterator[Any]:
    assert given == "king"
    yield from (*ALSO_KING, *squares("e8"))


FORMS: dict[str, Callable[[Any], Iterator[Any]]] = {
    "address": addresses, "behind": behind, "last move": last_moves, "line": lines,
    "move": moves, "position": positions, "side": sides, "square": squares,
    "squares": several_squares,
}  # fmt: skip


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("name", "parameter"),
    [place for place in PLACES if kind_of(*place) in FORMS and place != ("claims.illegal", "move")],
)
def test_every_form_gets_the_same_answer(name, parameter):
    given = CALLS[name]()[parameter]
    tried = forms(kind_of(name, parameter), given)
    assert len(tried) > 1
    for form in tried:
        assert answer(name, **{parameter: form}) == answer(name), form


@pytest.mark.parametrize("side", [*sides(chess.BLACK)], ids=repr)
@pytest.mark.parametrize("name", [name for name, parameter in PLACES if parameter == "side"])
def test_the_other_side_is_another_answer(name, side):
    """A function that passed over the side would give every form of one side the same answer."""
    with_black = []
    for form in (chess.BLACK, side):
        try:
            with_black.append(answer(name, side=form))
        except ChessnbError as error:
            with_black.append((type(error).__name__, str(error)))
    assert with_black[0] == with_black[1] != answer(name)


@pytest.mark.parametrize("move", ["Kg7", "Kg8-g7", "g8g7", "♚g7", chess.Move.from_uci("g8g7")])
def test_an_illegal_move_is_claimed_in_every_form_and_told_as_it_was_given(move):
    typed = move.uci() if isinstance(move, chess.Move) else move
    found, plain = claims.illegal(THREATENED, move), claims.illegal(THREATENED, "Kg7")
    assert found.words == f"{typed} is not legal"
    assert found.evidence == plain.evidence
    assert found.paragraphs[0] == f"{typed} is not legal."


def test_a_moment_of_the_lesson_stands_for_its_own_address():
    lesson = a_lesson()
    moment = lesson.at("2. f4")
    assert lesson.at(moment) == lesson.after(moment) == moment
    assert lesson.before(moment) == moment.back
    assert lesson.add_line(moment, "d5").address == "2. f4 d5"
    lesson.remove_line(moment)
    assert "f4" not in lesson.pgn


def test_the_board_or_moment_that_is_handed_in_is_not_changed():
    board = chess.Board(FORK)
    moment = Lesson(title="A position").add_position(FORK)
    for name, parameter in PLACES:
        if kind_of(name, parameter) == "position" and CALLS[name]()[parameter] == FORK:
            for given in (board, moment):
                answer(name, **{parameter: given})
    assert board == chess.Board(FORK)
    assert not board.move_stack
    assert moment.fen == FORK


# -- what is none ----------------------------------------------------------------------------


class Nothing:
    """An object that nobody knows."""


NONE_OF_ALL = [
    0.5, -1, 10**9, float("nan"), 1j, b"e4", bytearray(b"e4"), "xyzzy", "e9", "i1", "4e", "Zf3",
    "N", "\0", "x" * 3000, "💥", "e4 e9", "None", "[]", Nothing(), Nothing, object(), int, chess,
    chess.Board, len, lambda: None, [None], [[]], [Nothing()], {"e4": 1}, {1, 2}, slice(3), ...,
    NotImplemented, Exception("e4"), chess.SquareSet(), range(-3, -1),
    memoryview(b"e4"), chess.Piece, Lesson,
]  # fmt: skip
"""What is no position, move, line, side, square or lesson."""

NONE_OF_ONE: dict[str, list[Any]] = {
    "address": [None, True, 14, [], (), {}, "14. Nd5", "the good line", chess.Board(), ""],
    "behind": [None, True, 64, [], (), {}, "queen bee", ""],
    "last move": [True, 14, [], (), {}, "Nf3", "e2", "0000", ""],
    "lesson": [None, True, 14, [], (), {}, "game.pgn", chess.pgn.Game(), chess.Board(), ""],
    "line": [True, 14, {}, "1. e4 (1. d4) e5", "1. e4 {", "}", ["e4", "e4", "e4"], "17. e4"],
    "moment": [None, True, 14, [], (), {}, "1. e4", chess.Board(), ""],
    "move": [True, 14, [], (), {}, ["e4"], "", "--", chess.Move.null(), chess.Board(), "1. e4 e5 2. Nf3"],
    "position": [None, True, 14, [], (), {}, "", "28. Ne7+", "e4 e5", "8/8/8/8/8/8/8/8 w - -"],
    "side": [1, 0, [], (), {}, "", "green", "whites", "white black", chess.Piece(1, True)],
    "square": [True, False, 64, [], (), {}, "", "e44", "a1 b1", ["e4"], chess.Piece(1, True)],
    "squares": [None, 64, ["e4", "e9"], "", "e4 e5", ["e4", None], {"e4": 1}, 2.0],
}  # fmt: skip
"""What is none of that kind; some of it is one of another."""

IS_ONE = {
    # A knight.
    "behind": ("N",),
    # A sequence without anything in it, and a set of python-chess's numbers.
    "squares": (chess.SquareSet, set),
    # The same, and the sign of a new move, which printed movetext may hold beside its moves.
    "line": (chess.SquareSet, "N"),
    # An empty board without kings is a position to draw, if not to play on.
    "diagrams.diagram.position": ("8/8/8/8/8/8/8/8 w - -",),
    "diagrams.Diagram.fen": ("8/8/8/8/8/8/8/8 w - -",),
    "notation.read_movetext.position": ("8/8/8/8/8/8/8/8 w - -",),
    "notation.write_last_move.position": ("8/8/8/8/8/8/8/8 w - -",),
    # A pass is written as a game tree writes it.
    "notation.write_move.move": (chess.Move.null(),),
}
"""What is one after all: of a kind, or in one place."""

PYTHONS = re.compile(
    r"object has no|list ind|tuple ind|NoneType|' object|subscript|unhashable|0x[0-9a-f]|"
    r"Traceback|positional|must be|expected str|bytes-like|iterable|operand|<class|"
    r"\bdtype|\bself\b|__\w+__|argument"
)
"""Words of Python's own, which no teacher should have to read."""


def wrong(name: str, parameter: str) -> list[Any]:
    kind = kind_of(name, parameter)
    assert kind is not None
    known = (*IS_ONE.get(kind, ()), *IS_ONE.get(f"{name}.{parameter}", ()))
    types = tuple(one for one in known if isinstance(one, type))
    left_out = inspect.signature(FUNCTIONS[name]).parameters[parameter].default
    return [
        given
        for given in (*NONE_OF_ALL, *NONE_OF_ONE[kind])
        if not isinstance(given, types)
        and not any(type(given) is type(one) and given == one for one in (*known, left_out))
    ]


@pytest.mark.parametrize(("name", "parameter"), PLACES)
def test_thirty_wrong_ones_are_refused_in_a_sentence(name, parameter):
    tried = wrong(name, parameter)
    assert len(tried) >= 30
    for given in tried:
        with pytest.raises(ChessnbError) as caught:
            print(f"taken for one: {given!r}: {answer(name, **{parameter: given})}")
        error = caught.value
        assert not isinstance(error, FalseClaim | UnprovedClaim), given
        message = str(error)
        assert not PYTHONS.search(message), (given, message)
        assert "\n" not in message, given
        assert len(message) < 600, given
        (shown,) = error._render_traceback_()
        assert len(shown.split()) > 4, shown
        assert shown.endswith((".", "?", "!")), shown


@pytest.mark.parametrize(
    ("name", "parameter"),
    [
        (name, parameter)
        for name, parameter in PLACES
        if inspect.signature(FUNCTIONS[name]).parameters[parameter].default
        is inspect.Parameter.empty
    ],
)
def test_none_is_refused_where_something_is_needed(name, parameter):
    with pytest.raises(ChessnbError) as caught:
        answer(name, **{parameter: None})
    assert not isinstance(caught.value, FalseClaim | UnprovedClaim)
    assert not PYTHONS.search(str(caught.value))
