"""The kernel that runs a lesson: this Python, whatever else the computer has.

Jupyter finds kernels by name in several folders, and a teacher's
``python3`` may be another Python, without chessnb.  A lesson is therefore run
by the Python that runs this code.  The teacher's own IPython start-up files
stay out of a check: a lesson must give the same on every computer.
"""

from __future__ import annotations

import os
import site
import sysconfig
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from jupyter_client.manager import AsyncKernelManager


def kernel_manager(scratch: Path) -> AsyncKernelManager:
    """Return a manager, not yet started, for a kernel of this Python.

    Parameters
    ----------
    scratch : Path
        Where the file with the kernel's addresses goes, and with it when the
        run is over.
    """
    import logging

    from ipykernel.kernelspec import RESOURCES, get_kernel_dict
    from jupyter_client.kernelspec import KernelSpec, KernelSpecManager
    from jupyter_client.manager import AsyncKernelManager

    class ThisPython(KernelSpecManager):
        def get_kernel_spec(self, kernel_name: str) -> KernelSpec:
            return KernelSpec(resource_dir=str(RESOURCES), **get_kernel_dict())

    quiet = logging.getLogger("chessnb.kernel")
    quiet.addHandler(logging.NullHandler())
    return AsyncKernelManager(
        kernel_spec_manager=ThisPython(), log=quiet, connection_file=str(scratch / "kernel.json")
    )


def kernel_environment(scratch: Path | None = None) -> dict[str, str]:
    """Return the environment variables for a lesson's kernel.

    Parameters
    ----------
    scratch : Path, optional
        An empty folder for what IPython keeps, so that the teacher's own
        start-up files stay out; delete it after the run.
    """
    environment = {**os.environ, "PYDEVD_DISABLE_FILE_VALIDATION": "1"}
    if scratch is not None:
        environment["IPYTHONDIR"] = str(scratch)
    package = str(Path(__file__).resolve().parents[2])
    if package not in _installed_places():
        # Run from its source folder: the kernel must find the same chessnb.
        earlier = environment.get("PYTHONPATH")
        environment["PYTHONPATH"] = package if not earlier else package + os.pathsep + earlier
    return environment


def _installed_places() -> set[str]:
    paths = sysconfig.get_paths()
    return {paths["purelib"], paths["platlib"], *site.getsitepackages(), site.getusersitepackages()}
