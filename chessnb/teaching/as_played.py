"""What the game itself shows of a move: an offer that came off, a mate from its end.

Nothing here is proved of other replies, but for the mates: they are proved
with the moves of the game, from its end backwards.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator

import chess
import chess.pgn

from chessnb.board.naming import the_piece
from chessnb.board.points import balance
from chessnb.board.sides import SIDES
from chessnb.lessons import Lesson, Moment
from chessnb.proof import Mate
from chessnb.teaching.cell_code import after, call
from chessnb.teaching.reply_signs import proved
from chessnb.teaching.sign import Sign
from chessnb.teaching.standing import stands
from chessnb.verdicts.depth import USUAL, Depth
from chessnb.verdicts.offer import Offer, offer_of
from chessnb.verdicts.replies import reply_table

OFFER_POINTS = 2
"""So much must be offered: the exchange, or a piece for a pawn; less only if it was taken."""

RETURNED_PLIES = 16
"""An offer came off if so many moves later, of either side, nothing is missing any more."""

LAST_MATE = 12
"""So long a mate is looked for where the game was given up."""

SHORT_MATE = 8
"""Longer ones are not asked for one by one."""

GIVEN_UP = Depth(mate=3, within=3, budget=400_000)
"""How far is looked where a game was given up: as a reply table does that is asked nothing more."""

LONGEST_RUN = 15
"""From so far back the mate at the end of a game is told."""

BUDGET = 400_000
"""Positions for each mate."""

LAST_BUDGET = 1_000_000
"""Positions for a longer one at the end of a game that was given up, asked for once."""

SOON = 5
"""What was made use of so many moves later, of either side, is worth a stop of its own."""

SLACK = 2
"""A move of the game may have made the mate longer by so many moves."""


def came_off(moment: Moment) -> Offer | None:
    """Return what the move offered, if the game shows that it came off.

    It came off where the side that offered won the game, or did not lose it and
    had back what it gave; a trade, which gives back at once, is no offer.
    """
    offer = _offered(moment)
    if offer is None or (offer.points < OFFER_POINTS and not _is_taken(moment, offer)):
        return None
    parent = moment.node.parent
    assert parent is not None
    side, board = not moment.turn, parent.board()
    base = max(stands(board), balance(board, side))
    if _is_trade(moment, offer, base):
        return None
    if (winner := _winner(moment)) is not None:
        return offer if winner == side else None
    return offer if any(one >= base for one in _balances(moment)[3::2]) else None


def left_standing(moment: Moment) -> Offer | None:
    """Return what the move left to be taken, where the other side did not take it."""
    offer, following = _offered(moment), moment.next
    if offer is None or offer.points < OFFER_POINTS or moment.board.is_check():
        return None
    taken = following is not None and following.move and following.move.to_square == offer.square
    return None if taken else offer


def _offered(moment: Moment) -> Offer | None:
    """Return what a move offers, where the game goes on behind it; a king's walk offers nothing."""
    before, move = moment.node.parent, moment.move
    if before is None or not move or moment.next is None:
        return None
    board = before.board()
    offer = offer_of(board, move)
    return None if offer.points <= 0 or board.king(board.turn) == move.from_square else offer


def _balances(moment: Moment) -> list[int]:
    """Return the balance after the move and after each that followed, for its side."""
    side = not moment.turn
    found: list[int] = []
    node: chess.pgn.GameNode | None = moment.node
    while node is not None and len(found) <= RETURNED_PLIES:
        found.append(balance(node.board(), side))
        node = node.next()
    return found


def _is_trade(moment: Moment, offer: Offer, base: int) -> bool:
    """Tell whether it was taken and all of it taken back at once."""
    taking = moment.next
    retaking = None if taking is None else taking.next
    if retaking is None or not _is_taken(moment, offer):
        return False
    return balance(retaking.board, not moment.turn) >= base


def _is_taken(moment: Moment, offer: Offer) -> bool:
    """Tell whether the next move took what was offered, and it was a piece."""
    taking = moment.next
    if taking is None or taking.move is None or taking.move.to_square != offer.square:
        return False
    return moment.board.piece_type_at(offer.square) != chess.PAWN


def _winner(moment: Moment) -> chess.Color | None:
    """Return who won the game."""
    end = moment.node.end().board()
    if end.is_checkmate():
        return not end.turn
    results = {"1-0": chess.WHITE, "0-1": chess.BLACK}
    return results.get(moment.node.game().headers.get("Result", "*"))


def mate_at_the_end(lesson: Lesson) -> dict[chess.pgn.GameNode, int]:
    """Return the moves from which the game's winner mates by force, each with its number of moves.

    From the last move of the side that won backwards, as long as the move of
    the game is proved to mate; a game that was given up is looked at too.
    """
    winner = _winner(lesson.end)
    found: dict[chess.pgn.GameNode, int] = {}
    moves = 0
    for node in _back(lesson.end.node):
        if node.parent.turn() != winner or not node.move:
            continue
        lengths = range(moves + 1, moves + 1 + SLACK) if found else range(1, SHORT_MATE + 1)
        board = node.parent.board()
        shown = (one for one in lengths if proved(board, Mate(within=one), BUDGET, node.move))
        length = next(shown, 0)
        if not length and not found and not lesson.end.board.is_checkmate():
            proof = proved(board, Mate(within=LAST_MATE), LAST_BUDGET, node.move)
            length = 0 if proof is None else proof.moves
        if not length or length > LONGEST_RUN:
            break
        found[node] = moves = length
    return found


def _back(node: chess.pgn.GameNode) -> Iterator[chess.pgn.ChildNode]:
    while isinstance(node, chess.pgn.ChildNode):
        yield node
        node = node.parent


def of_offer(moment: Moment, *, mate: int = 0) -> Iterator[Sign]:
    """Yield what the move offers, where the game shows that it came off, or that nobody took it.

    Where the move is known to mate, `mate` is how many moves are left after the reply.
    """
    offer, kind, verb = came_off(moment), "offer", "offers {}"
    if offer is None:
        offer, kind, verb = left_standing(moment), "left", "leaves {} to be taken"
    if offer is None:
        return
    piece = the_piece(moment.board, offer.square)
    square = chess.square_name(offer.square)
    deep = {"mate": mate} if mate > USUAL.mate else {}
    cell = call("reply_table", after(moment), taking=square, **deep)
    words = f"{SIDES[not moment.turn]} {verb.format(piece)}"
    yield Sign(weight=3 + min(offer.points, 4), words=words, cell=cell, kind=kind)


def of_resigning(moment: Moment) -> Iterator[Sign]:
    """Yield why the game was given up: where every move of the loser is proved to lose."""
    if moment.next is not None or moment.board.is_game_over() or not moment.is_main_line:
        return
    if _winner(moment) != (not moment.turn):
        return
    table = reply_table(moment, mate=GIVEN_UP.mate, within=GIVEN_UP.within, budget=GIVEN_UP.budget)
    if table.longest_resistance is None:
        return
    yield Sign(
        weight=4,
        words=f"every move of {SIDES[moment.turn]}'s loses",
        cell=call("reply_table", after(moment)),
        kind="resigned",
        question=f"{SIDES[moment.turn]} gave up here. Why? What would you play, and what "
        "is the answer?",
    )


def of_purpose(moment: Moment) -> Iterator[Sign]:
    """Yield what the moves that followed made of the move."""
    if moment.board.is_checkmate():
        return
    found = moment.purpose()
    if not found.uses:
        return
    words = found.words.rstrip(".")
    sharp = any(use.kind in ("guard", "flight") for use in found.uses)
    weight = 3 if sharp else 2 if len(found.uses[0].line) <= SOON else 1
    cell = f"{ast.unparse(ast.parse(after(moment)))}.purpose()"
    yield Sign(weight=weight, words=f"{words[:1].lower()}{words[1:]}", cell=cell, kind="purpose")


def of_aims(moment: Moment) -> Iterator[Sign]:
    """Yield that a quiet move aims at two things at once, or pins a piece: by the rules alone.

    The page's words on what the move changes say it; there is no cell besides.
    """
    if moment.board.is_check():
        return
    found = moment.changes()
    if found.captured is None and len(found.threatens) > 1:
        yield Sign(weight=2, words="two things are attacked at once", kind="double attack")
    elif any(pin.piece.kind != chess.PAWN for pin in found.pins):
        yield Sign(weight=1, words="a piece is pinned", kind="pin")
