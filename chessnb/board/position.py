"""What counts as a position: a ``Moment``, a board, a node of a game, or a FEN.

Every function of the package that looks at a position takes any of these
and begins with :func:`read_position`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Protocol, runtime_checkable

import chess
import chess.pgn

from chessnb.board.position_faults import what_is_wrong
from chessnb.errors import PositionError, as_given

_IMPOSSIBLE = "this position cannot come about in a game: "


@runtime_checkable
class HasBoard(Protocol):
    """Anything that stands for a position and can show it as a board."""

    @property
    def board(self) -> chess.Board:
        """The position; a board of the caller's own."""
        ...  # pragma: no cover


@runtime_checkable
class HasMoments(Protocol):
    """A lesson, which holds many positions and is none."""

    def moments(self) -> Iterable[HasBoard]:
        """Return its positions."""
        ...  # pragma: no cover


Position = chess.Board | HasBoard | chess.pgn.GameNode | str
"""A ``chess.Board``, a ``Moment`` (anything with a ``board``), a node of a game, or a FEN."""


def read_position(position: Position, *, legal: bool = True) -> chess.Board:
    """Turn a position into a board that the caller may change.

    Parameters
    ----------
    position : chess.Board, Moment or str
        A board, a ``Moment`` of a lesson, a node of python-chess's game tree, or a
        FEN (four fields are enough; the word ``"start"`` is the position at
        the start of a game).
    legal : bool
        Refuse positions that cannot come about in a game (FIDE Laws, glossary:
        illegal position), as far as the position shows it, such as one
        without a king.

    Returns
    -------
    chess.Board
        A copy, with the move history that was known.

    Raises
    ------
    PositionError
        If it is not a position, or (with `legal`) not a legal one.

    Examples
    --------
    >>> read_position("start").fen()
    'rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1'
    """
    if isinstance(position, chess.Board):
        board = position.copy()
    elif isinstance(position, str):
        board = _read_fen(position)
    elif (known := _board_in(position)) is not None:
        board = known.copy()
    else:
        raise _no_position(position)
    if legal and (faults := what_is_wrong(board)):
        given = position if isinstance(position, str) else board.fen(en_passant="fen")
        raise PositionError(_IMPOSSIBLE + "; ".join(faults), given=given)
    return board


def _board_in(given: object) -> chess.Board | None:
    """Return the board of what has one; None for all else, a class of such things too."""
    node = getattr(given, "node", given)  # a Moment's own place in python-chess's tree
    if isinstance(node, chess.pgn.GameNode):
        return node.board()
    board = given.board if isinstance(given, HasBoard) else None
    return board if isinstance(board, chess.Board) else None


def _no_position(given: object) -> PositionError:
    reason, instead = "a position is a board, a place in a lesson, or a FEN", ""
    if isinstance(given, HasMoments):
        reason += "; a lesson has many"
        instead = "lesson.after('14. Nd5'), or lesson.start"
    return PositionError(reason, given=as_given(given), instead=instead)


def _read_fen(text: str) -> chess.Board:
    if text.strip().lower() in ("start", "startpos"):
        return chess.Board()
    try:
        return chess.Board(" ".join(text.split()))
    except ValueError as error:
        reason, instead = _what_else(text)
        reason = reason or f"this is not a FEN ({_fen_fault(text, error)})"
        raise PositionError(reason, given=text, instead=instead) from None


# -- what was given instead of a FEN -----------------------------------------

_MOVE = r"(?:[A-Z♔-♟]?[a-h]?[1-8]?[x:-]?[a-h][1-8](?:=?[A-Z])?|[O0]-[O0](?:-[O0])?)[+#!?]*"
_NUMBER = r"(?:(?P<number>\d+)\s*(?:\.+|…)?\s*)"
_MOVES = re.compile(rf"\s*{_NUMBER}?{_MOVE}(?P<more>(?:\s+(?:\d+\s*(?:\.+|…)\s*)?{_MOVE})*)\s*")
_LONGEST = 400
_PLACE = re.compile(r"\s*(?:the\s+end|end|(?:white|black)['’]s\s+\d+\w*)\s*", re.IGNORECASE)


def _what_else(text: str) -> tuple[str, str]:
    """Say what a text names, a move, moves or a file, and what to write; empty for any other."""
    said = " ".join(text.split())
    if said.lower().endswith(".pgn"):
        return "this is a game file, not a position", f"Lesson.read({text.strip()!r}).start"
    if len(said) > _LONGEST:
        return "", ""
    after = f"lesson.after({said!r})"
    if _PLACE.fullmatch(text):
        return "this is a place in a lesson, not a position", after
    if (moves := _MOVES.fullmatch(text)) is None:
        return "", ""
    if not moves["more"]:
        return "this is a move, not a position", after
    from_start = moves["number"] in (None, "1")
    return "these are moves, not a position", (
        f"Lesson.from_text({said!r}).end" if from_start else after
    )


# -- what is wrong with a FEN (PGN standard of 1994, section 16.1) -----------


def _fen_fault(text: str, error: ValueError) -> str:
    fields = text.split()
    if not fields:
        return "it is empty"
    if "/" not in fields[0]:
        return 'it begins with eight ranks, with / between them; "start" is the start of a game'
    for fault in (_ranks_fault(fields[0]), *_fields_faults(fields[1:])):
        if fault:
            return fault
    return str(error).split(":")[0]


def _ranks_fault(field: str) -> str:
    rows = field.split("/")
    if len(rows) != 8:
        return f"the first field needs 8 ranks with / between them, and has {len(rows)}"
    for rank, row in zip(range(8, 0, -1), rows, strict=True):
        if strange := [letter for letter in row if letter not in "pnbrqkPNBRQK12345678~"]:
            return (
                f"rank {rank} has {strange[0]!r}, which is neither a piece nor a count from 1 to 8"
            )
        width = sum(int(letter) if letter.isdigit() else 1 for letter in row if letter != "~")
        if width != 8:
            return f"rank {rank}, {row!r}, fills {width} squares instead of 8"
        if re.search(r"\d\d", row):
            return f"rank {rank}, {row!r}, has two counts side by side: add them up"
    return ""


_FIELDS = (
    ("second", "says whose move it is, w or b", r"[wb]"),
    ("third", "says who may still castle, such as KQkq or Kq, or is -", r"-|K?Q?k?q?"),
    ("fourth", "names the square that a pawn has just passed, such as e3, or is -", r"-|[a-h][36]"),
    ("fifth", "counts the plies since a capture or a pawn move", r"\d{1,4}"),
    ("sixth", "is the number of the move", r"\d{1,4}"),
)


def _fields_faults(fields: list[str]) -> Iterator[str]:
    for number, ((place, meaning, form), field) in enumerate(zip(_FIELDS, fields, strict=False)):
        if not re.fullmatch(form, field):
            enough = "; the first four fields are enough" if number > 2 else ""
            yield f"the {place} field {meaning}, and this one is {field[:20]!r}{enough}"
    if len(fields) > len(_FIELDS):
        yield f"it has {len(fields) + 1} fields, and a FEN has six at most"
