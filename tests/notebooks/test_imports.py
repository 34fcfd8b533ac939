"""The package can be imported where Jupyter is not installed."""

import subprocess
import sys

BLOCKED = """
import importlib.abc, sys

class NoJupyter(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in {"nbformat", "nbclient", "jupyter_client", "nbval", "pytest",
                                      "ipykernel", "jupyterlab", "jupyter_server"}:
            raise ImportError(f"{name} is not there")

sys.meta_path.insert(0, NoJupyter())
import chessnb.notebooks, chessnb.notebooks.server_extension, chessnb.notebooks.verification, chessnb.notebooks.launcher
print(chessnb.notebooks.escape("14. Nd5"))
"""


def test_nothing_of_jupyter_is_needed_to_import():
    answer = subprocess.run(
        [sys.executable, "-c", BLOCKED], capture_output=True, text=True, check=False, timeout=60
    )
    assert (answer.stdout, answer.stderr) == ("14\\. Nd5\n", "")
