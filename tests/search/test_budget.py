"""A search can be stopped, leaves nothing half done, and lets others run meanwhile."""

import asyncio

import pytest

from chessnb.notebooks.kernels import kernel_environment
from chessnb.proof import Mate
from chessnb.search.budget import Paused, finish, in_slices, watchers
from chessnb.search.prover import prove, proving

# No mate is near, and the search is long: two queens against two queens.
LONG = "q3k2r/1b3pp1/pq2p3/1p2n3/4P3/PQN1B3/1P3PPP/Q3R1K1 w - - 0 1"
LONG_GOAL = Mate(within=7)
EASY = "6k1/5ppp/8/8/8/8/8/R3K3 w - - 0 1"
HUGE = 10**9

CELL = f"""
from chessnb.proof import Mate
from chessnb.search.budget import watchers
from chessnb.search.prover import prove
watchers.append(print)  # how many positions it has looked at, again and again
prove({LONG!r}, Mate(within=7), budget=10**9)
"""
AFTER = f"""
outcome = prove({EASY!r}, Mate(within=1))
outcome.status
"""


def test_others_run_between_the_slices_and_a_cancelled_search_ends_at_once():
    async def class_goes_on():
        beats = 0
        search = asyncio.create_task(in_slices(proving(LONG, LONG_GOAL, budget=HUGE)))
        while beats < 5:
            await asyncio.sleep(0)
            beats += 1
        assert not search.done()
        search.cancel()
        with pytest.raises(asyncio.CancelledError):
            await search
        return beats

    assert asyncio.run(class_goes_on()) == 5


def test_a_search_is_left_and_gone_on_with():
    goal = Mate(within=4)
    whole = prove(LONG, goal)
    search = Paused(proving(LONG, goal))
    parts = 0
    while search.answer is None:
        before = search.spent
        finish(search.run(50_000))
        parts += 1
        assert search.answer is not None or search.spent >= before + 50_000
    assert parts > 1
    assert search.answer == whole
    finish(search.run(50_000))  # nothing is left to do
    assert search.answer == whole


def test_a_search_that_was_left_is_closed():
    search = Paused(proving(LONG, LONG_GOAL, budget=HUGE))
    finish(search.run(50_000))
    search.close()
    finish(search.run(50_000))
    assert search.answer is None


def test_in_slices_and_at_once_give_the_same():
    goal = Mate(within=3)
    at_once = prove(LONG, goal)
    sliced = asyncio.run(in_slices(proving(LONG, goal)))
    assert at_once == sliced


def test_progress_is_told_and_ended():
    told = []
    watchers.append(told.append)
    try:
        finish(proving(LONG, LONG_GOAL, budget=200_000))
    finally:
        watchers.remove(told.append)
    assert told[-1] == 0
    assert told[:-1] == sorted(told[:-1])
    assert len(told) > 2


def test_an_error_in_the_middle_closes_the_search():
    def stop(positions):
        raise KeyboardInterrupt

    watchers.append(stop)
    try:
        with pytest.raises(KeyboardInterrupt):
            finish(proving(LONG, LONG_GOAL, budget=HUGE))
    finally:
        watchers.remove(stop)
    assert prove(EASY, Mate(within=1)).status == "proved"


def test_the_stop_button_leaves_a_usable_kernel(tmp_path):
    """A real kernel, a real interrupt, and the next cell answers."""
    from jupyter_client.manager import KernelManager

    manager = KernelManager()
    manager.start_kernel(env=kernel_environment(tmp_path), cwd=str(tmp_path))
    client = manager.client()
    client.start_channels()
    try:
        client.wait_for_ready(timeout=60)
        cell = client.execute(CELL)
        _wait_until_it_searches(client)
        manager.interrupt_kernel()
        stopped = _reply_to(client, cell, seconds=30)
        assert stopped["content"]["ename"] == "KeyboardInterrupt"
        assert _answer(client, AFTER)["content"]["status"] == "ok"
    finally:
        client.stop_channels()
        manager.shutdown_kernel(now=True)
        manager.cleanup_resources()


def _answer(client, cell):
    """Run a cell; once more if it came while what waited behind the stopped one was dropped."""
    reply = client.execute_interactive(cell, timeout=30, output_hook=lambda message: None)
    if reply["content"]["status"] != "aborted":
        return reply
    return client.execute_interactive(cell, timeout=30, output_hook=lambda message: None)


def _reply_to(client, cell, *, seconds):
    """Return the answer to a cell; what is left of earlier questions is passed over."""
    while True:
        message = client.get_shell_msg(timeout=seconds)
        if message["parent_header"].get("msg_id") == cell:
            return message


def _wait_until_it_searches(client):
    while client.get_iopub_msg(timeout=60)["msg_type"] != "stream":
        pass
