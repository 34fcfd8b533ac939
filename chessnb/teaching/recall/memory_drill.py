"""The recall drill: a line from memory, move by move, with hints, and a summary at the end.

It asks for what stands in the lesson and for nothing else: another move may be
as good, and is then told to be another one, not a bad one.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Literal

import chess
import chess.pgn

from chessnb.board.naming import counted, listed, number
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.errors import LessonError
from chessnb.facts import changes
from chessnb.findings.gathering import aside
from chessnb.lessons import Lesson, Moment
from chessnb.mistakes import checked
from chessnb.notation import MoveLike, read_move, write_move
from chessnb.teaching.questions import hinting
from chessnb.teaching.questions.purposes import purposes
from chessnb.teaching.recall.differences import where_it_belongs
from chessnb.teaching.recall.main_line import line_from, prompt_of
from chessnb.teaching.recall.schedule import Grade, Schedule, grade_of

TRIES = 3
"""After so many wrong moves the right one is shown."""

Clock = Callable[[], datetime]
"""Says what time it is."""


def now() -> datetime:
    """Return what time it is."""
    return datetime.now(UTC)


@dataclass(frozen=True, kw_only=True, eq=False)
class Stop:
    """One move that is asked for.

    Attributes
    ----------
    node : chess.pgn.ChildNode
        The move in its lesson.
    """

    node: chess.pgn.ChildNode

    @property
    def board(self) -> chess.Board:
        """The position before it; a board of the caller's own."""
        return self.node.parent.board()

    @property
    def move(self) -> chess.Move:
        """The move."""
        return self.node.move

    @property
    def written(self) -> str:
        """The move with its number."""
        return f"{number(self.board)} {self.node.san()}"

    @property
    def key(self) -> str:
        """The position and the move, by which it comes back."""
        return f"{self.board.epd()} {self.move.uci()}"

    @property
    def prompt(self) -> str:
        """The question."""
        return prompt_of(self.node, SIDES[self.board.turn])

    @property
    def hints(self) -> tuple[str, ...]:
        """The hints, the gentlest first; the last says where the move goes."""
        board = self.board
        with aside():
            does = purposes(changes(board, self.move))
        square = chess.square_name(self.move.to_square)
        return (
            hinting.area([self.move.to_square]).text,
            hinting.mover(board, [self.move]).text,
            *(f"It {one.sentence}." for one in does[:1] if one.telling),
            f"It goes to {square}.",
        )


@dataclass(frozen=True, kw_only=True)
class Attempt:
    """How one move was recalled.

    Attributes
    ----------
    stop : Stop
        The move.
    wrong : tuple of str
        The wrong moves that were given, in SAN.
    different : str
        Where the first of them belongs, and what is different there.
    hints : int
        Hints taken.
    seconds : float
        From the question to the end of it.
    shown : bool
        Whether the move had to be shown.
    """

    stop: Stop
    wrong: tuple[str, ...] = ()
    different: str = ""
    hints: int = 0
    seconds: float = 0.0
    shown: bool = False

    @property
    def grade(self) -> Grade:
        """How well it was known."""
        return grade_of(
            wrong=len(self.wrong), hints=self.hints, seconds=self.seconds, shown=self.shown
        )

    @property
    def words(self) -> str:
        """How it went, as a sentence."""
        said = f" (you played {listed(self.wrong)})" if self.wrong else " (shown)"
        return f"{self.stop.written}{said}. {self.different}".strip()


@dataclass(frozen=True, kw_only=True)
class Recalled:
    """What a student hears of a move in a drill.

    Attributes
    ----------
    result : {"right", "wrong", "shown"}
        What became of it; after "wrong" it is asked for again.
    sentence : str
        In words.
    """

    result: Literal["right", "wrong", "shown"]
    sentence: str

    def __str__(self) -> str:
        return self.sentence


@dataclass(frozen=True, kw_only=True)
class Summary:
    """How a drill went.

    Attributes
    ----------
    attempts : tuple of Attempt
        Every move that was asked for, in order.
    """

    attempts: tuple[Attempt, ...]

    @property
    def missed(self) -> tuple[Attempt, ...]:
        """The moves that were not known."""
        return tuple(one for one in self.attempts if one.grade == "again")

    @property
    def helped(self) -> tuple[Attempt, ...]:
        """The moves that were found with hints."""
        return tuple(one for one in self.attempts if one.hints and one.grade != "again")

    def lines(self) -> Iterator[str]:
        """Yield the summary as lines."""
        asked, missed, helped = len(self.attempts), len(self.missed), len(self.helped)
        alone = asked - missed - helped
        parts = [f"{alone} of {counted(asked, 'move')} known"]
        if helped:
            parts.append(f"{helped} with a hint")
        if missed:
            parts.append(f"{missed} missed")
        yield f"{', '.join(parts)}."
        yield from (one.words for one in self.missed)

    def __str__(self) -> str:
        return "\n".join(self.lines())


@checked
def drill(
    line: Lesson | Moment,
    *,
    side: Side | None = None,
    only: Collection[str] | None = None,
    clock: Clock = now,
) -> Drill:
    """Ask for a line from memory.

    Parameters
    ----------
    line : Lesson or Moment
        A lesson's main line, or how its line goes on from a position.
    side : {"White", "Black"} or chess.Color, optional
        Ask for this side's moves only; the other's are played.
    only : collection of str, optional
        Ask only where a position's key is one of these, as
        :meth:`Schedule.due` returns them.
    clock : callable
        Says what time it is.

    Raises
    ------
    LessonError
        If there is no move to ask for.

    Examples
    --------
    >>> asked = drill(Lesson.from_text("1. e4 e5 2. Nf3 Nc6"), side="White")
    >>> asked.prompt, asked.answer("e4").sentence, asked.prompt
    ('What does White play?', 'Right: 1. e4.', 'Black has played 1... e5. What does White play?')
    """
    color = None if side is None else read_side(side)
    stops = [Stop(node=node) for node in line_from(line)]
    asked = [one for one in stops if color is None or one.board.turn == color]
    if only is not None:
        asked = [one for one in asked if one.key in only]
    if not asked:
        raise LessonError("there is no move to ask for in this line")
    return Drill(asked, clock=clock)


class Drill:
    """A drill under way; made by :func:`drill`.

    Attributes
    ----------
    stops : tuple of Stop
        The moves that are asked for.
    """

    def __init__(self, stops: list[Stop], *, clock: Clock) -> None:
        self.stops = tuple(stops)
        self._clock = clock
        self._attempts: list[Attempt] = []
        self._begin()

    def _begin(self) -> None:
        self._wrong: list[str] = []
        self._different = ""
        self._hints = 0
        self._since = self._clock()

    @property
    def stop(self) -> Stop | None:
        """The move that is asked for; None at the end."""
        done = len(self._attempts)
        return self.stops[done] if done < len(self.stops) else None

    @property
    def prompt(self) -> str:
        """The question; empty at the end."""
        return "" if self.stop is None else self.stop.prompt

    @property
    def summary(self) -> Summary:
        """How it has gone so far."""
        return Summary(attempts=tuple(self._attempts))

    def hint(self) -> str:
        """Give the next hint, and the last one again when there are no more."""
        hints = self._asked().hints
        told = hints[min(self._hints, len(hints) - 1)]
        self._hints = min(self._hints + 1, len(hints))
        return told

    def answer(self, move: MoveLike) -> Recalled:
        """Hear a move.

        Raises
        ------
        NotationError
            If it is not one legal move; that does not count as a try.
        LessonError
            If the drill has ended.
        """
        stop = self._asked()
        board = stop.board
        given = read_move(board, move)
        if given == stop.move:
            self._end(shown=False)
            return Recalled(result="right", sentence=f"Right: {stop.written}.")
        san = write_move(board, given)
        belongs = where_it_belongs(stop.node, given)
        self._wrong.append(san)
        self._different = self._different or belongs
        if len(self._wrong) >= TRIES:
            return self.show()
        sentence = f"{san} is not the move of this line. {belongs}".strip()
        return Recalled(result="wrong", sentence=sentence)

    def show(self) -> Recalled:
        """Show the move, and go on."""
        stop = self._asked()
        self._end(shown=True)
        return Recalled(result="shown", sentence=f"It is {stop.written}.")

    def scheduled(self, schedule: Schedule) -> Schedule:
        """Return a schedule after this drill: what was missed comes back on later days."""
        at = self._clock()
        for one in self._attempts:
            schedule = schedule.reviewed(one.stop.key, one.grade, at)
        return schedule

    def _asked(self) -> Stop:
        if self.stop is None:
            raise LessonError("the drill has ended: every move of it was asked for")
        return self.stop

    def _end(self, *, shown: bool) -> None:
        seconds = max(0.0, (self._clock() - self._since).total_seconds())
        self._attempts.append(
            Attempt(
                stop=self._asked(),
                wrong=tuple(self._wrong),
                different=self._different,
                hints=self._hints,
                seconds=seconds,
                shown=shown,
            )
        )
        self._begin()

    def __repr__(self) -> str:
        return f"<Drill: {len(self._attempts)} of {counted(len(self.stops), 'move')} asked>"
