"""A UCI engine's opinion: optional, named, and never a proof.

Any engine that speaks UCI will do.  It gets one thread and a fixed number of
positions, so that the same engine says the same again; what it says is left
out of what is compared when a lesson is checked, since another engine, or
another version, says something else.

The engine is looked for in this order: the argument, the environment variable
``CHESSNB_ENGINE``, ``stockfish`` on the PATH.  Never in a notebook's metadata
or in a game file: opening a lesson must not choose a program to run.
"""

from __future__ import annotations

import asyncio
import logging
import os
import shutil
import signal
import subprocess
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, TypeVar

import chess
import chess.engine

from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.diagrams import Diagram, Mark, diagram
from chessnb.errors import ChessnbError
from chessnb.findings import Finding, Record, gathered
from chessnb.findings.record_fields import place_of
from chessnb.mistakes import checked, introduce
from chessnb.notation import write_line
from chessnb.proof.goals import whole_number
from chessnb.search.budget import MOST_POSITIONS

# What is wrong with an engine is told by EngineError alone: no log lines in a lesson.
logging.getLogger("chess.engine").addHandler(logging.NullHandler())

__all__ = ["EngineError", "EngineLine", "Opinion", "find_engine", "opinion"]

VARIABLE = "CHESSNB_ENGINE"
"""The environment variable that names the engine's program."""

USUAL = "stockfish"
FOLDERS = ("/usr/games", "/usr/local/bin")
"""Where Debian puts engines beside the PATH."""

POSITIONS = 200_000
"""Positions for one opinion, unless it is told otherwise."""

MOST_LINES = 200
"""More moves than any position of a game has."""

PATIENCE_S = 30.0
"""An engine that is silent so long is given up; in seconds."""

GRACE_S = 0.5
"""So long is waited for an engine that was ended; in seconds."""

SYMBOLS = ((300, "+−"), (120, "±"), (40, "⩲"), (-40, "="), (-120, "⩱"), (-300, "∓"))
"""The symbols of print and the least score, in hundredths of a pawn, that each stands for.

Common practice, no source."""


class EngineError(ChessnbError):
    """An engine is missing, has died, or does not answer."""


@dataclass(frozen=True, kw_only=True)
class EngineLine:
    """One line of an engine.

    Attributes
    ----------
    symbol : str
        The evaluation in the symbols of print, from White's point of view.
    score : int or None
        Hundredths of a pawn, from White's point of view; None for a mate.
    mate : int or None
        Moves to the mate that it announces; negative if Black mates.
    moves : tuple of chess.Move
        The line.
    """

    symbol: str
    score: int | None
    mate: int | None
    moves: tuple[chess.Move, ...]


@dataclass(frozen=True, kw_only=True)
class Opinion(Finding):
    """What an engine thinks of a position.

    Attributes
    ----------
    fen : str
        The position.
    engine : str
        The engine's own name.
    positions : int
        How many positions it was allowed to look at.
    lines : tuple of EngineLine
        Its lines, best first for the side to move.
    """

    fen: str
    engine: str
    positions: int
    lines: tuple[EngineLine, ...]

    @property
    def record(self) -> Record:
        """The same for every opinion: what an engine says is not compared."""
        return Record(place=place_of(chess.Board(self.fen)), kind="engine", status="opinion")

    @property
    def words(self) -> str:
        """That it is one."""
        return "an engine's opinion: not a proof, and not compared"

    @property
    def picture(self) -> Diagram:
        """The position, with a stroke for the move that it likes best."""
        if not self.lines or not self.lines[0].moves:
            return diagram(self.fen)
        best = self.lines[0].moves[0]
        start, end = (chess.square_name(square) for square in (best.from_square, best.to_square))
        return diagram(self.fen, marks=[Mark(role="force", square=start, to=end)])

    @property
    def paragraphs(self) -> tuple[str, ...]:
        """Each line with its evaluation, the engine named."""
        board = chess.Board(self.fen)
        told = [
            f"{self.engine} thinks {_evaluation(line)}: {write_line(board, line.moves)}."
            for line in self.lines
        ]
        caution = f"An opinion after {self.positions:,} positions, not a proof."
        return (*told, caution)


def _evaluation(line: EngineLine) -> str:
    if line.mate is not None:
        return f"{SIDES[line.mate > 0]} mates in {abs(line.mate)}"
    return f"{line.symbol} ({(line.score or 0) / 100:+.1f})"


@checked
def find_engine(engine: str | None = None) -> str:
    """Return the path of an engine's program.

    Parameters
    ----------
    engine : str, optional
        A path, or the name of a program on the PATH.

    Raises
    ------
    EngineError
        If there is none.
    """
    wanted = engine or os.environ.get(VARIABLE) or USUAL
    if os.sep in wanted:
        if Path(wanted).is_file() and os.access(wanted, os.X_OK):
            return wanted
        raise EngineError(f"there is no engine that can be run at {wanted}")
    path = os.pathsep.join((os.environ.get("PATH", ""), *FOLDERS))
    found = shutil.which(wanted, path=path)
    if found is None:
        raise EngineError(
            f"no UCI engine called {wanted} was found: install one, or name its program in the"
            f" environment variable {VARIABLE}"
        )
    return found


@gathered
@checked
def opinion(
    position: Position,
    *,
    engine: str | None = None,
    positions: int = POSITIONS,
    lines: int = 1,
    patience: float = PATIENCE_S,
) -> Opinion:
    """Ask a UCI engine what it thinks of a position.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position.
    engine : str, optional
        The engine's program, by path or by name; see the module.
    positions : int
        Positions that it may look at; its own count of them is rough.
    lines : int
        So many of its best lines.
    patience : float
        Seconds after which an engine that does not answer is given up.

    Returns
    -------
    Opinion
        Never a proof.

    Raises
    ------
    EngineError
        If there is no engine, or it dies, hangs, or is no UCI engine.
    """
    board = read_position(position)
    whole_number("positions", positions, most=MOST_POSITIONS)
    whole_number("lines", lines, most=MOST_LINES)
    path = find_engine(engine)
    if not any(board.legal_moves):
        raise EngineError(f"the game is over here, there is nothing to ask [{board.fen()}]")
    name, infos = _asked(path, board, positions=positions, lines=lines, patience=patience)
    # An engine that is stopped may have looked at some of its lines deeper than at others.
    infos.sort(key=_relative, reverse=True)
    found = tuple(_line(info) for info in infos)
    return Opinion(fen=board.fen(), engine=name, positions=positions, lines=found)


def _asked(
    path: str, board: chess.Board, *, positions: int, lines: int, patience: float
) -> tuple[str, list[chess.engine.InfoDict]]:
    """Return an engine's name for itself and its lines, or say in words what is wrong with it."""
    name = Path(path).name
    limit = chess.engine.Limit(nodes=positions)
    try:
        return _in_a_thread(_conversation(path, board, limit, lines, patience))
    except TimeoutError:
        raise EngineError(
            f"the engine {name} did not answer within {patience:g} seconds and was ended"
        ) from None
    except chess.engine.EngineTerminatedError:
        raise EngineError(f"the engine {name} ended before it answered") from None
    except (chess.engine.EngineError, OSError) as error:
        raise EngineError(f"{name} does not work as a UCI engine: {error}") from None


async def _conversation(
    path: str, board: chess.Board, limit: chess.engine.Limit, lines: int, patience: float
) -> tuple[str, list[chess.engine.InfoDict]]:
    """Start an engine, ask it, and end it with all that it has started, whatever happens."""
    transport, program = await chess.engine.UciProtocol.popen(
        path, setpgrp=True, stderr=subprocess.DEVNULL
    )
    talk = asyncio.create_task(_talk(program, board, limit, lines))
    answered = False
    try:
        answered = bool((await asyncio.wait({talk}, timeout=patience))[0])
    finally:
        _end(transport.get_pid())
        transport.close()
        # A talk that waits for the engine ends now that it is gone; one that an answer
        # against the protocol has lost its way in does not.
        ending: set[asyncio.Future[Any]] = {talk, program.returncode}
        for _ in range(2):
            await asyncio.wait(ending, timeout=GRACE_S)
            talk.cancel()
    if not answered:
        raise TimeoutError
    infos = talk.result()
    return str(program.id.get("name", Path(path).name)), infos


async def _talk(
    program: chess.engine.UciProtocol, board: chess.Board, limit: chess.engine.Limit, lines: int
) -> list[chess.engine.InfoDict]:
    await program.initialize()
    await program.configure({key: 1 for key in ("Threads",) if key in program.options})
    return await program.analyse(board, limit, multipv=lines)


def _end(number: int) -> None:
    """End a process and all of its group, at once: it has had its time."""
    with suppress(ProcessLookupError, PermissionError):
        if hasattr(os, "killpg"):
            os.killpg(number, signal.SIGKILL)
        else:
            os.kill(number, signal.SIGTERM)


T = TypeVar("T")


def _in_a_thread(talk: Coroutine[Any, Any, T]) -> T:
    """Run a coroutine to its end where another event loop may be running, as in a notebook.

    An interrupt cancels it.
    """
    loop = asyncio.new_event_loop()
    task = loop.create_task(talk)

    def run() -> T:
        try:
            return loop.run_until_complete(task)
        finally:
            loop.close()

    with ThreadPoolExecutor(max_workers=1) as pool:
        future = pool.submit(run)
        try:
            return future.result()
        except KeyboardInterrupt:
            loop.call_soon_threadsafe(task.cancel)
            raise


def _relative(info: chess.engine.InfoDict) -> chess.engine.Score:
    """Return a line's score for the side to move, the worst of all if it has none."""
    score = info.get("score")
    return chess.engine.Mate(-0) if score is None else score.relative


def _line(info: chess.engine.InfoDict) -> EngineLine:
    moves = tuple(info.get("pv", ()))
    score = info.get("score")
    if score is None:
        return EngineLine(symbol="∞", score=None, mate=None, moves=moves)
    white = score.white()
    points = white.score()
    return EngineLine(
        symbol="" if points is None else _symbol(points),
        score=points,
        mate=white.mate(),
        moves=moves,
    )


def _symbol(points: int) -> str:
    return next((symbol for least, symbol in SYMBOLS if points > least), "−+")


introduce(__name__)
