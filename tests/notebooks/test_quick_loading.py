"""What reads notebooks loads without grammars that nobody asks for."""

import subprocess
import sys

import pytest

LOADED = """
import sys
from chessnb.notebooks.quick_loading import without_address_grammars
{before}
with without_address_grammars():
    import nbformat
notebook = nbformat.v4.new_notebook(cells=[nbformat.v4.new_markdown_cell("A lesson.")])
nbformat.validate(notebook)
try:
    nbformat.validate({{**notebook, "metadata": 3}})
except nbformat.ValidationError:
    print("refused")
print("rfc3987_syntax" in sys.modules, sys.modules.get("rfc3987_syntax", "absent"))
"""


def said(before: str = "") -> list[str]:
    program = LOADED.format(before=before)
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    return done.stdout.split()


def test_a_notebook_is_checked_as_ever_and_nothing_is_left_behind():
    assert said() == ["refused", "False", "absent"]


@pytest.mark.thorough
def test_in_a_kernel_nothing_is_changed():
    kernel = "import types; sys.modules['ipykernel.kernelapp'] = types.ModuleType('kernelapp')"
    assert said(kernel)[:2] == ["refused", "True"]
