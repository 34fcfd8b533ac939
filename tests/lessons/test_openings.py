"""Openings are named by their positions, in whatever order the moves were made."""

import json
from pathlib import Path

import chess
import pytest

from chessnb import Lesson
from chessnb.errors import LessonError
from chessnb.lessons import opening_of, openings

TABLE = json.loads(Path(openings.__file__).with_name("openings.json").read_text(encoding="utf-8"))


def test_every_line_is_legal_and_no_two_lead_to_one_position():
    assert len(TABLE) > 300
    assert len(openings.names()) == len(TABLE)
    assert list(TABLE) == sorted(TABLE)
    for moves in TABLE.values():
        assert len(moves.split()) <= openings.LONGEST
        board = chess.Board()
        for san in moves.split():
            assert board.san(board.push_san(san) and board.pop()) == san
            board.push_san(san)


def test_a_variation_begins_with_an_opening_of_its_family():
    """On the way to a variation its family's name, or a wider one, is met before it."""
    families = {name.partition(":")[0] for name in TABLE}
    alone = []
    for name, moves in TABLE.items():
        board = chess.Board()
        met = []
        for san in moves.split():
            board.push_san(san)
            met.append(openings.name_of(board))
        assert met[-1] == name
        if ":" in name and not any(met[:-1]):
            alone.append(name)
    assert not alone
    assert {"Ruy Lopez", "Sicilian Defence", "Queen's Gambit Declined", "Dutch Defence"} <= families


@pytest.mark.parametrize(
    ("moves", "name", "at"),
    [
        (
            "1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 6. d3 b5",
            "Ruy Lopez: Closed Variation",
            "5... Be7",
        ),
        # Transpositions: the French by way of the queen's pawn, the Nimzo-Indian by the English.
        ("1. d4 e6 2. e4 d5 3. Nc3 Bb4", "French Defence: Winawer Variation", "3... Bb4"),
        ("1. c4 Nf6 2. Nc3 e6 3. d4 Bb4 4. e3", "Nimzo-Indian Defence: Rubinstein System", "4. e3"),
        ("1. Nf3 c5 2. e4 d6", "Sicilian Defence: Modern Variations", "2... d6"),
        ("1. c4 e6 2. d4 d5", "Queen's Gambit Declined", "2... d5"),
        # A game that returns to a position that is named once more.
        ("1. Nf3 Nf6 2. Ng1 Ng8 3. e4 c5", "Sicilian Defence", "3... c5"),
        ("1. e4 e5 2. Ke2 Ke7", "Open Game", "1... e5"),
    ],
)
def test_the_last_position_with_a_name_counts(moves, name, at):
    found = opening_of(Lesson.from_text(moves))
    assert (found.name, found.moment.numbered) == (name, at)


def test_a_position_without_the_right_to_castle_is_another_one():
    found = opening_of(Lesson.from_text("1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. Nf3 Nc6 5. Bb5"))
    assert found.name == "Open Game"


def test_a_sideline_is_not_looked_at():
    found = opening_of(Lesson.from_text("1. e4 (1. d4 d5 2. c4 c6) 1... e6"))
    assert found.name == "French Defence"


def test_a_game_without_a_known_position_has_no_name():
    assert opening_of(Lesson.from_text("1. h4 h5 2. Na3 Na6")) is None
    assert opening_of(Lesson.from_text("*")) is None


def test_a_lesson_of_positions_has_no_opening():
    lesson = Lesson(title="Positions")
    lesson.add_position("4k3/8/8/8/8/8/8/4K2R w K - 0 1")
    with pytest.raises(LessonError):
        opening_of(lesson)
