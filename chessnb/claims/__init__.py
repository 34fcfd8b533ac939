"""Claims that prove themselves, or raise with what contradicts them.

================  ==================================  ==============================================
claim             what it says                        an example
================  ==================================  ==============================================
attacked          how many attack a square            attacked(m, "f6", by=3, defended_by=2)
can_castle        a side may castle on a wing         can_castle(m, "kingside", side="Black")
cannot_castle     it may not, and why                 cannot_castle(m, "queenside")
checkmate         the side to move is mated           checkmate(m)
defended          how many defend what stands there   defended(m, "f6", by=2)
drawn             the game is drawn, or may be        drawn(m, rule="stalemate")
fastest_mate      mate in so many, and no sooner      fastest_mate(m, within=2)
forced            every move of a side in a line  forced(m, "Nh6+ Kh8 Qg8+ Rxg8 Nf7#")
forces_stalemate  a side forces a stalemate           forces_stalemate(m, within=1)
illegal           a move is not legal, and why        illegal(m, "Kd1")
judgement         an opinion; nothing is proved       judgement("easier to play for White")
legal             a move is legal                     legal(m, "Nf3")
loses             a move is a mistake                 loses(m, "Rxd5", at_least=5)
material          how the material stands             material(m, "even")
mates             a side mates against every reply    mates(m, within=3)
mates_or_wins     a side mates, or wins material      mates_or_wins(m, mate=3, at_least=5, within=4)
must_check        after all but checks it is mated    must_check(m, mate=3)
only_defence      one reply alone saves the side      only_defence(m, "Ka6", mate=1)
only_legal_reply  there is one legal move             only_legal_reply(m, "Kxg2")
parries           a move meets a threat               parries(m, "h6", threat="Ra8#")
pawn              what kind of pawn it is             pawn(m, "d5", is_="passed")
perpetual         a side can check for ever           perpetual(m, move="Qe8+")
pinned            a piece is pinned, and to what      pinned(m, "c6", to="king")
refuted           another claim is wrong              refuted(m, "mates", within=3)
shows             a move shows a tactic               shows(m, "fork", move="Nc7+")
threatens         what the side that waits threatens  threatens(m, "Ra8#")
trapped           a piece has no way out              trapped(m, "a2")
wins_material     a side wins so many points          wins_material(m, at_least=5, within=3)
zugzwang          every move loses, a pass would not  zugzwang(m)
================  ==================================  ==============================================

They are written ``claims.mates(m, within=3)``; ``m`` is a position: one of the
lesson, a board, or a FEN.  `at_least` is in points, 1-3-3-5-9; `within`
counts moves of the side that wins, `mate` its moves to a mate beside that;
`side` is "White" or "Black", the side to move if it is left out; `budget`
counts positions.  A claim that is wrong raises a :class:`FalseClaim`, one that
is not proved within the budget an :class:`UnprovedClaim`.
"""

from chessnb.claims._judgement import Judgement, judgement
from chessnb.claims._refuted import refuted
from chessnb.claims._shows import shows
from chessnb.claims.checks import must_check
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim
from chessnb.claims.force import (
    fastest_mate,
    forces_stalemate,
    mates,
    mates_or_wins,
    perpetual,
    wins_material,
)
from chessnb.claims.forced_line import forced
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
    "forced",
    "forces_stalemate",
    "illegal",
    "judgement",
    "legal",
    "loses",
    "material",
    "mates",
    "mates_or_wins",
    "must_check",
    "only_defence",
    "only_legal_reply",
    "parries",
    "pawn",
    "perpetual",
    "pinned",
    "refuted",
    "shows",
    "threatens",
    "trapped",
    "wins_material",
    "zugzwang",
]

introduce(__name__)
del introduce
