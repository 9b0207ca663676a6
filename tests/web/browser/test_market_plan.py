"""A market planned in a browser: clicked through, with scripts and without."""

from __future__ import annotations

import re
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from looks import fits
from playwright.sync_api import expect

from stash.actions.batch import PlannedBatch, plan_batch
from stash.web.screens import market_plan

Serving = Callable[[Path], str]
Opened = Callable[..., Any]
BOTH = pytest.mark.parametrize(("size", "scripts"), [("desk", True), ("phone", False)])


def asked(page: Any) -> None:
    """The form filled in: hats alone, for a price, in eight hours."""
    page.get_by_label("Hours there are").fill("8")
    for box in page.locator(".want input[type=checkbox]").all():
        box.set_checked(False)
    page.get_by_role("checkbox", name=re.compile("Tidewrack hat")).check()
    page.get_by_label("At most, Tidewrack hat").fill("3")
    page.get_by_label("Price, Tidewrack hat").fill("28")
    page.get_by_label("Hours each, Tidewrack hat").fill("2")
    page.get_by_role("button", name="Look for a plan").click()


@BOTH
def test_a_market_is_planned_and_set_aside_and_undone(
    lively: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    before = lively.ask("shelf")
    page = opened(f"{serving(lively.file)}/market", size, scripts=scripts)
    page.get_by_role("link", name="Plan for a market").click()
    assert fits(page)
    asked(page)
    expect(page.get_by_text("3 items")).to_be_visible(timeout=30_000)
    expect(page.locator(".board li")).to_have_count(3)
    expect(page.get_by_text("Brings in €84.00: no plan brings in more.")).to_be_visible()
    assert fits(page)

    page.get_by_role("button", name="Set all aside").click()
    notice = page.locator("#notice")
    expect(notice.get_by_text("Set aside for 3 items.")).to_be_visible()
    expect(page.get_by_text("All of it is set aside")).to_be_visible()
    notice.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Set all aside")).to_be_visible(timeout=30_000)
    assert lively.ask("shelf") == before


@BOTH
def test_the_question_comes_back_to_be_changed_and_lists_to_be_printed(
    lively: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    page = opened(f"{serving(lively.file)}/market/plan", size, scripts=scripts)
    asked(page)
    page.get_by_role("link", name="Print lists").click(timeout=30_000)
    expect(page.get_by_role("heading", name="To cut")).to_be_visible()
    assert fits(page)
    page.emulate_media(media="print")
    expect(page.get_by_role("link", name="Back to the plan")).to_be_hidden()
    page.emulate_media(media="screen")
    page.get_by_role("link", name="Back to the plan").click()
    page.get_by_role("link", name="Change the plan").click()
    expect(page.get_by_label("Hours there are")).to_have_value("8")
    expect(page.get_by_label("At most, Tidewrack hat")).to_have_value("3")
    expect(page.locator(".want input[type=checkbox]:checked")).to_have_count(1)
    page.get_by_label("Hours there are").fill("many")
    page.get_by_role("button", name="Look for a plan").click()
    expect(page.get_by_role("alert")).to_contain_text("Hours there are")
    expect(page.get_by_label("Hours there are")).to_have_value("many")


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[threading.Event]:
    """A planner that goes on, with a plan found, until the event is set or it is stopped."""
    go_on = threading.Event()

    def slow(book: Any, wanted: Any, stop: Callable[[], bool], *heard: Any) -> PlannedBatch:
        plan = plan_batch(book, wanted, lambda: False, *heard)
        while not go_on.is_set():
            if stop():
                return replace(plan, batch=replace(plan.batch, finished=False))
            time.sleep(0.005)
        return plan

    monkeypatch.setattr(market_plan, "plan_batch", slow)
    yield go_on
    go_on.set()


@BOTH
def test_the_best_so_far_is_taken(
    lively: Maker,
    serving: Serving,
    opened: Opened,
    held: threading.Event,
    size: str,
    scripts: bool,
) -> None:
    page = opened(f"{serving(lively.file)}/market/plan", size, scripts=scripts)
    asked(page)
    expect(page.get_by_text("Best so far:")).to_be_visible(timeout=30_000)
    expect(page.locator(".board li")).to_have_count(3)
    assert fits(page)
    page.get_by_role("button", name="Take this").click()
    expect(page.get_by_text("best plan so far")).to_be_visible(timeout=30_000)
    expect(page.get_by_role("button", name="Set all aside")).to_be_visible()


@BOTH
def test_a_plan_comes_by_itself_once_it_is_found(
    lively: Maker,
    serving: Serving,
    opened: Opened,
    held: threading.Event,
    size: str,
    scripts: bool,
) -> None:
    page = opened(f"{serving(lively.file)}/market/plan", size, scripts=scripts)
    asked(page)
    expect(page.get_by_role("button", name="Take this")).to_be_visible(timeout=30_000)
    held.set()
    expect(page.get_by_role("button", name="Set all aside")).to_be_visible(timeout=30_000)
    expect(page.get_by_role("button", name="Take this")).to_have_count(0)


def test_a_number_typed_ticks_its_design(lively: Maker, serving: Serving, opened: Opened) -> None:
    page = opened(f"{serving(lively.file)}/market/plan")
    box = page.get_by_role("checkbox", name=re.compile("Garden blanket"))
    expect(box).not_to_be_checked()
    page.get_by_label("Price, Garden blanket").fill("60")
    expect(box).to_be_checked()
