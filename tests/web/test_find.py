"""The global find: yarn, a skein by its number, designs and items, misspelt ones too."""

from __future__ import annotations

import html

import pytest
from commands import Maker
from pages import Browser, cards


@pytest.mark.parametrize("words", ["navy", "oatmel", "blue crate", "tansel"])
def test_words_find_the_yarn_that_the_command_finds(
    browser: Browser, demo: Maker, words: str
) -> None:
    found = [int(lot["lot_ref"][1:]) for lot in demo.ask("shelf", words)]
    assert found
    assert list(cards(browser.opens(f"/find?words={words}"))) == found[:12]


@pytest.mark.parametrize("words", ["17", "no. 17", "skein 17", "#17"])
def test_a_number_finds_its_skein(browser: Browser, words: str) -> None:
    page = browser.opens("/find?words=" + words.replace("#", "%23"))
    assert page.links["No. 17"] == "/skein/17"


@pytest.mark.parametrize("words", ["item 1", "1", "tidewrack", "tidewrak hat"])
def test_an_item_is_found_by_number_or_name(browser: Browser, words: str) -> None:
    assert browser.opens(f"/find?words={words}").links["Item 1"] == "/item/1"


@pytest.mark.parametrize("words", ["Tidewrack hat", "tidewrak hat", "design tidewrack"])
def test_a_design_is_found_by_its_name(browser: Browser, words: str) -> None:
    assert browser.opens(f"/find?words={words}").links["Tidewrack hat"].startswith("/design/")


def test_nothing_like_it_says_so_with_the_nearest(browser: Browser) -> None:
    page = browser.opens("/find?words=barleygatexx+mdnght")
    assert "Nothing like that" in page.text or cards(page)
    nothing = browser.opens("/find?words=qqqqqq")
    assert "Nothing like that" in nothing.text
    assert html.unescape(nothing.links["Look along the shelf"]) == "/shelf"


def test_no_words_ask_for_some(browser: Browser) -> None:
    assert browser.opens("/find").status == 200
