"""What a drafted page asks about what it tells."""

import pytest

from chessnb import Lesson, page, questions
from chessnb.teaching.questions.asked_at_stop import question_at

GAME = "1. e4 e5 2. Qh5 Nc6 3. Bc4 Qe7 4. Nf3 Nf6 *"
PINNED = "1. e4 e5 2. Nf3 Nc6 3. Bb5 d6 *"


@pytest.mark.parametrize(
    ("game", "at", "kinds", "name"),
    [
        (GAME, "3. Bc4", ["threat"], "threatened"),  # mate on f7
        (PINNED, "3... d6", ["pin"], "pinned"),
        (PINNED, "3... d6", ["bishop pair", "pin"], "pinned"),
        (PINNED, "2. Nf3", ["pin"], None),  # nothing is pinned there
        (PINNED, "3... d6", ["purpose"], None),
        (PINNED, "3... d6", [], None),
        (PINNED, "2. Nf3", ["left"], None),  # nothing is left to be taken
    ],
)
def test_the_question_fits_what_was_found_or_there_is_none(game, at, kinds, name):
    moment = Lesson.from_text(game).after(at)
    made = question_at(moment, kinds)
    assert (made[0] if made else None) == name


def test_what_is_chosen_can_be_asked_on_the_page(capsys):
    moment = Lesson.from_text(GAME).after("3. Bc4")
    name, given = question_at(moment, ["threat"])
    with page(moment, ask=getattr(questions, name)(moment, *given)):
        pass
    told = capsys.readouterr().out
    assert "3... | question | what is threatened" in told
    assert "Qxf7" not in told
