"""The reply explorer in a browser: choose, play through, rule out, and what is left."""

import pytest
from browser.exploring import open_replies, open_tags
from playwright.sync_api import Locator, Page, expect

from chessnb.lessons import Lesson
from chessnb.widgets.motif_tags import MotifTags
from chessnb.widgets.reply_explorer import ReplyExplorer

# Mate on the back rank is threatened; most replies do not stop it. Written for this test.
GAME = '[SetUp "1"]\n[FEN "1r4k1/r4ppp/8/8/8/8/5PPP/3R2K1 b - - 0 1"]\n\n1... Ra2 2. h3 *'


@pytest.fixture
def explorer() -> ReplyExplorer:
    lesson = Lesson.from_text(GAME, title="Back rank")
    return ReplyExplorer(lesson.after("1... Ra2"), mate=2, within=1)


def where(room: Locator) -> str:
    return room.locator(".where span").inner_text()


def test_a_reply_is_chosen_and_its_line_played(page: Page, explorer: ReplyExplorer) -> None:
    room = open_replies(page, explorer)
    row = next(row for row in explorer.reply_table.rows if len(row.first.line) > 1)
    room.locator("[data-action=choose]", has_text=row.text).first.click()
    board = row.first.board
    board.push(row.first.line[0])
    assert row.first.san in where(room)
    for _ in row.first.line[1:]:
        room.locator("[data-action=on]").click()
    last = row.first.board
    for move in row.first.line[:-1]:
        last.push(move)
    assert last.san(row.first.line[-1]) in where(room)
    expect(room.locator("[data-action=on]")).to_have_attribute("aria-disabled", "true")


def test_the_caption_names_the_move_that_is_replied_to(page: Page, explorer: ReplyExplorer) -> None:
    room = open_replies(page, explorer)
    assert where(room) == "After 1... Ra2. White to move."
    # It is underlined, from square to square.
    expect(room.locator("[data-layer=events] > *")).not_to_have_count(0)


def test_a_table_of_a_position_alone_names_the_side_to_move(page: Page) -> None:
    board = "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"
    assert where(open_replies(page, ReplyExplorer(board, mate=1, within=1))) == "White to move."


def test_the_board_of_tags_names_the_move_before(page: Page) -> None:
    game = Lesson.from_text("1. e4 e5 2. Qh5 Ke7 3. Qxe5#", title="Short")
    room = open_tags(page, MotifTags(game.after("3. Qxe5#")))
    while room.locator("[data-action=back]").get_attribute("aria-disabled") != "true":
        room.locator("[data-action=back]").click()
    assert where(room) == "After 2... Ke7. White to move."


def test_replies_are_ruled_out_one_by_one_and_what_is_left_is_counted(
    page: Page, explorer: ReplyExplorer
) -> None:
    room = open_replies(page, explorer)
    rows = explorer.reply_table.rows
    total = len(explorer.reply_table.verdicts)
    left = total
    assert room.locator(".replies > ol > li").count() == len(rows)
    for index, row in enumerate(rows):
        room.locator(f"[data-row='{index}'] [data-action=ruleOut]").click()
        left -= len(row.verdicts)
        said = f"{left} of {total} left" if left else "Every reply is ruled out."
        expect(room.locator(".status")).to_have_text(said)
    expect(room.locator("li.out")).to_have_count(len(rows))
    room.locator("[data-action=bringAll]").click()
    expect(room.locator(".status")).to_have_text(f"{total} of {total} left")


def test_what_was_ruled_out_is_kept_for_a_moment_of_a_lesson(
    page: Page, explorer: ReplyExplorer
) -> None:
    room = open_replies(page, explorer)
    room.locator("[data-action=ruleOut]").first.click()
    room = open_replies(page, explorer)
    expect(room.locator("li.out")).to_have_count(1)


def test_verdicts_wait_until_the_class_asks(page: Page) -> None:
    lesson = Lesson.from_text(GAME, title="Back rank")
    table = ReplyExplorer(lesson.after("1... Ra2"), mate=2, within=1).reply_table
    room = open_replies(page, ReplyExplorer(table, verdicts=False))
    expect(room.locator(".answer")).to_have_count(0)
    room.locator("[data-action=showVerdict]").first.click()
    expect(room.locator(".answer")).to_have_count(1)
    room.locator("[data-action=showVerdicts]").click()
    expect(room.locator(".answer")).to_have_count(len(table.rows))


def test_the_keyboard_keeps_its_place_when_a_reply_is_ruled_out(
    page: Page, explorer: ReplyExplorer
) -> None:
    room = open_replies(page, explorer)
    room.locator("[data-row='1'] [data-action=ruleOut]").press("Enter")
    expect(room.locator("[data-row='1'] [data-action=ruleOut]")).to_be_focused()
