"""Threats: the worst first, named by what falls in the line that is shown."""

import chess
import pytest

from chessnb.search.budget import finish
from chessnb.verdicts.threats import finding_threat


@pytest.mark.parametrize(
    ("fen", "words", "written"),
    [
        # Mate comes before material: Rxd8 would be mate, and the queen hangs too.
        ("3q2k1/5ppp/8/8/8/8/5PPP/3R2K1 b - - 0 1", "mates in 1", "2. Rxd8#"),
        ("6k1/6pp/5p2/q7/8/8/3B1PPP/6K1 b - - 0 1", "wins a queen (9 points)", "2. Bxa5"),
        # A fork is a threat although nothing hangs yet; the knight is caught in the corner.
        ("r3k3/8/8/3N4/8/8/8/4K3 b - - 0 1", "wins the rook for knight (2 points)", "2. Nc7+"),
    ],
)
def test_the_worst_is_found(fen, words, written):
    found = finish(finding_threat(chess.Board(fen)))
    assert found.verdict is not None
    assert found.verdict.words == words
    assert found.verdict.written.startswith(written)
    assert found.settled


@pytest.mark.parametrize(
    "fen",
    [
        "4k3/8/8/8/8/8/8/4K2R w - - 0 1",  # the side that waits has nothing to threaten with
        "4k3/4R3/8/8/8/8/8/4K3 b - - 0 1",  # in check nobody can pass
        "7k/5KQ1/8/8/8/8/8/8 b - - 0 1",  # checkmate
        "7k/8/8/8/8/8/8/K6R w - - 0 1",  # Black, who waits, has a bare king
    ],
)
def test_where_there_is_none(fen):
    found = finish(finding_threat(chess.Board(fen)))
    assert found.verdict is None
    assert found.move is None
    assert found.settled
