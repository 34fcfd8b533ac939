"""What a daily run leaves out is counted, and a thorough run lets no test be skipped."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from thoroughness import DAILY, THOROUGH, VARIABLE, is_thorough, scaled, some

TESTS = """
import pytest
from thoroughness import scaled

@pytest.mark.thorough
def test_that_makes_no_sense_on_a_slice(): pass

@pytest.mark.skip(reason="nobody feels like it")
def test_that_is_skipped(): pass

@pytest.mark.xfail(strict=True)
def test_that_is_known_to_fail(): assert not scaled(500)

def test_that_runs(): pass
"""
SKIPPED = "import pytest; pytest.skip('all of it', allow_module_level=True)"
OPTIONS = ["-p", "thoroughness", "-p", "no:cacheprovider", "--continue-on-collection-errors"]


def run(folder, how, *options):
    """Run the two files of tests, and return the exit code and what was said."""
    (folder / "pytest.ini").write_text("[pytest]\nmarkers = thorough")
    (folder / "test_some.py").write_text(TESTS)
    (folder / "test_skipped.py").write_text(SKIPPED)
    done = subprocess.run(
        [sys.executable, "-m", "pytest", *OPTIONS, *options, folder],
        env={
            **os.environ, VARIABLE: how, "PYTHONPATH": str(Path(__file__).parent),
            "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1",
        },
        cwd=folder, capture_output=True, text=True, check=False,
    )  # fmt: skip
    return done.returncode, done.stdout + done.stderr


@pytest.mark.parametrize("options", [[], ["-p", "xdist.plugin", "-n1"]], ids=["alone", "spread"])
def test_a_daily_run_says_how_many_tests_it_leaves_out(tmp_path, options):
    code, said = run(tmp_path, DAILY, *options)
    assert code == 0, said
    assert f"A daily run: slices, and 1 test left out; {VARIABLE}={THOROUGH} runs all." in said
    assert "1 passed, 2 skipped" in said


@pytest.mark.parametrize("options", [[], ["-p", "xdist.plugin", "-n1"]], ids=["alone", "spread"])
def test_in_a_thorough_run_a_skip_is_an_error(tmp_path, options):
    code, said = run(tmp_path, THOROUGH, *options)
    assert code == 1, said
    assert "A thorough run: nothing is left out." in said
    assert "A thorough run skips nothing: nobody feels like it" in said
    assert "A thorough run skips nothing: all of it" in said
    assert "2 passed, 1 xfailed, 2 errors" in said


def test_another_kind_of_run_is_refused(tmp_path):
    code, said = run(tmp_path, "hasty")
    assert code == 4
    assert f"{VARIABLE} is '{DAILY}' or '{THOROUGH}', not 'hasty'" in said


def test_a_slice_is_spread_evenly_and_always_the_same():
    assert scaled(500) == (500 if is_thorough else 50)
    assert scaled(500, least=120) == (500 if is_thorough else 120)
    assert scaled(3) == (3 if is_thorough else 1)
    assert scaled(3, least=7) == 3
    assert some(range(30)) == (list(range(30)) if is_thorough else [0, 10, 20])
    assert some("abc", least=2) == (["a", "b", "c"] if is_thorough else ["a", "b"])
