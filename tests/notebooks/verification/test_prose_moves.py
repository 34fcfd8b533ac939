"""Moves in the prose: the wrong ones are found, and nothing else."""

import pytest

from chessnb.notebooks import code_cell, markdown_cell, new_notebook
from chessnb.notebooks.verification.named_positions import CodeReader
from chessnb.notebooks.verification.prose_moves import visible, wrong_moves

GAME = """
1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 (3... Nf6 4. Ng5 d5 (4... Bc5 5. Bxf7+) 5. exd5 Na5) 4. c3 Nf6
5. d4 exd4 6. cxd4 Bb4+ 7. Nc3 Nxe4 8. O-O Bxc3 *
"""
READ = "from chessnb import Lesson\nlesson = Lesson.read('game.pgn')\nlesson"


def faults(tmp_path, *prose, code="m = lesson.after('6. cxd4')\nm"):
    (tmp_path / "game.pgn").write_text(GAME)
    cells = [code_cell("read", READ), markdown_cell("head", "## A section")]
    if code:
        cells.append(code_cell("moment", code))
    cells += [markdown_cell(str(number), text) for number, text in enumerate(prose)]
    return [
        (fault.text, fault.reason)
        for fault in wrong_moves(new_notebook(cells, notes={}), folder=tmp_path)
    ]


@pytest.mark.parametrize(
    "text",
    [
        "After **6. cxd4** the threat is d5, so Black checks: 6... Bb4+ 7. Nc3 Nxe4!",
        "6... Bb4+ 7. Nc3 (7. Bd2 Bxd2+ 8. Nbxd2 is calmer) 7... Nxe4",
        "Black may take with Nxe4 at once, or retreat with Bb6.",  # legal at the moment
        "White threatens d5 and e5, even Bxf7+ comes to mind.",  # as if Black passed
        "The Bc4 looks at f7.",  # a piece on its square
        "The knight came by Nf3; c3 prepared d4, and exd4 was the answer.",  # the past
        "Soon comes O-O, and Bxc3 takes the knight.",  # the near future
        "In the sideline 3... Nf6 4. Ng5 d5 5. exd5 Na5 Black gives a pawn.",
        "Also 3... Nf6 4. Ng5 Bc5 5. Bxf7+ is played.",
        "With 6… Bb4+ or 6...Bb4+, 7.Nc3 or 7 . Nc3",
        "Castling long, 8. 0-0, is the wrong word but a legal move: 7. Nc3 Nxe4 8. 0-0.",
        "8. ♘xe4 is no good name, but 7. ♘c3 ♞xe4 is.",
        "The squares e4, d5 and h9 are no moves; nor is Ne2-g3-f5 as a way, nor B2B.",
        "`Qxh9` in code, [a link](Qa4.html), <b title='Qa4'>a tag</b>, 1-0, 0-1, 3/4.",
        "```\n14. Rxa8\n```\n\n~~~\nRxa8\n~~~",
        r"Escaped: 6\. cxd4 Bb4\+",
        "7. Kf1, 7. Ke2 and 7. Nbd2 are other ways to answer the check.",
        "After 5. d4 exd4 6. e5 d5 7. Bb5 we have the other main line.",
    ],
)
def test_right_prose_is_left_alone(tmp_path, text):
    if "8. ♘xe4" in text:
        assert [move for move, _ in faults(tmp_path, text)] == ["8. ♘xe4"]
    else:
        assert faults(tmp_path, text) == []


@pytest.mark.parametrize(
    ("text", "moves", "part"),
    [
        ("The answer is 6... Qxg2.", ["6... Qxg2"], "cannot reach g2"),
        ("6... Bb4+ 7. Nd2 Nxe5", ["7. Nd2", "Nxe5"], "two knights|nothing to take"),
        ("The quiet Rd8 is best.", ["Rd8"], "cannot reach d8"),
        ("He should play Qa5+.", ["Qa5"], "in the way"),
        ("After 41. Kg1 it is over.", ["41. Kg1"], "no position where White plays move 41"),
        ("7... Nxe4 8. Qxe4", ["8. Qxe4"], "cannot reach e4"),
        ("3... Nf6 4. Ng5 Bc5 5. Bxf7#", ["5. Bxf7"], "is not checkmate"),
        ("White would like fxe5 here.", ["fxe5"], ""),
        ("8. 0-0-0", ["8. 0-0-0"], "in the way"),
    ],
)
def test_a_wrong_move_is_found_with_its_reason(tmp_path, text, moves, part):
    import re

    found = faults(tmp_path, text)
    assert [move for move, _ in found] == moves
    assert re.search(part, found[0][1])
    assert "/" not in found[0][1]  # no FEN: a teacher reads it
    assert re.search(r"\((White|Black) to move, move \d+\)$", found[0][1]) or "41" in text


def test_a_section_speaks_of_its_own_moments(tmp_path):
    at_start = faults(tmp_path, "Nxe4 is the idea.", code="lesson.after('1. e4')")
    assert [move for move, _ in at_start] == ["Nxe4"]
    later = faults(tmp_path, "Nxe4 is the idea.", code="lesson.after('7. Nc3')")
    assert later == []
    whole = faults(tmp_path, "All in all Nxe4 was the idea, not Rxe4.", code="")
    assert [move for move, _ in whole] == ["Rxe4"] or whole == []


def test_a_notebook_of_two_lessons_is_checked_against_both(tmp_path):
    (tmp_path / "other.pgn").write_text("1. d4 d5 2. c4 *")
    two = "second = Lesson.read('other.pgn')\nlesson.after('6. cxd4')"
    assert faults(tmp_path, "2. Nf3 here, 2. c4 there.", code=two) == []
    assert len(faults(tmp_path, "2. Nxf3 is in neither.", code=two)) == 1


def test_what_is_no_lesson_is_left_alone(tmp_path):
    book = new_notebook([markdown_cell("a", "9. Qxz9 Qa4"), code_cell("b", "1 + 1")], notes={})
    assert wrong_moves(book, folder=tmp_path) == []


@pytest.mark.thorough
def test_a_drafted_lesson_s_own_prose_is_right(tmp_path):
    from chessnb import Lesson
    from chessnb.notebooks.drafting.lesson_page import lesson_cells
    from chessnb.teaching.turning_points import turning_points

    (tmp_path / "game.pgn").write_text(GAME)
    lesson = Lesson.read(tmp_path / "game.pgn")
    for most in (0, 3, 12):
        points, _ = turning_points(lesson, most=most)
        cells = lesson_cells(lesson, points, reading="Lesson.read('game.pgn')", name="x.ipynb")
        assert wrong_moves(new_notebook(cells, notes={}), folder=tmp_path) == []


def test_visible_is_what_a_reader_sees():
    assert visible(r"**14\. Nd5** &amp; *so* `x`").split() == ["14.", "Nd5", "&", "*so*"]


@pytest.mark.parametrize(
    ("code", "addresses"),
    [
        ("lesson.after('1. e4')", ["1. e4"]),
        ("m = lesson.before('2. Nf3')\nm", ["1... e5"]),
        ("m = lesson.after('1. e4').next\nprint(m, lesson.end)", ["1. e4", "1... e5", "8... Bxc3"]),
        ("facts.material(lesson.after('2. Nf3'))", ["2. Nf3"]),
        ("for x in [lesson.start]:\n    show(x)", ["start"]),
        ("d = lesson.add_position('4k3/8/8/8/8/8/4P3/4K3 w - - 0 1', name='pawn')\nd", ["pawn"]),
        ("lesson.add_line(lesson.after('1. e4'), '1... c5', name='other')", ["1. e4", "1... c5"]),
        ("lesson.after('9. Qh9')", []),
        ("lesson.after(", []),
        ("%matplotlib inline\nlesson.start", ["start"]),
        ("import os; os.remove('game.pgn')\nlesson.start", ["start"]),
        ("open('made', 'w').write('x')", []),
    ],
)
def test_moments_are_read_from_code_and_nothing_is_run(tmp_path, code, addresses):
    (tmp_path / "game.pgn").write_text(GAME)
    reader = CodeReader(tmp_path)
    reader.moments(READ)
    assert [moment.address for moment in reader.moments(code)] == addresses
    assert (tmp_path / "game.pgn").exists()
    assert not (tmp_path / "made").exists()
