"""What is played and drawn on a live board, and how the browser's steps are heard.

Python's side of ``frontend/sync.js``.  A browser sends each step (a move, a
typed move, a look at an earlier position, a stroke of the pen, a position set
up by hand) as a message that carries the client's name, a number counted from
1 and, for a move or a stroke, all moves before it.  The last is what makes a
step safe: a move is played only in the position in which it was meant, and a
stroke is kept with the position that it was drawn on.  Every step is
acknowledged once, done or not.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, TypeGuard

import chess

from chessnb.board.playable import faults_of, playable
from chessnb.diagrams import Mark
from chessnb.errors import InputError, NotationError
from chessnb.notation import read_move, write_last_move
from chessnb.widgets.strokes import Strokes

CLIENTS_KEPT = 32
"""So many browser pages are remembered; the one that was silent longest goes first."""

MEANWHILE = "the board had changed meanwhile, so this move was not played"
"""The answer to a move that was meant in another position than the one shown."""

UNDRAWN = "the moves had changed meanwhile, so this was not drawn"
"""The answer to a stroke on a position that the board's line does not hold any more."""


@dataclass(frozen=True, kw_only=True)
class Heard:
    """What became of a step.

    Attributes
    ----------
    client : str
        The browser page that sent it.
    seq : int
        Its number there.
    move : chess.Move or None
        The move that was played, if one was.
    refusal : str
        Why nothing was done, in a teacher's words; empty if all is well.
    """

    client: str
    seq: int
    move: chess.Move | None = None
    refusal: str = ""


class PlayedLine:
    """A position, the moves played from it, and how far they are shown.

    Parameters
    ----------
    start : chess.Board
        The position to begin with; it is copied.
    language : str
        Whose piece letters typed moves have, as for
        :func:`~chessnb.notation.read_move`.
    """

    def __init__(self, start: chess.Board, *, language: str = "english") -> None:
        self.language = language
        self.epoch = 0
        self._acks: OrderedDict[str, int] = OrderedDict()
        self.set_up(start)

    def set_up(self, start: chess.Board) -> None:
        """Begin again from another position, with nothing drawn."""
        self.start = start.copy()
        self.strokes = Strokes()
        self.line: list[chess.Move] = []
        self.ply = 0
        self.epoch += 1

    @property
    def moves(self) -> tuple[chess.Move, ...]:
        """The moves from the start to the position shown."""
        return tuple(self.line[: self.ply])

    @property
    def here(self) -> str:
        """The moves to the position shown, as messages and strokes name it."""
        return " ".join(move.uci() for move in self.moves)

    def board(self) -> chess.Board:
        """Return the position shown; its move stack goes back beyond the start, where known."""
        board = self.start.copy()
        for move in self.moves:
            board.push(move)
        return board

    def push(self, move: chess.Move) -> None:
        """Play a legal move; moves that had been taken back stay only if it is the same."""
        if self.line[self.ply : self.ply + 1] != [move]:
            self.line[self.ply :] = [move]
        self.ply += 1

    def go(self, ply: int) -> None:
        """Show the position after so many moves of the line; the nearest there is."""
        self.ply = max(0, min(ply, len(self.line)))

    def hear(self, step: Mapping[str, Any]) -> Heard | None:
        """Do what a browser's message says.

        Parameters
        ----------
        step : mapping
            The message: ``client``, ``seq``, ``epoch`` and ``kind``, which is
            ``"move"`` (with ``line`` and ``uci``), ``"typed"`` (``line``,
            ``text``), ``"go"`` (``ply``), ``"draw"`` or ``"erase"`` (``line``,
            ``mark``), ``"wipe"`` (``line``), or ``"judge"`` or ``"setup"``
            (``fen``).

        Returns
        -------
        Heard or None
            What became of it; None for a message that was heard before, or
            that is not a step at all.
        """
        client, seq = step.get("client"), step.get("seq")
        if not isinstance(client, str) or not isinstance(seq, int):
            return None
        if seq <= self._acks.get(client, 0):
            return None
        self._acknowledge(client, seq)
        move, refusal = self._do(step)
        return Heard(client=client, seq=seq, move=move, refusal=refusal)

    def _acknowledge(self, client: str, seq: int) -> None:
        self._acks[client] = seq
        self._acks.move_to_end(client)
        while len(self._acks) > CLIENTS_KEPT:
            self._acks.popitem(last=False)

    def _do(self, step: Mapping[str, Any]) -> tuple[chess.Move | None, str]:
        """Return the move that was played, and the refusal if nothing was done."""
        kind = step.get("kind")
        if kind in ("move", "typed"):
            return self._play(step)
        if kind in ("draw", "erase", "wipe"):
            return None, self._draw(step)
        if kind in ("judge", "setup"):
            return None, self._place(step)
        if kind == "go" and self._is_current(step) and isinstance(step.get("ply"), int):
            self.go(step["ply"])
        return None, ""

    def _is_current(self, step: Mapping[str, Any]) -> bool:
        return bool(step.get("epoch") == self.epoch)

    def _play(self, step: Mapping[str, Any]) -> tuple[chess.Move | None, str]:
        if not self._is_current(step) or step.get("line") != self.here:
            return None, MEANWHILE
        try:
            move = self._read(step)
        except NotationError as error:
            return None, error.reason
        self.push(move)
        return move, ""

    def _read(self, step: Mapping[str, Any]) -> chess.Move:
        """Read the move of a message; the browser's own reading is not trusted."""
        if step.get("kind") == "typed":
            return read_move(self.board(), str(step.get("text") or ""), language=self.language)
        return read_move(self.board(), str(step.get("uci") or ""))

    def _draw(self, step: Mapping[str, Any]) -> str:
        """Draw, erase or wipe on a position of the line, shown or not."""
        line = step.get("line")
        if not self._is_current(step) or not self._holds(line):
            return UNDRAWN
        if step.get("kind") == "wipe":
            self.strokes.put(line, ())
            return ""
        try:
            mark = _mark(step.get("mark"))
        except InputError as error:
            return error.reason
        (self.strokes.draw if step.get("kind") == "draw" else self.strokes.erase)(line, mark)
        return ""

    def _holds(self, line: object) -> TypeGuard[str]:
        """Tell whether a position is one of the line's."""
        if not isinstance(line, str):
            return False
        moves = [move.uci() for move in self.line]
        return line.split() == moves[: len(line.split())]

    def _place(self, step: Mapping[str, Any]) -> str:
        """Judge a position set up by hand, and begin with it if that is what was asked."""
        fen = str(step.get("fen") or "")
        faults = faults_of(fen)
        if not faults and step.get("kind") == "setup":
            self.set_up(playable(fen))
        return "; ".join(faults)

    def state(self) -> dict[str, Any]:
        """Return what the browser shows, ready for JSON; the same for the same line."""
        known = self.start.move_stack
        return {
            "epoch": self.epoch,
            "start": self.start.fen(),
            "last": known[-1].uci() if known else "",
            "after": write_last_move(self.start),
            "moves": [move.uci() for move in self.line],
            "ply": self.ply,
            "marks": self.strokes.state(),
            "acks": dict(self._acks),
        }


def _mark(said: object) -> Mark:
    """Read the mark of a message."""
    if not isinstance(said, Mapping):
        raise InputError("a mark has a role and a square", given=said)
    return Mark(role=said.get("role"), square=said.get("square"), to=said.get("to"))  # type: ignore[arg-type]
