"""Run a lesson notebook from the first cell to the last, in a fresh kernel."""

from __future__ import annotations

import asyncio
import atexit
import contextlib
import copy
import os
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from chessnb.errors import NotebookError
from chessnb.findings.record import VERSION
from chessnb.notebooks.cell_errors import error_sentence, name_that_is_missing
from chessnb.notebooks.hidden_modules import check_hiding
from chessnb.notebooks.interrupts import finished
from chessnb.notebooks.kernels import kernel_environment, kernel_manager
from chessnb.notebooks.lesson_cells import place_in_words, section_of
from chessnb.notebooks.live_parts import is_lesson, without_live_parts
from chessnb.notebooks.quick_loading import without_address_grammars
from chessnb.search.proof_book import KEEP
from chessnb.whole_files import scratch_folder

if TYPE_CHECKING:
    from jupyter_client.manager import AsyncKernelManager
    from nbclient import NotebookClient
    from nbformat import NotebookNode

RAISES = "raises-exception"
"""The tag of a cell that shows an error on purpose."""


class CellFailed(NotebookError):  # noqa: N818 (a name a teacher reads)
    """A cell of a lesson could not be run to its end.

    Attributes
    ----------
    cell : int
        The cell, counted from 1 among all cells.
    section : str or None
        The last heading above it.
    sentence : str
        What went wrong in it.
    """

    def __init__(self, sentence: str, *, path: str, cell: int, section: str | None) -> None:
        super().__init__(f"{place_in_words(cell, section)}: {sentence}", path=path)
        self.sentence = sentence
        self.cell = cell
        self.section = section


def run_notebook(
    notebook: NotebookNode,
    *,
    folder: str | os.PathLike[str],
    name: str = "the notebook",
    on_cell: Callable[[int, int], None] | None = None,
    seconds_a_cell: int = 600,
    environment: Mapping[str, str] | None = None,
) -> NotebookNode:
    """Return a notebook with the outputs of a fresh run.

    Parameters
    ----------
    notebook : NotebookNode
        The notebook; it is not changed.
    folder : path
        Where the cells run: files that they name are looked for here.
    name : str
        What an error calls the notebook, usually its path.
    on_cell : callable, optional
        Called before each cell with its number, counted from 1, and how many
        cells there are.
    seconds_a_cell : int
        How long one cell may take.
    environment : mapping of str to str, optional
        Variables that its kernel is given besides the usual ones.

    Returns
    -------
    NotebookNode
        A copy with outputs and execution counts, and without widget views,
        widget state and times; a lesson notes in which version of their
        grammar its records are.

    Raises
    ------
    CellFailed
        If a cell raises an error without being tagged ``raises-exception``,
        takes too long, or its kernel dies.
    NotebookError
        If there is no such folder, a file in it hides a module that is
        needed, or no kernel can be started.

    Notes
    -----
    About two seconds, and what the cells take.
    """
    fresh = _without_outputs(notebook)
    run = _Run(
        fresh,
        name=name,
        on_cell=on_cell,
        seconds_a_cell=seconds_a_cell,
        environment=environment,
    )
    return run.done(folder)


def run_through(
    notebook: NotebookNode,
    *,
    folder: str | os.PathLike[str],
    name: str = "the notebook",
    on_cell: Callable[[int, int], None] | None = None,
    seconds_a_cell: int = 600,
) -> tuple[NotebookNode, tuple[CellFailed, ...]]:
    """Run a notebook to its end although cells fail; return it with what is wrong in each.

    As :func:`run_notebook`, but for cells that raise an error: their errors
    are outputs like others, and all are returned.  A name that is missing
    because an earlier cell failed is no error of its own.
    """
    fresh = _without_outputs(notebook)
    run = _Run(fresh, name=name, on_cell=on_cell, seconds_a_cell=seconds_a_cell, going_on=True)
    return run.done(folder), tuple(run.failures())


def _without_outputs(notebook: NotebookNode) -> NotebookNode:
    fresh = copy.deepcopy(notebook)
    for cell in fresh["cells"]:
        if cell["cell_type"] == "code":
            cell["outputs"], cell["execution_count"] = [], None
    return fresh


class _Run:
    """One run of one notebook, with what is known when it goes wrong."""

    def __init__(
        self,
        notebook: NotebookNode,
        *,
        name: str,
        on_cell: Callable[[int, int], None] | None,
        seconds_a_cell: int,
        environment: Mapping[str, str] | None = None,
        going_on: bool = False,
    ) -> None:
        self.environment = environment or {}
        self.notebook = notebook
        self.name = name
        self.on_cell = on_cell
        self.seconds_a_cell = seconds_a_cell
        self.going_on = going_on
        self.index: int | None = None

    def done(self, folder: str | os.PathLike[str]) -> NotebookNode:
        place_to_run = Path(folder)
        if not place_to_run.is_dir():
            raise NotebookError(f"there is no folder {str(folder)!r} to run it in.", path=self.name)
        check_hiding(place_to_run, shown=self.name)
        with scratch_folder() as scratch:
            self.execute(place_to_run, scratch)
        done = without_live_parts(self.notebook)
        if is_lesson(done):
            done["metadata"]["chessnb"]["records"] = VERSION
        return done

    def failures(self) -> Iterator[CellFailed]:
        failed = False
        for index, cell in enumerate(self.notebook["cells"]):
            outputs = cell.get("outputs", ())
            error = next((one for one in outputs if one["output_type"] == "error"), None)
            if error is None or RAISES in cell["metadata"].get("tags", ()):
                continue
            name, value = error["ename"], error["evalue"]
            if not (failed and name_that_is_missing(name, value)):
                sentence = error_sentence(name, value, error["traceback"])
                section = section_of(self.notebook["cells"], index)
                yield CellFailed(sentence, path=self.name, cell=index + 1, section=section)
            failed = True

    def execute(self, folder: Path, scratch: Path) -> None:
        with without_address_grammars():
            from nbclient.exceptions import CellExecutionError, CellTimeoutError

        try:
            finished(lambda: self._execute(folder, scratch))
        except CellExecutionError as error:
            raise self._error(error_sentence(error.ename, error.evalue, self._shown())) from None
        except CellTimeoutError:
            raise self._error(f"not ready after {self.seconds_a_cell} seconds.") from None
        except (RuntimeError, OSError, AssertionError) as error:
            raise self._dead_kernel(error) from error

    async def _execute(self, folder: Path, scratch: Path) -> None:
        manager = kernel_manager(scratch)
        client = self._client(manager)
        environment = {**kernel_environment(scratch), KEEP: "1", **self.environment}
        with (scratch / "kernel.log").open("w") as log:  # ipykernel's warnings are for developers
            work = asyncio.ensure_future(
                client.async_execute(cwd=str(folder), env=environment, stdout=log, stderr=log)
            )
            try:
                await asyncio.shield(work)
            except asyncio.CancelledError:
                await _broken_off(work, manager)
                raise
            finally:
                # nbclient forgets this where the kernel did not start.
                atexit.unregister(client._cleanup_kernel)

    def _client(self, manager: AsyncKernelManager) -> NotebookClient:
        with without_address_grammars():
            from nbclient import NotebookClient

        client = NotebookClient(
            self.notebook,
            km=manager,
            log=manager.log,
            store_widget_state=False,
            record_timing=False,
            timeout=self.seconds_a_cell,
            allow_errors=self.going_on,
            skip_cells_with_tag="",  # a skipped cell would keep an unproved output
            on_cell_start=self._begin,
        )
        client.owns_km = True  # it ends the kernel
        return client

    def _begin(self, *, cell: Any, cell_index: int) -> None:
        self.index = cell_index
        if self.on_cell is not None:
            self.on_cell(cell_index + 1, len(self.notebook["cells"]))

    def _shown(self) -> Sequence[str]:
        """Return what the cell that failed shows of its error."""
        cell = {} if self.index is None else self.notebook["cells"][self.index]
        errors = [one for one in cell.get("outputs", ()) if one["output_type"] == "error"]
        return errors[-1]["traceback"] if errors else ()

    def _error(self, sentence: str) -> NotebookError:
        if self.index is None:
            return NotebookError(sentence, path=self.name)
        section = section_of(self.notebook["cells"], self.index)
        return CellFailed(sentence, path=self.name, cell=self.index + 1, section=section)

    def _dead_kernel(self, error: Exception) -> NotebookError:
        if self.index is None:
            return self._error(
                f"no kernel could be started ({error}). Python with ipykernel is needed."
            )
        return self._error(
            "the kernel stopped in the middle of this cell: it was ended, or the computer "
            "ran out of memory."
        )


async def _broken_off(work: asyncio.Future[Any], manager: AsyncKernelManager) -> None:
    """End a run and its kernel: the cell first, so that it leaves no file half-written."""
    with contextlib.suppress(RuntimeError, OSError):  # it has ended already, or not begun
        await manager.interrupt_kernel()
    work.cancel()
    await asyncio.wait([work])
    if not work.cancelled():
        work.exception()  # what the end of the kernel did to the run is no news
    if manager.has_kernel:  # it was only just being started
        await manager.shutdown_kernel(now=True)
