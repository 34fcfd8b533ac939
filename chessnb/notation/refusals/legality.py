"""Why a move is not legal, as a teacher would say it.

The rules are those of the FIDE Laws of Chess, article 3; the sentences name
the pieces and the squares that decide.  Of several pieces that a text may mean,
the one is spoken of that comes closest to the move.
"""

from __future__ import annotations

from dataclasses import dataclass

import chess

from chessnb.board.castling_rights import WINGS, has_right, obstacles, why_lost
from chessnb.board.naming import listed, the_piece
from chessnb.board.sides import SIDES
from chessnb.notation.refusals.absence import StartsAt, no_such_piece, place_of
from chessnb.notation.refusals.king_safety import why_unsafe
from chessnb.notation.refusals.paths import (
    blockers,
    is_light,
    off_its_way,
    on_its_way,
    other_shade,
    path_reason,
    pawn_aims_at,
    pawn_reason,
)

_COULD, _BLOCKED, _ELSEWHERE, _NEVER = range(4)  # how close a piece comes to a move


@dataclass(frozen=True, kw_only=True)
class _Said:
    """What a text says of a move."""

    piece: chess.PieceType | None
    to_square: chess.Square
    starts_at: StartsAt
    takes: bool
    promotion: chess.PieceType | None
    names_file: bool


def why_not(
    board: chess.Board,
    *,
    piece: chess.PieceType | None,
    to_square: chess.Square,
    starts_at: StartsAt,
    takes: bool = False,
    promotion: chess.PieceType | None = None,
    names_file: bool = False,
) -> str:
    """Say why no legal move of the side to move fits what a text says.

    Parameters
    ----------
    board : chess.Board
        The position before the move; the moves that led to it, where they
        are known, tell why a pawn can no longer be taken in passing.
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
        Whether the text says from which file the piece comes.

    Returns
    -------
    str
        One sentence without a full stop.

    Examples
    --------
    >>> why_not(chess.Board(), piece=chess.BISHOP, to_square=chess.G5, starts_at=lambda _: True)
    'the bishop on c1 cannot reach g5: the pawn on d2 is in the way; it has no legal move'
    """
    said = _Said(
        piece=piece,
        to_square=to_square,
        starts_at=starts_at,
        takes=takes,
        promotion=promotion,
        names_file=names_file,
    )
    if over := _game_over(board):
        return over
    pieces = _pieces_meant(board, board.turn, said)
    if not pieces:
        return no_such_piece(board, piece, starts_at)
    if promotion in (chess.KING, chess.PAWN):
        wrong = "become a king" if promotion == chess.KING else "stay a pawn on the last rank"
        return f"a pawn cannot {wrong}: say Q, R, B or N"
    if board.piece_at(to_square) == chess.Piece(chess.KING, not board.turn):
        goal = chess.square_name(to_square)
        return f"{SIDES[not board.turn]}'s king stands on {goal}, and a king is never taken"
    if not names_file and all(board.piece_type_at(square) == chess.PAWN for square in pieces):
        return _pawn_answer(board, pieces, said)
    return _piece_answer(board, pieces, said)


def _game_over(board: chess.Board) -> str:
    if any(board.legal_moves):
        return ""
    side = SIDES[board.turn]
    if board.is_check():
        return f"{side} has no legal move: it is checkmate"
    return f"{side} has no legal move: it is stalemate"


def _pieces_meant(board: chess.Board, side: chess.Color, said: _Said) -> list[chess.Square]:
    pieces = board.occupied_co[side] if said.piece is None else board.pieces_mask(said.piece, side)
    return [square for square in chess.scan_forward(pieces) if said.starts_at(square)]


# -- what keeps each piece from it ---------------------------------------------


def _piece_answer(board: chess.Board, pieces: list[chess.Square], said: _Said) -> str:
    """Speak of the pieces that come closest to the move."""
    if quiet := _without_taking(board, pieces, said):
        goal = chess.square_name(said.to_square)
        return f"there is nothing to take on {goal}: say {listed(quiet, joint='or')}"
    closeness, closest = _closest(board, pieces, said.to_square)
    if closeness >= _ELSEWHERE and (others := _other_sides_move(board, said)):
        return others
    if len(closest) > 1 and closeness >= _ELSEWHERE:
        return _none_reaches(board, closest, said.to_square)
    if len(closest) > 1 and closeness == _BLOCKED:
        reasons = _all_blocked(board, closest, said)
    else:  # what keeps all of them is said once
        reasons = list(dict.fromkeys(_why_this_one(board, square, said) for square in closest))
    return "; ".join([*reasons, *_what_goes(board, closest, closeness)])


def _closest(
    board: chess.Board, pieces: list[chess.Square], goal: chess.Square
) -> tuple[int, list[chess.Square]]:
    """Return the pieces that come closest to a move, and how close they come."""
    ranked = sorted((*_closeness(board, square, goal), square) for square in pieces)
    closeness = ranked[0][0]
    closest = [entry[-1] for entry in ranked if entry[0] == closeness]
    if closeness >= _ELSEWHERE and goal in pieces:
        return closeness, [goal]
    if closeness > _COULD and board.piece_type_at(closest[0]) == chess.PAWN:
        return closeness, closest[:1]
    return closeness, closest


def _all_blocked(board: chess.Board, pieces: list[chess.Square], said: _Said) -> list[str]:
    """Answer for several pieces of a kind with something in their way, those alike together."""
    if said.promotion is not None:
        return [_why_this_one(board, pieces[0], said)]
    by_reason: dict[str, list[chess.Square]] = {}
    for square in pieces:
        by_reason.setdefault(path_reason(board, square, said.to_square), []).append(square)
    goal = chess.square_name(said.to_square)
    return [
        f"{_pieces(board, squares)} cannot reach {goal}: {reason}"
        for reason, squares in by_reason.items()
    ]


def _pieces(board: chess.Board, squares: list[chess.Square]) -> str:
    """Name pieces of one kind: ``"the rook on d1"``, ``"the rooks on d1 and d4"``."""
    if len(squares) == 1:
        return the_piece(board, squares[0])
    name = chess.piece_name(board.piece_type_at(squares[0]) or chess.PAWN)
    return f"the {name}s on {listed(chess.square_name(square) for square in sorted(squares))}"


def _without_taking(board: chess.Board, pieces: list[chess.Square], said: _Said) -> list[str]:
    """Return the legal moves that would be meant if the text did not say that it captures."""
    if not said.takes or said.promotion is not None:
        return []
    return sorted(
        board.san(move)
        for move in board.legal_moves
        if move.from_square in pieces
        and move.to_square == said.to_square
        and board.piece_type_at(move.from_square) != chess.PAWN
    )


def _closeness(
    board: chess.Board, square: chess.Square, goal: chess.Square
) -> tuple[int, int, int]:
    """Order pieces by how nearly they could make the move: the smallest comes closest."""
    piece = board.piece_type_at(square)
    assert piece is not None
    distance = chess.square_distance(square, goal)
    if piece == chess.PAWN:
        if not pawn_aims_at(board, square, goal):
            return _ELSEWHERE, 0, distance
        reason = pawn_reason(board, square, goal, False, None)
        return (_BLOCKED if reason else _COULD), 0, distance
    if not on_its_way(piece, square, goal):
        never = piece == chess.BISHOP and is_light(square) != is_light(goal)
        return (_NEVER if never else _ELSEWHERE), 0, distance
    if path_reason(board, square, goal):
        return _BLOCKED, len(blockers(board, square, goal)), distance
    return _COULD, 0, distance


def _none_reaches(board: chess.Board, pieces: list[chess.Square], to_square: chess.Square) -> str:
    """Answer for several pieces of a kind that all stand elsewhere."""
    piece = board.piece_type_at(pieces[0])
    assert piece is not None
    shade = piece == chess.BISHOP and is_light(pieces[0]) != is_light(to_square)
    reason = other_shade(pieces[0], to_square) if shade else off_its_way(piece, to_square)
    return f"{_pieces(board, pieces)} cannot reach {chess.square_name(to_square)}: {reason}"


def _what_goes(board: chess.Board, pieces: list[chess.Square], closeness: int) -> list[str]:
    """List the legal moves that help: all of them in check, else those of the piece spoken of."""
    if board.is_check():
        checkers = listed(the_piece(board, square) for square in board.checkers())
        told = closeness == _COULD  # the reason itself is the check
        check = "" if told else f"{SIDES[board.turn]} is in check from {checkers}, and "
        return [f"{check}{_legal_moves(board)}"]
    return [_legal_moves(board, pieces[0])] if len(pieces) == 1 else []


def _other_sides_move(board: chess.Board, said: _Said) -> str:
    """Say that the move is one of the side that is not to move, if one piece of it fits."""
    if said.piece is None:
        return ""
    other = board.copy(stack=False)
    other.turn, other.ep_square = not board.turn, None
    starts = {
        move.from_square
        for move in other.legal_moves
        if move.to_square == said.to_square
        and other.piece_type_at(move.from_square) == said.piece
        and said.starts_at(move.from_square)
        and (other.is_capture(move) or not said.takes)
        and said.promotion in (None, move.promotion)
        and (said.takes or said.names_file or not _steps_aside(other, move))
    }
    if len(starts) != 1:
        return ""
    whose = f"{SIDES[other.turn]}'s {the_piece(board, starts.pop()).removeprefix('the ')}"
    goal = chess.square_name(said.to_square)
    verb = "take on" if said.takes else "go to"
    return f"it is {SIDES[board.turn]}'s move, and it is {whose} that can {verb} {goal}"


def _steps_aside(board: chess.Board, move: chess.Move) -> bool:
    pawn = board.piece_type_at(move.from_square) == chess.PAWN
    return pawn and chess.square_file(move.from_square) != chess.square_file(move.to_square)


def _why_this_one(board: chess.Board, square: chess.Square, said: _Said) -> str:
    """Say why the piece on a square may not go to another."""
    piece, to_square = board.piece_type_at(square), said.to_square
    mover, goal = the_piece(board, square), chess.square_name(to_square)
    if square == to_square:
        return f"{mover} stands there already"
    if piece == chess.PAWN:
        reason = pawn_reason(board, square, to_square, said.takes, said.promotion)
        if reason:
            return reason
    elif said.promotion is not None:
        return f"{mover} is no pawn: only a pawn is promoted"
    elif reason := path_reason(board, square, to_square):
        return f"{mover} cannot reach {goal}: {reason}"
    move = _as_played(board, square, to_square, said.promotion)
    if said.takes and board.color_at(to_square) is None and piece != chess.PAWN:
        return f"there is nothing to take on {goal} for {mover}"
    return why_unsafe(board, move)


def _as_played(
    board: chess.Board,
    square: chess.Square,
    to_square: chess.Square,
    promotion: chess.PieceType | None,
) -> chess.Move:
    """Return the move; a pawn on the last rank of whose piece nothing is said becomes a queen."""
    pawn = board.piece_type_at(square) == chess.PAWN
    if promotion is None and pawn and chess.square_rank(to_square) in (0, 7):
        promotion = chess.QUEEN
    return chess.Move(square, to_square, promotion)


def _pawn_answer(board: chess.Board, pieces: list[chess.Square], said: _Said) -> str:
    """Answer a pawn move that names only its goal."""
    to_square, goal = said.to_square, chess.square_name(said.to_square)
    captures = sorted(
        board.san(move)
        for move in board.legal_moves
        if move.to_square == to_square
        and board.piece_type_at(move.from_square) == chess.PAWN
        and board.is_capture(move)
    )
    if captures:
        return f"to take on {goal} with a pawn, say {listed(captures, joint='or')}"
    if to_square in pieces:
        return f"{the_piece(board, to_square)} stands there already"
    near = _pawns_near(pieces, said, board.turn)
    if not near:
        if others := _other_sides_move(board, said):
            return others
        verb = "take on" if said.takes else "go to"
        starts = [square for square in chess.SQUARES if said.starts_at(square)]
        place = "" if len(starts) == len(chess.SQUARES) else f" {place_of(starts)}"
        return f"{SIDES[board.turn]} has no pawn{place} that can {verb} {goal}"
    return _piece_answer(board, near, said)


def _pawns_near(pieces: list[chess.Square], said: _Said, side: chess.Color) -> list[chess.Square]:
    """Return the pawns that may be meant: those that could take, or one on the square's file."""
    if said.takes:
        takers = chess.BB_PAWN_ATTACKS[not side][said.to_square]
        if meant := [square for square in pieces if takers & chess.BB_SQUARES[square]]:
            return meant
    file = chess.square_file(said.to_square)
    same_file = [square for square in pieces if chess.square_file(square) == file]
    behind = [square for square in same_file if (square < said.to_square) == side]
    return sorted(behind or same_file, key=lambda square: abs(square - said.to_square))[:1]


def _legal_moves(board: chess.Board, square: chess.Square | None = None) -> str:
    """List the legal moves of a piece, or of all."""
    moves = sorted(
        board.san(move) for move in board.legal_moves if square in (None, move.from_square)
    )
    whose = "the" if square is None else "its"
    if not moves:
        return "it has no legal move"
    shown = moves if len(moves) <= 12 else [*moves[:12], f"and {len(moves) - 12} more"]
    return f"{whose} legal {'move is' if len(moves) == 1 else 'moves are'} {', '.join(shown)}"


# -- castling ----------------------------------------------------------------


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

    Examples
    --------
    >>> why_no_castling(chess.Board(), chess.WHITE, king_side=True)
    ['the bishop on f1 and the knight on g1 are in the way']
    """
    wing = WINGS[0] if king_side else WINGS[1]
    if side == board.turn and (over := _game_over(board)):
        return [over]
    if has_right(board, side, wing):
        return [obstacle.words for obstacle in obstacles(board, side, wing)]
    return [f"{SIDES[side]} has no right to castle {wing}: {why_lost(board, side, wing)}"]
