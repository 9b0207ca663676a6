"""The shelf on the page: its figures, what narrows it, and how it looks in grey."""

from __future__ import annotations

import html
import math
import re
from typing import Any

import pytest
from commands import Maker
from pages import Browser, cards

from stash.measures.colour import Colour, lab


def everything(browser: Browser, address: str) -> dict[int, str]:
    """The cards of all its pages."""
    found: dict[int, str] = {}
    while address:
        page = browser.opens(address)
        found |= cards(page)
        address = html.unescape(page.links.get("More", ""))
    return found


def number(lot: dict[str, Any]) -> int:
    return int(lot["lot_ref"][1:])


def test_each_card_says_what_the_command_says_of_its_lot(browser: Browser, demo: Maker) -> None:
    demo.does("aside", "--note", "for a cushion", "--skein", "21", "60m")
    shown = everything(browser, "/shelf")
    lots = demo.ask("shelf")
    assert {number(lot) for lot in lots} == shown.keys()
    for lot in lots:
        card = shown[number(lot)]
        # free is rounded down and set aside up, to whole metres (words.md, section 3)
        if lot["free_m"] is None:
            assert f"{lot['free_g']:g} g free" in card
        else:
            assert f" {math.floor(lot['free_m'] + 1e-3)} m free" in card
        if lot["set_aside_m"]:
            assert f"{math.ceil(lot['set_aside_m'] - 1e-3)} m set aside" in card
        else:
            assert "set aside" not in card
        assert (lot["colour"] or "colour not known") in card
        for skein in lot["skeins"]:
            assert skein["place"] in card
        whole = sum(skein["state"] == "whole" for skein in lot["skeins"])
        if whole == len(lot["skeins"]):
            assert f"{whole} skein{'s' if whole > 1 else ''} " in card


def test_the_head_sums_what_the_cards_show(browser: Browser, demo: Maker) -> None:
    page = browser.opens("/shelf?thickness=4")
    free = [int(n) for card in cards(page).values() for n in re.findall(r"(\d+) m free", card)]
    assert f"{len(free)} yarns" in page.text
    assert f"{sum(free)} m free" in page.text


def test_a_heading_sums_the_cards_under_it(browser: Browser) -> None:
    page = browser.opens("/shelf?by=thickness&words=ottermeade")
    for group in re.findall(r'<section class="group.*?</section>', page.source, re.DOTALL):
        head, *rest = re.findall(r"(\d+) m free", re.sub("<[^>]+>", " ", group))
        assert int(head) == sum(map(int, rest))


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("/shelf?thickness=4", ["--thickness", "4"]),
        ("/shelf?place=blue+crate", ["--place", "blue crate"]),
        ("/shelf?free=300+m", ["--free", "300m"]),
        ("/shelf?words=oatmel", ["oatmel"]),
        ("/shelf?words=navy&thickness=4", ["navy", "--thickness", "4"]),
    ],
)
def test_what_narrows_the_page_narrows_the_command(
    browser: Browser, demo: Maker, address: str, words: list[str]
) -> None:
    shown = everything(browser, address)
    assert list(shown) == [number(lot) for lot in demo.ask("shelf", *words)]
    assert shown


def test_choices_of_one_group_add_up_and_of_two_groups_cut_down(browser: Browser) -> None:
    dk, aran = (everything(browser, f"/shelf?thickness={n}") for n in (3, 4))
    both = everything(browser, "/shelf?thickness=3&thickness=4")
    assert both.keys() == dk.keys() | aran.keys()
    opened = everything(browser, "/shelf?left=opened")
    cut = everything(browser, "/shelf?thickness=3&left=opened")
    assert cut.keys() == dk.keys() & opened.keys()


def test_each_count_is_what_that_choice_leaves(browser: Browser) -> None:
    page = browser.opens("/shelf?left=opened")
    rows = re.findall(
        r'name="(thickness|dyed|place)" value="([^"]*)".*?id="\w+-\d+"[^>]*>(\d+)<',
        page.source,
        re.DOTALL,
    )
    assert len(rows) > 10
    for group, value, count in rows:
        left = everything(browser, f"/shelf?left=opened&{group}={html.unescape(value)}")
        assert len(left) == int(count), (group, value)


def test_nothing_left_says_which_choice_cost_most(browser: Browser) -> None:
    page = browser.opens("/shelf?thickness=6&left=opened&dyed=variegated")
    assert "No yarn like that" in page.text
    # without what is left no lot fits either: super chunky is all solid
    ways = {words: address for words, address in page.links.items() if words.startswith("Without")}
    assert [*ways] == ["Without thickness"]
    assert cards(browser.opens(html.unescape(ways["Without thickness"])))


def test_a_length_that_cannot_be_read_says_so_and_leaves_the_shelf(browser: Browser) -> None:
    page = browser.opens("/shelf?free=eighty")
    assert len(cards(page)) == 40
    assert 'value="eighty"' in page.source
    assert "eighty" in page.text


def test_forty_yarns_a_page_then_more(browser: Browser) -> None:
    first = browser.opens("/shelf")
    assert len(cards(first)) == 40
    rest = browser.opens(html.unescape(first.links["More"]))
    assert len(cards(rest)) == 10
    assert not cards(first).keys() & cards(rest).keys()
    assert html.unescape(rest.links["Earlier"]) == "/shelf"


def test_in_grey_every_colour_is_the_grey_of_its_lightness(browser: Browser, demo: Maker) -> None:
    page = browser.opens("/shelf?grey=1")
    swatches = re.findall(r'<article class="card".*?</article>', page.source, re.DOTALL)
    drawn = {value for one in swatches for value in re.findall(r"#[0-9a-f]{6}", one)}
    known = {"#2a2f32", "#f1f0eb", "#1e2225"}  # the outline, a paper band and its print
    assert all(value[1:3] == value[3:5] == value[5:] for value in drawn - known)
    shown = everything(browser, "/shelf?grey=1")
    for lot in demo.ask("shelf"):
        lights = sorted(int(lab(Colour(value)).lightness) for value in lot["colours_hex"])
        if lights:
            ends = f"{lights[0]}" if len(set(lights)) == 1 else f"{lights[0]}–{lights[-1]}"
            assert shown[number(lot)].endswith(f"lightness {ends}")


def test_amounts_are_in_her_units(browser: Browser, demo: Maker) -> None:
    demo.does("settings", "units", "us")
    page = browser.opens("/shelf")
    assert " yd free" in page.text
    assert not re.search(r"\d m free", page.text)


@pytest.mark.parametrize("by", ["yarn", "thickness", "place", "colour"])
def test_every_lot_lies_under_one_heading(browser: Browser, demo: Maker, by: str) -> None:
    assert len(everything(browser, f"/shelf?by={by}")) == len(demo.ask("shelf"))


def test_an_empty_shelf_says_how_to_begin(nobody: Maker, nobody_browses: Browser) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy, lot 1")
    nobody.does("undo", "--yes")
    page = nobody_browses.opens("/shelf")
    assert "Your shelf is empty" in page.text
    assert page.links["Add yarn"] == "/add"


@pytest.mark.parametrize(
    "name",
    ["<script>alert(1)</script>", "x" * 500, "\u202egnorw", "🧶" * 60, '"><b onclick=x>', "a\nb"],
)
def test_a_hostile_name_stays_words(browser: Browser, demo: Maker, name: str) -> None:
    demo.does("change", "16", "--colour", name, "--place", name)
    for address in ("/shelf", "/lot/5", "/skein/16", "/find?words=midnight", "/shelf?by=place"):
        page = browser.opens(address)
        assert page.status == 200
        assert "<script>alert" not in page.source
        assert "<b onclick" not in page.source
    shown = " ".join(name.replace("\u202e", "").split())  # what turns a line round is not kept
    assert shown[:20] in " ".join(browser.opens("/lot/5").text.split())


def test_strange_addresses_do_no_harm(browser: Browser) -> None:
    for query in ("from=999999", "from=-1", "by=x", "thickness=abc", "thickness=99", "left=x"):
        assert browser.opens(f"/shelf?{query}").status == 200
    assert browser.opens("/lot/999").status == 404
    assert browser.opens("/skein/999").status == 404


def test_no_two_cards_under_one_heading_look_the_same(browser: Browser, demo: Maker) -> None:
    """Of one name, they are told apart by yarn, dye lot or the numbers of their skeins."""
    for lot in ("lot 7", "lot 8", "", ""):
        demo.does(
            "add", f"Fell Wool DK 100g/240m, slate, {lot}".rstrip(", "), "--place", "blue crate"
        )
    for by in ("yarn", "place", "thickness", "colour"):
        for first in (0, 40):
            page = browser.opens(f"/shelf?by={by}&from={first}")
            for group in page.source.split('<section class="group')[1:]:
                names = re.findall(r"data-card-link>([^<]*)<", group)
                said = re.findall(r"</h3>(.*?)<svg", group, re.DOTALL)
                seen = list(zip(names, said, strict=True))
                assert len({*seen}) == len(seen), (by, seen)


def test_a_sum_that_leaves_out_yarn_without_a_length_says_so(browser: Browser, demo: Maker) -> None:
    demo.does("add", "Fell Wool DK 100g/240m, slate, lot 7")
    demo.does("add", "Fell Wool DK 100g, rust, lot 8")
    demo.does("add", "Hedgebell DK 100g/240m, slate, lot 7")
    page = browser.opens("/shelf?words=Fell")
    assert re.search(r"<b>240 m free as far as known</b>", page.source)
    assert re.search(r"<b>240 m free</b>", browser.opens("/shelf?words=Hedgebell").source)


def test_thick_yarn_has_its_american_name_on_the_very_first_page(
    browser: Browser, demo: Maker
) -> None:
    demo.does("settings", "units", "us")
    page = browser.opens("/shelf")
    assert page.status == 200
    assert "bulky (5)" in page.text
