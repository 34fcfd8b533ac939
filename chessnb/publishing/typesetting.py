"""Setting a hand-out: the one place that knows the typesetter.

What is set is handed over as data (one JSON text in ``sys.inputs``), and
``handout.typ`` is always the same text.  So nothing that a game file, a
teacher or a file name holds is ever read as the typesetter's own language.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from importlib import resources
from importlib.util import find_spec
from typing import Any

from chessnb.errors import ChessnbError, NotebookError
from chessnb.shell import typed


def pdf_of(data: Mapping[str, Any]) -> tuple[bytes, int]:
    """Return a hand-out as a PDF, and how many pages it has.

    The same data gives the same bytes.

    Parameters
    ----------
    data : mapping
        What ``handout.typ`` sets; its first lines say what that is.

    Raises
    ------
    NotebookError
        If it cannot be set.
    """
    compiler = _compiler(data)
    try:
        pages = json.loads(compiler.query("<pages>", field="value", one=True))
        pdf: bytes = compiler.compile(_template(), format="pdf", timestamp=0)
        return pdf, int(pages)
    except RuntimeError as error:
        raise NotebookError(
            f"it cannot be set on paper ({_first_line(error)})", path=str(data["title"])
        ) from error


def check_typesetter() -> None:
    """Refuse to begin where the typesetter is missing, before a lesson is run in vain.

    Raises
    ------
    ChessnbError
        If the package ``typst`` is not installed.
    """
    if find_spec("typst") is None:
        raise ChessnbError(
            "printing needs the package “typst”, which is not installed here: "
            f"{typed('python', '-m', 'pip', 'install', 'typst')}"
        )


def pictures_of(data: Mapping[str, Any], *, dots_an_inch: int = 100) -> list[bytes]:
    """Return the pages of a hand-out as PNG pictures, to be looked at."""
    made = _compiler(data).compile(_template(), format="png", ppi=dots_an_inch)
    return made if isinstance(made, list) else [made]


def _compiler(data: Mapping[str, Any]) -> Any:
    import typst

    text = json.dumps(data, ensure_ascii=False)
    return typst.Compiler(_template(), sys_inputs={"data": text})


@cache
def _template() -> bytes:
    return (resources.files("chessnb.publishing") / "handout.typ").read_bytes()


def _first_line(error: Exception) -> str:
    return (str(error).splitlines() or [type(error).__name__])[0]
