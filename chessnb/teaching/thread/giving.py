"""What is given up and what is forced, as the game shows it: by the rules and its moves alone."""

from __future__ import annotations

import chess

from chessnb.board.naming import listed, the_piece
from chessnb.board.points import balance
from chessnb.notation import write_line
from chessnb.teaching.thread.attacks import pinned_pieces
from chessnb.teaching.thread.remark import Course, Remark, Remarks, kind, place, upper, who

_MOST_OTHERS = 2
"""So many other replies are told, each with the mate that would answer it."""

_MATES_SOON = 12
"""So many moves before the mate that ends the game what is given up is told."""

_OPENED = 15
"""So many moves, of each side, a piece that goes home is news."""

_CASTLES_SOON = 3
"""So many moves later castling must follow."""

_WHOLE = 6
"""So many pieces, the king counted, must be there still."""

_HOME = {chess.WHITE: chess.BB_RANK_1, chess.BLACK: chess.BB_RANK_8}

_RUN = 3
"""So many moves in turn, each the only legal one, make a run."""

_DECIDED = 3
"""With so many points more or less a pawn is no gift (common practice, no source)."""

_GIFTS_UNTIL = 50
"""Later a pawn is lost more often than given, and nobody can tell which by the rules."""

_CHOICE = 4
"""Who has fewer moves gives nothing."""

_AFTERWARDS = (3, 5)
"""What is given up is still missing after so many moves, of either side, and was not had back."""


def giving_remarks(course: Course, ply: int) -> Remarks:
    """Yield pawns given up, mates that other replies would have met, runs of forced moves."""
    yield from _gives_up(course, ply)
    yield from _gives_piece(course, ply)
    yield from _goes_home(course, ply)
    yield from _clears_for_castling(course, ply)
    yield from _other_replies(course, ply)
    yield from _forced_run(course, ply)
    yield from _attacks_pinned(course, ply)


def _gives_up(course: Course, ply: int) -> Remarks:
    """Yield a pawn that the next move takes, and that is not had back."""
    last = ply + _AFTERWARDS[-1]
    if not course.takes(ply + 1) or last > len(course.moves):
        return
    side, board = course.side(ply), course.after(ply)
    square = course.move(ply + 1).to_square
    pawn = board.piece_at(square)
    if pawn is None or pawn.piece_type != chess.PAWN or board.is_check():
        return
    if ply > _GIFTS_UNTIL or course.before(ply).legal_moves.count() < _CHOICE:
        return
    had = balance(course.before(ply), side)
    if course.takes(ply - 1) and course.move(ply - 1).to_square == course.move(ply).to_square:
        had = balance(board, side)  # it takes back first
    later = [balance(course.after(ply + one), side) for one in _AFTERWARDS]
    if abs(had) >= _DECIDED or any(one != had - 1 for one in later):
        return
    if ply > 2 and balance(course.before(ply - 2), side) <= later[0]:
        return  # the other side takes back what it gave before
    yield Remark(
        ply=ply,
        weight=4,
        words=f"{who(side)} gives up the pawn on {place(square)}.",
        key=("gives", side, ply),
        until=ply + 1,
    )


def _gives_piece(course: Course, ply: int) -> Remarks:
    """Yield a piece that is put where the next move takes it, where the giver mates soon."""
    side, square = course.side(ply), course.move(ply).to_square
    if not course.takes(ply + 1) or course.move(ply + 1).to_square != square:
        return
    end = course.boards[-1]
    if not end.is_checkmate() or end.turn == side or len(course.moves) - ply > _MATES_SOON:
        return
    later = course.after(min(ply + 2, len(course.moves)))
    if balance(later, side) > balance(course.before(ply), side) - 2:
        return
    had = course.before(ply).piece_type_at(square)
    in_return = f" for the {chess.piece_name(had)}" if had else ""
    words = f"{who(side)} gives up the {kind(course.after(ply), square)} on {place(square)}"
    yield Remark(
        ply=ply,
        weight=5,
        words=f"{words}{in_return}.",
        key=("gives piece", side, ply),
        until=ply + 1,
    )


def _goes_home(course: Course, ply: int) -> Remarks:
    """Yield a piece that goes back to where it began, and what is left in play."""
    side, board, move = course.side(ply), course.after(ply), course.move(ply)
    homes = {one: chess.Board().piece_at(one) for one in chess.SquareSet(_HOME[side])}
    is_late = ply > 2 * _OPENED or course.boards[0].fullmove_number > 1
    if is_late or course.takes(ply) or board.piece_at(move.to_square) != homes.get(move.to_square):
        return
    if board.piece_type_at(move.to_square) not in (chess.KNIGHT, chess.BISHOP, chess.QUEEN):
        return
    if len(chess.SquareSet(board.occupied_co[side] & ~board.pawns)) < _WHOLE:
        return
    out = [
        one
        for one in chess.SquareSet(board.occupied_co[side] & ~board.pawns & ~board.kings)
        if homes.get(one) != board.piece_at(one)
    ]
    if len(out) > 1:
        return
    piece = kind(board, move.to_square)
    left = f"only {the_piece(board, out[0])} is" if out else "no piece is"
    yield Remark(
        ply=ply,
        weight=5,
        words=f"The {piece} goes home to {place(move.to_square)}: of {who(side)}'s pieces {left} "
        "still in play.",
        key=("home", side, move.to_square),
    )


def _clears_for_castling(course: Course, ply: int) -> Remarks:
    """Yield the move that clears the last square between king and rook, where castling follows."""
    side, before, move = course.side(ply), course.before(ply), course.move(ply)
    home = chess.BB_RANK_1 if side else chess.BB_RANK_8
    king = before.king(side)
    if king is None or not chess.BB_SQUARES[move.from_square] & home or move.from_square == king:
        return
    for later in course.own(ply, _CASTLES_SOON):
        at = course.before(later)
        castled = course.move(later)
        if not at.is_castling(castled):
            continue
        if at.is_kingside_castling(castled):
            return  # everybody does
        rook = chess.square(0, chess.square_rank(king))
        between = chess.SquareSet(chess.between(king, rook))
        stands = between & course.after(ply).occupied
        if move.from_square not in between or stands:
            return
        yield Remark(
            ply=ply,
            weight=3,
            words=f"The {kind(before, move.from_square)} has left {place(move.from_square)}, and "
            f"the way is clear: {who(side)} castles queenside at move {course.number(later)}.",
            key=("clears castling", side),
            until=later,
        )
        return


def _other_replies(course: Course, ply: int) -> Remarks:
    """Yield the mates that would have met the other replies to a check."""
    before, move = course.before(ply), course.move(ply)
    if not before.is_check():
        return
    others = [one for one in before.legal_moves if one != move]
    if not 1 <= len(others) <= _MOST_OTHERS:
        return
    lines = []
    for other in others:
        after = before.copy(stack=False)
        after.push(other)
        mate = next((one for one in list(after.legal_moves) if _is_mate(after, one)), None)
        if mate is None:
            return
        lines.append(write_line(before, (other, mate)))
    answered = "the other legal move is" if len(lines) == 1 else "the other legal moves are"
    yield Remark(
        ply=ply,
        weight=5,
        words=f"Forced: {answered} answered by mate, {listed(lines)}.",
        key=("other", ply),
    )


def _is_mate(board: chess.Board, move: chess.Move) -> bool:
    if not board.gives_check(move):
        return False
    after = board.copy(stack=False)
    after.push(move)
    return after.is_checkmate()


def _forced_run(course: Course, ply: int) -> Remarks:
    """Yield, at its end, that a side had one legal move each time."""

    def is_forced(at: int) -> bool:
        return at in course.plies and course.before(at).legal_moves.count() == 1

    if not is_forced(ply) or is_forced(ply + 2):
        return
    first = ply
    while is_forced(first - 2):
        first -= 2
    if (ply - first) // 2 + 1 < _RUN:
        return
    side, begun = course.side(ply), write_line(course.before(first), (course.move(first),))
    yield Remark(
        ply=ply,
        weight=5,
        words=f"Since {begun} each of {who(side)}'s moves was the only legal one.",
        key=("forced", side, first),
    )


def _attacks_pinned(course: Course, ply: int) -> Remarks:
    """Yield a pinned piece that the move attacks once more."""
    before, board, side = course.before(ply), course.after(ply), course.side(ply)
    if board.is_check() or course.takes(ply):
        return
    known = pinned_pieces(before, side)
    for pinned, pinner in sorted(pinned_pieces(board, side).items()):
        if known.get(pinned) != pinner:
            continue  # the pin itself is the news
        new = board.attackers(side, pinned) - before.attackers(side, pinned)
        taken = course.takes(ply + 1) and course.move(ply + 1).to_square in (*new, pinned, pinner)
        if len(new) != 1 or taken:
            continue
        (attacker,) = new
        words = f"{the_piece(board, attacker)} now attacks the pinned {kind(board, pinned)} on "
        yield Remark(
            ply=ply,
            weight=4,
            words=f"{upper(words)}{place(pinned)} as well.",
            key=("attacks pinned", side, pinned, attacker),
        )
