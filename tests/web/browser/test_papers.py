"""Sheets of paper on a desk and a phone: whole, and printed without what stands round them."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker


@pytest.mark.parametrize("address", ["/tag/1,5", "/prices", "/pick/2", "/design/1/plan"])
def test_only_the_sheet_is_printed(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], address: str
) -> None:
    from playwright.sync_api import expect

    page = opened(f"{serving(lively.file)}{address}", "phone", dark=True)
    back, pressed = (
        page.get_by_role("link", name="Back to"),
        page.get_by_role("button", name="Print"),
    )
    expect(back).to_be_visible()
    page.evaluate("window.print = () => { document.body.dataset.printed = 'yes' }")
    pressed.click()
    expect(page.locator("body")).to_have_attribute("data-printed", "yes")
    page.emulate_media(media="print")
    expect(back).to_be_hidden()
    expect(pressed).to_be_hidden()
    expect(page.get_by_role("navigation")).to_be_hidden()


def test_a_sheet_is_whole_on_any_screen(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any]
) -> None:
    page = opened(f"{serving(lively.file)}/tag/1,5")
    for wide in (1280, 390, 320):
        page.set_viewport_size({"width": wide, "height": 700})
        sheet = page.locator(".page").bounding_box()
        tags = [one.bounding_box() for one in page.locator(".tag").all()]
        assert sheet["x"] >= 0
        assert sheet["x"] + sheet["width"] <= wide
        assert len(tags) == 2
        for tag in tags:
            assert sheet["x"] <= tag["x"]
            assert tag["x"] + tag["width"] <= sheet["x"] + sheet["width"]
