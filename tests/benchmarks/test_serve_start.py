"""How soon the page answers, beside importing what it is made with, in processor time of processes.

Run with `pytest tests/benchmarks --benchmark-enable`. The goal: at most twice the imports.
"""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from commands import Maker
from pytest_benchmark.fixture import BenchmarkFixture

IMPORTS = "import starlette.applications, starlette.routing, jinja2, uvicorn"
RUNS = 5


def processor_s(run: Callable[[], None]) -> float:
    """The processor time of the processes that `run` starts and waits for, least of some runs."""
    least = float("inf")
    for _ in range(RUNS):
        before = os.times()
        run()
        after = os.times()
        spent = after.children_user - before.children_user
        least = min(least, spent + after.children_system - before.children_system)
    return least


def test_the_page_answers_soon(benchmark: BenchmarkFixture, nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 3 x 50g/120m, navy, lot 48213")

    def imports() -> None:
        subprocess.run([sys.executable, "-c", IMPORTS], check=True)

    def serves() -> None:
        words = ("serve", "--no-browser", "--file", str(nobody.file))
        page = subprocess.Popen(
            [sys.executable, "-m", "stash", *words], stderr=subprocess.PIPE, text=True
        )
        assert page.stderr
        assert re.search(r"http://127\.0\.0\.1:\d+/", page.stderr.readline())
        page.send_signal(signal.SIGINT)
        assert page.wait(10) == 0

    baseline, ours = processor_s(imports), processor_s(serves)
    benchmark.extra_info["imports_s"] = baseline
    benchmark.extra_info["ratio"] = ours / baseline
    print(f"serve {ours:.2f} s, imports {baseline:.2f} s, ratio {ours / baseline:.2f}")
    benchmark.pedantic(imports, rounds=1)
    assert Path(nobody.file).exists()
