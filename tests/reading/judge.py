"""What a draft says of the famous games, beside what any good book says.

Run it with ``PYTHONPATH=tests python -m reading.judge [GAME ...]``.  It drafts
each game, prints each point as found (with the statement that makes it), near
(something else is said of these moves) or missed, then every statement of the
draft with its place, for a person to judge as true, idle or wrong, and at the
end a table.  What is compared is narrow (see `reading.matching`): a person may
give more than the table does, and should look at each "near".

``--quiet`` drafts the quiet games and prints their statements alone;
``--adviser ENGINE`` lets a UCI engine help to choose; ``--keep FOLDER`` keeps
the drafts there, and takes those that it finds there as they are.
"""

from __future__ import annotations

import argparse
import shutil
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from chessnb.notebooks import read_notebook
from chessnb.notebooks.drafting import draft
from reading.matching import is_near, makes
from reading.points import Point, all_points, game_path, quiet_paths
from reading.statements import Statement, statements


def drafted(path: Path, folder: Path, adviser: str | None) -> list[Statement]:
    """Draft a lesson from a game and return what it states."""
    target = folder / f"{path.stem}.ipynb"
    if not target.exists():
        start = time.perf_counter()
        game = Path(shutil.copy(path, folder))  # what was proved is kept beside the game
        draft(game, target, adviser=adviser)
        print(f"{path.stem}: drafted in {time.perf_counter() - start:.0f} s", file=sys.stderr)
    return list(statements(read_notebook(target)["cells"]))


def judged(point: Point, said: list[Statement]) -> tuple[str, Statement | None]:
    """Return whether a point is found, near or missed, and the statement that decides it."""
    for statement in said:
        if makes(statement, point):
            return "found", statement
    near = next((statement for statement in said if is_near(statement, point)), None)
    return ("missed", None) if near is None else ("near", near)


def judge(name: str, points: list[Point], said: list[Statement]) -> Counter[str]:
    """Print what was found and missed in a game, and all that was said."""
    print(f"\n== {name} ==")
    count: Counter[str] = Counter(statements=len(said))
    for point in points:
        answer, statement = judged(point, said)
        count[answer] += 1
        print(f"{answer:6} {point.place:14} {point.kind:13} {point.what}")
        if statement is not None:
            print(f"{'':21} {'by' if answer == 'found' else 'only'}: {statement}")
    _list(said)
    return count


def _list(said: list[Statement]) -> None:
    print(f"-- all {len(said)} statements: true, idle or wrong?")
    for statement in said:
        print(f"   ( )  {statement}")


def table(counts: dict[str, Counter[str]]) -> None:
    """Print how many points were found in each game, and how much was said."""
    heads = ("points", "found", "near", "missed", "statements")
    print(f"\n{'game':24}", *(f"{head:>10}" for head in heads))
    total = sum(counts.values(), Counter())
    for name, count in {**counts, "all": total}.items():
        points = count["found"] + count["near"] + count["missed"]
        figures = (points, *(count[head] for head in heads[1:]))
        print(f"{name:24}", *(f"{figure:10}" for figure in figures))
    print(f"\nfound: {total['found'] / sum(total[head] for head in heads[1:4]):.2f}")


def by_kind(kinds: dict[str, Counter[str]]) -> None:
    """Print how many points of each kind were found."""
    print(f"\n{'kind':24} {'points':>10} {'found':>10}")
    for kind, count in sorted(kinds.items()):
        print(f"{kind:24} {count.total():10} {count['found']:10}")


def main() -> None:
    """Judge the games that are named, or all."""
    parser = argparse.ArgumentParser()
    parser.add_argument("games", nargs="*", help="names of games; none: all of them")
    parser.add_argument("--quiet", action="store_true", help="the quiet games instead")
    parser.add_argument("--adviser", help="a UCI engine, by path or name")
    parser.add_argument("--keep", type=Path, help="a folder where the drafts are kept")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        folder = given.keep or Path(scratch)
        if given.quiet:
            for path in quiet_paths():
                if not given.games or path.stem in given.games:
                    print(f"\n== {path.stem} ==")
                    _list(drafted(path, folder, given.adviser))
            return
        points = all_points()
        counts, kinds = {}, {point.kind: Counter() for game in points.values() for point in game}
        for name in given.games or points:
            said = drafted(game_path(name), folder, given.adviser)
            counts[name] = judge(name, points[name], said)
            for point in points[name]:
                kinds[point.kind][judged(point, said)[0]] += 1
        table(counts)
        by_kind(kinds)


if __name__ == "__main__":
    main()
