"""The motifs beyond the twelve against labelled positions, and those positions in their mirrors."""

import io

import chess
import chess.pgn
import pytest

from chessnb import motifs
from chessnb.claims import FalseClaim, shows
from chessnb.notation import read_line
from chessnb.proof import check
from motifs.gold_rest import LABELS, TORRE_LASKER
from motifs.scoring import REST, UNPROVED, rows_of_the_rest, score_rest, tagged
from motifs.test_mirror import changed_by, left_to_right, moved_by, over_colours

NAMED = [f"{(label.must or label.never)[0]}: {label.why}" for label in LABELS]


def test_each_has_four_of_each_kind_in_both_colours():
    for name in REST:
        must = [label for label in LABELS if name in label.must]
        assert len(must) >= 4, name
        assert sum(name in label.never for label in LABELS) >= 4, name
        assert len({label.board.turn for label in must}) == 2, name


@pytest.mark.thorough
@pytest.mark.parametrize("label", LABELS, ids=NAMED)
def test_label(label):
    board = label.board
    assert board.is_valid()
    assert read_line(board, label.line)
    assert set(label.must) | set(label.never) <= set(motifs.names())
    names = {tag.motif for tag in tagged(label)}
    assert set(label.must) <= names
    assert not names & set(label.never)


@pytest.mark.thorough
@pytest.mark.parametrize("flip", [over_colours, left_to_right])
@pytest.mark.parametrize("label", LABELS, ids=NAMED)
def test_label_in_the_mirror(label, flip):
    board = label.board
    asked = {*label.must, *label.never}
    start = board.root()
    if flip is left_to_right and start.castling_rights:
        if board.castling_rights:
            return  # castling has no mirror image
        board = board.copy(stack=False)
    moves = [moved_by(move, flip) for move in read_line(board, label.line)]
    tags = motifs.tag(changed_by(board, flip), line=moves, geometric=bool(UNPROVED & asked))
    assert {tag.motif for tag in tags} & asked == set(label.must)


@pytest.mark.thorough
def test_precision_and_recall():
    found = score_rest()
    for title, count, precision, recall in rows_of_the_rest(found):
        assert count, title
        assert (precision, recall) == (1, 1), (title, found.faults)


def test_every_sound_tag_stands_on_a_proof_that_replays():
    for label in LABELS:
        for tag in tagged(label):
            board = label.board
            if tag.proof is not None:
                check(tag.proof)
                assert tag.proof.attacker == tag.side
                assert tag.proof.key == chess.Move.from_uci(tag.move)
            for move in tag.steps:
                assert board.is_legal(move), (label, tag.steps)
                board.push(move)


def test_the_mill_of_moscow_is_reached_by_the_moves_of_the_game():
    game = chess.pgn.read_game(io.StringIO(TORRE_LASKER))
    board = game.end().board()
    assert not game.errors
    assert board.fullmove_number == 27
    assert board.piece_at(chess.F6) == chess.Piece.from_symbol("B")
    assert board.piece_at(chess.G7) == chess.Piece.from_symbol("R")
    assert board.king(chess.BLACK) == chess.H8


def test_a_threat_is_never_sound():
    for label in LABELS:
        if "threat" in label.must:
            (threat,) = (tag for tag in tagged(label) if tag.motif == "threat")
            assert not threat.sound
            assert "threat" not in {tag.motif for tag in motifs.tag(label.board, line=label.line)}


def test_what_is_offered_need_not_be_the_piece_that_moved():
    legal = next(label for label in LABELS if "Legal" in label.source)
    (tag,) = (tag for tag in tagged(legal) if tag.motif == "sacrifice")
    assert tag.targets == ("d1",)
    assert "the queen on d1" in tag.sentence.lower()


def test_in_zugzwang_every_piece_that_can_move_is_shown():
    morphy = next(label for label in LABELS if label.must == ("zugzwang",) and "Ra6" in label.line)
    (tag,) = (tag for tag in tagged(morphy) if tag.motif == "zugzwang")
    assert (tag.actor, tag.targets) == ("a6", ("b7", "b8"))
    marks = [(mark.role, mark.square) for mark in tag.marks]
    assert marks == [("actor", "a6"), ("lure", "b7"), ("lure", "b8")]
    assert tag.sentence == "Black has to move, and every move loses what a pass would keep"


@pytest.mark.thorough
@pytest.mark.parametrize(
    ("fen", "line", "motif", "why"),
    [
        ("r5k1/5ppp/8/8/8/6q1/P7/4R2K w - - 0 1", "Re8+ Rxe8", "stalemate trick",
         "it is no stalemate: White may still play a3"),
        ("6k1/8/8/7Q/8/8/qr4PP/7K w - - 0 1", "Qe8+ Kg7", "perpetual check",
         "after Kg7 the checks are not proved to go on"),
        ("6k1/6p1/8/7Q/8/8/6PP/7K w - - 0 1", "Qe8+ Kh7", "perpetual check",
         "White is not behind, and needs no draw"),
    ],
)  # fmt: skip
def test_a_draw_that_is_not_there_is_explained(fen, line, motif, why):
    with pytest.raises(FalseClaim, match=why):
        shows(fen, motif, line=line)


def test_what_was_completed_in_the_line_says_that_nothing_is_proved():
    label = next(one for one in LABELS if one.must == ("windmill",) and "Bxc4+" in one.line)
    (tag,) = (tag for tag in tagged(label) if tag.motif == "windmill")
    assert (tag.sound, tag.as_played, tag.gain) == (False, True, None)
    assert tag.words.endswith("take the bishop on c4 and the pawn on d4 on the way (as played)")
    assert "proved" not in str(tag.record)
    assert tag.record.status == "rules"
    claim = shows(label.board, "windmill", line=label.line)
    assert claim.record.status == "rules"
    with pytest.raises(FalseClaim):
        shows(label.board, "perpetual check", line=label.line)
