"""The explorer in a browser: a student's way, a teacher's way, and what is kept."""

import json
import re
from pathlib import Path

import chess.pgn
import pytest
from browser.exploring import Exploring, open_explorer
from browser.hand import click, drag
from browser.lab import eventually
from playwright.sync_api import Browser, Page, expect
from thoroughness import some

from chessnb.lessons import Lesson
from chessnb.widgets.branch_explorer import BranchExplorer

# Two ways to mate, one of them faster; written for this test.
GAME = """\
[Event "Club evening"]
[White "Alder"]
[Black "Birch"]
[SetUp "1"]
[FEN "6k1/5ppp/8/8/8/1r6/5PPP/R2R2K1 w - - 0 30"]
[Result "*"]

{A rook too many on the back rank?} 30. Rd8# {Mate.} (30. Ra8+ Rb8 31. Rxb8#)
(30. h3 {Calm, and too slow.} Rb8 (30... h6 31. Ra8+ Kh7)) *
"""


def lesson() -> Lesson:
    return Lesson.from_text(GAME, title="Back rank")


LONG = "1. e4 e5 (1... c5 2. Nf3 d6 (2... Nc6 3. Bb5)) 2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7 *"


@pytest.fixture
def x(page: Page) -> Exploring:
    return open_explorer(page, BranchExplorer(Lesson.from_text(LONG, title="First moves")))


# -- walking -------------------------------------------------------------------


def test_the_text_is_the_movetext_with_indented_branches(x: Exploring) -> None:
    paragraphs = x.room.locator(".movetext p").all_inner_texts()
    assert [" ".join(text.split()) for text in paragraphs] == [
        "1. e4 e5",
        "1... c5 2. Nf3 d6",
        "2... Nc6 3. Bb5",
        "2. Nf3 Nc6 3. Bb5 a6 4. Ba4 Nf6 5. O-O Be7",
    ]
    classes = [p.get_attribute("class") for p in x.room.locator(".movetext p").all()]
    assert classes == ["deep0", "deep1", "deep2", "deep0"]


def test_walking_needs_no_python(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG)), silent=True)
    x.move("3. Bb5").click()
    assert x.where == "After 3. Bb5. Black to move."
    assert x.way == "1. e4 › 1... c5 › 2. Nf3 › 2... Nc6 › 3. Bb5"
    x.word("back").click()
    x.word("on").click()
    assert x.where == "After 3. Bb5. Black to move."


def test_the_caption_names_where_one_stands_at_a_start_too(page: Page) -> None:
    game = Lesson.from_text("1. e4 e5", title="First moves")
    position = game.add_position("8/8/8/4k3/8/8/4P3/4K3 b - - 0 1", name="diagram 3")
    x = open_explorer(page, BranchExplorer(game, at=position))
    assert x.where == "Diagram 3. Black to move."
    x.type("Ke4")
    assert x.where == "After 1... Ke4. White to move."
    x.move("1. e4").click()
    x.word("back").click()
    assert x.where == "Start. White to move."


def test_clicking_keys_and_words_walk_and_the_current_move_is_underlined(x: Exploring) -> None:
    x.move("2. Nf3").click()
    assert x.where == "After 2. Nf3. Black to move."
    current = x.room.locator(".movetext .current")
    expect(current).to_have_text("2. Nf3")
    assert current.get_attribute("aria-current") == "true"
    page = x.page
    for key, where in [
        ("ArrowRight", "After 2... d6. White to move."),
        ("ArrowDown", "After 2... Nc6. White to move."),
        ("ArrowUp", "After 2... d6. White to move."),
        ("ArrowLeft", "After 2. Nf3. Black to move."),
    ]:
        page.keyboard.press(key)
        assert x.where == where
        expect(x.room.locator(".movetext .move:focus")).to_have_count(1)
    assert x.room.locator(".movetext .move[tabindex='0']").count() == 1


def test_to_the_lesson_returns_to_where_it_was_left(x: Exploring) -> None:
    x.room.locator(".movetext .move", has_text="a6").click()
    assert x.way == "Main line."
    x.room.locator(".movetext .move", has_text="c5").click()
    x.word("on").click()
    x.type("b6")
    assert x.way == "1. e4 › 1... c5 › 2. Nf3 › your try"
    x.type("Bb5")
    x.word("toLesson").click()
    assert x.where == "After 2. Nf3. Black to move.", "the sideline, where the try left it"
    x.word("toLesson").click()
    assert x.where == "After 3... a6. White to move.", "the main line, where it was left"
    assert x.word("toLesson").get_attribute("aria-disabled") == "true"
    x.room.locator(".tries .move", has_text="Bb5").click()
    x.room.locator(".way button", has_text="1. e4").click()
    assert x.where == "After 1. e4. Black to move."


@pytest.mark.thorough
def test_a_refused_text_goes_with_the_next_move_or_step(x: Exploring) -> None:
    field = x.board.locator(".controls input")
    steps = [
        lambda: x.move("2. Nf3").click(),
        lambda: x.word("on").click(),
        lambda: click(x.board, "f1", "e2"),
        lambda: x.word("toLesson").click(),
        lambda: x.type("Nc3"),
    ]
    for step in steps:
        x.type("Kh9")
        eventually(lambda: "no square h9" in x.note, True)
        assert field.input_value() == "Kh9", "it may be mended"
        step()
        assert field.input_value() == ""
        assert field.get_attribute("aria-invalid") is None
        assert "no square h9" not in x.note
    x.word("forClass").click()
    x.word("candidates").click()
    for note in (lambda: x.type("e6"), lambda: click(x.board, "a7", "a6")):
        x.type("Kh9")
        eventually(lambda: "no square h9" in x.note, True)
        note()
        assert field.input_value() == ""
        assert "no square h9" not in x.note
    field.fill("Nf")
    x.word("back").click()
    assert field.input_value() == "Nf", "what is being typed stays"


# -- tries -----------------------------------------------------------------------


def test_a_move_of_the_lesson_is_no_try(x: Exploring) -> None:
    click(x.board, "e2", "e4")
    drag(x.board, "c7", "c5")
    assert x.where == "After 1... c5. White to move."
    expect(x.room.locator(".tries .move")).to_have_count(0)


def test_three_tries_get_answers_a_refutation_is_followed_and_the_lesson_comes_back(
    page: Page,
) -> None:
    x = open_explorer(page, BranchExplorer(lesson()))
    x.type("h4")
    eventually(lambda: x.note.startswith("I found nothing wrong with it"), True)
    x.word("toLesson").click()
    click(x.board, "d1", "e1")
    eventually(lambda: "Re1" in x.room.locator(".tries").inner_text(), True)
    x.word("toLesson").click()
    x.type("Rab1")
    eventually(lambda: x.note != "", True)
    x.word("toLesson").click()
    assert x.where.startswith("Start. White to move")
    assert x.room.locator(".tries li:not(.none)").count() == 3
    x.type("f4")  # lets the rook take with mate to come? Python says what it does
    eventually(lambda: x.note != "", True)


def test_an_answer_is_said_once_under_the_board_or_in_the_list(x: Exploring) -> None:
    said = "I found nothing wrong with it in 3 moves. Nobody has proved that it is good."
    answer = x.room.locator(".tries .answer")
    x.type("d4")
    eventually(lambda: x.note, said)
    expect(answer).to_be_hidden()
    assert x.room.inner_text().count("nothing wrong") == 1
    x.type("Kh9")
    eventually(lambda: "no square h9" in x.note, True)
    expect(answer).to_be_visible()  # the note is about something else now
    x.word("toLesson").click()
    assert x.note == ""
    expect(answer).to_have_text(said)


def test_a_refutation_is_stepped_through(page: Page) -> None:
    game = Lesson.from_text(
        '[SetUp "1"]\n[FEN "6k1/5ppp/8/8/8/8/r4PPP/1R4K1 w - - 0 1"]\n\n1. h3 Ra1 *', title="Luft"
    )
    x = open_explorer(page, BranchExplorer(game))
    x.type("Rb3")
    eventually(lambda: x.note, "After Rb3 White is mated in 2.")
    shown = x.room.locator(".tries .shown").first.inner_text()
    assert " ".join(shown.split()) == "(1... Ra1+ 2. Rb1 Rxb1#)"
    x.word("on").click()
    x.word("on").click()
    x.word("on").click()
    assert x.where == "After 2... Rxb1#. Checkmate: Black wins."
    assert x.way.startswith("start › your try")
    x.word("toLesson").click()
    assert x.where == "Start. White to move."


@pytest.mark.thorough
def test_tries_are_named_undone_deleted_and_cleared(x: Exploring) -> None:
    x.type("d4")
    x.type("d5")
    x.word("nameTry").click()
    x.room.locator(".tries input").fill("<b>queen's pawn</b>")
    x.page.keyboard.press("Enter")
    expect(x.room.locator(".tries .from")).to_have_text("<b>queen's pawn</b>, from the start: ")
    x.word("undo").click()
    expect(x.room.locator(".tries .move:not(.shown .move)")).to_have_count(1)
    assert x.where == "After 1. d4. Black to move."
    x.word("toLesson").click()
    x.type("c4")
    expect(x.room.locator(".tries li")).to_have_count(2)
    x.word("delete").click()
    expect(x.room.locator(".tries li")).to_have_count(1)
    x.word("clearTries").click()
    expect(x.room.locator(".tries li:not(.none)")).to_have_count(1)  # asked once more
    x.word("clearTries").click()
    expect(x.room.locator(".tries li:not(.none)")).to_have_count(0)
    assert x.page.evaluate("Object.keys(localStorage)") == []
    assert x.where == "Start. White to move."


def test_tries_outlive_the_page_and_the_kernel(x: Exploring) -> None:
    x.move("2. Nf3 Nc6").or_(x.room.locator(".movetext .move", has_text="Be7")).first.click()
    x.type("Re1")
    x.type("b5")
    eventually(lambda: x.room.locator(".tries .answer").count(), 2)
    before = x.room.locator(".tries ol").text_content()
    x.explorer = BranchExplorer(Lesson.from_text(LONG, title="First moves"))  # a new kernel's
    x.silent = True
    x.load()
    eventually(lambda: x.room.locator(".tries ol").text_content(), before)


def test_a_silent_python_loses_no_try_and_the_reader_is_told(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG)), silent=True)
    x.type("d4")
    expect(x.room.locator(".tries .status")).to_contain_text("Python has not answered yet")
    x.load()
    expect(x.room.locator(".tries .move")).to_have_text("1. d4")
    expect(x.room.locator(".tries .answer")).to_have_count(0)
    x.silent = False  # the cell has run again
    x.load()
    expect(x.room.locator(".tries .answer")).to_contain_text("nothing wrong")
    assert x.where == "Start. White to move.", "and nobody clicked anything"


@pytest.mark.thorough
def test_tries_that_were_left_while_python_was_busy_are_answered_when_it_listens(
    page: Page,
) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG)), silent=True)
    for text in ("d4", "d5"):
        x.type(text)
    x.word("toLesson").click()
    x.type("Zz9")  # no move: nothing is kept of it
    x.type("c4")
    expect(x.room.locator(".tries .status")).to_contain_text("Python has not answered yet")
    x.silent = False
    x.word("ask").click()
    expect(x.room.locator(".tries .answer")).to_have_count(3)
    x.load()
    asked = [m for m in sent(x) if m["kind"] == "try"]
    assert asked == [], "what is answered is not asked again"


@pytest.mark.thorough
def test_what_python_cannot_answer_is_asked_once(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG)), silent=True)
    for text in ("d4", "c4"):
        x.type(text)
        x.word("toLesson").click()
    x.load()
    for _ in range(2):
        message = [m for m in sent(x) if m["kind"] == "try"][-1]
        page.evaluate("(m) => model.fire('msg:custom', m)", {**message, "trouble": "Gone."})
    assert len([m for m in sent(x) if m["kind"] == "try"]) == 2


@pytest.mark.thorough
def test_an_answer_for_a_position_already_left_is_dropped(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG)), silent=True)
    x.type("d4")
    asked = next(m for m in sent(x) if m["kind"] == "try")
    x.word("toLesson").click()
    assert [m["what"] for m in sent(x) if m["kind"] == "drop" and m["what"] == "try"] == ["try"]
    late = {**asked, "answer": {"kind": "refuted", "sentence": "Late.", "line": ["d2d4"]}}
    x.page.evaluate("(late) => model.fire('msg:custom', late)", late)
    assert "Late." not in x.room.inner_text()


def test_two_explorers_of_a_lesson_share_the_tries_and_come_to_rest(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG)), silent=True)
    x.add()
    first, other = (page.locator(".explorer").nth(index) for index in (0, 1))
    for room, text in ((first, "d4"), (other, "c4"), (first, "d5"), (other, "c5")):
        field = room.locator(".controls input")
        field.fill(text)
        field.press("Enter")
    for room in (first, other):
        moves = room.locator(".tries .move").all_inner_texts()
        assert [move.replace("\xa0", " ") for move in moves] == ["1. d4", "d5", "1. c4", "c5"]
    assert first.locator(".where span").inner_text() == "After 1... d5. White to move."
    assert other.locator(".where span").inner_text() == "After 1... c5. White to move."


def sent(x: Exploring) -> list[dict[str, str]]:
    return list(json.loads(x.page.evaluate("JSON.stringify(model.sent)")))


@pytest.mark.thorough
def test_exported_tries_are_a_game_file(x: Exploring, tmp_path: Path) -> None:
    x.move("1. e4").click()
    for move in ("d5", "exd5", "Qxd5"):
        x.type(move)
    x.word("back").click()
    x.type("Nf6")
    eventually(lambda: x.note != "", True)
    x.word("toLesson").click()
    x.type("e6")
    with x.page.expect_download() as download:
        x.word("exportTries").click()
    download.value.save_as(tmp_path / "tries.pgn")
    assert all(len(line) < 80 for line in (tmp_path / "tries.pgn").read_text().splitlines())
    with (tmp_path / "tries.pgn").open(encoding="utf-8") as handle:
        games = [game for _ in range(2) if (game := chess.pgn.read_game(handle))]
        assert chess.pgn.read_game(handle) is None
    assert len(games) == 2
    assert not any(game.errors for game in games)
    first = games[0]
    assert [move.uci() for move in first.mainline_moves()][:3] == ["e2e4", "d7d5", "e4d5"]
    fork = first.next().next().next()
    assert {node.san() for node in fork.variations} >= {"Qxd5", "Nf6"}


# -- hiding ------------------------------------------------------------------------


@pytest.mark.parametrize("reveal", some(["so far", "ask"]))
def test_what_is_hidden_is_neither_in_the_page_nor_in_the_state(page: Page, reveal: str) -> None:
    game = Lesson.from_text(SECRET, title="First moves")
    explorer = BranchExplorer(game, at="2. Nf3", reveal=reveal)
    x = open_explorer(page, explorer)
    x.type("d6")
    for word in ("threat", "facts", "tags"):
        x.word(word).click()
        x.page.wait_for_timeout(300)
    x.page.wait_for_timeout(1500)
    whole = page.evaluate(
        "() => document.documentElement.outerHTML"
        " + document.querySelector('.chessnb-live').shadowRoot.innerHTML"
        " + JSON.stringify(model.values) + JSON.stringify({...localStorage})"
    )
    output = "".join(map(str, explorer._repr_mimebundle_()[0].values()))
    assert "Nf3" in whole
    assert "Nf3" in output
    for secret in HIDDEN:
        assert secret not in whole
        assert secret not in output


SECRET = "1. e4 e5 2. Nf3 {Now 2... Nc6.} Nc6 (2... Nf6 {Two knights.} 3. Nxe5) 3. Bb5 Nge7 *"
HIDDEN = ("Nc6", "b8c6", "Nf6", "g8f6", "Two knights", "Nxe5", "f3e5", "Bb5", "f1b5", "Nge7")


@pytest.mark.parametrize(("reveal", "word"), [("so far", "on"), ("ask", "showNext")])
def test_what_a_move_gives_away_is_told_once_the_next_one_is_shown(
    page: Page, reveal: str, word: str
) -> None:
    game = Lesson.from_text("1. e4 e5 2. Qh5 Nc6 3. Bc4 Nf6 4. Qxf7# *", title="Short")
    x = open_explorer(page, BranchExplorer(game, at="3... Nf6", reveal=reveal))
    x.page.wait_for_timeout(1000)
    assert [m["kind"] for m in sent(x)] == ["remarks"]
    expect(x.room.locator(".changes")).not_to_contain_text("attacks")
    x.word(word).click()
    eventually(lambda: x.where, "After 4. Qxf7#. Checkmate: White wins.")
    x.word("back").click()
    expect(x.room.locator(".changes")).to_contain_text("attacks the undefended queen on h5")


def test_so_far_goes_on_as_the_reader_does_and_ask_waits_to_be_asked(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG), at="2. Nf3", reveal="so far"))
    # The main line's, not the sideline's of the same name.
    assert x.where == "After 2. Nf3. Black to move."
    x.word("on").click()
    eventually(lambda: x.where, "After 2... Nc6. White to move.")


@pytest.mark.parametrize("full", [False, True])
def test_after_a_try_on_and_page_down_follow_the_lesson_again(x: Exploring, full: bool) -> None:
    if full:
        x.word("fullScreen").click()
        expect(x.room).to_have_class(re.compile("full"))
    x.move("2. Nf3 Nc6").or_(x.room.locator(".movetext .move", has_text="a6")).first.click()
    x.type("d4")
    x.type("exd4")
    x.word("back").click()
    x.page.keyboard.press("PageDown")
    assert x.where == "After 4... exd4. White to move.", "inside a try it goes on in the try"
    x.word("toLesson").click()
    x.page.keyboard.press("PageDown")
    assert x.where == "After 4. Ba4. Black to move."
    x.word("back").click()
    x.word("back").click()
    x.word("on").click()
    x.word("on").click()
    assert x.where == "After 4. Ba4. Black to move."


def test_on_reveals_nothing_where_the_lesson_waits_and_says_why(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG), at="3. Bb5", reveal="ask"))
    x.type("d6")
    x.word("toLesson").click()
    assert x.word("on").get_attribute("aria-disabled") == "true"
    page.keyboard.press("PageDown")
    assert x.where == "After 3. Bb5. Black to move."
    assert x.note == "The next move is hidden until you press “show the next move”."
    assert [m for m in sent(x) if m["kind"] == "reveal"] == []
    x.word("showNext").click()
    eventually(lambda: x.where, "After 3... a6. White to move.")
    assert x.note == ""


def test_ask_shows_the_next_move_only_when_it_is_asked_for(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG), at="3. Bb5", reveal="ask"))
    assert x.word("on").get_attribute("aria-disabled") == "true"
    x.word("showNext").click()
    eventually(lambda: x.where, "After 3... a6. White to move.")


def test_the_move_that_is_found_is_the_lessons_and_no_try_any_more(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG), at="3. Bb5", reveal="ask"))
    x.type("a6")
    eventually(lambda: x.note, "That is the lesson's move.")
    assert x.way == "Main line."
    expect(x.room.locator(".tries .move")).to_have_count(0)
    expect(x.room.locator(".movetext .current")).to_have_text("a6")


# -- the class -----------------------------------------------------------------------


def test_candidates_are_noted_with_votes_and_judged_only_on_the_key(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(lesson()))
    x.word("forClass").click()
    x.word("candidates").click()
    x.type("h4")
    x.type("Kf1")
    x.type("h4")
    assert x.where == "Start. White to move.", "nothing was played"
    items = x.room.locator(".candidates li")
    expect(items).to_have_count(2)
    expect(items.first).to_contain_text("h4 2 for it")
    items.last.locator("[data-action=oneMore]").click()
    expect(items.last).to_contain_text("Kf1 2 for it")
    assert [m for m in sent(x) if m["kind"] in ("judge", "try")] == []
    x.page.keyboard.press("j")
    eventually(lambda: x.room.locator(".candidates .answer").count(), 2)
    x.load()
    x.word("forClass").click()
    x.word("candidates").click()
    expect(items).to_have_count(2)


@pytest.mark.parametrize("full", [False, True])
def test_while_candidates_are_called_out_what_follows_is_not_in_sight(
    page: Page, full: bool
) -> None:
    x = open_explorer(page, BranchExplorer(lesson(), at="30. h3"))
    x.word("forClass").click()
    x.word("candidates").click()
    if full:
        x.word("fullScreen").click()
        expect(x.room).to_have_class(re.compile("full"))
    moves = x.room.locator(".movetext")
    expect(moves.locator(".current")).to_have_text("30. h3")
    for secret in ("Rb8", "h6", "too slow"):
        expect(moves.locator("p.deep1").last).not_to_contain_text(secret)
    expect(x.room.locator(".changes")).to_be_hidden()
    board, under = x.room.locator(".field"), x.room.locator(".candidates")
    x.type("Kf8")
    assert (
        under.bounding_box()["y"] < board.bounding_box()["y"] + board.bounding_box()["height"] + 90
    )
    for text in ("h4", "g3", "f4"):
        x.type(text)
    box = under.bounding_box()
    if full:
        assert box["y"] + box["height"] <= page.viewport_size["height"], "without scrolling"
    x.word("back").click()
    expect(x.room.locator(".movetext .move")).to_have_count(0)
    x.word("candidates").click()
    expect(x.room.locator(".movetext .move", has_text="Rb8").first).to_be_visible()


def test_before_a_class_the_clock_is_large_and_no_code_is_in_sight(page: Page) -> None:
    page.set_viewport_size({"width": 1400, "height": 800})
    x = open_explorer(page, BranchExplorer(lesson()))
    x.word("forClass").click()
    x.word("cellMoment").click()
    expect(x.room.locator(".code")).to_be_visible()
    x.word("think").click()
    size = "(line) => parseFloat(getComputedStyle(line).fontSize)"
    assert x.room.locator(".left").evaluate(size) < 20
    x.word("fullScreen").click()
    expect(x.room).to_have_class(re.compile("full"))
    expect(x.room.locator(".code")).to_be_hidden()
    expect(x.room.locator("[data-action=cellMoment]")).to_be_hidden()
    clock = x.room.locator(".left")
    # Common practice, no source: what the last row is to read is a fifteenth of the picture's height.
    assert clock.evaluate(size) >= 800 / 15
    box = clock.bounding_box()
    assert box is not None
    assert box["y"] + box["height"] <= 800, "without scrolling"


@pytest.mark.thorough
def test_the_countdown_counts_and_says_when_it_is_over(page: Page) -> None:
    page.clock.install()
    x = open_explorer(page, BranchExplorer(lesson()))
    x.word("forClass").click()
    x.room.locator(".minutes").fill("2")
    x.word("think").click()
    page.clock.run_for(60_500)
    expect(x.room.locator(".left")).to_have_text("1:00 left")
    page.clock.run_for(60_000)
    expect(x.room.locator(".up")).to_have_text("Time.")


def test_full_screen_shows_the_explorer_alone_without_notes_and_is_led_with_one_key(
    page: Page,
) -> None:
    x = open_explorer(page, BranchExplorer(lesson()))
    x.word("fullScreen").click()
    expect(x.room).to_have_class(re.compile("full"))
    expect(x.room.locator(".movetext .said").first).to_be_hidden()
    page.keyboard.press("PageDown")
    eventually(lambda: x.where, "After 30. Rd8#. Checkmate: White wins.")
    page.keyboard.press("n")
    expect(x.room.locator(".movetext .said").first).to_be_visible()
    page.keyboard.press("PageUp")
    eventually(lambda: x.where, "Start. White to move.")
    x.word("fullScreen").click()
    expect(x.room).not_to_have_class(re.compile("full"))
    expect(x.room.locator(".movetext .said").first).to_be_visible()


def test_the_mark_where_the_class_stopped_is_found_again(x: Exploring) -> None:
    x.word("forClass").click()
    x.room.locator(".movetext .move", has_text="Nf6").click()
    x.word("setMark").click()
    x.load()
    x.word("forClass").click()
    expect(x.word("goToMark")).to_have_text("to the mark (4... Nf6)")
    x.word("goToMark").click()
    assert x.where == "After 4... Nf6. White to move."


@pytest.mark.thorough
def test_a_lesson_of_six_cells_is_written_by_copying_only(page: Page) -> None:
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    game = Lesson.from_text(LONG, title="First moves")
    x = open_explorer(page, BranchExplorer(game))
    x.word("forClass").click()
    cells = []

    def take(name: str, says: str = "Copied.") -> None:
        x.word(name).click()
        expect(x.room.locator(".classroom > div > .status")).to_have_text(says)
        eventually(lambda: x.room.locator(".code").input_value() not in ["", *cells], True)
        cells.append(x.room.locator(".code").input_value())
        assert page.evaluate("navigator.clipboard.readText()") == cells[-1]

    take("cellLesson")
    x.move("1. e4").click()
    take("cellMoment")
    x.type("d5")
    x.type("exd5")
    take("cellLine")
    x.word("toLesson").click()
    x.room.locator(".movetext .move", has_text="a6").click()
    take("cellClaim", "Copied. It claims what Black threatens.")
    take("cellReplies")
    take("cellQuestion", "Copied. It asks for White's move after 3... a6.")
    namespace: dict[str, object] = {}
    for cell in cells:
        exec(cell, namespace)  # each cell runs, in this order
    assert "lesson" in namespace
    assert len(cells) == 6


# -- who uses it -----------------------------------------------------------------------


def test_a_students_path_by_keyboard_alone(page: Page) -> None:
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG, title="First moves")))
    page.keyboard.press("Tab")  # the board
    for key in ("Enter", "ArrowUp", "ArrowUp", "Enter"):
        page.keyboard.press(key)
    assert x.where == "After 1. e4. Black to move."
    press_word(x, "on")
    assert x.where == "After 1... e5. White to move."
    press_word(x, "back")
    while focused(page) != "INPUT":
        page.keyboard.press("Tab")
    page.keyboard.type("d5")
    page.keyboard.press("Enter")
    assert x.way == "1. e4 › your try"
    press_word(x, "toLesson")
    assert x.where == "After 1. e4. Black to move."
    press_word(x, "delete")
    expect(x.room.locator(".tries .move")).to_have_count(0)


def press_word(x: Exploring, action: str) -> None:
    """Press Tab until a word has the focus, then Enter."""
    for _ in range(120):
        x.page.keyboard.press("Tab")
        if focused(x.page) == action:
            x.page.keyboard.press("Enter")
            return
    raise AssertionError(f"{action} is not reached with Tab")


def focused(page: Page) -> str:
    return page.evaluate(
        "() => { const at = document.querySelector('.chessnb-live')?.shadowRoot.activeElement;"
        " return at ? at.dataset.action ?? at.tagName : ''; }"
    )


def test_by_touch(browser: Browser) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
    page = context.new_page()
    x = open_explorer(page, BranchExplorer(Lesson.from_text(LONG, title="First moves")))
    for name in ("d2", "d4"):
        x.board.locator(f"[data-square={name}]").tap()
    assert x.way == "start › your try"
    x.word("toLesson").tap()
    x.move("1. e4").tap()
    assert x.where == "After 1. e4. Black to move."
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


@pytest.mark.thorough
def test_the_current_move_is_in_sight_when_the_page_is_shown_late_or_changes_its_size(
    page: Page,
) -> None:
    moves = " ".join(
        f"{number}. {white} {black}"
        for number, (white, black) in enumerate(
            [("Nf3", "Nf6"), ("Nc3", "Nc6"), ("Ng1", "Ng8"), ("Nb1", "Nb8")] * 16, start=1
        )
    )
    lesson = Lesson.from_text(moves, title="There and back")
    html = (
        "<!doctype html><html lang=en><title>x</title><body>"
        "<main style='display:none'></main></body></html>"
    )
    x = open_explorer(page, BranchExplorer(lesson, at=lesson.end), html=html)
    page.evaluate("document.querySelector('main').style.display = ''")

    def in_sight() -> bool:
        return bool(
            x.room.locator(".movetext").evaluate(
                """(text) => {
                  const [seen, move] = [text, text.querySelector(".current")].map((at) => at.getBoundingClientRect());
                  return move.height > 0 && move.top >= seen.top - 1 && move.bottom <= seen.bottom + 1;
                }"""
            )
        )

    eventually(in_sight, True)
    for width in (360, 1300, 700):
        page.set_viewport_size({"width": width, "height": 900})
        eventually(in_sight, True)
