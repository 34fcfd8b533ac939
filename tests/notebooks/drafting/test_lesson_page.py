"""The pages of a drafted lesson: what they say, and that a file's text stays text."""

import ast
import pathlib
import re
from functools import cache
from itertools import pairwise

from markdown_it import MarkdownIt

from chessnb import Lesson
from chessnb.notebooks.drafting.lesson_page import lesson_cells, title_page
from chessnb.teaching.cell_code import reading_expression
from chessnb.teaching.sign import Sign
from chessnb.teaching.signs import ADVICE
from chessnb.teaching.spread import Spread
from chessnb.teaching.turning_points import TurningPoint, turning_points

HOSTILE = (
    "<script>alert(1)</script> $x^2$ `code` **bold** [a](http://b) <img src=x onerror=y> @@0@@"
)
GAME = f"""[Event "{HOSTILE}"]
[White "{HOSTILE}"]
[Black "Marsh, Tom"]
[Annotator "{HOSTILE}"]
[Result "0-1"]

{{{HOSTILE}}} 1. e4 e5 2. Nf3 Nc6 3. Bc4 Nd4?! {{{HOSTILE}}} 4. Nxe5 ({{{HOSTILE}}} 4. c3 {{{HOSTILE}}}
Nxf3+ (4... Nc6)) 4... Qg5 5. Nxf7 Qxg2 6. Rf1 Qxe4+ 7. Be2 Nf3# 0-1
"""


@cache
def cells(text, most=12, **about):
    lesson = Lesson.from_text(text, **about)
    points, _ = turning_points(lesson, most=most)
    return lesson_cells(lesson, points, reading="Lesson.read('x.pgn')", name="x.ipynb")


def position_of(source):
    """The expression for the position that a page shows."""
    return ast.unparse(ast.parse(source).body[0].items[0].context_expr.args[0])


def test_hostile_text_is_text_in_every_markdown_cell():
    made = cells(GAME, goals=(HOSTILE,), level=HOSTILE, title=HOSTILE)
    renderer = MarkdownIt("commonmark", {"html": True, "linkify": False}).enable("table")
    for cell in made:
        if cell["cell_type"] != "markdown":
            continue
        for token in renderer.parse(cell["source"]):
            for inner in token.children or [token]:
                assert inner.type not in ("html_block", "link_open", "image"), cell["source"]
                if inner.type == "html_inline":
                    assert inner.content in ("<span>", "</span>")
                if inner.type == "code_inline":
                    assert inner.content == "chessnb verify"
    assert sum("alert(1)" in cell["source"] for cell in made) >= 3


def test_code_cells_hold_nothing_from_the_file_but_moves():
    for cell in cells(GAME):
        if cell["cell_type"] == "code":
            assert "alert" not in cell["source"]
            compile(cell["source"], "cell", "exec")


def test_the_title_page_says_who_where_and_how_it_ended():
    lesson = Lesson.from_text(
        '[Event "Club evening"]\n[Site "Harbour Lane"]\n[Date "2024.05.??"]\n[Round "3"]\n'
        '[White "Quill, Ada"]\n[Black "Marsh, Tom"]\n[WhiteElo "1712"]\n[Result "1-0"]\n\n1. e4 1-0',
        title="The loose rook", level="club", minutes=45, goals=["look for loose pieces"],
    )  # fmt: skip
    assert title_page(lesson) == (
        "# The loose rook\n\n**Ada Quill (1712) – Tom Marsh**\n\n"
        "Club evening, Harbour Lane, 2024.05, round 3\n\nWhite won.\n\n"
        "**Level:** club · **Time:** 45 minutes\n\n**What to take home:**\n\n- Look for loose pieces"
    )


def test_a_move_that_no_story_tells_is_recalled_on_the_page_after_it():
    lesson = Lesson.from_text(GAME)
    made = cells(GAME)
    story = " ".join(cell["source"] for cell in made if cell["cell_type"] == "markdown")
    opened = [cell["source"] for cell in made if cell["source"].startswith("with page(")]
    pages = [
        Spread(
            moment=eval(position_of(source), {"lesson": lesson}),
            recall="recall=False" not in source,
        )
        for source in opened
    ]
    recalled = " ".join(page.recalled for page in pages)
    for node in list(lesson.start.node.mainline())[:-1]:
        assert node.san() in f"{story} {recalled}", node


def test_a_page_recalls_no_move_that_the_story_above_it_has_told():
    made = cells(GAME)
    for words, page in pairwise(made):
        if page["source"].startswith("with page("):
            told = re.search(r"\*\*\d+\.", words["source"]) is not None
            assert ("recall=False" in page["source"]) == told, words["source"]
    assert any("recall=False" in cell["source"] for cell in made)


def test_the_story_tells_every_move_once_in_order():
    text = "\n".join(cell["source"] for cell in cells(GAME) if cell["cell_type"] == "markdown")
    body, recap = text.split("## What to remember")
    assert body.index("3. Bc4") < body.index("4. Nxe5")
    assert "Nf3#" not in body  # the class is to find it: its page tells it
    assert "7... Nf3#" in recap


def test_what_is_to_be_remembered_ends_with_one_full_stop():
    made = cells("1. e4 c5 2. c4 Nc6 3. Ne2 Nf6 4. Nbc3 Nb4 5. g3 Nd3# 0-1")
    lines = next(
        cell["source"] for cell in made if "What to remember" in cell["source"]
    ).splitlines()
    said = [line for line in lines if line.startswith("- ")]
    assert said
    assert all(line.endswith(".") and not line.endswith("..") for line in said), said


def test_a_stop_stands_before_a_move_that_is_to_be_found_and_its_heading_does_not_tell():
    made = {cell["metadata"]["chessnb"]["cell"]: cell["source"] for cell in cells(GAME)}
    assert made["stop 7... Nf3#"].splitlines()[0] == "## Black's 7th move"
    lines = made["page 7... Nf3#"].splitlines()
    assert lines[0] == "with page(lesson.before(\"Black's 7th\"), ask='find the move') as m:"
    assert "    m.after('Nf3#').changes()" in lines
    for key, source in made.items():
        heading = source.split("\n")[0]
        if key.startswith("stop") and "'s " in heading:
            assert key.split()[-1].strip("+#") not in heading


def test_a_lesson_never_writes_about_itself():
    text = "\n".join(cell["source"] for cell in cells(GAME))
    for words in ("annotator stops", "sideline leaves", "marked as", "Why stop"):
        assert words not in text


def test_a_stop_is_one_cell_of_words_and_one_page():
    kinds = [cell["metadata"]["chessnb"]["cell"].split()[0] for cell in cells(GAME)]
    for number, kind in enumerate(kinds):
        if kind == "stop":
            assert kinds[number + 1] == "page"
    assert kinds.count("stop") == kinds.count("page") > 2


def test_keys_and_ids_are_unique_and_the_same_every_time():
    first, second = cells(GAME), cells.__wrapped__(GAME)
    ids = [cell["id"] for cell in first]
    assert len(set(ids)) == len(ids)
    assert ids == [cell["id"] for cell in second]


def test_the_game_is_named_relative_to_the_lesson():
    path = pathlib.Path("games") / "a b.pgn"
    read = reading_expression(path, pathlib.Path("lessons"), game=None, about={})
    assert read == "Lesson.read('../games/a b.pgn')"
    long = reading_expression(
        path, pathlib.Path(), game=3, about={"title": "x" * 60, "minutes": 45}
    )
    assert long.startswith("Lesson.read(\n    'games/a b.pgn',\n    game=3,\n")
    compile(long, "cell", "eval")


def test_a_quiet_stop_asks_on_its_page_and_its_answer_is_not_in_sight():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxc6 dxc6 5. O-O f6 6. d4 exd4 *")
    words, question = "both sides have something to do", "Who has the pair of bishops?"
    sign = Sign(weight=3, words=words, kind="made up", question=question)
    point = TurningPoint(moment=lesson.after("4... dxc6"), weight=3, reasons=(), signs=(sign,))
    made = lesson_cells(lesson, (point,), reading="Lesson.read('x.pgn')", name="x.ipynb")
    found = {cell["metadata"]["chessnb"]["cell"]: cell["source"] for cell in made}
    stop, page = found["stop 4... dxc6"], ast.unparse(ast.parse(found["page 4... dxc6"]))
    assert question not in stop
    assert words[1:] not in stop
    assert "ask='think'" in page
    assert f"question={question!r}" in page
    assert "remember='Both sides have something to do.'" in page
    assert "The opening is called “Ruy Lopez”." in stop  # the thread, between the moves
    assert "pair of bishops" not in stop


def test_what_an_adviser_alone_would_play_is_asked_before_the_move_and_told_as_an_opinion():
    lesson = Lesson.from_text("1. e4 e5 2. Nf3 d6 3. Bc4 Bg4 *")
    advice = Sign(
        weight=4,
        words="3. d4 is better in the opinion of a UCI engine; nothing of it is proved",
        kind=ADVICE,
        question="The game goes on with 3. Bc4. What would you play instead?",
    )
    point = TurningPoint(moment=lesson.after("3. Bc4"), weight=4, reasons=(), signs=(advice,))
    made = lesson_cells(lesson, [point], reading="Lesson.read('x.pgn')", name="x.ipynb")
    (page,) = [cell["source"] for cell in made if "ask=" in cell["source"]]
    assert position_of(page) == 'lesson.before("White\'s 3rd")'
    assert "ask='think'" in page
    assert f"question={advice.question!r}" in page
    assert f"remember='{advice.words}.'" in page
    beside = Sign(weight=5, words="White mates", cell="claims.legal(m, 'Bc4')", kind="mates in 3")
    both = TurningPoint(moment=point.moment, weight=9, reasons=(), signs=(beside, advice))
    made = lesson_cells(lesson, [both], reading="Lesson.read('x.pgn')", name="x.ipynb")
    (page,) = [cell["source"] for cell in made if "ask=" in cell["source"]]
    assert "ask='find the move'" in page
    assert "remember='3. d4 is better" in page


def test_material_is_told_where_it_has_changed():
    pages = [cell["source"] for cell in cells(GAME) if "with page(" in cell["source"]]
    counted = [page for page in pages if "facts.material" in page]
    assert counted
    assert len(counted) < len(pages)
