"""Guess the next move: a game move by move, each guess judged by what it does.

That a guess is the game's move counts for nothing by itself: a mistake of the
game is a mistake, and a move that does as much is as good.  What is not proved
either way is not counted.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import chess

from chessnb.board.naming import counted
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.errors import LessonError
from chessnb.lessons import Lesson, Moment
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_move
from chessnb.search.budget import finish
from chessnb.teaching.recall.main_line import line_from
from chessnb.teaching.recall.memory_drill import Stop
from chessnb.teaching.tries import Answer, answering
from chessnb.verdicts.depth import USUAL, Depth

Worth = Literal["right", "part", "wrong", "not proved"]


@dataclass(frozen=True, kw_only=True)
class Guessed:
    """What a guess was worth.

    Attributes
    ----------
    stop : Stop
        The move that the game went on with.
    guess : chess.Move
        The guess.
    result : {"right", "part", "wrong", "not proved"}
        What it is; what is not proved is not counted.
    sentence : str
        What the student is told, the game's move with it.
    line : tuple of chess.Move
        What shows it, from the guess on.
    """

    stop: Stop
    guess: chess.Move
    result: Worth
    sentence: str
    line: tuple[chess.Move, ...]

    @property
    def is_the_games(self) -> bool:
        """Whether the game went on with it."""
        return self.guess == self.stop.move

    @property
    def credit(self) -> float | None:
        """From 0 to 1; None where nothing is proved."""
        return {"right": 1.0, "part": 0.5, "wrong": 0.0}.get(self.result)

    def __str__(self) -> str:
        return self.sentence


@checked
def guess(line: Lesson | Moment, *, side: Side | None = None, depth: Depth = USUAL) -> Guessing:
    """Ask for the next move of a game, again and again, and judge each guess.

    Parameters
    ----------
    line : Lesson or Moment
        A lesson's game, or how its line goes on from a position.
    side : {"White", "Black"} or chess.Color, optional
        Guess for this side only; the other's moves are played.
    depth : Depth
        How far a guess is looked into.

    Raises
    ------
    LessonError
        If there is no move to guess.

    Examples
    --------
    >>> game = guess(Lesson.from_text("1. f3 e5 2. g4 Qh4#"), side="Black")
    >>> _, mate = game.answer("e5"), game.answer("Qh4")
    >>> mate.result, mate.sentence
    ('right', 'Checkmate. That is the game’s move.')
    """
    color = None if side is None else read_side(side)
    stops = [Stop(node=node) for node in line_from(line)]
    asked = [one for one in stops if color is None or one.board.turn == color]
    if not asked:
        raise LessonError("there is no move to guess in this line")
    return Guessing(asked, depth=depth)


class Guessing:
    """A game that is guessed; made by :func:`guess`.

    Attributes
    ----------
    guesses : list of Guessed
        What was guessed so far.
    """

    def __init__(self, stops: list[Stop], *, depth: Depth) -> None:
        self.guesses: list[Guessed] = []
        self._stops = tuple(stops)
        self._depth = depth

    @property
    def stop(self) -> Stop | None:
        """Where the next move is to be guessed; None at the end."""
        done = len(self.guesses)
        return self._stops[done] if done < len(self._stops) else None

    @property
    def prompt(self) -> str:
        """The question; empty at the end."""
        return "" if self.stop is None else self.stop.prompt

    def answer(self, move: MoveLike) -> Guessed:
        """Judge a guess; the game goes on with its own move in any case.

        Raises
        ------
        NotationError
            If it is not one legal move; that is no guess.
        LessonError
            If the game has ended.
        """
        stop = self.stop
        if stop is None:
            raise LessonError("the game has ended: there is no move left to guess")
        board = stop.board
        given = read_move(board, move)
        same = given == stop.move
        found = finish(
            answering(board, given, lesson_move=None if same else stop.move, depth=self._depth)
        )
        told = Guessed(
            stop=stop,
            guess=given,
            result=_worth(found),
            sentence=f"{found.sentence} {_the_games(stop, same=same)}",
            line=found.line,
        )
        self.guesses.append(told)
        return told

    @property
    def words(self) -> str:
        """How the guesses went, as a sentence."""
        counted_ones = [one.credit for one in self.guesses if one.credit is not None]
        same = sum(one.is_the_games for one in self.guesses)
        asked = "1 guess" if len(self.guesses) == 1 else f"{len(self.guesses)} guesses"
        return (
            f"{asked}: {sum(counted_ones):g} of {len(counted_ones)} that could be judged, "
            f"{same} as in the game."
        )

    def __repr__(self) -> str:
        return f"<Guessing: {len(self.guesses)} of {counted(len(self._stops), 'move')}>"


def _worth(found: Answer) -> Worth:
    kinds: dict[str, Worth] = {"good": "right", "part": "part", "refuted": "wrong"}
    return kinds.get(found.kind, "not proved")


def _the_games(stop: Stop, *, same: bool) -> str:
    if same:
        return "That is the game’s move."
    side = SIDES[stop.board.turn]
    return f"In the game {side} played {write_move(stop.board, stop.move)}."
