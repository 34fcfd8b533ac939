"""White must give check: every other move lets Black mate, and some check does not.

The positions are made here, and worked out by hand.
"""

from itertools import islice

import chess
import pytest
from boards import few_pieces
from oracle import Oracle
from thoroughness import scaled

from chessnb import Lesson, claims
from chessnb.claims import FalseClaim, UnprovedClaim
from chessnb.findings.record import read_record

# Queen and rook surround the king; whatever White does, Black gives check on the first rank or
# on h3 and mates on g2.  Only Qe8+ Kh7 Qh5+ and so on keeps Black from it, or Qd5+.
SURROUNDED = "6k1/6p1/8/7Q/8/2q5/1r6/7K w - - 0 1"
# The same with a rook for the queen: Qd1 guards the first rank, and Black has no mate.
TWO_ROOKS = "6k1/6p1/8/7Q/8/r7/1r6/7K w - - 0 1"
# A knight has two checks, and each only puts the mate off.
SPITE = "6k1/6p1/8/8/6N1/2q5/1r6/7K w - - 0 1"
# The queen on g2 is guarded; the rook must take it, and gives check from there.
ONE_MOVE = "8/1b6/8/8/8/6R1/k5q1/7K w - - 0 1"


def test_every_other_move_is_mated():
    claim = claims.must_check(SURROUNDED)
    assert claim.words == "White must give check: after anything else Black mates in 3"
    assert str(claim) == "1. | must check | mate 3 | searched"
    assert claim.evidence[0] == "The checks: Qd5+, Qe8+, Qf7+, Qh7+ and Qh8+."
    assert claim.evidence[1] == "After 1. Qd5+ Black has no mate in 4."
    lines = claim.evidence[2:]
    assert lines[0].startswith("1. Qg4 ")  # the longest resistance, three moves
    assert {len(line.split()) for line in lines[1:-1]} == {6}  # the others take two


def test_the_lines_that_are_shown_are_played_and_end_in_mate():
    claim = claims.must_check(SURROUNDED)
    mates = [line for line in claim.evidence[2:] if line.endswith("#.")]
    assert len(mates) == 12
    assert claim.evidence[-1] == "and 4 more lines."
    for line in mates:
        game = Lesson.from_text(f'[FEN "{SURROUNDED}"]\n\n{line} *')
        assert game.end.board.is_checkmate()
        assert not game.start.next.board.is_check()


def test_for_black_it_is_the_same():
    board = chess.Board(SURROUNDED).mirror()
    claim = claims.must_check(board)
    assert claim.words == "Black must give check: after anything else White mates in 3"
    assert str(claim) == "1... | must check | mate 3 | searched"


def test_one_quiet_move_is_mated_too_late():
    """After Qg4 the mate takes three moves: it is the one that holds out longest."""
    with pytest.raises(FalseClaim) as caught:
        claims.must_check(SURROUNDED, mate=2)
    assert caught.value.reason == "after 1. Qg4 there is no mate in 2 (searched)"
    assert str(caught.value) == "1. | must check | mate 2 | wrong"
    assert caught.value.claim == "White must give check: after anything else Black mates in 2"
    assert caught.value.moves == (chess.Move.from_uci("h5g4"),)
    assert read_record(str(caught.value)) == caught.value.record


def test_a_quiet_move_that_defends_is_named():
    with pytest.raises(FalseClaim) as caught:
        claims.must_check(TWO_ROOKS)
    assert caught.value.reason in {
        f"after 1. {quiet} there is no mate in 3 (searched)"
        for quiet in ("Qc5", "Qd1", "Qg4", "Qg5", "Qg6", "Qh2")
    }


def test_checks_that_only_put_the_mate_off_are_no_must():
    with pytest.raises(FalseClaim) as caught:
        claims.must_check(SPITE)
    assert caught.value.reason.startswith("Black mates after the checks too: 1. Nf6+ ")
    assert caught.value.reason.endswith("#")
    assert caught.value.moves[0] == chess.Move.from_uci("g4f6")


def test_without_a_check_there_is_no_must():
    with pytest.raises(FalseClaim) as caught:
        claims.must_check("6k1/6p1/8/8/8/2q5/1r6/7K w - - 0 1")
    assert caught.value.reason == "White has no check"


def test_where_every_move_gives_check_there_is_nothing_else():
    with pytest.raises(FalseClaim) as caught:
        claims.must_check(ONE_MOVE)
    assert caught.value.reason == "every legal move gives check: White has nothing else to try"


def test_a_check_that_mates_is_one_that_saves():
    """The rook mates on a8; after anything else Black mates on g2 or f1."""
    claim = claims.must_check("6k1/R2p1ppp/8/8/5n2/7q/7P/7K w - - 0 1", mate=1)
    assert claim.words == "White must give check: after anything else Black mates at once"
    assert claim.evidence[:2] == (
        "The checks: Ra8#.",
        "After 1. Ra8# Black has no mate in 2.",
    )


@pytest.mark.parametrize(
    "fen", ["7k/5Q2/6K1/8/8/8/8/8 b - - 0 1", "R5k1/5ppp/8/8/8/8/8/4K3 b - - 0 1"]
)
def test_after_the_end_nobody_must_do_anything(fen):
    with pytest.raises(FalseClaim, match="must check") as caught:
        claims.must_check(fen)
    assert caught.value.reason.startswith("the game is over: Black is ")


def test_a_spent_budget_proves_nothing():
    with pytest.raises(UnprovedClaim) as caught:
        claims.must_check(SURROUNDED, budget=20)
    assert str(caught.value) == "1. | must check | mate 3 | not proved"


@pytest.mark.parametrize("mate", [0, -1, 1.5, "soon", None, True, 41])
def test_mate_is_a_number_of_moves(mate):
    with pytest.raises(ValueError, match="mate is a whole number from 1 to"):
        claims.must_check(SURROUNDED, mate=mate)


# -- against the definition ------------------------------------------------------------------


def expected(board: chess.Board) -> bool:
    """Say by brute force whether every move but some check lets Black mate at once."""
    checks = [move for move in board.legal_moves if board.gives_check(move)]
    others = [move for move in board.legal_moves if move not in checks]
    if not others or not all(mated(board, move, within=1) for move in others):
        return False
    return not all(mated(board, move, within=2) for move in checks)


def mated(board: chess.Board, move: chess.Move, *, within: int) -> bool:
    after = board.copy(stack=False)
    after.push(move)
    return Oracle(attacker=chess.BLACK, mate=within).says(after)


def test_it_holds_where_the_definition_does():
    held = 0
    for board in islice(few_pieces("KRkqqr", seed=2), scaled(1_000, least=150)):
        if not any(map(board.gives_check, board.legal_moves)):
            continue
        try:
            found = bool(claims.must_check(board, mate=1))
        except FalseClaim:
            found = False
        assert found == expected(board), board.fen()
        held += found
    assert held >= 2
