"""Castling, development, trades, the balance of material, and when the ending begins."""

from __future__ import annotations

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import NUMBERS, listed
from chessnb.teaching.thread.remark import Course, Remark, Remarks, place, who

HOMES = {
    chess.WHITE: {
        chess.B1: chess.KNIGHT, chess.G1: chess.KNIGHT, chess.C1: chess.BISHOP,
        chess.F1: chess.BISHOP,
    },
    chess.BLACK: {
        chess.B8: chess.KNIGHT, chess.G8: chess.KNIGHT, chess.C8: chess.BISHOP,
        chess.F8: chess.BISHOP,
    },
}  # fmt: skip
"""Where the minor pieces stand at the start."""

ENDING = 13
"""An ending has begun when neither side's pieces are worth more than this (queen and minor piece,
two rooks and a minor piece); pawns are not counted (common practice, no source)."""

_WORTH = {chess.KNIGHT: 3, chess.BISHOP: 3, chess.ROOK: 5, chess.QUEEN: 9}


def phase_remarks(course: Course, ply: int) -> Remarks:
    """Yield what a move means for castling, development, material and the phase of the game."""
    yield from _castled(course, ply)
    yield from _castling_lost(course, ply)
    yield from _development(course, ply)
    yield from _trades(course, ply)


def at_home(board: chess.Board, side: chess.Color) -> int:
    """Count the knights and bishops of a side that still stand where they began."""
    return sum(
        board.piece_at(square) == chess.Piece(piece, side) for square, piece in HOMES[side].items()
    )


def _wing(board: chess.Board, side: chess.Color) -> str:
    king = board.king(side)
    assert king is not None
    return "kingside" if chess.square_file(king) > 4 else "queenside"


def _castled(course: Course, ply: int) -> Remarks:
    before, board = course.before(ply), course.after(ply)
    if not before.is_castling(course.move(ply)):
        return
    side = course.side(ply)
    other = not side
    earlier = [at for at in course.plies[: ply - 1] if course.side(at) == other]
    castled = [at for at in earlier if course.before(at).is_castling(course.move(at))]
    wing = _wing(board, side)
    home = chess.E1 if other else chess.E8
    if castled:
        others = "queenside" if course.move(castled[0]).to_square % 8 < 4 else "kingside"
        if others != wing:
            yield Remark(
                ply=ply,
                weight=5,
                words=f"{who(side)} has castled {wing}, {who(other)} {others}: each side may send "
                "its pawns against the other's king.",
                key=("castled apart",),
            )
        else:
            yield Remark(
                ply=ply,
                weight=2,
                words=f"Both sides have castled {wing}.",
                key=("both castled",),
            )
    elif board.king(other) == home:
        e_pawns = board.pawns & chess.BB_FILE_E
        line = "" if e_pawns else ", and the e-file is open"
        rook = chess.D1 if side else chess.D8
        d_file = ""
        if wing == "queenside" and not board.pieces(chess.PAWN, side) & chess.BB_FILE_D:
            ahead = [
                square
                for square in board.attacks(rook)
                if chess.square_file(square) == 3 and board.color_at(square) == other
            ]
            if ahead:
                d_file = f" The rook on {place(rook)} attacks the {_name(board, ahead[0])} on "
                d_file += f"{place(ahead[0])}."
            else:
                d_file = f" The rook stands on the d-file at once, on {place(rook)}."
        yield Remark(
            ply=ply,
            weight=4 if line or d_file else 2 if _stays(course, ply, home) else 1,
            words=f"{who(side)} has castled {wing}; {who(other)}'s king is still in the centre, on "
            f"{place(home)}{line}.{d_file}",
            key=("castled", side),
        )


def _stays(course: Course, ply: int, home: chess.Square) -> bool:
    """Tell whether the other king stays at home for three moves more."""
    later = course.after(min(ply + 6, len(course.moves)))
    return later.piece_type_at(home) == chess.KING


def _name(board: chess.Board, square: chess.Square) -> str:
    piece = board.piece_type_at(square)
    assert piece is not None
    return chess.piece_name(piece)


def _castling_lost(course: Course, ply: int) -> Remarks:
    """Yield that a king has moved, or its last rook, so that it can never castle."""
    before, board, side = course.before(ply), course.after(ply), course.side(ply)
    move = course.move(ply)
    if (
        before.is_castling(move)
        or not before.castling_rights
        or before.king(side) != move.from_square
    ):
        return
    lost = before.has_castling_rights(side) and not board.has_castling_rights(side)
    if lost and board.queens and ply + 6 < len(course.moves):
        after = "After the check the king" if before.is_check() else "The king"
        yield Remark(
            ply=ply,
            weight=5 if before.is_check() else 4,
            words=f"{after} has gone to {place(move.to_square)}: {who(side)} can no longer castle.",
            key=("no castling", side),
        )


def _development(course: Course, ply: int) -> Remarks:
    """Yield that one side has brought out many more of its knights and bishops."""
    board = course.after(ply)
    if not 10 <= ply <= 40 or not board.queens or course.takes(ply) or course.takes(ply + 1):
        return
    out = {
        side: chess.popcount(board.occupied_co[side] & (board.knights | board.bishops))
        - at_home(board, side)
        for side in chess.COLORS
    }
    for side in chess.COLORS:
        more, less = out[side], out[not side]
        if more - less >= 2 and at_home(board, not side) >= 2:
            few = NUMBERS[less] if less else "none"
            yield Remark(
                ply=ply,
                weight=3,
                words=f"{who(side)} has brought out {NUMBERS[more]} of its knights and bishops, "
                f"{who(not side)} {few}.",
                key=("development", side),
            )


def worth(board: chess.Board, side: chess.Color) -> int:
    """Return what the pieces of a side are worth, without its pawns."""
    return sum(len(board.pieces(piece, side)) * value for piece, value in _WORTH.items())


def _is_ending(board: chess.Board) -> bool:
    return all(worth(board, side) <= ENDING for side in chess.COLORS)


def _trades(course: Course, ply: int) -> Remarks:
    """Yield what a run of captures left, once it is over."""
    if not course.takes(ply) or course.takes(ply + 1) or ply == len(course.moves):
        return
    first = ply
    while course.takes(first - 1):
        first -= 1
    board, was = course.after(ply), course.before(first)
    if gain_on(board, course.move(ply).to_square) > 0:
        return  # it can be taken back
    if board.is_check() and ply + 1 in course.plies and course.takes(ply + 2):
        return
    queens_gone = was.queens and not board.queens
    if _is_ending(board) and not _is_ending(was):
        left = "; ".join(_left(board, side) for side in chess.COLORS)
        how = (
            "The queens are off the board, and the ending begins"
            if queens_gone
            else ("The ending begins")
        )
        yield Remark(ply=ply, weight=6, words=f"{how}: {left}.", key=("ending",))
    elif queens_gone:
        yield Remark(ply=ply, weight=4, words="The queens are off the board.", key=("queens",))
    if not course.takes(ply + 2) and ply + 2 <= len(course.moves):
        yield from _account(was, board, ply)


def _left(board: chess.Board, side: chess.Color) -> str:
    pieces = [
        _counted(len(board.pieces(piece, side)), chess.piece_name(piece))
        for piece in (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT)
        if board.pieces(piece, side)
    ]
    pawns = len(board.pieces(chess.PAWN, side))
    if pawns:
        pieces.append(_counted(pawns, "pawn"))
    return f"{who(side)} has {listed(pieces) if pieces else 'only the king'}"


def _counted(number: int, noun: str) -> str:
    if number == 1:
        return f"a {noun}"
    return f"{NUMBERS[number]} {noun}s"


def _account(was: chess.Board, board: chess.Board, ply: int) -> Remarks:
    """Yield what each side has for what, where pieces of different kinds were exchanged."""
    more: dict[chess.Color, list[str]] = {chess.WHITE: [], chess.BLACK: []}
    changed = False
    points = 0
    for piece in (chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT, chess.PAWN):
        lead = len(board.pieces(piece, chess.WHITE)) - len(board.pieces(piece, chess.BLACK))
        then = len(was.pieces(piece, chess.WHITE)) - len(was.pieces(piece, chess.BLACK))
        changed = changed or lead != then
        points += lead * _WORTH.get(piece, 1)
        if lead:
            more[lead > 0].append(_counted(abs(lead), chess.piece_name(piece)))
    if not changed:
        return
    key = ("account", *(str(more[side]) for side in chess.COLORS))
    if more[True] and more[False]:
        if {*more[True], *more[False]} == {"a bishop", "a knight"}:
            return  # told with the pair of bishops
        ahead = more[points > 0] if points else more[True]
        side = points > 0 if points else True
        yield Remark(
            ply=ply,
            weight=4,
            words=f"{who(side)} has {listed(ahead)} for {listed(more[not side])}.",
            key=key,
        )
    elif more[True] or more[False]:
        side = bool(more[True])
        yield Remark(
            ply=ply,
            weight=3,
            words=f"{who(side)} is {listed(more[side])} ahead.",
            key=key,
        )
    else:
        yield Remark(ply=ply, weight=2, words="The material is level again.", key=key)
