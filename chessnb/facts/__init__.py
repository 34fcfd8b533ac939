"""Facts of a position, and what a move changes: all that follows from the rules alone."""

from chessnb.facts.castling import Castling, Wing, castling
from chessnb.facts.changes import Changes, changes
from chessnb.facts.comparing import Gain, Guard, Hit, Line, Pin
from chessnb.facts.draws import DrawFacts, draws
from chessnb.facts.exchange import Exchange, exchange
from chessnb.facts.material import Material, Men, material
from chessnb.facts.men import Man
from chessnb.facts.pawns import Files, PawnFacts, Structure, files, pawns
from chessnb.facts.pressure import Force, Pressure, pressure
from chessnb.mistakes import introduce

__all__ = [
    "Castling",
    "Changes",
    "DrawFacts",
    "Exchange",
    "Files",
    "Force",
    "Gain",
    "Guard",
    "Hit",
    "Line",
    "Man",
    "Material",
    "Men",
    "PawnFacts",
    "Pin",
    "Pressure",
    "Structure",
    "Wing",
    "castling",
    "changes",
    "draws",
    "exchange",
    "files",
    "material",
    "pawns",
    "pressure",
]

introduce(__name__)
del introduce
