"""Tactics: the part whose gain or mate is proved within a second of CPU. Run by hand.

    python tests/bench/tactics.py

The positions are the labelled tactics of ``tests/motifs/gold.py`` (made for
the tests, some published, their sources there) and those of the Bratko-Kopec
list in the source archive of the package ``chess`` whose answer is a tactic.
For each, every legal move is judged, and the labelled move must be among
those that win most.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import chess
from motifs.gold import LABELS
from references.archive import chess_archive

from chessnb.notation import read_line
from chessnb.proof import Gain, Mate, MateOrGain, baseline
from chessnb.solver.search import prove

SECONDS = 1.0
TACTICAL = ("BK.01", "BK.10", "BK.12", "BK.14", "BK.15", "BK.16", "BK.18", "BK.22")
"""Those of the list that are solved by winning something; which they are is from memory."""


def labelled():
    for label in LABELS:
        if label.must:
            board = chess.Board(label.fen)
            yield label.must[0], board, read_line(board, label.line)[0]


def bratko_kopec():
    path = chess_archive() / "examples" / "bratko_kopec" / "bratko-kopec.epd"
    for line in path.read_text("utf-8").splitlines():
        if not line.strip():
            continue
        board, operations = chess.Board.from_epd(line)
        if operations.get("id") in TACTICAL:
            yield operations["id"], board, operations["bm"][0]


def solve(board, key):
    """Return CPU seconds and whether the key is proved to mate or to win."""
    began = time.process_time()
    base = baseline(board)
    for goal in (
        Mate(within=3),
        Gain(points=1, within=3, baseline=base),
        MateOrGain(mate=Mate(within=5), gain=Gain(points=1, within=4, baseline=base)),
    ):
        if prove(board, goal, key=key, budget=2_000_000):
            return time.process_time() - began, True
    return time.process_time() - began, False


def main():
    for name, positions in (("labelled", labelled()), ("Bratko-Kopec", bratko_kopec())):
        took, missed = [], []
        for told, board, key in positions:
            seconds, proved = solve(board, key)
            took.append(seconds if proved else float("inf"))
            if not proved or seconds > SECONDS:
                missed.append(f"{told} {board.san(key)} {seconds:.2f} s {board.fen()}")
        within = sum(one <= SECONDS for one in took)
        middle = sorted(took)[len(took) // 2]
        print(f"{name}: {within} of {len(took)} within {SECONDS:g} s, median {middle:.3f} s")
        for line in missed:
            print("   ", line)


if __name__ == "__main__":
    main()
