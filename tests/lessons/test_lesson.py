"""Lessons: sidelines, positions, saving."""

import chess
import pytest
from notation.test_movetext import random_tree

from chessnb import Lesson
from chessnb.errors import GameFileError, IllegalMove, LessonError, PositionError

GAME = """[Event "Club evening"]
[White "Ada Quill"]
[Black "Tom Marsh"]
[Result "*"]
[TimeControl "5400+30"]
[MadeUp "kept as it is"]

{[%example one] Before it all.} 1. e4 $1 {[%example 12] Best by test. [%example two]} e5
( {The sharp way:} 1... c5 2. Nf3 ) 2. Nf3 $146 Nc6 *
"""


@pytest.fixture
def lesson():
    return Lesson.from_text(GAME, title="First steps", level="club", minutes=30, goals=["a", "b"])


def test_what_it_says_of_itself(lesson):
    assert lesson.words == "Lesson 'First steps': 2 moves, 1 sideline, 2 comments"
    assert repr(lesson) == lesson.words
    assert lesson.players == "Ada Quill – Tom Marsh"
    assert (lesson.level, lesson.minutes, lesson.goals) == ("club", 30, ("a", "b"))
    assert Lesson.from_text(GAME).title == "Ada Quill – Tom Marsh"
    assert Lesson.from_text("1. e4").title == "A game"


def test_commands_are_hidden_from_readers_and_kept_in_the_file(lesson):
    assert lesson.after("1. e4").comment == "Best by test."
    assert "{ [%example 12] Best by test. [%example two] }" in lesson.pgn
    assert "[%example one]" in lesson.pgn


def test_saved_and_read_again_it_is_the_same(lesson, tmp_path):
    lesson.add_position(
        "8/8/8/4k3/8/8/4P3/4K3 w - - 0 1", name="the last pawn", note="White to win"
    )
    lesson.save(tmp_path / "lesson.pgn")
    again = Lesson.read(tmp_path / "lesson.pgn")
    assert again.pgn == lesson.pgn
    assert again.words == lesson.words
    assert again.goals == ("a", "b")
    assert again.at("the last pawn").comment == "White to win"
    assert '[MadeUp "kept as it is"]' in again.pgn
    assert again.after("1. e4").nags == (1,)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["lesson.pgn"]


@pytest.mark.parametrize("seed", range(20))
def test_random_trees_survive_saving(seed, tmp_path):
    lesson = Lesson(random_tree(seed))
    lesson.save(tmp_path / "x.pgn")
    assert Lesson.read(tmp_path / "x.pgn").pgn == lesson.pgn
    for moment in lesson.moments():
        assert lesson.at(moment.address) == moment


def test_titles_with_quotes_survive_saving(tmp_path):
    lesson = Lesson.from_text("1. e4 *", title='The "loose" rook \\ twice')
    lesson.save(tmp_path / "x.pgn")
    assert Lesson.read(tmp_path / "x.pgn").title == lesson.title


def test_a_file_that_cannot_be_written_leaves_all_as_it_was(lesson, tmp_path):
    with pytest.raises(GameFileError, match="cannot be written"):
        lesson.save(tmp_path / "no folder" / "x.pgn")
    (tmp_path / "folder.pgn").mkdir()
    with pytest.raises(GameFileError, match="cannot be written"):
        lesson.save(tmp_path / "folder.pgn")
    assert [path.name for path in tmp_path.iterdir()] == ["folder.pgn"]


def test_a_sideline_is_added_named_found_and_removed(lesson):
    at = lesson.after("1... e5")
    end = lesson.add_line(at, "2. f4 exf4 3. Nf3", name="The gambit", note="a pawn for time {}")
    assert end.address == "2. f4 exf4 3. Nf3"
    assert end.comment == "a pawn for time ()"
    assert lesson.at("The gambit").address == "2. f4"
    assert lesson.at("The gambit").line_name == "The gambit"
    assert set(lesson.lines()) == {"The sharp way", "The gambit"}
    assert Lesson.from_text(lesson.pgn).at("The gambit").address == "2. f4"
    lesson.remove_line("The gambit")
    assert set(lesson.lines()) == {"The sharp way"}
    lesson.remove_line(lesson.at("1... c5 2. Nf3"))
    assert lesson.lines() == {}
    assert lesson.words == "Lesson 'First steps': 2 moves, 2 comments"


def test_moves_that_are_there_are_followed(lesson):
    before = lesson.pgn
    assert lesson.add_line(lesson.start, "1. e4 c5 2. Nf3").address == "1... c5 2. Nf3"
    assert lesson.pgn == before
    lesson.add_line(lesson.after("1... c5"), "2. c3")
    assert lesson.at("1... c5 2. c3").is_main_line is False


def test_a_wrong_sideline_changes_nothing(lesson):
    before = lesson.pgn
    at = lesson.after("1... e5")
    with pytest.raises(IllegalMove, match="the pawn on g2 is in the way"):
        lesson.add_line(at, "2. f4 exf4 3. Bf1-h3")
    for name in ("", "two: colons", "x" * 61, "a {brace}", "The sharp way", "[%example 1]"):
        with pytest.raises(LessonError):
            lesson.add_line(at, "2. f4", name=name)
    with pytest.raises(LessonError, match="main line"):
        lesson.add_line(at, "2. Nf3", name="no sideline")
    with pytest.raises(LessonError, match="at least one move"):
        lesson.add_line(at, "")
    with pytest.raises(LessonError, match="another lesson"):
        lesson.add_line(Lesson.from_text("1. d4").start, "1. e4")
    with pytest.raises(LessonError, match="main line, which cannot be removed"):
        lesson.remove_line("1. e4")
    assert lesson.pgn == before


def test_positions_on_a_theme():
    lesson = Lesson(title="Pawn endings")
    first = lesson.add_position("8/8/8/4k3/8/8/4P3/4K3 w - - 0 1")
    assert first.address == "diagram 1"
    lesson.add_line(first, "1. Kd2 Kd4 2. e3+", note="the opposition is lost")
    assert lesson.at("diagram 1: 2. e3+").comment == "the opposition is lost"
    assert lesson.at("diagram 1: 1. Kd2").address == "diagram 1: 1. Kd2"
    assert lesson.at("diagram 1").after("1. Kd2 Kd4").label == "after diagram 1: 1... Kd4"
    assert lesson.words == "Lesson 'Pawn endings': 1 position"
    assert str(lesson) == '"Pawn endings" | lesson | positions 1 | given'
    again = Lesson.from_text(lesson.pgn)
    assert again.pgn == lesson.pgn
    assert again.title == "Pawn endings"
    with pytest.raises(LookupError, match=r"no game, only positions.*diagram 1"):
        lesson.at("1. e4")
    with pytest.raises(LessonError, match="already has a position"):
        lesson.add_position(chess.Board(), name="diagram 1")
    with pytest.raises(PositionError):
        lesson.add_position("8/8/8/8/8/8/8/8 w - - 0 1")
    with pytest.raises(LessonError, match="no game"):
        _ = lesson.start


def test_a_moment_s_record_is_exact_and_its_board_the_caller_s_own(lesson):
    moment = lesson.after("1... c5 2. Nf3")
    assert moment.words == (
        "after 1... c5 2. Nf3, Black to move: "
        "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2"
    )
    assert str(moment) == f"1... c5 2. Nf3 | position | {moment.fen} | rules"
    assert str(lesson.start) == f"1. | position | {chess.STARTING_FEN} | rules"
    assert repr(moment) == f"<Moment after 1... c5 2. Nf3: {moment.fen}>"
    moment.board.push_san("Nc6")
    assert moment.board.fen() == moment.fen
    assert moment.played == "1. e4 c5 2. Nf3"
    assert moment == lesson.at("1... c5").next
    assert len({moment, lesson.at("1... c5").next}) == 1


def test_what_a_caption_says_at_the_end_of_a_game():
    mate = Lesson.from_text("1. f3 e5 2. g4 Qh4# 0-1")
    assert mate.end.caption == "After 2... Qh4#. White is checkmated."
    assert (
        Lesson.from_text("1. e4 e5 2. Qh5 Nc6 3. Qxf7+").end.to_move == "Black to move, in check."
    )


def test_changes_need_a_move(lesson):
    assert lesson.after("1. e4").changes().words.startswith("1. e4")
    with pytest.raises(LessonError, match="no move leads here"):
        lesson.start.changes()


def test_a_file_with_other_games_is_not_written_over(tmp_path):
    path = tmp_path / "two.pgn"
    path.write_text('[Event "1"]\n\n1. e4 *\n\n[Event "2"]\n\n1. d4 *\n')
    before = path.read_bytes()
    for overwrite in (False, True):
        with pytest.raises(LessonError, match="holds 2 games"):
            Lesson.read(path).save(path, overwrite=overwrite)
    assert path.read_bytes() == before


def test_saving_keeps_permissions_and_links(tmp_path):
    path, link = tmp_path / "x.pgn", tmp_path / "link.pgn"
    path.write_text("1. e4 *")
    path.chmod(0o664)
    link.symlink_to(path)
    Lesson.read(link).save(link, overwrite=True)
    assert link.is_symlink()
    assert path.stat().st_mode & 0o777 == 0o664


def test_a_lesson_of_positions_keeps_what_it_says_of_itself():
    lesson = Lesson(title="Forks", level="club", goals=["Look", "leap"], minutes=30)
    lesson.add_position("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1")
    again = Lesson.from_text(lesson.pgn)
    assert (again.title, again.level, again.goals, again.minutes) == (
        "Forks", "club", ("Look", "leap"), 30,
    )  # fmt: skip
    for wrong in ({"goals": "one"}, {"goals": ["a; b"]}, {"minutes": "30"}, {"minutes": 0}):
        with pytest.raises(LessonError):
            Lesson(**wrong)


def test_saving_says_what_was_written(lesson, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    saved = lesson.save("x.pgn")
    assert saved.words == "saved x.pgn: 2 moves, 1 sideline, 2 comments"
    assert str(saved) == '"x.pgn" | saved | moves 2 | sidelines 1 | comments 2 | given'
    assert "<p>saved x.pgn" in saved._repr_html_()
    assert Lesson().save("empty.pgn").words == "saved empty.pgn: an empty lesson"


def test_the_file_that_it_was_read_from_is_not_written_over(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my-game.pgn").write_text(GAME)
    lesson = Lesson.read("my-game.pgn")
    lesson.add_line(lesson.after("2. Nf3"), "2... d6")
    with pytest.raises(LessonError) as caught:
        lesson.save("my-game.pgn")
    assert str(caught.value) == (
        "my-game.pgn is the file that this lesson was read from: save it under another name, or "
        "write over it with save('my-game.pgn', overwrite=True)"
    )
    assert (tmp_path / "my-game.pgn").read_text() == GAME
    lesson.save("my-game.pgn", overwrite=True)
    assert Lesson.read("my-game.pgn").after("2... d6")


def test_what_it_has_saved_may_be_saved_again_and_by_a_later_run_too(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "my-game.pgn").write_text(GAME)
    for _ in range(2):  # the notebook is run from its first cell again
        lesson = Lesson.read("my-game.pgn")
        lesson.save("my-lesson.pgn")
        lesson.add_line(lesson.after("2. Nf3"), "2... d6")
        lesson.save("my-lesson.pgn")
    typed = Lesson.from_text(GAME, title="Typed")
    for _ in range(2):
        typed.save("typed.pgn")
        typed = Lesson.from_text(GAME, title="Typed")
    positions = Lesson(title="Forks")
    positions.add_position("4k3/8/8/8/8/8/4P3/4K3 w - - 0 1")
    for _ in range(2):
        positions.save("positions.pgn")


def test_what_another_has_written_is_not_written_over(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "games.pgn").write_text("1. e4 e5 *\n\n1. d4 d5 *\n")
    (tmp_path / "by-hand.pgn").write_text("1. e4 {My own words.} *")
    (tmp_path / "notes.pgn").write_bytes(b"\x00\x01 no game at all")
    first, second = Lesson.read("games.pgn", game=1), Lesson.read("games.pgn", game=2)
    first.save("lesson.pgn")
    for lesson, name in (
        (first, "by-hand.pgn"), (second, "lesson.pgn"), (Lesson.read("lesson.pgn"), "by-hand.pgn"),
    ):  # fmt: skip
        before = (tmp_path / name).read_bytes()
        with pytest.raises(LessonError, match="is there already, and this lesson did not write it"):
            lesson.save(name)
        assert (tmp_path / name).read_bytes() == before
    with pytest.raises(LessonError, match="was read from"):
        Lesson.read("lesson.pgn").save("lesson.pgn")


def test_a_comment_breaks_between_its_words_alone(tmp_path):
    words = "The knight heads for f5, " * 12
    text = f"1. e4 {{ The\nknight\n\n  heads [%example 12] for f5 }} e5 {{{words}}} 2. Nf3 *"
    lesson = Lesson.from_text(text)
    lesson.save(tmp_path / "x.pgn")
    lines = (tmp_path / "x.pgn").read_text().splitlines()
    assert "1. e4 { The knight heads [%example 12] for f5 } 1... e5" in lines
    assert any(line.startswith("{ The knight heads for f5, The knight heads") for line in lines)
    assert max(map(len, lines)) <= 80
    assert not any(line.endswith("{") or line.startswith("}") for line in lines)
    again = Lesson.read(tmp_path / "x.pgn")
    assert again.pgn == lesson.pgn
    assert again.after("1... e5").comment == words.strip()
    one_word = Lesson.from_text(f"1. e4 {{{'x' * 100}}} *")
    assert Lesson.from_text(one_word.pgn).after("1. e4").comment == "x" * 100
