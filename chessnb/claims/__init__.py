"""Claims that prove themselves, or raise with what contradicts them."""

from chessnb.claims._judgement import Judgement, judgement
from chessnb.claims._shows import shows
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim
from chessnb.claims.forced import (
    fastest_mate,
    forces_stalemate,
    mates,
    mates_or_wins,
    perpetual,
    wins_material,
)
from chessnb.claims.on_the_board import attacked, defended, material, pawn, pinned, trapped
from chessnb.claims.plans import loses, only_defence, parries, threatens, zugzwang
from chessnb.claims.rules import (
    can_castle,
    cannot_castle,
    checkmate,
    drawn,
    illegal,
    legal,
    only_legal_reply,
)
from chessnb.mistakes import introduce

__all__ = [
    "Claim",
    "ClaimError",
    "FalseClaim",
    "Judgement",
    "UnprovedClaim",
    "attacked",
    "can_castle",
    "cannot_castle",
    "checkmate",
    "defended",
    "drawn",
    "fastest_mate",
    "forces_stalemate",
    "illegal",
    "judgement",
    "legal",
    "loses",
    "material",
    "mates",
    "mates_or_wins",
    "only_defence",
    "only_legal_reply",
    "parries",
    "pawn",
    "perpetual",
    "pinned",
    "shows",
    "threatens",
    "trapped",
    "wins_material",
    "zugzwang",
]

introduce(__name__)
del introduce
