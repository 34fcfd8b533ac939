"""Mates in 2 to 6: the part proved within a second of CPU, and how long it takes. Run by hand.

    python tests/bench/mates.py [FILE.epd ...]

Every proof is replayed by the checker.  The positions are those of
``tests/bench/positions/mates.epd`` unless others are named; a line is an EPD
with ``dm N;``.  A part of them is run uncompiled too, and must visit just as
many positions.
"""

import sys
import time
from collections import defaultdict
from pathlib import Path

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

from search.uncompiled import uncompiled

from chessnb.proof import Mate, check
from chessnb.proof.certificate import from_answers
from chessnb.search import core

SECONDS = 1.0
GIVEN_UP = 20.0


def read(path):
    for line in path.read_text("utf-8").splitlines():
        if line.strip() and not line.startswith("#"):
            epd, _, rest = line.partition(" dm ")
            yield f"{epd} 0 1", int(rest.split(";")[0])


def solve(module, fen, moves):
    white = fen.split()[1] == "w"
    question = module.Question(fen, attacker=white, mate=moves)
    began = time.process_time()
    while question.run(200_000) == module.OPEN and time.process_time() - began < GIVEN_UP:
        pass
    took = time.process_time() - began
    proved = question.run(1) == module.PROVED
    positions = question.positions
    if proved:
        answers = question.proof()
        check(from_answers(answers, fen=fen, attacker=white, goal=Mate(within=moves)))
    return took, proved, positions


def main(paths):
    times = defaultdict(list)
    for path in paths:
        for number, (fen, moves) in enumerate(read(path)):
            took, proved, positions = solve(core, fen, moves)
            times[moves].append(took if proved else float("inf"))
            if moves <= 3 and number % 4 == 0:
                assert solve(uncompiled(), fen, moves)[2] == positions, fen
    print("compiled" if core.compiled else "not compiled")
    for moves, took in sorted(times.items()):
        took.sort()
        within = sum(one <= SECONDS for one in took)
        print(
            f"mate in {moves}: {within} of {len(took)} within {SECONDS:g} s "
            f"({within / len(took):.2f}), median {took[len(took) // 2]:.4f} s, longest {took[-1]:.2f} s"
        )


if __name__ == "__main__":
    main([Path(name) for name in sys.argv[1:]] or [HERE / "positions" / "mates.epd"])
