"""Perpetual checks: closed maps of checks, checked against a search on python-chess alone."""

import chess
import pytest

from chessnb.proof import Perpetual, check
from chessnb.search.prover import prove

# Each: the position, what is so, and why (composed here).
KNOWN = [
    ("6k1/6p1/8/7Q/8/8/1q6/6K1 w - - 0 1", "proved", "1. Qe8+ Kh7 2. Qh5+ Kg8 and so on"),
    (
        "6k1/6p1/5n2/7Q/8/8/1q6/6K1 w - - 0 1",
        "false",
        "the knight takes the queen or the checks end",
    ),
    ("7k/8/8/8/8/8/8/K4R2 w - - 0 1", "false", "a rook alone runs out of checks"),
    ("6k1/5ppp/8/8/8/8/5PPP/6K1 w - - 0 1", "false", "there is no check at all"),
    ("3r2k1/5ppp/8/8/8/8/5PPP/3q2K1 w - - 0 1", "false", "White is mated"),
    ("6k1/5ppp/8/8/8/8/5PPP/3q1RK1 w - - 0 1", "false", "no check: the rook is needed at home"),
]


def closed(board: chess.Board) -> bool:
    """Tell by plain elimination whether the side to move can check for ever.

    A check that mates ends the game, so it goes on for ever in no sense that
    helps or harms; it counts as answered, since no reply escapes it.
    """
    checks: dict[str, list[list[str]]] = {}
    waiting = [board]
    while waiting:
        at = waiting.pop()
        if at.epd() in checks:
            continue
        checks[at.epd()] = []
        for move in at.legal_moves:
            after = at.copy(stack=False)
            after.push(move)
            if not after.is_check():
                continue
            reached = []
            for reply in after.legal_moves:
                last = after.copy(stack=False)
                last.push(reply)
                reached.append(last.epd())
                waiting.append(last)
            checks[at.epd()].append(reached)
    left = set(checks)
    while True:
        kept = {name for name in left if any(set(reached) <= left for reached in checks[name])}
        if kept == left:
            return board.epd() in left
        left = kept


# From random placing of few pieces; each has under 500 positions within reach of checks.
SMALL = [
    "k7/rp5R/1p6/8/2K5/8/8/2N5 w - - 0 1",
    "7k/6pp/2R3r1/8/8/5K2/8/8 w - - 0 1",
    "k7/pp6/8/1K6/8/8/8/7Q w - - 0 1",
    "8/8/8/7R/2K5/3r4/1pp5/1k6 w - - 0 1",
    "7B/3K4/3B4/8/8/p1r5/2p5/k7 w - - 0 1",
    "k7/pb6/n7/8/8/1N6/2R5/3K4 w - - 0 1",
    "6nk/6pb/8/8/6K1/2N5/8/7R w - - 0 1",
    "8/8/1QK5/8/8/7p/6p1/5r1k w - - 0 1",
    "k7/p7/1R6/6NK/8/8/8/8 w - - 0 1",
    "8/8/8/8/8/5Kp1/1R4rp/7k w - - 0 1",
]


@pytest.mark.parametrize(("fen", "status", "why"), KNOWN, ids=[why for _, _, why in KNOWN])
def test_known_perpetuals(fen, status, why):
    outcome = prove(fen, Perpetual())
    assert outcome.status == status
    if outcome.proof is not None:
        check(outcome.proof)


@pytest.mark.parametrize("fen", SMALL)
def test_small_positions_agree_with_plain_elimination(fen):
    board = chess.Board(fen)
    assert prove(board, Perpetual()).status == ("proved" if closed(board) else "false")


def test_after_a_first_check_that_is_given():
    fen = KNOWN[0][0]
    outcome = prove(fen, Perpetual(), move="Qe8+")
    assert outcome.status == "proved"
    check(outcome.proof)
    assert outcome.proof.key == chess.Move.from_uci("h5e8")
    assert prove(fen, Perpetual(), move="Qf7+").status == "false"  # the king takes the queen


def test_a_first_move_that_gives_no_check_settles_it():
    """It is no "not proved": a longer search would say the same."""
    outcome = prove(KNOWN[0][0], Perpetual(), move="Kf1")
    assert outcome.status == "false"
