"""Refutations: made by the solver, replayed by the checker, never believed when damaged."""

import random
from dataclasses import replace

import chess
import pytest
from boards import random_boards
from oracle import Oracle
from search.test_core import small_boards
from thoroughness import scaled

from chessnb import claims
from chessnb.proof import BrokenProof, Mate, Refutation, Tries, check_refutation
from chessnb.search import core
from chessnb.search import refuter as refuting
from chessnb.search.refuter import MOST_REPLIES, refute_mate

ROOK = "7k/8/5K2/8/8/8/8/R7 w - - 0 1"  # composed: mate in two, none in one


def test_there_is_one_exactly_where_brute_force_finds_no_mate():
    made = 0
    for board in small_boards(scaled(100), seed=31):
        for within in (1, 2):
            attacker = board.turn if made % 3 else not board.turn
            mates = Oracle(attacker=attacker, mate=within).says(board)
            found = refute_mate(board, within=within, side=attacker)
            assert (found is None) == mates, (board.fen(), within)
            made += found is not None
    assert made > scaled(120)


def test_in_a_full_position_it_is_made_for_two_moves_and_not_for_four():
    sizes = []
    for board in random_boards(scaled(40), seed=6):
        if board.is_game_over():
            continue
        found = refute_mate(board, within=2)
        if found is not None:
            sizes.append(found.size)
        assert refute_mate(board, within=4) is None or len(list(board.legal_moves)) < 8
    assert len(sizes) > scaled(30)
    assert max(sizes) <= MOST_REPLIES


def damaged(refutation, pick):
    """Yield damaged copies: a move left out, doubled, unanswered, answered wrongly, moved."""
    answers = refutation.tries.answers
    at = pick.randrange(len(answers))
    move, reply, further = answers[at]

    def with_answers(changed):
        return replace(refutation, tries=Tries(answers=tuple(changed)))

    yield with_answers(answers[:at] + answers[at + 1 :])
    yield with_answers((*answers, answers[at]))
    yield with_answers((*answers[:at], (move, reply and "", further), *answers[at + 1 :]))
    yield with_answers((*answers[:at], (move, "a1a1", further), *answers[at + 1 :]))
    yield with_answers((*answers[:at], (move, "0000", further), *answers[at + 1 :]))
    deeper = Tries(answers=(("a2a3", "", Tries()),))
    yield with_answers((*answers[:at], (move, reply, deeper), *answers[at + 1 :]))
    yield replace(refutation, goal=Mate(within=refutation.goal.within + 1))
    yield replace(refutation, attacker=not refutation.attacker)
    yield replace(refutation, first="a1a1" if not refutation.first else "")


def test_a_damaged_one_is_always_caught():
    pick = random.Random(12)
    caught = 0
    for board in small_boards(scaled(120), seed=33):
        found = refute_mate(board, within=2)
        if found is None or not any(reply for _, reply, _ in found.tries.answers):
            continue
        check_refutation(found)
        for broken in damaged(found, pick):
            if broken == found:
                continue
            with pytest.raises(BrokenProof):
                check_refutation(broken)
            caught += 1
    assert caught > scaled(300)


def test_a_reply_that_allows_the_mate_is_caught():
    board = chess.Board(ROOK)
    tries = []
    for move in board.legal_moves:
        board.push(move)
        replies = [reply.uci() for reply in board.legal_moves]
        tries.append((move.uci(), replies[0] if replies else "", Tries()))
        board.pop()
    made_up = Refutation(
        fen=ROOK, attacker=chess.WHITE, goal=Mate(within=2), tries=Tries(answers=tuple(tries))
    )
    with pytest.raises(BrokenProof, match="mates"):
        check_refutation(made_up)


def test_a_solver_that_lies_gets_nothing_through(monkeypatch):
    class Liar(core.Question):
        def run(self, positions):
            return core.REFUTED

        def escape(self):
            return core.legal_moves(self.fen)[0]

        def __init__(self, fen, **asked):
            self.fen = fen
            super().__init__(fen, **asked)

    monkeypatch.setattr(refuting.core, "Question", Liar)
    assert refute_mate(ROOK, within=2) is None  # the mate turns up behind the reply


def test_positions_that_cannot_be_are_refused():
    for fen in ("nonsense", "8/8/8/8/8/8/8/8 w - - 0 1"):
        with pytest.raises(BrokenProof):
            check_refutation(Refutation(fen=fen, attacker=chess.WHITE, goal=Mate(within=1)))


def test_a_claim_says_whether_it_was_replayed():
    with pytest.raises(claims.FalseClaim, match=r"no mate in 1 \(replayed\)"):
        claims.mates(ROOK, within=1)
    with pytest.raises(claims.FalseClaim, match=r"no mate in 4 \(searched\)"):
        claims.mates(chess.STARTING_FEN, within=4)
    assert "No mate in 1: every try was replayed." in claims.fastest_mate(ROOK, within=2).caution
