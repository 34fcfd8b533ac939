"""Python's side of the explorer: what it answers, to whom, and what it never says."""

import asyncio
import gc
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import chess
import pytest

from chessnb import claims
from chessnb.errors import AddressError, LessonError
from chessnb.lessons import Lesson
from chessnb.teaching.kept_verdicts import keep_verdicts
from chessnb.teaching.printed_tree import movetext
from chessnb.teaching.tries import Answer
from chessnb.widgets.branch_explorer import BranchExplorer

DEMO = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
GAME = "1. e4 e5 2. Nf3 Nc6 (2... Qe7 {Blocks.} 3. Nc3) 3. Bc4 Bc5 4. O-O Nf6 *"
MATE = '[SetUp "1"]\n[FEN "6k1/5ppp/8/8/8/8/5PPP/R3R1K1 w - - 0 1"]\n\n1. Ra8+ *'


class Page:
    """A page that asks an explorer, and keeps what it hears."""

    def __init__(self, explorer: BranchExplorer, name: str = "page") -> None:
        self.explorer = explorer
        self.name = name
        self.heard: list[dict[str, Any]] = []
        self.seq = 0
        explorer.send = self.heard.append

    def ask(self, kind: str, line: str = "", **content: Any) -> dict[str, Any]:
        self.seq += 1
        message = {"kind": kind, "client": self.name, "seq": self.seq, "root": 0, "line": line}
        self.explorer._hear(self.explorer, {**message, **content}, [])
        return self.heard[-1] if self.heard else {}


def lesson() -> Lesson:
    return Lesson.from_text(GAME, title="First moves")


def ucis(moves: str) -> str:
    board = chess.Board()
    for san in moves.split():
        board.push_san(san)
    return " ".join(move.uci() for move in board.move_stack)


# -- opening ---------------------------------------------------------------


def test_it_opens_where_it_is_told_by_moment_or_address():
    game = lesson()
    for at in (game.after("2. Nf3"), "2. Nf3"):
        explorer = BranchExplorer(game, at=at)
        assert explorer.tree["nodes"][explorer.at][2] == "Nf3"
    assert BranchExplorer(game).at == 0


def test_a_moment_of_another_lesson_and_one_that_is_not_there_are_refused():
    with pytest.raises(LessonError, match="another lesson"):
        BranchExplorer(lesson(), at=lesson().after("2. Nf3"))
    with pytest.raises(AddressError):
        BranchExplorer(lesson(), at="9. Qh5")


def test_a_misspelt_option_is_one_error_and_no_second_one_follows(monkeypatch):
    later: list[object] = []
    monkeypatch.setattr(sys, "unraisablehook", later.append)
    with pytest.raises(TypeError, match="hide"):
        BranchExplorer(lesson(), hide=True)
    BranchExplorer.__new__(BranchExplorer).close()
    gc.collect()
    assert later == []


def test_the_saved_output_is_a_record_a_diagram_and_the_movetext():
    explorer = BranchExplorer(lesson(), at="2. Nf3", reveal="ask")
    bundle, metadata = explorer._repr_mimebundle_()
    assert metadata == {}
    fen = "rnbqkbnr/pppp1ppp/8/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2"
    assert bundle["text/plain"] == f'2. Nf3 | explore | "First moves" | {fen} | given'
    assert "<img" in bundle["text/html"]
    assert "1. e4 e5 2. Nf3" in bundle["text/html"]
    assert "Nc6" not in bundle["text/html"]
    again = BranchExplorer(lesson(), at="2. Nf3", reveal="ask")._repr_mimebundle_()[0]
    assert {**bundle, "application/vnd.jupyter.widget-view+json": 0} == {
        **again,
        "application/vnd.jupyter.widget-view+json": 0,
    }


def test_the_static_movetext_breaks_off_for_a_sideline_and_indents_it():
    explorer = BranchExplorer(
        Lesson.from_text(
            "1. e4 e5 2. Nf3 Nc6 (2... Qe7 {Blocks.} 3. Nc3 (3. d4) 3... c6) (2... f6) 3. Bc4 *"
        )
    )
    assert movetext(explorer._shown) == [
        (0, "1. e4 e5 2. Nf3 Nc6"),
        (1, "2... Qe7 Blocks. 3. Nc3"),
        (2, "3. d4"),
        (1, "3... c6"),
        (1, "2... f6"),
        (0, "3. Bc4"),
    ]
    html = explorer._repr_mimebundle_()[0]["text/html"]
    assert "<p style='margin-left: 1.4em'>2... f6</p>" in html


# -- answers -------------------------------------------------------------------


def test_a_try_is_answered_and_named_after_its_question():
    page = Page(BranchExplorer(lesson()))
    heard = page.ask("try", ucis("e4 e5 Qg4 d5 Qxc8"))
    assert (heard["kind"], heard["client"], heard["seq"]) == ("try", "page", 1)
    assert heard["answer"]["kind"] == "offer"
    assert heard["answer"]["line"][:2] == ["g4c8", "d8c8"]


def test_the_lessons_move_reveals_itself_and_a_sideline_does_not():
    page = Page(BranchExplorer(lesson(), at="2. Nf3", reveal="ask"))
    before = len(page.explorer.tree["nodes"])
    assert page.ask("try", ucis("e4 e5 Nf3 Qe7"))["answer"]["kind"] != "lesson"
    assert len(page.explorer.tree["nodes"]) == before
    assert page.ask("try", ucis("e4 e5 Nf3 Nc6"))["answer"]["kind"] == "lesson"
    assert len(page.explorer.tree["nodes"]) == before + 3, "the move, and its sideline of two"


def test_no_answer_of_any_kind_names_the_hidden_move():
    page = Page(BranchExplorer(Lesson.from_text(MATE), reveal="ask"))
    for move in ("e1e8", "a1a7", "g1f1", "h2h3", "a1a8"):
        for kind in ("try", "judge", "remarks", "tags", "threat", "facts"):
            if (kind, move) != ("try", "a1a8") and (kind, move) != ("judge", "a1a8"):
                page.ask(kind, move if move != "a1a8" else "")
    text = str(page.heard)
    assert "Ra8" not in text
    assert "a1a8" not in text


@pytest.mark.parametrize("reveal", ["so far", "ask"])
def test_what_a_move_lets_the_other_side_win_waits_until_the_next_move_is_shown(reveal):
    game = Lesson.from_text("1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# *", title="Short")
    line = ucis("e4 e5 Qh5 Nc6 Bc4 Nf6")
    page = Page(BranchExplorer(game, at="3... Nf6", reveal=reveal))
    before = [*page.ask("remarks", line)["changes"], *page.ask("facts", line)["sentences"]]
    assert not any(said in str(before) for said in ("gain", "f7", "undefended", "queen on h5"))
    assert any("Material" in said for said in before)
    page.ask("reveal", number=page.explorer.at)
    assert page.ask("remarks", line)["changes"] == list(
        Page(BranchExplorer(game)).ask("remarks", line)["changes"]
    )
    assert "attacks" in str(page.heard[-1])


def test_a_move_of_which_nothing_may_be_told_is_not_called_quiet():
    game = Lesson.from_text("1. e4 Nf6 2. e5 *", title="Short")
    line = ucis("e4 Nf6")
    shown = Page(BranchExplorer(game)).ask("remarks", line)["changes"]
    assert "attacks the undefended pawn on e4" in shown[0]
    hidden = Page(BranchExplorer(game, at="1... Nf6", reveal="ask")).ask("remarks", line)["changes"]
    assert hidden == []


def test_what_is_typed_is_read_or_refused_with_the_reason():
    page = Page(BranchExplorer(lesson()))
    assert page.ask("typed", text="knight to f3") == {
        "kind": "typed", "client": "page", "seq": 1, "text": "", "uci": "g1f3",
    }  # fmt: skip
    assert "no square e9" in page.ask("typed", text="e9")["text"]


@pytest.mark.parametrize("line", ["e2e5", "e2", "nonsense", "e2e4 e2e4"])
def test_a_line_that_cannot_be_played_is_refused_in_words(line):
    page = Page(BranchExplorer(lesson()))
    assert "cannot be played" in page.ask("try", line)["trouble"]


@pytest.mark.parametrize(
    "content",
    [None, 7, "text", {}, {"kind": "try"}, {"kind": "unknown"}, {"kind": "reveal", "number": "x"},
     {"kind": "try", "root": 99}, {"kind": "drop"}],
)  # fmt: skip
def test_whatever_a_page_sends_nothing_breaks(content):
    explorer = BranchExplorer(lesson())
    Page(explorer)
    before = explorer.tree
    explorer._hear(explorer, content, [])
    assert explorer.tree == before


def slow(board: chess.Board, move: chess.Move, **_: Any) -> Iterator[int]:
    """Stand in for a search of five slices."""
    for slices in range(1, 6):
        yield 1000 * slices
    return Answer(kind="open", sentence=f"{board.san(move)} was looked at.", line=(move,))


def test_under_a_kernel_a_search_gives_way_and_a_question_that_was_left_is_dropped(monkeypatch):
    monkeypatch.setattr("chessnb.widgets.branch_explorer.answering", slow)
    page = Page(BranchExplorer(lesson()))
    beats = []

    async def kernel() -> None:
        page.ask("try", "d2d4")
        assert page.heard == [], "the message is heard at once, the answer comes later"
        page.ask("try", "a2a3")
        while not any("answer" in one for one in page.heard):
            beats.append(len(page.heard))
            await asyncio.sleep(0)

    asyncio.run(kernel())
    answers = [one for one in page.heard if "answer" in one]
    assert [one["seq"] for one in answers] == [2]
    assert len(beats) > 2, "other messages were heard meanwhile"
    told = [one["positions"] for one in page.heard if "positions" in one and one["seq"] == 2]
    assert told == [1000, 2000, 3000, 4000, 5000]


def test_a_dropped_question_is_not_answered(monkeypatch):
    monkeypatch.setattr("chessnb.widgets.branch_explorer.answering", slow)
    page = Page(BranchExplorer(lesson()))

    async def kernel() -> None:
        page.ask("try", ucis("e4 e5 Nf3 Nc6 d4"))
        page.ask("drop", what="try")
        for _ in range(50):
            await asyncio.sleep(0.002)

    asyncio.run(kernel())
    assert not any("answer" in one for one in page.heard)


def test_the_questions_of_two_pages_do_not_meet():
    explorer = BranchExplorer(lesson())
    one, other = Page(explorer, "one"), Page(explorer, "other")

    async def kernel() -> None:
        one.ask("try", ucis("e4 e5 Nf3 Nc6 d4"))
        other.ask("try", ucis("e4 e5 Nf3 Nc6 d3"))
        while sum("answer" in message for message in other.heard) < 2:
            await asyncio.sleep(0.001)

    asyncio.run(kernel())
    answered = {message["client"] for message in other.heard if "answer" in message}
    assert answered == {"one", "other"}


# -- cells ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("what", "code"),
    [
        ("moment", "lesson.after('2. Nf3')"),
        ("replies", "reply_table(lesson.after('2. Nf3'))"),
        ("question", "BranchExplorer(lesson, at=lesson.after('2. Nf3'), reveal='ask')"),
        ("claim", "claims.threatens(lesson.after('2. Nf3'), 'Nxe5')"),
    ],
)
def test_what_is_shown_becomes_a_cell(what, code):
    page = Page(BranchExplorer(lesson()))
    assert page.ask("cell", ucis("e4 e5 Nf3"), what=what)["code"] == code


def test_a_question_asks_for_the_move_that_comes_next_and_says_so():
    page = Page(BranchExplorer(lesson()))
    asked = page.ask("cell", ucis("e4 e5 Nf3"), what="question")
    assert asked["says"] == "It asks for Black's move after 2. Nf3."
    explorer = eval(
        asked["code"], {"BranchExplorer": BranchExplorer, "lesson": page.explorer.lesson}
    )
    shown = [row[2] for row in explorer.tree["nodes"]]
    assert shown == ["", "e4", "e5", "Nf3"], "the next move is hidden, and no other"
    assert page.ask("cell", what="question") | {"seq": 0} == {
        "kind": "cell", "client": "page", "seq": 0,
        "code": "BranchExplorer(lesson, at=lesson.start, reveal='ask')",
        "says": "It asks for White's move at the start.",
    }  # fmt: skip
    end = page.ask("cell", ucis("e4 e5 Nf3 Nc6 Bc4 Bc5 O-O Nf6"), what="question")
    assert "no next move" in end["trouble"]


def test_a_claim_that_is_copied_says_what_it_claims():
    page = Page(BranchExplorer(lesson()))
    assert page.ask("cell", ucis("e4 e5 Nf3"), what="claim")["says"] == (
        "It claims what White threatens."
    )
    start = page.ask("cell", what="claim")
    assert start["code"] == "claims.material(lesson.start, 'even')"
    assert start["says"] == "It claims how the material stands: nothing more was proved here."
    hidden = Page(BranchExplorer(lesson(), at="2. Nf3", reveal="ask"))
    assert "material" in hidden.ask("cell", ucis("e4 e5 Nf3"), what="claim")["code"]


def test_every_claim_that_is_copied_is_true():
    demo = Lesson.read(DEMO)
    page = Page(BranchExplorer(demo))
    told = set()
    for moment in [one for one in demo.moments() if one.is_main_line][::3]:
        line = " ".join(move.uci() for move in moment.board.move_stack)
        code = page.ask("cell", line, what="claim")["code"]
        eval(code, {"claims": claims, "lesson": demo})  # a false claim raises
        told.add(code.split("(")[0])
    assert told >= {"claims.material", "claims.threatens", "claims.loses"}


def test_a_line_that_was_played_becomes_a_cell_and_a_move_that_wins_a_claim():
    page = Page(BranchExplorer(Lesson.from_text(MATE), variable="club"))
    line = page.ask("cell", "a1d1 g8f8", what="line")["code"]
    assert line == "club.add_line(club.start, '1. Rad1 Kf8')"
    assert (
        page.ask("cell", "a1a8", what="claim")["code"] == "claims.checkmate(club.after('1. Ra8#'))"
    )
    assert "play its moves" in page.ask("cell", "", what="line")["trouble"]
    assert "not the lesson's" in page.ask("cell", "a1d1", what="claim")["trouble"]


# -- kept verdicts ------------------------------------------------------------------


def test_where_verdicts_are_kept_the_first_try_is_answered_without_a_search(tmp_path, monkeypatch):
    path = tmp_path / "mate.pgn"
    path.write_text(f'[Event "Back rank"]\n[Result "*"]\n{MATE}', encoding="utf-8")
    keep_verdicts(Lesson.read(path).start)
    assert not (tmp_path / "mate.proofs.json").exists(), "only when asked"
    monkeypatch.setenv("CHESSNB_KEEP_PROOFS", "1")
    keep_verdicts(Lesson.read(path).start)
    assert (tmp_path / "mate.proofs.json").exists()
    monkeypatch.delenv("CHESSNB_KEEP_PROOFS")

    def searched(*_: Any, **__: Any) -> Iterator[int]:
        raise AssertionError("searched")

    monkeypatch.setattr("chessnb.teaching.tries.judging", searched)
    page = Page(BranchExplorer(Lesson.read(path), reveal="ask"))
    assert (
        page.ask("try", "e1e8")["answer"]["sentence"] == "As good as the lesson's move: checkmate."
    )
    assert "is proved to win" in page.ask("try", "h2h3")["answer"]["sentence"]


ORDERS = """1. d4 (1. c4 e6 2. d4 d5) 1... d5 2. c4 $4 e6 *"""


def test_a_position_of_the_lesson_reached_by_another_way_is_recognised():
    page = Page(BranchExplorer(Lesson.from_text(ORDERS)))
    sentence = page.ask("try", ucis("c4 d5 d4"))["answer"]["sentence"]
    assert "The same position stands in the lesson, where the last move is marked" in sentence
    sentence = page.ask("try", ucis("d4 e6"))["answer"]["sentence"]
    assert "The same position" not in sentence


def test_what_the_lesson_says_of_that_position_is_told_too_unless_it_names_what_is_hidden():
    said = ORDERS.replace("2. d4 d5)", "2. d4 d5 {A set-up for patient players.})")
    page = Page(BranchExplorer(Lesson.from_text(said.replace(" $4", ""))))
    sentence = page.ask("try", ucis("d4 d5 c4 e6"))["answer"]["sentence"]
    assert "says" not in sentence  # it is the lesson's own line
    sentence = page.ask("try", ucis("d4 e6 c4 d5"))["answer"]["sentence"]
    assert sentence.endswith(
        "The same position stands in the lesson, which says: “A set-up for patient players.”"
    )
    hiding = said.replace("patient players", "those who fear 2. c4").replace(" $4", "")
    page = Page(BranchExplorer(Lesson.from_text(hiding), reveal="ask"))
    sentence = page.ask("try", ucis("d4 e6 c4 d5"))["answer"]["sentence"]
    assert sentence.endswith("The same position stands in the lesson.")


MATE_LET_IN = """[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"]

1. Rb3 Ra1+ 2. Rb1 Rxb1# *"""


def test_the_lessons_own_losing_move_hears_that_it_loses():
    page = Page(BranchExplorer(Lesson.from_text(MATE_LET_IN), reveal="ask"))
    answer = page.ask("try", "b1b3")["answer"]
    assert answer["kind"] == "lesson"
    assert answer["sentence"] == "That was played in the game, and White is mated in 2."
    assert answer["written"] == "", "what follows is for the class to find"
