"""Asking for the tags of a move, or of the move that led to a position."""

from pathlib import Path

import chess
import pytest
from IPython.core.formatters import DisplayFormatter

from chessnb import Lesson, motifs
from chessnb.errors import IllegalMove, LessonError

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"
FORK = "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"


def test_a_move_may_be_named_in_every_way():
    board = chess.Board(FORK)
    wanted = [tag.words for tag in motifs.tag(FORK, "Nc7+")]
    assert wanted == ["fork: The knight on c7 forks the rook on a8 and the king on e8 (2 points (rook for knight))"]  # fmt: skip
    for tags in (
        motifs.tag(board, board.parse_san("Nc7+")),
        motifs.tag(board, line="Nc7+ Kd8 Nxa8"),
        motifs.tag(board, "Nc7+", line="Kd8 Nxa8"),
        motifs.tag(board, "Nc7+", line="Nc7+ Kd8 Nxa8"),
    ):
        assert [tag.words for tag in tags] == wanted
    assert board.fen() == FORK
    assert not board.move_stack


def test_errors():
    with pytest.raises(LessonError, match="name a move"):
        motifs.tag(FORK)
    with pytest.raises(IllegalMove):
        motifs.tag(FORK, "Nd6+")


def test_geometric_tags_say_so_and_are_shown_on_request_only():
    position = "4k3/6pp/2n5/8/8/8/6PP/4KB2 w - - 0 1"
    assert motifs.tag(position, "Bb5") == ()
    (pin,) = (tag for tag in motifs.tag(position, "Bb5", geometric=True) if "pin" in tag.motif)
    assert pin.gain is None
    assert pin.words.endswith("(geometric)")
    assert pin.paragraphs[-1] == "The pattern is on the board; nothing is proved to be won by it."


def test_two_looks_say_the_same():
    lesson = Lesson.read(GAME)
    moment = lesson.after("20... Nf3+")
    assert motifs.tag(moment) == motifs.tag(moment)
    assert motifs.tag(moment) == motifs.tag(
        moment.back.board, moment.move, line=[one.move for one in moment.node.mainline()]
    )


def test_tags_show_as_a_record_and_a_picture_each():
    shown = motifs.tag("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+")._repr_mimebundle_()
    assert shown["text/plain"] == (
        "1. Nc7+ | tactic | fork | by Nc7 | on Ra8 Ke8 | 2 points | proved"
    )
    assert shown["text/html"].count("<img") == 1
    cell, _ = DisplayFormatter().format(motifs.tag(FORK, "Nc7+"))
    assert cell["text/plain"] == shown["text/plain"]
    nothing = motifs.tag("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Ne3")._repr_mimebundle_()
    assert nothing["text/plain"] == "1. Ne3 | tactic | none | searched"
