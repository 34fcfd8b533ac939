"""Facts of a position, and what a move changes: all that follows from the rules alone."""

from chessnb.board.pieces import Piece
from chessnb.facts._castling import Castling, Wing, castling
from chessnb.facts._changes import Changes, changes
from chessnb.facts._comparison import Attack, Defence, ExchangeGain, Line, Pin
from chessnb.facts._draws import DrawFacts, draws
from chessnb.facts._ending import Ending, ending
from chessnb.facts._ending_parts import KeySquares, Opposition, Outcome, Runner
from chessnb.facts._exchanges import Exchange, exchange
from chessnb.facts._held_lines import BadBishop, HeldFile, KingShelter
from chessnb.facts._material import Material, PieceCounts, material
from chessnb.facts._passers import Majority, PassedPawn
from chessnb.facts._pawns import Files, PawnFacts, Structure, files, pawns
from chessnb.facts._pressure import Force, Pressure, pressure
from chessnb.facts._purpose import Purpose, Use, purpose
from chessnb.facts._strongpoints import Outpost
from chessnb.facts._structure import StructureFacts, structure
from chessnb.mistakes import introduce

__all__ = [
    "Attack",
    "BadBishop",
    "Castling",
    "Changes",
    "Defence",
    "DrawFacts",
    "Ending",
    "Exchange",
    "ExchangeGain",
    "Files",
    "Force",
    "HeldFile",
    "KeySquares",
    "KingShelter",
    "Line",
    "Majority",
    "Material",
    "Opposition",
    "Outcome",
    "Outpost",
    "PassedPawn",
    "PawnFacts",
    "Piece",
    "PieceCounts",
    "Pin",
    "Pressure",
    "Purpose",
    "Runner",
    "Structure",
    "StructureFacts",
    "Use",
    "Wing",
    "castling",
    "changes",
    "draws",
    "ending",
    "exchange",
    "files",
    "material",
    "pawns",
    "pressure",
    "purpose",
    "structure",
]

introduce(__name__)
del introduce
