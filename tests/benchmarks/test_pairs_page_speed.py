"""How long the page of pairs takes beside the match it shows, on one shelf in one run.

The shelf is kept, as between two requests; what is asked is new each time.
"""

from __future__ import annotations

import csv
from itertools import count
from pathlib import Path
from time import perf_counter

from commands import Maker
from pages import Browser, Page, at_the_page_of
from pytest_benchmark.fixture import BenchmarkFixture
from shelves import random_shelf

from stash.actions.book import Book
from stash.actions.match import NeedAsked, propose
from stash.matching.question.wish import Wish
from stash.web.workshop import Workshop

SEED = 1
#: A page of pairs takes at most so many times the match itself.
AT_MOST = 3.0
HAT = ("--shape", "round hat", "--size", "woman", "--fabric", "1 hdc", "--thickness", "4")


def sheet_of(skeins: int, file: Path) -> None:
    with file.open("w", newline="") as out:
        rows = csv.writer(out)
        rows.writerow(("yarn", "hex", "lot", "thickness", "full", "left"))
        for held in random_shelf(SEED, skeins, doubtful=0).lots:
            put_up = held.lot.pair.put_up
            assert put_up is not None
            full = f"{put_up.mass.g:g}g/{put_up.length.m:g}m"
            hexes = "/".join(colour.hex for colour in held.lot.colours)
            facts = (held.lot.yarn.name, hexes, held.lot.lot, held.lot.thickness_from, full)
            rows.writerows((*facts, f"{skein.held.g}g") for skein in held.skeins)


def test_the_page_of_pairs_beside_the_match(
    benchmark: BenchmarkFixture, nobody: Maker, tmp_path: Path
) -> None:
    sheet = tmp_path / "shelf.csv"
    sheet_of(3_000 if benchmark.enabled else 60, sheet)
    nobody.does("import", str(sheet))
    nobody.does("design", "add", "hat", *HAT, "--band", "B 4cm bottom")
    book = Workshop(nobody.file).book()
    margins, again = count(5), count(5)
    for browser in at_the_page_of(nobody.file):
        browser.opens("/pairs/1")  # reads the shelf, which is kept from here on

        def asks(at: Browser = browser) -> Page:
            return at.opens(f"/pairs/1?margin={next(margins)}%25")

        page = benchmark(asks)
        assert page.status == 200
        assert "/pairs/aside" in page.source
    if benchmark.enabled:
        took = min(matched(book, next(again) / 100) for _ in range(9))
        benchmark.extra_info["times the match"] = benchmark.stats.stats.min / took
        assert benchmark.stats.stats.min / took < AT_MOST


def matched(book: Book, margin: float) -> float:
    """How long the same question takes by itself, the shelf kept as well."""
    start = perf_counter()
    propose(book, NeedAsked("hat"), Wish(margin=margin))
    return perf_counter() - start
