"""Move generation against the perft lists of the source archive of the package ``chess``.

``examples/perft/random.perft`` and ``tricky.perft`` there name positions with
the number of lines of legal moves to each depth.  The depth is capped a line
by the number of nodes: here low, so that the test is short; the benchmark
``tests/bench/perft.py`` goes to ten million.
"""

import chess
import pytest
from search.uncompiled import uncompiled
from thoroughness import scaled

from chessnb.search import core
from references.archive import chess_archive

CAP = scaled(200_000)
CAP_UNCOMPILED = 3_000


def perft_lines(name, cap):
    """Yield (fen, depth, nodes): for each position the deepest count under the cap.

    Positions with castling rights that only Chess960 knows are left out.
    """
    for fen, depth, nodes in _all_lines(name, cap):
        if not chess.Board(fen, chess960=True).has_chess960_castling_rights():
            yield fen, depth, nodes


def _all_lines(name, cap):
    fen = ""
    deepest = None
    for line in (chess_archive() / "examples" / "perft" / name).read_text("utf-8").splitlines():
        word, _, rest = line.strip().partition(" ")
        if word == "epd":
            if deepest:
                yield fen, *deepest
            fen, deepest = f"{rest} 0 1", None
        elif word == "perft":
            depth, nodes = map(int, rest.split())
            if nodes <= cap:
                deepest = depth, nodes
    if deepest:
        yield fen, *deepest


@pytest.mark.parametrize("name", ["random.perft", "tricky.perft"])
def test_to_the_node(name):
    count = 0
    for fen, depth, nodes in perft_lines(name, CAP):
        assert core.perft(fen, depth) == nodes, (fen, depth)
        count += 1
    assert count >= 5


@pytest.mark.parametrize("name", ["random.perft", "tricky.perft"])
def test_to_the_node_uncompiled(name):
    lines = list(perft_lines(name, CAP_UNCOMPILED))
    for fen, depth, nodes in lines[:: max(1, len(lines) // 300)]:
        assert uncompiled().perft(fen, depth) == nodes, (fen, depth)
