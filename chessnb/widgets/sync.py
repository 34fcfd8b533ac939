"""What is played on a live board, and how the browser's steps are heard.

Python's side of ``frontend/sync.js``.  A browser sends each step (a move, a
typed move, a look at an earlier position) as a message that carries the
client's name, a number counted from 1 and, for a move, all moves before it.
The last is what makes a step safe: it is played only in the position in which
it was meant.  Every step is acknowledged once, played or not.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import chess

from chessnb.errors import NotationError
from chessnb.notation import read_move

CLIENTS_KEPT = 32
"""So many browser pages are remembered; the one that was silent longest goes first."""

MEANWHILE = "the board had changed meanwhile, so this move was not played"
"""The answer to a move that was meant in another position than the one shown."""


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
        Why nothing was played, in a teacher's words; empty if all is well.
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
    """

    def __init__(self, start: chess.Board) -> None:
        self.epoch = 0
        self._acks: OrderedDict[str, int] = OrderedDict()
        self.set_up(start)

    def set_up(self, start: chess.Board) -> None:
        """Begin anew from another position."""
        self.start = start.copy()
        self.line: list[chess.Move] = []
        self.ply = 0
        self.epoch += 1

    @property
    def moves(self) -> tuple[chess.Move, ...]:
        """The moves from the start to the position shown."""
        return tuple(self.line[: self.ply])

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
            The message: ``kind`` (``"move"``, ``"typed"`` or ``"go"``),
            ``client``, ``seq``, ``epoch``, ``ply``, and ``line`` with ``uci``
            or ``text``.

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
        """Return the move that was played, and the refusal if none was."""
        kind, ply = step.get("kind"), step.get("ply")
        current = step.get("epoch") == self.epoch
        if kind == "go":
            if current and isinstance(ply, int):
                self.go(ply)
            return None, ""
        if not current or step.get("line") != " ".join(move.uci() for move in self.moves):
            return None, MEANWHILE
        try:
            move = self._read(step)
        except NotationError as error:
            return None, error.reason
        self.push(move)
        return move, ""

    def _read(self, step: Mapping[str, Any]) -> chess.Move:
        """Read the move of a message; the browser's own reading is not trusted."""
        text = step.get("text") if step.get("kind") == "typed" else step.get("uci")
        return read_move(self.board(), str(text or ""))

    def state(self) -> dict[str, Any]:
        """Return what the browser shows, ready for JSON; the same for the same line."""
        known = self.start.move_stack
        return {
            "epoch": self.epoch,
            "start": self.start.fen(),
            "last": known[-1].uci() if known else "",
            "after": _name_of_last_move(self.start),
            "moves": [move.uci() for move in self.line],
            "ply": self.ply,
            "acks": dict(self._acks),
        }


def _name_of_last_move(board: chess.Board) -> str:
    """Return the move that led to a position, with its number (``"2... Nc6"``), if it is known."""
    if not board.move_stack:
        return ""
    before = board.copy()
    move = before.pop()
    dots = "." if before.turn else "..."
    return f"{before.fullmove_number}{dots} {before.san(move)}"
