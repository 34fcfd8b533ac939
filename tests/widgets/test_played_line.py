"""How a browser's steps are heard: in order, once, and only where they were meant."""

from typing import Any

import chess
import pytest

from chessnb.diagrams import Mark
from chessnb.widgets.played_line import CLIENTS_KEPT, MEANWHILE, UNDRAWN, Heard, PlayedLine


class Page:
    """A browser page that sends steps, as ``frontend/sync.js`` does."""

    def __init__(self, line: PlayedLine, client: str = "page") -> None:
        self.line, self.client, self.seq = line, client, 0
        self.moves: list[str] = []

    def step(self, kind: str, **said: Any) -> dict[str, Any]:
        self.seq += 1
        place = {"ply": len(self.moves), "line": " ".join(self.moves), "epoch": self.line.epoch}
        return {"kind": kind, "client": self.client, "seq": self.seq, **place, **said}

    def move(self, uci: str) -> dict[str, Any]:
        step = self.step("move", uci=uci)
        self.moves.append(uci)
        return step


def heard(line: PlayedLine, step: dict[str, Any]) -> Heard:
    answer = line.hear(step)
    assert answer is not None
    return answer


def test_steps_are_played_in_order_and_acknowledged() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    for uci in ("e2e4", "e7e5", "g1f3"):
        assert heard(line, page.move(uci)).move == chess.Move.from_uci(uci)
    assert [move.uci() for move in line.moves] == ["e2e4", "e7e5", "g1f3"]
    assert line.state()["acks"] == {"page": 3}


def test_a_step_that_comes_twice_is_played_once() -> None:
    line = PlayedLine(chess.Board())
    step = Page(line).move("e2e4")
    heard(line, step)
    assert line.hear(step) is None
    assert len(line.moves) == 1


def test_an_illegal_move_is_refused_with_the_reason_and_still_acknowledged() -> None:
    line = PlayedLine(chess.Board())
    answer = heard(line, Page(line).move("e2e5"))
    assert answer.move is None
    assert "e5" in answer.refusal
    assert line.moves == ()
    assert line.state()["acks"] == {"page": 1}


def test_a_move_meant_in_another_position_is_refused() -> None:
    line = PlayedLine(chess.Board())
    one, other = Page(line, "one"), Page(line, "other")
    first, second = one.move("e2e4"), other.move("d2d4")
    heard(line, first)
    answer = heard(line, second)
    assert (answer.move, answer.refusal) == (None, MEANWHILE)
    assert [move.uci() for move in line.moves] == ["e2e4"]


def test_what_was_built_on_a_refused_move_is_refused_too() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    steps = [page.move("e2e5"), page.move("e7e6"), page.move("d2d4")]
    assert [heard(line, step).move for step in steps] == [None, None, None]


def test_a_move_meant_before_another_position_was_set_up_is_refused() -> None:
    line = PlayedLine(chess.Board())
    step = Page(line).move("e2e4")
    line.set_up(chess.Board("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"))
    assert heard(line, step).refusal == MEANWHILE


def test_typed_moves_are_read_by_python_and_answered_in_a_teachers_words() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    assert heard(line, page.step("typed", text="1. e2-e4!")).move == chess.Move.from_uci("e2e4")
    page.moves = ["e2e4"]
    answer = heard(line, page.step("typed", text="Bg4"))
    assert answer.move is None
    assert "the pawn on d7 is in the way" in answer.refusal


def test_looking_back_keeps_the_moves_until_another_is_played() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    for uci in ("e2e4", "e7e5", "g1f3"):
        line.hear(page.move(uci))
    line.hear(page.step("go", ply=1))
    assert line.state()["moves"] == ["e2e4", "e7e5", "g1f3"]
    assert [move.uci() for move in line.moves] == ["e2e4"]
    page.moves = ["e2e4"]
    line.hear(page.move("e7e5"))
    assert len(line.state()["moves"]) == 3
    page.moves = ["e2e4", "e7e5"]
    line.hear(page.move("f1c4"))
    assert line.state()["moves"] == ["e2e4", "e7e5", "f1c4"]


@pytest.mark.parametrize(
    "nonsense",
    [
        {},
        {"client": 3, "seq": 1},
        {"client": "page", "seq": "1"},
        {"client": "page"},
    ],
)
def test_what_is_no_step_is_not_heard(nonsense: dict[str, Any]) -> None:
    line = PlayedLine(chess.Board())
    assert line.hear(nonsense) is None
    assert line.state()["acks"] == {}


@pytest.mark.parametrize(
    "strange",
    [
        {"kind": "dance"},
        {"kind": "move"},
        {"kind": "move", "uci": 7},
        {"kind": "move", "uci": "0000"},
        {"kind": "typed", "text": None},
        {"kind": "typed", "text": "e" * 100_000},
        {"kind": "go", "ply": "back"},
        {"kind": "go", "ply": -5},
        {"kind": "go", "ply": 10**9},
        {"kind": "draw"},
        {"kind": "draw", "mark": ["force", "c3", "f6"]},
        {"kind": "draw", "mark": {"role": "force", "square": "c3"}},
        {"kind": "draw", "mark": {"role": "actor", "square": "z9"}},
        {"kind": "draw", "mark": {"role": ["actor"], "square": {}}},
        {"kind": "draw", "mark": {"role": "actor", "square": "e4"}, "line": 3},
        {"kind": "erase", "mark": None},
        {"kind": "wipe", "line": None},
        {"kind": "setup"},
        {"kind": "setup", "fen": 8},
        {"kind": "setup", "fen": "x" * 100_000},
    ],
)
def test_a_strange_step_does_no_harm(strange: dict[str, Any]) -> None:
    line = PlayedLine(chess.Board())
    step = {**Page(line).step("move"), **strange}
    assert heard(line, step).move is None
    assert line.moves == ()
    assert line.state()["marks"] == {}
    assert line.state()["epoch"] == 1
    assert line.state()["acks"] == {"page": 1}


def test_pages_that_were_silent_longest_are_forgotten_first() -> None:
    line = PlayedLine(chess.Board())
    pages = [Page(line, f"page {number}") for number in range(CLIENTS_KEPT + 1)]
    for page in pages:
        line.hear(page.step("go", ply=0))
    assert len(line.state()["acks"]) == CLIENTS_KEPT
    assert "page 0" not in line.state()["acks"]


def test_the_history_before_the_start_is_known() -> None:
    board = chess.Board()
    for san in ("e4", "e5", "Nf3"):
        board.push_san(san)
    line = PlayedLine(board)
    assert line.state()["last"] == "g1f3"
    assert line.state()["after"] == "2. Nf3"
    assert line.moves == ()
    line.push(chess.Move.from_uci("b8c6"))
    assert len(line.board().move_stack) == 4
    assert len(board.move_stack) == 3


# -- strokes -----------------------------------------------------------------

FORCE = {"role": "force", "square": "c3", "to": "f6"}


def test_a_stroke_belongs_to_the_position_that_it_was_drawn_on() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    heard(line, page.move("e2e4"))
    assert heard(line, page.step("draw", mark=FORCE)).refusal == ""
    heard(line, page.step("draw", mark={"role": "actor", "square": "e4", "to": None}, line=""))
    assert line.strokes.on("e2e4") == (Mark(role="force", square="c3", to="f6"),)
    assert line.strokes.on("") == (Mark(role="actor", square="e4"),)
    assert line.state()["marks"]["e2e4"] == [FORCE]
    heard(line, page.step("erase", mark=FORCE))
    heard(line, page.step("wipe", line=""))
    assert line.state()["marks"] == {}


def test_a_stroke_on_a_position_that_the_line_does_not_hold_is_refused() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    heard(line, page.move("e2e4"))
    late = page.step("draw", mark=FORCE)
    for place in ("d2d4", "e2e4 e7e5", "e2e4x"):
        assert heard(line, page.step("draw", mark=FORCE, line=place)).refusal == UNDRAWN
    line.set_up(chess.Board())
    assert line.hear(late) is None, "it came too late, and was acknowledged with later ones"
    assert heard(line, page.step("draw", mark=FORCE, epoch=1)).refusal == UNDRAWN
    assert line.state()["marks"] == {}


def test_a_stroke_that_makes_no_sense_is_refused_with_the_reason() -> None:
    line = PlayedLine(chess.Board())
    answer = heard(line, Page(line).step("draw", mark={"role": "force", "square": "c3"}))
    assert "say where it ends" in answer.refusal


# -- set up by hand ----------------------------------------------------------


def test_a_position_is_judged_without_being_set_up() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    answer = heard(line, page.step("judge", fen="8/8/8/8/8/8/8/4K3 w - - 0 1"))
    assert answer.refusal == "Black has no king"
    assert heard(line, page.step("judge", fen="4k3/8/8/8/8/8/8/4K3 w - - 0 1")).refusal == ""
    assert line.state()["epoch"] == 1
    assert line.board() == chess.Board()


def test_a_position_is_set_up_only_if_it_can_be_played_on() -> None:
    line = PlayedLine(chess.Board())
    page = Page(line)
    heard(line, page.move("e2e4"))
    refused = heard(line, page.step("setup", fen="8/8/8/8/8/8/8/4K3 w - - 0 1"))
    assert refused.refusal == "Black has no king"
    assert [move.uci() for move in line.moves] == ["e2e4"]
    fen = "4k3/8/8/8/8/8/4P3/4K3 w - - 3 40"
    assert heard(line, page.step("setup", fen=fen)).refusal == ""
    assert (line.board().fen(), line.moves, line.epoch) == (fen, (), 2)


def test_typed_moves_are_read_with_the_letters_of_the_language() -> None:
    line = PlayedLine(chess.Board(), language="german")
    page = Page(line)
    assert heard(line, page.step("typed", text="Sf3")).move == chess.Move.from_uci("g1f3")
    page.moves = ["g1f3"]
    answer = heard(line, page.step("typed", text="Lg4"))
    assert answer.move is None
    assert "the pawn on d7 is in the way" in answer.refusal
