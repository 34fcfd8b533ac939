"""Why a position cannot come about in a game, as far as it shows (FIDE Laws, articles 1 to 3)."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import chess

from chessnb.board.naming import listed
from chessnb.board.sides import SIDES


def what_is_wrong(board: chess.Board) -> list[str]:
    """Say in words why a position cannot come about in a game; empty if nothing is seen.

    The conditions are those of the FIDE Laws, articles 1 to 3, as far as a
    single position shows them.

    Returns
    -------
    list of str
        Clauses without a full stop, what is told first being the graver fault.

    Examples
    --------
    >>> what_is_wrong(chess.Board("4k3/8/8/8/8/8/4R3/4K3 w - - 0 1"))
    ["Black is in check from the rook on e2, yet it is White's move"]
    """
    if not board.occupied:
        return ["the board is empty"]
    kings = list(_king_faults(board))
    faults = [*kings, *_pawn_faults(board), *_number_faults(board)]
    if not kings:
        faults += _check_faults(board)
    return [*faults, *_castling_faults(board), *_en_passant_faults(board)]


def _squares(squares: Iterable[chess.Square]) -> str:
    return listed([chess.square_name(square) for square in squares])


def _pieces_on(board: chess.Board, squares: Iterable[chess.Square]) -> str:
    kinds = [(board.piece_type_at(square) or chess.PAWN, square) for square in squares]
    return listed(
        [f"the {chess.piece_name(kind)} on {chess.square_name(square)}" for kind, square in kinds]
    )


def _king_faults(board: chess.Board) -> Iterator[str]:
    kings = [board.pieces(chess.KING, side) for side in (chess.WHITE, chess.BLACK)]
    for side, own in zip(("White", "Black"), kings, strict=True):
        if not own:
            yield f"{side} has no king"
        elif len(own) > 1:
            yield f"{side} has {len(own)} kings, on {_squares(own)}"
    white, black = kings
    if len(white) == len(black) == 1 and chess.square_distance(*white, *black) == 1:
        yield f"the kings on {_squares(white | black)} stand next to each other"


def _pawn_faults(board: chess.Board) -> Iterator[str]:
    if wrong := chess.SquareSet(board.pawns & chess.BB_BACKRANKS):
        pawns = "a pawn stands" if len(wrong) == 1 else "pawns stand"
        yield f"{pawns} on {_squares(wrong)}, and no pawn can be on the first or the eighth rank"


def _number_faults(board: chess.Board) -> Iterator[str]:
    for side in (chess.WHITE, chess.BLACK):
        pieces = board.occupied_co[side].bit_count()
        pawns = len(board.pieces(chess.PAWN, side))
        if pawns > 8:
            yield f"{SIDES[side]} has {pawns} pawns, and nobody has more than 8"
        if pieces > 16:
            yield f"{SIDES[side]} has {pieces} pieces and pawns, and nobody has more than 16"
        if pawns <= 8 and pieces <= 16:
            yield from _promoted_faults(board, side, pawns)


def _promoted_faults(board: chess.Board, side: chess.Color, pawns: int) -> Iterator[str]:
    """Compare the pieces that must have been pawns (article 3.7.5) with the pawns that are gone."""
    light, dark = chess.SquareSet(chess.BB_LIGHT_SQUARES), chess.SquareSet(chess.BB_DARK_SQUARES)
    bishops = board.pieces(chess.BISHOP, side)
    counts = {
        "queens": (len(board.pieces(chess.QUEEN, side)), 1),
        "rooks": (len(board.pieces(chess.ROOK, side)), 2),
        "bishops on light squares": (len(bishops & light), 1),
        "bishops on dark squares": (len(bishops & dark), 1),
        "knights": (len(board.pieces(chess.KNIGHT, side)), 2),
    }
    extra = {name: count for name, (count, first) in counts.items() if count > first}
    promoted = sum(count - counts[name][1] for name, count in extra.items())
    if promoted > 8 - pawns:
        what = listed([f"{count} {name}" for name, count in extra.items()])
        gone = "none of its pawns is" if pawns == 8 else f"only {8 - pawns} of its pawns may be"
        yield (
            f"{SIDES[side]} has {what}, so at least {promoted} of them must have been "
            f"{'a pawn' if promoted == 1 else 'pawns'}, but {gone} gone"
        )


def _check_faults(board: chess.Board) -> Iterator[str]:
    status = board.status()
    mover, other = SIDES[board.turn], SIDES[not board.turn]
    if board.was_into_check():
        king = board.king(not board.turn)
        assert king is not None
        givers = _pieces_on(board, board.attackers(board.turn, king))
        yield f"{other} is in check from {givers}, yet it is {mover}'s move"
    checkers = board.checkers()
    if status & chess.STATUS_TOO_MANY_CHECKERS:
        yield (
            f"{mover} is in check from {_pieces_on(board, checkers)}, and no move gives check with "
            "more than two pieces"
        )
    elif status & chess.STATUS_IMPOSSIBLE_CHECK:
        by_what = "" if board.ep_square is None else ": the last was a pawn's double step"
        givers = _pieces_on(board, checkers)
        yield f"no single move can give {mover} the check from {givers}{by_what}"


def _castling_faults(board: chess.Board) -> Iterator[str]:
    wrong = chess.SquareSet(board.castling_rights & ~board.clean_castling_rights())
    for side, rank in ((chess.WHITE, "1"), (chess.BLACK, "8")):
        rooks = wrong & chess.SquareSet(chess.BB_RANK_1 if side else chess.BB_RANK_8)
        said = f"{SIDES[side]} is said to have the right to castle"
        if rooks and board.king(side) != chess.parse_square(f"e{rank}"):
            yield f"{said}, but its king is not on e{rank}"
            continue
        for rook in rooks:
            kingside = chess.square_file(rook) > chess.E1
            wing, corner = ("kingside", "h") if kingside else ("queenside", "a")
            there = board.piece_at(rook) == chess.Piece(chess.ROOK, side)
            where = f", and not on {chess.square_name(rook)}" if there else ""
            yield f"{said} {wing}, but needs a rook on {corner}{rank} for it{where}"


def _en_passant_faults(board: chess.Board) -> Iterator[str]:
    if not board.status() & chess.STATUS_INVALID_EP_SQUARE or board.ep_square is None:
        return
    passed = board.ep_square
    goal, other = chess.square_name(passed), SIDES[not board.turn]
    rank, ahead = (5, 8) if board.turn else (2, -8)
    start = f"a pawn of {other}'s is said to have just passed {goal}, but"
    if chess.square_rank(passed) != rank:
        yield f"{start} {other}'s pawns pass rank {rank + 1} with their double step"
    elif board.piece_at(passed - ahead) != chess.Piece(chess.PAWN, not board.turn):
        yield f"{start} there is none on {chess.square_name(passed - ahead)}"
    else:
        pieces = chess.SquareSet([passed, passed + ahead]) & chess.SquareSet(board.occupied)
        yield f"{start} {_pieces_on(board, pieces)} would have been in its way"
