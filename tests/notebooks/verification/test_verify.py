"""Lessons are computed again by the real nbval, in real kernels."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from thoroughness import is_thorough, some

from chessnb.notebooks.kernels import kernel_environment
from chessnb.notebooks.verification import SANITIZE_FILE, verify

LESSONS = Path(__file__).parents[2] / "lessons"
FORK = "After the knight lands on d5"
FEN = "r3k3/2p5/5p2/3N4/8/8/8/4K3 w - - 0 14"
PRESSURE = "14. | pressure | c7 | white attackers 1: Nd5 | black defenders 0 | rules"
EARLIER = (
    "saved by an earlier version of chessnb: {} findings say the same in another form now. "
    "chessnb verify --update carries the lesson over"
)
OFF = "a tag or comment switches the comparison off, so this cell is not checked"
SHOWN = f"IllegalMoveError: illegal san: 'Nxe8' in {FEN}"

# What each small lesson must give: findings that agree, and the complaints in full.
EXPECTED = {
    "agrees": (3, []),
    "changed_picture": (3, []),
    "changed_finding": (
        2,
        [
            f"cell 4 (section “{FORK}”): the finding changed. "
            "Saved: 14. | pressure | c7 | white attackers 2: Nd5 Rc1 | black defenders 0 | rules. "
            f"Now: {PRESSURE}."
        ],
    ),
    "changed_html": (
        2,
        [
            f"cell 4 (section “{FORK}”): the shown HTML changed, though its record did not. "
            "Saved: <hr><div class='chessnb'><!--/chessnb--></div>. "
            "Now: <div class='chessnb'><!--/chessnb--></div>."
        ],
    ),
    "changed_print": (
        2,
        [
            f"cell 5 (section “{FORK}”): what the cell prints changed. "
            "Saved: 11 legal moves. Now: 13 legal moves."
        ],
    ),
    "changed_error": (
        2,
        [
            "cell 7 (section “What a knight cannot do”): the error that is shown on purpose "
            f"changed. Saved: {SHOWN.replace('Nxe8', 'Nxe9')}. Now: {SHOWN}."
        ],
    ),
    "error_gone": (
        2,
        [
            "cell 7 (section “What a knight cannot do”): the error that is shown on purpose "
            f"changed. Saved: {SHOWN}. Now: (nothing)."
        ],
    ),
    "illegal_move": (
        2,
        [
            f"cell 5 (section “{FORK}”): IllegalMoveError: illegal san: 'Nxc8' in {FEN}",
        ],
    ),
    "cleared": (
        2,
        [f"cell 4 (section “{FORK}”): the finding changed. Saved: (nothing). Now: {PRESSURE}."],
    ),
    "not_run": (
        2,
        [
            f"cell 5 (section “{FORK}”): this cell was not run before saving, "
            "so nothing of it is compared. Run all cells and save, or use chessnb verify --update"
        ],
    ),
    "switched_off": (
        1,
        [f"cell {number} (section “{FORK}”): {OFF}" for number in (4, 5)],
    ),
    "no_outputs": (
        0,
        [
            "no outputs are saved, so there is nothing to compare. Run all cells in JupyterLab "
            "and save, or use chessnb verify --update"
        ],
    ),
    # -- cards and sentences beside their records
    "reworded": (2, []),
    "changed_card": (
        2,
        [
            "cell 3 (section “The back rank”): the card was changed by hand. It says “Black mates "
            "in 1. 1. Ra8#”; the finding is: 1. | mates | white | 1 | proved"
        ],
    ),
    "changed_sentence": (
        2,
        [
            "cell 4 (section “The back rank”): the card was changed by hand. It says “After 1. Ra7 "
            "f5. White to move. “White mates in 1 with 1. Ra7” is proved: no mate in 1 (replayed): "
            "1. Ra7 f5 holds out longer.”; the finding is: 1. Ra7 | mates | 1 | wrong"
        ],
    ),
    # -- what has only to be saved again
    "found_more": (
        0,
        [
            "cell 3 (section “The back rank”): nothing is wrong, but more was found than is saved: "
            "chessnb verify --update saves it. Saved: 1. | mates | white | 2 | not proved. "
            "Now: 1. | mates | white | 2 | proved."
        ],
    ),
    "earlier_form": (0, [EARLIER.format(12)]),
    "earlier_form_changed": (
        0,
        [
            EARLIER.format(10),
            "cell 6 (section “The threat”): the finding changed. "
            "Saved: material: Black is a pawn ahead. Now: 3... | material | even | rules.",
            "cell 9 (section “The threat”): “White mates in 1” is wrong: no mate in 1 (replayed): "
            "4. Bxf7+ Ke7 holds out longer",
        ],
    ),
}


SMALL = some(sorted(EXPECTED), least=6)


@pytest.fixture(scope="module")
def report():
    """The small lessons, checked in one run; all of them as a folder."""
    return verify([LESSONS] if is_thorough else [LESSONS / f"{name}.ipynb" for name in SMALL])


def test_every_small_lesson_is_judged(report):
    assert [Path(found.path).stem for found in report.lessons] == SMALL
    assert report.exit_code == 1
    assert not report.ok


@pytest.mark.parametrize("name", SMALL)
def test_a_small_lesson(report, name):
    (found,) = (found for found in report.lessons if Path(found.path).stem == name)
    findings, complaints = EXPECTED[name]
    assert [str(complaint) for complaint in found.complaints] == complaints
    assert found.findings == findings
    assert found.exit_code == bool(complaints)


def test_a_good_lesson_in_a_teachers_words_and_its_file_is_not_touched(lesson_file):
    path = lesson_file("agrees")
    before = path.read_bytes()
    told = []
    report = verify([path, path], on_cell=lambda *how_far: told.append(how_far))
    assert report.lines() == [f"{path}: verified: 3 findings agree"]
    assert report.exit_code == 0
    assert told == [(str(path), number, 4) for number in (1, 2, 3, 4)]
    assert path.read_bytes() == before
    assert [entry.name for entry in path.parent.iterdir()] == ["lesson.ipynb"]


NAMES = [
    "two words.ipynb", "round [1].ipynb", "größe-馬.ipynb", "a::b.ipynb", "-x.ipynb",
    "50% 'q'.ipynb",
]  # fmt: skip


@pytest.mark.thorough
def test_any_name_of_a_file_and_its_folder(lesson_file):
    paths = [lesson_file("changed_finding", to=f"{name}.d/{name}") for name in NAMES]
    lessons = verify(paths).lessons
    assert [found.path for found in lessons] == list(map(str, paths))
    assert [[complaint.cell for complaint in found.complaints] for found in lessons] == [[4]] * len(
        NAMES
    )


@pytest.mark.thorough
def test_cells_run_in_the_notebooks_folder(made_lesson, monkeypatch):
    path = made_lesson(("open('game.pgn').read()", "'1. e4'"))
    (path.parent / "game.pgn").write_text("1. e4")
    monkeypatch.chdir("/")
    assert verify([path]).lines() == [f"{path}: verified: 1 finding agrees"]


@pytest.mark.thorough
def test_a_teachers_own_pytest_takes_no_part(lesson_file, monkeypatch):
    path = lesson_file("agrees")
    for name in ("conftest.py", "sitecustomize_pytest.py"):
        (path.parent / name).write_text("raise SystemExit('this file must not be read')")
    (path.parent / "pytest.ini").write_text("[pytest]\naddopts = --nonsense\n")
    (path.parent / "pyproject.toml").write_text("[tool.pytest.ini_options]\naddopts = '-n 2'\n")
    monkeypatch.setenv("PYTEST_ADDOPTS", "--nbval-lax -n 2")
    monkeypatch.setenv("PYTEST_PLUGINS", "no_such_plugin")
    monkeypatch.chdir(path.parent)
    assert verify(["lesson.ipynb"]).lines() == ["lesson.ipynb: verified: 3 findings agree"]


@pytest.mark.thorough
def test_what_cannot_be_read_is_one_verdict_among_others(lesson_file, tmp_path):
    good = lesson_file("agrees")
    (tmp_path / "empty").mkdir()
    (tmp_path / "text.ipynb").write_text("1. e4 e5")
    report = verify([tmp_path / "none.ipynb", good, tmp_path / "text.ipynb", tmp_path / "empty"])
    assert [found.exit_code for found in report.lessons] == [2, 0, 2, 2]
    assert report.exit_code == 2
    lines = report.lines()
    assert lines[0] == f"{tmp_path / 'none.ipynb'}: cannot be checked"
    assert lines[1] == "  there is no such file. Check the folder and the spelling."
    assert lines[-1] == "  there is no notebook in this folder"


def test_a_folder_stands_for_its_notebooks_without_hidden_ones(lesson_file, tmp_path):
    for name in ("b/one.ipynb", "a.ipynb", ".ipynb_checkpoints/a-checkpoint.ipynb"):
        lesson_file("no_outputs", to=name)
    report = verify([tmp_path, tmp_path / "a.ipynb"])
    assert [found.path for found in report.lessons] == [
        str(tmp_path / "a.ipynb"), str(tmp_path / "b" / "one.ipynb"),
    ]  # fmt: skip


@pytest.mark.thorough
def test_a_kernel_that_dies_is_said_at_once(made_lesson):
    path = made_lesson(
        ("1", "1"), ("import os, signal; os.kill(os.getpid(), signal.SIGKILL)", None), ("2", "2")
    )
    other = made_lesson(("1 + 1", "2"), name="other.ipynb")
    started = time.monotonic()
    report = verify([path, other])
    assert time.monotonic() - started < 30
    dead, fine = report.lessons
    assert [str(complaint) for complaint in dead.complaints] == [
        "cell 3 (section “Made”): the kernel stopped in the middle of this cell: it was ended, "
        "or the computer ran out of memory; the cells after it were not checked"
    ]
    assert dead.findings == 1
    assert dead.exit_code == 1
    assert fine.exit_code == 0


@pytest.mark.thorough
def test_a_cell_that_does_not_end_is_said(made_lesson):
    path = made_lesson(("import time; time.sleep(60)", None), ("2", "3"))
    (found,) = verify([path], seconds_a_cell=1).lessons
    assert [str(complaint) for complaint in found.complaints] == [
        "cell 2 (section “Made”): this cell was not ready in time; "
        "the cells after it were not checked"
    ]


@pytest.mark.thorough
def test_a_kernel_that_cannot_start_is_said(lesson_file, tmp_path, monkeypatch):
    broken = tmp_path / "broken"
    broken.mkdir()
    (broken / "ipykernel_launcher.py").write_text("raise SystemExit(3)")
    monkeypatch.setenv(
        "PYTHONPATH", os.pathsep.join([str(broken), os.environ.get("PYTHONPATH", "")])
    )
    (found,) = verify([lesson_file("agrees")]).lessons
    assert found.exit_code == 2
    (complaint,) = found.complaints
    assert complaint.message.startswith("no kernel could be started (Kernel died")
    assert found.findings == 0


def test_a_check_that_does_not_work_is_not_a_pass(lesson_file, tmp_path, monkeypatch):
    broken = tmp_path / "broken"
    broken.mkdir()
    (broken / "nbval.py").write_text("raise ImportError('a broken nbval')")
    monkeypatch.setenv(
        "PYTHONPATH", os.pathsep.join([str(broken), os.environ.get("PYTHONPATH", "")])
    )
    (found,) = verify([lesson_file("agrees")]).lessons
    assert found.exit_code == 2
    assert "broke off after 0 of 4 cells" in found.complaints[0].message
    assert "a broken nbval" in found.complaints[0].message


@pytest.mark.thorough
def test_long_texts_are_compared_quickly_and_shown_short(made_lesson):
    old, new = (f"<p>{'the rook on ' * 9000}{square}</p>" * 2 for square in ("a1", "h8"))
    source = f"'{new}'"
    path = made_lesson((source, f"'{old}'"))
    started = time.monotonic()
    (found,) = verify([path]).lessons
    assert time.monotonic() - started < 30
    (complaint,) = found.complaints
    assert "a1</p>" in complaint.saved
    assert "h8</p>" in complaint.now
    assert len(complaint.saved) < 250


@pytest.mark.thorough
def test_the_same_sanitize_file_serves_plain_pytest(lesson_file, tmp_path):
    options = ["--nbval", "--nbval-current-env", "--nbval-sanitize-with", SANITIZE_FILE]
    results = {}
    for name in ("changed_picture", "changed_finding"):
        path = lesson_file(name, to=f"{name}.ipynb")
        results[name] = subprocess.run(
            [sys.executable, "-m", "pytest", *options, path],
            cwd=tmp_path, env=kernel_environment(), capture_output=True, check=False, timeout=120,
        ).returncode  # fmt: skip
    assert results == {"changed_picture": 0, "changed_finding": 1}


def running(pid):
    """Tell whether a process runs (a dead child of nobody's counts as ended)."""
    try:
        return " Z " not in Path(f"/proc/{pid}/stat").read_text()
    except OSError:
        return False


@pytest.mark.thorough
def test_ctrl_c_ends_the_check_and_its_kernel(made_lesson):
    path = made_lesson(
        ("1", "1"),
        ("import os, time; open('pid', 'w').write(str(os.getpid())); time.sleep(60)", None),
    )
    checker = subprocess.Popen(
        [sys.executable, "-c", f"from chessnb.notebooks.verification import verify; verify([{str(path)!r}])"],
        stderr=subprocess.PIPE, text=True,
    )  # fmt: skip
    written = path.parent / "pid"
    while not (written.exists() and written.read_text()):
        assert checker.poll() is None
        time.sleep(0.1)
    kernel = written.read_text()
    assert running(kernel)
    checker.send_signal(signal.SIGINT)
    assert "KeyboardInterrupt" in checker.communicate(timeout=30)[1]
    deadline = time.monotonic() + 15
    while running(kernel):
        assert time.monotonic() < deadline, "the kernel still runs"
        time.sleep(0.1)
