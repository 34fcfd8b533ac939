"""Questions in a browser: by keyboard, by hand and by touch, and nothing right before it is asked for."""

import json

import pytest
from browser.exploring import open_question
from playwright.sync_api import Browser, Locator, Page, expect
from quizzes import OPERA, SMOTHERED

from chessnb import claims, questions
from chessnb.widgets.question import QuestionCard

BEFORE_RXD7 = OPERA.before("13. Rxd7")
KINDS = {
    "find_move": (lambda: questions.find_move(SMOTHERED, mate=2), "Qg8+", "Qb7"),
    "find_line": (lambda: questions.find_line(SMOTHERED, mate=2), "Qg8+ Rxg8 Nf7#", "Qb7"),
    "checks": (lambda: questions.checks(BEFORE_RXD7), "Bxd7, Qxf7", "Rxd7"),
    "captures": (lambda: questions.captures("start"), "none", "e4"),
    "legal_moves": (
        lambda: questions.legal_moves("7k/8/8/8/8/8/6r1/7K w - - 0 1"), "Kxg2", "none",
    ),
    "pinned": (lambda: questions.pinned(BEFORE_RXD7), "Nd7", "Qe7"),
    "hanging": (
        lambda: questions.hanging("6k1/5ppp/8/3n4/8/8/5PPP/3R2K1 w - - 0 1"), "d5", "f7",
    ),
    "overloaded": (
        lambda: questions.overloaded("3r3k/pp4pp/8/8/1Q1q4/7P/PP3PP1/4R1K1 w - - 0 1"),
        "the rook on d8", "d4",
    ),
    "ahead": (lambda: questions.ahead(BEFORE_RXD7), "Black, by a point", "White"),
    "count": (lambda: questions.count(BEFORE_RXD7, "d7"), "2-4", "1-1"),
    "threatened": (lambda: questions.threatened(OPERA.after("7. Qb3")), "Bxf7+", "h3"),
    "castling": (lambda: questions.castling(OPERA.before("12. O-O-O")), "both", "no"),
    "name_tactic": (lambda: questions.name_tactic(OPERA.after("16. Qb8+")), "deflection", "pin"),
    "purpose": (lambda: questions.purpose(OPERA.after("9. Bg5")), "pins the knight", "check"),
    "true_or_false": (
        lambda: questions.true_or_false(claims.mates, SMOTHERED, within=2), "true", "no",
    ),
    "why_not_take": (
        lambda: questions.why_not_take("3r2k1/5ppp/8/3p4/8/8/3R1PPP/6K1 w - - 0 1", "d5"),
        "Rxd5", "h6",
    ),
}  # fmt: skip


def verdict(room: Locator) -> Locator:
    return room.locator(".verdict")


def result(room: Locator, expected: str) -> None:
    expect(verdict(room)).to_have_attribute("data-result", expected)


@pytest.mark.parametrize("name", KINDS)
def test_a_whole_path_by_keyboard_alone(page: Page, name: str) -> None:
    make, right, wrong = KINDS[name]
    card = QuestionCard(make())
    room = open_question(page, card)
    field = room.locator(".column form input")
    field.focus()
    page.keyboard.type(wrong)
    page.keyboard.press("Enter")
    result(room, "wrong")
    if card.question.hints:
        room.locator("[data-action=hint]").press("Enter")
        expect(room.locator(".hints li")).to_have_text([card.question.hints[0].text])
    field.fill("")
    field.focus()
    page.keyboard.type(right)
    page.keyboard.press("Enter")
    result(room, "right")
    assert [one.result for _, one in card.answers] == ["wrong", "right"]
    assert card.answers[-1][1].hints == bool(card.question.hints)
    expect(field).to_be_focused()


@pytest.mark.parametrize("name", KINDS)
def test_nothing_right_is_in_page_or_state_before_it_is_asked_for(page: Page, name: str) -> None:
    card = QuestionCard(KINDS[name][0]())
    room = open_question(page, card)
    asked = {key: value for key, value in card.get_state().items() if not key.startswith("_")}
    shown = json.dumps(asked, default=str) + room.locator(".column").inner_text()
    shown = shown.replace(card.question.prompt, "")
    for one in card.question.right:
        for text in (one.sentence, *([one.key] if len(one.key) > 3 else [])):
            assert not text or text not in shown
    for hint in card.question.hints:
        assert hint.text not in shown


def test_a_move_on_the_board_is_the_answer(page: Page) -> None:
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2))
    room = open_question(page, card)
    _play(page, room, "b3", "g8")
    result(room, "right")
    expect(room.locator(".column form input")).to_have_value("Qg8+")
    assert "1. Qg8+ Rxg8 2. Nf7#" in verdict(room).inner_text().replace("\xa0", " ")
    room.locator("[data-action=back-to-question]").click()
    expect(room.locator("[data-action=back-to-question]")).to_be_hidden()


def _place(room: Locator, square: str) -> tuple[float, float]:
    box = room.locator("figure .field svg").bounding_box()
    assert box is not None
    from chessnb.diagrams.ink import INK

    board = INK["board"]
    scale = box["width"] / board["width"]
    file, rank = "abcdefgh".index(square[0]), int(square[1])
    side = board["square"]
    return (
        box["x"] + scale * (board["left"] + side * (file + 0.5)),
        box["y"] + scale * (board["top"] + side * (8 - rank + 0.5)),
    )


def _play(page: Page, room: Locator, start: str, end: str) -> None:
    for square in (start, end):
        page.mouse.click(*_place(room, square))


def test_moves_on_the_board_make_a_list(page: Page) -> None:
    card = QuestionCard(questions.checks(BEFORE_RXD7))
    room = open_question(page, card)
    _play(page, room, "b5", "d7")
    _play(page, room, "b3", "f7")
    expect(room.locator(".column form input")).to_have_value("Bxd7+, Qxf7+")
    room.locator("[data-action=answer]").click()
    result(room, "right")


def test_a_line_is_played_on_the_board(page: Page) -> None:
    card = QuestionCard(questions.find_line(SMOTHERED, mate=2))
    room = open_question(page, card)
    for start, end in (("b3", "g8"), ("a8", "g8"), ("h6", "f7")):
        _play(page, room, start, end)
    expect(room.locator(".column form input")).to_have_value("Qg8+ Rxg8 Nf7#")
    room.locator("[data-action=answer]").click()
    result(room, "right")


def test_by_touch(browser: Browser) -> None:
    context = browser.new_context(has_touch=True, viewport={"width": 420, "height": 900})
    page = context.new_page()
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2))
    room = open_question(page, card)
    room.locator("[data-action=hint]").tap()
    expect(room.locator(".hints li")).to_have_count(1)
    for square in ("b3", "g8"):
        page.touchscreen.tap(*_place(room, square))
    result(room, "right")
    assert card.answers[-1][1].hints == 1
    context.close()


def test_what_cannot_be_read_does_not_count(page: Page) -> None:
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2))
    room = open_question(page, card)
    for text in ("", "foo", "<img src=x onerror=alert(1)>"):
        room.locator(".column form input").fill(text)
        room.locator("[data-action=answer]").click()
        result(room, "unread")
    assert card.answers == []
    expect(room.locator("img")).to_have_count(0)


def test_the_solution_is_shown_when_it_is_asked_for(page: Page) -> None:
    card = QuestionCard(questions.pinned(BEFORE_RXD7))
    room = open_question(page, card)
    room.locator("[data-action=solution]").click()
    expect(verdict(room)).to_have_text("The bishop on b5 pins the knight on d7 to its king.")
    expect(room.locator("[data-layer=under] > *")).not_to_have_count(0)


def test_hints_end(page: Page) -> None:
    card = QuestionCard(questions.find_move(SMOTHERED, mate=2, level="beginner"))
    room = open_question(page, card)
    for count in range(1, 5):
        room.locator("[data-action=hint]").click()
        expect(room.locator(".hints li")).to_have_count(count)
    expect(room.locator("[data-action=hint]")).to_have_attribute("aria-disabled", "true")
