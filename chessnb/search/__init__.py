"""The solver: proofs of mates and gains, searched with our own bitboards."""

from chessnb.search.budget import BUDGET, SLICE, finish, in_slices
from chessnb.search.core import compiled
from chessnb.search.prover import Outcome, prove
from chessnb.search.questions import best_replies, fastest, keys, mates, threat
from chessnb.search.refuter import refute_mate

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
