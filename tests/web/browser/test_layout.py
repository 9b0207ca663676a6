"""Where things stand: level with one another, whole, and not hidden by what has the focus."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from commands import Maker

#: Examples in fields are looked at on these.
FIELDS = ("/design/1/edit", "/item/2", "/design/1", "/lasts/2", "/add", "/pairs/1", "/settings")
#: Those that are wider than the field they stand in, each with how much.
CUT_OFF = """() => [...document.querySelectorAll("input[placeholder]")].filter((one) => {
  const box = one.getBoundingClientRect(), style = getComputedStyle(one, "::placeholder");
  if (one.value || !box.width) return false;
  const pen = document.createElement("canvas").getContext("2d");
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const own = getComputedStyle(one);
  const room = one.clientWidth - parseFloat(own.paddingLeft) - parseFloat(own.paddingRight);
  return pen.measureText(one.placeholder).width > room + 1;
}).map((one) => one.placeholder)"""


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_no_example_in_a_field_is_cut_off(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], size: str
) -> None:
    lively.does("settings", "units", "us")
    address = serving(lively.file)
    page = opened(f"{address}/", size)
    for path in FIELDS:
        page.goto(address + path)
        assert page.evaluate(CUT_OFF) == [], path


def test_no_name_of_a_place_is_broken_at_320_pixels(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any]
) -> None:
    address = serving(lively.file)
    page = opened(f"{address}/designs")
    page.set_viewport_size({"width": 320, "height": 640})
    high = {one.bounding_box()["height"] for one in page.locator(".places a span").all()}
    assert len(high) == 1


def test_buttons_of_one_row_are_level_on_a_desk(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any]
) -> None:
    address = serving(lively.file)
    page = opened(f"{address}/lot/9")
    for path, row in (
        ("/lot/9", "nav[aria-label='What to do with it'] .button"),
        ("/skein/36", "nav[aria-label='What to do with it'] .button"),
        ("/design/1", ".row.level button"),
    ):
        page.goto(address + path)
        lower = {one.bounding_box()["y"] for one in page.locator(row).all()}
        assert len(lower) == 1, path


def test_the_ring_of_a_field_leaves_its_label_free(
    lively: Maker, serving: Callable[[Path], str], opened: Callable[..., Any]
) -> None:
    page = opened(f"{serving(lively.file)}/add")
    label = page.locator("label[for=line]").bounding_box()
    field = page.locator("#line").bounding_box()
    assert field["y"] - (label["y"] + label["height"]) >= 5, "3 pixels of ring, 2 off"
