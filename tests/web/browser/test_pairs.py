"""Pairs and designs in a browser: pressed, typed and keyed, with scripts and without."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from looks import fits
from playwright.sync_api import expect

Serving = Callable[[Path], str]
Opened = Callable[..., Any]
BOTH = pytest.mark.parametrize(("size", "scripts"), [("desk", True), ("phone", False)])


def items(maker: Maker) -> list[int]:
    return [one["number"] for one in maker.ask("items")]


@BOTH
def test_a_pair_is_set_aside_with_one_press(
    lively: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    before = items(lively)
    page = opened(f"{serving(lively.file)}/pairs/1", size, scripts=scripts)
    assert fits(page)
    page.get_by_role("button", name="Set aside").nth(1).click()
    expect(page.get_by_role("status").get_by_role("button", name="Undo")).to_be_visible()
    (new,) = set(items(lively)) - set(before)
    expect(page).to_have_url(re.compile(rf"/item/{new}\b"))


def test_arrows_go_between_pairs_and_enter_sets_aside(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    before = items(lively)
    page = opened(f"{serving(lively.file)}/pairs/1")
    name = page.locator("article.set h2").nth(2).inner_text().partition(". ")[2]
    page.locator("article.set button").first.focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(page.locator("article.set:focus, article.set :focus").first).to_contain_text(name)
    page.keyboard.press("Enter")
    page.wait_for_url("**/item/*")
    assert len(items(lively)) == len(before) + 1


def test_a_limit_changes_the_pairs_as_it_is_chosen_and_stays_in_the_address(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(lively.file)}/pairs/1")
    page.get_by_label("Contrast").select_option("bold")
    page.wait_for_url("**contrast=bold**")
    page.wait_for_function("() => !document.querySelector('#answer[aria-busy]')")
    words = page.locator(".apart strong").all_inner_texts()
    assert words
    assert set(words) == {"bold"}
    found = lively.ask("match", "Tidewrack hat", "--contrast", "bold")["proposals"]
    assert len(words) <= len(found)


@BOTH
def test_more_limits_stand_in_a_panel(
    lively: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    page = opened(f"{serving(lively.file)}/pairs/1", size, scripts=scripts)
    page.get_by_text("More", exact=True).click()
    page.get_by_label("Leave out fibres").fill("wool")
    page.get_by_role("button", name="Show").click()
    page.wait_for_url("**without=wool**")
    expect(page.get_by_label("Leave out fibres")).to_have_value("wool")
    found = lively.ask("match", "Tidewrack hat", "--without", "wool")["proposals"]
    if scripts:
        page.wait_for_function("() => !document.querySelector('#answer[aria-busy]')")
    assert page.locator("article.set").count() <= len(found)


@BOTH
def test_a_fix_is_pressed_and_the_changed_design_saved(
    lively: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    page = opened(f"{serving(lively.file)}/pairs/1?almost=all", size, scripts=scripts)
    narrower = page.locator("a.fix[href*='fix=narrower_bands']")
    miss = page.locator("article.miss").filter(has=narrower).first
    almost = miss.locator("h3").inner_text()
    miss.locator("a.fix[href*='fix=narrower_bands']").click()
    expect(page.locator("article.set h2").first).to_contain_text(almost)
    page.get_by_label("Not saved yet. Call it").fill("Narrow band hat")
    page.get_by_role("button", name="Save as a new design").click()
    expect(page.get_by_role("status")).to_contain_text("Saved the design Narrow band hat")
    assert "Narrow band hat" in [one["design"] for one in lively.ask("design", "list")]


@BOTH
def test_a_fix_is_pressed_and_the_changed_design_set_aside_with_one_press(
    lively: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    page = opened(f"{serving(lively.file)}/pairs/1?almost=all", size, scripts=scripts)
    page.locator("a.fix[href*='fix=narrower_bands']").first.click()
    page.get_by_label("Not saved yet. Call it").fill("Narrow band hat")
    page.get_by_role("button", name="Save and set aside").first.click()
    status = page.get_by_role("status")
    expect(status.get_by_text("Saved the design Narrow band hat")).to_be_visible()
    expect(status.get_by_text("Set aside for item")).to_be_visible()
    assert lively.ask("items")[-1]["design"] == "Narrow band hat"
    status.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("status").get_by_text("Undone")).to_be_visible()
    assert "Narrow band hat" not in [one["design"] for one in lively.ask("design", "list")]


@BOTH
def test_a_design_begins_with_a_shape(
    nobody: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    page = opened(f"{serving(nobody.file)}/designs", size, scripts=scripts)
    page.get_by_role("link", name="Mittens").click()
    page.get_by_label("What you call it").fill("First mittens")
    page.get_by_role("button", name="Save this design").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("First mittens")
    page.get_by_role("link", name="See what almost fits").click()
    expect(page.get_by_text("None on your shelf covers it")).to_be_visible()
    assert fits(page)


def test_on_a_phone_the_reasons_fold_behind_why(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    address = f"{serving(lively.file)}/pairs/1"
    phone = opened(address, "phone")
    expect(phone.locator(".why-list").first).to_be_hidden()
    phone.get_by_text("Why", exact=True).first.click()
    expect(phone.locator(".why-list").first).to_be_visible()
    expect(opened(address, "desk").locator(".why-list").first).to_be_visible()
    expect(opened(address, "phone", scripts=False).locator(".why-list").first).to_be_visible()


def test_the_list_to_pick_prints_black_on_white_from_a_dark_screen(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    made = lively.ask("aside", "Tidewrack hat", "--contrast", "clear")
    page = opened(f"{serving(lively.file)}/pick/{made['item']}", dark=True)
    page.emulate_media(media="print", color_scheme="dark")
    style = "getComputedStyle(document.body)"
    assert page.evaluate(f"{style}.backgroundColor") == "rgb(255, 255, 255)"
    assert page.evaluate(f"{style}.color") == "rgb(0, 0, 0)"
    head = "getComputedStyle(document.querySelector('.pick thead')).display"
    assert page.evaluate(head) == "table-header-group", "a place is named again on the next sheet"
    expect(page.locator("header.bar")).to_be_hidden()


def test_nothing_scrolls_sideways_on_a_narrow_phone(
    lively: Maker, serving: Serving, opened: Opened
) -> None:
    address = serving(lively.file)
    page = opened(f"{address}/designs", "phone")
    page.set_viewport_size({"width": 320, "height": 640})
    for path in ("/pairs/1", "/designs", "/design/1?sizes=woman", "/designs/new", "/pick/2"):
        page.goto(address + path)
        assert fits(page), path
