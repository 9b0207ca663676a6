"""Labels of skeins: of a lot, of numbers and of a place, each with what the record says."""

from __future__ import annotations

import html
import math
import re

import pytest
from commands import Maker
from pages import Browser, Page

from stash.rendering.skein_labels import ON_A_PAGE


def labels(page: Page) -> dict[int, dict[str, str]]:
    """What each label says, by its number, in the order they lie."""
    found = {}
    for source in page.source.split('<div class="label">')[1:]:
        lines = re.findall(r'<p class="(\w+)">(.*?)</p>', source)
        one = {kind: html.unescape(text) for kind, text in lines}
        found[int(one["number"])] = one
    return found


def test_a_label_says_what_show_says(browser: Browser, demo: Maker) -> None:
    demo.does("weigh", "18", "12g")
    known, one = demo.skein(18), labels(browser.opens("/labels/sheet?skeins=18"))[18]
    assert one["left"] == f"{math.floor(known['held_m'] + 1e-3)} m, {known['held_g']:g} g"
    assert one["yarn"] == known["yarn"]
    assert one["colour"].startswith(known["colour"])
    assert one["lot"] == f"lot {known['lot']}"
    assert one["place"] == known["place"]
    assert one["weighed"] == f"weighed {demo.ask('log')[0]['on']}"


def test_a_label_of_yarn_used_since_says_what_the_scale_showed_then(
    browser: Browser, demo: Maker
) -> None:
    demo.does("weigh", "18", "12g")
    demo.does("use", "18", "2g")
    one = labels(browser.opens("/labels/sheet?skeins=18"))[18]
    assert one["left"].endswith(", 10 g")
    assert one["weighed"].endswith(": 12 g then")
    demo.does("undo", "--yes")
    demo.does("undo", "--yes")
    assert "weighed" not in labels(browser.opens("/labels/sheet?skeins=18"))[18]


def test_a_lot_has_a_label_for_each_skein_that_holds_yarn(browser: Browser, demo: Maker) -> None:
    demo.does("gone", "17", "--why", "lost")
    page = browser.opens("/lot/5")
    sheet = browser.opens(page.links["Print its labels"])
    assert [*labels(sheet)] == [16, 18]
    assert sheet.links["Back to the lot"] == "/lot/5"


def test_a_skein_has_one_label(browser: Browser) -> None:
    sheet = browser.opens(browser.opens("/skein/17").links["Print its label"])
    assert [*labels(sheet)] == [17]


def test_a_whole_place_is_labelled_by_number(browser: Browser, demo: Maker) -> None:
    there = [
        skein["number"]
        for lot in demo.ask("shelf")
        for skein in lot["skeins"]
        if skein["place"] == "tin on the desk" and skein["held_g"] != 0
    ]
    page = browser.opens("/labels?place=tin+on+the+desk")
    assert f"{len(there)} labels, 1 sheet" in page.text
    sheet = browser.presses(page.form("/labels/sheet"), place="Tin on the desk")
    assert [*labels(sheet)] == sorted(there)


def test_all_skeins_lie_place_by_place_so_many_to_a_page(browser: Browser, demo: Maker) -> None:
    sheet = browser.opens("/labels/sheet")
    found = labels(sheet)
    numbers = {skein["number"] for lot in demo.ask("shelf") for skein in lot["skeins"]}
    assert {*found} == numbers
    places = [one.get("place", "").casefold() for one in found.values()]
    assert places == sorted(places)
    pages = sheet.source.split('<div class="page">')[1:]
    assert [page.count('class="label"') for page in pages[:-1]] == [ON_A_PAGE] * (len(pages) - 1)


def test_what_the_shelf_is_narrowed_to_is_labelled(browser: Browser) -> None:
    page = browser.opens("/shelf?words=midnight&place=tin+on+the+desk")
    assert [*labels(browser.opens(page.links["Print their labels"]))] == [18]


@pytest.mark.parametrize(
    ("query", "status"),
    [("skeins=999", 404), ("skeins=x", 404), ("lot=999", 404), ("place=moon", 404)],
)
def test_what_is_not_there_is_said_so(browser: Browser, query: str, status: int) -> None:
    assert browser.opens(f"/labels/sheet?{query}").status == status
    if "lot" not in query:
        assert "verdict lacks" in browser.opens(f"/labels?{query}").source


def test_skeins_that_are_used_up_have_no_label(browser: Browser, demo: Maker) -> None:
    demo.does("gone", "18", "--why", "lost")
    assert [*labels(browser.opens("/labels/sheet?skeins=17,18"))] == [17]
    refused = browser.opens("/labels/sheet?skeins=18")
    assert refused.status == 404
    assert "no yarn left of" in refused.text.lower()


@pytest.mark.parametrize("name", ["<script>x</script>", "w" * 500, "\u202ekaolb", "🧶 wool"])
def test_a_hostile_name_is_a_name_on_a_label(browser: Browser, demo: Maker, name: str) -> None:
    demo.does("change", "18", "--colour", name, "--place", name)
    sheet = browser.opens("/labels/sheet?skeins=18")
    assert "<script>" not in sheet.source
    assert "\u202e" not in sheet.source
    one = labels(sheet)[18]
    assert len(one["place"]) < 50


def test_labels_are_in_her_units(browser: Browser, demo: Maker) -> None:
    demo.does("settings", "units", "us")
    one = labels(browser.opens("/labels/sheet?skeins=18"))[18]
    known = demo.skein(18)
    assert one["left"].startswith(f"{math.floor(known['held_m'] / 0.9144 + 1e-3)} yd, ")
    assert one["left"].endswith(" oz")


def test_a_sheet_of_labels_is_set_by_files_alone(browser: Browser) -> None:
    sheet = browser.opens("/labels/sheet?lot=5")
    assert 'href="/static/skein_labels.css"' in sheet.source
    assert " style=" not in sheet.source
    assert "<style" not in sheet.source
