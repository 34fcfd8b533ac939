"""Claims that follow from the rules alone: legal moves, castling, the end of a game.

The rules are those of the FIDE Laws, articles 3, 5 and 9.
"""

from __future__ import annotations

from typing import Literal

import chess

from chessnb.board.naming import counted, listed
from chessnb.board.position import Position, read_position
from chessnb.board.sides import SIDES, Side, read_side
from chessnb.claims.calls import checked
from chessnb.claims.claim import Claim, ClaimError, FalseClaim, UnprovedClaim, said
from chessnb.claims.claimed_moves import read_claimed
from chessnb.diagrams import Mark
from chessnb.errors import IllegalMove, as_given, ended
from chessnb.facts import castling, draws
from chessnb.findings.record import quoted
from chessnb.findings.record_fields import side_word
from chessnb.notation import MoveLike, read_move, write_line, write_move

DrawRule = Literal["stalemate", "dead position", "repetition", "fifty moves"]
"""The rules by which a game is drawn, or a draw may be claimed."""

DRAW_RULES: dict[str, tuple[str, ...]] = {
    "stalemate": ("stalemate",),
    "dead position": ("dead",),
    "repetition": ("occurred", "repeating"),
    "fifty moves": ("quiet", "fiftieth"),
}
"""How the reasons begin that a draw by each rule has in a record."""


@checked
def only_legal_reply(position: Position, move: MoveLike) -> Claim:
    """Claim that the side to move has one legal move, and which.

    Examples
    --------
    >>> only_legal_reply("7k/8/8/8/8/8/6r1/7K w - - 0 1", "Kxg2").words
    '1. Kxg2 is the only legal move'
    """
    board = read_position(position)
    played = read_claimed(position, board, move)
    claimed = said(board, "only legal move", move=played)
    others = [other for other in board.legal_moves if other != played]
    if others:
        names = sorted(write_move(board, other) for other in others)
        there = listed(names) if len(names) <= 5 else f"{', '.join(names[:4])} and others"
        raise FalseClaim(
            claimed,
            f"{SIDES[board.turn]} has {counted(len(names) + 1, 'legal move')}, {there} too",
            board=board,
            line=(others[0],),
        )
    return Claim(said=claimed, fen=board.fen(), marks=(_stroke(played),))


@checked
def legal(position: Position, move: MoveLike) -> Claim:
    """Claim that a move is legal.

    Examples
    --------
    >>> print(legal("start", "Nf3"))
    1. Nf3 | legal | rules
    """
    board = read_position(position)
    try:
        played = read_claimed(position, board, move)
    except IllegalMove as error:
        claimed = said(board, "legal", quoted(str(move)))
        raise FalseClaim(claimed, error.reason, board=board) from None
    claimed = said(board, "legal", move=played)
    return Claim(said=claimed, fen=board.fen(), marks=(_stroke(played),))


@checked
def illegal(position: Position, move: MoveLike) -> Claim:
    """Claim that a move is not legal; the claim tells why.

    Examples
    --------
    >>> illegal("4k3/8/8/8/8/8/4q3/4K3 w - - 0 1", "Kd1").paragraphs[1][:32]
    'The king may not go to d1: the q'
    """
    board = read_position(position)
    claimed = said(board, "illegal", quoted(str(move)))
    try:
        played = read_move(board, move)
    except IllegalMove as error:
        return Claim(said=claimed, fen=board.fen(), evidence=(_sentence(error.reason),))
    raise FalseClaim(claimed, "it is", board=board, line=(played,))


def _sentence(reason: str) -> str:
    return f"{reason[0].upper()}{ended(reason)[1:]}"


@checked
def can_castle(position: Position, wing: str, *, side: Side | None = None) -> Claim:
    """Claim that a side may castle on a wing ("kingside", "queenside"), on its move."""
    board, color, found = _wing(position, wing, side)
    claimed = said(board, "can castle", side_word(color), found.wing)
    if not found.may:
        raise FalseClaim(claimed, _why_not(found), board=board, marks=_targets(found.attacked))
    return Claim(said=claimed, fen=board.fen())


@checked
def cannot_castle(
    position: Position,
    wing: str,
    *,
    side: Side | None = None,
    for_good: bool | None = None,
) -> Claim:
    """Claim that a side may not castle on a wing; the claim tells why.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position; which move lost the right is read from the moves that led to it.
    wing : {"kingside", "queenside"}
        Where.
    side : {"White", "Black"} or chess.Color, optional
        Whose castling; the side to move if it is left out.
    for_good : bool, optional
        True: the right has gone, and no move brings it back (FIDE Laws, article
        3.8.2.1).  False: the right stands, and castling is only prevented now
        (article 3.8.2.2).  Left out, it may be either.

    Raises
    ------
    FalseClaim
        If the side may castle; with `for_good`, also if it is the other of the
        two: with what prevents it now, or with the move that lost the right,
        where that is known.

    Examples
    --------
    >>> watched = "4k3/8/8/8/2b5/8/8/4K2R w K - 0 1"
    >>> cannot_castle(watched, "kingside", for_good=False).words
    'White cannot castle kingside now, but still has the right to'
    """
    if not (for_good is None or isinstance(for_good, bool)):
        raise ClaimError(f"for_good is True or False, not {as_given(for_good)}")
    board, color, found = _wing(position, wing, side)
    which = () if for_good is None else ("no more" if for_good else "not now",)
    claimed = said(board, "cannot castle", side_word(color), found.wing, *which)
    if found.may:
        raise FalseClaim(claimed, "nothing prevents it", board=board)
    how = "the right has gone for good" if found.lost else "it is prevented only for now"
    reason, marks = f"{how}: {_why_not(found)}", _targets(found.attacked)
    if for_good is not None and for_good != bool(found.lost):
        raise FalseClaim(claimed, reason, board=board, marks=marks)
    return Claim(said=claimed, fen=board.fen(), evidence=(_sentence(reason),), marks=marks)


def _wing(position: Position, wing: str, side: Side | None):  # type: ignore[no-untyped-def]
    board = read_position(position)
    color = read_side(side, default=board.turn)
    named = {"kingside": "kingside", "short": "kingside", "o-o": "kingside"}
    named |= {"queenside": "queenside", "long": "queenside", "o-o-o": "queenside"}
    said = wing if isinstance(wing, str) else ""
    name = named.get(said.strip().lower().replace(" ", "").replace("0", "o"))
    if name is None:
        raise ClaimError(f"a wing is “kingside” or “queenside”, not {as_given(wing)}")
    return board, color, next(one for one in castling(board, color).wings if one.wing == name)


def _why_not(wing) -> str:  # type: ignore[no-untyped-def]
    return wing.lost or listed(wing.prevented)


@checked
def drawn(position: Position, rule: DrawRule | None = None) -> Claim:
    """Claim that the game is drawn, or that a draw may be claimed, and by which rule.

    Parameters
    ----------
    position : chess.Board, Moment or str
        The position; repetition needs the moves that led to it.
    rule : {"stalemate", "dead position", "repetition", "fifty moves"}, optional
        By which rule; any, if it is left out.

    Examples
    --------
    >>> drawn("7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", rule="stalemate").words
    'the game is drawn: stalemate'
    """
    if rule is not None and (not isinstance(rule, str) or rule not in DRAW_RULES):
        raise ClaimError(f"a draw is by {listed(DRAW_RULES, joint='or')}, not {as_given(rule)}")
    board = read_position(position)
    facts = draws(board)
    wanted = None if rule is None else DRAW_RULES[rule]

    def fits(reason: str) -> bool:
        return wanted is None or reason.startswith(wanted)

    if over := tuple(filter(fits, facts.drawn_by)):
        return Claim(said=said(board, "drawn", *over), fen=board.fen())
    if claims := tuple(filter(fits, facts.claimed_by)):
        return Claim(said=said(board, "may claim draw", *claims), fen=board.fen())
    claimed = said(board, "drawn", *([] if rule is None else [rule]))
    if rule in (None, "dead position") and _is_walled(board):
        reason = (
            "every pawn is blocked, and whether anybody can still mate is not worked out here: "
            "judge it yourself (FIDE Laws, article 5.2.2)"
        )
        raise UnprovedClaim(claimed, reason, board=board)
    raise FalseClaim(claimed, facts.words.removeprefix("draw: "), board=board)


def _is_walled(board: chess.Board) -> bool:
    """Tell whether every pawn is blocked, so that kings and bishops alone could find a way."""
    if board.knights | board.rooks | board.queens or not board.pawns:
        return False
    both = (board.copy(stack=False), board.copy(stack=False))
    for color, one in zip(chess.COLORS, both, strict=True):
        one.turn = color
    return not any(
        board.pawns & chess.BB_SQUARES[move.from_square]
        for one in both
        for move in one.generate_pseudo_legal_moves()
    )


@checked
def checkmate(position: Position) -> Claim:
    """Claim that the side to move is mated.

    Examples
    --------
    >>> checkmate("R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1").words
    'Black is checkmated'
    """
    board = read_position(position)
    claimed = said(board, "checkmate")
    if not board.is_check():
        raise FalseClaim(claimed, f"{SIDES[board.turn]} is not in check", board=board)
    for escape in sorted(board.legal_moves, key=chess.Move.uci):
        written = write_line(board, (escape,))
        raise FalseClaim(claimed, f"{written} gets out of check", board=board, line=(escape,))
    king = board.king(board.turn)
    checkers = board.checkers()
    marks = [
        Mark(role="force", square=chess.square_name(square), to=chess.square_name(king or 0))
        for square in checkers
    ]
    return Claim(said=claimed, fen=board.fen(), marks=tuple(marks))


def _stroke(move: chess.Move) -> Mark:
    return Mark(
        role="force",
        square=chess.square_name(move.from_square),
        to=chess.square_name(move.to_square),
    )


def _targets(squares: tuple[str, ...]) -> tuple[Mark, ...]:
    return tuple(Mark(role="target", square=square) for square in squares)
