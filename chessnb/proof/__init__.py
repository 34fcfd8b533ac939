"""Goals, proofs, and the checker that replays a proof with python-chess alone."""

from chessnb.proof.balances import TooWild, baseline, held, settled
from chessnb.proof.certificate import Node, Proof, from_answers
from chessnb.proof.checker import BrokenProof, answers, check, holds
from chessnb.proof.counting import forcing_moves
from chessnb.proof.goals import (
    Gain,
    Goal,
    GoalError,
    Mate,
    MateOrGain,
    Perpetual,
    Stalemate,
    gain_of,
)
from chessnb.proof.measure import Measure
from chessnb.proof.refutation import Refutation, Tries, check_refutation

__all__ = [
    "BrokenProof",
    "Gain",
    "Goal",
    "GoalError",
    "Mate",
    "MateOrGain",
    "Measure",
    "Node",
    "Perpetual",
    "Proof",
    "Refutation",
    "Stalemate",
    "TooWild",
    "Tries",
    "answers",
    "baseline",
    "check",
    "check_refutation",
    "forcing_moves",
    "from_answers",
    "gain_of",
    "held",
    "holds",
    "settled",
]
