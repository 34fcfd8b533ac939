"""Plans, as the moves that followed show them: journeys, pawns that prepare, files, retreats."""

from __future__ import annotations

import chess

from chessnb.board.naming import NUMBERS, listed, the_piece
from chessnb.facts._pawns import on_file
from chessnb.teaching.thread.remark import Course, Remark, Remarks, kind, place, who

AHEAD = 4
"""Uses are looked for in so many further moves of the side."""

_LONGER = 6
"""A journey may take so many moves of the side."""


def plan_remarks(course: Course, ply: int) -> Remarks:
    """Yield what a move began, as the game went on."""
    yield from _journey(course, ply)
    yield from _pawn_prepares(course, ply)
    yield from _drives(course, ply)
    yield from _file(course, ply)
    yield from _makes_way(course, ply)
    yield from _hunt(course, ply)


def _journey(course: Course, ply: int) -> Remarks:
    """Yield where a piece is going, at the first move of its way."""
    move, before = course.move(ply), course.before(ply)
    piece = before.piece_type_at(move.from_square)
    if piece not in (chess.KNIGHT, chess.BISHOP, chess.ROOK, chess.KING) or course.takes(ply):
        return
    if before.is_castling(move) or (before.is_check() and piece != chess.KING):
        return
    if _began_earlier(course, ply):
        return
    way, arrived, quiet = [move.from_square, move.to_square], ply, 1
    for at in course.own(ply, _LONGER):
        one = course.move(at)
        if course.move(at - 1).to_square == way[-1]:
            break  # it was taken there
        if one.from_square != way[-1]:
            if at - arrived >= 4:
                break
            continue
        if one.to_square in way:
            break
        way.append(one.to_square)
        arrived = at
        if course.takes(at):
            break
        if piece != chess.KING and course.before(at).is_check():
            break
        quiet += 1
    if len(way) < 3 or way[-1] in way[:-1]:
        return
    if not _is_worth(piece, way, course, ply) or (len(way) == 3 and course.takes(arrived)):
        return
    side = who(course.side(ply))
    by = listed([place(square) for square in way[1:-1]])
    end = f"takes on {place(way[-1])}" if course.takes(arrived) else f"comes to {place(way[-1])}"
    if piece == chess.KING:
        sets = "is driven out" if before.is_check() else "sets out"
        words = f"{side}'s king {sets}: by {by} it {end} at move {course.number(arrived)}."
    else:
        words = (
            f"{side}'s {chess.piece_name(piece)} sets out from {place(way[0])}: by {by} it {end} "
            f"at move {course.number(arrived)}."
        )
    weight, key = 5 if len(way) > 3 else 4, ("journey", course.side(ply), arrived)
    yield Remark(ply=ply, weight=weight, words=words, key=key, until=arrived)
    if not course.takes(arrived):  # for where the way must not be told in advance
        words = f"{side}'s {chess.piece_name(piece)} has gone from {place(way[0])} by {by} to "
        words += f"{place(way[-1])}."
        yield Remark(ply=arrived, weight=weight - 1, words=words, key=key)


def _began_earlier(course: Course, ply: int) -> bool:
    """Tell whether the side's last move was a quiet one of the same piece."""
    back = ply - 2
    if back < 1 or course.takes(back) or course.before(back).is_castling(course.move(back)):
        return False
    return course.move(back).to_square == course.move(ply).from_square


def _is_worth(piece: chess.PieceType, way: list[chess.Square], course: Course, ply: int) -> bool:
    """Tell whether a way is a plan: not two steps of a piece that is just driven about."""
    if piece == chess.KING:
        return len(way) > 3
    if piece == chess.ROOK:
        files = {chess.square_file(square) for square in way}
        forward = chess.square_rank(way[-1]) - chess.square_rank(way[0])
        return len(files) > 1 and (forward if course.side(ply) else -forward) >= 2
    if piece == chess.BISHOP:
        first = chess.square_rank(way[1]) - chess.square_rank(way[0])
        return len(way) > 3 or (ply > 16 and (first if course.side(ply) else -first) < 0)
    return len(way) > 3 or ply > 16


def _pawn_prepares(course: Course, ply: int) -> Remarks:
    """Yield a pawn's move that guards the square to which another pawn goes soon."""
    move, board, side = course.move(ply), course.after(ply), course.side(ply)
    square = move.to_square
    if board.piece_type_at(square) != chess.PAWN or course.takes(ply) or ply < 10:
        return
    guarded = board.attacks(square) - course.before(ply).attacks(move.from_square)
    for at in course.own(ply, AHEAD):
        later = course.move(at)
        before = course.before(at)
        mover = before.piece_type_at(later.from_square)
        if before.piece_at(square) != chess.Piece(chess.PAWN, side):
            if later.from_square == square and mover == chess.PAWN:
                pass
            else:
                return
        if mover != chess.PAWN:
            continue
        if later.to_square in guarded and not course.takes(at):
            yield Remark(
                ply=ply,
                weight=4,
                words=f"The pawn on {place(square)} prepares {place(later.to_square)}: it guards "
                f"that square, and the pawn goes there at move {course.number(at)}.",
                key=("prepares", side, later.to_square),
                until=at,
            )
            return
        if later.from_square == square:
            how = "takes on" if course.takes(at) else "goes on to"
            if _is_storm(course, ply, at) and (ply > 20 or not course.takes(at)):
                yield Remark(
                    ply=ply,
                    weight=3,
                    words=f"The {place(square)[0]}-pawn sets out: it {how} "
                    f"{place(later.to_square)} at move {course.number(at)}.",
                    key=("storm", side, chess.square_file(square)),
                    until=at,
                )
            return


def _is_storm(course: Course, ply: int, at: int) -> bool:
    """Tell whether a pawn's second step brings it into the other half of the board."""
    square, side = course.move(at).to_square, course.side(ply)
    rank = chess.square_rank(square) if side else 7 - chess.square_rank(square)
    return rank >= 4


def _drives(course: Course, ply: int) -> Remarks:
    """Yield a quiet move that attacks a piece, which then goes away."""
    board, move, side = course.after(ply), course.move(ply), course.side(ply)
    if board.is_check() or ply + 1 not in course.plies or course.takes(ply + 1):
        return
    answer = course.move(ply + 1)
    piece = board.piece_type_at(answer.from_square)
    mover = board.piece_type_at(move.to_square)
    assert piece is not None
    assert mover is not None
    if course.after(ply + 1).is_check():
        return
    if piece in (chess.PAWN, chess.KING) or answer.from_square not in board.attacks(move.to_square):
        return
    if mover != chess.PAWN and not (piece > mover and piece != chess.BISHOP):
        return
    rank = chess.square_rank(answer.to_square)
    home = rank == (7 if side else 0) and piece != chess.QUEEN
    how = "back to" if home else "to"
    name = chess.piece_name(mover)
    stays = home and all(
        course.move(at).from_square != answer.to_square
        for at in range(ply + 3, len(course.moves) + 1, 2)
    )
    never = (
        ", and it does not move again in the game" if stays and ply + 8 < len(course.moves) else ""
    )
    yield Remark(
        ply=ply + 1,
        weight=5 if never else 3 if home else 1 if ply <= 16 else 2 + (mover == chess.PAWN),
        words=f"The {name} on {place(move.to_square)} has driven the {chess.piece_name(piece)} "
        f"from {place(answer.from_square)} {how} {place(answer.to_square)}{never}.",
        key=("drives", ply),
    )


def _file(course: Course, ply: int) -> Remarks:
    """Yield that a side's heavy pieces come to one file."""
    board, move, side = course.after(ply), course.move(ply), course.side(ply)
    square = move.to_square
    if board.piece_type_at(square) not in (chess.ROOK, chess.QUEEN) or course.takes(ply):
        return
    file = on_file(square)
    if board.pieces(chess.PAWN, side) & file:
        return
    enemies = file & board.pieces(chess.PAWN, not side)
    heavy = file & (board.pieces(chess.ROOK, side) | board.pieces(chess.QUEEN, side))
    letter = chess.FILE_NAMES[chess.square_file(square)]
    if course.takes(ply + 1) and course.move(ply + 1).to_square == square:
        return
    if len(heavy) > 1 and chess.square_file(move.from_square) != chess.square_file(square):
        names = listed([kind(board, one) + " on " + place(one) for one in heavy])
        what = "open" if not enemies else "half-open"
        target = ""
        if enemies:
            target = f", against the pawn on {place(min(enemies))}" if len(enemies) == 1 else ""
        yield Remark(
            ply=ply,
            weight=4,
            words=f"{who(side)} has brought a second heavy piece to the {what} {letter}-file: "
            f"{names}{target}.",
            key=("two on file", side, letter),
        )
    elif (
        not enemies
        and ply > 14
        and chess.square_file(move.from_square) != chess.square_file(square)
    ):
        later = [
            at
            for at in course.own(ply, AHEAD)
            if chess.square_file(course.move(at).to_square) == chess.square_file(square)
            and course.before(at).piece_type_at(course.move(at).from_square)
            in (chess.ROOK, chess.QUEEN)
        ]
        if later:
            yield Remark(
                ply=ply,
                weight=2 if board.queens else 1,
                words=f"{who(side)}'s {kind(board, square)} takes the open {letter}-file.",
                key=("takes file", side, letter),
            )


def _makes_way(course: Course, ply: int) -> Remarks:
    """Yield a piece that leaves a square or line, and another that uses it soon."""
    move, before, side = course.move(ply), course.before(ply), course.side(ply)
    piece = before.piece_type_at(move.from_square)
    if ply < 14 or piece is None or before.is_castling(move) or before.is_check():
        return
    if course.takes(ply) or course.after(ply).is_check():
        return
    left = move.from_square
    for at in course.own(ply, 3):
        later = course.move(at)
        board = course.before(at)
        if board.is_castling(later) or board.piece_at(left) is not None:
            return
        mover = board.piece_type_at(later.from_square)
        assert mover is not None
        if later.from_square == move.to_square:
            return
        if later.to_square == left and mover in (
            chess.KNIGHT,
            chess.BISHOP,
            chess.QUEEN,
            chess.PAWN,
        ):
            how = "makes way for"
            after = at
            onward = [one for one in course.own(at, 2) if course.move(one).from_square == left]
            end = ""
            if onward and mover != chess.PAWN:
                end = f" and is on {place(course.move(onward[0]).to_square)} at move "
                end += str(course.number(onward[0]))
                after = onward[0]
            yield Remark(
                ply=ply,
                weight=4 if end else 1 if piece == chess.PAWN else 3,
                words=f"The {chess.piece_name(piece)} leaves {place(left)} and {how} the "
                f"{chess.piece_name(mover)}, which goes there at move {course.number(at)}{end}.",
                key=("makes way", side, left),
                until=after,
            )
            return
        if left in chess.SquareSet(chess.between(later.from_square, later.to_square)):
            if board.piece_at(later.from_square) != before.piece_at(later.from_square):
                return
            rank = chess.square_rank(later.to_square)
            out = rank >= 2 if side else rank <= 5
            if out and mover in (chess.BISHOP, chess.ROOK, chess.QUEEN):
                yield Remark(
                    ply=ply,
                    weight=3,
                    words=f"The {chess.piece_name(piece)} opens the way for "
                    f"{the_piece(board, later.from_square)}, which goes to "
                    f"{place(later.to_square)} at move {course.number(at)}.",
                    key=("opens way", side, left),
                    until=at,
                )
                return


_HUNT = 4
"""So many checks in a row, each of them answered by the king's move but one, are a hunt."""


def _hunt(course: Course, ply: int) -> Remarks:
    """Yield a run of checks that drives the king about, at its first move and at its last."""
    if not course.after(ply).is_check() or (ply > 2 and course.after(ply - 2).is_check()):
        return
    side = course.side(ply)
    checks = [ply]
    for at in course.own(ply, len(course.moves)):
        if not course.after(at).is_check():
            break
        checks.append(at)
    begin, end = course.after(ply).king(not side), course.boards[-1].king(not side)
    if checks[-1] + 1 in course.plies:
        end = course.after(checks[-1] + 1).king(not side)
    assert begin is not None
    assert end is not None
    if len(checks) < _HUNT or chess.square_distance(begin, end) < 3:
        return
    key = ("hunt", ply)
    drive = f"the king is driven from {place(begin)} to {place(end)}"
    yield Remark(
        ply=ply,
        weight=6,
        words=f"From here {who(side)} gives check {_times(len(checks))} times in a row: {drive}.",
        key=key,
        until=min(checks[-1] + 1, len(course.moves)),
    )
    last = min(checks[-1] + 1, len(course.moves))
    drive = drive.replace("is driven", "has been driven")
    yield Remark(
        ply=last,
        weight=5,
        words=f"{who(side)} has given check {_times(len(checks))} times in a row: {drive}.",
        key=key,
    )


def _times(number: int) -> str:
    return NUMBERS[number] if number < len(NUMBERS) else str(number)
