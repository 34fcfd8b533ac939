"""What was read of a game once is not read again, and nothing else is believed."""

import json

import pytest
from thoroughness import some

from chessnb import Lesson
from chessnb.teaching.kept_reading import Reading
from chessnb.teaching.turning_points import turning_points

GAME = (
    '[Event "Handbook"]\n\n1. e4 e5 2. Nf3 d6 3. Bc4 Bg4 4. Nc3 g6 5. Nxe5 Bxd1 '
    "6. Bxf7+ Ke7 7. Nd5# 1-0\n"
)


@pytest.fixture
def path(tmp_path):
    place = tmp_path / "game.pgn"
    place.write_text(GAME)
    return place


def looked_at(path, *, most=6):
    """Return what is read, and how many moves were looked at for it."""
    moves = []
    reading = Reading(Lesson.read(path), most=most)
    found = reading.turning_points(lambda number, count: moves.append(number))
    reading.keep()
    return found, len(moves)


def told(found):
    return [(one.moment.address, one.weight, one.reasons, one.signs, one.motifs) for one in found]


def test_what_is_kept_is_what_was_found_and_no_move_is_looked_at_again(path):
    (first, count), moves = looked_at(path)
    assert moves == 13
    (again, same), moves = looked_at(path)
    assert moves == 0
    assert (told(again), same) == (told(first), count)
    fresh, number = turning_points(Lesson.read(path), most=6)
    assert (told(again), same) == (told(fresh), number)
    assert any(one.signs for one in again)


@pytest.mark.thorough
def test_another_number_of_stops_or_another_game_is_read_anew(path):
    looked_at(path)
    assert looked_at(path, most=2)[1] == 13
    path.write_text(GAME.replace("5. Nxe5", "5. Nxe5 {A shock.}"))
    assert looked_at(path, most=2)[1] == 13


HOW = ["weight", "words", "moment", "no seal", "no points", "cut"]


@pytest.mark.parametrize("how", some(HOW))
def test_what_was_changed_by_hand_is_read_anew(path, how):
    first, _ = looked_at(path)
    book = path.with_suffix(".proofs.json")
    data = json.loads(book.read_text())
    reading = data["reading"]
    match how:
        case "weight":
            reading["points"][0]["weight"] += 1
        case "words":
            signs = next(one["signs"] for one in reading["points"] if one["signs"])
            signs[0]["words"] = "White passes over a mate in 1"
        case "moment":
            reading["points"][0]["moment"] = 99
        case "no seal":
            del reading["seal"]
        case "no points":
            reading["points"] = None
        case "cut":
            data["reading"] = {"of": reading["of"]}
    book.write_text(json.dumps(data))
    again, moves = looked_at(path)
    assert moves == 13
    assert told(again[0]) == told(first[0])


@pytest.mark.thorough
def test_a_lesson_that_is_in_no_file_is_read_each_time():
    lesson = Lesson.from_text(GAME)
    moves = []
    for _ in range(2):
        reading = Reading(lesson, most=6)
        reading.turning_points(lambda number, count: moves.append(number))
        reading.keep()
    assert len(moves) == 26


def test_nothing_is_written_before_it_is_kept(path):
    Reading(Lesson.read(path), most=6).turning_points()
    assert not path.with_suffix(".proofs.json").exists()
