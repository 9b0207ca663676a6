"""How near to the best a batch is planned, and how long that takes, as the stock grows.

Run with `pytest tests/benchmarks/test_planning_speed.py --benchmark-enable`. Workshops are made by
`workshops.a_workshop` from the seeds below: lots of 2 to 12 skeins in four classes, designs of two
colours in three sizes, together more yarn than there is in most classes. Goals: 1,000 lots and 50
designs a proved gap of at most 0.5 % within 20 s on two cores; 200 lots and 10 designs within 1 s
(0.7 s of processor where diving alone comes within 0.5 %, else 2.1 s).
"""

from __future__ import annotations

from random import Random
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from shelves import AS_OF, a_need, random_shelf
from workshops import QUIET, a_tight_shelf, a_workshop

from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Contrast, Wish
from stash.planning.model.batch import Terms, Wanted
from stash.planning.model.problem import Aim
from stash.planning.optimiser.plan import broken
from stash.planning.optimiser.search import best_plan
from stash.planning.plan_batch import planned

#: Lots, designs, seed.
GROWTH = [(100, 5, 1), (200, 10, 1), (300, 15, 1), (1_000, 50, 1), (1_000, 50, 2), (3_000, 150, 1)]
SMALL = [(8, 2, 1), (20, 2, 1), (40, 4, 1)]


@pytest.mark.parametrize(("lots", "designs", "seed"), [*SMALL, *GROWTH])
def test_a_workshop(benchmark: BenchmarkFixture, lots: int, designs: int, seed: int) -> None:
    shrunk = 1 if benchmark.enabled else max(1, lots // 8)
    problem = a_workshop(seed, lots // shrunk, max(1, designs // shrunk))

    start = perf_counter()
    solved = benchmark.pedantic(best_plan, (problem, [Aim.VALUE], QUIET), rounds=1)
    took = perf_counter() - start

    (attained,) = solved.attained
    assert broken(problem, solved.plan) is None
    benchmark.extra_info["items"] = len(solved.plan.items)
    benchmark.extra_info["gap %"] = round(100 * attained.gap, 3)
    if benchmark.enabled and lots == 1_000:
        assert len(solved.plan.items) >= 300
        assert attained.gap <= 0.005
        assert took <= 20


@pytest.mark.parametrize("contrast", [Contrast.ANY, Contrast.CLEAR])
def test_a_shelf_by_way_of_the_matcher(benchmark: BenchmarkFixture, contrast: Contrast) -> None:
    """200 lots of the matcher's invented shelf, 10 designs: small lots, much of them unknown."""
    shelf = random_shelf(1, 600 if benchmark.enabled else 60)
    shelf = Shelf(AS_OF, shelf.lots[:200])
    random, wish = Random(1), Wish(contrast=contrast)
    wants = [
        Wanted(
            f"design {i}",
            a_need(random.choice((3, 4, 5)), A=random.uniform(30, 90), B=random.uniform(8, 30)),
            wish,
            at_most=random.randint(3, 9),
            coins=random.randint(1200, 4000),
        )
        for i in range(10)
    ]

    batch = benchmark.pedantic(planned, (shelf, wants, Terms((Aim.VALUE,)), QUIET), rounds=1)

    benchmark.extra_info["items"] = batch.items
    benchmark.extra_info["gap %"] = round(100 * batch.attained[0].gap, 3)
    assert batch.finished


@pytest.mark.parametrize("lots", [4, 8])
def test_thirty_tight_little_shelves(benchmark: BenchmarkFixture, lots: int) -> None:
    """The gap of each is mended by branching; told is the widest that is left."""
    problems = [a_tight_shelf(seed, lots=lots, wants=3, longest=60) for seed in range(30)]

    def all_planned() -> float:
        found = [best_plan(problem, [Aim.VALUE], QUIET).attained[0].gap for problem in problems]
        return max(found)

    widest = benchmark.pedantic(all_planned, rounds=1)

    benchmark.extra_info["widest gap %"] = round(100 * widest, 3)
    assert widest == 0
