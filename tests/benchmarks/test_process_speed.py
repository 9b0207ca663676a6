"""Whole processes beside the import they cannot do without, as ratios in the same run.

Run with `pytest tests/benchmarks --benchmark-enable`. Goals: `stash --help` at most 2.2 times
`import typer`; `stash match` on 3,000 skeins at most 3 times `import sqlalchemy`.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from random import Random
from time import perf_counter

import pytest
from pytest_benchmark.fixture import BenchmarkFixture
from shelves import arriving_lines

from stash.actions.add import receive
from stash.actions.book import open_book
from stash.actions.designs import add_design
from stash.parsing.design.design import DesignWords, design

SEED = 7
STASH = "from stash.cli import run; run()"
HAT = DesignWords(
    name="hat",
    shape="round hat",
    around="54cm",
    tall="23cm",
    gauge="17 sts x 13 rows",
    fabric="1 hdc",
    bands=("B 5cm bottom",),
    thickness="3",
)


def seconds(code: str, *args: str) -> float:
    """The quickest of five runs of a whole process."""
    took = []
    for _ in range(5):
        start = perf_counter()
        subprocess.run([sys.executable, "-c", code, *args], check=True, capture_output=True)
        took.append(perf_counter() - start)
    return min(took)


def test_help_beside_importing_typer(benchmark: BenchmarkFixture) -> None:
    command = [sys.executable, "-c", STASH, "--help"]
    done = benchmark(subprocess.run, command, check=True, capture_output=True)

    assert b"match" in done.stdout
    if benchmark.enabled:
        ratio = benchmark.stats.stats.min / seconds("import typer")
        benchmark.extra_info["times import typer"] = ratio


@pytest.fixture
def large(tmp_path: Path, benchmark: BenchmarkFixture) -> Path:
    path = tmp_path / "large.stash"
    book = open_book(path, begin=True)
    receive(book, arriving_lines(Random(SEED), 1_000 if benchmark.enabled else 30))
    add_design(book, design(HAT))
    return path


def test_match_beside_importing_sqlalchemy(benchmark: BenchmarkFixture, large: Path) -> None:
    command = [sys.executable, "-c", STASH, "match", "hat", "--file", str(large)]
    done = benchmark(subprocess.run, command, check=True, capture_output=True)

    assert b"lots looked at" in done.stdout
    if benchmark.enabled:
        ratio = benchmark.stats.stats.min / seconds("import sqlalchemy")
        benchmark.extra_info["times import sqlalchemy"] = ratio
