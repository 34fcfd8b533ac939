"""Reading moves as people write them, and answering a wrong one with the reason.

A move is read in two steps: its *form* (which piece, from where, to where)
from the text alone, then the legal moves that fit the form.  One is the
answer; none or several is an error that says why.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

import chess

from chessnb.errors import AmbiguousMove, IllegalMove, MalformedMove
from chessnb.notation.reasons import why_no_castling, why_not
from chessnb.notation.words import listed
from chessnb.position import Position, board_of

_LETTERS = str.maketrans("♔♕♖♗♘♙♚♛♜♝♞♟", "KQRBNPKQRBNP")
_NUMBER = re.compile(r"^\d+\s*(?:\.+|…)\s*")
_GLYPHS = re.compile(r"(?:\s*[!?]{1,2})$")
_CHECK = re.compile(r"\s*(?:\+\+|[+#†‡]|ch\.?|mate)$")
_CASTLING = re.compile(r"^[Oo0]\s*[-–‐]?\s*[Oo0](?P<long>\s*[-–‐]?\s*[Oo0])?$")
_MOVE = re.compile(
    r"""^(?P<piece>[KQRBNP])?
        (?P<file>[a-h])?(?P<rank>[1-8])?
        \s*(?P<link>[-–‐x×:])?\s*
        (?P<to>[a-h][1-8])
        (?P<captured>:)?
        (?:\s*e\.?\s?p\.?)?
        (?:\s*[=/(]?\s*(?P<promotion>[KQRBNPqrbn])\)?)?$""",
    re.VERBOSE,
)
_PASS = "--"  # how the tree writes a null move; common practice, no source
_PAWN_TAKES = re.compile(r"^P?(?P<file>[a-h])[x×:]?(?P<to>[a-h])$")


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


def read_move(position: Position, text: str) -> chess.Move:
    """Read one move in a position, in any common notation.

    SAN (``Nf3``, ``exd5``, ``e8=Q``), long algebraic (``Ng1-f3``), UCI
    (``g1f3``), castling with the letter O or the figure 0, figurines; a move
    number before it and ``!``, ``?``, ``+``, ``#`` behind it are passed over.

    Parameters
    ----------
    position : chess.Board, moment or str
        The position before the move.
    text : str
        The move.

    Returns
    -------
    chess.Move
        The one legal move that fits.

    Raises
    ------
    MalformedMove
        If the text has not the form of a move.
    IllegalMove
        If no legal move fits; the reason says what stands in the way.
    AmbiguousMove
        If several legal moves fit; the reason says how to tell them apart.

    Examples
    --------
    >>> read_move("start", "Nf3"), read_move("start", "1. e2-e4!")
    (Move.from_uci('g1f3'), Move.from_uci('e2e4'))
    >>> read_move("start", "Bg5")
    Traceback (most recent call last):
        ...
    chessnb.errors.IllegalMove: 'Bg5': the bishop on c1 cannot reach g5: the pawn on d2 is in \
the way; it has no legal move [rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1]
    """
    board = board_of(position, legal=False)
    bare = bare_move(text)
    if castling := _CASTLING.match(bare):
        return _read_castling(board, text, king_side=castling["long"] is None)
    shapes = _shapes(bare)
    if not shapes:
        raise MalformedMove(_malformed(bare), text=text, fen=board.fen())
    # A small letter for a piece is understood only where no pawn move fits.
    for shape in shapes:
        if fitting := [move for move in board.legal_moves if shape.fits(board, move)]:
            return _only(board, text, shape, fitting)
    if (castling_move := _king_two_squares(board, shapes[0])) is not None:
        return _read_castling(board, text, king_side=castling_move)
    shape = shapes[-1] if _is_small_piece(board, shapes) else shapes[0]
    raise IllegalMove(_why(board, shape), text=text, fen=board.fen())


def is_move(text: str) -> bool:
    """Tell whether a text has the form of a move, in any position.

    Examples
    --------
    >>> is_move("14. Nd5!"), is_move("diagram")
    (True, False)
    """
    bare = bare_move(text)
    return bare == _PASS or bool(_CASTLING.match(bare)) or bool(_shapes(bare))


def bare_move(text: str) -> str:
    """Return a move's text without number, check sign and ``!`` or ``?``; letters for figurines."""
    bare = _NUMBER.sub("", text.strip().translate(_LETTERS))
    bare = _GLYPHS.sub("", bare)
    return _CHECK.sub("", bare).strip()


def _shapes(bare: str) -> list[Shape]:
    """Return the possible readings, the likelier first.

    A small letter may stand for a piece, but ``b4d7`` names two squares.
    """
    readings = [bare]
    if bare[:1] in ("k", "q", "r", "b", "n") and not re.match(r"b[1-8]", bare):
        readings.append(bare[0].upper() + bare[1:])
    return [_shape(match) for reading in readings if (match := _MOVE.match(reading))]


def _shape(match: re.Match[str]) -> Shape:
    letter, promotion = match["piece"], match["promotion"]
    file, rank = match["file"], match["rank"]
    whole_square = file is not None and rank is not None
    piece = None if whole_square else chess.PAWN
    if letter is not None:
        piece = chess.PIECE_SYMBOLS.index(letter.lower())
    return Shape(
        piece=piece,
        to_square=chess.parse_square(match["to"]),
        from_file=None if file is None else "abcdefgh".index(file),
        from_rank=None if rank is None else int(rank) - 1,
        takes=match["link"] in ("x", "×", ":") or match["captured"] is not None,
        promotion=None if promotion is None else chess.PIECE_SYMBOLS.index(promotion.lower()),
    )


def _only(board: chess.Board, text: str, shape: Shape, fitting: list[chess.Move]) -> chess.Move:
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
    return shape.to_square > king


def _read_castling(board: chess.Board, text: str, *, king_side: bool) -> chess.Move:
    for move in board.generate_castling_moves():
        if board.is_kingside_castling(move) == king_side:
            return move
    reasons = why_no_castling(board, board.turn, king_side=king_side)
    raise IllegalMove(listed(reasons), text=text, fen=board.fen())


def _is_small_piece(board: chess.Board, shapes: list[Shape]) -> bool:
    return len(shapes) > 1 or shapes[0].piece not in (None, chess.PAWN)


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


def _malformed(bare: str) -> str:
    if not bare:
        return "a move is missing: write it like Nf3, exd5, O-O or e8=Q"
    if bare in (_PASS, "Z0", "0000"):
        return "a pass is no move of chess"
    squares = re.findall(r"[a-z]\d+", bare)
    off = [square for square in squares if not re.fullmatch(r"[a-h][1-8]", square)]
    if off and re.fullmatch(r"[KQRBNP]?[a-h]?[1-8]?[-x×:]?[a-z]\d+(=?[QRBN])?", bare):
        return f"there is no square {off[-1]}: files run from a to h, ranks from 1 to 8"
    if pawn := _PAWN_TAKES.match(bare):
        return f"name the square too, as in {pawn['file']}x{pawn['to']}5"
    if re.fullmatch(r"[KQRBNP][a-h]?[1-8]?[-x×:]?", bare):
        return "the square is missing: write it like Nf3"
    return "this is not a move: write it like Nf3, exd5, O-O or e8=Q"
