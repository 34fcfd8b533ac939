"""The story of a game: how its moves are printed."""

from chessnb import Lesson
from chessnb.notebooks.drafting.story import Story


def told(movetext):
    story = Story()
    for node in Lesson.from_text(movetext).start.node.mainline():
        story.tell(node)
    return story.text()


def test_marks_stand_at_the_move_and_signs_after_it():
    assert told("1. e4 $1 $14 e5 $18 2. Nf3 $5 *") == "**1. e4! ⩲ e5 +− 2. Nf3!?**"


def test_a_number_that_the_standard_does_not_know_is_not_printed():
    assert told("1. e4 $146 e5 $1 $220 2. Nf3 $255 (2. f4 $146) *") == (
        "**1. e4 e5! 2. Nf3**\n\n> *Instead:* 2. f4"
    )
