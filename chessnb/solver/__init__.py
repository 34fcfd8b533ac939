"""The solver: proofs of mates and gains, searched with our own bitboards."""

from chessnb.solver.budget import BUDGET, SLICE, finish, in_slices
from chessnb.solver.core import compiled
from chessnb.solver.refuting import refute_mate
from chessnb.solver.search import (
    Outcome,
    best_replies,
    fastest,
    keys,
    mates,
    prove,
    threat,
)

__all__ = [
    "BUDGET",
    "SLICE",
    "Outcome",
    "best_replies",
    "compiled",
    "fastest",
    "finish",
    "in_slices",
    "keys",
    "mates",
    "prove",
    "refute_mate",
    "threat",
]
