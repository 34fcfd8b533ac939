"""A verdict as a value: what a move does, its points and pieces, the line, and the words for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.naming import counted
from chessnb.notation import write_line, write_move
from chessnb.proof import Proof
from chessnb.verdicts.depth import USUAL, Depth

Kind = Literal[
    "checkmate",
    "mates",
    "wins",
    "stalemate",
    "draw",
    "nothing",
    "offers",
    "loses",
    "mated",
    "not settled",
]
"""What a move does, best first for the side that makes it."""

ORDER: tuple[Kind, ...] = (
    "checkmate",
    "mates",
    "wins",
    "nothing",
    "draw",
    "stalemate",
    "offers",
    "not settled",
    "loses",
    "mated",
)


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """What a move does.

    Attributes
    ----------
    fen : str
        The position before the move.
    move : chess.Move
        The move.
    kind : Kind
        What it does.
    moves : int
        The moves to mate, or the horizon of a gain, of the side that mates or wins.
    points : int
        Points won or lost, or left to be taken, 1-3-3-5-9.
    pieces : str
        What goes, in words (``"a rook"``, ``"rook for bishop"``).
    line : tuple of chess.Move
        What shows it, from the move on.
    proof : Proof or None
        The proof, of the position after the move; None where nothing is claimed.
    kept : bool
        Of what is left to be taken: whether it was searched that it is not won back.
    depth : Depth
        How far was looked.
    """

    fen: str
    move: chess.Move
    kind: Kind
    moves: int = 0
    points: int = 0
    pieces: str = ""
    line: tuple[chess.Move, ...] = ()
    proof: Proof | None = None
    kept: bool = True
    depth: Depth = USUAL

    @property
    def board(self) -> chess.Board:
        """The position before the move; a board of the caller's own."""
        return chess.Board(self.fen)

    @property
    def san(self) -> str:
        """The move in SAN."""
        return write_move(self.board, self.move)

    @property
    def words(self) -> str:
        """The verdict in the plain words of the package."""
        match self.kind:
            case "checkmate":
                return "checkmate"
            case "mates":
                return f"mates in {self.moves}"
            case "mated":
                return f"mated in {self.moves}"
            case "wins" | "loses" if self.pieces.startswith("a new "):
                queens = "makes" if self.kind == "wins" else "lets a pawn become"
                points = counted(self.points, "point")
                return f"{queens} {self.pieces.replace('a new', 'a')} ({points})"
            case "wins" | "loses":
                return f"{self.kind} {self.material}"
            case "offers":
                return f"leaves {self.left}"
            case "stalemate":
                return "stalemate, a draw"
            case "draw":
                return "a draw: no mate is possible any more"
            case "nothing":
                deep = counted(min(self.depth.mate, self.depth.within), "move")
                return f"nothing wrong found in {deep}"
        return "not proved"

    @property
    def left(self) -> str:
        """What an offer leaves: ``"the knight to be taken (3 points for a pawn)"``."""
        return f"{self._prey} to be taken ({self._price})"

    @property
    def taken(self) -> str:
        """What an offer leaves, as a sentence: ``"The knight can be taken (3 points)"``."""
        prey = self._prey
        return f"{prey[0].upper()}{prey[1:]} can be taken ({self._price})"

    @property
    def _prey(self) -> str:
        """The piece that the next capture takes."""
        after = self.board
        after.push(self.move)
        if len(self.line) < 2:
            return counted(self.points, "point")
        kind = after.piece_type_at(self.line[1].to_square) or chess.PAWN
        return f"the {chess.piece_name(kind)}"

    @property
    def _price(self) -> str:
        points = counted(self.points, "point")
        return f"{self.pieces}, {points}" if " for " in self.pieces else points

    @property
    def material(self) -> str:
        """What goes, and its points: ``"a rook (5 points)"``, ``"the queen for two rooks"``."""
        points = counted(self.points, "point")
        if not self.pieces:
            return points
        the = "the " if " for " in self.pieces else ""
        return f"{the}{self.pieces} ({points})"

    @property
    def written(self) -> str:
        """The line in SAN with numbers."""
        return write_line(self.board, self.line)

    @property
    def rank(self) -> tuple[int, int]:
        """What verdicts are ordered by: the best for the side that moves comes first."""
        place = ORDER.index(self.kind)
        match self.kind:
            case "mates":
                return place, self.moves
            case "wins":
                return place, -self.points
            case "loses" | "offers":
                return place, self.points
            case "mated":
                return place, -self.moves
        return place, 0

    @property
    def is_bad(self) -> bool:
        """Whether it is proved that the move loses something."""
        return self.kind in ("loses", "mated")
