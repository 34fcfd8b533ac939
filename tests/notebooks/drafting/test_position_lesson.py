"""A list of positions becomes a lesson; what a teacher added to its game file stays."""

import pytest

from chessnb import Lesson
from chessnb.errors import LessonError, NotebookError
from chessnb.notebooks import read_notebook
from chessnb.notebooks.drafting import draft
from chessnb.notebooks.verification import verify

LIST = """\
6k1/5ppp/8/8/8/8/8/R3K3 w - - bm Ra8#; id "the plain one"; c0 "Count the *flights*.";
r3k3/8/8/3N4/8/8/5PPP/6K1 w - - 0 1
8/4k3/8/4K3/4P3/8/8/8 b - -
"""


@pytest.fixture(scope="module")
def drafted(tmp_path_factory):
    folder = tmp_path_factory.mktemp("positions")
    (folder / "first-steps.epd").write_text(LIST, encoding="utf-8")
    done = draft(folder / "first-steps.epd", folder / "first-steps.ipynb", level="club")
    return folder, done


def sources(folder):
    return [cell["source"] for cell in read_notebook(folder / "first-steps.ipynb")["cells"]]


def test_each_position_has_its_heading_its_question_and_its_proof(drafted):
    folder, done = drafted
    assert (done.stops, done.moves, done.title) == (3, 0, "First steps")
    assert done.in_words == "it stops at 3 positions."
    cells = sources(folder)
    assert cells[0].startswith("# First steps\n\n3 positions.\n\n**Level:** club")
    assert "Lesson.read('first-steps.pgn', level='club')" in cells[2]
    assert cells[3] == "## The plain one\n\nCount the \\*flights\\*."
    assert cells[4].splitlines()[:2] == [
        "with page(lesson.at('the plain one'), ask='find the move', "
        "question='White mates in one move. How?') as m:",
        "    claims.mates(m, within=1, move='Ra8#')",
    ]
    assert "claims.wins_material(m, at_least=2, within=2, move='Nc7+')" in cells[6]
    assert cells[8].splitlines()[1:] == ["    facts.ending(m)"]
    assert "turned=True" in cells[8]


def test_the_answers_stand_in_the_game_file(drafted):
    folder, _ = drafted
    lesson = Lesson.read(folder / "first-steps.pgn")
    assert lesson.game is None
    assert lesson.at("diagram 2").next.san == "Nc7+"
    assert lesson.at("diagram 3").next is None


@pytest.mark.thorough
def test_the_lesson_is_verified(drafted):
    folder, _ = drafted
    report = verify([folder / "first-steps.ipynb"])
    assert report.exit_code == 0, list(report.lines())


def test_drafted_again_it_keeps_what_was_added_and_takes_in_what_is_new(drafted):
    folder, _ = drafted
    place = folder / "first-steps.pgn"
    lesson = Lesson.read(place)
    lesson.add_line(lesson.at("diagram 3"), "1... Kd7 2. Kf6", note="the teacher's own")
    lesson.save(place, overwrite=True)
    more = f'{LIST}6k1/5ppp/8/8/8/8/8/3RK3 w - - id "another";\n'
    (folder / "first-steps.epd").write_text(more, encoding="utf-8")
    again = draft(folder / "first-steps.epd", folder / "first-steps.ipynb", force=True)
    assert again.stops == 4
    now = Lesson.read(place)
    assert now.at("diagram 3").next.san == "Kd7"
    assert now.at("another").next.san == "Rd8#"
    assert list(now.positions) == ["the plain one", "diagram 2", "diagram 3", "another"]


def test_a_game_in_the_same_place_is_never_written_over(tmp_path):
    (tmp_path / "a.epd").write_text(LIST, encoding="utf-8")
    game = tmp_path / "a.pgn"
    game.write_text("1. e4 e5 *\n", encoding="utf-8")
    for force in (False, True):
        with pytest.raises(NotebookError, match="there is such a file already"):
            draft(tmp_path / "a.epd", tmp_path / "a.ipynb", force=force)
    assert game.read_text(encoding="utf-8") == "1. e4 e5 *\n"


def test_nothing_stays_behind_if_the_lesson_does_not_come_about(tmp_path):
    (tmp_path / "a.epd").write_text(LIST.splitlines()[0], encoding="utf-8")

    def stopped(number, count):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        draft(tmp_path / "a.epd", tmp_path / "a.ipynb", on_cell=stopped)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.epd"]


def test_a_list_has_no_games_to_choose_from(tmp_path):
    (tmp_path / "a.epd").write_text(LIST, encoding="utf-8")
    with pytest.raises(LessonError, match="no games to choose from"):
        draft(tmp_path / "a.epd", tmp_path / "a.ipynb", game=2)
