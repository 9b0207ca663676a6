"""Colour from a photo on the page, without a browser: what is sent, found, saved and refused."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

import pytest
from commands import Maker
from pages import ORIGIN, Browser, Page

from stash.parsing.photo import MOST_PIXELS, yarn_colours
from stash.trade.colour_words import PLAIN

NAVY, CREAM, GREY = (bytes.fromhex(PLAIN[word][1:]) + b"\xff" for word in ("navy", "cream", "grey"))


def sends(browser: Browser, address: str, **pixels: bytes) -> Page:
    """The pixels of the rings, as the page's script sends them."""
    files: Any = {name: (name, data, "application/octet-stream") for name, data in pixels.items()}
    answer = browser.client.post(address, files=files, headers={"origin": ORIGIN})
    return Page(answer.status_code, str(answer.url), answer.text, answer.headers)


def test_what_is_found_is_drawn_named_and_saved_as_seen_on_a_screen(
    browser: Browser, demo: Maker
) -> None:
    page = sends(browser, "/photo?lot=4", yarn=NAVY * 300 + CREAM * 700)
    assert "2 colours" in page.text
    assert "Cream very light, 70 % of it" in page.text
    assert "Navy very dark, 30 % of it" in page.text
    form = page.form("/photo/save")
    assert form.fields["hex"] == f"{PLAIN['cream']}/{PLAIN['navy']}"
    assert form.fields["colour"] == demo.ask("show", "L4")["colour"], "her own word stays"
    saved = browser.presses(form)
    assert "Saved: hex set to" in saved.text
    assert demo.ask("show", "L4")["colours_hex"] == [PLAIN["cream"], PLAIN["navy"]]
    assert demo.ask("show", "L4")["daylight"] is False
    (undo, *_) = [f for f in saved.forms("/undo") if f.fields.get("entry")]
    browser.presses(undo)
    assert demo.ask("show", "L4")["colours_hex"] == ["#a4472a"]


def test_a_colour_compared_in_daylight_is_no_longer_of_a_screen(
    browser: Browser, demo: Maker
) -> None:
    form = sends(browser, "/photo?lot=4", yarn=NAVY * 300).form("/photo/save")
    browser.presses(form, colour="ink", daylight="yes")
    lot = demo.ask("show", "L4")
    assert (lot["colours_hex"], lot["colour"], lot["daylight"]) == ([PLAIN["navy"]], "ink", True)
    form = sends(browser, "/photo?lot=4", yarn=CREAM * 300).form("/photo/save")
    assert "daylight" not in form.fields, "another colour was not compared yet"
    browser.presses(form)
    assert demo.ask("show", "L4")["daylight"] is False


def test_paper_in_the_picture_makes_it_white(browser: Browser) -> None:
    page = sends(browser, "/photo?lot=4", yarn=GREY * 300, paper=b"\xe0\xb0\x80\xff" * 200)
    (found,) = yarn_colours(GREY * 300, b"\xe0\xb0\x80\xff" * 200)
    assert page.form("/photo/save").fields["hex"] == found.colour.hex != PLAIN["grey"]


def test_a_colour_goes_with_the_label_into_the_form_of_adding(
    browser: Browser, demo: Maker
) -> None:
    line = "Greycairn DK, 2 x 100g/230m, lot 5201"
    add = browser.opens(f"/add?line={line}&place=blue box")
    assert "No colour yet" in add.text
    address = f"/photo?line={line}&lot=5201&was-lot=5201&place=blue box&was-place=shed"
    form = sends(browser, address, yarn=NAVY * 300 + CREAM * 700).form("/photo/save")
    assert form.fields["colour"] == "cream / navy", "the nearest plain words"
    add = browser.opens(f"/add?{urlencode(form.fields)}")
    assert add.form("/add").fields["hex"] == f"{PLAIN['cream']}/{PLAIN['navy']}"
    assert add.form("/add").fields["place"] == "blue box"
    token = next(one for one in add.form("/add").buttons if one.startswith("token="))
    browser.presses(add.form("/add"), token=token.removeprefix("token="))
    lot = demo.ask("show", demo.skein(130)["lot_ref"])
    assert (lot["colours_hex"], lot["lot"]) == ([PLAIN["cream"], PLAIN["navy"]], "5201")
    assert lot["daylight"] is False


@pytest.mark.parametrize(
    ("pixels", "words"),
    [
        ({}, "came through only in part"),
        ({"yarn": b"\xff" * 399}, "came through only in part"),
        ({"yarn": b"\x80\x80\x80\x00" * 100}, "There is no colour there"),
        ({"yarn": b"\xff" * (4 * MOST_PIXELS + 4)}, "more than 16384 pixels at once"),
        ({"yarn": NAVY * 100, "paper": b"\x08\x08\x08\xff" * 90}, "The paper is too dark there"),
    ],
)
def test_what_cannot_be_looked_at_is_said_in_one_line_where_colours_would_be(
    browser: Browser, pixels: dict[str, bytes], words: str
) -> None:
    page = sends(browser, "/photo?lot=4", **pixels)
    assert page.status == 422
    assert words in page.text
    assert page.form("/photo/save").fields["hex"] == "#a4472a", "nothing is lost"


def test_more_than_the_page_takes_at_once_is_not_read(browser: Browser) -> None:
    assert sends(browser, "/photo?lot=4", yarn=b"\xff" * 5_000_000).status == 413


def test_pixels_from_another_site_are_not_looked_at(browser: Browser) -> None:
    files: Any = {"yarn": ("yarn", NAVY * 100)}
    answer = browser.client.post("/photo?lot=4", files=files, headers={"origin": "http://a.test"})
    assert answer.status_code == 403


def test_nothing_is_written_by_looking(browser: Browser, demo: Maker) -> None:
    before = demo.file.read_bytes()
    sends(browser, "/photo?lot=4", yarn=NAVY * 300, paper=CREAM * 300)
    assert demo.file.read_bytes() == before


@pytest.mark.parametrize("lot", ["0", "999", "x", "1e3", "9" * 40])
def test_no_such_lot_is_said(browser: Browser, lot: str) -> None:
    page = browser.opens(f"/photo?lot={lot}")
    assert page.status == 404
    assert "lot" in page.text


def test_a_value_that_is_none_stays_in_its_field(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/photo?lot=4").form("/photo/save")
    page = browser.presses(form, hex="blue<script>", colour="sea blue")
    assert "write #rrggbb" in page.text
    again = page.form("/photo/save")
    assert (again.fields["hex"], again.fields["colour"]) == ("blue<script>", "sea blue")
    assert "<script>" not in page.source.replace("<script src=", "")
    page = browser.presses(again, hex="", colour="navy")
    assert demo.ask("show", "L4")["colours_hex"] == [PLAIN["navy"]], "a word alone will do"


def test_without_scripts_it_says_so(browser: Browser) -> None:
    page = browser.opens("/photo")
    assert "<noscript><p>Taking colours out of a picture needs scripts" in page.source
    assert "img-src 'self'; connect-src 'self'" in page.headers["content-security-policy"]
