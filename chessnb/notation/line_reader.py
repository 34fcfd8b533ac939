"""Reading a line of moves, as a text or move by move."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Set

import chess

from chessnb.board.position import Position, read_position
from chessnb.errors import GameFileError, MalformedMove, as_given
from chessnb.notation.move_reader import MoveLike, read_on
from chessnb.notation.movetext import read_movetext

LineLike = str | chess.Move | Iterable[MoveLike]
"""A line as a teacher gives it: a text, or moves in order, each as :func:`read_move` takes it."""


def read_line(position: Position, line: LineLike) -> tuple[chess.Move, ...]:
    """Read one line of moves.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the first move.
    line : str or sequence of moves
        A text such as ``"14... exd5 15. Qh7+"``, whose numbers may be left
        out and whose comments and glyphs are passed over; or moves in order,
        each in any form that :func:`~chessnb.notation.read_move` takes.

    Returns
    -------
    tuple of chess.Move
        The moves; empty for none.

    Raises
    ------
    NotationError
        At a move that is not legal, not clear, or wrongly numbered.
    GameFileError
        If the text is no movetext, or holds a variation.

    Examples
    --------
    >>> read_line("start", "1. e4 e5 2. Nf3") == read_line("start", ["e4", "e7e5", "knight f3"])
    True
    """
    board = read_position(position, legal=False)
    if isinstance(line, str):
        return _from_text(board, line)
    played: list[chess.Move] = []
    for move in _each(board, line):
        # A pass stands in some game trees, and a line of theirs may hold it.
        is_pass = isinstance(move, chess.Move) and not move
        played.append(chess.Move.null() if is_pass else read_on(board, move))
        board.push(played[-1])
    return tuple(played)


def _from_text(board: chess.Board, text: str) -> tuple[chess.Move, ...]:
    game = read_movetext(text, position=board)
    for node in (game, *game.mainline()):
        if len(node.variations) > 1:
            raise GameFileError("one line was expected, and this has a variation", path=repr(text))
    return tuple(game.mainline_moves())


def _each(board: chess.Board, line: object) -> Iterator[MoveLike]:
    """Run through the moves of what is no text; what has no order or no moves is refused."""
    if isinstance(line, chess.Move):
        return iter((line,))
    if not isinstance(line, Iterable) or isinstance(line, bytes | bytearray | Mapping | Set):
        reason = "a line is a text, such as 'Nd5 exd5', or a list of moves"
        raise MalformedMove(reason, text=as_given(line), fen=board.fen())
    return iter(line)
