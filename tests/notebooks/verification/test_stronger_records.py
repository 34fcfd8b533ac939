"""What only says more than was saved, and what says something else."""

import pytest

from chessnb.findings.record import read_record
from chessnb.notebooks.verification.stronger_records import found_more, is_stronger

STRONGER = [
    ("21. | mates | white | 6 | not proved", "21. | mates | white | 6 | proved"),
    ("21. | fastest mate | white | 3 | searched", "21. | fastest mate | white | 3 | proved"),
    ("20... | threatens | Qh7# | not proved", "20... | threatens | Qh7# | mate 1 | proved"),
    ("20... | threatens | Qh7# | mate 3 | proved", "20... | threatens | Qh7# | mate 2 | proved"),
    ("20. Nxd6 | loses | 1 points | within 3 | not proved", "20. Nxd6 | loses | 1 points | within 3 | proved"),
    ("20. Nxd6 | loses | 1 points | within 3 | not proved", "20. Nxd6 | allows mate | 4 | proved"),
    ("1. Nc7+ | tactic | fork | by Nc7 | on Ra8 | 3 points | proved",
     "1. Nc7+ | tactic | fork | by Nc7 | on Ra8 | 5 points | proved"),
    ("1. | forced | black | 1. Ra8+ Kh7 2. Rh8# | mate 2 | not proved",
     "1. | forced | black | 1. Ra8+ Kh7 2. Rh8# | mate 2 | others mated 1 | proved"),
    ("21. | replies | 3 | mated 5: Kg2 Kh1 | not proved: Kf1 | not proved",
     "21. | replies | 3 | mated 5: Kg2 Kh1 | loses 3 points: Kf1 | proved"),
    ("21. | replies | 2 | nothing found: Kf1 | mated 5: Kh1 | searched",
     "21. | replies | 2 | loses 1 points: Kf1 | mated 4: Kh1 | proved"),
    ("21. | replies | 1 | loses 9 points: Kf1 | proved", "21. | replies | 1 | mated 3: Kf1 | proved"),
    ("21. | replies | 1 | wins 3 points: Kf1 | proved", "21. | replies | 1 | wins 5 points: Kf1 | proved"),
]  # fmt: skip

OTHERS = [
    ("21. | mates | white | 6 | proved", "21. | mates | white | 6 | wrong"),
    ("21. | mates | white | 6 | wrong", "21. | mates | white | 6 | proved"),
    ("21. | mates | white | 6 | not proved", "21. | mates | white | 6 | wrong"),
    ("21. | mates | white | 6 | not proved", "22. | mates | white | 6 | proved"),
    ("21. | mates | white | 6 | not proved", "21. | mates | black | 6 | proved"),
    # What the teacher claims is not for a search to make better.
    ("21. | mates | white | 6 | proved", "21. | mates | white | 5 | proved"),
    ("14. Nd5 | wins | 3 points | within 2 | proved", "14. Nd5 | wins | 5 points | within 2 | proved"),
    ("21. | material | white P | white 1 points | rules", "21. | material | white PP | white 2 points | rules"),
    ("20... | threatens | Qh7# | mate 2 | proved", "20... | threatens | Qh7# | mate 3 | proved"),
    ("20... | threatens | Qh7# | mate 2 | proved", "20... | threatens | Qh7# | 5 points | within 2 | proved"),
    ("1. Nc7+ | tactic | fork | by Nc7 | on Ra8 | 5 points | proved",
     "1. Nc7+ | tactic | fork | by Nc7 | on Ra8 | 3 points | proved"),
    ("1. Nc7+ | tactic | fork | by Nc7 | on Ra8 | 3 points | proved",
     "1. Nc7+ | tactic | fork | by Nc7 | on Qa8 | 5 points | proved"),
    ("21. | replies | 2 | loses 3 points: Kf1 | mated 5: Kh1 | proved",
     "21. | replies | 2 | nothing found: Kf1 | mated 5: Kh1 | searched"),
    ("21. | replies | 2 | loses 3 points: Kf1 | mated 5: Kh1 | proved",
     "21. | replies | 2 | loses 3 points: Kf1 | mated 6: Kh1 | proved"),
    ("21. | replies | 1 | mated 5: Kh1 | proved", "21. | replies | 1 | loses 9 points: Kh1 | proved"),
    ("21. | replies | 1 | wins 3 points: Kh1 | proved", "21. | replies | 1 | loses 9 points: Kh1 | proved"),
    ("21. | replies | 1 | nothing found: Kh1 | searched", "21. | replies | 1 | not proved: Kh1 | not proved"),
    ("21. | replies | 1 | mated 5: Kh1 | proved", "21. | replies | 2 | mated 5: Kf1 Kh1 | proved"),
]  # fmt: skip


@pytest.mark.parametrize(("saved", "now"), STRONGER)
def test_what_says_more(saved, now):
    assert is_stronger(read_record(now), read_record(saved))
    assert not is_stronger(read_record(saved), read_record(now))


@pytest.mark.parametrize(("saved", "now"), OTHERS)
def test_what_says_something_else(saved, now):
    assert not is_stronger(read_record(now), read_record(saved))


@pytest.mark.parametrize("line", sorted({line for pair in (*STRONGER, *OTHERS) for line in pair}))
def test_nothing_says_more_than_itself(line):
    assert not is_stronger(read_record(line), read_record(line))
    assert not found_more([read_record(line)], [read_record(line)])


FORK = "1. Nc7+ | tactic | fork | by Nc7 | on Ra8 | 5 points | proved"
NONE = "1. Nc7+ | tactic | none | searched"
PIN = "1. Nc7+ | tactic | absolute pin | by Nc7 | on Ra8 | 3 points | proved"


@pytest.mark.parametrize(
    ("saved", "now", "more"),
    [
        ([NONE], [FORK], True),
        ([FORK], [FORK, PIN], True),
        ([FORK], [PIN, FORK], True),
        ([FORK], [NONE], False),
        ([FORK, PIN], [FORK], False),
        ([FORK], [PIN], False),
        ([PIN], [PIN.replace("3 points", "9 points"), FORK], True),
    ],
)
def test_what_a_cell_says(saved, now, more):
    assert found_more(list(map(read_record, saved)), list(map(read_record, now))) is more
