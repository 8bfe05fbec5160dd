"""Work on many cores: the same as on one, and nothing that is done is lost."""

from __future__ import annotations

import multiprocessing
import operator
import signal
import time
from collections.abc import Iterator

import pytest

from fanblock.proving.pool import cores, for_each

NUMBERS = range(1, 61)


@pytest.mark.parametrize("workers", [1, 3])
def test_results_come_in_order_whatever_the_workers(workers: int) -> None:
    """As many results as things, in their order, and every one counted once."""
    told: list[int] = []
    results, stopped = for_each(operator.neg, NUMBERS, workers, told.append, lambda number: 0)
    assert results == [-number for number in NUMBERS]
    assert (stopped, sum(told)) == (False, len(NUMBERS))


@pytest.fixture
def heeded() -> Iterator[None]:
    """Ctrl-C is heeded, even where these tests run in the background, which is born deaf to it."""
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    signal.signal(signal.SIGINT, before)


@pytest.mark.usefixtures("heeded")
@pytest.mark.parametrize("workers", [1, 2])
def test_ctrl_c_keeps_what_is_done_and_leaves_no_process(workers: int) -> None:
    """After a real interrupt the work ends, what was done is there, and no worker lives on."""
    told: list[int] = []

    def done(more: int) -> None:
        told.append(more)
        if len(told) == 3:
            signal.raise_signal(signal.SIGINT)

    before = set(multiprocessing.active_children())
    results, stopped = for_each(operator.neg, range(4000), workers, done, lambda number: 0)
    made = [number for number, result in enumerate(results) if result is not None]
    assert stopped
    assert sum(told) <= len(made) < 4000
    assert all(results[number] == -number for number in made)
    for child in set(multiprocessing.active_children()) - before:
        patience = time.monotonic() + 5.0
        while child.is_alive() and time.monotonic() < patience:  # the pool's own thread may just be noting its end
            time.sleep(0.02)
        assert not child.is_alive()


def test_a_worker_that_dies_costs_only_the_thing_it_died_of() -> None:
    """Everything else is done all the same."""
    sums = [f"2 * {number}" for number in range(40)]
    sums[17] = sums[34] = "__import__('os')._exit(1)"
    results, stopped = for_each(eval, sums, 2, lambda more: None, lambda text: -1)
    assert results == [-1 if number in (17, 34) else 2 * number for number in range(40)]
    assert not stopped


def test_there_is_at_least_one_core() -> None:
    """Whatever the machine says."""
    assert cores() >= 1


def test_nothing_to_do_is_done_at_once() -> None:
    """No thing, no process."""
    assert for_each(operator.neg, [], None, lambda more: None, lambda number: 0) == ([], False)
