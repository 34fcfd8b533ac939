"""What a move changes for good: pawns, files, outposts, the pair of bishops, the seventh rank."""

from __future__ import annotations

import chess

from chessnb.board.naming import listed
from chessnb.facts._pawns import ahead, beside, on_file, structure
from chessnb.facts._strongpoints import attackable
from chessnb.teaching.thread.remark import Course, Remark, Remarks, kind, place, upper, who

_OPENING = 10
"""In so many moves, of either side, files and squares are not told yet."""


def lasting_remarks(course: Course, ply: int) -> Remarks:
    """Yield what a move changes in the pawns, and where a piece comes to stand."""
    yield from _pawns(course, ply)
    yield from _files(course, ply)
    yield from _advances(course, ply)
    yield from _pair(course, ply)
    yield from _post(course, ply)
    yield from _seventh(course, ply)
    yield from _shuts_in(course, ply)


def _settled(course: Course, ply: int) -> bool:
    """Tell whether nothing is taken by the next move: what stands now stands for a moment."""
    return not course.takes(ply + 1) and ply < len(course.moves)


def _lasts(course: Course, ply: int, square: chess.Square, side: chess.Color) -> bool:
    """Tell whether a pawn stands two moves later where it stands now."""
    later = course.after(min(ply + 4, len(course.moves)))
    return later.piece_at(square) == chess.Piece(chess.PAWN, side)


def _pawns(course: Course, ply: int) -> Remarks:
    """Yield the pawns that are now doubled, isolated, backward or passed, and were not."""
    first = ply - 1 if course.takes(ply) and course.takes(ply - 1) else ply
    was, board = course.before(first), course.after(ply)
    if not _settled(course, ply) or was.pawns == board.pawns:
        return
    for side in chess.COLORS:
        old, new = structure(was, side), structure(board, side)
        for name, weight in (("passed", 5), ("doubled", 3), ("isolated", 3), ("backward", 3)):
            here = [
                square
                for square in getattr(new, name)
                if _lasts(course, ply, chess.parse_square(square), side)
            ]
            before = getattr(old, name)
            files = {square[0] for square in before}
            fresh = [square for square in here if square[0] not in files]
            if name == "backward" and not course.takes(ply):
                fresh = [
                    square
                    for square in fresh
                    if not board.pieces(chess.PAWN, not side) & on_file(chess.parse_square(square))
                ]
            if not fresh or (name != "passed" and ply < _OPENING and not course.takes(ply)):
                continue
            if name == "doubled":
                fresh = [square for square in here if square[0] in {one[0] for one in fresh}]
                if len(fresh) < 2:
                    continue
            if name == "passed":
                weight = _far(fresh, side, queens=bool(board.queens))
            elif name == "isolated" and _is_idle(fresh, side, queens=bool(board.queens)):
                continue
            many = len(fresh) > 1
            article = "" if many else "an " if name == "isolated" else "a "
            yield Remark(
                ply=ply,
                weight=weight,
                words=f"{who(side)} now has {article}{name} pawn{'s' if many else ''} on "
                f"{listed(fresh)}.",
                key=("pawns", name, side, *(square[0] for square in fresh)),
            )
    yield from _centre(course, ply)


def _is_idle(squares: list[str], side: chess.Color, *, queens: bool) -> bool:
    """Tell whether isolated pawns are of no weight yet: at the edge, or not moved, queens on."""
    ranks = [int(square[1]) if side else 9 - int(square[1]) for square in squares]
    return queens and all(
        square[0] in "abgh" or rank == 2 for square, rank in zip(squares, ranks, strict=True)
    )


def _far(squares: list[str], side: chess.Color, *, queens: bool) -> int:
    """Weigh passed pawns by how far they have come."""
    ranks = [int(square[1]) if side else 9 - int(square[1]) for square in squares]
    return 5 if max(ranks) >= 5 else 1 if queens else 3


def _centre(course: Course, ply: int) -> Remarks:
    """Yield that one side has two pawns side by side in the centre, and the other none."""
    board = course.after(ply)
    for side in chess.COLORS:
        own, enemy = board.pieces(chess.PAWN, side), board.pieces(chess.PAWN, not side)
        squares = (chess.D4, chess.E4) if side else (chess.D5, chess.E5)
        theirs = enemy & chess.SquareSet(chess.BB_D4 | chess.BB_E4 | chess.BB_D5 | chess.BB_E5)
        has_it = all(one in own and _lasts(course, ply, one, side) for one in squares)
        if has_it and not theirs and ply >= _OPENING:
            yield Remark(
                ply=ply,
                weight=3,
                words=f"{who(side)} has the centre: pawns on {place(squares[0])} and "
                f"{place(squares[1])}, and no pawn of {who(not side)}'s there.",
                key=("centre", side),
            )


def _files(course: Course, ply: int) -> Remarks:
    """Yield a file that a capture has opened, with what stands on it."""
    first = ply - 1 if course.takes(ply) and course.takes(ply - 1) else ply
    was, board = course.before(first), course.after(ply)
    if not course.takes(ply) or not _settled(course, ply) or not board.rooks:
        return
    for file in range(8):
        mask = chess.BB_FILES[file]
        if not was.pawns & mask or board.pawns & mask:
            continue
        letter = chess.FILE_NAMES[file]
        heavy = [
            f"{who(side)}'s {kind(board, square)} on {place(square)}"
            for side in chess.COLORS
            for square in chess.SquareSet(mask & (board.rooks | board.queens))
            if board.color_at(square) == side
        ]
        rams = [
            (white, white + 8)
            for white in board.pieces(chess.PAWN, chess.WHITE)
            if chess.square_file(white) == 3
            and file in (2, 4, 5)
            and board.piece_at(white + 8) == chess.Piece(chess.PAWN, chess.BLACK)
        ]
        verb = "stands" if len(heavy) == 1 else "stand"
        end = f"; {listed(heavy)} {verb} on it" if heavy else ""
        if rams:
            end += f", and the pawns on {place(rams[0][0])} and {place(rams[0][1])} hold each other"
        yield Remark(
            ply=ply, weight=3, words=f"The {letter}-file is open{end}.", key=("file", letter)
        )


def _advances(course: Course, ply: int) -> Remarks:
    """Yield what a pawn's quiet move does: space, a fixed pawn, a passed pawn's way."""
    board, move, side = course.after(ply), course.move(ply), course.side(ply)
    if board.piece_type_at(move.to_square) != chess.PAWN or course.takes(ply):
        return
    if course.takes(ply + 1) and course.move(ply + 1).to_square == move.to_square:
        return
    square = move.to_square
    rank = chess.square_rank(square) if side else 7 - chess.square_rank(square)
    enemy = board.pieces(chess.PAWN, not side)
    name = place(square)
    if not enemy & (on_file(square) | beside(square)) & ahead(square, side):
        if rank >= 5:
            left = 7 - rank
            words = "one move from a queen" if left == 1 else "two moves from a queen"
            yield Remark(
                ply=ply,
                weight=5 if left == 1 else 4,
                words=f"The passed pawn has come to {name}, {words}.",
                key=("runs", side, name),
            )
        return
    if ply < _OPENING or rank not in (4, 5):
        return
    guarded = board.attackers(side, square) & board.pieces(chess.PAWN, side)
    taken = [place(one) for one in board.attacks(square) if one not in enemy]
    if guarded and len(taken) == 2 and not board.attackers(not side, square) & enemy:
        shut = [
            bishop
            for bishop in board.pieces(chess.BISHOP, not side)
            if _is_shut_in(board, bishop) and not _is_shut_in(course.before(ply), bishop)
        ]
        words = f"The pawn on {name} gains space: {who(not side)}'s pieces cannot use {taken[0]} "
        words += f"or {taken[1]}."
        if shut:
            words = words[:-1] + f", and the bishop on {place(shut[0])} is shut in."
        yield Remark(ply=ply, weight=3, words=words, key=("space", side, name[0]))


def _is_shut_in(board: chess.Board, bishop: chess.Square) -> bool:
    """Tell whether a bishop has hardly a move: pawns of its own stand before it."""
    side = board.color_at(bishop)
    if side is None:
        return False
    free = board.attacks(bishop) - board.occupied_co[side]
    return len(free) <= 2


def _shuts_in(course: Course, ply: int) -> Remarks:
    """Yield a move that leaves a bishop of its own side at home without a move."""
    before, board, side = course.before(ply), course.after(ply), course.side(ply)
    if ply > 24 or course.takes(ply):
        return
    for bishop in board.pieces(chess.BISHOP, side):
        if bishop not in (chess.C1, chess.F1, chess.C8, chess.F8):
            continue
        had = before.attacks(bishop) - before.occupied_co[side]
        has = board.attacks(bishop) - board.occupied_co[side]
        square = course.move(ply).to_square
        is_knight = board.piece_type_at(square) == chess.KNIGHT
        if had and not has and not is_knight and square in board.attacks(bishop):
            yield Remark(
                ply=ply,
                weight=3,
                words=f"The {kind(board, square)} on {place(square)} shuts in the bishop on "
                f"{place(bishop)}.",
                key=("shuts in", bishop),
            )


def _pair(course: Course, ply: int) -> Remarks:
    """Yield that one side alone has both its bishops."""
    if not course.takes(ply) or not _settled(course, ply):
        return
    first = ply - 1 if course.takes(ply - 1) else ply
    was, board = course.before(first), course.after(ply)
    for side in chess.COLORS:
        mine, theirs = board.pieces(chess.BISHOP, side), board.pieces(chess.BISHOP, not side)
        had = was.pieces(chess.BISHOP, not side)
        knight = len(was.pieces(chess.KNIGHT, side)) > len(board.pieces(chess.KNIGHT, side))
        on_one = (
            course.takes(ply - 1) and course.move(ply - 1).to_square == course.move(ply).to_square
        )
        if on_one and len(mine) == 2 and len(theirs) < 2 <= len(had) and knight:
            yield Remark(
                ply=ply,
                weight=3,
                words=f"{who(not side)} has given a bishop for a knight: {who(side)} has the pair "
                "of bishops.",
                key=("pair", side),
            )


def _post(course: Course, ply: int) -> Remarks:
    """Yield a piece that stands where no pawn can drive it away, or before a weak pawn."""
    board, move, side = course.after(ply), course.move(ply), course.side(ply)
    square = move.to_square
    piece = board.piece_type_at(square)
    if piece in (chess.PAWN, chess.KING) or ply < _OPENING:
        return
    if course.takes(ply + 1) and course.move(ply + 1).to_square == square:
        return
    ahead_by = 5 if piece == chess.QUEEN else 3
    later = course.after(min(ply + ahead_by, len(course.moves)))
    stays = later.piece_at(square) == board.piece_at(square)
    rank = chess.square_rank(square) if side else 7 - chess.square_rank(square)
    step = 8 if side else -8
    front = square + step
    said = []
    if stays and piece in (chess.KNIGHT, chess.BISHOP) and rank in (3, 4, 5):
        safe = not attackable(board, square, not side)
        guard = board.attackers(side, square)
        if safe and guard and (rank > 3 or 1 < chess.square_file(square) < 6):
            said.append("a square where no pawn can drive it away")
    if stays and 0 <= front < 64 and rank < 6:
        pawn = board.piece_at(front)
        if pawn == chess.Piece(chess.PAWN, not side):
            theirs = structure(board, not side)
            for name in ("passed", "isolated", "backward"):
                if place(front)[0] in "ah" and name != "passed":
                    continue
                if place(front) in getattr(theirs, name):
                    said.append(f"before the {name} pawn on {place(front)}, which cannot move on")
                    break
    if said:
        words = f"The {kind(board, square)} stands on {place(square)}"
        yield Remark(
            ply=ply,
            weight=4,
            words=f"{words}, {', and '.join(said)}.",
            key=("post", side, square, piece),
        )


def _seventh(course: Course, ply: int) -> Remarks:
    """Yield a rook that comes to the seventh rank, seen from its side."""
    board, move, side = course.after(ply), course.move(ply), course.side(ply)
    square = move.to_square
    rank = chess.square_rank(square) if side else 7 - chess.square_rank(square)
    if board.piece_type_at(square) != chess.ROOK or rank != 6 or ply < 2 * _OPENING:
        return
    if course.takes(ply + 1) and course.move(ply + 1).to_square == square:
        return
    king = board.king(not side)
    assert king is not None
    own = chess.square_rank(king) == (7 if side else 0) and all(
        board.is_attacked_by(side, one) or board.color_at(one) == (not side)
        for one in chess.SquareSet(chess.BB_KING_ATTACKS[king])
        if chess.square_rank(one) == chess.square_rank(square)
    )
    pawns = [
        place(one)
        for one in board.pieces(chess.PAWN, not side)
        if chess.square_rank(one) == chess.square_rank(square)
    ]
    if not own and not pawns:
        return
    says = upper(f"the rook has reached the seventh rank on {place(square)}")
    if not side:
        says = f"Black's rook has reached White's second rank on {place(square)}"
    end = f" and keeps the king on {place(king)} from leaving the last rank" if own else ""
    if own and not side:
        end = f" and keeps the king on {place(king)} from leaving the first rank"
    yield Remark(ply=ply, weight=4, words=f"{says}{end}.", key=("seventh", side))
