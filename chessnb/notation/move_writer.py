"""Writing moves: SAN, long algebraic, UCI, figurines, speech, and lines with numbers."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

import chess

from chessnb.board.position import Position, read_position
from chessnb.notation.letters import in_language, letters_of
from chessnb.notation.spoken.speech import spoken

Form = Literal["san", "long", "uci", "figurine", "long figurine", "spoken"]
"""How a move is written: ``Nxd5+``, ``Ng3xd5+``, ``g3d5``, ``♘xd5+``, ``♘g3xd5+``,
``knight takes d5, check``."""

FIGURINES = dict(zip("KQRBN", "♔♕♖♗♘", strict=True))
"""Figurines by piece letter, as books print them: the white set for both sides."""


def write_move(
    position: Position, move: chess.Move, *, form: Form = "san", language: str = "english"
) -> str:
    """Write a legal move of a position.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position before the move.
    move : chess.Move
        A legal move there (this is not checked); the null move is ``--``.
    form : {"san", "long", "uci", "figurine", "long figurine", "spoken"}
        The notation. SAN is that of the PGN standard, section 8.2.3; long
        algebraic that of the FIDE Laws, Appendix C, with the letter O for
        castling.
    language : str
        Whose piece letters SAN and long algebraic use: a language of
        :data:`~chessnb.notation.letters.LETTERS`.  Figurines and UCI have
        none, and speech is English.

    Returns
    -------
    str
        The move, with ``+`` or ``#``, without a number.

    Raises
    ------
    UnknownLanguage
        If the letters of the language are not known.

    Examples
    --------
    >>> from typing import get_args
    >>> knight = chess.Move.from_uci("g1f3")
    >>> [write_move("start", knight, form=form) for form in get_args(Form)]
    ['Nf3', 'Ng1-f3', 'g1f3', '♘f3', '♘g1-f3', 'knight to f3']
    >>> write_move("start", knight, language="german")
    'Sf3'
    """
    letters_of(language)  # a wrong name is told, whatever the form
    board = read_position(position, legal=False)
    if form == "uci":
        return board.uci(move)
    if form == "spoken":
        return spoken(board, move)
    text = board.lan(move) if form.startswith("long") else board.san(move)
    return figurines(text) if form.endswith("figurine") else in_language(text, language)


def figurines(text: str) -> str:
    """Replace the piece letters of one move or line by figurines."""
    return "".join(FIGURINES.get(letter, letter) for letter in text)


def number(board: chess.Board) -> str:
    """Return the number before the next move: ``"14."`` or ``"14..."``."""
    return f"{board.fullmove_number}{'.' if board.turn else '...'}"


def write_line(
    position: Position,
    moves: Iterable[chess.Move],
    *,
    form: Form = "san",
    language: str = "english",
) -> str:
    """Write moves played one after another, with their numbers.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position before the first move.
    moves : iterable of chess.Move
        Legal moves, in order (this is not checked).
    form, language
        As for :func:`write_move`.

    Returns
    -------
    str
        Such as ``"14... exd5 15. Qh7+"``, spoken ``"move 14, Black's: e takes
        d5; move 15: queen to h7, check"``; empty for no moves.

    Examples
    --------
    >>> line = [chess.Move.from_uci(text) for text in ("e2e4", "e7e5", "g1f3")]
    >>> write_line("start", line)
    '1. e4 e5 2. Nf3'
    >>> write_line("start", line, form="spoken")
    'move 1: pawn to e4; pawn to e5; move 2: knight to f3'
    """
    board = read_position(position, legal=False)
    words: list[str] = []
    for move in moves:
        if board.turn or not words:
            words.append(_spoken_number(board) if form == "spoken" else number(board))
        words.append(write_move(board, move, form=form, language=language))
        if form == "spoken":
            words[-1] += ";"
        board.push(move)
    return " ".join(words).removesuffix(";")


def write_last_move(board: chess.Board) -> str:
    """Write the move that led to a position, with its number; empty if it is not known.

    Examples
    --------
    >>> board = chess.Board()
    >>> board.push_san("e4")
    Move.from_uci('e2e4')
    >>> write_last_move(board)
    '1. e4'
    """
    if not board.move_stack:
        return ""
    before = board.copy()
    return write_line(before, (before.pop(),))


def _spoken_number(board: chess.Board) -> str:
    whose = "" if board.turn else ", Black's"
    return f"move {board.fullmove_number}{whose}:"
