"""Game files, checked against python-chess's own reader and the PGN standard."""

import io
import logging

import chess.pgn
import pytest
from references.archive import game_files

from chessnb import Lesson
from chessnb.errors import GameFileError
from chessnb.lessons.game_files import (
    build_game,
    escape_tag,
    open_game_file,
    raw_games,
    unescape_tag,
)


def is_variant(path):
    return b"[Variant" in path.read_bytes()


@pytest.mark.parametrize("path", game_files(), ids=lambda path: f"{path.parent.name}-{path.name}")
def test_every_game_of_the_archive_is_the_reference_library_s(path, monkeypatch):
    monkeypatch.setattr(logging.getLogger("chess.pgn"), "disabled", True)
    with (
        path.open(encoding="utf-8-sig", errors="replace") as theirs,
        open_game_file(path) as handle,
    ):
        games = list(raw_games(handle, path=path.name))
        for raw in games:
            reference = chess.pgn.read_game(theirs)
            if is_variant(path):
                with pytest.raises(GameFileError, match="lessons are of standard chess"):
                    build_game(raw)
            else:
                assert str(build_game(raw)) == str(reference)
        assert chess.pgn.read_game(theirs) is None
        assert games


def test_standard_and_variant_files_are_both_there():
    assert {is_variant(path) for path in game_files()} == {True, False}


GAMES = """[Event "One"]
[White "Ada Quill"]
[Black "Tom Marsh"]
[Result "1-0"]

1. e4 {a comment with
[Event "inside"] and ( a bracket} e5 1-0

[Event "Two"]
[White "Ira Stone"]
[Result "*"]

1. d4 ; a rest-of-line comment 1-0 {
1... d5 (1... Nf6 0-1) 2. c4 *
1. c4 c5 *
"""


def test_a_file_is_cut_where_its_games_end():
    games = list(raw_games(io.StringIO(GAMES), path="x.pgn"))
    assert [raw.number for raw in games] == [1, 2, 3]
    assert [raw.tag("White") for raw in games] == ["Ada Quill", "Ira Stone", ""]
    assert [raw.line for raw in games] == [1, 9, 15]
    assert [build_game(raw).end().ply() for raw in games] == [2, 3, 2]


def test_a_comment_that_swallows_the_next_game_is_pointed_at():
    text = '[Event "1"]\n\n1. e4 {no end\n\n[Event "2"]\n\n1. d4 {here} d5 2. c4 *'
    with pytest.raises(GameFileError, match="the comment in line 3 no closing brace"):
        Lesson.from_text(text.replace("1. d4 {here} d5 2. c4", "1. d4 {x} Nc3"))


def test_a_game_is_found_by_number_or_header():
    assert Lesson.from_text(GAMES).title == "Ada Quill – Tom Marsh"
    assert Lesson.from_text(GAMES, game=3).end.address == "1... c5"
    assert Lesson.from_text(GAMES, where={"White": "STONE"}).end.address == "2. c4"
    with pytest.raises(GameFileError, match="there is no game 4: the file holds only 3 games"):
        Lesson.from_text(GAMES, game=4)
    with pytest.raises(GameFileError, match="no game of the 3 in the file has White with 'Nobody'"):
        Lesson.from_text(GAMES, where={"White": "Nobody"})


def test_a_big_file_is_not_loaded(tmp_path):
    import tracemalloc

    path = tmp_path / "big.pgn"
    one = '[Event "%d"]\n[White "%d"]\n[Result "*"]\n\n' + "1. e4 {" + "x" * 2000 + "} e5 *\n\n"
    with path.open("w") as handle:
        for number in range(1, 5001):
            handle.write(one % (number, number))
    tracemalloc.start()
    lesson = Lesson.read(path, game=4990)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert lesson.header("White") == "4990"
    assert peak < path.stat().st_size / 5


@pytest.mark.parametrize(
    ("content", "part"),
    [
        (b"", "it holds no game"),
        (b" \n\n \t\n", "it holds no game"),
        (b"\xef\xbb\xbf", "it holds no game"),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "not a text file"),
        (bytes(range(256)) * 40, "not a text file"),
        (b"Dear colleague, here is the game.", "does not look like a game file"),
        (b'[Event "x"]\n[White "cut o', "line 2: this header is not of the form"),
        (b'[Event "x"]\n\n1. e4 e5 2. Nf3 {and now', "no closing brace"),
        (b'[Event "x"]\n\n1. e4 e5 (1... c5 2. Nf3', "no closing bracket"),
        (b'[Event "x"]\n\n1. e4 e5\n2. Nf', "line 4: 2. Nf: the square is missing"),
        (
            b'[Result "1-0"]\n\n1. e4 e5 2. Nf3',
            "the moves stop after 2. Nf3 without the result 1-0",
        ),
        (b"1. e4 e5 2. Bg5", "2. Bg5: the bishop on c1 cannot reach g5"),
        (b'[Variant "Atomic"]\n\n1. e4', "a game of Atomic"),
        (
            b'[FEN "hello"]\n\n1. e4',
            "the FEN header is no position: this is not a FEN (it begins with",
        ),
        (b'[FEN "8/8/8 w - - 0 1"]\n\n1. e4', "needs 8 ranks with / between them, and has 3"),
        (
            b'[Event "x"]\n\n1. ' + b"9" * 5000 + b". e4 *",
            f"1. {'9' * 60}…: this is too long for one move",
        ),
        (b'[FEN "8/8/8/8/8/8/8/4K3 w - - 0 1"]\n\n*', "Black has no king"),
        (
            b'[FEN "nbbrknrq/pppppppp/8/8/8/8/PPPPPPPP/NBBRKNRQ w KQkq - 0 1"]\n\n1. d4 *',
            "castles from squares that standard chess does not know",
        ),
    ],
)
def test_what_is_no_game_gets_one_clear_sentence(tmp_path, content, part):
    path = tmp_path / "game.pgn"
    path.write_bytes(content)
    with pytest.raises(GameFileError) as caught:
        Lesson.read(path)
    assert part in str(caught.value)
    assert str(path) in str(caught.value)


def test_missing_files_and_folders(tmp_path):
    with pytest.raises(GameFileError, match="there is no such file"):
        Lesson.read(tmp_path / "none.pgn")
    with pytest.raises(GameFileError, match="this is a folder"):
        Lesson.read(tmp_path)


@pytest.mark.parametrize(
    "encoding", ["utf-8", "utf-8-sig", "utf-16", "latin-1"]
)  # ISO 8859-1 is the PGN standard's own character set (section 4.1)
def test_character_sets(tmp_path, encoding):
    path = tmp_path / "game.pgn"
    path.write_bytes('[White "Søren Bäcker"]\r\n\r\n1. e4 {é} *\r\n'.encode(encoding))
    lesson = Lesson.read(path)
    assert lesson.header("White") == "Søren Bäcker"
    assert lesson.end.comment == "é"


def test_tag_values_are_escaped_as_the_standard_says():  # PGN standard, section 7
    value = r'a "quoted" and a \ backslash'
    assert escape_tag(value) == r"a \"quoted\" and a \\ backslash"
    assert unescape_tag(escape_tag(value)) == value
    assert Lesson.from_text(f'[White "{escape_tag(value)}"]\n\n1. e4 *').header("White") == value


@pytest.mark.parametrize(
    ("text", "moves"),
    [
        # before the headers: an escape line (PGN standard, section 6) and comments
        ('% made by x\n[White "A"]\n[Black "B"]\n\n1. e4 e5 *', "1. e4 e5 *"),
        ('; made by x\n[Event "A"]\n\n1. e4 e5 *', "{ made by x } 1. e4 e5 *"),
        # an escape line is none inside a comment
        ("1. e4 {55\n% of games} e5 *", "1. e4 { 55\n% of games } 1... e5 *"),
        ("1. e4 {60\n% here} e5 *", "1. e4 { 60\n% here } 1... e5 *"),
        # old line ends
        ("1. e4 ; good\r1... e5 2. Nf3\r*", "1. e4 { good } 1... e5 2. Nf3 *"),
        # a move that a sideline repeats is followed, and the main line stays first
        ("1. e4 e5 (1... c5) (1... c5 2. Nf3) 2. Nf3 *", "1. e4 e5 ( 1... c5 2. Nf3 ) 2. Nf3 *"),
        ("1. e4 e5 ({x} 1... e5 {y} 2. d4) 2. Nf3 *", "1. e4 e5 { x y } 2. Nf3 ( 2. d4 ) *"),
        (
            "1. e4 e5 (1... c5 2. Nf3 d6 (2... Nc6 3. d4) (2... Nc6 3. Bb5)) *",
            "1. e4 e5 ( 1... c5 2. Nf3 d6 ( 2... Nc6 3. d4 ( 3. Bb5 ) ) ) *",
        ),
    ],
)
def test_nothing_is_lost_or_doubled(text, moves):
    lesson = Lesson.from_text(text)
    assert " ".join(lesson.pgn.split("\n\n", 1)[1].split()) == " ".join(moves.split())
    for moment in lesson.moments():
        assert lesson.at(moment.address) == moment


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("1. e4 e5 1-0 1. d4 d5 0-1", "d4 follows the result"),
        ('[Result "2-0"]\n\n1. e4 *', "'2-0'; a result is"),
        ('[Result "1-0"]\n\n1. e4 e5 0-1', "which is right?"),
        ("1. f3 e5 2. g4 Qh4# 1-0", "ends with checkmate, 0-1, and its result says 1-0"),
        (
            "1. e4 e5 (1... c5 2. Nf3\n2. Nf3 Nc6 *",
            "The bracket that opened in line 1 is still open",
        ),
    ],
)
def test_contradictions_are_said(text, part):
    with pytest.raises(GameFileError) as caught:
        Lesson.from_text(text)
    assert part in str(caught.value)


def test_games_of_headers_alone_keep_them():
    text = '[White "Quill"]\n[Black "X"]\n\n[White "Marsh"]\n\n1. e4 *'
    assert Lesson.from_text(text).header("White") == "Quill"
    assert Lesson.from_text(text, game=2).header("White") == "Marsh"
    two = Lesson.from_text('[White "Quill"] [Black "Marsh"]\n\n1. e4 *')
    assert two.title == "Quill – Marsh"


def test_a_game_file_that_is_not_there_is_told_with_what_is(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "games").mkdir()
    with pytest.raises(GameFileError, match=r"^my-game\.pgn: there is no such file$"):
        Lesson.read("my-game.pgn")
    for name in ("renamed.pgn", "games/first.PGN", "games/second.pgn"):
        (tmp_path / name).write_text("1. e4 *")
    (tmp_path / "games" / "notes.txt").write_text("")
    told = {
        "my-game.pgn": "; renamed.pgn is here: write that name instead",
        "games/third.pgn": "; first.PGN and second.pgn are here in 'games': "
        "write the right name instead",
        "games/secnd.pgn": "; second.pgn is here in 'games': write that name instead",
        "nowhere/my-game.pgn": ": there is no folder 'nowhere'",
    }
    for name, hint in told.items():
        with pytest.raises(GameFileError) as caught:
            Lesson.read(name)
        assert caught.value.reason == f"there is no such file{hint}"
    for number in range(5):
        (tmp_path / f"{number}.pgn").write_text("1. e4 *")
    with pytest.raises(GameFileError, match=r"no such file$"):
        Lesson.read("my-game.pgn")
