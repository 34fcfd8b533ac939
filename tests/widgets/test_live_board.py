"""The live board as Python sees it."""

import json
import threading
import time
from typing import Any

import chess
import pytest

from chessnb.diagrams import Mark
from chessnb.errors import InputError, NotationError, PositionError
from chessnb.notation import LETTERS, UnknownLanguage
from chessnb.widgets import LiveBoard
from chessnb.widgets.display import WIDGET_VIEW

KING_AND_PAWN = "4k3/8/8/8/8/8/4P3/4K3 w - - 0 1"


def send(board: LiveBoard, *ucis: str, client: str = "page", seq: int = 1) -> None:
    """Send moves as a browser does, each built on the ones before."""
    line = [move.uci() for move in board.moves]
    for number, uci in enumerate(ucis, start=seq):
        content = {"client": client, "seq": number, "epoch": board.state["epoch"], "ply": len(line)}
        board._handle_custom_msg(
            {"kind": "move", "uci": uci, "line": " ".join(line), **content}, []
        )
        line.append(uci)


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What boards send to the browser, besides their state."""
    sent: list[dict[str, Any]] = []
    monkeypatch.setattr(
        LiveBoard, "send", lambda _self, content, buffers=None: sent.append(content)
    )
    return sent


def test_moves_of_the_browser_arrive_in_order() -> None:
    board = LiveBoard("start")
    send(board, "e2e4", "e7e5", "g1f3", "b8c6")
    assert [move.uci() for move in board.moves] == ["e2e4", "e7e5", "g1f3", "b8c6"]
    assert board.board.fen().startswith("r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/")
    assert board.state["acks"] == {"page": 4}


def test_followers_are_told_each_move_with_the_board_after_it() -> None:
    board = LiveBoard("start")
    told = []
    board.on_move(
        lambda move, after: told.append((move.uci(), after.fullmove_number, after.peek()))
    )
    send(board, "e2e4", "e7e5")
    board.play("Nf3")
    assert told == [
        (uci, number, chess.Move.from_uci(uci))
        for uci, number in [("e2e4", 1), ("e7e5", 2), ("g1f3", 2)]
    ]


def test_a_refused_move_is_answered_and_nobody_is_told(answers: list[dict[str, Any]]) -> None:
    board = LiveBoard("start")
    told: list[chess.Move] = []
    board.on_move(lambda move, _: told.append(move))
    send(board, "e2e5")
    assert told == []
    assert board.moves == ()
    (answer,) = answers
    assert (answer["kind"], answer["client"], answer["seq"]) == ("answer", "page", 1)
    assert "e5" in answer["text"]


def test_a_follower_that_fails_loses_no_move_and_is_shown() -> None:
    board = LiveBoard("start")
    told = []

    @board.on_move
    def fail(move: chess.Move, _: chess.Board) -> None:
        if move.uci() == "e2e4":
            raise ZeroDivisionError("by nought")

    board.on_move(lambda move, _: told.append(move.uci()))
    send(board, "e2e4", "e7e5")
    assert told == ["e2e4", "e7e5"]
    assert len(board.moves) == 2
    assert "ZeroDivisionError: by nought" in board.state["trouble"]
    assert [type(error) for error in board.errors] == [ZeroDivisionError]
    board.show("start")
    assert board.state["trouble"] == ""


def test_a_follower_may_answer_on_the_board_itself() -> None:
    board = LiveBoard("start")
    order = []

    @board.on_move
    def reply(move: chess.Move, after: chess.Board) -> None:
        order.append(move.uci())
        if after.turn == chess.BLACK:
            board.play("e5")

    send(board, "e2e4")
    assert order == ["e2e4", "e7e5"]
    assert [move.uci() for move in board.moves] == ["e2e4", "e7e5"]


def test_followers_called_from_many_threads_hear_every_move_once_and_in_order() -> None:
    board = LiveBoard("start")
    told = []
    inside = []

    @board.on_move
    def slow(move: chess.Move, _: chess.Board) -> None:
        assert not inside, "two followers at a time"
        inside.append(move)
        time.sleep(0.001)
        told.append(move)
        inside.clear()

    def shuffle() -> None:
        for _ in range(20):
            moves = sorted(board.board.legal_moves, key=str)
            try:
                board.play(moves[0])
            except NotationError:  # another thread was quicker
                continue

    threads = [threading.Thread(target=shuffle) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    board.play(next(iter(board.board.legal_moves)))
    deadline = time.monotonic() + 5
    while len(told) < len(board.moves) and time.monotonic() < deadline:
        time.sleep(0.01)
    assert board.errors == ()
    assert tuple(told) == board.moves


def test_playing_showing_and_going_back() -> None:
    board = LiveBoard(KING_AND_PAWN)
    assert board.play("e4") == chess.Move.from_uci("e2e4")
    assert board.play(chess.Move.from_uci("e8e7")) == chess.Move.from_uci("e8e7")
    board.back()
    assert board.board.turn == chess.BLACK
    board.forward()
    assert len(board.moves) == 2
    board.back(5)
    assert board.moves == ()
    board.forward(2)
    board.to_start()
    assert board.board.fen() == KING_AND_PAWN
    assert board.state["moves"] == ["e2e4", "e8e7"]
    board.show("start")
    assert board.board == chess.Board()
    assert (board.state["moves"], board.state["epoch"]) == ([], 2)


def test_a_wrong_move_raises_the_teachers_error_and_changes_nothing() -> None:
    board = LiveBoard(KING_AND_PAWN)
    before = board.state
    with pytest.raises(NotationError, match="e5"):
        board.play("e5")
    assert board.state == before


def test_the_board_handed_over_and_the_boards_handed_out_are_copies() -> None:
    given = chess.Board()
    board = LiveBoard(given)
    board.play("e4")
    assert given == chess.Board()
    board.board.push_san("e5")
    assert len(board.moves) == 1


def test_whatever_has_a_board_is_a_position() -> None:
    first = LiveBoard("start")
    first.play("e4")
    assert LiveBoard(first).board.fen() == first.board.fen()


def test_positions_that_cannot_be_played_on_are_refused() -> None:
    with pytest.raises(PositionError, match="no king"):
        LiveBoard("8/8/8/8/8/8/8/4K3 w - - 0 1")
    with pytest.raises(PositionError, match="castles by the ordinary rules"):
        LiveBoard(chess.Board("rk2r3/8/8/8/8/8/8/RK2R3 w EAea - 0 1", chess960=True))
    board = LiveBoard("start")
    with pytest.raises(PositionError):
        board.show("not a FEN")
    assert board.board == chess.Board()


def test_a_chess960_board_with_ordinary_castling_castles_ordinarily() -> None:
    board = LiveBoard(chess.Board("4k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", chess960=True))
    send(board, "e1g1")
    assert board.board.king(chess.WHITE) == chess.G1


def test_unknown_keywords_are_refused() -> None:
    with pytest.raises(TypeError, match="flipped"):
        LiveBoard("start", flipped=True)  # type: ignore[call-arg]


def test_repr_and_outputs_are_the_same_for_the_same_position() -> None:
    one, other = LiveBoard(KING_AND_PAWN, turned=True), LiveBoard(KING_AND_PAWN, turned=True)
    assert repr(one) == f"LiveBoard({KING_AND_PAWN!r}, turned=True)"
    assert eval(repr(one), {"LiveBoard": LiveBoard}).board == one.board
    (bundle, _), (again, _) = one._repr_mimebundle_(), other._repr_mimebundle_()
    assert bundle["text/plain"] == f"1. | board | {KING_AND_PAWN} | given"
    assert bundle["text/html"] == again["text/html"]
    assert "<img" in bundle["text/html"]
    assert "data:image/svg+xml;base64," in bundle["text/html"]
    assert set(bundle) == {"text/plain", "text/html", WIDGET_VIEW}
    assert bundle[WIDGET_VIEW]["model_id"] == one.model_id


def test_the_state_is_the_same_json_for_the_same_moves() -> None:
    texts = set()
    for _ in range(3):
        board = LiveBoard("start")
        send(board, "e2e4", "e7e5")
        texts.add(json.dumps(board.state))
    assert len(texts) == 1


def test_the_browser_cannot_make_python_play_an_illegal_move() -> None:
    board = LiveBoard("start")
    for seq, uci in enumerate(["e1e8", "a1a1", "e7e5", "zz", ""], start=1):
        send(board, uci, seq=seq)
    assert board.moves == ()


# -- strokes -----------------------------------------------------------------

FORCE = Mark(role="force", square="c3", to="f6")
RING = Mark(role="actor", square="f6")


def draw(board: LiveBoard, seq: int, kind: str, mark: Mark | None = None) -> None:
    """Send a stroke as a browser does."""
    said = None if mark is None else {"role": mark.role, "square": mark.square, "to": mark.to}
    step = {"kind": kind, "client": "page", "seq": seq, "epoch": board.state["epoch"]}
    line = " ".join(move.uci() for move in board.moves)
    board._handle_custom_msg({**step, "line": line, "mark": said}, [])


def test_strokes_of_the_browser_arrive_each_by_itself() -> None:
    board = LiveBoard("start")
    draw(board, 1, "draw", FORCE)
    draw(board, 2, "draw", RING)
    assert board.marks == (FORCE, RING)
    draw(board, 3, "erase", FORCE)
    assert board.marks == (RING,)
    draw(board, 4, "wipe")
    assert board.marks == ()


def test_marks_are_set_and_read_for_the_position_shown() -> None:
    board = LiveBoard("start", marks=[RING])
    assert board.marks == (RING,)
    board.play("e4")
    assert board.marks == ()
    board.marks = [FORCE]
    board.back()
    assert board.marks == (RING,)
    board.forward()
    assert board.marks == (FORCE,)
    assert board.state["marks"] == {
        "": [{"role": "actor", "square": "f6", "to": None}],
        "e2e4": [{"role": "force", "square": "c3", "to": "f6"}],
    }
    with pytest.raises(InputError, match="Mark"):
        board.marks = ["f6"]  # type: ignore[list-item]
    assert board.marks == (FORCE,)
    board.show("start")
    assert board.marks == ()


def test_the_still_form_shows_the_strokes() -> None:
    plain, drawn = LiveBoard("start"), LiveBoard("start", marks=[FORCE])
    (without, _), (bundle, _) = plain._repr_mimebundle_(), drawn._repr_mimebundle_()
    assert "line of force from c3 to f6" in bundle["text/html"]
    assert "line of force" not in without["text/html"]
    assert bundle["text/plain"] == without["text/plain"], "a stroke is no finding"


# -- letters -----------------------------------------------------------------


@pytest.mark.parametrize("language", LETTERS)
def test_moves_are_read_in_the_language_of_the_board(language: str) -> None:
    knight = LETTERS[language][1]
    board = LiveBoard("start", letters=language)
    assert board.piece_letters == LETTERS[language]
    assert board.play(f"{knight}f3") == chess.Move.from_uci("g1f3")
    assert board.play(chess.Move.from_uci("b8c6")) == chess.Move.from_uci("b8c6")
    board._handle_custom_msg(
        {"kind": "typed", "text": f"{knight}c3", "client": "page", "seq": 1, "epoch": 1,
         "line": "g1f3 b8c6"}, []
    )  # fmt: skip
    assert board.moves[-1] == chess.Move.from_uci("b1c3")


def test_letters_can_be_changed_and_unknown_ones_are_refused() -> None:
    board = LiveBoard("start", letters="figurine")
    assert board.piece_letters == "♙♘♗♖♕♔"
    board.play("Nf3")
    board.letters = "german"
    assert board.piece_letters == LETTERS["german"]
    board.play("Sf6")
    with pytest.raises(UnknownLanguage, match="german"):
        board.letters = "germann"
    assert board.letters == "german"
    with pytest.raises(
        UnknownLanguage, match=r"known\. The languages are .*; or write figurine\.$"
    ):
        LiveBoard("start", letters="klingon")
    assert LiveBoard("start", letters="deutsch").piece_letters == LETTERS["german"]
    assert LiveBoard("start", letters="Figurines").piece_letters == "♙♘♗♖♕♔"


@pytest.mark.parametrize("content", [None, "text", [], 3, {"kind": "move"}])
def test_a_message_that_is_no_step_does_no_harm(content: object) -> None:
    board = LiveBoard("start")
    board._handle_custom_msg(content, [])
    assert board.moves == ()


def test_what_one_board_carries_to_the_browser_is_lean() -> None:
    board = LiveBoard("start")
    assert len(board._esm) + len(board._css) < 110_000


def test_a_board_is_made_quickly() -> None:
    LiveBoard("start")
    started = time.perf_counter()
    for _ in range(10):
        LiveBoard("start")
    assert (time.perf_counter() - started) / 10 < 0.1


def test_every_state_says_how_many_were_told_before_it_so_that_a_late_one_is_known() -> None:
    board = LiveBoard()
    told = [board.state["told"]]
    board.observe(lambda change: told.append(change["new"]["told"]), "state")
    board.play("e4")
    send(board, "e7e5")
    board.back(2)
    board.show(KING_AND_PAWN)
    assert told == [0, 1, 2, 3, 4]
