"""The commands as they are typed, with real files, real kernels and a real nbval."""

import json
import os
import random
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest
from references.archive import game_files
from thoroughness import some

from chessnb import __version__
from chessnb.errors import ChessnbError
from chessnb.search.compiled_core import TIMES_SLOWER

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "notebooks" / "games" / "lantern-street.pgn"


def chessnb(*arguments, folder, seconds=240):
    return subprocess.run(
        [sys.executable, "-m", "chessnb", *map(str, arguments)],
        cwd=folder, capture_output=True, text=True, timeout=seconds, encoding="utf-8",
        env={**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"},
    )  # fmt: skip


def standard_games():
    return [path for path in game_files() if b"[Variant" not in path.read_bytes()]


@pytest.mark.thorough
def test_every_standard_game_of_the_archive_becomes_a_lesson_that_verifies(tmp_path):
    assert len(standard_games()) >= 8
    games = some(standard_games())
    lessons = []
    for number, path in enumerate(games):
        lesson = tmp_path / f"{number}-{path.stem}.ipynb"
        done = chessnb("draft", path, "-o", lesson, folder=tmp_path)
        assert done.returncode == 0, done.stderr
        assert done.stderr == ""
        lessons.append(lesson)
    report = chessnb("verify", *lessons, folder=tmp_path, seconds=600)
    assert report.returncode == 0, report.stdout
    assert report.stdout.count(": verified: ") == len(games)


BAD = {
    "empty.pgn": b"",
    "cut-comment.pgn": b'[Event "x"]\n\n1. e4 e5 {and then',
    "cut-move.pgn": b'[Event "x"]\n[Result "1-0"]\n\n1. e4 e5 2. N',
    "cut-header.pgn": b'[Event "x"]\n[White "Ad',
    "illegal.pgn": b"1. e4 e5 2. Ke3 *",
    "picture.pgn": b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00",
    "letter.pgn": b"Dear colleague,\nplease find the game below.\n",
    "garbage.pgn": random.Random(1).randbytes(5_000_000),
    "text-garbage.pgn": random.Random(2).randbytes(5_000_000).translate(
        bytes(32 + number % 95 for number in range(256))
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def bad_files(tmp_path_factory):
    folder = tmp_path_factory.mktemp("bad")
    for name, content in BAD.items():
        (folder / name).write_bytes(content)
    (folder / "good.pgn").write_text("1. e4 e5 *")
    (folder / "folder.pgn").mkdir()
    (folder / "there.ipynb").write_text("{}")
    return folder


def refused(done):
    """One clear sentence on stderr, nothing else, exit code 2."""
    assert done.returncode == 2, done.stdout + done.stderr
    assert done.stdout == ""
    assert done.stderr.startswith("chessnb: ")
    assert done.stderr.count("\n") == 1
    assert len(done.stderr) < 600
    assert "Traceback" not in done.stderr


@pytest.mark.thorough
@pytest.mark.parametrize("name", [*BAD, "folder.pgn", "missing.pgn"])
def test_bad_games_are_refused(bad_files, name):
    before = sorted(bad_files.iterdir())
    done = chessnb("draft", name, "-o", "lesson.ipynb", folder=bad_files)
    refused(done)
    assert name in done.stderr
    assert sorted(bad_files.iterdir()) == before


@pytest.mark.thorough
@pytest.mark.parametrize(
    "path", [p for p in game_files() if b"[Variant" in p.read_bytes()], ids=str
)
def test_variants_are_refused(bad_files, path):
    before = sorted(bad_files.iterdir())
    done = chessnb("draft", path, "-o", "lesson.ipynb", folder=bad_files)
    refused(done)
    assert "lessons are of standard chess" in done.stderr
    assert sorted(bad_files.iterdir()) == before


@pytest.mark.thorough
@pytest.mark.parametrize(
    "target",
    [
        "no folder/lesson.ipynb", "good.pgn/lesson.ipynb", "lesson.txt", "there.ipynb",
        # No system lets anyone make a file here, its administrator included.
        pytest.param("/proc/lesson.ipynb", marks=pytest.mark.skipif(sys.platform != "linux", reason="no /proc")),
    ],
)  # fmt: skip
def test_places_where_no_lesson_can_be_written_are_refused(bad_files, target):
    before = {path: path.read_bytes() for path in bad_files.iterdir() if path.is_file()}
    refused(chessnb("draft", "good.pgn", "-o", target, folder=bad_files))
    assert {path: path.read_bytes() for path in bad_files.iterdir() if path.is_file()} == before


@pytest.mark.thorough
def test_a_game_number_that_is_not_there_and_a_wrong_option(bad_files):
    done = chessnb("draft", "good.pgn", "-o", "x.ipynb", "--game", "7", folder=bad_files)
    refused(done)
    assert "there is no game 7: the file holds only one game" in done.stderr
    done = chessnb("draft", "good.pgn", "-o", "x.ipynb", "--where", "White", folder=bad_files)
    assert done.returncode == 2
    assert "TAG=TEXT" in done.stderr


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    folder = tmp_path_factory.mktemp("demo")
    (folder / "games").mkdir()
    (folder / "games" / DEMO.name).write_bytes(DEMO.read_bytes())
    done = chessnb("draft", f"games/{DEMO.name}", "-o", "lesson.ipynb", folder=folder)
    assert done.returncode == 0, done.stderr
    assert "chessnb open" in done.stdout
    return folder


def changed(demo, tmp_path, change):
    """Return the report on the demo lesson after a change to its JSON."""
    (tmp_path / "games").mkdir()
    (tmp_path / "games" / DEMO.name).write_bytes(DEMO.read_bytes())
    lesson = json.loads((demo / "lesson.ipynb").read_text(encoding="utf-8"))
    change(lesson["cells"])
    (tmp_path / "lesson.ipynb").write_text(json.dumps(lesson), encoding="utf-8")
    return chessnb("verify", "lesson.ipynb", folder=tmp_path)


def source(cell):
    return "".join(cell["source"])


def cell_with(cells, text):
    return next(cell for cell in cells if text in source(cell))


THE_PAGE = 'page(lesson.before("Black\'s 20th")'
"""The page of the demo on which most is found."""


def find_otherwise(cells):
    """Let the saved page say that it is mate in five."""
    data = cell_with(cells, THE_PAGE)["outputs"][0]["data"]
    records = "".join(data["text/plain"])
    assert MATES in records
    data["text/plain"] = records.replace(MATES, "20... Nf3+ | mates | 5 | proved")


MATES = "20... Nf3+ | mates | 6 | proved"


def test_the_committed_demo_lesson_is_what_a_draft_gives(demo):
    assert (demo / "lesson.ipynb").exists()
    fresh = json.loads((demo / "lesson.ipynb").read_text(encoding="utf-8"))
    kept = json.loads((ROOT / "notebooks" / "lantern-street.ipynb").read_text(encoding="utf-8"))
    for lesson in (fresh, kept):  # they differ in their own file name alone
        cell_with(lesson["cells"], "chessnb verify")["source"] = ""
        for cell in lesson["cells"]:
            cell["metadata"]["chessnb"].pop("drafted")
    assert fresh == kept


@pytest.mark.thorough
def test_a_lesson_drafted_again_is_the_same_file(demo):
    before = (demo / "lesson.ipynb").read_bytes()
    refused(chessnb("draft", f"games/{DEMO.name}", "-o", "lesson.ipynb", folder=demo))
    assert (demo / "lesson.ipynb").read_bytes() == before
    done = chessnb("draft", f"games/{DEMO.name}", "-o", "lesson.ipynb", "--force", folder=demo)
    assert done.returncode == 0
    assert (demo / "lesson.ipynb").read_bytes() == before


@pytest.mark.thorough
def test_what_a_teacher_added_and_edited_outlives_a_redraft(demo, tmp_path):
    def edit(cells):
        cells[0]["source"] = "# My own title"
        cells.insert(
            4, {"cell_type": "markdown", "id": "mine", "metadata": {}, "source": "My words."}
        )

    changed(demo, tmp_path, edit)
    done = chessnb("draft", f"games/{DEMO.name}", "-o", "lesson.ipynb", "--force", folder=tmp_path)
    assert "Kept 1 cell that you added and 1 cell that you edited." in done.stdout
    cells = json.loads((tmp_path / "lesson.ipynb").read_text(encoding="utf-8"))["cells"]
    assert source(cells[0]) == "# My own title"
    assert source(cells[4]) == "My words."
    assert chessnb("verify", "lesson.ipynb", folder=tmp_path).returncode == 0


@pytest.mark.thorough
def test_a_changed_finding_is_reported_with_its_cell(demo, tmp_path):
    report = changed(demo, tmp_path, find_otherwise)
    assert report.returncode == 1
    assert "Black's 20th move" in report.stdout
    assert "20... Nf3+ | mates | 5 | proved" in report.stdout
    assert MATES in report.stdout


@pytest.mark.thorough
def test_a_card_that_was_changed_is_reported_with_its_cell(demo, tmp_path):
    def change(cells):
        data = cell_with(cells, THE_PAGE)["outputs"][0]["data"]
        html = "".join(data["text/html"])
        assert "Black mates in 6 with 20... Nf3+." in html
        data["text/html"] = html.replace(
            "Black mates in 6 with 20... Nf3+.", "White mates in 1 (proved)"
        )

    report = changed(demo, tmp_path, change)
    assert report.returncode == 1
    assert "Black's 20th move" in report.stdout
    assert "the card was changed by hand." in report.stdout


@pytest.mark.thorough
def test_an_illegal_move_in_a_cell_is_reported_with_its_reason(demo, tmp_path):
    def change(cells):
        cell_with(cells, THE_PAGE)["source"] = "lesson.after('20... Nf4+')"

    report = changed(demo, tmp_path, change)
    assert report.returncode == 1
    assert "Black's 20th move is 20... Nf3+" in report.stdout
    assert "Nf4+ is not legal there" in report.stdout


@pytest.mark.thorough
def test_an_illegal_move_on_a_page_is_reported_and_so_is_a_claim_that_is_false(demo, tmp_path):
    def change(cells):
        cell = cell_with(cells, THE_PAGE)
        made = source(cell).replace("m.after('Nf3+').changes()", "m.after('Nf4+').changes()")
        cell["source"] = made.replace("within=6", "within=2")

    report = changed(demo, tmp_path, change)
    assert report.returncode == 1
    assert "Black's 20th move" in report.stdout
    assert report.stdout.count("the knight on e5 cannot reach f4") == 1
    assert "20... Nf3+ | mates | 2 | wrong" in report.stdout


@pytest.mark.thorough
def test_an_illegal_move_in_the_prose_is_reported_with_its_reason(demo, tmp_path):
    def change(cells):
        cells.insert(
            -3, {"cell_type": "markdown", "id": "x", "metadata": {}, "source": "Best is 21. Kxf3."}
        )

    report = changed(demo, tmp_path, change)
    assert report.returncode == 1
    assert "21. Kxf3" in report.stdout


@pytest.mark.thorough
def test_a_changed_pen_stroke_is_not_reported(demo, tmp_path):
    def change(cells):
        data = cell_with(cells, THE_PAGE)["outputs"][0]["data"]
        html = "".join(data["text/html"])
        data["text/html"] = html.replace("base64,", "base64,AAAA")

    report = changed(demo, tmp_path, change)
    assert report.returncode == 0, report.stdout


@pytest.mark.thorough
def test_update_shows_the_difference_and_saves_it(demo, tmp_path):
    assert changed(demo, tmp_path, find_otherwise).returncode == 1
    update = chessnb("verify", "--update", "lesson.ipynb", folder=tmp_path)
    assert update.returncode == 0
    assert "20... Nf3+ | mates | 5 | proved" in update.stdout
    assert MATES in update.stdout
    assert (tmp_path / "lesson.ipynb").read_bytes() == (demo / "lesson.ipynb").read_bytes()


@pytest.mark.thorough
def test_a_lesson_without_its_game_says_what_is_missing(demo, tmp_path):
    (tmp_path / "lesson.ipynb").write_bytes((demo / "lesson.ipynb").read_bytes())
    report = chessnb("verify", "lesson.ipynb", folder=tmp_path)
    assert report.returncode == 1
    assert "games/lantern-street.pgn: there is no such file" in report.stdout
    assert "more cells lack what this cell gives" in report.stdout
    assert "NameError" not in report.stdout


@pytest.mark.thorough
def test_a_draft_stands_beside_its_game_if_nothing_else_is_said(tmp_path):
    (tmp_path / "games").mkdir()
    (tmp_path / "games" / "short.pgn").write_text("1. f3 e5 2. g4 Qh4# 0-1")
    done = chessnb("draft", "games/short.pgn", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    assert (tmp_path / "games" / "short.ipynb").exists()
    assert "games/short.ipynb" in done.stdout
    refused(chessnb("draft", "games/short.pgn", folder=tmp_path))


@pytest.mark.parametrize("compiled", [True, False])
def test_a_slow_search_is_said_once_beside_what_is_printed(compiled, monkeypatch, capsys, tmp_path):
    from chessnb.cli import app

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("chessnb.search.compiled_core.compiled", compiled)
    for command in ("draft missing.pgn", "open missing.pgn", "open missing.ipynb"):
        with pytest.raises(ChessnbError, match="there is no such file"):
            app(command.split(), standalone_mode=False)
        said_if_slow(capsys.readouterr(), compiled)
    app(["verify", "missing.ipynb"], standalone_mode=False)
    said_if_slow(capsys.readouterr(), compiled)


def said_if_slow(told, compiled):
    assert told.err.count("The search is not compiled") == (not compiled)
    assert told.err.count(f"about {TIMES_SLOWER} times as long") == (not compiled)
    assert told.err.count("To have it compiled, install") == (not compiled)
    assert "not compiled" not in told.out


@pytest.mark.thorough
@pytest.mark.parametrize("compiled", [True, False])
def test_a_draft_that_takes_long_says_how_far_it_is_where_no_terminal_shows_it(
    compiled, monkeypatch, capsys, tmp_path
):
    from chessnb.cli import app

    (tmp_path / "short.pgn").write_text("1. f3 e5 2. g4 Qh4# 0-1")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("chessnb.search.compiled_core.compiled", compiled)
    app(["draft", "short.pgn"], standalone_mode=False)
    lines = [line for line in capsys.readouterr().err.splitlines() if "Drafting" in line]
    if compiled:
        assert lines == []
    else:
        assert lines[:2] == ["Drafting … move 1 of 2", "Drafting … move 2 of 2"]
        assert 1 <= len([line for line in lines if " … cell " in line]) <= 6


@pytest.mark.thorough
def test_a_game_that_is_longer_than_any_lesson_is_refused_at_once(tmp_path):
    shuffled = " ".join(["Nf3 Nf6 Ng1 Ng8"] * 2250)
    (tmp_path / "long.pgn").write_text(f"{shuffled} *")
    done = chessnb("draft", "long.pgn", folder=tmp_path, seconds=60)
    refused(done)
    assert "this game has 4500 moves, and a lesson is drafted from 500 at most" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["long.pgn"]


@pytest.mark.thorough
@pytest.mark.parametrize("code_page", some(["cp437", "cp1252", "ascii"]))
def test_what_a_code_page_lacks_is_printed_all_the_same(code_page, tmp_path):
    name = "größe ♞ ½.pgn"
    (tmp_path / name).write_text('[White "Łódź ♞"]\n\n1. f3 e5 2. g4 Qh4# 0-1', encoding="utf-8")
    own = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": code_page}
    for arguments, code in ((["draft", name], 0), (["verify", name[:-4] + ".ipynb"], 0),
                            (["student", name[:-4] + ".ipynb"], 0), (["draft", name], 2)):  # fmt: skip
        done = subprocess.run(
            [sys.executable, "-m", "chessnb", *arguments], cwd=tmp_path, env=own,
            capture_output=True, timeout=240,
        )  # fmt: skip
        out, err = done.stdout.decode(code_page), done.stderr.decode(code_page)
        assert done.returncode == code, (out, err)
        assert "Traceback" not in err
        assert "?" in out + err


@pytest.mark.thorough
@pytest.mark.skipif(os.name != "posix", reason="the shell of POSIX systems")
def test_what_is_printed_to_be_typed_can_be_typed(tmp_path):
    folder = tmp_path / "it's my $HOME (1)"
    folder.mkdir()
    (folder / "a game.pgn").write_text("1. f3 e5 2. g4 Qh4# 0-1")
    done = chessnb("draft", folder / "a game.pgn", folder=tmp_path)
    [typed] = [line.partition(":")[2] for line in done.stdout.splitlines() if "Check it:" in line]
    own = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONIOENCODING": "utf-8"}
    own["PATH"] = f"{Path(sys.executable).parent}{os.pathsep}{own['PATH']}"
    checked = subprocess.run(
        typed, shell=True, cwd=tmp_path, env=own, capture_output=True, text=True, timeout=240
    )
    assert checked.returncode == 0, checked.stderr
    assert ": verified: " in checked.stdout


@pytest.mark.thorough
def test_a_notebook_with_a_byte_order_mark_is_checked_like_any_other(demo, tmp_path):
    changed(demo, tmp_path, lambda cells: None)
    lesson = tmp_path / "lesson.ipynb"
    lesson.write_bytes(b"\xef\xbb\xbf" + lesson.read_bytes())
    report = chessnb("verify", "lesson.ipynb", folder=tmp_path)
    assert report.returncode == 0, report.stdout
    assert ": verified: 46 findings agree" in report.stdout


IMPORTED = """
import sys
from chessnb.cli import app
try:
    app(["verify", "missing.ipynb"], standalone_mode=False)
finally:
    print(sorted({name.split(".")[0] for name in sys.modules}))
"""


@pytest.mark.thorough
def test_a_file_that_is_not_there_is_told_before_anything_heavy_is_loaded(tmp_path):
    done = subprocess.run(
        [sys.executable, "-c", IMPORTED], cwd=tmp_path, capture_output=True, text=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)}, check=False,
    )  # fmt: skip
    *told, loaded = done.stdout.splitlines()
    assert "there is no such file" in " ".join(told), done.stderr
    assert "'chessnb'" in loaded
    assert not {"nbformat", "nbval", "nbclient", "pytest", "jupyter_client"} & set(
        loaded.strip("[]").replace("'", "").split(", ")
    )


@pytest.mark.thorough
def test_files_that_are_no_lessons(bad_files):
    for name in ("missing.ipynb", "good.pgn", "there.ipynb"):
        report = chessnb("verify", name, folder=bad_files)
        assert report.returncode == 2, report.stdout
        assert name in report.stdout + report.stderr
        assert ("chessnb draft good.pgn" in report.stdout) == (name == "good.pgn")
    refused(chessnb("open", "missing.ipynb", "--no-browser", folder=bad_files))
    refused(chessnb("open", "empty.pgn", "--no-browser", folder=bad_files))
    refused(chessnb("teach", "missing.ipynb", "--no-browser", folder=bad_files))
    for publish in ("print", "page"):
        refused(chessnb(publish, "missing.ipynb", folder=bad_files))
        refused(chessnb(publish, "there.ipynb", folder=bad_files))
    refused(chessnb("print", "there.ipynb", "--letters", "klingon", folder=bad_files))
    refused(chessnb("print", "there.ipynb", "--paper", "a3", folder=bad_files))
    assert not list(Path(bad_files).glob("*.pdf")) + list(Path(bad_files).glob("*.html"))


@pytest.mark.thorough
def test_a_drafted_lesson_is_printed_and_paged_beside_itself(demo):
    before = set(demo.iterdir())
    for arguments, said in (
        (["print", "lesson.ipynb"], "Wrote lesson-sheet.pdf: the student's sheet, "),
        (["print", "lesson.ipynb", "--key", "--letters", "de"], "Wrote lesson-key.pdf: the teacher's key, "),
        (["page", "lesson.ipynb", "--initials"], "Wrote lesson.html: "),
    ):  # fmt: skip
        done = chessnb(*arguments, folder=demo)
        assert (done.returncode, done.stderr) == (0, "")
        assert done.stdout.startswith(said)
    written = {path.name: path for path in set(demo.iterdir()) - before}
    assert set(written) == {"lesson-sheet.pdf", "lesson-key.pdf", "lesson.html"}
    assert written["lesson-sheet.pdf"].read_bytes().startswith(b"%PDF-")
    assert written["lesson.html"].stat().st_size < 1_000_000
    assert "Pellwick" not in written["lesson.html"].read_text(encoding="utf-8")


@pytest.mark.thorough
def test_help_and_version(tmp_path):
    for arguments in (
        ["--help"],
        ["draft", "--help"],
        ["verify", "--help"],
        ["open", "--help"],
        ["teach", "--help"],
        ["print", "--help"],
        ["page", "--help"],
        ["plan", "--help"],
        ["exercises", "--help"],
    ):
        assert chessnb(*arguments, folder=tmp_path).returncode == 0
    assert chessnb("--version", folder=tmp_path).stdout == f"chessnb {__version__}\n"
    assert version("chessnb") == __version__


@pytest.mark.parametrize(
    "command",
    ["draft", "open", "teach", "student", "print", "page", "verify", "plan", "exercises"],
)
@pytest.mark.parametrize("given", [".", ""])
def test_a_folder_in_place_of_a_file_is_refused_in_a_sentence(command, given, tmp_path):
    report = chessnb(command, given, folder=tmp_path)
    assert report.returncode == 2, report.stdout
    assert "Traceback" not in report.stderr
    assert len(report.stderr.strip().splitlines()) <= 4
    assert list(tmp_path.iterdir()) == []
