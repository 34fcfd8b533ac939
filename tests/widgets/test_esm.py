"""The front end's modules become one text, and only if they keep to the rules."""

import re
import subprocess
from pathlib import Path

import pytest

from chessnb.diagrams.ink import INK
from chessnb.widgets import esm


def write(folder: Path, **files: str) -> Path:
    for name, text in files.items():
        (folder / name.replace("_", ".")).write_text(text, encoding="utf-8")
    return folder / "main.js"


def run(text: str) -> str:
    """Load a bundle in Node and return what its default export's function returns."""
    script = (
        "let text = ''; for await (const chunk of process.stdin) text += chunk;"
        "const url = `data:text/javascript;base64,${Buffer.from(text).toString('base64')}`;"
        "process.stdout.write(JSON.stringify(await (await import(url)).default()));"
    )
    command = ["node", "--input-type=module", "-e", script]
    return subprocess.run(
        command, input=text, capture_output=True, text=True, check=True, timeout=30
    ).stdout


def test_modules_json_and_style_sheets_come_together(tmp_path: Path) -> None:
    main = write(
        tmp_path,
        main_js='import { twice as double } from "./twice.js";\n'
        'import ink from "./ink.json" with { type: "json" };\n'
        'import css from "./look.css";\n'
        "/** A comment. */\nexport default () => [double(4), ink, css];\n",
        twice_js='import {\n  times,\n} from "./times.js";\n'
        "export const twice = (n) => times(n, 2);\n",
        times_js="// A comment.\nexport function times(a, b) {\n  return a * b;\n}\n",
        ink_json='{ "é": [1, "</script>"] }',
        look_css="/* a comment */ a { b: c }\n",
    )
    bundled = esm.bundle_file(main)
    assert run(bundled) == '[8,{"é":[1,"</script>"]},"a { b: c }\\n"]'
    assert "comment" not in bundled
    assert "import " not in bundled


def test_a_module_that_two_others_import_runs_once(tmp_path: Path) -> None:
    main = write(
        tmp_path,
        main_js='import { a } from "./a.js";\nimport { b } from "./b.js";\n'
        "export default () => [a === b, a.runs];\n",
        a_js='import { shared } from "./shared.js";\nexport const a = shared;\n',
        b_js='import { shared } from "./shared.js";\nexport const b = shared;\n',
        shared_js="export const shared = { runs: 0 };\nshared.runs += 1;\n",
    )
    assert run(esm.bundle_file(main)) == "[true,1]"


def test_a_module_that_fails_shows_why_under_the_widget(tmp_path: Path) -> None:
    main = write(
        tmp_path,
        main_js='import { a } from "./a.js";\nexport default () => a;\n',
        a_js='export const a = 1;\nthrow new Error("no ink");\n',
    )
    text = esm.bundle_file(main).replace("export default async () =>", "const make = async () =>")
    text += (
        "export default async () => { const el = { setAttribute() {} };"
        " (await make()).render({ el }); return el.textContent; };"
    )
    assert run(text) == '"This view cannot be shown here: Error: no ink"'


@pytest.mark.parametrize(
    ("statement", "fault"),
    [
        ('import a from "./a.js";\nexport default () => a;\n', "import the names"),
        ('import * as a from "./a.js";\nexport default () => a;\n', "cannot be bundled"),
        ('export { a } from "./a.js";\nexport default () => 1;\n', "cannot be bundled"),
        ('import { a } from "far-away";\nexport default () => a;\n', "cannot be bundled"),
        ('import { a } from "./main.js";\nexport default () => a;\n', "in a circle"),
    ],
)
def test_what_breaks_the_rules_is_refused(tmp_path: Path, statement: str, fault: str) -> None:
    main = write(tmp_path, main_js=statement, a_js="export const a = 1;\n")
    with pytest.raises(ValueError, match=fault):
        esm.bundle_file(main)


def test_two_files_of_one_name_are_refused(tmp_path: Path) -> None:
    (tmp_path / "below").mkdir()
    write(tmp_path / "below", a_js="export const b = 1;\n")
    main = write(
        tmp_path,
        main_js='import { a } from "./a.js";\nimport { b } from "./below/a.js";\n'
        "export default () => [a, b];\n",
        a_js="export const a = 1;\n",
    )
    with pytest.raises(ValueError, match="two files are called"):
        esm.bundle_file(main)


def test_the_boards_bundle_needs_no_network_and_names_no_address() -> None:
    bundle = esm.bundle("board.js")
    assert "import(" not in bundle
    assert set(_addresses(bundle)) <= {"http://www.w3.org/2000/svg"}


def _addresses(text: str) -> list[str]:
    return [part.split('"')[0] for part in text.split('"') if part.startswith("http")]


def test_every_module_of_the_front_end_is_used() -> None:
    modules = list(esm.FRONTEND.glob("*.js"))
    entries = [path for path in modules if "\nexport default " in path.read_text("utf-8")]
    bundled = "".join(esm.bundle(path.name) for path in entries)
    for path in modules:
        assert f"const ${path.stem} = " in bundled or path in entries, path.name


def test_style_sheets_use_only_properties_that_somebody_defines() -> None:
    """A colour that was renamed in the ink file and not in a sheet would go unnoticed else."""
    sheets = "".join(path.read_text("utf-8") for path in esm.FRONTEND.glob("*.css"))
    used = set(re.findall(r"var\(--([\w-]+)", sheets))
    defined = set(re.findall(r"^\s*--([\w-]+):", sheets, re.MULTILINE))
    given = {
        *INK["themes"]["light"],
        *INK["page"]["light"],
        "above",
        "black",
        "margin",
        "page-board",
        "page-share",
    }
    assert {name for name in used if not name.startswith("jp-")} <= defined | given
    assert used & given
