"""What a page may see of a lesson, and what it must not."""

import json

import pytest

from chessnb.errors import LessonError
from chessnb.lessons import Lesson
from chessnb.teaching.revealed_tree import REVEALS, RevealedTree, key_of, names_a_move

GAME = """\
[Event "Club evening"]
[White "Alder"]
[Black "Birch"]
[Result "*"]

1. e4 e5 (1... c5 2. Nf3 {Open.} (2. c3 d5)) 2. Nf3 {Now 2... Nc6 is best, and 3. Bb5 follows.}
(2. f4 exf4 3. Bc4) 2... Nc6 (2... Nf6 3. Nxe5) 3. Bb5 {A pin; e4 is defended.} (3. Bc4 Bc5) 3... a6 *
"""


def lesson() -> Lesson:
    return Lesson.from_text(GAME)


def sans(tree: RevealedTree) -> list[str]:
    return [row[2] for row in tree.data()["nodes"] if row[2]]


def test_all_is_the_whole_tree_once():
    game = lesson()
    shown = RevealedTree(game, game.start, "all")
    assert len(sans(shown)) == sum(1 for _ in game.moments())
    assert not any(row[6] for row in shown.data()["nodes"])


def test_a_glyph_has_its_sign_and_a_number_that_the_standard_does_not_know_has_none():
    game = Lesson.from_text("1. e4 $1 $146 e5 $220 2. Nf3 $14 $255 *")
    shown = RevealedTree(game, game.start, "all")
    assert [row[3] for row in shown.data()["nodes"][1:]] == ["!", "", "⩲"]


@pytest.mark.parametrize("reveal", ["so far", "ask"])
def test_up_to_a_moment_its_way_and_the_sidelines_that_left_it_are_shown(reveal):
    game = lesson()
    shown = RevealedTree(game, game.after("2. Nf3"), reveal)
    assert sorted(sans(shown)) == sorted(
        ["e4", "e5", "c5", "Nf3", "c3", "d5", "Nf3", "f4", "exf4", "Bc4"]
    )
    row = shown.data()["nodes"][shown.number_of(game.after("2. Nf3").node)]
    assert row[6] == 1, "more follows that is hidden"


def test_in_a_sideline_the_main_line_is_shown_no_further_than_its_move_there():
    game = lesson()
    shown = RevealedTree(game, game.after("1... c5"), "ask")
    assert sorted(sans(shown)) == ["c5", "e4", "e5"]


def test_what_is_hidden_is_not_in_the_data_in_any_form():
    game = Lesson.from_text(
        GAME.replace("(2... Nf6 3. Nxe5)", "(2... f5 {A gambit of 3. Nxe5.})"), title="Ten moves"
    )
    shown = RevealedTree(game, game.after("2. Nf3"), "ask")
    text = json.dumps(shown.data())
    for hidden in ("Nc6", "b8c6", "Bb5", "f1b5", "a7a6", "f7f5", "gambit", "Bc5", "Nxe5"):
        assert hidden not in text
    assert "2. Nf3" not in text  # a comment that names a hidden move waits as a whole


def test_going_on_reveals_one_move_of_the_main_line_and_the_whole_of_its_sidelines():
    game = lesson()
    node = game.after("2. Nf3").node
    shown = RevealedTree(game, game.after("2. Nf3"), "ask")
    before = len(shown)
    numbers = {shown.number_of(moment.node) for moment in game.moments() if moment.node in shown}
    assert shown.show_next(node)
    assert sans(shown)[before - 1 :] == ["Nc6", "Nf6", "Nxe5"]
    assert not shown.show_next(node), "nothing is hidden there any more"
    assert numbers <= set(range(before)), "numbers that a page knows stay"


def test_a_comment_is_shown_as_soon_as_all_moves_that_it_names_are():
    game = lesson()
    shown = RevealedTree(game, game.after("2. Nf3"), "ask")
    number = shown.number_of(game.after("2. Nf3").node)
    comments = []
    for address in ("2. Nf3", "2... Nc6"):
        shown.show_next(game.after(address).node)
        comments.append(shown.data()["nodes"][number][5])
    assert comments == ["", "Now 2... Nc6 is best, and 3. Bb5 follows."]


def test_a_square_is_no_move_unless_a_number_stands_before_it():
    hidden = frozenset({"e5", "Nf6", "O-O"})
    assert not names_a_move("The knight leaves e5.", hidden)
    assert names_a_move("After 3...e5 it is over.", hidden)
    assert names_a_move("Think of Nf6+!", hidden)
    assert names_a_move("Now O-O.", hidden)


def test_positions_of_a_lesson_are_roots_of_their_own():
    game = Lesson(title="Two endings")
    first = game.add_position("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", name="the pawn")
    game.add_position("3k4/8/8/8/8/8/4R3/4K3 w - - 0 1", name="the rook")
    game.add_line(first, "1. Kd2 Kd7")
    assert len(RevealedTree(game, first, "all").data()["roots"]) == 2
    hidden = RevealedTree(game, first, "ask").data()
    assert [root["name"] for root in hidden["roots"].values()] == ["the pawn"]
    assert len(hidden["nodes"]) == 1


def test_the_key_does_not_depend_on_the_moves():
    assert key_of(Lesson.from_text(GAME)) == key_of(Lesson.from_text(GAME.replace("3... a6", "")))
    assert key_of(Lesson.from_text(GAME)) != key_of(Lesson.from_text(GAME, title="Another"))


def test_another_word_for_reveal_is_refused_with_the_three_that_there_are():
    with pytest.raises(LessonError) as caught:
        RevealedTree(lesson(), lesson().start, "some")  # type: ignore[arg-type]
    assert all(word in str(caught.value) for word in REVEALS)
