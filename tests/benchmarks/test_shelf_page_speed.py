"""The shelf page at 3,000 skeins beside reading the shelf, as a ratio in the same run.

Run with `pytest tests/benchmarks --benchmark-enable`. Goals: the whole request at most 2 times
reading the shelf, under 300 kB and 40 kB on the wire.
"""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path
from random import Random
from time import process_time

from pytest_benchmark.fixture import BenchmarkFixture
from shelves import arriving_lines

from stash.actions.add import receive
from stash.actions.book import open_book
from stash.actions.shelf import Filters
from stash.actions.shelf import shelf as read_shelf
from stash.web.screens.shelf import shelf
from stash.web.visit import Visit
from stash.web.workshop import Workshop

SEED = 7
#: The least of so many runs.
_RUNS = 7


def seconds(work: Callable[[], object]) -> float:
    """Time of the processor, because other work on the machine is no fault of this."""
    taken = []
    for _ in range(_RUNS):
        begun = process_time()
        work()
        taken.append(process_time() - begun)
    return min(taken)


def test_the_shelf_of_3000_skeins(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    book = open_book(tmp_path / "large.stash", begin=True)
    receive(book, arriving_lines(Random(SEED), 1_000))
    visit = Visit(Workshop(book.path), "/shelf")
    source = bytes(benchmark(lambda: shelf(visit)).body)
    assert len(source) < 300_000
    assert len(gzip.compress(source, 5)) < 40_000
    reading = seconds(lambda: read_shelf(book, Filters()))
    benchmark.extra_info["times reading, unchanged"] = seconds(lambda: shelf(visit)) / reading
    benchmark.extra_info["times reading, just changed"] = (
        seconds(lambda: shelf(Visit(Workshop(book.path), "/shelf"))) / reading
    )
    benchmark.extra_info["kB, kB on the wire"] = (
        len(source) / 1000,
        len(gzip.compress(source, 5)) / 1000,
    )
