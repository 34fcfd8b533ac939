"""How many times as long the search takes where it is not compiled. Run by hand, compiled.

    python tests/bench/compiled.py

The same searches are run by the compiled core and by the same file from its
source, each in a process of its own: mates in 2 to 4 of
``tests/bench/positions/mates.epd``, gains from positions of the demo's game,
and the demo's whole draft.  Both must look at just as many positions.  What a
teacher is told is `chessnb.search.compiled_core.TIMES_SLOWER`.
"""

import json
import subprocess
import sys
import time
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path.insert(0, str(TESTS))

DEMO = TESTS.parent / "notebooks" / "games" / "lantern-street.pgn"
MATES = TESTS / "bench" / "positions" / "mates.epd"


def from_source():
    """Have the core loaded from its source, as where nothing has compiled it."""
    import importlib.util
    from importlib.machinery import PathFinder, SourceFileLoader

    class Source(PathFinder):
        @classmethod
        def find_spec(cls, name, path=None, target=None):
            if name != "chessnb.search.core":
                return None
            loader = SourceFileLoader(name, str(Path(path[0]) / "core.py"))
            return importlib.util.spec_from_loader(name, loader)

    sys.meta_path.insert(0, Source)


def mates():
    from bench.mates import read

    from chessnb.proof import Mate
    from chessnb.search.prover import prove

    chosen = [(fen, moves) for fen, moves in read(MATES) if moves <= 4]
    return sum(prove(fen, Mate(within=moves), budget=20_000).positions for fen, moves in chosen)


def gains():
    from chessnb.lessons import Lesson
    from chessnb.proof import Gain, baseline
    from chessnb.search.prover import prove

    moments = list(Lesson.read(DEMO).moments())[12::4]
    asked = [(m, Gain(points=2, within=3, baseline=baseline(m.board))) for m in moments]
    return sum(prove(moment, goal, budget=100_000).positions for moment, goal in asked)


def a_draft():
    from chessnb.lessons import Lesson
    from chessnb.notebooks.drafting import turning_points

    return turning_points(Lesson.read(DEMO), most=12)[1]


WORK = {"mates in 2 to 4": mates, "gains": gains, "the demo's turning points": a_draft}


def measure():
    """Print what each piece of work counted and how many seconds of CPU it took."""
    import chessnb.search

    done = {}
    for name, work in WORK.items():
        began = time.process_time()
        counted = work()
        done[name] = (counted, time.process_time() - began)
    print(json.dumps({"compiled": chessnb.search.compiled, "done": done}))


def measured(*arguments):
    told = subprocess.run(
        [sys.executable, __file__, "--measure", *arguments], check=True, capture_output=True
    ).stdout
    return json.loads(told)


def main():
    from chessnb.search.compiled_core import TIMES_SLOWER

    fast, slow = measured(), measured("--from-source")
    assert fast["compiled"]
    assert not slow["compiled"]
    for name in WORK:
        (counted, seconds), (counted_too, longer) = fast["done"][name], slow["done"][name]
        assert counted == counted_too, name
        print(f"{name}: {seconds:.2f} s compiled, {longer:.1f} s not, {longer / seconds:.0f} times")
    print(f"What teachers are told: about {TIMES_SLOWER} times as long.")


if __name__ == "__main__":
    if "--from-source" in sys.argv:
        from_source()
    if "--measure" in sys.argv:
        measure()
    else:
        main()
