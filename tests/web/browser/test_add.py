"""Adding in a real browser: typed, clicked and keyed, at a desk and on a phone."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from commands import Maker
from looks import fits
from playwright.sync_api import expect

LINE = "Greycairn DK, 2 x 100g/230m, pine, lot 5201"
_AXE = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]}}


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_what_is_understood_shows_as_she_types_and_is_added(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], size: str
) -> None:
    page = opened(f"{serving(demo.file)}/add", size)
    page.type("#line", LINE)
    page.wait_for_selector("text=Add 2 skeins")
    expect(page.locator("#fact-lot")).to_have_value("5201")
    page.fill("#fact-lot", "")
    page.type("#fact-lot", "77 B")
    page.wait_for_selector("h3:has-text('lot 77 B')")
    expect(page.locator("#fact-lot"), "she can go on typing").to_be_focused()
    page.click("text=Add 2 skeins")
    page.wait_for_selector("#notice >> text=Added 2 skeins, number 130-131")
    assert demo.ask("show", demo.skein(130)["lot_ref"])["lot"] == "77 B"
    page.click(".notice button:has-text('Undo')")
    page.wait_for_selector("text=Undone: added 2 skeins")


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_without_scripts_it_is_read_answered_and_added(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], size: str
) -> None:
    page = opened(f"{serving(demo.file)}/add", size, scripts=False)
    page.fill("#line", "Otter Fen 50g/112m, sage, lot 407, 12")
    page.click("text=Read it")
    page.click("button:has-text('12 skeins')")
    expect(page.locator("#fact-count")).to_have_value("12")
    page.fill("#fact-count", "3")
    page.click("text=Add 12 skeins")
    page.wait_for_selector("#notice >> text=Added 3 skeins")
    assert demo.skein(132)["held_g"] == 50


def test_a_sheet_is_chosen_answered_and_brought_in(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], tmp_path: Path
) -> None:
    sheet = tmp_path / "yarn.csv"
    rows = ("yarn,colour,lot,skeins,weight", "Otter Fen,sage,407,2,50", "Hollin,pine,9,1,50 g")
    sheet.write_text("\n".join(rows), "utf-8")
    page = opened(f"{serving(demo.file)}/sheet", "phone")
    page.set_input_files("#sheet", sheet)
    page.click("text=Look at it")
    page.click("a:text-is('50 g')")
    page.click("text=Bring in all 2 rows")
    page.wait_for_selector("#notice >> text=Brought in 3 skeins in 2 lots")
    assert demo.skein(131)["held_g"] == 50


def test_a_file_that_is_too_large_is_said_before_it_is_sent(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], tmp_path: Path
) -> None:
    sheet = tmp_path / "yarn.csv"
    sheet.write_bytes(b"yarn,lot\n" + b"x,1\n" * 1_300_000)
    page = opened(f"{serving(demo.file)}/sheet")
    page.set_input_files("#sheet", sheet)
    page.wait_for_selector("text=larger than 4 MB")
    page.click("text=Look at it")
    expect(page).to_have_url(re.compile("/sheet$"))


@pytest.mark.parametrize("scripts", [True, False])
def test_the_first_run_by_keys_alone(
    nobody: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], scripts: bool
) -> None:
    page = opened(f"{serving(nobody.file)}/record", "phone", scripts=scripts)
    expect(page).to_have_url(re.compile("/first$"))
    page.focus("input[value=metric]")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Tab")
    page.keyboard.type(LINE)
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.wait_for_selector("#notice >> text=Added 2 skeins, number 1-2")
    assert nobody.ask("settings")["length"] == "yd"


@pytest.mark.parametrize("size", ["desk", "phone"])
@pytest.mark.parametrize("dark", [False, True])
def test_no_screen_of_adding_has_a_serious_finding_or_scrolls_sideways(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], size: str, dark: bool
) -> None:
    base = serving(demo.file)
    page = opened(f"{base}/add", size, dark=dark)
    for address in (
        f"/add?line={LINE}&thickness=banana",
        "/add?line=Otter 50g/112m, sage, 12",
        "/add/like",
        "/add/like?like=L1&colour=rust",
        f"/add/many?lines={LINE}%0AOtter 50g, sage, 12",
        "/sheet",
        "/settings?change=margin",
        "/settings?change=units",
    ):
        page.goto(base + address)
        found = Axe().run(page, options=_AXE).response["violations"]
        assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []
        for width in (320, 390) if size == "phone" else (1280,):
            page.set_viewport_size({"width": width, "height": 844})
            assert fits(page), (address, width)
