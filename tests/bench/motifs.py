"""Precision and recall of the motifs on the labelled positions, and the cost of a whole game.

Run it with ``PYTHONPATH=tests python tests/bench/motifs.py``.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from motifs.scoring import rows, rows_of_the_rest, score, score_rest
from motifs.second import SECOND
from motifs.unseen import HALF_A, HALF_B

from chessnb import Lesson, motifs
from chessnb.search import compiled

GAME = Path(__file__).parents[2] / "notebooks" / "games" / "lantern-street.pgn"


def main() -> None:
    """Print the table, what was named wrongly, and the time that a game takes."""
    found = score()
    print(f"{'motif':24} labels precision recall")
    for title, count, precision, recall in rows(found):
        print(f"{title:24} {count:6} {precision:9.2f} {recall:6.2f}")
    rest = score_rest()
    for title, count, precision, recall in rows_of_the_rest(rest):
        print(f"{title:24} {count:6} {precision:9.2f} {recall:6.2f}")
    unseen = {"first half": HALF_A, "second half": HALF_B, "second set": SECOND}
    for told, labels in unseen.items():
        print(f"unseen, {told}")
        for title, count, precision, recall in rows(score(labels), labels):
            print(f"{title:24} {count:6} {precision:9.2f} {recall:6.2f}")
    for fault in (*found.faults, *rest.faults):
        print(fault)
    start = time.process_time()
    lesson = Lesson.read(GAME)
    ranked = motifs.scan(lesson)
    moves = sum(moment.move is not None for moment in lesson.moments())
    spent = time.process_time() - start
    print(
        f"{moves} moves scanned in {spent:.1f} s of CPU ({'compiled' if compiled else 'not compiled'})"
    )
    for one in ranked[:8]:
        print(f"{one.moment.address}: {one.tags[0].words}")


if __name__ == "__main__":
    main()
