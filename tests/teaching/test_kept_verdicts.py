"""Verdicts kept in a file: hints, of which nothing is told that was not made again."""

import json

import chess
import pytest

from chessnb.proof import Measure
from chessnb.search.proof_book import ProofBook
from chessnb.teaching.kept_verdicts import kept_verdict, verdict_data
from chessnb.verdicts.depth import Depth
from chessnb.verdicts.judge import verdict

DEPTH = Depth(mate=2, within=2, budget=50_000)


def book_with(tmp_path, board: chess.Board, data: dict[str, object]) -> ProofBook:
    book = ProofBook(tmp_path / "lesson.proofs.json")
    book.keep_verdicts(board, data)
    book.save()
    return ProofBook(tmp_path / "lesson.proofs.json")


def test_a_kept_verdict_is_the_one_that_was_found(tmp_path):
    board = chess.Board("6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1")
    found = {move.uci(): verdict(board, move, depth=DEPTH) for move in board.legal_moves}
    book = book_with(tmp_path, board, {uci: verdict_data(one) for uci, one in found.items()})
    for uci, one in found.items():
        kept = kept_verdict(book, board, chess.Move.from_uci(uci))
        assert kept is not None
        assert (kept.kind, kept.words, kept.rank) == (one.kind, one.words, one.rank)
    assert {one.kind for one in found.values()} >= {"checkmate", "mated"}


def damaged(data: dict[str, object]) -> list[dict[str, object]]:
    """Return data that claim what their proof does not prove."""
    other = json.loads(json.dumps(data).replace('"white"', '"black"'))
    return [
        {**data, "kind": "mated"},
        {**data, "kind": "loses", "points": 9},
        {**data, "kind": "splendid"},
        {key: value for key, value in data.items() if key != "proof"},
        {**data, "proof": {**data["proof"], "nodes": []}},  # type: ignore[dict-item]
        {**data, "proof": "none"},
        other,
    ]


def test_a_kept_verdict_that_its_proof_does_not_prove_is_passed_over(tmp_path):
    board = chess.Board("7k/8/5K2/8/8/8/6Q1/8 w - - 0 1")
    move = board.parse_san("Kf7")
    found = verdict(board, move, depth=DEPTH)
    assert found.kind == "mates"
    good = verdict_data(found)
    assert kept_verdict(book_with(tmp_path, board, {move.uci(): good}), board, move) is not None
    # No number and no word of an entry is told: they are made of its proof.
    more = {**good, "moves": 1, "points": 9, "pieces": "a queen"}
    assert kept_verdict(book_with(tmp_path, board, {move.uci(): more}), board, move) == found
    for entry in damaged(good):
        assert kept_verdict(book_with(tmp_path, board, {move.uci(): entry}), board, move) is None


OPENING = "rnbqkbnr/pppp1ppp/8/4p2Q/4P3/8/PPPP1PPP/RNB1KBNR b KQkq - 1 2"


def test_that_nothing_was_found_is_searched_again_before_it_is_told(tmp_path):
    board = chess.Board(OPENING)
    king = board.parse_san("Ke7")
    assert verdict(board, king, depth=DEPTH).kind == "mated"
    forged = {"kind": "nothing", "depth": [3, 3, 400_000]}
    assert kept_verdict(book_with(tmp_path, board, {king.uci(): forged}), board, king) is None
    true = verdict_data(verdict(board, board.parse_san("Nc6"), depth=DEPTH))
    knight = board.parse_san("Nc6")
    assert true["kind"] == "nothing"
    kept = kept_verdict(book_with(tmp_path, board, {knight.uci(): true}), board, knight)
    assert kept is not None
    assert kept.kind == "nothing"


@pytest.mark.parametrize("kind", ["not settled", "checkmate", "draw", "stalemate"])
def test_a_kind_that_the_board_does_not_show_is_passed_over(tmp_path, kind):
    board = chess.Board(OPENING)
    move = board.parse_san("Nc6")
    forged = {"kind": kind, "depth": [3, 3, 400_000]}
    assert kept_verdict(book_with(tmp_path, board, {move.uci(): forged}), board, move) is None


def test_a_gain_that_is_measured_from_a_forged_balance_is_passed_over(tmp_path):
    board = chess.Board("4k3/8/8/3r4/8/8/8/3QK3 w - - 0 1")
    move = board.parse_san("Kf1")  # the queen hangs
    found = verdict(board, move, depth=DEPTH)
    assert (found.kind, found.points) == ("offers", 9)
    good = verdict_data(found)
    assert kept_verdict(book_with(tmp_path, board, {move.uci(): good}), board, move) == found
    proof = json.loads(json.dumps(good["proof"]))
    for measure in (
        ["number", -40],  # named by whoever wrote the file
        ["hold", *proof["goal"]["measure"][1:]],  # another rule
        ["loss", "4k3/8/8/8/8/8/8/3QK3 w - - 0 1", "", move.uci()],  # another position
        ["loss", board.fen(), "", ""],  # which does not lead to the proof's
    ):
        forged = {**good, "proof": {**proof, "goal": {**proof["goal"], "measure": measure}}}
        book = book_with(tmp_path, board, {move.uci(): forged})
        assert kept_verdict(book, board, move) is None, measure
    assert Measure.loss(board).value == -4


def test_what_is_only_taken_is_never_told_as_lost(tmp_path):
    """Whether it is kept may be open of an offer alone, whatever the file says."""
    board = chess.Board()
    for move in [
        "e4",
        "c6",
        "d4",
        "d5",
        "Nc3",
        "dxe4",
        "Nxe4",
        "Nf6",
        "Qd3",
        "e5",
        "dxe5",
        "Qa5+",
        "Bd2",
        "Qxe5",
    ]:
        board.push_san(move)
    castles = board.parse_san("O-O-O")
    found = verdict(board, castles)
    assert (found.kind, found.kept) == ("offers", False)
    data = verdict_data(found)
    assert kept_verdict(book_with(tmp_path, board, {castles.uci(): data}), board, castles) == found
    for change in ({"kind": "loses"}, {"kind": "loses", "kept": True}, {"kept": True}):
        book = book_with(tmp_path, board, {castles.uci(): {**data, **change}})
        assert kept_verdict(book, board, castles) is None, change


def test_what_a_fork_wins_is_no_offer_whatever_the_file_says(tmp_path):
    board = chess.Board("r3k3/2p2ppp/5p2/P2N4/8/8/5PPP/4K3 b - - 0 14")
    move = board.parse_san("f5")  # Nxc7+ comes next
    found = verdict(board, move, depth=DEPTH)
    assert found.kind == "loses"
    data = {**verdict_data(found), "kind": "offers"}
    assert kept_verdict(book_with(tmp_path, board, {move.uci(): data}), board, move) is None
