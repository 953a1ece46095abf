"""A thread that its loop lets go first."""

import asyncio
import threading

import pytest

from bot import tasks


def test_work_is_done_before_the_loop_goes_on(monkeypatch):
    monkeypatch.setattr(tasks, "_ASIDE_S", 10.0)
    done = []

    async def go():
        loop, workers = asyncio.get_running_loop(), tasks.GoesFirst("work")
        working = [loop.run_in_executor(workers, done.append, number) for number in range(3)]
        loop.call_soon(done.append, "loop")
        await asyncio.gather(*working)
        workers.shutdown()

    asyncio.run(go())
    assert done == [0, 1, 2, "loop"]


@pytest.mark.parametrize("is_given_up", [False, True])
def test_work_that_waits_for_others_holds_the_loop_up_only_once(monkeypatch, is_given_up):
    monkeypatch.setattr(tasks, "_ASIDE_S", 0.001)
    may_end, waits = threading.Event(), []

    async def go():
        loop, workers = asyncio.get_running_loop(), tasks.GoesFirst("work")
        aside = workers._none_left.wait
        monkeypatch.setattr(workers._none_left, "wait", lambda s: waits.append(s) or aside(s))
        stuck = loop.run_in_executor(workers, may_end.wait, 10)
        behind = loop.run_in_executor(workers, waits.append, "behind")
        for _ in range(50):
            await asyncio.sleep(0)
        assert waits == [0.001]
        if is_given_up:
            behind.cancel()
            await asyncio.sleep(0.001)
        may_end.set()
        assert await stuck
        await asyncio.gather(behind, return_exceptions=True)
        workers.shutdown()

    asyncio.run(go())
    assert waits.count("behind") == (not is_given_up)
