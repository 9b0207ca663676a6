"""The search for two roles beside trying all pairs, vectorised, on the same lots in the same run.

Run with `pytest tests/benchmarks --benchmark-enable`; else it only sees that the answers are the
same, on a tenth of the lots. The ordinary shelf is `random_shelf(1, ...)`, bold; any class is asked
for, so that about half of the lots fill A and three quarters B. The hard ones let fewer than 1 pair
in 1,000 pass: nearly all colours middling dark and 60 apart wanted; a gap of 30 to 30.05; 90 apart.

What is timed:
- *search*: both sides begin with what can be told of each lot by itself, untimed: the reference
  with arrays of costs, classes and colours, the search with lines in order of the least a lot can
  cost and their marks as bits. The reference is handed exact costs, the search has to weigh.
- *from looked-through lots*: both make those too, and the reference weighs every lot in Python.
- *whole*: all of `match`, with its reasons and near misses, beside looking through and the
  reference.
The row's own time is the search's; the rest is extra information.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from time import perf_counter
from typing import TypeVar

import pytest
from all_pairs import Able, best_of_all_pairs, look_through, searched, share_apart, sides
from pytest_benchmark.fixture import BenchmarkFixture
from shelves import a_need, random_shelf
from slow import sets_found

from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Gap, Wish, Wished
from stash.matching.rules.fits import PairRules, pair_rules
from stash.matching.scoring.costs import Candidate
from stash.matching.search.candidate_list import CandidateList
from stash.matching.search.conflict_keys import conflict_keys

SEED, TOP = 1, 20
NEED = a_need(None, A=165, B=34)
Answer = TypeVar("Answer")


def shelf_of(lots: int, *, dark: bool = False) -> Shelf:
    shelf = random_shelf(SEED, 7 * lots // 2, dark=dark)
    return replace(shelf, lots=shelf.lots[:lots])


def prepared(able: list[Able], rules: PairRules) -> list[CandidateList[Candidate]]:
    """The lists with their conflicts read, and nothing weighed."""
    lines = [role.line() for role in able]
    for line in lines:
        for key in conflict_keys(rules):
            line.conflicting(key, key.values(line.lots[0][0])[0])
    return lines


def quickest(of: int, work: Callable[[], Answer]) -> tuple[float, Answer]:
    took = []
    for _ in range(of):
        start = perf_counter()
        answer = work()
        took.append(perf_counter() - start)
    return min(took), answer


@pytest.mark.parametrize(
    ("dark", "contrast", "times"),
    [
        (False, Contrast.BOLD, 50), (True, Gap(60), 1),
        (False, Gap(30, 30.05), 1), (False, Gap(90), 1),
    ],
    ids=["ordinary", "hard: dark", "hard: narrow", "hard: wide"],
)  # fmt: skip
def test_search_beside_all_pairs(
    benchmark: BenchmarkFixture, dark: bool, contrast: Wished, times: int
) -> None:
    shelf = shelf_of(10_000 if benchmark.enabled else 1_000, dark=dark)
    wish = Wish(contrast=contrast, top=TOP)
    rules = pair_rules(NEED, wish)
    able = look_through(shelf, NEED, wish)
    weighing, weighed = quickest(1, lambda: [role.weighed() for role in able])
    arraying, (first, second) = quickest(1, lambda: [sides(lots) for lots in weighed])
    trying, best = quickest(5, lambda: best_of_all_pairs(first, second, rules, TOP))

    found = benchmark.pedantic(
        searched, setup=lambda: ((prepared(able, rules), rules, TOP), {}), rounds=9
    )

    assert found == best
    assert contrast is Contrast.BOLD or share_apart(first, second, contrast) < 1 / 1000
    if benchmark.enabled:
        took = benchmark.stats.stats.min
        all_of_it, _ = quickest(3, lambda: searched([r.line() for r in able], rules, TOP))
        whole, answer = quickest(3, lambda: match(shelf, NEED, wish))
        looking, _ = quickest(3, lambda: look_through(shelf, NEED, wish))
        assert sets_found(answer) == best
        benchmark.extra_info |= {
            "lots": [len(role.lots) for role in able],
            "share of pairs": share_apart(first, second, contrast),
            "ms of search, with lines, whole": [
                round(1000 * s, 1) for s in (took, all_of_it, whole)
            ],
            "ms of reference, arrays, weighing, looking": [
                round(1000 * s) for s in (trying, arraying, weighing, looking)
            ],
            "times as fast, search": trying / took,
            "times as fast, from looked-through lots": (weighing + arraying + trying) / all_of_it,
            "times as fast, whole": (looking + weighing + arraying + trying) / whole,
        }
        assert trying / took >= times


@pytest.mark.parametrize("contrast", [Contrast.BOLD, Gap(90)], ids=str)
def test_growth_with_the_shelf(benchmark: BenchmarkFixture, contrast: Wished) -> None:
    """All of `match` on ten times the lots takes at most 15 times as long."""
    lots = 10_000 if benchmark.enabled else 100
    small, large, wish = shelf_of(lots), shelf_of(10 * lots), Wish(contrast=contrast)

    answer = benchmark.pedantic(match, (large, NEED, wish), rounds=3)

    assert answer.looked_at == 10 * lots
    if benchmark.enabled:
        growth = benchmark.stats.stats.min / quickest(3, lambda: match(small, NEED, wish))[0]
        benchmark.extra_info["growth"] = growth
        assert growth <= 15


MATCHES = """
import resource, sys
sys.path[:0] = sys.argv[2:]
from shelves import a_need, random_shelf
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Wish
shelf = random_shelf(1, int(sys.argv[1]))
looked_at = match(shelf, a_need(None, A=165, B=34), Wish(Contrast.BOLD)).looked_at
held = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
print(looked_at, held / (1 << 20 if sys.platform == "darwin" else 1 << 10))
"""


def test_memory(benchmark: BenchmarkFixture) -> None:
    """The most a process ever holds that makes a shelf of 100,000 lots and matches it."""
    lots = 100_000 if benchmark.enabled else 100
    folders = [str(folder) for folder in Path(__file__).parents[1:3]]
    command = [sys.executable, "-c", MATCHES, str(302 * lots // 100), *folders]

    told = benchmark.pedantic(subprocess.run, (command,), {"capture_output": True, "check": True})

    looked_at, held_mb = map(float, told.stdout.split())
    benchmark.extra_info |= {"lots": looked_at, "MB": held_mb}
    assert looked_at >= 0.9 * lots
    assert held_mb < 400
