"""How soon the page is up, beside importing what it is made with, by the clock of the same run.

Run with `pytest tests/benchmarks --benchmark-enable`. The goal: at most twice the imports.
"""

from __future__ import annotations

import re
import signal
import subprocess
import sys
from collections.abc import Callable
from time import perf_counter

from commands import Maker
from pytest_benchmark.fixture import BenchmarkFixture

IMPORTS = "import starlette, starlette.applications, starlette.routing, jinja2, uvicorn"
RUNS = 9


def least_s(run: Callable[[], float]) -> float:
    """The least of some runs: other work on the machine is no fault of this."""
    return min(run() for _ in range(RUNS))


def importing_s() -> float:
    begun = perf_counter()
    subprocess.run([sys.executable, "-c", IMPORTS], check=True)
    return perf_counter() - begun


def test_the_page_is_up_soon(benchmark: BenchmarkFixture, nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 3 x 50g/120m, navy, lot 48213")
    words = ("serve", "--no-browser", "--file", str(nobody.file))

    def serving_s() -> float:
        begun = perf_counter()
        page = subprocess.Popen(
            [sys.executable, "-m", "stash", *words], stderr=subprocess.PIPE, text=True
        )
        assert page.stderr
        said = page.stderr.readline()
        spent = perf_counter() - begun
        assert re.search(r"http://127\.0\.0\.1:\d+/", said)
        page.send_signal(signal.SIGINT)
        assert page.wait(10) == 0
        return spent

    baseline, ours = least_s(importing_s), least_s(serving_s)
    benchmark.extra_info["imports_s"] = baseline
    benchmark.extra_info["ratio"] = ours / baseline
    print(f"serve {ours:.2f} s, imports {baseline:.2f} s, ratio {ours / baseline:.2f}")
    benchmark.pedantic(importing_s, rounds=1)
