"""Every page that a link leads to can be opened, whatever her units and her country's words."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from commands import Maker
from pages import ORIGIN, Browser, Page, at_the_page_of

#: So many ways to narrow or to open a page are looked at together.
TOGETHER = 2
#: What a value looks like that was never made into words.
RAW = re.compile(r"\b(?:None(?! on your shelf)|True|False|nan|inf|undefined)\b|[{}]|<[A-Z]\w+ ")
#: Yarns with a name of its own in each country, in yards and ounces, without length or thickness.
YARNS = (
    "Larkmoss Bulky, 3 x 3.5oz/106yd, plum, lot 8, wool",
    "Larkmoss Bulky, 100g/97m, plum, lot 9, wool",
    "Larkmoss super bulky, 150g/80m, rust, alpaca",
    "Larkmoss fingering, 100g/400m, grey, wool nylon",
    "Wrenfold, 80g, teal",
)


def kind_of(address: str) -> str:
    """Addresses that differ in numbers and words alone show one kind of page."""
    path, names = (
        re.sub("(?<=/)(?:[0-9]|.*%20)[^/]*", "N", address.partition("?")[0]),
        asked(address),
    )
    return f"{path}?{'&'.join(sorted(names))}"


def asked(address: str) -> set[str]:
    """The names in an address after its question mark."""
    return {part.partition("=")[0] for part in address.partition("?")[2].split("&") if part}


def reached(browser: Browser) -> Iterator[Page]:
    """The pages to be had by following links from Tonight, one of each kind."""
    waiting, kinds = ["/"], {"/?"}
    while waiting:
        page = browser.opens(waiting.pop(0))
        yield page
        for to in page.links.values():
            if to.startswith("/") and len(asked(to)) <= TOGETHER and kind_of(to) not in kinds:
                kinds.add(kind_of(to))
                waiting.append(to)


@pytest.mark.parametrize("units", ["us", "uk"])
def test_every_page_that_is_linked_opens(lively: Maker, units: str) -> None:
    for yarn in YARNS:
        lively.does("add", yarn)
    lively.does("settings", "units", units)
    opened = []
    for browser in at_the_page_of(lively.file):
        for page in reached(browser):
            assert page.status == 200, page.address
            assert not RAW.search(page.text), (page.address, RAW.findall(page.text))
            opened.append(page.address.partition("?")[0].removeprefix(ORIGIN))
    assert {"/shelf", "/market", "/record", "/scale", "/designs", "/settings"} <= set(opened)
    assert len(opened) > 40
