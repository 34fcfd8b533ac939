"""Reading moves as people write or say them, and answering a wrong one with the reason.

A move is read in two steps: its *form* (which piece, from where, to where)
from the text alone, then the legal moves that fit the form.  One is the
answer; none or several is an error that says why.  What has not the form of a
written move is heard as spoken English (:mod:`chessnb.notation.spoken.listener`).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal, NoReturn

import chess

from chessnb.board.naming import listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES
from chessnb.errors import AmbiguousMove, IllegalMove, MalformedMove, NotationError, as_given
from chessnb.notation.letters import in_language, letters_of
from chessnb.notation.refusals.form import PASS, why_malformed
from chessnb.notation.refusals.legality import why_no_castling, why_not
from chessnb.notation.spoken.listener import hear
from chessnb.notation.spoken.vocabulary import written_in

MoveLike = str | chess.Move
"""A move as a teacher gives it: in any notation, as one says it, or python-chess's own."""

LONGEST = 200
"""So many characters a move may have, with all that is said around it."""

_FIGURINES = "♙♘♗♖♕♔♟♞♝♜♛♚"
_NUMBER = re.compile(r"^\d+\s*(?:\.+|…)\s*")
_GLYPHS = re.compile(r"(?:\s*[!?]{1,2})$")
_CHECK = re.compile(r"\s*(?:\+\+|[+#†‡]|ch\.?|check|(?:check)?mate)$")
_CASTLING = re.compile(r"^[Oo0]\s*[-–‐]?\s*[Oo0](?P<long>\s*[-–‐]?\s*[Oo0])?$")
_UCI = re.compile(r"^[a-h][1-8][a-h][1-8][qrbn]$")


@dataclass(frozen=True, kw_only=True)
class Shape:
    """What the text of a move says, before the position is looked at."""

    piece: chess.PieceType | None
    to_square: chess.Square
    from_file: int | None = None
    from_rank: int | None = None
    takes: bool = False
    promotion: chess.PieceType | None = None

    def fits(self, board: chess.Board, move: chess.Move) -> bool:
        """Tell whether a legal move has this shape."""
        return (
            move.to_square == self.to_square
            and self.starts_at(move.from_square)
            and self.piece in (None, board.piece_type_at(move.from_square))
            and self.promotion in (None, move.promotion)
            and (not self.takes or board.is_capture(move))
            and not self._steps_aside(board, move)
        )

    def starts_at(self, square: chess.Square) -> bool:
        """Tell whether the text allows a piece on this square to be meant."""
        return self.from_file in (None, chess.square_file(square)) and self.from_rank in (
            None,
            chess.square_rank(square),
        )

    def _steps_aside(self, board: chess.Board, move: chess.Move) -> bool:
        """Tell whether a pawn would capture without being said to: ``d5`` never means ``exd5``."""
        return (
            self.piece == chess.PAWN
            and self.from_file is None
            and chess.square_file(move.from_square) != chess.square_file(move.to_square)
        )


def read_move(position: Position, move: MoveLike, *, language: str = "english") -> chess.Move:
    """Read one move in a position, in any common notation or as one says it.

    SAN (``Nf3``, ``exd5``, ``e8=Q``), long algebraic (``Ng1-f3``), UCI
    (``g1f3``), castling with the letter O or the figure 0, figurines; a move
    number before it and ``!``, ``?``, ``+``, ``#`` behind it are passed over.
    Anything else is heard as spoken English: ``knight takes e5, check``.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position before the move.
    move : str or chess.Move
        The move.
    language : str
        Whose piece letters are written, a language of
        :data:`~chessnb.notation.letters.LETTERS`.  Only these are understood;
        UCI, figurines and speech are the same in every language.

    Returns
    -------
    chess.Move
        The one legal move that fits.

    Raises
    ------
    MalformedMove
        If the text is neither the form of a move nor words for one.
    IllegalMove
        If no legal move fits; the reason says what stands in the way.
    AmbiguousMove
        If several legal moves fit; the reason says how to tell them apart.
    UnknownLanguage
        If the letters of the language are not known.

    Examples
    --------
    >>> read_move("start", "Nf3"), read_move("start", "1. e2-e4!")
    (Move.from_uci('g1f3'), Move.from_uci('e2e4'))
    >>> read_move("start", "knight to f3"), read_move("start", "Sf3", language="german")
    (Move.from_uci('g1f3'), Move.from_uci('g1f3'))
    >>> read_move("start", "Bg5")
    Traceback (most recent call last):
        ...
    chessnb.errors.IllegalMove: 'Bg5': the bishop on c1 cannot reach g5: the pawn on d2 is in \
the way; it has no legal move [rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1]
    """
    letters_of(language)  # a wrong name is told, whatever the move
    return read_on(read_position(position, legal=False), move, language)


def read_signed(board: chess.Board, move: MoveLike) -> chess.Move:
    """Read a move as :func:`read_on` does, and refuse one that is not the check that it says.

    Raises
    ------
    NotationError
        If the move is not the check, or the mate, of its sign.
    """
    found = read_on(board, move)
    reason = wrong_sign(board, found, move) if isinstance(move, str) else ""
    if reason:
        raise NotationError(reason, text=str(move), fen=board.fen())
    return found


def read_on(board: chess.Board, move: MoveLike, language: str = "english") -> chess.Move:
    """Read a move on a board, as :func:`read_move` does, without a copy of it."""
    if isinstance(move, chess.Move):
        return _read_given(board, move)
    text = _checked_text(move, board)
    if is_move(text, language=language):
        return _read(board, text, language, text)
    written, sides = written_in(text)
    if is_move(written, language=language):
        if sides - {board.turn}:
            raise IllegalMove(f"it is {SIDES[board.turn]}'s move", text=text, fen=board.fen())
        return _read(board, written, language, text)
    if (heard := hear(board, text, language=language)) is not None:
        return heard
    _refuse_form(text, board, language)


def read_written(position: Position, text: str, *, language: str = "english") -> chess.Move:
    """Read one written move in a position; words are not understood.

    As :func:`read_move`, for texts such as a game's, where a word is a
    mistake and never a move.

    Examples
    --------
    >>> read_written("start", "Nf3")
    Move.from_uci('g1f3')
    """
    board = read_position(position, legal=False)
    return _read(board, _checked_text(text, board), language, text)


def _read_given(board: chess.Board, move: chess.Move) -> chess.Move:
    """Return a move of python-chess's if it is legal; castling as the board itself writes it."""
    if move and move in board.legal_moves:
        return board.parse_uci(move.uci()) if board.is_castling(move) else move
    return _read(board, move.uci(), "english", move.uci())


def _read(board: chess.Board, written: str, language: str, text: str) -> chess.Move:
    """Read a written move; errors speak of the text that it was found in."""
    letters = letters_of(language)
    bare = _bare(written, letters)
    if castling := _CASTLING.match(bare):
        return _read_castling(board, text, king_side=castling["long"] is None)
    shapes = _shapes(bare, letters)
    if not shapes:
        _refuse_form(text, board, language)
    # A small letter for a piece is understood only where no pawn move fits.
    for shape in shapes:
        if fitting := _fitting(board, shape):
            return _only(board, text, shape, fitting, language)
    if (king_side := _king_two_squares(board, shapes[0])) is not None:
        return _read_castling(board, text, king_side=king_side)
    shape = _likeliest(board, shapes)
    reason = _own_rook(board, shape) or _why(board, shape)
    raise IllegalMove(in_language(reason, language), text=text, fen=board.fen())


def _fitting(board: chess.Board, shape: Shape) -> list[chess.Move]:
    """Return the legal moves that have a shape."""
    there = board.generate_legal_moves(to_mask=chess.BB_SQUARES[shape.to_square])
    # Castling is generated by the rook's square, not by the king's goal.
    moves = dict.fromkeys((*there, *board.generate_castling_moves()))
    return [move for move in moves if shape.fits(board, move)]


def is_move(text: str, *, language: str = "english") -> bool:
    """Tell whether a text has the form of a written move, in any position.

    Examples
    --------
    >>> is_move("14. Nd5!"), is_move("diagram"), is_move("Sd5", language="german")
    (True, False, True)
    """
    if len(text) > LONGEST:
        return False
    letters = letters_of(language)
    bare = _bare(text, letters)
    return bare == PASS or bool(_CASTLING.match(bare)) or bool(_shapes(bare, letters))


def sign_of(text: str) -> Literal["", "check", "mate"]:
    """Return what a move's text says of check: ``++`` is a check, however it was meant.

    Examples
    --------
    >>> sign_of("Nf3+!"), sign_of("Qg7#"), sign_of("rook to e8 mate"), sign_of("Nf3")
    ('check', 'mate', 'mate', '')
    """
    found = _CHECK.search(_GLYPHS.sub("", text.strip().rstrip(".")))
    if found is None:
        return ""
    sign = found[0].strip()
    return "mate" if sign in ("#", "‡") or sign.endswith("mate") else "check"


def wrong_sign(board: chess.Board, move: chess.Move, text: str) -> str:
    """Say what is wrong with the sign of a move that was read; empty if nothing is.

    Examples
    --------
    >>> wrong_sign(chess.Board(), chess.Move.from_uci("e2e4"), "e4+")
    'the sign says that it is check, but e4 gives no check: write e4'
    """
    sign = sign_of(text)
    if not sign:
        return ""
    written = board.san(move)
    after = board.copy(stack=False)
    after.push(move)
    if sign == "mate" and not after.is_checkmate():
        kind = "a check, and no mate" if after.is_check() else "no mate, and not even a check"
        return f"the sign says that it is mate, but {written} is {kind}: write {written}"
    if sign == "check" and not after.is_check():
        return f"the sign says that it is check, but {written} gives no check: write {written}"
    return ""


def bare_move(text: str) -> str:
    """Return a move's text without number, check sign and ``!`` or ``?``; letters for figurines."""
    return _bare(text, letters_of("english"))


def _bare(text: str, letters: str) -> str:
    bare = _NUMBER.sub("", text.strip().translate(_figurine_table(letters)))
    bare = _GLYPHS.sub("", bare)
    return _CHECK.sub("", bare).strip()


@cache
def _figurine_table(letters: str) -> dict[int, int]:
    return str.maketrans(_FIGURINES, letters * 2)


@cache
def _pattern(letters: str) -> re.Pattern[str]:
    # A small letter for what a pawn becomes is common in typing; a capital may be wrong.
    return re.compile(
        rf"""^(?P<piece>[{letters}])?
        (?P<file>[a-h])?(?P<rank>[1-8])?
        \s*(?P<link>[-–‐x×:])?\s*
        (?P<to>[a-h][1-8])
        (?P<captured>:)?
        (?:\s*e\.?\s?p\.?)?
        (?:\s*[=/(]?\s*(?P<promotion>[{letters}{letters[1:5].lower()}])\)?)?$""",
        re.VERBOSE,
    )


def _shapes(bare: str, letters: str) -> list[Shape]:
    """Return the possible readings, the likelier first.

    A small letter may stand for a piece, but ``b4d7`` names two squares.
    """
    if _UCI.match(bare):
        letters = letters_of("english")  # UCI has no language
    readings = [bare]
    if bare[:1] in tuple(letters[1:].lower()) and not re.match(r"[a-h][1-8]", bare):
        readings.append(bare[0].upper() + bare[1:])
    pattern = _pattern(letters)
    return [_shape(match, letters) for read in readings if (match := pattern.match(read))]


def _shape(match: re.Match[str], letters: str) -> Shape:
    file, rank = match["file"], match["rank"]
    whole_square = file is not None and rank is not None
    return Shape(
        piece=_kind(match["piece"], letters) or (None if whole_square else chess.PAWN),
        to_square=chess.parse_square(match["to"]),
        from_file=None if file is None else "abcdefgh".index(file),
        from_rank=None if rank is None else int(rank) - 1,
        takes=match["link"] in ("x", "×", ":") or match["captured"] is not None,
        promotion=_kind(match["promotion"], letters),
    )


def _kind(letter: str | None, letters: str) -> chess.PieceType | None:
    return None if letter is None else letters.index(letter.upper()) + 1


def _only(
    board: chess.Board, text: str, shape: Shape, fitting: list[chess.Move], language: str
) -> chess.Move:
    if len(fitting) == 1:
        return fitting[0]
    candidates = sorted(board.san(move) for move in fitting)
    square = chess.square_name(shape.to_square)
    if len({move.from_square for move in fitting}) == 1:
        reason = f"the pawn becomes a piece on {square}: say {listed(candidates, joint='or')}"
    else:
        piece = chess.piece_name(board.piece_type_at(fitting[0].from_square) or chess.PAWN)
        starts = sorted({move.from_square for move in fitting})
        count = {2: "two", 3: "three", 4: "four"}.get(len(starts), str(len(starts)))
        means = listed(_telling_apart(starts, board, fitting), joint="or")
        reason = (
            f"{count} {piece}s can go to {square}: say {means} ({listed(candidates, joint='or')})"
        )
    reason = in_language(reason, language)
    raise AmbiguousMove(reason, text=text, fen=board.fen(), candidates=candidates)


def _telling_apart(
    starts: list[chess.Square], board: chess.Board, fitting: list[chess.Move]
) -> list[str]:
    """Return the shortest words that tell the pieces apart: files, else ranks, else squares."""
    files = [chess.FILE_NAMES[chess.square_file(square)] for square in starts]
    ranks = [chess.RANK_NAMES[chess.square_rank(square)] for square in starts]
    if len(set(files)) == len(starts):
        return sorted(files)
    if len(set(ranks)) == len(starts):
        return sorted(ranks)
    return [chess.square_name(square) for square in starts]


def _king_two_squares(board: chess.Board, shape: Shape) -> bool | None:
    """Tell whether a shape is the king's double step (``Ke1-g1``): king side, queen side, no."""
    king = board.king(board.turn)
    home = chess.E1 if board.turn else chess.E8
    if king != home or shape.piece not in (None, chess.KING) or shape.from_file is None:
        return None
    if not shape.starts_at(king) or shape.to_square not in (home + 2, home - 2):
        return None
    if shape.takes or shape.promotion is not None:
        return None
    return shape.to_square > king


def _own_rook(board: chess.Board, shape: Shape) -> str:
    """Say how castling is written to one who writes that the king takes its own rook."""
    king = board.king(board.turn)
    home = chess.E1 if board.turn else chess.E8
    if king != home or not shape.starts_at(king) or shape.promotion is not None:
        return ""
    if shape.from_file is None and not (shape.piece == chess.KING and shape.takes):
        return ""
    if shape.to_square not in (home + 3, home - 4):
        return ""
    if board.piece_at(shape.to_square) != chess.Piece(chess.ROOK, board.turn):
        return ""
    sides = "O-O" if shape.to_square > king else "O-O-O"
    square = chess.square_name(shape.to_square)
    return f"the king cannot take its own rook on {square}: castling is written {sides}"


def _read_castling(board: chess.Board, text: str, *, king_side: bool) -> chess.Move:
    for move in board.generate_castling_moves():
        if board.is_kingside_castling(move) == king_side:
            return move
    reasons = why_no_castling(board, board.turn, king_side=king_side)
    raise IllegalMove(listed(reasons), text=text, fen=board.fen())


def _likeliest(board: chess.Board, shapes: list[Shape]) -> Shape:
    """Return the reading that a reason should speak of: a pawn of that file, if there is one."""
    pawns = board.pieces(chess.PAWN, board.turn)
    if shapes[0].piece == chess.PAWN and any(map(shapes[0].starts_at, pawns)):
        return shapes[0]
    return shapes[-1]


def _why(board: chess.Board, shape: Shape) -> str:
    return why_not(
        board,
        piece=shape.piece,
        to_square=shape.to_square,
        starts_at=shape.starts_at,
        takes=shape.takes,
        promotion=shape.promotion,
        names_file=shape.from_file is not None,
    )


def _checked_text(given: object, board: chess.Board) -> str:
    """Return what was given if it is a text, and not too long for a move."""
    if not isinstance(given, str):
        reason = "a move is a text, such as 'Nf3', or a chess.Move"
        raise MalformedMove(reason, text=as_given(given), fen=board.fen())
    if len(given) > LONGEST:
        shown = f"{given[:40]}…"
        raise MalformedMove("this is too long for one move", text=shown, fen=board.fen())
    return given


def _refuse_form(text: str, board: chess.Board, language: str) -> NoReturn:
    reason = why_malformed(_bare(text, letters_of(language)), language=language)
    raise MalformedMove(reason, text=text, fen=board.fen())
