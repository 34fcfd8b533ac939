"""What readers of a lesson may see: the part of its trees that is given to a page.

A page that only hides a move still holds it, for whoever looks.  So the page
is handed the revealed part and nothing else, and gets more when more is
revealed.  A comment that names a move which is still hidden, in signs or in
words, waits with it (:mod:`chessnb.teaching.spoilers`).

``"all"``
    everything.
``"so far"``
    up to a position, as one reads: the way that led there, with the sidelines
    that left it; going on reveals the next move.
``"ask"``
    the same, but the next move is revealed only when it is asked for.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from functools import cached_property
from itertools import pairwise
from typing import Any, Literal, get_args

import chess
import chess.pgn

from chessnb.errors import LessonError
from chessnb.lessons import Lesson, Moment
from chessnb.lessons.comments import line_name, readable
from chessnb.lessons.trees import Trees
from chessnb.notation.move_reader import bare_move
from chessnb.notation.movetext import GLYPHS
from chessnb.teaching.spoilers import names_a_move

Reveal = Literal["all", "so far", "ask"]
"""How much of a lesson is shown."""

REVEALS: tuple[Reveal, ...] = get_args(Reveal)


class RevealedTree:
    """The trees of a lesson, and how much of them is revealed.

    Each revealed position has a number, counted in the order in which they
    were revealed: so numbers tell nothing of what is hidden.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    at : Moment
        Up to where it is revealed, unless all of it is.
    reveal : {"all", "so far", "ask"}
        How much is revealed.

    Raises
    ------
    LessonError
        If `reveal` is none of these.
    """

    def __init__(self, lesson: Lesson, at: Moment, reveal: Reveal) -> None:
        if reveal not in REVEALS:
            raise LessonError(f'reveal is "all", "so far" or "ask", not {reveal!r}')
        self.lesson = lesson
        self.reveal = reveal
        self._numbers: dict[chess.pgn.GameNode, int] = {}
        self._nodes: list[chess.pgn.GameNode] = []
        self._sans: list[str] = []
        self._boards: list[chess.Board] = []
        if reveal == "all":
            for game in lesson.trees():
                self._show_all(game)
        self._show_up_to(at.node)

    # -- what is shown ------------------------------------------------------

    def __len__(self) -> int:
        return len(self._nodes)

    def __contains__(self, node: chess.pgn.GameNode) -> bool:
        return node in self._numbers

    def number_of(self, node: chess.pgn.GameNode) -> int:
        """Return the number of a revealed position."""
        return self._numbers[node]

    def node(self, number: object) -> chess.pgn.GameNode | None:
        """Return the position of a number; None if there is none."""
        if isinstance(number, int) and 0 <= number < len(self._nodes):
            return self._nodes[number]
        return None

    def moment(self, number: object) -> Moment | None:
        """Return the position of a number; None if there is none."""
        node = self.node(number)
        return None if node is None else Moment(lesson=self.lesson, node=node)

    def find(self, root: object, moves: list[chess.Move]) -> chess.pgn.GameNode | None:
        """Return the revealed position that these moves lead to from a root's number."""
        node = self.node(root)
        for move in moves:
            if node is None:
                return None
            node = next((child for child in node.variations if child.move == move), None)
        return node if node in self._numbers else None

    def is_hidden(self, node: chess.pgn.GameNode) -> bool:
        """Tell whether more follows a position than is shown."""
        return any(child not in self._numbers for child in node.variations)

    # -- revealing ----------------------------------------------------------

    def lesson_on(
        self, node: chess.pgn.GameNode | None, board: chess.Board, move: chess.Move
    ) -> tuple[chess.pgn.GameNode | None, chess.pgn.GameNode | None]:
        """Return what the lesson has of a try that is not its next move.

        Parameters
        ----------
        node : GameNode or None
            The lesson's position before it, if it is one.
        board : chess.Board
            The position before it.
        move : chess.Move
            The try.

        Returns
        -------
        (GameNode or None, GameNode or None)
            The sideline that begins with it; where the position after it
            stands in the lesson, on whatever way.
        """
        after = board.copy(stack=False)
        after.push(move)
        sidelines = [] if node is None else node.variations[1:]
        sideline = next((child for child in sidelines if child.move == move), None)
        return sideline, self._positions.get(after.epd())

    @cached_property
    def _positions(self) -> dict[str, chess.pgn.GameNode]:
        """The positions of all the lesson's trees by their EPD, where each comes up first."""
        found: dict[str, chess.pgn.GameNode] = {}
        for root in self.lesson.trees():
            waiting = [(child, root.board()) for child in root.variations]
            while waiting:
                node, board = waiting.pop()
                board.push(node.move)
                found.setdefault(board.epd(), node)
                waiting += [(child, board.copy(stack=False)) for child in node.variations]
        return found

    def hidden_from(self, node: chess.pgn.GameNode | None) -> frozenset[str]:
        """Return the moves of the main line that are still hidden behind a position.

        Each as a letter for the side and UCI: ``"b e5f3"``.
        """
        found = set()
        following = None if node is None else node.next()
        while following is not None:
            if following not in self._numbers and following.move:
                side = "w" if following.parent.turn() else "b"
                found.add(f"{side} {following.move.uci()}")
            following = following.next()
        return frozenset(found)

    def show_next(
        self, node: chess.pgn.GameNode, *, along: chess.pgn.GameNode | None = None
    ) -> bool:
        """Reveal the moves that the lesson has after a position; return whether any were hidden.

        Of its main move, and of the one `along` which the reader goes, that
        move alone; of a sideline, all of it.
        """
        hidden = self.is_hidden(node)
        for child in node.variations:
            if child.is_main_variation() or child is along:
                self._show(child)
            else:
                self._show_all(child)
        return hidden

    def _show_up_to(self, node: chess.pgn.GameNode) -> None:
        path = [node]
        while (parent := path[0].parent) is not None:
            path.insert(0, parent)
        self._show(path[0])
        for parent, child in pairwise(path):
            self.show_next(parent, along=child)

    def _show_all(self, node: chess.pgn.GameNode) -> None:
        pending = [node]
        while pending:
            shown = pending.pop()
            self._show(shown)
            pending.extend(reversed(shown.variations))

    def _show(self, node: chess.pgn.GameNode) -> None:
        """Reveal a position whose parent is revealed."""
        if node in self._numbers:
            return
        if node.parent is None:
            san, board = "", node.board()
        else:
            before = self._boards[self._numbers[node.parent]]
            assert node.move is not None
            san, board = before.san(node.move), before.copy(stack=False)
            board.push(node.move)
        self._numbers[node] = len(self._nodes)
        self._nodes.append(node)
        self._sans.append(san)
        self._boards.append(board)

    # -- as data ------------------------------------------------------------

    def data(self) -> dict[str, Any]:
        """Return what a page is given, ready for JSON.

        ``nodes`` holds a row for each revealed position: its parent's number
        (-1 for a start), UCI and SAN of its move, the glyphs, the name of the
        sideline that it begins, the comment, and whether more follows that is
        hidden.  ``roots`` gives each start its name and FEN.
        """
        hidden = self._hidden_moves()
        return {
            "key": key_of(self.lesson),
            "title": self.lesson.title,
            "reveal": self.reveal,
            "roots": {
                str(number): {
                    "name": self.lesson.name_of(node.game()) or "",
                    "fen": self._boards[number].fen(),
                }
                for number, node in enumerate(self._nodes)
                if node.parent is None
            },
            "nodes": [self._row(number, hidden) for number in range(len(self._nodes))],
        }

    def comment_on(self, node: chess.pgn.GameNode) -> str:
        """Return what the lesson says of a position; empty if that names a hidden move."""
        return _told(_comment(node), self._hidden_moves(), board=node.board())

    def _row(self, number: int, hidden: frozenset[str]) -> list[Any]:
        node = self._nodes[number]
        name = line_name(node) or ""
        board = self._boards[number]
        return [
            -1 if node.parent is None else self._numbers[node.parent],
            "" if node.move is None else node.move.uci(),
            self._sans[number],
            " ".join(GLYPHS[nag] for nag in sorted(node.nags) if nag in GLYPHS),
            _told(name, hidden, board=board),
            _told(_comment(node), hidden, board=board),
            int(self.is_hidden(node)),
        ]

    def _hidden_moves(self) -> frozenset[str]:
        """Return the moves, without signs, of all positions that are hidden."""
        if self.reveal == "all":
            return frozenset()
        return frozenset(
            bare_move(node.san())
            for game in self.lesson.trees()
            for node in _under(game)
            if isinstance(node, chess.pgn.ChildNode) and node not in self._numbers
        )


def _comment(node: chess.pgn.GameNode) -> str:
    """Return the comment on a position, with what stands before its sideline if that is no name."""
    comment = readable(node.comment)
    if isinstance(node, chess.pgn.ChildNode) and not line_name(node):
        comment = " ".join(filter(None, (readable(node.starting_comment), comment)))
    return comment


def _told(text: str, hidden: frozenset[str], *, board: chess.Board) -> str:
    """Return a text, or nothing if it names a move that is hidden."""
    return "" if names_a_move(text, hidden, board=board) else text


def key_of(lesson: Trees) -> str:
    """Return what a browser keeps a lesson's tries under.

    It depends on the title, the file's name and where the games start, not on
    the moves: a lesson that is edited keeps its tries.
    """
    name = "" if lesson.path is None else lesson.path.name
    starts = [game.board().fen() for game in lesson.trees()]
    return hashlib.sha256("\n".join([lesson.title, name, *starts]).encode()).hexdigest()[:16]


def _under(node: chess.pgn.GameNode) -> Iterator[chess.pgn.GameNode]:
    pending = [node]
    while pending:
        node = pending.pop()
        yield node
        pending.extend(reversed(node.variations))
