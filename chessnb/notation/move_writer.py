"""Writing moves: SAN, long algebraic, UCI, figurines, speech, and lines with numbers."""

from __future__ import annotations

from typing import Literal, get_args

import chess

from chessnb.board.naming import listed, number
from chessnb.board.position import Position, read_position
from chessnb.errors import InputError
from chessnb.notation.letters import in_language, letters_of
from chessnb.notation.line_reader import LineLike, read_line
from chessnb.notation.move_reader import MoveLike
from chessnb.notation.spoken.speech import spoken

Form = Literal["san", "long", "uci", "figurine", "long figurine", "spoken"]
"""How a move is written: ``Nxd5+``, ``Ng3xd5+``, ``g3d5``, ``♘xd5+``, ``♘g3xd5+``,
``knight takes d5, check``."""

FIGURINES = dict(zip("KQRBN", "♔♕♖♗♘", strict=True))
"""Figurines by piece letter, as books print them: the white set for both sides."""


def write_move(
    position: Position, move: MoveLike, *, form: Form = "san", language: str = "english"
) -> str:
    """Write a legal move of a position.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move.
    move : chess.Move or str
        A legal move there; the null move is written ``--``.
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
    NotationError
        If it is not one legal move.
    InputError
        If there is no such form.
    UnknownLanguage
        If the letters of the language are not known.

    Examples
    --------
    >>> [write_move("start", "g1f3", form=form) for form in get_args(Form)]
    ['Nf3', 'Ng1-f3', 'g1f3', '♘f3', '♘g1-f3', 'knight to f3']
    >>> write_move("start", "Nf3", language="german")
    'Sf3'
    """
    _check_form(form, language)
    board = read_position(position, legal=False)
    (played,) = read_line(board, (move,))
    return _written(board, played, form, language)


def _check_form(form: str, language: str) -> None:
    """Refuse a form that there is not, and a language without letters, whatever the form."""
    if form not in get_args(Form):
        raise InputError(f"a form is {listed(map(repr, get_args(Form)), joint='or')}", given=form)
    letters_of(language)


def _written(board: chess.Board, move: chess.Move, form: Form, language: str) -> str:
    if form == "uci":
        return board.uci(move)
    if form == "spoken":
        return spoken(board, move)
    text = board.lan(move) if form.startswith("long") else board.san(move)
    return figurines(text) if form.endswith("figurine") else in_language(text, language)


def figurines(text: str) -> str:
    """Replace the piece letters of one move or line by figurines."""
    return "".join(FIGURINES.get(letter, letter) for letter in text)


def write_line(
    position: Position,
    line: LineLike,
    *,
    form: Form = "san",
    language: str = "english",
) -> str:
    """Write moves played one after another, with their numbers.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the first move.
    line : str or sequence of chess.Move
        Legal moves, in order, as :func:`~chessnb.notation.read_line` takes them.
    form, language
        As for :func:`write_move`.

    Returns
    -------
    str
        Such as ``"14... exd5 15. Qh7+"``, spoken ``"move 14, Black's: e takes
        d5; move 15: queen to h7, check"``; empty for no moves.

    Examples
    --------
    >>> write_line("start", ["e2e4", "e7e5", "g1f3"])
    '1. e4 e5 2. Nf3'
    >>> write_line("start", "e4 e5 Nf3", form="spoken")
    'move 1: pawn to e4; pawn to e5; move 2: knight to f3'
    """
    _check_form(form, language)
    board = read_position(position, legal=False)
    words: list[str] = []
    for move in read_line(board, line):
        if board.turn or not words:
            words.append(_spoken_number(board) if form == "spoken" else number(board))
        words.append(_written(board, move, form, language))
        if form == "spoken":
            words[-1] += ";"
        board.push(move)
    return " ".join(words).removesuffix(";")


def write_last_move(position: Position) -> str:
    """Write the move that led to a position, with its number; empty if it is not known.

    Examples
    --------
    >>> board = chess.Board()
    >>> board.push_san("e4")
    Move.from_uci('e2e4')
    >>> write_last_move(board)
    '1. e4'
    """
    before = read_position(position, legal=False)
    return write_line(before, (before.pop(),)) if before.move_stack else ""


def _spoken_number(board: chess.Board) -> str:
    whose = "" if board.turn else ", Black's"
    return f"move {board.fullmove_number}{whose}:"
