"""The proof book: proofs kept beside a lesson, replayed instead of searched again.

The book is one readable JSON file beside the game file
(``lantern-street.proofs.json`` beside ``lantern-street.pgn``).  It saves time
and decides nothing: an entry counts only after the checker has replayed it;
one that is damaged, or does not prove what is asked, is passed over, and the
answer is searched as if there were no book.

Beside proofs it keeps the verdicts on every legal move at the moments a class
stops at, so that a student's first try is answered at once.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

import chess

from chessnb.board.position import Position
from chessnb.lessons import Moment
from chessnb.lessons.held_files import held_text
from chessnb.proof import Goal, Proof, answers
from chessnb.proof.certificate import goal_key
from chessnb.whole_files import write_whole

KEEP = "CHESSNB_KEEP_PROOFS"
"""The environment variable that has new proofs written; ``verify --update`` sets it."""

VERSION = 2
"""Of the file; a book of another version is read as empty."""

_open: dict[Path, ProofBook] = {}


class ProofBook:
    """Proofs and verdicts of one lesson.

    Parameters
    ----------
    path : Path
        Where the book lies, or will lie.

    Attributes
    ----------
    damage : str
        What is wrong with the file; empty if nothing is.
    reading : mapping
        Where the last draft stopped in the game, and what that followed from.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self.damage = ""
        self.read_at = _modified(path)
        self._proofs: dict[str, dict[str, Any]] = {}
        self._verdicts: dict[str, dict[str, Any]] = {}
        self.reading: Mapping[str, Any] = {}
        self._read()

    def _read(self) -> None:
        try:
            held = held_text(self.path)
            data = json.loads(self.path.read_text(encoding="utf-8") if held is None else held)
            if data["version"] != VERSION:
                raise ValueError(f"it is of version {data['version']!r}")
            self._proofs = dict(data["proofs"])
            self._verdicts = dict(data["verdicts"])
            self.reading = dict(data.get("reading", {}))
        except FileNotFoundError:
            pass
        except (OSError, ValueError, KeyError, TypeError, RecursionError) as error:
            self.damage = f"the proof book {self.path.name} cannot be read ({error})"

    def find(
        self,
        board: chess.Board,
        attacker: chess.Color,
        goal: Goal,
        key: chess.Move | None,
        *,
        budget: int,
    ) -> Proof | None:
        """Return a proof that the checker accepts, or None.

        One that a larger budget has found is passed over: with the book and
        without it the answer is the same, "not settled" included.  Only a
        proof that was grown with an adviser's moves answers every budget.
        """
        entry = self._proofs.get(_question(board, attacker, goal, key))
        if not isinstance(entry, dict):
            return None
        with suppress(ValueError, KeyError, TypeError, IndexError, RecursionError):
            if entry["budget"] > budget:
                return None
            proof = Proof.from_data({**entry["proof"], "fen": board.fen()})
            if answers(proof, attacker, goal, key):
                return proof
        return None

    def keep(self, proof: Proof, key: chess.Move | None, *, budget: int) -> None:
        """Enter a proof, and the positions that finding it was allowed."""
        question = _question(proof.board, proof.attacker, proof.goal, key)
        self._proofs[question] = {"budget": budget, "proof": proof.to_data()}
        self._save_if_kept()

    def keep_grown(self, proof: Proof, key: chess.Move | None) -> None:
        """Enter a proof that was grown with an adviser's moves, and write the book.

        No budget would find it: it answers whoever asks.
        """
        question = _question(proof.board, proof.attacker, proof.goal, key)
        self._proofs[question] = {"budget": 0, "grown": True, "proof": proof.to_data()}
        with suppress(OSError):
            self.save()

    def verdicts(self, board: chess.Board) -> Mapping[str, Any]:
        """Return what was kept of a position's moves, by UCI; empty if nothing was."""
        entry = self._verdicts.get(board.epd())
        return entry if isinstance(entry, dict) else {}

    def keep_verdicts(self, board: chess.Board, verdicts: Mapping[str, Any]) -> None:
        """Enter what every legal move of a position does."""
        self._verdicts[board.epd()] = dict(verdicts)
        self._save_if_kept()

    def keep_reading(self, reading: Mapping[str, Any]) -> None:
        """Enter where a draft stops in the game, and write the book."""
        self.reading = reading
        with suppress(OSError):
            self.save()

    def __len__(self) -> int:
        return len(self._proofs)

    @property
    def text(self) -> str:
        """The book as its file holds it, one entry a line: a change of one shows as such."""
        held: dict[str, Any] = {
            "version": VERSION,
            "proofs": dict(sorted(self._proofs.items())),
            "verdicts": dict(sorted(self._verdicts.items())),
        }
        if self.reading:
            held["reading"] = self.reading
        text = json.dumps(held, indent=None, separators=(",", ":"))
        return text.replace('},"', '},\n"') + "\n"

    def save(self) -> None:
        """Write the book, whole or not at all; see :mod:`chessnb.whole_files`."""
        write_whole(self.path, self.text)
        self.read_at = _modified(self.path)

    def _save_if_kept(self) -> None:
        if os.environ.get(KEEP):
            with suppress(OSError):
                self.save()


def book_of(position: Position) -> ProofBook | None:
    """Return the book of the lesson that a moment belongs to.

    None for anything but a moment of a lesson that was read from a file.
    """
    path = position.lesson.path if isinstance(position, Moment) else None
    if path is None:
        return None
    place = path.with_suffix(".proofs.json")
    book = _open.get(place)
    if book is None or book.read_at != _modified(place):
        book = _open[place] = ProofBook(place)
    return book


def _question(board: chess.Board, attacker: chess.Color, goal: Goal, key: chess.Move | None) -> str:
    """Return what tells one question from all others, readable."""
    side = "white" if attacker else "black"
    wanted = goal_key(goal)
    first = f" with {key.uci()}" if key else ""
    return f"{board.epd()}; {side}: {wanted}{first}"


def _modified(path: Path) -> int:
    try:
        return path.stat().st_mtime_ns
    except OSError:
        return 0
