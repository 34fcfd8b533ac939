"""The proof book saves time and decides nothing: damage, age and forgery change no answer."""

import json
import os

import chess
import pytest

from chessnb import claims
from chessnb.lessons import Lesson
from chessnb.proof import Gain, Mate, Perpetual
from chessnb.proof.measure import Measure
from chessnb.search.budget import BUDGET
from chessnb.search.proof_book import KEEP, VERSION, ProofBook, book_of
from chessnb.search.prover import prove

# Composed here: 1. Ra8# is the only mate in one.
BACK_RANK = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
# Composed here: whoever could pass would mate with the next move, after 1... a6 or 1... a5.
TEMPO = "k1K5/p7/7R/8/8/8/8/8 w - - 0 1"


@pytest.fixture
def place(tmp_path):
    return tmp_path / "lantern-street.proofs.json"


@pytest.fixture
def kept(place):
    """A book on disk with one proof in it."""
    book = ProofBook(place)
    assert prove(BACK_RANK, Mate(within=1), book=book)
    book.save()
    return place


def the_entry(place):
    data = json.loads(place.read_text(encoding="utf-8"))
    ((question, entry),) = data["proofs"].items()
    return data, question, entry


def write(place, data):
    place.write_text(json.dumps(data), encoding="utf-8")


def found_in(place, goal=None):
    board = chess.Board(BACK_RANK)
    return ProofBook(place).find(board, chess.WHITE, goal or Mate(within=1), None, budget=BUDGET)


def test_a_kept_proof_is_found_again_without_a_search(kept):
    outcome = prove(BACK_RANK, Mate(within=1), book=ProofBook(kept))
    assert outcome
    assert outcome.positions == 0


def test_another_question_is_not_answered_by_it(kept):
    book = ProofBook(kept)
    board = chess.Board(BACK_RANK)
    other = chess.Move.from_uci("a1a7")
    assert book.find(board, chess.WHITE, Mate(within=1), other, budget=BUDGET) is None
    assert book.find(board, chess.BLACK, Mate(within=1), None, budget=BUDGET) is None
    assert book.find(board, chess.WHITE, Mate(within=2), None, budget=BUDGET) is None
    assert book.find(board, chess.WHITE, Perpetual(), None, budget=BUDGET) is None
    gain = Gain(points=1, within=1, measure=Measure.number(2))
    assert book.find(board, chess.WHITE, gain, None, budget=BUDGET) is None


@pytest.mark.parametrize(
    "text",
    [
        "",
        "not json",
        "[]",
        "null",
        "7",
        '"book"',
        "{}",
        '{"version": 1}',
        '{"version": 1, "proofs": 3, "verdicts": {}}',
        '{"version": 1, "proofs": [1], "verdicts": {}}',
        '{"version": 999, "proofs": {}, "verdicts": {}}',
        '{"version": 1, "proofs": {}, "verdicts": {}',
        "[" * 100_000,
        "\x00\x01",
    ],
)
def test_a_book_that_cannot_be_read_is_empty_and_says_so(place, text):
    place.write_text(text, encoding="utf-8")
    book = ProofBook(place)
    assert len(book) == 0
    assert place.name in book.damage
    assert prove(BACK_RANK, Mate(within=1), book=book)


def test_a_book_in_another_encoding_is_empty_and_says_so(place):
    place.write_bytes(b"\xff\xfe\x00{")
    assert ProofBook(place).damage


def test_a_folder_in_the_place_of_a_book_is_passed_over(place):
    place.mkdir()
    book = ProofBook(place)
    assert book.damage
    assert prove(BACK_RANK, Mate(within=1), book=book)


@pytest.mark.parametrize("cut", [1, 10, 40, 80, 120])
def test_a_book_cut_short_is_passed_over(kept, cut):
    kept.write_bytes(kept.read_bytes()[:-cut])
    assert found_in(kept) is None or cut == 1  # the last byte is only the end of the line


def odd_values():
    deep: list = []
    for _ in range(500):
        deep = [deep]
    return [None, 0, -1, "", "x", [], {}, [[]], {"proof": {}}, True, 10**30, deep]


@pytest.mark.parametrize("odd", odd_values(), ids=lambda odd: repr(odd)[:12])
def test_a_damaged_entry_is_passed_over_wherever_the_damage_is(kept, odd):
    data, question, entry = the_entry(kept)
    places = [((), odd), (("proof",), odd)]
    places += [(("proof", field), odd) for field in entry["proof"]]
    places += [(("proof", "nodes", number), odd) for number in range(len(entry["proof"]["nodes"]))]
    places += [(("proof", "nodes", 0, part), odd) for part in range(2)]
    places += [(("proof", "goal", "mate"), odd)]
    for path, value in places:
        damaged = json.loads(json.dumps(entry))
        if not path:
            damaged = value
        else:
            at = damaged
            for step in path[:-1]:
                at = at[step]
            at[path[-1]] = value
        write(kept, {**data, "proofs": {question: damaged}})
        proof = found_in(kept)
        if proof is not None:
            # Only what does not matter was damaged: the FEN is the asker's own,
            # a 1 may be written as true, an empty "stands" is none.
            assert proof == prove(BACK_RANK, Mate(within=1)).proof


@pytest.mark.parametrize(
    "node",
    [
        ["a1a7", 0],
        ["a1b8", 0],
        ["0000", 0],
        ["", 0],
        ["a1a8", 1],
        ["a1a8", 0, "g8h8", 0],
        ["a1a8", 0, "g8h8", 5],
        ["a1a8", 0, "g8h8"],
        ["a1a8", 0, "g8h8", -1],
        [["a1a8"], 0],
    ],
)
def test_a_forged_node_is_passed_over_and_the_truth_is_searched(kept, node):
    data, question, entry = the_entry(kept)
    entry["proof"]["nodes"] = [node]
    write(kept, {**data, "proofs": {question: entry}})
    assert found_in(kept) is None
    outcome = prove(BACK_RANK, Mate(within=1), book=ProofBook(kept))
    assert outcome.proof.key == chess.Move.from_uci("a1a8")


def test_a_proof_that_passes_is_no_proof(place):
    """FIDE Laws, article 1.2: the players move alternately; nobody may pass."""
    assert not prove(TEMPO, Mate(within=1))
    board = chess.Board(TEMPO)
    goal = Mate(within=2)
    board.push(chess.Move.null())
    replies = []
    nodes: list = []
    for reply in board.legal_moves:
        after = board.copy()
        after.push(reply)
        mate = next((m for m in after.legal_moves if _mates(after, m)), None)
        assert mate is not None, "the position was to be mated after any pass"
        nodes.append([mate.uci(), 0])
        replies += [reply.uci(), len(nodes)]
    forged = {"fen": TEMPO, "attacker": "white", "goal": {"mate": 2}}
    forged["nodes"] = [["0000", 0, *replies], *nodes]
    question = f"{chess.Board(TEMPO).epd()}; white: mate 2"
    write(
        place,
        {"version": VERSION, "proofs": {question: {"budget": 1, "proof": forged}}, "verdicts": {}},
    )
    assert ProofBook(place).find(chess.Board(TEMPO), chess.WHITE, goal, None, budget=BUDGET) is None


def _mates(board, move):
    after = board.copy()
    after.push(move)
    return after.is_checkmate()


# Composed here: mate in three by 1. Kf6 and two rook moves; 300 positions do not find it.
LADDER = "7k/8/8/5K2/8/8/8/R7 w - - 0 1"


def test_the_answer_is_the_same_with_the_book_and_without_it(place):
    """Also where the budget that asks is smaller than the one that found the proof."""
    book = ProofBook(place)
    whole = prove(LADDER, Mate(within=3), book=book)
    assert whole
    few = whole.positions // 3
    assert prove(LADDER, Mate(within=3), budget=few).status == "not settled"
    assert prove(LADDER, Mate(within=3), budget=few, book=book).status == "not settled"
    assert prove(LADDER, Mate(within=3), budget=10 * BUDGET, book=book).positions == 0


def lesson_at(folder):
    game = folder / "lantern-street.pgn"
    game.write_text(
        f'[Event "?"]\n[Result "*"]\n[SetUp "1"]\n[FEN "{BACK_RANK}"]\n\n1. Ra7 Kf8 *\n',
        encoding="utf-8",
    )
    return Lesson.read(game)


def files(folder):
    return sorted(path.name for path in folder.iterdir())


def test_a_claim_writes_no_book_unless_it_is_told_to(tmp_path, monkeypatch):
    monkeypatch.delenv(KEEP, raising=False)
    claims.mates(lesson_at(tmp_path).start, within=1)
    assert files(tmp_path) == ["lantern-street.pgn"]


def test_a_claim_told_to_keep_its_proof_writes_it_beside_the_game(tmp_path, monkeypatch):
    monkeypatch.setenv(KEEP, "1")
    kept = claims.mates(lesson_at(tmp_path).start, within=1)
    assert files(tmp_path) == ["lantern-street.pgn", "lantern-street.proofs.json"]
    monkeypatch.delenv(KEEP)
    assert claims.mates(lesson_at(tmp_path).start, within=1) == kept


def test_a_book_that_cannot_be_written_spoils_no_claim(tmp_path, monkeypatch):
    lesson = lesson_at(tmp_path)
    monkeypatch.setenv(KEEP, "1")
    monkeypatch.setattr("chessnb.search.proof_book.ProofBook.save", _no_room)
    assert claims.mates(lesson.start, within=1).proof


def _no_room(_book):
    raise OSError("no room")


def test_a_book_that_another_program_has_changed_is_read_again(tmp_path, monkeypatch):
    monkeypatch.setenv(KEEP, "1")
    lesson = lesson_at(tmp_path)
    claims.mates(lesson.start, within=1)
    assert len(book_of(lesson.start)) == 1
    place = tmp_path / "lantern-street.proofs.json"
    place.write_text("damaged", encoding="utf-8")
    os.utime(place, (1, 1))
    assert len(book_of(lesson.start)) == 0
    assert claims.mates(lesson.start, within=1).proof


def test_a_book_is_readable_one_entry_a_line(tmp_path, monkeypatch):
    monkeypatch.setenv(KEEP, "1")
    lesson = lesson_at(tmp_path)
    claims.mates(lesson.start, within=1)
    claims.mates(lesson.start, within=1, move="Ra8#")
    lines = (tmp_path / "lantern-street.proofs.json").read_text(encoding="utf-8").splitlines()
    assert sum("white: mate 1" in line for line in lines) == 2
