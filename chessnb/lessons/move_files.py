"""Games written down as one says them: moves, with notes between them, in a text file.

A line holds a move, or one of each side; the number before it may be left out.
Behind a dash, in braces or in brackets stands a note on the move; so does a line
that begins with a dash.  Lines such as ``White: Anna`` before the first move are
the game's headers; ``#`` begins a line that is passed over::

    White: Anna
    1. e4 e5
    knight f3 - developing, hits e5
    Springer c6
    - defends the pawn

Everything that cannot be read is told at once, with the moves that may have
been meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from os import PathLike
from pathlib import Path

import chess
import chess.pgn

from chessnb.board.sides import SIDES
from chessnb.errors import GameFileError
from chessnb.lessons.meant_moves import near_moves, pair_in, read_any

SUFFIX = ".txt"
"""How the names of such files end."""

_HEADERS = {
    "event": "Event", "title": "Event", "titel": "Event", "turnier": "Event", "white": "White",
    "weiß": "White", "weiss": "White", "black": "Black", "schwarz": "Black", "site": "Site",
    "place": "Site", "ort": "Site", "date": "Date", "datum": "Date", "round": "Round",
    "runde": "Round", "annotator": "Annotator", "result": "Result", "ergebnis": "Result",
}  # fmt: skip
_HEADER = re.compile(r"^(\w+)\s*:\s*(\S.*)$")
_RESULT = re.compile(r"(?:^|\s)(1-0|0-1|1/2-1/2|½-½)\s*$")
_NOTE_LINE = re.compile(r"^(?:[-–—*>]+\s+|note\s*:\s*|notiz\s*:\s*)(?P<note>.+)$", re.IGNORECASE)
_NOTE = re.compile(r"\s+[-–—]+\s+(?P<rest>.+)$|\s*;\s*(?P<more>.+)$")
_BLOCK = re.compile(r"\{([^{}]*)\}|\(([^()]*)\)")
_NUMBER = re.compile(
    r"(?<![\w./=-])(\d{1,3})\s*(\.{3}|…|\.(?!\d)|\)|:)\s*|^\s*(\d{1,3})\s+(?=[^\W\d])"
)
_SHOWN = 3
_FEW = 6  # words: a line of more, with no number, may be prose; common practice, no source


@dataclass(frozen=True, kw_only=True)
class Said:
    """What stands in the file for one move, or for one of each side.

    Attributes
    ----------
    line : int
        Its line.
    text : str
        The move.
    number, black : int or None, bool or None
        Its number and whether it is Black's, as far as that is said.
    note : str
        What is said of it.
    sure : bool
        Whether it must be a move; else it may be prose.
    """

    line: int
    text: str
    number: int | None = None
    black: bool | None = None
    note: str = ""
    sure: bool = True


@dataclass(frozen=True, kw_only=True)
class Doubt:
    """A place that cannot be read, or is not legal.

    Attributes
    ----------
    line : int
        Its line.
    text : str
        What stands there.
    reason : str
        What is the matter, in words without a full stop.
    near : tuple of str
        The legal moves that may have been meant, the likeliest first.
    assumed : str
        The move with which the reading went on; empty if it was passed over.
    """

    line: int
    text: str
    reason: str
    near: tuple[str, ...] = ()
    assumed: str = ""

    def __str__(self) -> str:
        meant = f". Meant may be {', '.join(self.near)}" if self.near else ""
        went = f"as if it were {self.assumed}" if self.assumed else "without it"
        return f"line {self.line}, “{self.text}”: {self.reason}{meant}. Read on {went}."


@dataclass(frozen=True, kw_only=True)
class _Way:
    """One way to read the file so far: with as few doubts as can be, the likeliest moves."""

    board: chess.Board
    steps: tuple[chess.Move | str, ...] = ()  # moves, and notes on what stands before them
    doubts: tuple[Doubt, ...] = ()
    shift: int = 0
    cost: float = 0.0

    def played(self, move: chess.Move, *, cost: float = 0.0, doubt: Doubt | None = None) -> _Way:
        board = self.board.copy(stack=False)
        board.push(move)
        doubts = self.doubts if doubt is None else (*self.doubts, doubt)
        steps = (*self.steps, move)
        return replace(self, board=board, steps=steps, doubts=doubts, cost=self.cost + cost)

    def noted(self, note: str) -> _Way:
        return replace(self, steps=(*self.steps, note)) if note else self


_HALF = re.compile(r"\s(?:[a-h]|[1-8])$")
"""A text that ends with a file or a rank alone may fit one move by chance."""
_WAYS, _TRIED = 24, 12
_WORSE = 1.5
"""So many ways are kept, each with so many moves behind a place, and none that is so much worse
than the best (tried on games that were spoilt for it)."""
_BASE, _PASSED_OVER, _WRONG_NUMBER = 0.5, 1.5, 0.7


def is_move_file(path: str | PathLike[str]) -> bool:
    """Tell by its name and its beginning whether a file holds moves as one says them."""
    place = Path(path)
    if place.suffix.lower() != SUFFIX or not place.is_file():
        return False
    with place.open(encoding="utf-8-sig", errors="replace") as file:
        return not any(
            line.lstrip().startswith("[") for _, line in zip(range(3), file, strict=False)
        )


def read_move_file(path: str | PathLike[str]) -> chess.pgn.Game:
    """Read a file of moves as one says them.

    Raises
    ------
    GameFileError
        If the file cannot be read or holds no move; or with every place of it
        that cannot be read or is not legal.
    """
    try:
        text = Path(path).read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise GameFileError(f"cannot be read: {error}", path=str(path)) from None
    game, doubts = read_moves(text)
    if doubts:
        count = "one place" if len(doubts) == 1 else f"{len(doubts)} places"
        listed = "\n".join(f"  {doubt}" for doubt in doubts)
        raise GameFileError(f"{count} cannot be read:\n{listed}", path=str(path))
    if game.next() is None:
        raise GameFileError("there is no move in this file", path=str(path))
    return game


def read_moves(text: str) -> tuple[chess.pgn.Game, tuple[Doubt, ...]]:
    r"""Read moves as one says them, with notes between them.

    Parameters
    ----------
    text : str
        What stands in the file.

    Returns
    -------
    (chess.pgn.Game, tuple of Doubt)
        The game, and every place that could not be read; where one move was
        likely meant the reading went on as if it stood there.

    Examples
    --------
    >>> game, doubts = read_moves("1. e4 e5\nknight f3 - hits e5\nknigth c6")
    >>> print(game.mainline())
    1. e4 e5 2. Nf3 { hits e5 } 2... Nc6
    >>> print(doubts[0].line, doubts[0].text)
    3 knigth c6
    """
    game = chess.pgn.Game()
    ways = [_Way(board=game.board())]
    for said in _said_in(text, game):
        ways = _best(further for way in ways for further in _read(way, said))
    best = ways[0]
    node: chess.pgn.GameNode = game
    for step in best.steps:
        if isinstance(step, str):
            note = " ".join(step.replace("{", "(").replace("}", ")").split())
            node.comment = f"{node.comment} {note}".strip()
        else:
            node = node.add_variation(step)
    return game, best.doubts


def _best(ways: Iterable[_Way]) -> list[_Way]:
    """Keep the best of several ways, each position once."""
    kept: dict[str, _Way] = {}
    for way in sorted(ways, key=lambda way: way.cost):
        kept.setdefault(way.board.fen(), way)
    found = list(kept.values())[:_WAYS]
    return [way for way in found if way.cost <= found[0].cost + _WORSE]


def _read(way: _Way, said: Said) -> Iterator[_Way]:
    """Yield how what stands in one place can be read, in one of the ways so far."""
    if not said.text:
        yield way.noted(said.note)
        return
    if said.number is not None and not _is_next(way, said):
        yield from _with_wrong_number(way, said)
        return
    moves, reason = read_any(way.board, said.text)
    if moves and _HALF.search(said.text):
        yield from _guessed(way, said, "half of a square is said: name its file and its rank")
    elif moves:
        for move in moves:
            way = way.played(move)
        yield way
    elif pair := pair_in(said.text):
        first, second = (replace(said, text=text, number=None, black=None) for text in pair)
        yield from (two for one in _read(way, first) for two in _read(one, second))
    elif not said.sure:
        yield way.noted(said.text)
    else:
        yield from _guessed(way, said, reason)


def _guessed(way: _Way, said: Said, reason: str) -> Iterator[_Way]:
    """Yield the ways to go on behind a place that cannot be read: by each legal move, or none."""
    board = way.board
    ranked = near_moves(board, said.text)[:_TRIED]
    sans = {move: board.san(move) for move, _ in ranked}
    near = [sans[move] for move, _ in ranked[:_SHOWN]]
    doubt = Doubt(line=said.line, text=said.text, reason=reason, near=tuple(near))
    yield replace(way, doubts=(*way.doubts, doubt), cost=way.cost + _PASSED_OVER)
    for move, likeness in ranked:
        san = sans[move]
        meant = tuple([san, *(one for one in near if one != san)][:_SHOWN])
        told = replace(doubt, near=meant, assumed=san)
        yield way.played(move, cost=_BASE + 1.0 - likeness, doubt=told)


def _is_next(way: _Way, said: Said) -> bool:
    board = way.board
    black = (not board.turn) if said.black is None else said.black
    return (said.number or 0) - way.shift == board.fullmove_number and black == (not board.turn)


def _with_wrong_number(way: _Way, said: Said) -> Iterator[_Way]:
    """Tell of a number that does not fit: a move of the other side is missing, or it is wrong."""
    board = way.board
    side, number = SIDES[board.turn], (said.number or 0) - way.shift
    black = (not board.turn) if said.black is None else said.black
    plain = replace(said, number=None, black=None)
    behind = (number - board.fullmove_number) * 2 + int(black) - int(not board.turn)
    if behind == 1:
        reason = f"{side}'s move {board.fullmove_number} before it is missing: put it in"
        missing = Doubt(line=said.line, text=f"{said.number}. {said.text}", reason=reason)
        for move in board.legal_moves:
            yield from _read(way.played(move, cost=1.0, doubt=missing), plain)
    right = f"{board.fullmove_number}{'.' if board.turn else '...'} {said.text}"
    doubt = Doubt(
        line=said.line,
        text=f"{said.number}{'...' if said.black else '.'} {said.text}",
        reason=f"here it is {side}'s move number {board.fullmove_number}",
        near=(right,),
        assumed=right,
    )
    shift = (said.number or 0) - board.fullmove_number
    cost = way.cost + _WRONG_NUMBER
    yield from _read(replace(way, doubts=(*way.doubts, doubt), shift=shift, cost=cost), plain)


def _said_in(text: str, game: chess.pgn.Game) -> Iterator[Said]:
    """Yield what stands in the lines, and put the headers into the game."""
    begun = False
    for number, raw in enumerate(text.splitlines(), 1):
        line = raw.strip()
        if not line or line.startswith("#"):
            continue
        header = _HEADER.match(line)
        if not begun and header and header[1].lower() in _HEADERS:
            game.headers[_HEADERS[header[1].lower()]] = header[2].strip()
            continue
        if result := _RESULT.search(line):
            game.headers["Result"] = result[1].replace("½-½", "1/2-1/2")
            line = line[: result.start()].strip()
        for said in _parts(line, number):
            begun = begun or bool(said.text)
            yield said


def _parts(line: str, number: int) -> Iterator[Said]:
    """Yield the moves and notes of a line, in order."""
    if own := _NOTE_LINE.match(line):
        yield Said(line=number, text="", note=own["note"])
        return
    begun = 0
    for block in _BLOCK.finditer(line):
        yield from _moves(line[begun : block.start()], number)
        yield Said(line=number, text="", note=block[1] or block[2] or "")
        begun = block.end()
    rest = line[begun:]
    note = _NOTE.search(rest)
    if note is not None and not re.match(r"^\s*\S*[a-h][1-8]\s+[-–—]\s+[a-h][1-8]\s*$", rest):
        yield from _moves(rest[: note.start()], number)
        yield Said(line=number, text="", note=note["rest"] or note["more"])
    else:
        yield from _moves(rest, number)


def _moves(text: str, line: int) -> Iterator[Said]:
    """Yield the moves of a text, each with the number that stands before it."""
    marks = list(_NUMBER.finditer(text))
    starts = [0, *(mark.end() for mark in marks)]
    ends = [*(mark.start() for mark in marks), len(text)]
    for place, (start, end) in enumerate(zip(starts, ends, strict=True)):
        said = text[start:end].strip().strip(",;").strip()
        if not said:
            continue
        mark = marks[place - 1] if place else None
        number = None if mark is None else int(mark[1] or mark[3])
        dots = "" if mark is None else (mark[2] or "")
        black = True if dots in ("...", "…") else False if number is not None else None
        few = len(said.split()) <= _FEW
        yield Said(line=line, text=said, number=number, black=black, sure=few or number is not None)
