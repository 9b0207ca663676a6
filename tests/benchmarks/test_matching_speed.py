"""How long `match` takes beside two stated baselines on the same data in the same run.

Run with `pytest tests/benchmarks --benchmark-enable`. Each row carries, as extra information, the
ratio to sorting as many random numbers as there are skeins a hundred times, and, on the smaller
shelf, to a plain loop over all pairs of lots that merely adds two costs and compares two numbers.
"""

from __future__ import annotations

from random import Random
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from shelves import a_need, random_shelf

from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Wish

SEED = 1
NEED = a_need(4, A=165, B=34)


def seconds_to_sort(count: int) -> float:
    random = Random(SEED)
    numbers = [random.random() for _ in range(count)]
    start = perf_counter()
    for _ in range(100):
        sorted(numbers)
    return perf_counter() - start


def seconds_for_all_pairs(lots: int) -> float:
    random = Random(SEED)
    rows = [(random.random(), random.random() * 100) for _ in range(lots)]
    start = perf_counter()
    min(one[0] + other[0] for one in rows for other in rows if abs(one[1] - other[1]) >= 40)
    return perf_counter() - start


@pytest.mark.parametrize("contrast", [Contrast.ANY, Contrast.BOLD])
@pytest.mark.parametrize("dark", [False, True], ids=["ordinary", "hard"])
@pytest.mark.parametrize("skeins", [3_000, 30_000])
def test_two_roles(
    benchmark: BenchmarkFixture, skeins: int, dark: bool, contrast: Contrast
) -> None:
    """An ordinary shelf, and a hard one where hardly any two lots stand apart."""
    count = skeins if benchmark.enabled else skeins // 10
    shelf: Shelf = random_shelf(SEED, count, dark=dark)

    found = benchmark(match, shelf, NEED, Wish(contrast=contrast))

    assert found.looked_at == len(shelf.lots)
    if benchmark.enabled:
        took = benchmark.stats.stats.min
        benchmark.extra_info["times a hundred sorts"] = took / seconds_to_sort(skeins)
        if skeins <= 3_000:
            ratio = took / seconds_for_all_pairs(len(shelf.lots))
            benchmark.extra_info["times all pairs"] = ratio
