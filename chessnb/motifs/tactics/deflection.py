"""Deflection: an enemy piece is made to leave the square from which it does its duty.

What counts
    A forcing move, an offer or a check, makes an enemy piece go elsewhere.
    Where it stood it defended a square, barred a line, or could have met our
    next move; now that move takes something there or mates.  At once it would
    not have won.

What does not
    A piece that still does its duty from its new square.  A pinned piece that
    is attacked: nothing draws it away.  What the piece that moved attacks
    itself with check: that is a fork or a skewer.

What shows it
    The piece that draws away, the one that is drawn, and its duty.
"""

from __future__ import annotations

from collections.abc import Iterator

import chess

from chessnb.board.squares import name
from chessnb.board.turns import moved
from chessnb.motifs.case import Case, Reply
from chessnb.motifs.evidence import Tag, The, dashes, force, ring, the, ticks
from chessnb.motifs.motif import Example, Motif
from chessnb.motifs.near_miss import follow_up
from chessnb.notation import write_move

NAME = "deflection"


def find(case: Case) -> Iterator[Tag]:
    """Find a forcing move after whose answer the piece that answered is missed elsewhere."""
    if case.in_hand:
        return
    seen = set()
    for reply in case.critical:
        if not _is_forced(case, reply):
            continue
        duty = _duty(case, reply)
        if duty is not None and (reply.move.from_square, duty) not in seen:
            seen.add((reply.move.from_square, duty))
            yield _tag(case, reply, duty)


def _is_forced(case: Case, reply: Reply) -> bool:
    """Tell whether the answer takes our piece, or answers a check."""
    if reply.move.to_square == case.move.to_square:
        return True
    king = case.after.king(not case.side)
    return case.gives_check and reply.move.from_square != king


def _duty(case: Case, reply: Reply) -> chess.Square | None:
    """Return the square that the piece defended and our next move makes use of."""
    answer, defender = reply.answer, reply.move.from_square
    if answer is None or answer.to_square == reply.move.to_square:
        return None
    then = moved(reply.board, [answer])
    target = answer.to_square
    takes = reply.board.is_capture(answer) and (case.mates or reply.wins_a_piece)
    useful = takes or then.is_checkmate()
    if not useful or reply.move.to_square in then.attackers(not case.side, target):
        return None
    shields = defender in chess.SquareSet.between(answer.from_square, target)
    keeps = target in case.before.attacks(defender) or _answered(case, answer, defender)
    if not (shields or keeps):
        return None
    if shields and not case.gives_check and defender in case.after.attacks(case.move.to_square):
        return None  # the piece that is attacked is pinned: nothing draws it away
    if answer.from_square == case.move.to_square and target in _attacked_with_check(case):
        return None
    return None if case.wins_at_once(answer) else target


def _answered(case: Case, answer: chess.Move, defender: chess.Square) -> bool:
    """Tell whether the piece could have met our next move by taking or stepping between."""
    if not case.before.is_legal(answer):
        return False
    then = moved(case.before, [answer])
    if not then.is_check():
        return False
    return any(move.from_square == defender for move in then.legal_moves)


def _attacked_with_check(case: Case) -> chess.SquareSet:
    """Return what our checking piece attacks itself: then it is a fork or a skewer."""
    king = case.after.king(not case.side)
    if king is None or not case.gives_check:
        return chess.SquareSet()
    return case.after.attacks(case.move.to_square)


def _tag(case: Case, reply: Reply, duty: chess.Square) -> Tag:
    defender, answer = reply.move.from_square, reply.answer
    assert answer is not None
    falls = reply.board.piece_at(duty) is not None
    then = write_move(reply.board, answer)
    ends = f"with {then} {the(reply.board, duty)} falls" if falls else f"there {then} decides"
    shields = defender in chess.SquareSet.between(answer.from_square, duty)
    task = "bars the way to" if shields else "defends"
    return case.tag(
        NAME,
        sound=True,
        reply=reply,
        actor=case.move.to_square,
        targets=(defender, duty),
        squares=(reply.move.to_square, duty),
        sentence=(
            f"{The(case.after, case.move.to_square)} draws {the(case.after, defender)} away to "
            f"{name(reply.move.to_square)}: it no longer {task} {name(duty)}, and {ends}"
        ),
        marks=(
            ring(case.move.to_square),
            ticks(defender),
            *((dashes(defender, duty),) if defender != duty else ()),
            ticks(duty),
            *(
                (force(answer.from_square, duty),)
                if answer.from_square != case.move.to_square
                else ()
            ),
        ),
    )


def why_not(case: Case) -> str:
    """Say that the piece had no duty there, or need not be drawn away."""
    if (followed := follow_up(case)) is None:
        return ""
    reply, answer = followed
    defender, target = reply.move.from_square, answer.to_square
    barred = defender in chess.SquareSet.between(answer.from_square, target)
    if target not in case.before.attacks(defender) and not barred:
        return f"{the(case.before, defender)} had no duty on {name(target)}"
    if case.wins_at_once(answer):
        san = write_move(reply.board, answer)
        return f"{san} wins at once as well: nothing need be drawn away"
    return ""


MOTIF = Motif(
    name=NAME,
    rank=90,
    telling=9,
    counted=False,
    definition=(
        "A forcing move makes an enemy piece give up a duty on another square: what it defended "
        "then falls."
    ),
    find=find,
    why_not=why_not,
    examples=(
        Example(
            fen="5qk1/5p1p/5PpQ/8/8/8/5PPP/4R1K1 w - - 0 1",
            moves="Re8 Qxe8 Qg7#",
            why="the queen defended g7",
        ),
        Example(
            fen="3r2k1/5ppp/8/3q4/8/3Q4/5PPP/1R4K1 w - - 0 1",
            moves="Rb8 Qxd3 Rxd8+",
            shows=False,
            why="the queen takes first, and defends the rook",
        ),
        Example(
            fen="6k1/2p2pp1/3q3p/8/3B4/8/5PPP/3R2K1 b - - 0 1",
            moves="c5 Bxc5 Qxd1#",
            shows=False,
            why="the bishop is pinned to the rook, and the pawn attacks it",
        ),
    ),
)
