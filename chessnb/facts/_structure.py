"""What follows from the structure of a position: its pawns, and the squares and lines they make.

Each part has its definitions at the top of its module: the weak pawns in
:mod:`chessnb.facts._pawns`, passed pawns and majorities in
:mod:`chessnb.facts._passers`, holes and outposts in
:mod:`chessnb.facts._strongpoints`, files, bishops and the pawns before a king
in :mod:`chessnb.facts._held_lines`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import chess

from chessnb.board.naming import listed
from chessnb.board.pieces import Piece
from chessnb.board.position import Position, read_position
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.errors import InputError
from chessnb.facts._held_lines import (
    BadBishop,
    HeldFile,
    KingShelter,
    bad_bishops,
    held_files,
    shelters,
)
from chessnb.facts._passers import Majority, PassedPawn, majorities, passed_pawn
from chessnb.facts._pawns import Structure
from chessnb.facts._pawns import structure as named_pawns
from chessnb.facts._strongpoints import Outpost, holes, outposts
from chessnb.facts._structure_words import NOTHING, sentences
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import pieces_field, place_of, side_word
from chessnb.mistakes import checked


@dataclass(frozen=True, kw_only=True)
class StructureFacts(Finding):
    """The structure of a position.

    Attributes
    ----------
    fen : str
        The position.
    white, black : Structure
        Each side's weak pawns.
    passed : tuple of PassedPawn
        The passed pawns of both sides with what stops them.
    majorities : tuple of Majority
        Where a side has more pawns than the other.
    white_holes, black_holes : tuple of str
        The squares of each side's half that its pawns can guard no more.
    outposts : tuple of Outpost
        The squares in the enemy's half that no pawn can drive a piece from.
    bad_bishops : tuple of BadBishop
        Bishops with their own pawns in their way.
    held_files : tuple of HeldFile
        Open and half-open files that one side holds.
    shelters : tuple of KingShelter
        The kings with gaps before them.
    about : tuple of str
        The parts that were asked about; empty: all of it.
    """

    fen: str
    white: Structure
    black: Structure
    passed: tuple[PassedPawn, ...] = ()
    majorities: tuple[Majority, ...] = ()
    white_holes: tuple[str, ...] = ()
    black_holes: tuple[str, ...] = ()
    outposts: tuple[Outpost, ...] = ()
    bad_bishops: tuple[BadBishop, ...] = ()
    held_files: tuple[HeldFile, ...] = ()
    shelters: tuple[KingShelter, ...] = ()
    about: tuple[str, ...] = ()

    @property
    def record(self) -> Record:
        """All of it, part by part."""
        return Record(
            place=place_of(chess.Board(self.fen)),
            kind="structure",
            fields=tuple(self._fields()),
            status="rules",
        )

    def _fields(self) -> Iterator[str]:
        yield from (f"about {part}" for part in self.about)
        for side, pawns in ((chess.WHITE, self.white), (chess.BLACK, self.black)):
            for named in pawns.named:
                yield f"{side_word(side)} {named}"
        for pawn in self.passed:
            yield f"{side_word(pawn.side)} passed {pawn.square} {_stopped(pawn)}"
        for most in self.majorities:
            doubled = " doubled" if most.doubled else ""
            numbers = f"{most.own} to {most.enemy}"
            yield f"{side_word(most.side)} majority {most.wing} {numbers}{doubled}"
        for side, squares in ((chess.WHITE, self.white_holes), (chess.BLACK, self.black_holes)):
            if squares:
                yield f"{side_word(side)} holes {' '.join(squares)}"
        for post in self.outposts:
            yield f"{side_word(post.side)} outpost {post.square}{_used(post)}"
        for bishop in self.bad_bishops:
            piece, pawns_in_the_way = pieces_field([bishop.piece]), " ".join(bishop.pawns)
            yield f"{side_word(bishop.piece.color)} bad {piece} behind {pawns_in_the_way}"
        for held in self.held_files:
            kind = "open" if held.is_open else "half-open"
            yield f"{side_word(held.side)} {kind} {held.file} by {pieces_field(held.pieces)}"
        for king in self.shelters:
            gaps, where = " ".join(king.missing), pieces_field([king.king])
            yield f"{side_word(king.king.color)} gaps {gaps} before {where}"

    @property
    def words(self) -> str:
        """The sentences, in one line."""
        return " ".join(self.paragraphs)

    @property
    def paragraphs(self) -> Sequence[str]:
        """One sentence for each part."""
        found = sentences(
            weak=((chess.WHITE, self.white), (chess.BLACK, self.black)),
            passed=self.passed,
            majorities=self.majorities,
            holes=((chess.WHITE, self.white_holes), (chess.BLACK, self.black_holes)),
            outposts=self.outposts,
            bad_bishops=self.bad_bishops,
            held_files=self.held_files,
            shelters=self.shelters,
        )
        if not found:
            return (f"There are no {listed(self.about, joint='or')}." if self.about else NOTHING,)
        return found

    @property
    def picture(self) -> Diagram:
        """The board: weak pawns ticked, outposts outlined, the ways of passed pawns and files."""
        marks: dict[Mark, None] = {}
        for pawns in (self.white, self.black):
            for square in sorted({*pawns.isolated, *pawns.doubled, *pawns.backward}):
                marks[Mark(role="target", square=square)] = None
        for pawn in self.passed:
            end = f"{pawn.square[0]}{8 if pawn.side else 1}"
            role = "blocked" if pawn.blocked_by else "force"
            marks[Mark(role=role, square=pawn.square, to=end)] = None
        for post in self.outposts:
            marks[Mark(role="lure", square=post.square)] = None
        for bishop in self.bad_bishops:
            marks[Mark(role="actor", square=bishop.piece.square)] = None
        for held in self.held_files:
            start, end = held.pieces[0].square, f"{held.file}{8 if held.side else 1}"
            if start != end:
                marks[Mark(role="force", square=start, to=end)] = None
        return diagram(self.fen, marks=tuple(marks))


def _stopped(pawn: PassedPawn) -> str:
    if pawn.blocked_by is not None:
        return f"blocked {pieces_field([pawn.blocked_by])}"
    return f"covered {pieces_field(pawn.stopped_by)}" if pawn.stopped_by else "free"


def _used(post: Outpost) -> str:
    if post.piece is None:
        return ""
    how = "held by" if post.is_held else f"within {len(post.route)} of"
    return f" {how} {_field(post.piece)}"


def _field(piece: Piece) -> str:
    return pieces_field([piece])


PARTS = (
    "weak pawns", "passed pawns", "outposts", "holes", "bishops", "files", "majorities", "kings",
)  # fmt: skip
"""What may be asked about."""


def _read_parts(about: str | Sequence[str] | None) -> tuple[str, ...]:
    """Read which parts are asked about; none: all."""
    if about is None:
        return ()
    asked = (about,) if isinstance(about, str) else about
    if not isinstance(asked, Sequence) or not asked or not all(one in PARTS for one in asked):
        parts = listed(map(repr, PARTS), joint="or")
        raise InputError(f"what is asked about is one or several of {parts}", given=about)
    return tuple(asked)


@gathered
@checked
def structure(position: Position, *, about: str | Sequence[str] | None = None) -> StructureFacts:
    """Say what follows from the pawns: weak and strong squares, pawns, files and bishops.

    The definitions stand at the top of this module's parts.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    about : str or sequence of str, optional
        Which parts: ``"weak pawns"``, ``"passed pawns"``, ``"outposts"``, ``"holes"``,
        ``"bishops"``, ``"files"``, ``"majorities"``, ``"kings"``.  By default all.

    Returns
    -------
    StructureFacts
        All that was found; nothing is judged.

    Raises
    ------
    InputError
        If there is no such part.

    Examples
    --------
    >>> board = "4r1k1/pp3ppp/3p4/3N4/4P3/8/PP3PPP/3R2K1 w - - 0 1"
    >>> print(structure(board, about="outposts"))
    1. | structure | about outposts | white outpost d5 held by Nd5 | rules
    >>> print(structure(board).paragraphs[0])
    Black has an isolated pawn on d6.
    """
    board = read_position(position)
    asked = _read_parts(about)
    return found_on(board, asked)


def found_on(board: chess.Board, about: tuple[str, ...] = ()) -> StructureFacts:
    """Return the structure of a board, or some parts of it."""
    wanted = about or PARTS
    white, black = (
        _named(named_pawns(board, side), weak="weak pawns" in wanted)
        for side in (chess.WHITE, chess.BLACK)
    )
    return StructureFacts(
        fen=board.fen(),
        white=white,
        black=black,
        passed=tuple(_passed(board)) if "passed pawns" in wanted else (),
        majorities=tuple(majorities(board)) if "majorities" in wanted else (),
        white_holes=holes(board, chess.WHITE) if "holes" in wanted else (),
        black_holes=holes(board, chess.BLACK) if "holes" in wanted else (),
        outposts=_of_both(outposts, board) if "outposts" in wanted else (),
        bad_bishops=_of_both(bad_bishops, board) if "bishops" in wanted else (),
        held_files=_of_both(held_files, board) if "files" in wanted else (),
        shelters=_of_both(shelters, board) if "kings" in wanted else (),
        about=about,
    )


def _named(pawns: Structure, *, weak: bool) -> Structure:
    """Return the weak pawns alone: the passed ones are told with what stops them."""
    return replace(pawns, passed=()) if weak else Structure()


def _passed(board: chess.Board) -> Iterator[PassedPawn]:
    for side in (chess.WHITE, chess.BLACK):
        for square in named_pawns(board, side).passed:
            yield passed_pawn(board, chess.parse_square(square), side)


Part = TypeVar("Part")


def _of_both(
    look: Callable[[chess.Board, chess.Color], Iterator[Part]], board: chess.Board
) -> tuple[Part, ...]:
    """Return what is found for White, then what is found for Black."""
    return tuple(one for side in (chess.WHITE, chess.BLACK) for one in look(board, side))
