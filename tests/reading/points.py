"""Points that any good book makes about a game, in a form that a machine can compare.

``games/NAME.pgn`` holds the bare moves of a famous game, entered from memory;
``quiet/NN.pgn`` twenty games in which little happens.  ``points.json`` holds
for each famous game a list of points, entered before anything was drafted
from it, in the order of the game.  A point is an object:

``from``, ``to``
    The half-moves that it is about; 1 is White's first move.
``kind``
    One of `KINDS`.
``move``
    The move of the game at `from`, in SAN.
``what``
    The point, in one plain sentence.
``known``
    How it is known: ``rules`` (it follows from the rules, or a line that is
    given ends in mate or in what it says), ``engine`` (a UCI engine agrees,
    asked at 300,000 positions or more), ``played`` (the moves that follow in
    the game show it), ``judgement`` (books say so).
``motifs``
    Names of tactics; any of them will do.
``squares``, ``pieces``
    What it is about: ``"e6"``, ``"Nb5"`` (a letter and where it stands at
    some time between `from` and `to`, the position before `from` included).
``better``
    What should have been played in place of `move`.
``line``
    Moves from the position before `from`.
``mate``
    Mate within so many moves: after `move`, or after the answer to a mistake;
    of a missed win, after `better`; of a threat, if the other side passes; of
    a refused offer and an only move, at the end of its line.
``name``
    What the opening is called.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import chess
import chess.pgn

HERE = Path(__file__).parent
KINDS = (
    "sacrifice", "offer_refused", "quiet_key", "only_move", "mistake", "missed_win", "plan",
    "tactic", "mate", "threat", "preparation", "phase", "opening", "structure", "endgame",
)  # fmt: skip
KNOWN = ("rules", "engine", "played", "judgement")


@dataclass(frozen=True, kw_only=True)
class Point:
    """A point; its fields are described at the top of the module."""

    game: str
    first: int
    last: int
    kind: str
    move: str
    what: str
    known: str
    motifs: tuple[str, ...] = ()
    squares: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()
    better: str = ""
    line: tuple[str, ...] = ()
    mate: int | None = None
    name: str = ""

    @property
    def place(self) -> str:
        """The move with its number."""
        dots = "." if self.first % 2 else "..."
        return f"{(self.first + 1) // 2}{dots} {self.move}"


def _point(game: str, given: dict[str, Any]) -> Point:
    told = {key: tuple(value) if isinstance(value, list) else value for key, value in given.items()}
    return Point(game=game, first=told.pop("from"), last=told.pop("to"), **told)


def all_points() -> dict[str, list[Point]]:
    """Return the points of each game."""
    text = (HERE / "points.json").read_text(encoding="utf-8")
    return {game: [_point(game, one) for one in given] for game, given in json.loads(text).items()}


def game_path(name: str) -> Path:
    """Return where a famous game stands."""
    return HERE / "games" / f"{name}.pgn"


def quiet_paths() -> list[Path]:
    """Return where the quiet games stand."""
    return sorted((HERE / "quiet").glob("*.pgn"))


def positions(path: Path) -> list[chess.Board]:
    """Return the positions of a game, the first before any move; the caller may change them."""
    return [board.copy(stack=1) for board in _positions(path)]


@cache
def _positions(path: Path) -> tuple[chess.Board, ...]:
    with path.open(encoding="utf-8") as handle:
        game = chess.pgn.read_game(handle)
    assert game is not None
    assert not game.errors, (path, game.errors)
    boards = [game.board()]
    for move in game.mainline_moves():
        boards.append(boards[-1].copy(stack=False))
        boards[-1].push(move)
    return tuple(boards)
