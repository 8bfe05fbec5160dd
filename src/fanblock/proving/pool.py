"""One piece of work done for many things, on as many cores as there are; what is done when Ctrl-C comes is kept.

Workers are fresh processes on every system, so that nothing depends on what this one has loaded. They do not
hear Ctrl-C: only this process does, and tells them.
"""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed, wait
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from typing import TypeVar

Item = TypeVar("Item")
Result = TypeVar("Result")

MOST_WORKERS = 61
"""As many as the smallest of the systems takes."""

_CHUNK = 4
_WORTH_A_WORKER = 12
_PATIENCE_S = 2.0


def cores() -> int:
    """Return how many cores this process may use, at least 1."""
    affinity = getattr(os, "sched_getaffinity", None)
    return max(1, min(len(affinity(0)) if affinity is not None else os.cpu_count() or 1, MOST_WORKERS))


def for_each(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    workers: int | None,
    done: Callable[[int], None],
    lost: Callable[[Item], Result],
) -> tuple[list[Result | None], bool]:
    """Return the result for each of ``items``, in their order, and whether Ctrl-C ended the work early.

    A result is None where the work was not done. ``work`` must be a function other processes can be sent.
    ``workers`` are at most as many as pay; None takes all cores. ``done`` is told how many more are done.
    ``lost`` gives the result for one on which its process dies.
    """
    pay = min(cores() if workers is None else workers, MOST_WORKERS, -(-len(items) // _WORTH_A_WORKER))
    results: list[Result | None] = [None] * len(items)
    if pay <= 1:
        return results, _alone(work, items, results, done)
    return results, _together(work, items, results, pay, done, lost)


def _alone(
    work: Callable[[Item], Result], items: Sequence[Item], results: list[Result | None], done: Callable[[int], None]
) -> bool:
    try:
        for number, item in enumerate(items):
            results[number] = work(item)
            done(1)
    except KeyboardInterrupt:
        return True
    return False


def _together(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    results: list[Result | None],
    workers: int,
    done: Callable[[int], None],
    lost: Callable[[Item], Result],
) -> bool:
    before = set(multiprocessing.active_children())
    starts: dict[Future[list[Result]], int] = {}
    pool = _pool(workers)
    stopped = False

    def keep(future: Future[list[Result]]) -> int:
        some = future.result()
        results[starts[future] : starts[future] + len(some)] = some
        return len(some)

    try:
        with _deaf_children():
            for start in range(0, len(items), _CHUNK):
                starts[pool.submit(_chunk, work, items[start : start + _CHUNK])] = start
        for future in as_completed(starts):
            done(keep(future))
    except BrokenProcessPool:
        pass
    except KeyboardInterrupt:
        stopped = True
    finally:
        pool.shutdown(wait=False, cancel_futures=True)
        running = [future for future in starts if not future.cancel()]
        if wait(running, _PATIENCE_S).not_done:
            for child in set(multiprocessing.active_children()) - before:
                child.terminate()
    for future in starts:
        if future.done() and not future.cancelled() and future.exception() is None:
            keep(future)
    return stopped or _one_by_one(work, items, results, done, lost)


def _one_by_one(
    work: Callable[[Item], Result],
    items: Sequence[Item],
    results: list[Result | None],
    done: Callable[[int], None],
    lost: Callable[[Item], Result],
) -> bool:
    """Do what a dying process left undone, each in a process that may die of it; tell whether Ctrl-C came."""
    pool: ProcessPoolExecutor | None = None
    try:
        for number, item in enumerate(items):
            if results[number] is not None:
                continue
            try:
                with _deaf_children():
                    pool = pool or _pool(1)
                    future = pool.submit(_chunk, work, [item])
                results[number] = future.result()[0]
            except BrokenProcessPool:
                results[number], pool = lost(item), None
            done(1)
    except KeyboardInterrupt:
        return True
    finally:
        if pool is not None:
            pool.shutdown(wait=False, cancel_futures=True)
    return False


def _pool(workers: int) -> ProcessPoolExecutor:
    return ProcessPoolExecutor(workers, multiprocessing.get_context("spawn"), _deaf)


def _chunk(work: Callable[[Item], Result], items: Sequence[Item]) -> list[Result]:
    return [work(item) for item in items]


def _deaf() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def _deaf_children() -> Iterator[None]:
    """Hold Ctrl-C back while processes begin: they begin with it held back, and we hear it afterwards."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    former = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, former)
