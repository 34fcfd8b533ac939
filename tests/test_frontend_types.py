"""The front end's JSDoc types, checked by TypeScript's own checker.

The checker is the npm package ``typescript``, fetched once by name into
``.references/``; it runs on Node and nothing is compiled.
"""

import subprocess
import tarfile
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PLACE = ROOT / ".references"
FRONTEND = ROOT / "chessnb" / "widgets" / "frontend"
OPTIONS = [
    "--noEmit",
    "--allowJs",
    "--checkJs",
    "--strict",
    "--target",
    "es2022",
    "--module",
    "esnext",
    "--moduleResolution",
    "bundler",
    "--resolveJsonModule",
    "--lib",
    "es2022,dom,dom.iterable",
]


@cache
def checker() -> Path:
    """Return the checker's script."""
    script = PLACE / "typescript" / "package" / "lib" / "tsc.js"
    if not script.is_file():
        folder = PLACE / "typescript"
        folder.mkdir(parents=True, exist_ok=True)
        subprocess.run(
            ["npm", "pack", "--silent", f"--pack-destination={folder}", "typescript@5"],
            check=True,
            capture_output=True,
            cwd=folder,
        )
        (packed,) = folder.glob("typescript-5*.tgz")
        with tarfile.open(packed) as archive:
            archive.extractall(folder, filter="data")
    return script


def check(*files):
    modules = ROOT / "tests" / "frontend" / "modules.d.ts"
    return subprocess.run(
        ["node", checker(), *OPTIONS, modules, *files], capture_output=True, text=True
    )


@pytest.mark.thorough
def test_every_module_agrees_with_its_types():
    done = check(*sorted(FRONTEND.glob("*.js")))
    assert done.returncode == 0, done.stdout


@pytest.mark.thorough
def test_a_module_that_does_not_is_found(tmp_path):
    wrong = tmp_path / "wrong.js"
    wrong.write_text("// @ts-check\n/** @type {number} */\nexport const count = 'one';\n", "utf-8")
    done = check(wrong)
    assert done.returncode != 0
    assert "not assignable to type 'number'" in done.stdout


def test_every_module_asks_to_be_checked():
    for module in FRONTEND.glob("*.js"):
        assert module.read_text("utf-8").startswith("// @ts-check"), module.name
