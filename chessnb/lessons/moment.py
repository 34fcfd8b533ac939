"""One position of a lesson, with the way that led to it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import chess
import chess.pgn

from chessnb.board.naming import number, to_move
from chessnb.board.sides import SIDES
from chessnb.diagrams import Diagram, diagram
from chessnb.errors import LessonError
from chessnb.facts import Changes, Purpose, changes, purpose
from chessnb.facts._purpose import WITHIN as PURPOSE_WITHIN
from chessnb.findings import Finding, Record, forgiven, gathered
from chessnb.findings.record import quoted
from chessnb.findings.record_fields import place_of
from chessnb.lessons.addresses import address_of, follow_from
from chessnb.lessons.comments import line_name, readable
from chessnb.lessons.trees import Trees
from chessnb.mistakes import Forgiving, checked
from chessnb.notation.line_reader import LineLike
from chessnb.notation.move_writer import write_line


@dataclass(frozen=True, kw_only=True, eq=False, repr=False)
class Moment(Forgiving, Finding):
    """One position of a lesson.

    Moments come from a lesson (:meth:`Lesson.after` and its like), and show
    themselves as a diagram at the end of a cell.  Two are equal if
    they are the same place of the same tree.

    Attributes
    ----------
    lesson : Lesson
        The lesson it belongs to.
    node : chess.pgn.GameNode
        Its place in the tree of python-chess; changing that changes the lesson.
    """

    lesson: Trees
    node: chess.pgn.GameNode

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Moment) and other.node is self.node

    def __hash__(self) -> int:
        return hash(id(self.node))

    def __repr__(self) -> str:
        return f"<Moment {self.label}: {self.fen}>"

    # -- what it is -------------------------------------------------------

    @property
    def board(self) -> chess.Board:
        """The position, with the moves that led to it; a new board each time."""
        return self.node.board()

    @property
    def fen(self) -> str:
        """The position as a FEN."""
        return self.board.fen()

    @property
    def turn(self) -> chess.Color:
        """The side to move."""
        return self.node.turn()

    @property
    def move(self) -> chess.Move | None:
        """The move that led here; ``None`` at a start."""
        return self.node.move

    @property
    def san(self) -> str:
        """The move that led here in SAN; empty at a start."""
        return self.node.san() if isinstance(self.node, chess.pgn.ChildNode) else ""

    @property
    def address(self) -> str:
        """Where it is, as :meth:`Lesson.at` takes it: ``"14. Nd5"``, ``"diagram 3"``."""
        game = self.node.game()
        name = self.lesson.name_of(game)
        if name is None:
            return address_of(self.node)
        return name if self.node is game else f"{name}: {address_of(self.node)}"

    @property
    def label(self) -> str:
        """What a caption calls it: ``"after 14. Nd5"``, ``"start"``, ``"diagram 3"``."""
        return f"after {self.address}" if self.move is not None else self.address

    @property
    def place(self) -> str:
        """Where it is, as a record has it."""
        if self.lesson.name_of(self.node.game()) is not None:
            return quoted(self.address)
        return place_of(self.board) if self.move is None else self.address

    @property
    def record(self) -> Record:
        """The finding: the place and the position."""
        return Record(place=self.place, kind="position", fields=(self.fen,), status="rules")

    @property
    def words(self) -> str:
        """Place, side to move, FEN."""
        return f"{self.label}, {SIDES[self.turn]} to move: {self.fen}"

    @property
    def picture(self) -> Diagram:
        """The diagram of the position, its last move underlined."""
        return diagram(self.board, last_move=self.move, caption=self.caption)

    @property
    def caption(self) -> str:
        """The words under the diagram."""
        label = self.label[0].upper() + self.label[1:]
        return f"{label}. {self.to_move}"

    @property
    def to_move(self) -> str:
        """Whose move it is, or how the game ended, as a sentence."""
        return to_move(self.board)

    @property
    def paragraphs(self) -> Sequence[str]:
        """The caption alone: a lesson tells the comment in its prose."""
        return (self.caption,)

    @property
    def comment(self) -> str:
        """What the game's annotator says here, without commands for programs."""
        return readable(self.node.comment)

    @property
    def nags(self) -> tuple[int, ...]:
        """The Numeric Annotation Glyphs of its move (PGN standard, section 10), sorted."""
        return tuple(sorted(self.node.nags))

    @property
    def is_main_line(self) -> bool:
        """Whether it lies on the main line of its game."""
        return self.node.is_mainline()

    @property
    def line_name(self) -> str | None:
        """The name of the sideline that it begins, if it begins a named one."""
        return line_name(self.node)

    @property
    def played(self) -> str:
        """All moves from the start of its game to here, with numbers."""
        board = self.board
        return write_line(board.root(), board.move_stack)

    # -- its neighbours ---------------------------------------------------

    @property
    def next(self) -> Moment | None:
        """The position after the next move of its line; ``None`` at the end."""
        following = self.node.next()
        return None if following is None else self._at(following)

    @property
    def back(self) -> Moment | None:
        """The position before its move; ``None`` at a start."""
        return None if self.node.parent is None else self._at(self.node.parent)

    @property
    def branches(self) -> tuple[Moment, ...]:
        """The positions after each move that the lesson has here, its own line's first."""
        return tuple(self._at(node) for node in self.node.variations)

    @forgiven
    @checked
    def after(self, line: LineLike) -> Moment:
        """Return a position further on, by the moves that lead there from here.

        Parameters
        ----------
        line : str or sequence of moves
            The moves, as :func:`chessnb.notation.read_line` takes them.

        Raises
        ------
        AddressError
            If the lesson has no such line here.

        Examples
        --------
        >>> from chessnb.lessons import Lesson
        >>> lesson = Lesson.from_text("1. e4 e5 (1... c5 2. Nf3) 2. Nc3")
        >>> lesson.after("1. e4").after("c5 2. Nf3").address
        '1... c5 2. Nf3'
        """
        return self._at(follow_from(self.node, line))

    def _at(self, node: chess.pgn.GameNode) -> Moment:
        return Moment(lesson=self.lesson, node=node)

    # -- what happened ----------------------------------------------------

    @gathered
    def changes(self) -> Changes:
        """Say what the move that led here changed.

        Raises
        ------
        LessonError
            At a start, where no move has been made.
        """
        if self.node.parent is None or self.move is None:
            raise LessonError(f"{self.address!r}: no move leads here, so nothing has changed")
        return changes(self.node.parent.board(), self.move)

    @gathered
    def purpose(self) -> Purpose:
        """Say what the move that led here was for, from the moves that follow in the lesson.

        Raises
        ------
        LessonError
            At a start, where no move has been made.
        """
        if self.node.parent is None or not self.move:
            raise LessonError(f"{self.address!r}: no move leads here, so it was for nothing")
        following: list[chess.Move] = []
        node = self.node.next()
        while node is not None and node.move and len(following) < 2 * PURPOSE_WITHIN:
            following.append(node.move)
            node = node.next()
        return purpose(self.node.parent.board(), self.move, following)

    @property
    def numbered(self) -> str:
        """Its move with its number, ``"14. Nd5"``; empty at a start."""
        if self.node.parent is None:
            return ""
        return f"{number(self.node.parent.board())} {self.san}"
