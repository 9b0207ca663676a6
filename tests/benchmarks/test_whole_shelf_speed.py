"""How long a shelf takes to say which of twenty designs it allows, beside twenty plain answers.

Run with `pytest tests/benchmarks --benchmark-enable`. The ratio is to `match` asked for the best
set of each design, one after the other, on the same shelf in the same run. Goal: at most 3.
"""

from __future__ import annotations

from dataclasses import replace
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from shelves import a_need, random_shelf

from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Wish
from stash.matching.shelf_survey import Question, asked_of, survey

SEED = 1


def twenty(contrast: Contrast) -> list[Question]:
    """Designs of one to three colours, from a headband to a shawl, in four thickness classes."""
    sizes = [{"A": 60.0 + 40 * i, "B": 20.0 + 5 * i, "C": 15.0} for i in range(20)]
    needs = [
        a_need(2 + i % 4, **{role: size[role] for role in "ABC"[: 1 + i % 3]})
        for i, size in enumerate(sizes)
    ]
    return [Question(f"design {i}", need, Wish(contrast=contrast)) for i, need in enumerate(needs)]


def seconds_to_ask_each(shelf: Shelf, questions: list[Question]) -> float:
    start = perf_counter()
    for one in questions:
        match(shelf, one.need, replace(one.wish, top=1))
    return perf_counter() - start


@pytest.mark.parametrize("contrast", [Contrast.ANY, Contrast.BOLD])
def test_twenty_designs(benchmark: BenchmarkFixture, contrast: Contrast) -> None:
    shelf = random_shelf(SEED, 3_000 if benchmark.enabled else 150)
    questions = twenty(contrast)

    found = benchmark(lambda: survey(asked_of(shelf, questions), lambda name: None))

    assert len(found.designs) == 20
    assert any(one.best for one in found.designs)
    if benchmark.enabled:
        ratio = benchmark.stats.stats.min / seconds_to_ask_each(shelf, questions)
        benchmark.extra_info["times asking each"] = ratio
