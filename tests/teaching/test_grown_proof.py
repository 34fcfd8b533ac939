"""Proofs grown with an adviser's moves: a real engine names them, the checker replays all."""

import chess
import pytest

from chessnb import Lesson, claims
from chessnb.claims import UnprovedClaim
from chessnb.proof import Mate, check
from chessnb.search.proof_book import book_of
from chessnb.teaching import grown_proof
from chessnb.teaching.adviser import MATED, Advice, Adviser
from chessnb.teaching.grown_proof import grow_mate

# From games of an engine against itself, played for this test.
MATES = [
    ("8/8/4k3/8/8/3K4/8/R6R w - - 0 1", 7),
    ("6r1/1pp1bk1p/2n4p/3q4/1p1P2b1/r7/P2K1P2/Q5N1 b - - 1 23", 5),
]


@pytest.fixture(scope="module")
def adviser():
    with Adviser(positions=60_000) as found:
        yield found


@pytest.mark.parametrize(("fen", "within"), MATES)
def test_a_proof_grows_where_the_search_alone_is_given_too_little(
    fen, within, adviser, monkeypatch
):
    monkeypatch.setattr(grown_proof, "LEAF_BUDGET", 300)
    proof = grow_mate(chess.Board(fen), within, adviser)
    assert proof is not None
    check(proof)
    assert proof.goal == Mate(within=within)
    assert proof.moves <= within


class Wrong:
    """An adviser that sees a mate everywhere, in the first move by name."""

    def ask(self, board):
        return Advice(score=MATED - 1, best=min(board.legal_moves, key=chess.Move.uci))


def test_an_adviser_that_errs_grows_no_proof(monkeypatch):
    monkeypatch.setattr(grown_proof, "LEAF_BUDGET", 1)
    assert grow_mate(chess.Board(), 6, Wrong()) is None


def test_a_grown_proof_belongs_to_the_lesson_and_without_its_file_nothing_is_proved(
    tmp_path, adviser, monkeypatch
):
    monkeypatch.setattr(grown_proof, "LEAF_BUDGET", 300)
    fen, within = MATES[1]
    game = tmp_path / "hunt.pgn"
    game.write_text(f'[SetUp "1"]\n[FEN "{fen}"]\n\n*\n', encoding="utf-8")
    start = Lesson.read(game).start
    with pytest.raises(UnprovedClaim):
        claims.mates(start, within=within, budget=500)
    proof = grow_mate(start.board, within, adviser)
    book_of(start).keep_grown(proof, None)
    assert claims.mates(Lesson.read(game).start, within=within, budget=500).proof == proof
    (tmp_path / "hunt.proofs.json").unlink()
    with pytest.raises(UnprovedClaim):
        claims.mates(Lesson.read(game).start, within=within, budget=500)
