"""A maker's first evening on the page, from a file that is not there yet to a finished hat.

Clicked and typed in a real browser, at a phone and at a desk, also without scripts and in yards.
Set STASH_FILM to a folder for a picture of every step.
"""

import os
import re
from collections.abc import Callable
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from playwright.sync_api import expect

FILM = os.environ.get("STASH_FILM", "")
LABELS = {
    "metric": (
        "Greycairn DK, 3 x 100g/230m, rook, lot 4821, 75% wool 25% nylon",
        "Greycairn DK 100g/230m oatmeal, lot 77, 75% wool 25% nylon, 60g left",
    ),
    "us": (
        "Greycairn DK, 3 x 3.5oz/251yd, rook, lot 4821, 75% wool 25% nylon",
        "Greycairn DK 3.5oz/251yd oatmeal, lot 77, 75% wool 25% nylon, 2.1oz left",
    ),
}


@pytest.mark.parametrize(
    ("size", "units", "scripts", "dark"),
    [
        ("phone", "metric", True, False),
        ("desk", "us", True, True),
        ("phone", "us", False, True),
    ],
)
def test_a_first_evening(
    nobody: Maker,
    serving: Callable[[Path], str],
    opened: Callable[..., Any],
    size: str,
    units: str,
    scripts: bool,
    dark: bool,
) -> None:
    page = opened(serving(nobody.file), size, scripts=scripts, dark=dark)
    steps = count(1)

    def kept(what: str) -> None:
        if FILM and scripts:
            page.screenshot(path=f"{FILM}/{size}-{next(steps):02}-{what}.png")

    def press(name: str) -> None:
        page.get_by_role("button", name=name, exact=True).first.click()
        page.wait_for_load_state()

    kept("first")
    page.locator(f"input[name=units][value={units}]").check(force=True)
    page.fill("#line", LABELS[units][0])
    kept("first-label")
    press("Add it")
    page.goto(page.url.split("?")[0].rsplit("/", 1)[0] + "/add")
    page.fill("#line", LABELS[units][1])
    if scripts:
        page.locator("input[name=lot]").wait_for()
    else:
        press("Read it")
    kept("second-label")
    press("Add 1 skein")
    home = page.url.split("/add")[0]

    page.goto(f"{home}/designs/new?shape=round+hat")
    kept("new-design")
    page.fill("input[name=name]", "Winter hat")
    page.fill("input[name=size]", "woman")
    page.fill("input[name=gauge]", "17 sts x 13 rows")
    page.fill("input[name=band]", "B 4cm bottom")
    page.locator("main button.main").first.click()
    page.wait_for_load_state()
    kept("design")

    page.goto(home)
    kept("tonight")
    press("Set aside")
    expect(page.locator("#notice")).to_contain_text("Set aside for item 1")
    kept("set-aside")
    press("Begin item 1")
    kept("begun")
    page.goto(f"{home}/scale?skein=1&item=1")
    page.fill("input[name=reading]", "71g" if units == "metric" else "2.5oz")
    kept("scale")
    page.get_by_role("button", name=re.compile("^Save")).first.click()
    page.wait_for_load_state()
    expect(page.locator("#notice")).to_contain_text("went into item 1")
    kept("weighed")

    page.goto(f"{home}/item/1")
    page.fill("input[name=weighed]", "75g" if units == "metric" else "2.7oz")
    kept("item")
    press("Finish item 1")
    expect(page.locator("#notice")).to_contain_text("is done")
    kept("done")
    page.goto(f"{home}/record")
    kept("record")

    items = nobody.ask("items")
    assert [(one["design"], one["state"]) for one in items] == [("Winter hat", "done")]
    assert nobody.ask("check")["ok"] is True
