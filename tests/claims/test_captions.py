"""The diagram under a claim that is wrong says which position it is."""

import pytest

from chessnb import Lesson, claims

LESSON = Lesson.from_text("1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7# 1-0", title="Four moves")


def refused(call):
    with pytest.raises((claims.FalseClaim, claims.UnprovedClaim)) as caught:
        call()
    return caught.value


def test_after_the_lessons_move_and_the_line_that_contradicts():
    error = refused(lambda: claims.mates(LESSON.before("3... Nf6"), within=1, move="Nf6"))
    assert len(error.moves) > 1
    assert error.caption.startswith("After 3. Qh5 Nf6 4. ")
    assert error.picture.caption == error.caption


def test_without_moves_the_position_of_the_claim():
    error = refused(lambda: claims.pinned(LESSON.after("3. Qh5"), "d7"))
    assert error.caption == "After 3. Qh5. Black to move."
    error = refused(lambda: claims.checkmate(LESSON.start))
    assert error.caption == "Move 1. White to move."
    assert error._repr_html_().count("<p>") == 2


def test_the_end_of_the_game_is_named():
    error = refused(lambda: claims.mates(LESSON.end, within=1))
    assert error.caption == "After 4. Qxf7#. Black is checkmated."


def test_a_position_from_a_fen_has_no_move_before_it():
    error = refused(
        lambda: claims.mates("6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 12", within=1, move="Ra7")
    )
    assert error.caption.startswith("After 12. Ra7 ")
    assert error.caption.endswith(". White to move.")
