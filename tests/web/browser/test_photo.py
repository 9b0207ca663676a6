"""Colour from a photo in a real browser: a picture chosen, tapped, keyed and saved."""

from __future__ import annotations

import base64
import struct
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from commands import Maker
from looks import fits
from photographs import png, truth
from playwright.sync_api import expect

from stash.measures.colour import Colour, ciede2000, lab
from stash.trade.colour_words import PLAIN

#: A yarn under a lamp, with white paper at the right (`photographs.png`).
COLOURS = (PLAIN["navy"], PLAIN["cream"])
_AXE = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]}}


@pytest.fixture(scope="session")
def picture(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("photo") / "yarn.png"
    file.write_bytes(png(COLOURS, "A", 5))
    return file


def taps(page: Any, x: int, y: int) -> None:
    """A place of the picture, which is 320 pixels wide, wherever it is shown."""
    box = page.locator("#canvas").bounding_box()
    by = box["width"] / 320
    page.locator("#canvas").click(position={"x": x * by, "y": y * by})


def far(hexes: list[str]) -> float:
    """How far the farthest colour is from the true one nearest to it."""
    return max(min(ciede2000(lab(Colour(h)), truth(one)) for one in COLOURS) for h in hexes)


@pytest.mark.parametrize("size", ["desk", "phone"])
def test_the_yarn_and_white_paper_are_tapped_and_the_colours_saved_to_a_lot(
    demo: Maker,
    serving: Callable[[Path], str],
    opened: Callable[..., Any],
    picture: Path,
    size: str,
) -> None:
    page = opened(f"{serving(demo.file)}/photo?lot=4", size, dark=size == "phone")
    sent: list[int] = []
    page.on("request", lambda asked: sent.append(len(asked.post_data_buffer or b"")))
    page.set_input_files("#picture", picture)
    page.wait_for_selector("#tapping:visible")
    taps(page, 115, 115)
    page.wait_for_selector("#found-head:has-text('2 colours')")
    without = page.input_value("#hex")
    page.fill("#colour", "dusk")
    page.check("input[value=paper]")
    taps(page, 270, 120)
    page.wait_for_function("before => document.getElementById('hex').value !== before", arg=without)
    assert far(page.input_value("#hex").split("/")) < min(11.5, far(without.split("/")))
    expect(page.locator("#colour"), "what she typed stays").to_have_value("dusk")
    found = Axe().run(page, options=_AXE).response["violations"]
    assert [one["id"] for one in found if one["impact"] in ("serious", "critical")] == []
    assert fits(page)
    hexes = page.input_value("#hex").split("/")
    page.click("text=Save the colour")
    page.wait_for_selector("#notice >> text=Saved")
    assert max(sent) < 4 * (5100 + 5100) + 2000, "the pixels of two rings, not the picture"
    lot = demo.ask("show", "L4")
    assert (lot["colours_hex"], lot["colour"], lot["daylight"]) == (hexes, "dusk", False)


def test_by_keys_alone_into_the_form_of_adding(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], picture: Path
) -> None:
    page = opened(f"{serving(demo.file)}/add?line=Greycairn DK, 2 x 100g/230m, lot 5201", "desk")
    page.focus("text=Colour from a photo")
    page.keyboard.press("Enter")
    page.wait_for_url("**/photo?**")
    page.wait_for_load_state()
    page.set_input_files("#picture", picture)
    page.wait_for_selector("#tapping:visible")
    expect(page.locator("#canvas")).to_be_focused()
    for key in ("ArrowLeft", "Shift+ArrowLeft", "Shift+ArrowUp", "ArrowDown", "Enter"):
        page.keyboard.press(key)
    page.wait_for_selector("#found-head:has-text('2 colours')")
    kept = page.input_value("#hex").split("/")[0]
    page.focus("[data-hex] >> nth=1")
    page.keyboard.press("Space")
    expect(page.locator("#hex"), "what is not of the yarn is left out").to_have_value(kept)
    page.focus("text=Use this colour")
    page.keyboard.press("Enter")
    expect(page.locator("#fact-hex")).to_have_value(kept)
    page.click("text=Add 2 skeins")
    page.wait_for_selector("#notice >> text=Added 2 skeins")
    assert demo.ask("show", demo.skein(130)["lot_ref"])["colours_hex"] == [kept]


def test_a_picture_taken_with_the_phone_on_its_side_is_turned_upright(
    demo: Maker,
    serving: Callable[[Path], str],
    opened: Callable[..., Any],
    picture: Path,
    tmp_path: Path,
) -> None:
    """Orientation 6 of Exif 2.3 (CIPA DC-008): to be shown turned a quarter clockwise."""
    page = opened(f"{serving(demo.file)}/photo?lot=4")
    page.set_input_files("#picture", picture)
    page.wait_for_selector("#tapping:visible")
    size = "['width', 'height'].map((one) => document.getElementById('canvas')[one])"
    assert page.evaluate(size) == [320, 240]
    jpeg = page.evaluate("document.getElementById('canvas').toDataURL('image/jpeg').split(',')[1]")
    turned = b"MM\0*\0\0\0\x08\0\x01" + struct.pack(">HHIHHI", 0x112, 3, 1, 6, 0, 0)
    exif = b"Exif\0\0" + turned
    data = base64.b64decode(jpeg)
    part = b"\xff\xe1" + struct.pack(">H", len(exif) + 2) + exif
    (tmp_path / "a.jpg").write_bytes(data[:2] + part + data[2:])
    page.set_input_files("#picture", tmp_path / "a.jpg")
    page.wait_for_function(f"() => ({size}).join() === '240,320'")


def test_a_file_that_is_no_picture_is_said_and_without_scripts_a_word_will_do(
    demo: Maker, serving: Callable[[Path], str], opened: Callable[..., Any], tmp_path: Path
) -> None:
    base = serving(demo.file)
    page = opened(f"{base}/photo?lot=4", "phone")
    (tmp_path / "a.png").write_bytes(b"no picture at all")
    page.set_input_files("#picture", tmp_path / "a.png")
    page.wait_for_selector("#said:has-text('cannot open that file')")
    expect(page.locator("#canvas")).to_be_hidden()
    page = opened(f"{base}/photo?lot=4", "phone", scripts=False)
    expect(page.locator("noscript p")).to_be_visible()
    expect(page.locator("#picture")).to_be_hidden()
    page.fill("#hex", "")
    page.fill("#colour", "navy")
    page.click("text=Save the colour")
    page.wait_for_selector("#notice >> text=Saved")
    assert demo.ask("show", "L4")["colours_hex"] == [PLAIN["navy"]]
