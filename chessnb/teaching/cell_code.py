"""What is shown as the code of one cell: a teacher plays through a game, and the lesson is written.

Every cell stands for itself and names its position by an address, so cells may
be put in any order behind the one that reads the lesson.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

import chess

from chessnb import facts
from chessnb.board.sides import SIDES
from chessnb.errors import LessonError
from chessnb.lessons import Lesson, Moment
from chessnb.notation import write_line, write_move
from chessnb.verdicts.move_verdict import Verdict

CellKind = Literal["lesson", "moment", "line", "claim", "replies", "question"]
"""What a cell may hold: the reading of the lesson, the position that is shown, a line that was
played from it, a claim on its move, the replies to its move, a question for the next move."""

KINDS: tuple[CellKind, ...] = get_args(CellKind)

IMPORTS = (
    "from chessnb import BranchExplorer, Lesson, claims, facts, motifs, page\n"
    "from chessnb import questions, reply_table"
)
"""The names that the cells use; it stands in the cell that reads the lesson."""

_WIDTH = 88
"""So long a line may be before its arguments stand below each other."""


def call(name: str, *given: object, **options: object) -> str:
    """Write a call; what is given is written as Python, what is an expression as it is.

    Examples
    --------
    >>> call("claims.mates", Expression("lesson.start"), within=3, move="Qh5#")
    "claims.mates(lesson.start, within=3, move='Qh5#')"
    """
    arguments = [_written(one) for one in given]
    arguments += [f"{option}={_written(value)}" for option, value in options.items()]
    one_line = f"{name}({', '.join(arguments)})"
    if len(one_line) <= _WIDTH or len(arguments) < 2:
        return one_line
    return f"{name}(\n" + "".join(f"    {argument},\n" for argument in arguments) + ")"


def _written(value: object) -> str:
    return value if isinstance(value, Expression) else repr(value)


class Expression(str):
    """A piece of Python that stands for itself in a call."""

    __slots__ = ()


def after(moment: Moment, *, variable: str = "lesson") -> Expression:
    """Return the expression for the position after a move; for a start, the start itself.

    Examples
    --------
    >>> after(Lesson.from_text("1. e4 e5").after("1. e4"))
    "lesson.after('1. e4')"
    """
    if moment.node.parent is None and moment.node is moment.lesson.game:
        return Expression(f"{variable}.start")
    return Expression(call(f"{variable}.after", moment.address))


def before(moment: Moment, *, variable: str = "lesson") -> Expression:
    """Return the expression for the position in which a move is still to be found.

    Examples
    --------
    >>> before(Lesson.from_text("1. e4 e5").after("1. e4"))
    "lesson.before('1. e4')"
    """
    return Expression(call(f"{variable}.before", moment.address))


def reading_expression(
    path: Path, folder: Path, *, game: int | None = None, about: Mapping[str, object] | None = None
) -> str:
    """Return the expression that reads a lesson in a notebook that lies in a folder.

    The file is named relative to the notebook, with forward slashes, so that
    lesson and game can move together, also between systems.
    """
    try:
        shown = Path(os.path.relpath(path, folder)).as_posix()
    except ValueError:  # another drive on Windows
        shown = path.resolve().as_posix()
    options = {"game": game, **(about or {})}
    return call("Lesson.read", shown, **{name: value for name, value in options.items() if value})


def first_cell(said: str, *, variable: str = "lesson") -> str:
    """Return the first cell of a lesson: the names, and the expression that reads it."""
    return f"{IMPORTS}\n\n{variable} = {said}\n{variable}"


def lesson_cell(lesson: Lesson, *, variable: str = "lesson") -> str:
    """Return the cell that reads a lesson; it stands before all others."""
    if lesson.path is None:
        said = f"Lesson.from_text({lesson.pgn!r})"
    else:
        said = call("Lesson.read", _shown(lesson))
    return first_cell(said, variable=variable)


def line_cell(moment: Moment, moves: Sequence[chess.Move], *, variable: str = "lesson") -> str:
    """Return the cell that adds a line to the lesson and shows its end.

    Examples
    --------
    >>> moment = Lesson.from_text("1. e4 e5").after("1. e4")
    >>> line_cell(moment, [chess.Move.from_uci("c7c5")])
    "lesson.add_line(lesson.after('1. e4'), '1... c5')"
    """
    written = write_line(moment.board, moves)
    return call(f"{variable}.add_line", after(moment, variable=variable), written)


def replies_cell(moment: Moment, *, variable: str = "lesson") -> str:
    """Return the cell that goes through every reply to a position's move."""
    return call("reply_table", after(moment, variable=variable))


@dataclass(frozen=True, kw_only=True)
class Cell:
    """The code of a cell, and a sentence about what it does."""

    code: str
    says: str


def question_cell(moment: Moment, *, variable: str = "lesson") -> Cell:
    """Return the cell that shows a position and asks for the move that comes next.

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
    at = after(moment, variable=variable)
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
    """Return the cell that claims what a position's move does, or what stands on the board.

    Parameters
    ----------
    moment : Moment
        The position after the move.
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
    here = after(moment, variable=variable)
    if moment.board.is_checkmate():
        return Cell(code=call("claims.checkmate", here), says="It claims the checkmate.")
    code = "" if verdict is None else _claim_of_move(moment, verdict, variable=variable)
    if code:
        return Cell(code=code, says=f"It claims what {moment.address} does.")
    if threat:
        side = SIDES[not moment.turn]
        return Cell(
            code=call("claims.threatens", here, threat), says=f"It claims what {side} threatens."
        )
    return Cell(
        code=call("claims.material", here, _material(moment.board)),
        says="It claims how the material stands: nothing more was proved here.",
    )


def _claim_of_move(moment: Moment, verdict: Verdict, *, variable: str) -> str:
    """Return the claim of what the move did that led to a position; empty if that is nothing."""
    assert moment.back is not None
    here, there = after(moment, variable=variable), after(moment.back, variable=variable)
    move = write_move(moment.back.board, verdict.move)
    gain = {"at_least": verdict.points, "within": verdict.moves}
    match verdict.kind:
        case "mates":
            return call("claims.mates", there, within=verdict.moves, move=move)
        case "wins":
            return call("claims.wins_material", there, **gain, move=move)
        case "mated":
            return call("claims.mates", here, within=verdict.moves)
        case "loses" | "offers" if verdict.kept:
            return call("claims.loses", there, move, **gain)
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
