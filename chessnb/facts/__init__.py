"""Facts of a position, and what a move changes: all that follows from the rules alone."""

from chessnb.board.pieces import Piece
from chessnb.facts._castling import Castling, Wing, castling
from chessnb.facts._changes import Changes, changes
from chessnb.facts._comparison import Attack, Defence, ExchangeGain, Line, Pin
from chessnb.facts._draws import DrawFacts, draws
from chessnb.facts._exchanges import Exchange, exchange
from chessnb.facts._material import Material, PieceCounts, material
from chessnb.facts._pawns import Files, PawnFacts, Structure, files, pawns
from chessnb.facts._pressure import Force, Pressure, pressure
from chessnb.facts._purpose import Purpose, Use, purpose
from chessnb.mistakes import introduce

__all__ = [
    "Attack",
    "Castling",
    "Changes",
    "Defence",
    "DrawFacts",
    "Exchange",
    "ExchangeGain",
    "Files",
    "Force",
    "Line",
    "Material",
    "PawnFacts",
    "Piece",
    "PieceCounts",
    "Pin",
    "Pressure",
    "Purpose",
    "Structure",
    "Use",
    "Wing",
    "castling",
    "changes",
    "draws",
    "exchange",
    "files",
    "material",
    "pawns",
    "pressure",
    "purpose",
]

introduce(__name__)
del introduce
