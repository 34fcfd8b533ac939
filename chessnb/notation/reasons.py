"""Why a move is not legal, as a teacher would say it.

The rules are those of the FIDE Laws of Chess, article 3; the sentences name
the men and the squares that decide.
"""

from __future__ import annotations

from collections.abc import Callable

import chess

from chessnb.notation.words import SIDES, listed, man

_OFF_ITS_WAY = {
    chess.BISHOP: "a bishop moves along diagonals, and {} is on none of its two",
    chess.ROOK: "a rook moves along files and ranks, and {} is on neither of its two",
    chess.QUEEN: "a queen moves along files, ranks and diagonals, and {} is on none of its own",
    chess.KNIGHT: (
        "a knight moves two squares along a file or rank and one aside, and {} is elsewhere"
    ),
    chess.KING: "a king moves one square, and {} is further away",
}


def why_not(
    board: chess.Board,
    *,
    piece: chess.PieceType | None,
    to_square: chess.Square,
    starts_at: Callable[[chess.Square], bool],
    takes: bool = False,
    promotion: chess.PieceType | None = None,
    names_file: bool = False,
) -> str:
    """Say why no legal move of the side to move fits what a text says.

    Parameters
    ----------
    board : chess.Board
        The position before the move.
    piece : chess.PieceType or None
        The piece that is named; ``None`` where only its square is.
    to_square : chess.Square
        Where it is said to go.
    starts_at : callable
        Tells whether the text allows the piece to stand on a square.
    takes : bool
        Whether the text says that it captures.
    promotion : chess.PieceType or None
        What the pawn is said to become.
    names_file : bool
        Whether the text says where the piece comes from.

    Returns
    -------
    str
        One sentence without a full stop.
    """
    if over := _game_over(board):
        return over
    men = _men_meant(board, piece, starts_at)
    if not men:
        return _no_such_man(board, piece, starts_at, names_file)
    if promotion in (chess.KING, chess.PAWN):
        return f"a pawn cannot become a {chess.piece_name(promotion)}: say Q, R, B or N"
    reasons = [
        (square, _why_this_one(board, square, to_square, takes, promotion)) for square in men
    ]
    if all(board.piece_type_at(square) == chess.PAWN for square in men) and not names_file:
        return _pawn_answer(board, men, to_square, takes, promotion)
    # Of several pieces, speak of the one that comes closest.
    reasons.sort(key=lambda entry: (_distance_from_truth(board, entry[0], to_square), entry[0]))
    square, reason = reasons[0]
    return f"{reason}; {_legal_moves_of(board, square)}"


def _game_over(board: chess.Board) -> str:
    if any(board.legal_moves):
        return ""
    side = SIDES[board.turn]
    if board.is_check():
        return f"{side} has no legal move: it is checkmate"
    return f"{side} has no legal move: it is stalemate"


def _men_meant(
    board: chess.Board, piece: chess.PieceType | None, starts_at: Callable[[chess.Square], bool]
) -> list[chess.Square]:
    men = board.occupied_co[board.turn] if piece is None else board.pieces_mask(piece, board.turn)
    return [square for square in chess.scan_forward(men) if starts_at(square)]


def _no_such_man(
    board: chess.Board,
    piece: chess.PieceType | None,
    starts_at: Callable[[chess.Square], bool],
    names_file: bool,
) -> str:
    side = SIDES[board.turn]
    if piece is None:
        square = next(square for square in chess.SQUARES if starts_at(square))
        if board.color_at(square) is None:
            return f"{chess.square_name(square)} is empty"
        return f"{man(board, square)} is {SIDES[not board.turn]}'s, and it is {side}'s move"
    name = chess.piece_name(piece)
    own = board.pieces(piece, board.turn)
    if own and names_file:
        where = listed(chess.square_name(square) for square in own)
        return f"no {name} of {side} stands there: {_are(name, len(own))} on {where}"
    if not own and board.pieces(piece, not board.turn):
        return f"it is {side}'s move, and {side} has no {name}"
    return f"{side} has no {name}"


def _are(name: str, count: int) -> str:
    return f"the {name} is" if count == 1 else f"the {name}s are"


def _why_this_one(
    board: chess.Board,
    square: chess.Square,
    to_square: chess.Square,
    takes: bool,
    promotion: chess.PieceType | None,
) -> str:
    """Say why the man on a square may not go to another."""
    piece = board.piece_type_at(square)
    mover, goal = man(board, square), chess.square_name(to_square)
    if square == to_square:
        return f"{mover} stands there already"
    if piece == chess.PAWN:
        reason = _pawn_reason(board, square, to_square, takes, promotion)
        if reason:
            return reason
    elif promotion is not None:
        return f"{mover} is no pawn: only a pawn is promoted"
    elif reason := _path_reason(board, square, to_square):
        return f"{mover} cannot reach {goal}: {reason}"
    if takes and board.color_at(to_square) is None and piece != chess.PAWN:
        return f"there is nothing to take on {goal} for {mover}"
    return _king_reason(board, chess.Move(square, to_square, promotion))


def _path_reason(board: chess.Board, square: chess.Square, to_square: chess.Square) -> str:
    """Say what keeps a piece from a square, the safety of its king aside."""
    piece = board.piece_type_at(square)
    assert piece is not None
    assert piece != chess.PAWN
    if not _on_its_way(piece, square, to_square):
        return _OFF_ITS_WAY[piece].format(chess.square_name(to_square))
    if blockers := chess.between(square, to_square) & board.occupied:
        nearest = min(chess.scan_forward(blockers), key=lambda b: chess.square_distance(square, b))
        return f"{man(board, nearest)} is in the way"
    if board.color_at(to_square) == board.turn:
        own = chess.piece_name(board.piece_type_at(to_square) or chess.PAWN)
        return f"{SIDES[board.turn]}'s own {own} stands there"
    return ""


def _on_its_way(piece: chess.PieceType, square: chess.Square, to_square: chess.Square) -> bool:
    """Tell whether a piece could go there on an empty board."""
    alone = chess.BaseBoard(None)
    alone.set_piece_at(square, chess.Piece(piece, chess.WHITE))
    return bool(alone.attacks_mask(square) & chess.BB_SQUARES[to_square])


def _pawn_reason(
    board: chess.Board,
    square: chess.Square,
    to_square: chess.Square,
    takes: bool,
    promotion: chess.PieceType | None,
) -> str:
    """Say what keeps a pawn from a square, the safety of its king aside."""
    mover, goal = man(board, square), chess.square_name(to_square)
    ahead = 8 if board.turn else -8
    if chess.BB_PAWN_ATTACKS[board.turn][square] & chess.BB_SQUARES[to_square]:
        if board.color_at(to_square) == board.turn:
            return (
                f"{mover} cannot take {man(board, to_square)}, which is {SIDES[board.turn]}'s own"
            )
        if board.color_at(to_square) is None and to_square != board.ep_square:
            return _nothing_to_take(board, mover, to_square)
    elif to_square == square + ahead or to_square == square + 2 * ahead:
        if takes:
            return f"{mover} takes one square ahead on the next file, not straight on"
        blocked = [step for step in (square + ahead, to_square) if board.color_at(step) is not None]
        if blocked:
            return f"{mover} cannot reach {goal}: {man(board, blocked[0])} is in the way"
        if to_square == square + 2 * ahead and chess.square_rank(square) != (
            1 if board.turn else 6
        ):
            return f"{mover} has left its first square and steps one square at a time"
    else:
        return (
            f"{mover} cannot reach {goal}: a pawn steps one square straight ahead, two from its "
            "first square, and takes one square ahead on the next file"
        )
    last = chess.square_rank(to_square) in (0, 7)
    if promotion is not None and not last:
        return f"{mover} is promoted on the last rank only, and {goal} is not on it"
    return ""


def _nothing_to_take(board: chess.Board, mover: str, to_square: chess.Square) -> str:
    goal = chess.square_name(to_square)
    passed = to_square + (-8 if board.turn else 8)
    enemy_pawn = chess.Piece(chess.PAWN, not board.turn)
    right_rank = chess.square_rank(to_square) == (5 if board.turn else 2)
    if right_rank and board.piece_at(passed) == enemy_pawn:
        return (
            f"{mover} cannot take {man(board, passed)} in passing: that is allowed only at once, "
            "after its double step"
        )
    return f"there is nothing to take on {goal} for {mover}"


def _king_reason(board: chess.Board, move: chess.Move) -> str:
    """Say why a move that the piece could make is forbidden by its king's safety."""
    side, king = SIDES[board.turn], board.king(board.turn)
    if king is None:
        return "the position has no king to move with"
    goal = chess.square_name(move.to_square)
    if move.from_square == king:
        without = board.copy(stack=False)
        without.remove_piece_at(king)
        attackers = without.attackers(not board.turn, move.to_square)
        return f"the king may not go to {goal}: {_attack(board, attackers, goal)}"
    after = board.copy(stack=False)
    after.push(move)
    attackers = after.attackers(not board.turn, king)
    where = f"the king on {chess.square_name(king)}"
    if remaining := board.checkers() & attackers:
        checkers = listed(man(board, square) for square in remaining)
        return f"{side} is in check from {checkers}, and this does not stop it"
    return f"that leaves {where} in check from {listed(man(after, square) for square in attackers)}"


def _attack(board: chess.Board, attackers: chess.SquareSet, goal: str) -> str:
    names = listed(man(board, square) for square in attackers)
    return f"{names} {'attacks' if len(attackers) == 1 else 'attack'} {goal}"


def _pawn_answer(
    board: chess.Board,
    men: list[chess.Square],
    to_square: chess.Square,
    takes: bool,
    promotion: chess.PieceType | None,
) -> str:
    """Answer a pawn move that names only its goal."""
    side, goal = SIDES[board.turn], chess.square_name(to_square)
    captures = sorted(
        board.san(move)
        for move in board.legal_moves
        if move.to_square == to_square
        and board.piece_type_at(move.from_square) == chess.PAWN
        and board.is_capture(move)
    )
    if captures:
        return f"to take on {goal} with a pawn, say {listed(captures, joint='or')}"
    file = chess.square_file(to_square)
    same_file = [square for square in men if chess.square_file(square) == file]
    behind = [s for s in same_file if (s < to_square) == board.turn and s != to_square]
    if behind:
        nearest = min(behind, key=lambda square: abs(square - to_square))
        reason = _why_this_one(board, nearest, to_square, takes, promotion)
        return f"{reason}; {_legal_moves_of(board, nearest)}"
    if to_square in same_file:
        return f"{man(board, to_square)} stands there already"
    return f"{side} has no pawn that can go to {goal}"


def _distance_from_truth(board: chess.Board, square: chess.Square, to_square: chess.Square) -> int:
    """Order pieces by how nearly they could make the move."""
    if board.is_pseudo_legal(chess.Move(square, to_square)):
        return 0
    piece = board.piece_type_at(square)
    if piece not in (None, chess.PAWN) and _on_its_way(piece, square, to_square):
        return 1
    return 2


def _legal_moves_of(board: chess.Board, square: chess.Square) -> str:
    moves = sorted(board.san(move) for move in board.legal_moves if move.from_square == square)
    if not moves:
        return "it has no legal move"
    shown = moves if len(moves) <= 12 else [*moves[:12], f"and {len(moves) - 12} more"]
    return f"its legal {'move is' if len(moves) == 1 else 'moves are'} {', '.join(shown)}"


def why_no_castling(board: chess.Board, side: chess.Color, *, king_side: bool) -> list[str]:
    """Say all that keeps a side from castling; empty if nothing does.

    Parameters
    ----------
    board : chess.Board
        The position; whose move it is plays no part.
    side : chess.Color
        The side that would castle.
    king_side : bool
        Short castling (``True``) or long.

    Returns
    -------
    list of str
        Reasons by the FIDE Laws, article 3.8.2: first a right that is lost,
        else what prevents castling for the time being.
    """
    rook_home = (chess.H1 if king_side else chess.A1) ^ (0 if side else 56)
    home = chess.E1 ^ (0 if side else 56)
    wing = "king's" if king_side else "queen's"
    if not board.clean_castling_rights() & chess.BB_SQUARES[rook_home]:
        return [_right_lost(board, side, home, rook_home, wing)]
    reasons = []
    blockers = chess.between(home, rook_home) & board.occupied
    if blockers:
        names = [man(board, square) for square in chess.scan_forward(blockers)]
        reasons.append(f"{listed(names)} {'is' if len(names) == 1 else 'are'} in the way")
    if checkers := board.attackers(not side, home):
        reasons.append(f"{SIDES[side]} is in check from {listed(man(board, s) for s in checkers)}")
    step = 1 if king_side else -1
    for square in (home + step, home + 2 * step):
        if attackers := board.attackers(not side, square):
            verb = "land on" if square == home + 2 * step else "pass"
            attack = _attack(board, attackers, chess.square_name(square))
            reasons.append(f"the king would {verb} {chess.square_name(square)}: {attack}")
    return reasons


def _right_lost(
    board: chess.Board, side: chess.Color, home: chess.Square, rook_home: chess.Square, wing: str
) -> str:
    if board.piece_at(home) != chess.Piece(chess.KING, side):
        return f"{SIDES[side]}'s king is not on {chess.square_name(home)}"
    if board.piece_at(rook_home) != chess.Piece(chess.ROOK, side):
        return f"there is no rook of {SIDES[side]}'s on {chess.square_name(rook_home)}"
    return (
        f"{SIDES[side]} has lost the right to castle on the {wing} side: "
        "the king or that rook has moved"
    )
