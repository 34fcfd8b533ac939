"""An adviser: a UCI engine that helps a draft to choose, and decides nothing that is proved.

It is asked while a lesson is drafted, and only then.  What it says chooses
which of the proved statements are worth a stop; answers, claims and the check
of a lesson never ask it.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import TracebackType

import chess
import chess.engine

from chessnb.engine import PATIENCE_S, EngineError, find_engine

POSITIONS = 150_000
"""Positions for each question."""

OPEN = 350
"""A position is open while neither side is ahead by more, in hundredths of a pawn
(common practice, no source)."""

MISTAKE = 180
"""What a move must cost to be a mistake, in hundredths of a pawn (common practice, no source):
a pawn and a half, and a little for what a longer look would say."""

MATED = 10_000
"""A mate, in hundredths of a pawn, less its moves."""


MOST_ANNOUNCED = 100
"""More moves than any mate has that an adviser announces."""


@dataclass(frozen=True, kw_only=True)
class Advice:
    """What an adviser says of a position.

    Attributes
    ----------
    score : int
        Hundredths of a pawn, from the side to move.
    best : chess.Move or None
        The move that it would make.
    """

    score: int
    best: chess.Move | None

    @property
    def is_open(self) -> bool:
        """Whether the game is not decided."""
        return abs(self.score) <= OPEN


@dataclass(frozen=True, kw_only=True)
class Swing:
    """What an adviser says of a move.

    Attributes
    ----------
    before : Advice
        Before the move, from the side that makes it.
    after : int
        The score after it, from the same side.
    """

    before: Advice
    after: int

    @property
    def mates_in(self) -> int:
        """The length of the mate that the adviser sees in the move, the move with it; else 0."""
        left = MATED - self.after
        return left + 1 if left < MOST_ANNOUNCED else 0

    @property
    def costs(self) -> int:
        """What the move costs against the best, in hundredths of a pawn."""
        return max(0, self.before.score - self.after)

    @property
    def is_open(self) -> bool:
        """Whether the game was open before the move or is after it."""
        return self.before.is_open or abs(self.after) <= OPEN

    @property
    def is_good(self) -> bool:
        """Whether the side stands well after its move, which costs little."""
        return self.after >= MISTAKE and self.costs < MISTAKE


class Adviser:
    """A UCI engine with one thread and a fixed number of positions a question.

    Parameters
    ----------
    engine : str, optional
        Its program, by path or name; see :mod:`chessnb.engine`.
    positions : int
        Positions for each question.
    patience : float
        Seconds for each; one that is silent for twice as long is given up.

    Raises
    ------
    EngineError
        If there is none, or it does not answer.
    """

    def __init__(
        self,
        engine: str | None = None,
        *,
        positions: int = POSITIONS,
        patience: float = PATIENCE_S,
    ) -> None:
        path = find_engine(engine)
        self.limit = chess.engine.Limit(nodes=positions, time=patience)
        self._known: dict[str, Advice] = {}
        try:
            self._engine = chess.engine.SimpleEngine.popen_uci(path, timeout=patience)
            options = {key: 1 for key in ("Threads",) if key in self._engine.options}
            self._engine.configure(options)
        except (chess.engine.EngineError, OSError, TimeoutError) as error:
            raise EngineError(f"{path} does not work as a UCI engine: {error}") from None

    @property
    def name(self) -> str:
        """What the engine calls itself."""
        return str(self._engine.id.get("name", "a UCI engine"))

    def ask(self, board: chess.Board) -> Advice:
        """Return what it says of a position, asked once.

        Raises
        ------
        EngineError
            If it has died or does not answer.
        """
        name = board.epd()
        if name not in self._known:
            self._known[name] = self._asked(board)
        return self._known[name]

    def _asked(self, board: chess.Board) -> Advice:
        if not any(board.legal_moves):
            return Advice(score=-MATED if board.is_check() else 0, best=None)
        alone = board.copy(stack=False)
        try:
            # A new game each time: what was asked before changes nothing.
            info = self._engine.analyse(alone, self.limit, game=object())
        except (chess.engine.EngineError, OSError, TimeoutError) as error:
            raise EngineError(f"the adviser does not answer any more: {error}") from None
        score = info.get("score")
        line = info.get("pv")
        points = 0 if score is None else score.relative.score(mate_score=MATED)
        return Advice(score=points, best=line[0] if line else None)

    def close(self) -> None:
        """End the engine."""
        self._engine.close()

    def __enter__(self) -> Adviser:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()
