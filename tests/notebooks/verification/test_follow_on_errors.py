"""An error is told once; a name that is missing is its consequence only if the failed cell gives it."""

import pytest

from chessnb.notebooks.verification import verify
from chessnb.notebooks.verification.follow_on_errors import causes, names_given


@pytest.mark.parametrize(
    ("source", "names"),
    [
        ("m = lesson.after('e4')", {"m"}),
        ("a, (b, *c) = 1, (2, 3)\nd: int = 4\ne += 1", {"a", "b", "c", "d", "e"}),
        (
            "import chessnb.search.proof_book\nfrom chess import Board as B, pgn",
            {"chessnb", "B", "pgn"},
        ),
        ("def f(x):\n    y = 1\nclass C:\n    z = 2", {"f", "C"}),
        ("for k in range(3):\n    last = k\nif (w := 1): pass", {"k", "last", "w"}),
        ("with open('x') as file: pass", {"file"}),
        ("g = lambda v: (u := v)", {"g"}),
        ("%matplotlib inline\nshown = 1", {"shown"}),
        ("broken = (\nother == 2", {"broken"}),
        ("claims.mates(m, within=3)", set()),
    ],
)
def test_the_names_that_a_cell_gives(source, names):
    assert names_given(source) == names


def test_a_missing_name_that_no_failed_cell_gives_is_an_error_of_its_own():
    cells = [{"source": source} for source in ("m = 1 / 0", "clams.pinned(m)", "m.board")]
    assert causes(cells, {1: "", 2: "clams", 3: "m"}) == {1: 1, 2: 2, 3: 1}


@pytest.mark.thorough
def test_verify_tells_both_errors_and_counts_only_what_follows(made_lesson):
    path = made_lesson(
        ("m = 1 / 0", None), ("print(clams)", None), ("n = m + 1", None), ("n", "2"), ("1", "1")
    )
    lines = verify([path]).lines()
    assert lines == [
        f"{path}: 2 complaints; 1 finding agrees",
        "  cell 2 (section “Made”): ZeroDivisionError: division by zero "
        "(2 more cells lack what this cell gives)",
        "  cell 3 (section “Made”): there is nothing called “clams” here",
    ]
