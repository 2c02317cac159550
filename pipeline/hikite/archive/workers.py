"""Recordings derived by several processes; the archive is written by the one that asks."""

import gc
import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool

from hikite.archive.derivations import Derived, Task, derive
from hikite.archive.derivations.deriving import loaded
from hikite.archive.kept import Refusal
from hikite.archive.planning import Work

FEWEST = 24
"""For fewer recordings it does not pay to start processes: each loads the lexicon, which takes seconds."""
_AHEAD = 3
KILLED = "the process that read it was ended from outside or ran out of memory"

Done = tuple[Work, Derived | Refusal]


def derive_all(work: tuple[Work, ...], task: Callable[[Work], Task], jobs: int) -> Iterator[Done]:
    """Every piece of work with what came of it, in the order of completion; ``task`` says what to do for one.

    Only a few tasks a process are under way at a time, so that memory does not grow with their number.
    """
    if jobs == 1 or len(work) < FEWEST:
        for one in work:
            yield one, derive(task(one))
        return
    left = iter(work)
    while True:
        suspects: list[Work] = []
        yield from _pooled(left, task, jobs, suspects)
        if not suspects:
            return
        # A process died, and nobody knows of which recording: each of those under way is tried alone.
        for one in suspects:
            yield one, _alone(task(one))


def _pooled(
    left: Iterator[Work], task: Callable[[Work], Task], jobs: int, suspects: list[Work]
) -> Iterator[Done]:
    under_way: dict[Future[Derived | Refusal], Work] = {}
    pool = _pool(jobs)
    try:
        while True:
            while len(under_way) < jobs * _AHEAD and (one := next(left, None)) is not None:
                under_way[pool.submit(derive, task(one))] = one
            if not under_way:
                return
            for future in wait(under_way, return_when=FIRST_COMPLETED).done:
                result = future.result()
                yield under_way.pop(future), result
    except BrokenProcessPool:
        suspects += under_way.values()
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _alone(task: Task) -> Derived | Refusal:
    pool = _pool(1)
    try:
        return pool.submit(derive, task).result()
    except BrokenProcessPool:
        return Refusal(path=task.path, reason=KILLED)
    finally:
        pool.shutdown(wait=False, cancel_futures=True)


def _pool(jobs: int) -> ProcessPoolExecutor:
    # Not forked: a database connection must not be carried into another process.
    return ProcessPoolExecutor(jobs, multiprocessing.get_context("spawn"), initializer=begin)


def begin() -> None:
    """What a process does first: leave interruption to its parent, go when that goes, read the lexicon."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_follow, daemon=True).start()
    gc.set_threshold(200_000, 20, 20)
    loaded()


def _follow() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
