"""Motif tags: what a page is given, and what a reader without scripts sees."""

import json

import pytest

from chessnb import Lesson, MotifTags
from chessnb.errors import LessonError

FORK = "r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1"


def test_a_page_is_given_the_tag_its_marks_and_its_line():
    tags = MotifTags(FORK, "Nc7+")
    [tag] = tags.table["tags"]
    assert tag["motif"] == "fork"
    assert tag["line"][0] == "d5c7"
    assert {"role": "target", "square": "a8", "to": None} in tag["marks"]
    assert tag["gain"].startswith("2 points")
    json.dumps(tags.table)


def test_a_moment_is_tagged_in_its_line():
    lesson = Lesson.from_text(f'[SetUp "1"]\n[FEN "{FORK}"]\n\n1. Nc7+ Kd7 2. Nxa8 *')
    tags = MotifTags(lesson.after("1. Nc7+"))
    assert tags.in_words == "fork (2 points (rook for knight))"


def test_the_saved_form_has_its_record_and_pictures_without_scripts():
    bundle, _ = MotifTags(FORK, "Nc7+")._repr_mimebundle_()
    assert bundle["text/plain"] == (
        "1. Nc7+ | tactic | fork | by Nc7 | on Ra8 Ke8 | 2 points | proved"
    )
    assert bundle["text/html"].count("<img") == 1
    assert "<script" not in bundle["text/html"]


def test_no_tactic_is_said():
    tags = MotifTags(FORK, "Ne3")
    assert tags.in_words == "no tactic in 1. Ne3"
    assert tags.table["tags"] == []
    bundle, _ = tags._repr_mimebundle_()
    assert "No tactic in 1. Ne3." in bundle["text/html"]


def test_a_start_has_no_move_to_tag():
    with pytest.raises(LessonError, match="no move"):
        MotifTags(Lesson.from_text("1. e4").start)


def test_the_marks_belong_to_a_position_of_the_line():
    tags = MotifTags("6k1/6pp/8/2q5/8/7n/6PP/R6K b - - 0 1", "Qg1+")
    shown = {tag["motif"]: (tag["at"], tag["kind"]) for tag in tags.table["tags"]}
    assert shown == {"decoy": (3, "mate"), "smothered mate": (3, "mate"), "sacrifice": (1, "mate")}
    [hanging] = MotifTags("6k1/5ppp/8/3n4/8/8/5PPP/3R2K1 w - - 0 1", "Rxd5").table["tags"]
    assert (hanging["at"], hanging["kind"]) == (0, "gain")
    [draw] = MotifTags("6k1/6p1/8/7Q/8/8/qr4PP/7K w - - 0 1", "Qe8+").table["tags"]
    assert (draw["at"], draw["kind"]) == (1, "draw")
