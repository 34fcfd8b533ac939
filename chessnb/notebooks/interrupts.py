"""Asynchronous work that Ctrl-C breaks off in good order.

A `KeyboardInterrupt` in the middle of an event loop tears it apart: tasks
are lost, and tracebacks are printed at the end.  Here the loop runs in a
thread of its own, where no interrupt reaches it; the main thread only waits,
and when it is interrupted, has the work cancelled and waits for its end.
"""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable, Coroutine
from typing import Any, Generic, TypeVar

Result = TypeVar("Result")

_LOOK_EVERY_SECONDS = 0.2  # Windows lets nothing interrupt a wait without an end
_SECONDS_TO_END = 30.0


def finished(work: Callable[[], Coroutine[Any, Any, Result]]) -> Result:
    """Return what asynchronous work returns, or raise what it raises.

    Parameters
    ----------
    work : callable
        Makes the coroutine; it is called in the thread in which that runs.

    Raises
    ------
    KeyboardInterrupt
        If the wait is interrupted, once the work has been cancelled and has
        tidied up.
    """
    job = _Job(work)
    job.start()
    try:
        # Not by joining the thread: Python takes it for ended if that is interrupted.
        while not job.ended.wait(_LOOK_EVERY_SECONDS):
            pass
    except BaseException:
        job.cancel()
        job.ended.wait(_SECONDS_TO_END)
        raise
    if job.error is not None:
        raise job.error
    return job.results[0]


class _Job(threading.Thread, Generic[Result]):
    def __init__(self, work: Callable[[], Coroutine[Any, Any, Result]]) -> None:
        super().__init__(daemon=True)
        self.results: list[Result] = []
        self.error: BaseException | None = None
        self.ended = threading.Event()
        self._work = work
        self._lock = threading.Lock()
        self._loop: asyncio.AbstractEventLoop | None = None
        self._task: asyncio.Task[Result] | None = None
        self._cancelled = False

    def run(self) -> None:
        try:
            # What speaks to kernels needs this kind of loop, also on Windows.
            with asyncio.Runner(loop_factory=asyncio.SelectorEventLoop) as runner:
                self.results.append(runner.run(self._begun()))
        except BaseException as error:  # handed to the thread that waits
            self.error = error
        finally:
            self.ended.set()

    async def _begun(self) -> Result:
        with self._lock:
            self._loop, self._task = asyncio.get_running_loop(), asyncio.current_task()
            if self._cancelled:
                raise asyncio.CancelledError
        return await self._work()

    def cancel(self) -> None:
        """Cancel the work, whether it has begun or not; what has ended stays as it is."""
        with self._lock:
            self._cancelled = True
            loop, task = self._loop, self._task
        if loop is not None and task is not None and not loop.is_closed():
            loop.call_soon_threadsafe(task.cancel)
