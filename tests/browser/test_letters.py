"""Moves in the reader's letters: in the movetext, the way back, tries, answers, replies, tags."""

import re

import pytest
from browser.exploring import Exploring, open_explorer, open_replies, open_tags
from browser.lab import eventually
from playwright.sync_api import Page, expect

from chessnb import Lesson
from chessnb.errors import ChessnbError
from chessnb.widgets import BranchExplorer, MotifTags, ReplyExplorer

pytestmark = pytest.mark.thorough

GAME = "1. e4 e5 (1... c5 2. Nf3 Nc6) 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Nxe4 *"


@pytest.fixture
def german(page: Page) -> Exploring:
    lesson = Lesson.from_text(GAME, title="Erste Züge")
    return open_explorer(page, BranchExplorer(lesson, at="3. Bb5", letters="german"))


def test_the_movetext_and_the_way_back_name_pieces_in_the_readers_letters(
    german: Exploring,
) -> None:
    text = german.room.locator(".movetext").inner_text().replace("\xa0", " ")
    for move in ("2. Sf3 Sc6", "3. Lb5 a6", "4. La4 Sf6", "5. O-O Sxe4"):
        assert move in text
    assert "N" not in text
    german.room.locator(".movetext .deep1 .move").nth(2).click()
    assert german.where == "After 2... Sc6. White to move."
    assert german.way.replace("\xa0", " ") == "1. e4 › 1... c5 › 2... Sc6"


def test_tries_are_typed_listed_and_answered_in_the_readers_letters(german: Exploring) -> None:
    german.type("Dg5")
    assert german.where == "After 3... Dg5. White to move."
    eventually(lambda: german.note.startswith("The queen can be taken"), True)
    german.word("toLesson").click()
    listed = german.room.locator(".tries li").first.inner_text().replace("\xa0", " ")
    assert listed.startswith("after 3. Lb5: 3... Dg5 The queen can be taken")
    assert "Sxg5" in listed
    german.type("Sd5")
    eventually(lambda: german.note != "", True)
    assert "N" not in re.sub("Nothing|Nobody|Not", "", german.note)


def test_letters_may_change_while_the_explorer_is_shown(german: Exploring) -> None:
    german.page.evaluate("model.set('piece_letters', '♙♘♗♖♕♔')")
    text = german.room.locator(".movetext").inner_text().replace("\xa0", " ")
    assert "2. ♘f3 ♘c6 3. ♗b5" in text
    assert german.where == "After 3. ♗b5. Black to move."
    expect(german.room.locator(".movetext .current")).to_have_text("3. ♗b5")


def test_replies_and_tags_are_written_in_the_readers_letters(page: Page) -> None:
    replies = ReplyExplorer(
        "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1", mate=1, within=1, letters="german"
    )
    room = open_replies(page, replies)
    text = room.locator(".replies").inner_text().replace("\xa0", " ")
    assert "1. Tb8#: checkmate." in text
    assert "1. Ta1: mated in 1 (1. Ta1 Txa1#)." in text
    tags = MotifTags("r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1", "Nc7+", letters="german")
    room = open_tags(page, tags)
    text = room.locator(".column").inner_text().replace("\xa0", " ")
    assert "Tactics of 1. Sc7+".lower() in text.lower()
    assert "2. Sxa8" in text


def test_the_still_movetext_has_the_readers_letters() -> None:
    explorer = BranchExplorer(Lesson.from_text(GAME), letters="german")
    bundle, _ = explorer._repr_mimebundle_()
    assert "2. Sf3 Sc6 3. Lb5" in bundle["text/html"]


def test_an_unknown_language_is_refused() -> None:
    with pytest.raises(ChessnbError, match="martian"):
        BranchExplorer(Lesson.from_text(GAME), letters="martian")
