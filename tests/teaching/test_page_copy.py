"""A page as plain values: what it says, and back from JSON."""

import json

from chessnb import Lesson, claims, page
from chessnb.teaching.page_copy import copy_data, copy_from, page_copy
from chessnb.teaching.spread import Spread


def spread_of(game, address, *finders, ask="find the move"):
    lesson = Lesson.from_text(game)
    moment = lesson.before(address)
    return Spread(moment=moment, ask=ask, parts=tuple(find(moment) for find in finders))


def mates(moment):
    return claims.mates(moment, within=1)


def test_a_copy_says_what_the_page_says_and_comes_back_from_json():
    spread = spread_of("1. f3 e5 2. g4 {Oh no} Qh4# *", "2... Qh4#", mates)
    copy = page_copy(spread)
    assert copy.asks
    assert (copy.answer, copy.ply, copy.ahead, copy.last_move) == ("2... Qh4#", 3, 1, "g2g4")
    assert [one.text for one in copy.told] == [one.text for one in spread.told]
    assert copy.moves == ("Qh4#", "e5", "f3", "g4")
    assert copy_from(json.loads(json.dumps(copy_data(copy)))) == copy


def test_a_mistake_is_no_answer_whoever_calls_it_one():
    marked = spread_of("1. f3 e5 2. g4?? Qh4# *", "2. g4")
    assert page_copy(marked).answer == "not 2. g4??, which was played"
    assert marked.question == "White to move. What would you play?"
    proved = spread_of("1. f3 e5 2. g4 Qh4# *", "2. g4", lambda m: claims.loses(m, "g4", mate=1))
    assert page_copy(proved).answer == "not 2. g4, which was played"
    assert proved.question == marked.question


def test_a_page_that_asks_nothing_has_no_answer():
    copy = page_copy(spread_of("1. f3 e5 2. g4 Qh4# *", "2... Qh4#", ask=None), turned=True)
    assert (copy.asks, copy.answer, copy.turned) == (False, "", True)


def test_no_copy_is_made_unless_it_is_wanted(capsys):
    lesson = Lesson.from_text("1. e4 *")
    with page(lesson.end):
        pass
    assert "json" not in capsys.readouterr().out
