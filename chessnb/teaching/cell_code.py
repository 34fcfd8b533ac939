"""What is shown as the code of one cell: a teacher plays through a game, and the lesson is written.

Every cell stands for itself and names its moment by an address, so cells may
be put in any order behind the one that reads the lesson.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

import chess

from chessnb import facts
from chessnb.board.sides import SIDES
from chessnb.errors import LessonError
from chessnb.lessons import Lesson, Moment
from chessnb.notation import write_line, write_move
from chessnb.verdicts.judge import Verdict

CellKind = Literal["lesson", "moment", "line", "claim", "replies", "question"]
"""What a cell may hold: the reading of the lesson, the moment that is shown, a line that was
played from it, a claim on its move, the replies to its move, a question for the next move."""

KINDS: tuple[CellKind, ...] = get_args(CellKind)

IMPORTS = "from chessnb import BranchExplorer, Lesson, claims, reply_table"


def lesson_cell(lesson: Lesson, *, variable: str = "lesson") -> str:
    """Return the cell that reads a lesson; it stands before all others."""
    if lesson.path is None:
        reading = f"Lesson.from_text({lesson.pgn!r})"
    else:
        reading = f"Lesson.read({_shown(lesson)!r})"
    return f"{IMPORTS}\n\n{variable} = {reading}\n{variable}"


def moment_cell(moment: Moment, *, variable: str = "lesson") -> str:
    """Return the cell that shows a moment.

    Examples
    --------
    >>> moment_cell(Lesson.from_text("1. e4 e5").after("1. e4"))
    "lesson.after('1. e4')"
    """
    if moment.node.parent is None and moment.node is moment.lesson.game:
        return f"{variable}.start"
    return f"{variable}.after({moment.address!r})"


def line_cell(moment: Moment, moves: Sequence[chess.Move], *, variable: str = "lesson") -> str:
    """Return the cell that adds a line to the lesson and shows its end.

    Examples
    --------
    >>> moment = Lesson.from_text("1. e4 e5").after("1. e4")
    >>> line_cell(moment, [chess.Move.from_uci("c7c5")])
    "lesson.add_line(lesson.after('1. e4'), '1... c5')"
    """
    written = write_line(moment.board, moves)
    return f"{variable}.add_line({moment_cell(moment, variable=variable)}, {written!r})"


def replies_cell(moment: Moment, *, variable: str = "lesson") -> str:
    """Return the cell that goes through every reply to a moment's move."""
    return f"reply_table({moment_cell(moment, variable=variable)})"


@dataclass(frozen=True, kw_only=True)
class Cell:
    """The code of a cell, and a sentence about what it does."""

    code: str
    says: str


def question_cell(moment: Moment, *, variable: str = "lesson") -> Cell:
    """Return the cell that shows a moment and asks for the move that comes next.

    Raises
    ------
    LessonError
        If no move comes next.

    Examples
    --------
    >>> question_cell(Lesson.from_text("1. e4 e5").after("1. e4")).says
    "It asks for Black's move after 1. e4."
    """
    if moment.next is None:
        raise LessonError("the line ends here: there is no next move to ask for")
    at = moment_cell(moment, variable=variable)
    return Cell(
        code=f"BranchExplorer({variable}, at={at}, reveal='ask')",
        says=f"It asks for {SIDES[moment.turn]}'s move {_where(moment)}.",
    )


def _where(moment: Moment) -> str:
    return f"after {moment.address}" if moment.move is not None else f"at {_start(moment)}"


def _start(moment: Moment) -> str:
    return "the start" if moment.address == "start" else moment.address


def claim_cell(
    moment: Moment,
    *,
    verdict: Verdict | None = None,
    threat: str = "",
    variable: str = "lesson",
) -> Cell:
    """Return the cell that claims what a moment's move does, or what stands on the board.

    Parameters
    ----------
    moment : Moment
        The moment after the move.
    verdict : Verdict or None
        What the move does, if that was found out.
    threat : str
        The move that is threatened, in SAN, if one was found: claimed where
        the move itself is not proved to do anything.

    Examples
    --------
    >>> claim_cell(Lesson.from_text("1. e4 e5").after("1. e4")).code
    "claims.material(lesson.after('1. e4'), 'even')"
    """
    here = moment_cell(moment, variable=variable)
    if moment.board.is_checkmate():
        return Cell(code=f"claims.checkmate({here})", says="It claims the checkmate.")
    code = "" if verdict is None else _claim_of_move(moment, verdict, variable=variable)
    if code:
        return Cell(code=code, says=f"It claims what {moment.address} does.")
    if threat:
        side = SIDES[not moment.turn]
        return Cell(
            code=f"claims.threatens({here}, {threat!r})", says=f"It claims what {side} threatens."
        )
    return Cell(
        code=f"claims.material({here}, {_material(moment.board)!r})",
        says="It claims how the material stands: nothing more was proved here.",
    )


def _claim_of_move(moment: Moment, verdict: Verdict, *, variable: str) -> str:
    """Return the claim of what the move did that led to a moment; empty if that is nothing."""
    assert moment.back is not None
    here = moment_cell(moment, variable=variable)
    before = moment_cell(moment.back, variable=variable)
    move = write_move(moment.back.board, verdict.move)
    gain = f"at_least={verdict.points}, within={verdict.moves}"
    match verdict.kind:
        case "mates":
            return f"claims.mates({before}, within={verdict.moves}, move={move!r})"
        case "wins":
            return f"claims.wins_material({before}, {gain}, move={move!r})"
        case "mated":
            return f"claims.mates({here}, within={verdict.moves})"
        case "loses":
            return f"claims.loses({before}, {move!r}, {gain})"
    return ""


def _material(board: chess.Board) -> str:
    """Return the material in words, as ``claims.material`` takes them."""
    return "even" if _is_even(board) else facts.material(board).in_words


def _is_even(board: chess.Board) -> bool:
    return all(
        len(board.pieces(kind, chess.WHITE)) == len(board.pieces(kind, chess.BLACK))
        for kind in chess.PIECE_TYPES
    )


def _shown(lesson: Lesson) -> str:
    """Return the lesson's file as a notebook beside it, or above it, would name it."""
    assert lesson.path is not None
    here = Path.cwd()
    inside = lesson.path.is_relative_to(here)
    return str(lesson.path.relative_to(here) if inside else lesson.path)
