"""Perft of the archive's lists, capped a line at ten million nodes: run by hand.

    python tests/bench/perft.py [CAP]

It prints the number of positions, nodes, and nodes a second, and stops at the
first count that differs.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from references.test_perft import perft_lines

from chessnb.search import core


def main(cap: int) -> None:
    for name in ("random.perft", "tricky.perft"):
        count = total = 0
        began = time.process_time()
        for fen, depth, nodes in perft_lines(name, cap):
            found = core.perft(fen, depth)
            assert found == nodes, (fen, depth, found, nodes)
            count, total = count + 1, total + nodes
        took = time.process_time() - began
        speed = total / took / 1e6
        how = "compiled" if core.compiled else "not compiled"
        print(f"{name}: {count} positions, {total:,} nodes equal, {speed:.1f} M/s, {how}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000_000)
