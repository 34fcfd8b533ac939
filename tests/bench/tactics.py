"""Tactics: the part whose gain or mate is proved within a second of CPU. Run by hand.

    python tests/bench/tactics.py [FILE.epd ...]

Other positions are those of the files that are named: EPD with ``bm``.

The positions are the labelled tactics of ``tests/motifs/gold.py`` (made for
the tests, some published, their sources there), those of the Bratko-Kopec
list in the source archive of the package ``chess`` whose answer is a tactic,
and all 300 of ``tests/bench/positions/win_at_chess.epd``, whether their
answer is a tactic or not.  For each, the labelled move must be proved to mate
within 8 moves or to win at least a pawn within 10; of several best moves,
each is asked alone, and the quickest proof counts.
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
from chessnb.proof.measure import Measure
from chessnb.search.prover import prove

SECONDS = 1.0
BUDGET = 4_000_000
TACTICAL = ("BK.01", "BK.10", "BK.12", "BK.14", "BK.15", "BK.16", "BK.18", "BK.22")
"""Those of the list that are solved by winning something; which they are is from memory."""


def labelled():
    for label in LABELS:
        if label.must:
            board = chess.Board(label.fen)
            yield label.must[0], board, read_line(board, label.line)[:1]


def read(path):
    for line in path.read_text("utf-8").splitlines():
        if line.strip() and not line.startswith("#"):
            board, operations = chess.Board.from_epd(line)
            yield operations.get("id"), board, operations["bm"]


def bratko_kopec():
    path = chess_archive() / "examples" / "bratko_kopec" / "bratko-kopec.epd"
    for told, board, keys in read(path):
        if told in TACTICAL:
            yield told, board, keys[:1]


def win_at_chess():
    return read(Path(__file__).parent / "positions" / "win_at_chess.epd")


def solve(board, key):
    """Return CPU seconds and whether the key is proved to mate or to win."""
    gain = Gain(points=1, within=10, measure=Measure.number(baseline(board)))
    began = time.process_time()
    found = prove(board, MateOrGain(mate=Mate(within=8), gain=gain), move=key, budget=BUDGET)
    return time.process_time() - began, bool(found)


def main(paths):
    lists = {path.name: read(path) for path in paths} or {
        "labelled": labelled(),
        "Bratko-Kopec": bratko_kopec(),
        "Win at Chess": win_at_chess(),
    }
    for name, positions in lists.items():
        took, missed = [], []
        for told, board, keys in positions:
            seconds, proved, key = min(
                ((*solve(board, key), key) for key in keys),
                key=lambda tried: (not tried[1], tried[0]),
            )
            took.append(seconds if proved else float("inf"))
            if not proved or seconds > SECONDS:
                missed.append(f"{told} {board.san(key)} {seconds:.2f} s {board.fen()}")
        within = sum(one <= SECONDS for one in took)
        middle = sorted(took)[len(took) // 2]
        print(f"{name}: {within} of {len(took)} within {SECONDS:g} s, median {middle:.3f} s")
        for line in missed:
            print("   ", line)


if __name__ == "__main__":
    main([Path(name) for name in sys.argv[1:]])
