"""The shelf and the pages of yarn in a browser: typed in, ticked, keyed through and pressed."""

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


def test_words_find_as_she_types_and_choices_narrow(
    demo: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(demo.file)}/shelf")
    page.keyboard.press("/")
    page.keyboard.type("oatmel")  # misspelt
    page.wait_for_url("**words=oatmel*")
    page.wait_for_function("() => document.querySelectorAll('.card').length === 1")
    expect(page.locator("#in-all")).to_contain_text("1 yarn, 7 skeins")
    expect(page.locator("#words")).to_have_value("oatmel")
    page.locator("#words").fill("")
    page.get_by_label("part balls").check()
    page.wait_for_url("**left=opened*")
    count = len([lot for lot in demo.ask("shelf") if "opened" in str(lot["skeins"])])
    page.wait_for_function(f"() => document.querySelectorAll('.card').length === {count}")
    expect(page.locator("#left-1")).to_have_text(str(count))


def test_keys_go_from_card_to_card_open_one_and_turn_it_grey(
    demo: Maker, serving: Serving, opened: Opened
) -> None:
    page = opened(f"{serving(demo.file)}/shelf")
    first, second = (page.locator("[data-card-link]").nth(at) for at in (0, 1))
    first.focus()
    page.keyboard.press("ArrowRight")
    assert page.evaluate("document.activeElement.href") == second.evaluate("one => one.href")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowDown")
    below = page.evaluate("document.activeElement.getBoundingClientRect().top")
    assert below > first.bounding_box()["y"]
    page.keyboard.press("g")
    page.wait_for_url("**grey=1*")
    page.keyboard.press("g")
    page.wait_for_url(re.compile(r"/shelf$"))
    page.locator("[data-card-link]").first.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/lot/*")


@pytest.mark.parametrize("scripts", [True, False])
def test_on_a_phone_the_choices_unfold(
    demo: Maker, serving: Serving, opened: Opened, scripts: bool
) -> None:
    page = opened(f"{serving(demo.file)}/shelf", "phone", scripts=scripts)
    box = page.get_by_label("worsted (4)")
    expect(box).to_be_hidden()
    page.get_by_role("link", name="Narrow").click()
    box.check()
    if not scripts:
        page.get_by_role("button", name="Show these").click()
    page.wait_for_url("**thickness=4*")
    count = len(demo.ask("shelf", "--thickness", "4"))
    if scripts:
        page.wait_for_function(f"() => document.querySelectorAll('.card').length === {count}")
    expect(page.locator(".card")).to_have_count(count)


@pytest.mark.parametrize("size", ["desk", "phone"])
@pytest.mark.parametrize("scripts", [True, False])
def test_a_fact_is_changed_in_its_place_and_undone(
    demo: Maker, serving: Serving, opened: Opened, size: str, scripts: bool
) -> None:
    page = opened(f"{serving(demo.file)}/lot/5", size, scripts=scripts)
    page.get_by_role("link", name="change Fibre").click()
    page.get_by_label("Fibre").fill("60% wool, 40% cotton")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#notice")).to_contain_text("fibre set to 60% wool, 40% cotton")
    assert demo.skein(16)["fibre"] == "60% wool, 40% cotton"
    page.locator("#notice").get_by_role("button", name="Undo").click()
    expect(page.locator("#notice")).to_contain_text("Undone:")
    assert demo.skein(16)["fibre"] == "100% wool"


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_yarn_is_set_aside_released_and_gone(
    demo: Maker, serving: Serving, opened: Opened, size: str
) -> None:
    page = opened(f"{serving(demo.file)}/skein/18", size)
    page.get_by_role("link", name="Set some aside").click()
    page.get_by_label("How much").fill("20 m")
    page.get_by_label("What for").fill("a cushion")
    page.get_by_role("button", name="Set aside").click()
    page.get_by_role("button", name="Release what is set aside for a cushion").click()
    assert demo.skein(18)["set_aside_g"] == 0
    page.get_by_role("link", name="It is gone").click()
    page.get_by_label("Why").select_option("spoilt")
    page.get_by_label("How much").fill("5 g")
    page.get_by_role("button", name="It is gone").click()
    page.wait_for_selector("#notice")
    assert demo.skein(18)["held_g"] == pytest.approx(13.288)


@pytest.mark.parametrize("size", ["desk", "phone"])
@pytest.mark.parametrize("path", ["/shelf", "/lot/5", "/skein/18?act=gone", "/find?words=navy"])
def test_nothing_shifts_or_scrolls_sideways(
    demo: Maker, serving: Serving, opened: Opened, size: str, path: str
) -> None:
    address = serving(demo.file)
    page = opened(f"{address}/record", size)
    page.add_init_script(
        "window.shift = 0; new PerformanceObserver(list => {"
        " for (const one of list.getEntries()) window.shift += one.value;"
        "}).observe({ type: 'layout-shift', buffered: true });"
    )
    page.goto(f"{address}{path}")
    page.wait_for_timeout(150)
    assert page.evaluate("window.shift") == 0
    for width in (page.viewport_size["width"], 320):
        page.set_viewport_size({"width": width, "height": 800})
        assert fits(page)
