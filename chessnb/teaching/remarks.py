"""What an explorer says beside a position: what the move changed, threats, motifs, facts.

Each is computed when a reader comes to the position or asks, never before:
a lesson of five hundred moves opens at once.  Where the next move is hidden,
nothing here shows a line that could be it.
"""

from __future__ import annotations

from dataclasses import asdict, replace
from typing import Any

import chess

from chessnb import facts
from chessnb.board.naming import counted
from chessnb.board.sides import SIDES
from chessnb.board.turns import after_pass
from chessnb.facts import Changes, changes
from chessnb.facts._phrases import telling_phrases
from chessnb.findings import Finding
from chessnb.lessons import Moment
from chessnb.search.budget import Searching
from chessnb.verdicts.move_verdict import Verdict
from chessnb.verdicts.threats import THREATENED, finding_threat


def changed(board: chess.Board, *, with_next: bool = True) -> tuple[str, ...]:
    """Say what the last move of a board changed; nothing where no move was made.

    Parameters
    ----------
    board : chess.Board
        The position, with the move that led there.
    with_next : bool
        Also say what it gives the one side or the other to do next.  Where the
        class is to find that, it is left out.
    """
    if not board.move_stack:
        return ()
    before = board.copy()
    move = before.pop()
    found = changes(before, move)
    if with_next:
        return tuple(found.paragraphs)
    kept = _without_next(found)
    # With what is left out, "is quiet" could be untrue; and it would tell that nothing was.
    return tuple(kept.paragraphs) if any(telling_phrases(kept)) else ()


def _without_next(found: Changes) -> Changes:
    """Leave out what answers "and what now?": attacks, threats, what may be won."""
    return replace(
        found,
        attacks=(),
        opened=tuple(line for line in found.opened if not line.attacks),
        threatens=(),
        offers=(),
        leaves=(),
        forces_mate=False,
        left_undefended=(),
        stops_defending=(),
        gets_pinned=(),
        opened_to_enemy=(),
    )


def facts_of(board: chess.Board) -> tuple[str, ...]:
    """Say what follows from the rules alone: material, pawns, castling, draws."""
    found: list[Finding] = [facts.material(board), facts.pawns(board), facts.castling(board)]
    draws = facts.draws(board)
    if draws.checkmate or draws.drawn or draws.may_be_claimed:
        found.append(draws)
    return tuple(f"{text[0].upper()}{text[1:].rstrip('.')}." for text in (f.words for f in found))


def finding_threat_in_words(board: chess.Board, *, with_line: bool = True) -> Searching[str]:
    """Return the search for what the side that is not to move threatens, as a sentence."""
    side = SIDES[not board.turn]
    if after_pass(board) is None:
        return f"{SIDES[board.turn]} is in check: nobody can pass, so there is nothing to threaten."
    if board.is_game_over(claim_draw=False):
        return "The game is over."
    threat = yield from finding_threat(board)
    verdict = threat.verdict
    if verdict is not None:
        what = f"mate in {verdict.moves}" if verdict.kind == "mates" else _to_win(verdict)
        line = f": {verdict.written}" if with_line else ""
        return f"{side} threatens {what}{line}."
    if not threat.settled:
        return f"Whether {side} threatens anything is not proved."
    return (
        f"No threat by {side} was found: no mate in {THREATENED.mate}, no gain within "
        f"{counted(THREATENED.within, 'move')}. Nobody has proved that there is none."
    )


def _to_win(verdict: Verdict) -> str:
    """Say what would be won: "to win a rook (5 points)", "to make a queen (8 points)"."""
    return f"to {verdict.words.replace('wins ', 'win ', 1).replace('makes ', 'make ', 1)}"


def tags_of(moment: Moment, *, with_later: bool = True) -> list[dict[str, Any]]:
    """Return the tactics of the move that led to a position, with how they are drawn.

    Parameters
    ----------
    moment : Moment
        The position.
    with_later : bool
        Also name those that show only in the moves that follow.
    """
    from chessnb import motifs

    if moment.move is None:
        return []
    return [
        {
            "motif": found.motif,
            "sentence": f"{found.sentence}.",
            "gain": found.gain or "",
            "marks": [asdict(mark) for mark in found.marks],
        }
        for found in motifs.tag(moment)
        if with_later or found.ply <= 1
    ]
