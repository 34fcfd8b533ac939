"""Goals, proofs, and the checker that replays a proof with python-chess alone."""

from chessnb.proof.baseline import TooWild, baseline, held, settled
from chessnb.proof.checking import BrokenProof, check, holds
from chessnb.proof.goals import (
    Gain,
    Goal,
    GoalError,
    Mate,
    MateOrGain,
    Perpetual,
    Stalemate,
    balance,
    forcing_moves,
)
from chessnb.proof.refuting import Refutation, Tries, check_refutation
from chessnb.proof.telling import LetteredLine, add_variations, lettered, what_went
from chessnb.proof.tree import Node, Proof, from_answers

__all__ = [
    "BrokenProof",
    "Gain",
    "Goal",
    "GoalError",
    "LetteredLine",
    "Mate",
    "MateOrGain",
    "Node",
    "Perpetual",
    "Proof",
    "Refutation",
    "Stalemate",
    "TooWild",
    "Tries",
    "add_variations",
    "balance",
    "baseline",
    "check",
    "check_refutation",
    "forcing_moves",
    "from_answers",
    "held",
    "holds",
    "lettered",
    "settled",
    "what_went",
]
