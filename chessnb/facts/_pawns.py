"""Pawns: isolated, doubled, passed and backward ones; open and half-open files.

The definitions are the trade's (common practice, no source):

isolated
    No pawn of its side stands on a neighbouring file.
doubled
    Another pawn of its side stands on the same file.
passed
    No enemy pawn stands before it on its own file or a neighbouring one.
backward
    It has a pawn of its side on a neighbouring file, but all of these have
    gone further, so that none can defend it; and the square before it is
    covered by an enemy pawn.
open file
    No pawn stands on it.
half-open file
    For a side: only enemy pawns stand on it.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.naming import listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.board.squares import names_of
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of, side_word
from chessnb.mistakes import checked


@dataclass(frozen=True, kw_only=True)
class Structure:
    """The pawns of one side that have a name, as sorted squares."""

    isolated: tuple[str, ...] = ()
    doubled: tuple[str, ...] = ()
    passed: tuple[str, ...] = ()
    backward: tuple[str, ...] = ()

    @property
    def named(self) -> tuple[str, ...]:
        """Each kind with its squares: ``("isolated a5 d4", "passed d4")``."""
        kinds = ("isolated", "doubled", "passed", "backward")
        squares = ((kind, getattr(self, kind)) for kind in kinds)
        return tuple(f"{kind} {' '.join(those)}" for kind, those in squares if those)


@dataclass(frozen=True, kw_only=True)
class PawnFacts(Finding):
    """The pawns of a position that have a name.

    Attributes
    ----------
    fen : str
        The position.
    white, black : Structure
        Each side's.
    """

    fen: str
    white: Structure
    black: Structure

    @property
    def record(self) -> Record:
        """The squares of each kind, White's first."""
        return Record(
            place=place_of(chess.Board(self.fen)),
            kind="pawns",
            fields=tuple(
                f"{side_word(side)} {named}"
                for side, structure in ((True, self.white), (False, self.black))
                for named in structure.named
            ),
            status="rules",
        )

    @property
    def words(self) -> str:
        """The named pawns of each side."""
        sides = ((SIDES[True], self.white), (SIDES[False], self.black))
        words = [f"{side} {', '.join(found.named)}" for side, found in sides if found.named]
        return f"pawns: {'; '.join(words) or 'none isolated, doubled, passed or backward'}"

    @property
    def picture(self) -> Diagram:
        """The board, with ticks at weak pawns and the ways of the passed ones."""
        marks: list[Mark] = []
        for structure, last_rank in ((self.white, "8"), (self.black, "1")):
            weak = {*structure.isolated, *structure.doubled, *structure.backward}
            marks += [Mark(role="target", square=square) for square in sorted(weak)]
            marks += [
                Mark(role="force", square=square, to=f"{square[0]}{last_rank}")
                for square in structure.passed
            ]
        return diagram(self.fen, marks=marks)


@dataclass(frozen=True, kw_only=True)
class Files(Finding):
    """The open and half-open files of a position.

    Attributes
    ----------
    fen : str
        The position.
    open : tuple of str
        The letters of the files without pawns.
    half_open_for_white, half_open_for_black : tuple of str
        The letters of the files with enemy pawns only.
    """

    fen: str
    open: tuple[str, ...]
    half_open_for_white: tuple[str, ...]
    half_open_for_black: tuple[str, ...]

    @property
    def record(self) -> Record:
        """The letters of the files."""
        kinds = (
            ("open", self.open),
            ("half-open white", self.half_open_for_white),
            ("half-open black", self.half_open_for_black),
        )
        return Record(
            place=place_of(chess.Board(self.fen)),
            kind="files",
            fields=tuple(f"{kind} {' '.join(letters)}" for kind, letters in kinds if letters),
            status="rules",
        )

    @property
    def words(self) -> str:
        """The letters of the files."""
        kinds = (
            ("open", self.open),
            ("half-open for White", self.half_open_for_white),
            ("half-open for Black", self.half_open_for_black),
        )
        words = [f"{kind} {listed(letters)}" for kind, letters in kinds if letters]
        return f"files: {'; '.join(words) or 'none open or half-open'}"

    @property
    def picture(self) -> Diagram:
        """The board, with a stroke along each file, from the side that it is open to."""
        whole = [(letter, "1", "8") for letter in (*self.open, *self.half_open_for_white)]
        from_above = [(letter, "8", "1") for letter in self.half_open_for_black]
        marks = [
            Mark(role="force", square=letter + start, to=letter + end)
            for letter, start, end in sorted(whole + from_above)
        ]
        return diagram(self.fen, marks=marks)


@gathered
@checked
def pawns(position: Position) -> PawnFacts:
    """Find the isolated, doubled, passed and backward pawns of both sides.

    The definitions stand at the top of this module.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.

    Returns
    -------
    PawnFacts
        The squares, for each side.

    Examples
    --------
    >>> print(pawns("4k3/pp6/8/P7/3P4/5P2/5P2/4K3 w - - 0 1").words)
    pawns: White isolated a5 d4 f2 f3, doubled f2 f3, passed d4 f2 f3
    """
    board = read_position(position)
    return PawnFacts(
        fen=board.fen(), white=structure(board, chess.WHITE), black=structure(board, chess.BLACK)
    )


@gathered
@checked
def files(position: Position) -> Files:
    """Find the open and half-open files.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.

    Returns
    -------
    Files
        The letters of the files.

    Examples
    --------
    >>> print(files("4k3/pp3ppp/4p3/8/3P4/8/PP3PPP/4K3 w - - 0 1"))
    1. | files | open c | half-open white e | half-open black d | rules
    """
    board = read_position(position)
    white, black = (_files_of(board.pieces(chess.PAWN, color)) for color in (True, False))
    numbered = dict(enumerate(chess.FILE_NAMES))
    return Files(
        fen=board.fen(),
        open=tuple(numbered[file] for file in numbered if file not in white | black),
        half_open_for_white=tuple(numbered[file] for file in sorted(black - white)),
        half_open_for_black=tuple(numbered[file] for file in sorted(white - black)),
    )


def _files_of(pawns: chess.SquareSet) -> set[int]:
    return {chess.square_file(square) for square in pawns}


def structure(board: chess.Board, color: chess.Color) -> Structure:
    """Return the named pawns of one side of a board."""
    own, enemy = board.pieces(chess.PAWN, color), board.pieces(chess.PAWN, not color)
    return Structure(
        isolated=names_of(pawn for pawn in own if not own & beside(pawn)),
        doubled=names_of(pawn for pawn in own if len(own & on_file(pawn)) > 1),
        passed=names_of(
            pawn for pawn in own if not enemy & (on_file(pawn) | beside(pawn)) & ahead(pawn, color)
        ),
        backward=names_of(pawn for pawn in own if _is_backward(board, pawn, color)),
    )


def _is_backward(board: chess.Board, pawn: chess.Square, color: chess.Color) -> bool:
    own, enemy = board.pieces(chess.PAWN, color), board.pieces(chess.PAWN, not color)
    helpers = own & beside(pawn)
    stop = pawn + (8 if color else -8)
    gone = bool(helpers) and not helpers - ahead(pawn, color)
    return gone and bool(enemy & board.attackers(not color, stop))


def on_file(square: chess.Square) -> chess.SquareSet:
    """Return the squares of a square's file."""
    return chess.SquareSet(chess.BB_FILES[chess.square_file(square)])


def beside(square: chess.Square) -> chess.SquareSet:
    """Return the squares of the neighbouring files."""
    file = chess.square_file(square)
    near = [chess.BB_FILES[one] for one in (file - 1, file + 1) if 0 <= one < 8]
    return chess.SquareSet(sum(near))


def ahead(square: chess.Square, color: chess.Color) -> chess.SquareSet:
    """Return all squares of the ranks before a piece, seen from its side."""
    rank = chess.square_rank(square)
    ranks = range(rank + 1, 8) if color else range(rank)
    return chess.SquareSet(sum(chess.BB_RANKS[one] for one in ranks))
