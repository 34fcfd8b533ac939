"""The front end's modules as one text, without a build step.

A widget's JavaScript reaches the browser as one text, loaded from a blob URL,
where an import of a neighbouring file cannot work.  The front end is
nevertheless written as ordinary ES modules: editors, Node's test runner and a
type checker read them as they are.  :func:`bundle` sets them one after the
other, each in a function of its own, those that are imported first::

    const $rules = (() => { …; return { readFen, play }; })();
    const $sync = (() => { const { play } = $rules; …; return { Sync }; })();

No ``data:`` URL is needed, so the text also suits a page with a strict
content security policy, and nothing is encoded twice.

The modules keep to three rules, and :func:`bundle` refuses what breaks them:
imports are named (or the default of a ``.json`` or ``.css`` file) and stand in
one statement each; exports stand before a declaration or are the default of
the entry; modules do not import each other in a circle.
"""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path

FRONTEND = Path(__file__).parent / "frontend"
"""The folder of the front end's modules."""

_COMMENT = re.compile(r"/\*\*.*?\*/|^[ \t]*//[^\n]*\n", re.DOTALL | re.MULTILINE)
_IMPORT = re.compile(
    r"""^import\s+(?P<what>\{[^}]*\}|\w+)\s+from\s+"(?P<path>\.{1,2}/[^"]+)"[^;\n]*;[ \t]*\n""",
    re.MULTILINE,
)
_EXPORT = re.compile(
    r"^export\s+(?P<kind>const|let|class|function|async function)\s+(?P<name>\w+)", re.MULTILINE
)
_DEFAULT = re.compile(r"^export\s+default\s+", re.MULTILINE)

# What fails while the modules are set up is shown under the widget.
_FRAME = """\
const start = () => {{
{modules}
return {entry}.start();
}};
export default async () => {{
  try {{
    return await start();
  }} catch (error) {{
    return {{
      render({{ el }}) {{
        el.setAttribute("role", "alert");
        el.textContent = `This view cannot be shown here: ${{error}}`;
      }},
    }};
  }}
}};
"""


@cache
def bundle(entry: str = "board.js") -> str:
    r"""Return the text of an entry module and of all that it imports.

    Parameters
    ----------
    entry : str
        A module of the front end, by its name; its ``export default`` is a
        function that returns what anywidget expects (``initialize``,
        ``render``).

    Returns
    -------
    str
        One ES module without imports; the same for the same files.

    Raises
    ------
    ValueError
        If a module breaks the rules above.

    Examples
    --------
    >>> import re
    >>> re.findall(r"^const (\$rules|\$sync) = ", bundle("sync.js"), re.MULTILINE)
    ['$rules', '$sync']
    """
    return bundle_file(FRONTEND / entry)


@cache
def script(entry: str) -> str:
    """Return the text of an entry module that starts by itself, for a page of its own.

    Parameters
    ----------
    entry : str
        A module of the front end, by its name; its ``export default`` is a
        function that begins.
    """
    path = (FRONTEND / entry).resolve()
    parts: dict[Path, str] = {}
    _add(path, parts, within=())
    modules = "\n".join(parts.values())
    return f"{modules}\n{_name(path)}.start();\n"


def style(name: str) -> str:
    """Return a style sheet of the front end, without its comments."""
    return _without_comments((FRONTEND / name).read_text(encoding="utf-8"))


def bundle_file(entry: Path) -> str:
    """Return the text of an entry module, wherever it lies; see :func:`bundle`."""
    parts: dict[Path, str] = {}
    _add(entry.resolve(), parts, within=())
    return _FRAME.format(modules="\n".join(parts.values()), entry=_name(entry))


def _add(path: Path, parts: dict[Path, str], *, within: tuple[Path, ...]) -> None:
    """Add a module after all that it imports."""
    if path in within:
        circle = " → ".join(module.name for module in (*within, path))
        raise ValueError(f"the front end's modules import each other in a circle: {circle}")
    if path in parts:
        return
    if any(_name(path) == _name(other) for other in parts):
        raise ValueError(f"two files are called {path.name}: a bundle could not tell them apart")
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".json":
        parts[path] = _constant(path, json.loads(text))
    elif path.suffix == ".css":
        parts[path] = _constant(path, _without_comments(text))
    else:
        for match in _IMPORT.finditer(text):
            _add((path.parent / match["path"]).resolve(), parts, within=(*within, path))
        parts[path] = _module(path, text)


def _without_comments(sheet: str) -> str:
    return re.sub(r"/\*.*?\*/\s*", "", sheet, flags=re.DOTALL)


def _constant(path: Path, value: object) -> str:
    written = json.dumps(value, ensure_ascii=False, separators=(",", ":"))
    return f"const {_name(path)} = {written};"


def _module(path: Path, text: str) -> str:
    """Turn a module into a function that returns what the module exports."""
    body = _COMMENT.sub("", text)
    body = _IMPORT.sub(lambda match: _import(path, match), body)
    names = [match["name"] for match in _EXPORT.finditer(body)]
    body = _EXPORT.sub(r"\g<kind> \g<name>", body)
    if _DEFAULT.search(body):
        body = _DEFAULT.sub("const start = ", body)
        names.append("start")
    if stray := re.search(r"^(?:import|export)\b.*", body, re.MULTILINE):
        raise ValueError(f"{path.name}: this statement cannot be bundled: {stray[0]}")
    body = re.sub(r"\n\s*\n+", "\n", body).strip()
    return f"const {_name(path)} = (() => {{\n{body}\nreturn {{ {', '.join(names)} }};\n}})();"


def _import(path: Path, match: re.Match[str]) -> str:
    module = _name((path.parent / match["path"]).resolve())
    if match["what"].startswith("{"):
        names = " ".join(re.sub(r"\s+as\s+", ": ", match["what"]).split())
        return f"const {names} = {module};\n"
    if match["path"].endswith(".js"):
        raise ValueError(f"{path.name}: import the names of {match['path']}, not its default")
    return f"const {match['what']} = {module};\n"


def _name(path: Path) -> str:
    return "$" + re.sub(r"\W", "_", path.name.removesuffix(".js"))
