"""Where the moves of a text are played: on the way to its position, after it, or in its place."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass, replace

import chess
import chess.pgn

from chessnb.board.turns import after_pass
from chessnb.errors import NotationError
from chessnb.lessons import Moment
from chessnb.notation.move_reader import read_written
from chessnb.teaching.statements.statement import Ground


@dataclass(frozen=True, kw_only=True)
class Named:
    """A move that a text names.

    Attributes
    ----------
    at : Moment or chess.Board
        The position before it.
    move : chess.Move
        The move.
    line : tuple of chess.Move
        The moves that the text leads through before it, this one included.
    passed : bool
        Whether it is a move that the side that waits would play.
    instead : bool
        Whether it stands in the place of the move played.
    mates : bool
        Whether the text says so by a sign.
    """

    at: Ground
    move: chess.Move
    line: tuple[chess.Move, ...]
    passed: bool = False
    instead: bool = False
    mates: bool = False
    only: chess.Move | None = None

    @property
    def after(self) -> Ground:
        """The position after it."""
        return after(self.at, self.move)

    @property
    def mover(self) -> chess.Color:
        """Whose move it is."""
        return board_of(self.at).turn


def board_of(ground: Ground) -> chess.Board:
    """Return a board of a position, with the moves to it."""
    return ground.board if isinstance(ground, Moment) else ground


def after(ground: Ground, move: chess.Move) -> Ground:
    """Return the position after a move: one of the lesson, if the lesson has it."""
    if isinstance(ground, Moment):
        for branch in ground.branches:
            if branch.move == move:
                return branch
    board = board_of(ground).copy()
    board.push(move)
    return board


class Places:
    """The positions that a text may speak of, and how far it has told a line.

    Parameters
    ----------
    moment : Moment
        The position that it is a comment on.
    language : str
        Whose letters the pieces have.
    """

    def __init__(self, moment: Moment, *, language: str) -> None:
        self.moment = moment
        self.language = language
        self.told: Named | None = None

    def named(self, text: str, *, number: int | None, black: bool | None) -> Named | None:
        """Return a move where it is legal: behind the last one, here, before, or as a threat.

        None if it is legal nowhere there.
        """
        for place in self._candidates(number, black):
            with suppress(NotationError):
                move = read_written(board_of(place.at), text, language=self.language)
                if place.only is not None and move != place.only:
                    continue
                line = (*place.line, move)
                found = replace(place, move=move, line=line, mates=text.rstrip("!?").endswith("#"))
                self.told = None if found.passed else found
                return found
        return None

    def is_played(self, named: Named) -> bool:
        """Tell whether a move is the one that the text is a comment on."""
        back = self.moment.back
        return back is not None and named.at == back and named.move == self.moment.move

    def _candidates(self, number: int | None, black: bool | None) -> Iterator[Named]:
        for place in self._around(numbered=number is not None):
            board = board_of(place.at)
            if number is not None and board.fullmove_number != number:
                continue
            if black is not None and board.turn == black:
                continue
            yield place

    def _around(self, *, numbered: bool) -> Iterator[Named]:
        none = chess.Move.null()
        if self.told is not None:
            yield Named(at=self.told.after, move=none, line=self.told.line)
        back = self.moment.back
        if back is not None:
            # The move played comes first: "Nf3+" in a comment on it is this one.
            yield Named(at=back, move=none, line=(), only=self.moment.move)
        yield Named(at=self.moment, move=none, line=())
        if self.told is not None:
            yield Named(at=self.told.at, move=none, line=self.told.line[:-1])
        passed = after_pass(self.moment.board)
        if passed is not None:
            yield Named(at=passed, move=none, line=(), passed=True)
        if back is not None:
            yield Named(at=back, move=none, line=(), instead=True)
        if numbered:
            for other in self._way():
                yield Named(at=other, move=none, line=())

    def _way(self) -> Iterator[Moment]:
        """Yield the positions on the way here and on from here, and beside the move played."""
        on = self.moment.next
        for _ in range(12):
            if on is None:
                break
            yield on
            on = on.next
        back = self.moment.back
        while back is not None:
            yield back
            back = back.back
