"""Load what reads notebooks without what it never asks for.

``nbformat`` checks a notebook's shape by ``jsonschema``, and that compiles, where the package is
installed, grammars of web addresses on loading: two seconds, in every command.  No field of a
notebook is checked by them.
"""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Iterator

_GRAMMARS = "rfc3987_syntax"


@contextlib.contextmanager
def without_address_grammars() -> Iterator[None]:
    """Let what is loaded meanwhile do without the grammars of web addresses.

    In a kernel nothing is changed: what is loaded there is the teacher's.
    """
    if (
        "ipykernel.kernelapp" in sys.modules
        or _GRAMMARS in sys.modules
        or "jsonschema" in sys.modules
    ):
        yield
        return
    sys.modules[_GRAMMARS] = None  # type: ignore[assignment]  # Python: as if not installed
    try:
        yield
    finally:
        del sys.modules[_GRAMMARS]
