"""A lot, its labels, its pairs and an item's yarn in a real browser."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from playwright.sync_api import expect

from stash.rendering.skein_labels import ON_A_PAGE

Serving, Opened = Callable[[Path], str], Callable[..., Any]
#: A4 (ISO 216) and US letter (ANSI Y14.1), as a browser's print takes them.
PAPERS = ("A4", "Letter")


@pytest.mark.parametrize("scripts", [True, False])
@pytest.mark.parametrize("size", ["desk", "phone"])
def test_a_lot_is_matched_and_the_pair_set_aside(
    demo: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    page = opened(f"{serving(demo.file)}/lot/5", size, scripts=scripts)
    page.get_by_role("link", name="Match it", exact=True).click()
    page.get_by_role("link", name="Match it as A of Tidewrack hat").click()
    page.get_by_role("button", name=re.compile("^Set aside")).first.click()
    expect(page.get_by_role("status").first).to_contain_text("Set aside for item 2")
    taken = demo.ask("show", "item", "2")["set_aside"]
    assert {one["skein"] for one in taken if one["role"] == "A"} <= {16, 17, 18}


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_one_colour_of_an_item_is_released_and_taken_back(
    lively: Maker, serving: Serving, opened: Opened, size: str
) -> None:
    page = opened(f"{serving(lively.file)}/item/4", size)
    before = lively.ask("show", "item", "4")["set_aside"]
    page.get_by_role("button", name=re.compile("^release B")).click()
    notice = page.locator("#notice")
    expect(notice).to_contain_text("No longer set aside for item 4")
    assert lively.ask("show", "item", "4")["set_aside"] == [
        one for one in before if one["role"] == "A"
    ]
    notice.get_by_role("button", name="Undo").click()
    expect(notice).to_contain_text("Undone:")
    assert lively.ask("show", "item", "4")["set_aside"] == before


def test_labels_are_counted_as_she_chooses_and_nothing_of_them_is_cut_off(
    demo: Maker, serving: Serving, opened: Opened
) -> None:
    demo.does("change", "16-18", "--colour", "wide " * 40, "--place", "w" * 80)
    demo.does("change", "18", "--name", "M" * 200)
    demo.does("weigh", "18", "12g")
    page = opened(f"{serving(demo.file)}/labels")
    page.get_by_label("Skeins, by their numbers").fill("16-18")
    expect(page.locator("#labels")).to_have_text("3 labels, 1 sheet")
    page.get_by_role("button", name="Show the sheet").click()
    page.emulate_media(media="print", color_scheme="dark")
    expect(page.locator(".label")).to_have_count(3)
    over = "one => one.scrollHeight - one.clientHeight"
    assert [label.evaluate(over) <= 0 for label in page.locator(".label").all()] == [True] * 3
    assert page.locator(".page").evaluate("one => getComputedStyle(one).backgroundColor") == (
        "rgb(255, 255, 255)"
    )


@pytest.mark.parametrize("paper", PAPERS)
def test_a_shelf_of_labels_takes_no_more_sheets_than_it_says(
    demo: Maker, serving: Serving, opened: Opened, paper: str
) -> None:
    page = opened(f"{serving(demo.file)}/labels/sheet")
    printed = page.pdf(format=paper, prefer_css_page_size=True)
    pages = len(re.findall(rb"/Type\s*/Page\b", printed))
    assert pages == -(-129 // ON_A_PAGE)
    expect(page.get_by_role("heading", level=1)).to_contain_text(f"129 labels on {pages} sheets")
