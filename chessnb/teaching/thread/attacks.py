"""What stands on the board after a move: double attacks, pins, threats, pieces that gather."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import chess

from chessnb.board.exchange import gain_on
from chessnb.board.naming import listed, the_piece
from chessnb.board.points import POINTS
from chessnb.board.turns import after_pass
from chessnb.facts._pawns import structure
from chessnb.teaching.thread.remark import Course, Remark, Remarks, kind, place, upper, who

_GATHERED = 3
"""So many pieces that look at one square beside the king are told."""

_LINES = (chess.BISHOP, chess.ROOK, chess.QUEEN)


def attack_remarks(course: Course, ply: int) -> Remarks:
    """Yield what a move attacks, pins and threatens."""
    board = course.after(ply)
    if board.is_game_over():
        return
    yield from _attacked(course, ply)
    yield from _pins(course, ply)
    yield from _mate_threat(course, ply)
    yield from _gathers(course, ply)
    yield from _aims(course, ply)
    yield from _presses(course, ply)
    yield from _left(course, ply)


def targets(board: chess.Board, side: chess.Color) -> dict[chess.Square, int]:
    """Return the enemy pieces and pawns that a side would win by an exchange, if it may begin."""
    if board.turn != side:
        passed = after_pass(board)
        if passed is None:
            return {}
        board = passed
    found = {}
    for square in chess.SquareSet(board.occupied_co[not side] & ~board.kings):
        if board.is_attacked_by(side, square) and (gain := gain_on(board, square)) > 0:
            found[square] = gain
    return found


def _attacked(course: Course, ply: int) -> Remarks:
    """Yield two things that a piece attacks at once, or one that a line is opened to."""
    before, board, move = course.before(ply), course.after(ply), course.move(ply)
    side, square = course.side(ply), move.to_square
    if board.is_check():
        yield from _check_and(course, ply)
        return
    now, then = targets(board, side), targets(before, side)
    fresh = {one: gain for one, gain in now.items() if then.get(one, 0) < gain}
    yield from _opened(course, ply, fresh)
    if gain_on(board, square) > 0:
        return  # the piece itself can be taken with profit
    if before.is_check() and square == board.king(side):
        return  # it only runs
    through = [one for one in fresh if _looks_through(board, square, one)]
    mine = [one for one in now if square in board.attackers(side, one) or one in through]
    new = [one for one in mine if one in fresh]
    piece = kind(board, square)
    if len(mine) >= 2 and new:
        mine.sort(key=lambda one: -POINTS[board.piece_type_at(one) or chess.PAWN])
        pieces = [one for one in mine if board.piece_type_at(one) != chess.PAWN]
        weight = 5 if pieces else 4
        yield Remark(
            ply=ply,
            weight=weight,
            words=f"The {piece} on {place(square)} attacks {_several(board, mine)} at once"
            f"{_by_way(board, square, through)}.",
            key=("double", ply),
        )
    elif new and new[0] not in through and piece != "pawn":
        one = new[0]
        if board.piece_type_at(one) == chess.PAWN:
            yield Remark(
                ply=ply,
                weight=2 if ply > 12 else 1,
                words=f"The {piece} on {place(square)} attacks the pawn on {place(one)}.",
                key=("attacks", side, one),
            )
        else:
            yield Remark(
                ply=ply,
                weight=3,
                words=f"The {piece} on {place(square)} attacks {the_piece(board, one)}.",
                key=("attacks", ply),
            )


def _looks_through(board: chess.Board, square: chess.Square, target: chess.Square) -> bool:
    """Tell whether a queen looks along a diagonal at a target through a bishop of its own."""
    if board.piece_type_at(square) != chess.QUEEN or not _on_line(chess.BISHOP, square, target):
        return False
    between = chess.SquareSet(chess.between(square, target)) & board.occupied
    own = board.pieces(chess.BISHOP, bool(board.color_at(square)))
    return len(between) == 1 and not between - own


def _by_way(board: chess.Board, square: chess.Square, through: list[chess.Square]) -> str:
    """Say through which piece a target is attacked."""
    if not through:
        return ""
    (bishop,) = chess.SquareSet(chess.between(square, through[0])) & board.occupied
    return f", {place(through[0])} together with {the_piece(board, bishop)}"


def _opened(course: Course, ply: int, fresh: Iterable[chess.Square]) -> Remarks:
    """Yield the piece behind, whose line the move opens to an enemy piece."""
    before, board, move = course.before(ply), course.after(ply), course.move(ply)
    side, square = course.side(ply), move.to_square
    for one in fresh:
        behind = [
            line
            for line in board.attackers(side, one) - before.attackers(side, one)
            if line != square
            and board.piece_type_at(line) in _LINES
            and move.from_square in chess.SquareSet(chess.between(line, one))
        ]
        if behind and board.piece_type_at(one) != chess.PAWN:
            yield Remark(
                ply=ply,
                weight=5,
                words=f"The move opens the line of {the_piece(board, behind[0])}, which now "
                f"attacks {the_piece(board, one)}.",
                key=("opened", ply),
            )


def _several(board: chess.Board, squares: list[chess.Square]) -> str:
    if all(board.piece_type_at(one) == chess.PAWN for one in squares):
        return f"the pawns on {listed([place(one) for one in sorted(squares)])}"
    return listed([the_piece(board, one) for one in squares[:3]])


def _check_and(course: Course, ply: int) -> Remarks:
    """Yield double checks, and checks that attack something else as well."""
    board, square, side = course.after(ply), course.move(ply).to_square, course.side(ply)
    checkers = board.checkers()
    if len(checkers) == 2:
        names = listed([the_piece(board, one) for one in checkers])
        yield Remark(
            ply=ply,
            weight=6,
            words=f"Double check: {names} give check together, and only the king can move.",
            key=("double check", ply),
        )
        return
    if square not in checkers or gain_on(board, square) > 0:
        return
    loose = [
        one
        for one in board.attacks(square) & board.occupied_co[not side] & ~board.kings
        if (not board.attackers(not side, one) and board.piece_type_at(one) != chess.PAWN)
        or POINTS[board.piece_type_at(one) or chess.PAWN] > POINTS[board.piece_type_at(square) or 1]
    ]
    if loose:
        yield Remark(
            ply=ply,
            weight=5,
            words=f"The {kind(board, square)} gives check and attacks "
            f"{listed([the_piece(board, one) for one in loose])} as well.",
            key=("check and", ply),
        )


def _pins(course: Course, ply: int) -> Remarks:
    """Yield pins to king or queen that are new, whoever made the move."""
    before, board = course.before(ply), course.after(ply)
    for side in (course.side(ply), not course.side(ply)):
        known = set(_pinned(before, side))
        for pinner, pinned, rear in _pinned(board, side):
            if (pinner, pinned, rear) in known:
                continue
            if course.takes(ply + 1) and course.move(ply + 1).to_square in (pinner, pinned):
                continue
            to = kind(board, rear)
            yield Remark(
                ply=ply,
                weight=2 if ply <= 10 else 4 if to == "king" else 3,
                words=f"The {kind(board, pinner)} on {place(pinner)} pins "
                f"{the_piece(board, pinned)} to the {to} on {place(rear)}.",
                key=("pin", side, pinned, rear),
            )


def pinned_pieces(board: chess.Board, side: chess.Color) -> dict[chess.Square, chess.Square]:
    """Return the enemy pieces that a side pins to king or queen, each with what pins it."""
    return {pinned: pinner for pinner, pinned, _ in _pinned(board, side)}


def _pinned(
    board: chess.Board, side: chess.Color
) -> Iterator[tuple[chess.Square, chess.Square, chess.Square]]:
    """Yield a side's line pieces with the enemy piece before them and what stands behind it."""
    rears = board.pieces(chess.QUEEN, not side) | board.pieces(chess.KING, not side)
    for rear in rears:
        for piece in _LINES:
            for pinner in board.pieces(piece, side):
                if not _on_line(piece, pinner, rear):
                    continue
                between = chess.SquareSet(chess.between(pinner, rear)) & board.occupied
                if len(between) != 1:
                    continue
                (pinned,) = between
                if board.color_at(pinned) == side:
                    continue
                front = board.piece_type_at(pinned)
                is_queen = board.piece_type_at(rear) == chess.QUEEN
                if front in (chess.PAWN, chess.KING) or (
                    is_queen and (piece == chess.QUEEN or front == chess.QUEEN)
                ):
                    continue
                if front == piece:  # it can take what pins it
                    continue
                yield pinner, pinned, rear


def _on_line(piece: chess.PieceType, one: chess.Square, other: chess.Square) -> bool:
    straight = chess.square_file(one) == chess.square_file(other) or chess.square_rank(
        one
    ) == chess.square_rank(other)
    if piece == chess.QUEEN:
        return bool(chess.ray(one, other))
    return bool(chess.ray(one, other)) and straight == (piece == chess.ROOK)


def _mate_threat(course: Course, ply: int) -> Remarks:
    """Yield that a move threatens mate on the next, on a square where there was none before."""
    side = course.side(ply)
    passed = after_pass(course.after(ply))
    if passed is None or ply == len(course.moves) or course.before(ply).is_check():
        return
    now = _mates(passed)
    fresh = sorted(now - _mates(course.before(ply))) if now else []
    if fresh:
        yield Remark(
            ply=ply,
            weight=5,
            words=f"{who(side)} threatens mate on {place(fresh[0])}.",
            key=("mate threat", side, fresh[0]),
        )


def _mates(board: chess.Board) -> set[chess.Square]:
    """Return the squares on which the side to move mates at once."""
    found = set()
    for move in list(board.legal_moves):
        if board.gives_check(move):
            after = board.copy(stack=False)
            after.push(move)
            if after.is_checkmate():
                found.add(move.to_square)
    return found


def _gathers(course: Course, ply: int) -> Remarks:
    """Yield that one piece more looks at a square beside the enemy king, and how many do."""
    before, board, side = course.before(ply), course.after(ply), course.side(ply)
    king, square = board.king(not side), course.move(ply).to_square
    if king is None or not board.pieces(chess.QUEEN, side) or ply < 14:
        return
    if course.takes(ply + 1) and course.move(ply + 1).to_square == square:
        return
    for near in board.attacks(king):
        if board.color_at(near) == side:
            continue
        lookers = [
            one
            for one in board.attackers(side, near)
            if board.piece_type_at(one) not in (chess.PAWN, chess.KING)
        ]
        if len(lookers) < _GATHERED or len(lookers) <= len(before.attackers(side, near)):
            continue
        if square in lookers:
            names = listed([the_piece(board, one)[4:] for one in lookers])
            yield Remark(
                ply=ply,
                weight=4,
                words=f"{upper(names)} all look at {place(near)}, beside the king.",
                key=("gather", side, near),
            )
            return


def _aims(course: Course, ply: int) -> Remarks:
    """Yield that both bishops stand on diagonals that lead to the castled king."""
    board, move, side = course.after(ply), course.move(ply), course.side(ply)
    king, bishops = board.king(not side), board.pieces(chess.BISHOP, side)
    if king is None or len(bishops) != 2 or ply < 8 or not board.queens:
        return
    back = chess.square_rank(king) == (7 if side else 0)
    if not back or chess.square_file(king) in (3, 4):
        return
    pawns = board.pieces(chess.PAWN, side)
    near = chess.SquareSet(chess.BB_KING_ATTACKS[king]) | {king}
    aims = all(
        any(
            _on_line(chess.BISHOP, bishop, one)
            and not chess.SquareSet(chess.between(bishop, one)) & pawns
            for one in near
        )
        for bishop in bishops
    )
    if aims and move.to_square not in board.pieces(chess.KING, side):
        names = listed([place(one) for one in bishops])
        yield Remark(
            ply=ply,
            weight=3,
            words=f"The bishops on {names} both aim at {who(not side)}'s king on {place(king)}.",
            key=("aims", side),
        )


def _presses(course: Course, ply: int) -> Remarks:
    """Yield a piece that comes to attack a weak pawn, or the square before a backward one."""
    before, board, side = course.before(ply), course.after(ply), course.side(ply)
    square = course.move(ply).to_square
    if board.piece_type_at(square) in (chess.PAWN, chess.KING) or ply < 14:
        return
    later = course.after(min(ply + 3, len(course.moves)))
    if later.piece_at(square) != board.piece_at(square) or board.is_check():
        return
    weak = structure(board, not side)
    now = board.attacks(square)
    then = before.attacks(course.move(ply).from_square)
    name = kind(board, square)
    for what in ("backward", "isolated", "doubled"):
        for pawn in map(chess.parse_square, getattr(weak, what)):
            if place(pawn)[0] in "ah" and board.queens:
                continue
            stop = pawn + (8 if not side else -8)
            if pawn in now and pawn not in then:
                words = f"The {name} on {place(square)} attacks the {what} pawn on {place(pawn)}."
                yield Remark(ply=ply, weight=3, words=words, key=("presses", side, pawn, name))
                return
            if what == "backward" and stop in now and stop not in then and name == "knight":
                words = f"The knight on {place(square)} watches {place(stop)}, before the backward "
                words += f"pawn on {place(pawn)}."
                yield Remark(ply=ply, weight=3, words=words, key=("watches", side, stop))
                return


def _left(course: Course, ply: int) -> Remarks:
    """Yield a pawn that could be taken with profit by the exchange, and was not."""
    before, side = course.before(ply), course.side(ply)
    if before.is_check() or course.takes(ply) or course.after(ply).is_check():
        return
    for square, gain in targets(before, side).items():
        if gain < 1:
            continue
        if before.attackers(not side, square):
            continue
        still = targets(course.after(ply), side)
        takers = [
            one
            for one in before.attackers(side, square)
            if chess.Move(one, square) in before.legal_moves
        ]
        if not takers:
            continue
        is_pawn = before.piece_type_at(square) == chess.PAWN
        idle = is_pawn and not 10 < ply <= 30
        later = [at for at in course.own(ply, 1) if course.move(at).to_square == square]
        if later or (square in still and square in board_gone(course, ply)):
            continue
        yield Remark(
            ply=ply,
            weight=1 if before.piece_type_at(takers[0]) == chess.PAWN or idle else 3,
            words=f"{who(side)} does not take {the_piece(before, square)} with "
            f"{the_piece(before, takers[0])}, though nothing guards it.",
            key=("left pawn", side) if is_pawn else ("left", side, square),
        )
        return


def board_gone(course: Course, ply: int) -> set[chess.Square]:
    """Return the squares that the side takes on with its next move."""
    return {course.move(at).to_square for at in course.own(ply, 1) if course.takes(at)}
