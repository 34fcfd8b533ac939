"""A name, an option or an argument that does not fit is answered in one sentence."""

import inspect
import pydoc

import chess
import pytest

import chessnb
from chessnb import (
    BranchExplorer,
    Lesson,
    LiveBoard,
    MotifTags,
    ReplyExplorer,
    charts,
    claims,
    facts,
    motifs,
    reply_table,
    search,
)
from chessnb.errors import ChessnbError
from chessnb.mistakes import CallError, UnknownImport, UnknownName, checked, nearest
from chessnb.widgets import LiveChart

LESSON = Lesson.from_text("1. e4 e5 2. Nf3 (2. f4) 2... Nc6", title="First moves")
M = LESSON.after("2. Nf3")


@pytest.mark.parametrize(
    ("owner", "name", "near"),
    [
        (claims, "mate", ("mates",)),
        (claims, "win_material", ("wins_material",)),
        (claims, "only_move", ("only_defence", "only_legal_reply")),
        (claims, "parry", ("parries",)),
        (claims, "judgment", ("judgement",)),
        (claims, "pin", ("pinned",)),
        (claims, "guarded", ("defended",)),
        (claims, "castle", ("can_castle", "cannot_castle")),
        (charts, "materials", ("material",)),
        (charts, "pressure", ("pressure_on",)),
        (motifs, "scann", ("scan",)),
        (facts, "castle", ("castling",)),
        (chessnb, "replytable", ("reply_table",)),
        (chessnb, "MotifTag", ("MotifTags",)),
        (LESSON, "befor", ("before",)),
        (LESSON, "moment", ("moments",)),
        (M, "bord", ("board",)),
    ],
)
def test_a_misspelt_name_is_answered_with_the_nearest(owner, name, near):
    with pytest.raises(AttributeError) as caught:
        getattr(owner, name)
    assert isinstance(caught.value, UnknownName)
    assert isinstance(caught.value, ChessnbError)
    assert caught.value.nearest == near
    assert all(known in str(caught.value) for known in near)


def test_where_nothing_is_near_all_is_listed():
    with pytest.raises(UnknownName, match=r"^claims has no 'xyzzy'; it has attacked, .* zugzwang$"):
        _ = claims.xyzzy


@pytest.mark.parametrize(
    ("line", "near"),
    [
        ("from chessnb import MotifTag", "MotifTags"),
        ("from chessnb import Branchexplorer", "BranchExplorer"),
        ("from chessnb.claims import mate", "mates"),
        ("from chessnb import claims, reply_tables", "reply_table"),
    ],
)
def test_a_misspelt_import_is_answered_with_the_nearest(line, near):
    with pytest.raises(UnknownImport, match=rf"did you mean {near}\?$") as caught:
        exec(line, {})
    assert isinstance(caught.value, ImportError)
    assert caught.value._render_traceback_() == [str(caught.value)]


def test_modules_that_are_not_given_out_are_still_imported():
    names = {}
    exec("from chessnb import board, engine\nimport chessnb.search.proof_book", names)
    assert names["engine"].__name__ == "chessnb.engine"


def test_a_property_that_fails_tells_its_own_error(monkeypatch):
    def broken(self):
        return self.nowhere

    monkeypatch.setattr(Lesson, "start", property(broken))
    with pytest.raises(AttributeError, match="nowhere"):
        _ = LESSON.start


def test_python_and_notebooks_may_ask_for_what_is_not_there():
    for owner in (claims, LESSON, M):
        assert not hasattr(owner, "_ipython_display_")
        assert not hasattr(owner, "__wrapped__")
        assert getattr(owner, "nothing_like_it", None) is None


CALLS = [
    (lambda: claims.mates(M, 4), "mates: write within=4"),
    (lambda: claims.mates(M), "mates: within is missing: mates(position, within=…)"),
    (
        lambda: claims.wins_material(M, move="Nc6"),
        "wins_material: at_least and within are missing: wins_material(position, at_least=…, within=…)",
    ),
    (lambda: claims.wins_material(M, 3, 2), "wins_material: write at_least=3 and within=2"),
    (lambda: claims.mates(M, witin=4), "mates: there is no option 'witin': did you mean within?"),
    (lambda: claims.pinned("g6", to="king"), "pinned: square is missing: pinned(position, square)"),
    (
        lambda: claims.pinned(M, "g6", by="queen"),
        "pinned: there is no option 'by'; its only option is to",
    ),
    (
        lambda: claims.pinned(M, "g6", square="g7"),
        "pinned: square is given twice, by its place and as square=…",
    ),
    (
        lambda: claims.checkmate(M, 1),
        "checkmate: that is more than it takes: checkmate(position)",
    ),
    (
        lambda: reply_table(M, mates=4),
        "reply_table: there is no option 'mates': did you mean mate?",
    ),
    (
        lambda: reply_table(M, colour=4),
        "reply_table: there is no option 'colour'; its options are taking, mate, within and budget",
    ),
    (
        lambda: LiveBoard(M, flipped=True),
        "LiveBoard: there is no option 'flipped': did you mean turned?",
    ),
    (
        lambda: BranchExplorer(LESSON, hide=True),
        "BranchExplorer: there is no option 'hide': did you mean reveal?",
    ),
    (lambda: BranchExplorer(LESSON, "2. Nf3"), "BranchExplorer: write at='2. Nf3'"),
    (
        lambda: ReplyExplorer(M, depth=5),
        "ReplyExplorer: there is no option 'depth': did you mean mate or within?",
    ),
    (
        lambda: ReplyExplorer(M, verdict=False),
        "ReplyExplorer: there is no option 'verdict': did you mean verdicts?",
    ),
    (
        lambda: MotifTags(M, leters="german"),
        "MotifTags: there is no option 'leters': did you mean letters?",
    ),
    (
        lambda: charts.mobility("f5"),
        "mobility: start and end are missing: mobility(square, start=…, end=…)",
    ),
    (
        lambda: charts.mobility(piece="g1", start=LESSON.start, end=M),
        "mobility: there is no option 'piece': did you mean square?",
    ),
    (
        lambda: facts.pressure(M, "e5", by=chess.WHITE),
        "pressure: there is no option 'by': did you mean side?",
    ),
    (
        lambda: facts.exchange(M, "e5", by=chess.WHITE),
        "exchange: there is no option 'by': did you mean side?",
    ),
    (
        lambda: facts.changes(before="start", move="e4"),
        "changes: there is no option 'before': did you mean position?",
    ),
    (
        lambda: claims.attacked(M, "e5", by=1, guarded_by=1),
        "attacked: there is no option 'guarded_by': did you mean defended_by?",
    ),
    (
        lambda: claims.drawn(M, by="stalemate"),
        "drawn: there is no option 'by': did you mean rule?",
    ),
    (
        lambda: claims.fastest_mate(M, moves=3),
        "fastest_mate: there is no option 'moves': did you mean within?",
    ),
    (
        lambda: search.prove(M, search, attacker=chess.WHITE),
        "prove: there is no option 'attacker': did you mean side?",
    ),
    (
        lambda: search.prove(M, search, key="e5"),
        "prove: there is no option 'key': did you mean move?",
    ),
    (
        lambda: LESSON.add_line(M, moves="2... d6"),
        "add_line: there is no option 'moves': did you mean line?",
    ),
    (lambda: LESSON.after(), "after: address is missing: after(address)"),
    (
        lambda: Lesson.from_text("1. e4", titel="A"),
        "Lesson: there is no option 'titel': did you mean title?",
    ),
]

GIVEN = [
    (
        lambda: BranchExplorer(M),
        "BranchExplorer takes a lesson, and this is one position of it: "
        "write BranchExplorer(lesson, at='2. Nf3')",
    ),
    (
        lambda: BranchExplorer("my-game.pgn"),
        "BranchExplorer takes a lesson, and 'my-game.pgn' is a text: "
        "write lesson = Lesson.read('my-game.pgn'), then BranchExplorer(lesson)",
    ),
    (
        lambda: charts.material(M),
        "charts.material takes a lesson, and this is one position of it: "
        "write charts.material(lesson)",
    ),
    (
        lambda: charts.material("1. e4 e5"),
        "charts.material takes a lesson, and '1. e4 e5' is a text: "
        "write lesson = Lesson.read('GAME.pgn'), then charts.material(lesson)",
    ),
    (
        lambda: charts.material(M.board),
        "charts.material takes a lesson, not a Board: write charts.material(lesson)",
    ),
    (
        lambda: charts.mobility(LESSON, start=LESSON.start, end=M),
        "charts.mobility takes the name of a square first: write charts.mobility('f5', …)",
    ),
    (
        lambda: charts.pressure_on(LESSON, start=LESSON.start, end=M),
        "charts.pressure_on takes the name of a square first: write charts.pressure_on('f5', …)",
    ),
    (
        lambda: charts.mobility("g1", start="1. e4", end=M),
        "start is a position of a lesson: write start=lesson.after('1. e4')",
    ),
    (
        lambda: charts.pressure_on("e5", start=LESSON.start, end=M.board),
        "end is a position of a lesson: write end=lesson.after('14. Nd5')",
    ),
    (
        lambda: LiveChart(LESSON),
        "LiveChart takes a chart: write LiveChart(charts.material(lesson))",
    ),
]


@pytest.mark.parametrize(
    ("call", "message"), CALLS + GIVEN, ids=[message for _, message in CALLS + GIVEN]
)
def test_a_wrong_call_is_answered_with_what_to_write(call, message):
    with pytest.raises(TypeError) as caught:
        call()
    assert str(caught.value) == message
    assert isinstance(caught.value, CallError)
    assert caught.value._render_traceback_() == [
        message if message.endswith("?") else f"{message}."
    ]


def test_a_type_error_further_in_is_left_alone():
    @checked
    def adds(position):
        return 1 + position

    @checked
    def calls(position):
        return adds(position, 1)

    with pytest.raises(TypeError, match="unsupported operand") as caught:
        adds("start")
    assert not isinstance(caught.value, ChessnbError)
    with pytest.raises(CallError, match=r"^adds: "):
        calls("start")


def test_signatures_and_help_are_what_they_are_without():
    assert str(inspect.signature(claims.mates)).startswith(
        "(position: 'Position', *, within: 'int'"
    )
    assert str(inspect.signature(BranchExplorer)).startswith("(lesson: 'Lesson', *, at: ")
    assert inspect.signature(Lesson.read).parameters.keys() == {"path", "game", "where", "about"}
    told = pydoc.plain(pydoc.render_doc(claims))
    assert "mates(position: 'Position', *, within: 'int'" in told
    assert "Claim that a side mates within so many moves" in told
    assert "__getattr__" not in told
    assert "introduce" not in told
    assert "checked" not in told


def test_nearest_ranks_and_bounds_what_it_names():
    assert nearest("xyzzy", ["mates", "loses"]) == []
    assert nearest("Reply-Table", ["reply_table", "table"]) == ["reply_table"]
    assert len(nearest("mate", [f"mate{letter}" for letter in "abcdefgh"])) == 3
