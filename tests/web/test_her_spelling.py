"""In US units every page spells as the US does; what she typed herself stays as it is."""

from __future__ import annotations

import html
import re

import pytest
from british import british_left
from commands import Maker
from pages import Browser, Page, at_the_page_of

from stash.rendering import figures

HAT = "Tidewrack%20hat"
#: An address of every screen, and of every state of one that has words of its own.
ADDRESSES = [
    "/",
    "/shelf",
    "/shelf?grey=1",
    "/shelf?find=zzz",
    "/shelf?thickness=3",
    "/lot/1",
    "/lot/1?fact=colour",
    "/lot/1?fact=fibre",
    "/lot/1?fact=hexes",
    "/lot/1?fact=daylight",
    "/skein/12",
    "/skein/12?act=metre",
    "/skein/12?act=weigh",
    "/skein/12?act=gone",
    "/skein/12?act=split",
    "/skein/12?act=use",
    "/skein/88",
    "/yarn-ideas/1",
    "/add",
    "/add?line=Fell+Wool+DK+50g/120m,+moth,+lot+5",
    "/add?line=Fell+Wool+60%25+wool",
    "/add/like?like=L1",
    "/add/like",
    "/add/many",
    "/photo",
    "/photo?lot=1",
    "/sheet",
    "/designs",
    "/designs/new",
    "/design/1",
    "/design/1?sizes=woman",
    "/design/1?sizes=whale",
    "/design/1/edit",
    "/design/1/edit?around=22",
    "/design/1/edit?band_1_extent=x&bands=1",
    "/design/1/plan",
    "/design/new/edit?begin=cowl",
    "/pairs/1",
    "/pairs/1?almost=all",
    "/pairs/1?contrast=bold&colour_A=purple&without=wool",
    "/pairs/1?colour_A=gray",
    "/pairs/1?margin=lots",
    "/pairs/1?fix=no_brim&of=L1",
    "/pairs/2",
    "/pairs/3",
    "/pairs/5",
    "/scale",
    "/scale?skein=12",
    "/scale?skein=12&reading=1oz",
    "/lasts/2",
    "/lasts/2?rows_done=20",
    "/count",
    "/count?place=basket",
    "/market",
    "/items",
    "/item/1",
    "/item/2",
    "/item/3",
    "/item/4",
    "/item/5",
    "/pick/3",
    "/record",
    "/prices",
    "/paper.css",
    "/tag/1",
    "/lot-ideas/5",
    "/labels",
    "/labels/sheet?lot=5",
    "/market/plan",
    "/record?undo=3",
    "/settings",
    "/share",
    "/find?q=teal",
    "/find?q=zzz",
    "/first",
    "/nothing",
]
#: What a page says: between its marks, and in the attributes that are read out or stand in a field.
_SHOWN = re.compile(r"<(?:script|style).*?</(?:script|style)>|<[^>]*>", re.DOTALL)
_READ_OUT = re.compile(r'(?:aria-label|placeholder|title|alt|aria-valuetext)="([^"]*)"')


def said_on(page: Page) -> str:
    shown = _SHOWN.sub(" ", page.source)
    return html.unescape(" ".join([shown, *_READ_OUT.findall(page.source)]))


@pytest.fixture
def american(lively: Maker) -> Maker:
    lively.does("settings", "units", "us")
    lively.does("change", "L36", "--colour", "ash")  # she had typed grey
    figures.use(figures.Units())  # a server knows nothing of the commands of this process
    return lively


def every_screen() -> set[str]:
    from stash.web.screens import SCREENS

    return {path.split("/")[1].split("{")[0] for path in SCREENS}


def test_no_page_has_a_british_form(american: Maker) -> None:
    assert every_screen() <= {one.split("?")[0].split("/")[1] for one in ADDRESSES} | {"changed"}
    wrong = {}
    for browser in at_the_page_of(american.file):
        for address in ADDRESSES:
            page = browser.opens(address)
            assert page.status in (200, 404), address
            if left := british_left(said_on(page)):
                wrong[address] = left
    assert wrong == {}


def test_what_is_said_after_a_press_has_none_either(american: Maker) -> None:
    for browser in at_the_page_of(american.file):
        for said in _pressed(browser):
            assert not british_left(said_on(said)), said.address


def _pressed(browser: Browser) -> list[Page]:
    pairs = browser.opens("/pairs/1")
    aside = browser.presses(pairs.form("/pairs/aside"))
    undone = browser.presses(aside.form("/undo"))
    wrong = browser.presses(browser.opens("/designs/new").form("/designs/add"), gauge="loose")
    return [aside, undone, wrong, browser.opens("/record")]


def test_a_name_that_she_typed_keeps_its_spelling(american: Maker) -> None:
    american.does("change", "L1", "--colour", "greyish colour")
    for browser in at_the_page_of(american.file):
        assert "greyish colour" in said_on(browser.opens("/lot/1"))


def test_the_spelling_of_a_page_follows_her_setting_at_once(
    lively_browser: Browser, lively: Maker
) -> None:
    assert "In grey" in said_on(lively_browser.opens("/shelf"))
    lively.does("settings", "units", "us")
    assert "In gray" in said_on(lively_browser.opens("/shelf"))
    lively.does("settings", "terms", "uk")
    assert "In grey" in said_on(lively_browser.opens("/shelf"))
