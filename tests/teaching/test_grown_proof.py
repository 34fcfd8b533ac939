"""Proofs grown with an adviser's moves: a real engine names them, the checker replays all."""

import chess
import pytest

from chessnb import Lesson, claims, mates_with_adviser
from chessnb.claims import FalseClaim, UnprovedClaim
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
    with pytest.raises(UnprovedClaim, match=r"stand in hunt\.proofs\.json, which is missing"):
        claims.mates(Lesson.read(game).start, within=within, budget=500)


def test_a_cell_asks_an_adviser_by_name_once_and_keeps_what_it_proved(tmp_path, monkeypatch):
    monkeypatch.setattr(grown_proof, "LEAF_BUDGET", 300)
    fen, within = MATES[1]
    game = tmp_path / "hunt.pgn"
    game.write_text(f'[SetUp "1"]\n[FEN "{fen}"]\n\n*\n', encoding="utf-8")
    start = Lesson.read(game).start
    found = mates_with_adviser(start, within=within, adviser="stockfish", budget=500)
    assert str(found) == f"23... | mates | black | {within} | proved"
    again = mates_with_adviser(Lesson.read(game).start, within=within, adviser="none", budget=500)
    assert again.proof == found.proof


def test_an_adviser_is_not_asked_where_no_lesson_could_keep_the_proof():
    fen, within = MATES[1]
    with pytest.raises(UnprovedClaim):
        mates_with_adviser(fen, within=within, adviser="none", budget=500)


def test_a_mate_that_is_not_there_is_wrong_whoever_is_asked(tmp_path):
    game = tmp_path / "hunt.pgn"
    game.write_text("1. e4 e5 *\n", encoding="utf-8")
    with pytest.raises(FalseClaim):
        mates_with_adviser(Lesson.read(game).start, within=1, adviser="none")
