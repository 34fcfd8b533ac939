"""Motifs against labelled positions: what must be named, and what must not."""

from collections import Counter

import chess
import pytest

from chessnb.notation import read_line
from chessnb.proof import check
from motifs.gold import LABELS
from motifs.scoring import NAMES, TWELVE, rows, score, tagged


@pytest.fixture(scope="module")
def found():
    return score()


def test_each_of_the_twelve_has_ten_of_each_kind_in_both_colours():
    must, never, sides = Counter(), Counter(), {title: set() for title in TWELVE}
    for label in LABELS:
        for title, names in TWELVE.items():
            must[title] += bool(set(names) & set(label.must))
            never[title] += bool(set(names) & set(label.never))
            if set(names) & set(label.must):
                sides[title].add(chess.Board(label.fen).turn)
    for title in TWELVE:
        assert must[title] >= 10, title
        assert never[title] >= 10, title
    assert all(len(both) == 2 for both in sides.values()), sides


def test_every_label_is_a_legal_line_and_says_one_thing():
    for label in LABELS:
        assert read_line(label.fen, label.line), label
        assert label.must or label.never, label
        assert set(label.must) | set(label.may) | set(label.never) <= NAMES, label
        assert not set(label.never) & (set(label.must) | set(label.may)), label


def test_precision_and_recall(found):
    for title, count, precision, recall in rows(found):
        least = 0.9 if title == "all twelve" else 0.8
        assert precision >= least, (title, count, found.faults)
        assert recall >= least, (title, count, found.faults)


def test_no_near_miss_is_named():
    for label in LABELS:
        named = {tag.motif for tag in tagged(label)}
        assert not named & set(label.never), label


def test_every_sound_tag_stands_on_a_proof_that_replays():
    for label in LABELS[::3]:
        for tag in tagged(label):
            check(tag.proof)
            assert tag.proof.attacker == tag.side
            assert tag.proof.key == chess.Move.from_uci(tag.move)
            board = chess.Board(label.fen)
            for move in tag.steps:
                assert board.is_legal(move), (label, tag.steps)
                board.push(move)
