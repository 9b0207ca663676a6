"""Pairs on the page: what it shows is what `stash match` answers, and what it sets aside."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from typing import Any
from urllib.parse import quote

import pytest
from commands import Maker
from pages import Browser, Page, at_the_page_of, unescaped

from stash.actions import ordered
from stash.rendering.sentences.matching import SOFT_FROM

HAT = "Tidewrack hat"
#: Yards in a metre: one yard is 0.9144 m by international agreement.
YARDS = 1 / 0.9144


def swapped(key: str) -> tuple[str, ...]:
    return tuple(sorted(key.split("+")))


def cards(page: Page) -> list[str]:
    """Each card as it reads, by its place on the page."""
    parts = re.split(r'<article class="set"', page.source)[1:]
    return [Page(page.status, page.address, f"<article{one}", page.headers).text for one in parts]


def keys_shown(page: Page) -> list[str]:
    return [form.fields["alike"] for form in page.forms("/pairs/aside")]


def says_what_is_free(card: str, proposal: dict[str, Any], need: dict[str, Any], per_m: float,
                      unit: str) -> None:  # fmt: skip
    for role, filled in proposal["roles"].items():
        free = math.floor(filled["free_m"] * per_m + 1e-3)
        enough = math.floor(filled["free_m"] / need["roles"][role]["set_aside_m"])
        assert f"{role} {free} {unit} free, enough for {enough}" in card


@pytest.mark.parametrize(("units", "per_m", "unit"), [("metric", 1, "m"), ("us", YARDS, "yd")])
def test_every_figure_of_a_card_is_that_of_match(
    lively: Maker, units: str, per_m: float, unit: str
) -> None:
    lively.does("settings", "units", units)
    found = lively.ask("match", HAT)
    by_key = {one["key"]: one for one in found["proposals"]}
    for browser in at_the_page_of(lively.file):
        page = browser.opens("/pairs/1")
        shown = keys_shown(page)
        assert len(shown) == 8
        for key, card in zip(shown, cards(page), strict=True):
            proposal = by_key[key]
            says_what_is_free(card, proposal, found["need"], per_m, unit)
            assert f"{int(proposal['lightness_gap'])} apart in lightness" in card
            for filled in proposal["roles"].values():
                assert all(f"no. {take['number']}" in card for take in filled["skeins"])
        needs = [role["set_aside_m"] for role in found["need"]["roles"].values()]
        a, b = (math.ceil(m * per_m - 1e-3) for m in needs)
        assert f"{a} {unit} of A and {b} {unit} of B" in page.text


def test_what_is_left_on_a_card_is_free_less_what_is_taken(
    lively_browser: Browser, lively: Maker
) -> None:
    found = lively.ask("match", HAT)["proposals"][0]
    card = cards(lively_browser.opens("/pairs/1"))[0]
    for filled in found["roles"].values():
        taken = sum(math.ceil(take["take_m"] - 1e-3) for take in filled["skeins"])
        assert f"({math.floor(filled['free_m'] + 1e-3) - taken} m left)" in card


def test_the_word_for_a_contrast_is_that_of_match(lively_browser: Browser, lively: Maker) -> None:
    found = {one["key"]: one for one in lively.ask("match", HAT)["proposals"]}
    page = lively_browser.opens("/pairs/1")
    for key, card in zip(keys_shown(page), cards(page), strict=True):
        (words,) = (
            reason["words"]
            for reason in found[key]["reasons"]
            if reason["kind"] == "lightness_apart"
        )
        gap = found[key]["lightness_gap"]
        word = words.removesuffix(" contrast")
        if not words.endswith(" contrast"):
            word = "close" if gap < SOFT_FROM else "soft or more"
        assert f"{word} {int(gap)} apart" in card


def test_reasons_stand_on_the_side_they_speak_for(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/pairs/1")
    found = {one["key"]: one for one in lively.ask("match", HAT)["proposals"]}
    for key, part in zip(
        keys_shown(page), page.source.split('<article class="set"')[1:], strict=True
    ):
        for role, filled in found[key]["roles"].items():
            for reason in filled["reasons"]:
                side = "minus" if reason["cost"] else "plus"
                if reason["kind"] in ("opens_skeins", "opens_no_skein", "useless_end"):
                    each, one = f"each {reason['words']}", f"{role}: {reason['words']}"
                    lines = (f'<li class="{side}">{words}</li>' for words in (each, one))
                    assert any(line in part for line in lines)


def test_a_pair_and_its_swap_are_one_card(lively_browser: Browser, lively: Maker) -> None:
    found = [one["key"] for one in lively.ask("match", HAT, "--top", "100")["proposals"]]
    both = [key for key in found if "+".join(key.split("+")[::-1]) in found]
    assert both, "some yarns do either way on this shelf"
    page = lively_browser.opens("/pairs/1?cards=40")
    shown = keys_shown(page)
    assert len({swapped(key) for key in shown}) == len(shown)
    first = next(key for key in shown if key in both)
    assert "or swapped" in cards(page)[shown.index(first)]
    other = "+".join(first.split("+")[::-1])
    turned = lively_browser.opens(f"/pairs/1?cards=40&as={quote(other)}")
    assert keys_shown(turned)[shown.index(first)] == other


def test_a_design_is_found_by_its_name_too_and_a_strange_one_is_not(
    lively_browser: Browser,
) -> None:
    assert keys_shown(lively_browser.opens("/pairs/Tidewrack%20hat"))
    assert lively_browser.opens("/pairs/99").status == 404
    assert lively_browser.opens("/pairs/nothing%20like%20it").status == 404


def test_set_aside_takes_what_match_said_and_leads_to_the_item(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/pairs/1")
    key = keys_shown(page)[1]
    proposal = next(one for one in lively.ask("match", HAT)["proposals"] if one["key"] == key)
    done = lively_browser.presses(page.form("/pairs/aside", alike=key))
    number = lively.ask("items")[-1]["number"]
    assert f"/item/{number}" in done.address
    aside = [one for one in lively.ask("shelf", "--aside") if one["item"] == number]
    taken = {
        (role, take["number"], take["take_m"])
        for role, filled in proposal["roles"].items()
        for take in filled["skeins"]
    }
    assert {(one["role"], one["skein"], one["set_aside_m"]) for one in aside} == taken


def test_a_set_whose_yarn_was_taken_meanwhile_is_refused_in_place(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/pairs/1")
    form = page.form("/pairs/aside")
    for number in {
        t["number"] for t in lively.ask("match", HAT)["proposals"][0]["roles"]["B"]["skeins"]
    }:
        lively.does("aside", "--note", "for somebody else", "--skein", str(number))
    before = lively.entries()
    refused = lively_browser.presses(form)
    assert lively.entries() == before
    assert refused.address.split("?")[0].endswith("/pairs/1")
    assert 'role="alert"' in refused.source
    assert form.fields["alike"] not in keys_shown(refused)


def test_limits_ask_as_the_options_of_match_do(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/pairs/1?contrast=clear&colour_A=grey&margin=5%25&wash=together")
    options = ("--contrast", "clear", "--colour", "A=grey", "--margin", "5%", "--wash", "together")
    found = [one["key"] for one in lively.ask("match", HAT, *options)["proposals"]]
    assert keys_shown(page)
    assert set(keys_shown(page)) <= set(found)
    taken = lively_browser.presses(page.form("/pairs/aside"))
    assert "/item/" in taken.address
    aside = lively.ask("shelf", "--aside")
    mine = [one for one in aside if one["item"] == lively.ask("items")[-1]["number"]]
    need = lively.ask("need", HAT, "--margin", "5%")["roles"]
    assert sum(one["set_aside_m"] for one in mine if one["role"] == "B") == pytest.approx(
        need["B"]["set_aside_m"], abs=0.01
    )


def test_a_yarn_chosen_for_a_colour_is_taken_for_it(lively_browser: Browser, lively: Maker) -> None:
    skein = lively.ask("match", HAT)["proposals"][0]["roles"]["B"]["skeins"][0]["number"]
    found = lively.ask("match", HAT, "--with", f"B={skein}")["proposals"]
    page = lively_browser.opens(f"/pairs/1?with_B=no.%20{skein}")
    assert set(keys_shown(page)) <= {one["key"] for one in found}
    assert keys_shown(page)


def test_a_limit_that_cannot_be_read_is_said_and_stays_in_its_field(
    lively_browser: Browser,
) -> None:
    page = lively_browser.opens("/pairs/1?margin=lots")
    assert page.status == 200
    assert 'role="alert"' in page.source
    assert page.form("/pairs/1").fields["margin"] == "lots"


def test_where_nothing_fits_the_limit_that_keeps_most_out_can_be_dropped(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/pairs/1?contrast=bold&colour_A=purple&without=wool")
    assert "None on your shelf covers it" in page.text
    (words,) = (one for one in page.links if one.startswith("Without"))
    options = {
        "contrast": ("--contrast", "bold"),
        "the colour of A": ("--colour", "A=purple"),
        "the fibres left out": ("--without", "wool"),
    }
    counts = {
        name: len(
            lively.ask("match", HAT, *(x for n, o in options.items() if n != name for x in o))[
                "proposals"
            ]
        )
        for name in options
    }
    best = max(counts, key=lambda name: counts[name])
    assert words.startswith(f"Without {best}: {counts[best]} pair")
    assert keys_shown(lively_browser.opens(page.links[words]))


def test_what_almost_fits_lacks_what_match_says(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/pairs/1?almost=all")
    for miss in lively.ask("match", HAT)["near_misses"]:
        for blocker in miss["blockers"]:
            if blocker["kind"] == "lot_short" and not miss["holds_expected"]:
                there = re.search(r"has (\d+) m, (\d+) m short", blocker["words"])
                assert there
                assert f"{blocker['role']} lacks {there[2]} m" in page.text
                assert f"{there[1]} of {int(there[1]) + int(there[2])} m" in page.text


def near_with(maker: Maker, kind: str) -> tuple[str, dict[str, Any]]:
    for miss in maker.ask("match", HAT)["near_misses"]:
        for fix in miss["fixes"]:
            if fix["kind"] == kind:
                return "+".join(one["lot_ref"] for one in miss["roles"].values()), fix
    raise AssertionError(kind)


def test_a_fix_opens_the_changed_design_with_that_pair_first_and_is_saved(
    lively_browser: Browser, lively: Maker
) -> None:
    key, _ = near_with(lively, "narrower_bands")
    page = lively_browser.opens(f"/pairs/1?fix=narrower_bands&of={quote(key)}")
    assert cards(page)[0].startswith("1.") or "1." in cards(page)[0]
    form = page.form("/pairs/save")
    saved = lively_browser.presses(form, name="Narrow hat")
    assert "Saved the design Narrow hat." in saved.text
    assert any(one["design"] == "Narrow hat" for one in lively.ask("design", "list"))
    changed = lively_browser.presses(page.form("/pairs/save", how="change"))
    assert keys_shown(changed)[0] == key
    assert key in [one["key"] for one in lively.ask("match", HAT, "--all")["proposals"]]


def taken_for(maker: Maker, item: int) -> set[tuple[str, int, float]]:
    aside = [one for one in maker.ask("shelf", "--aside") if one["item"] == item]
    return {(one["role"], one["skein"], one["set_aside_m"]) for one in aside}


def sets_pressed(page: Page, name: str = "set") -> list[str]:
    """The keys that the buttons of a changed design set aside."""
    return re.findall(rf'<button form="save-change" name="{name}" value="([^"]+)"', page.source)


def test_a_changed_design_is_saved_and_set_aside_in_one_entry_and_undone_whole(
    lively_browser: Browser, lively: Maker
) -> None:
    key, _ = near_with(lively, "narrower_bands")
    page = lively_browser.opens(f"/pairs/1?fix=narrower_bands&of={quote(key)}")
    form, before = page.form("/pairs/save"), lively.entries()
    assert sets_pressed(page)[0] == key
    done = lively_browser.presses(form, set=key)
    name = form.fields["name"]
    assert lively.entries() == before + 1
    item = lively.ask("items")[-1]
    assert item["design"] == name
    assert f"/item/{item['number']}" in done.address
    assert f"Saved the design {name}. Set aside for item {item['number']}" in done.text
    assert f"Saved the design {name}; " in lively.does("log").out
    undone = lively_browser.presses(done.form("/undo"))
    assert undone.status == 200, "the page of what is gone leads to its place"
    assert "Undone" in undone.text
    assert name not in [one["design"] for one in lively.ask("design", "list")]
    assert not taken_for(lively, item["number"])
    assert lively.ask("check")["ok"]


def test_what_is_set_aside_of_a_changed_design_is_what_the_page_asked_for(
    lively_browser: Browser, lively: Maker
) -> None:
    key, _ = near_with(lively, "narrower_bands")
    page = lively_browser.opens(f"/pairs/1?fix=narrower_bands&of={quote(key)}")
    lively_browser.presses(page.form("/pairs/save"), set=key, name="Narrow hat")
    taken = taken_for(lively, lively.ask("items")[-1]["number"])
    for role in ("A", "B"):
        asked = sum(m for of, _, m in taken if of == role)
        assert f"{math.ceil(asked - 1e-3)} m of {role}" in page.text


def test_a_changed_design_with_given_figures_is_saved_and_set_aside_alike(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1, 92g left")
    nobody.does("add", "Fell Wool worsted 100g/200m, rust, lot 2, 30g left")
    plan = ("--shape", "round hat", "--size", "woman", "--gauge", "14 sts x 11 rows")
    figures = ("--stated", "A=150m", "--stated", "B=60m", "--fabric", "1 hdc", "--thickness", "4")
    nobody.does("design", "add", "hat", *plan, *figures, "--band", "B 6cm bottom")
    misses = nobody.ask("match", "hat")["near_misses"]
    assert any(fix["kind"] == "narrower_bands" for miss in misses for fix in miss["fixes"])
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/pairs/1?fix=narrower_bands&of=L1%2BL2")
        saved = browser.presses(page.form("/pairs/save"), name="Saved first")
        assert "Saved the design Saved first" in saved.text
        page = browser.opens("/pairs/1?fix=narrower_bands&of=L1%2BL2")
        before = nobody.entries()
        browser.presses(page.form("/pairs/save"), name="At once", set="L1+L2")
        assert nobody.entries() == before + 1
    first, at_once = nobody.ask("need", "Saved first"), nobody.ask("need", "At once")
    assert first == at_once
    nobody.does("undo", "--yes")
    assert [one["design"] for one in nobody.ask("design", "list")] == ["hat", "Saved first"]


def test_a_name_that_is_taken_saves_and_sets_aside_nothing(
    lively_browser: Browser, lively: Maker
) -> None:
    key, _ = near_with(lively, "narrower_bands")
    page = lively_browser.opens(f"/pairs/1?fix=narrower_bands&of={quote(key)}")
    before = lively.entries()
    refused = lively_browser.presses(page.form("/pairs/save"), set=key, name="Pebble cowl")
    assert lively.entries() == before
    assert refused.form("/pairs/save").fields["name"] == "Pebble cowl"
    assert 'role="alert"' in refused.source


def test_a_fix_of_the_wish_is_in_the_address(lively_browser: Browser, lively: Maker) -> None:
    key, fix = near_with(lively, "lower_margin")
    page = lively_browser.opens("/pairs/1")
    share = f"{100 * fix['margin']:g}%"
    link = f"/pairs/1?margin={quote(share)}&first={quote(key)}"
    assert link in page.links.values()
    fixed = lively_browser.opens(link)
    assert keys_shown(fixed)[0] == key
    found = lively.ask("match", HAT, "--margin", share, "--all")
    assert key in [one["key"] for one in found["proposals"]]


def test_a_second_lot_is_used_too_by_its_button(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1, 30g left")
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 2, 60g left")
    plan = ("--shape", "round hat", "--size", "woman", "--gauge", "14 sts x 11 rows")
    nobody.does("design", "add", "hat", *plan, "--fabric", "1 hdc", "--thickness", "4")
    misses = nobody.ask("match", "hat")["near_misses"]
    ways = {fix["way"] for miss in misses for fix in miss["fixes"] if fix["kind"] == "second_lot"}
    assert ways
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/pairs/1?almost=all")
        links = [to for to in page.links.values() if "two_lots=" in to]
        assert links
        fixed = browser.opens(links[0])
        assert any("/" in key for key in keys_shown(fixed))
        done = browser.presses(fixed.form("/pairs/aside"))
        assert "/item/1" in done.address
        assert {one["skein"] for one in nobody.ask("shelf", "--aside")} == {1, 2}


def test_yarn_to_buy_leads_to_the_same_again(lively_browser: Browser, lively: Maker) -> None:
    key, fix = near_with(lively, "more_skeins")
    page = lively_browser.opens("/pairs/1?almost=all")
    words = f"Buy {fix['count']} skein"
    (to, *_) = (to for said, to in page.links.items() if said.startswith(words))
    assert to.startswith("/add?like=")
    skein = lively.skein(int(to.removeprefix("/add?like=")))
    assert skein["lot_ref"] in key.split("+")


def test_of_a_fix_of_several_steps_each_leads_to_where_it_is_done(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK 50g/120m, navy, lot 1, 10g left")
    nobody.does("add", "Marlpit worsted 100g, rust, lot 2")
    plan = ("--stated", "A=100m", "--stated", "B=40m", "--thickness", "4")
    nobody.does("design", "add", "hat", *plan)
    asked = ("match", "hat", "--with", "A=1", "--with", "B=2")
    assert [one["kind"] for one in nobody.ask(*asked)["near_misses"][0]["fixes"]] == ["all_of"]
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/pairs/1?with_A=1&with_B=2")
        steps = re.findall(r"<li><b>(A|B)</b> (.*?)</li>", page.source, re.DOTALL)
        assert [role for role, _ in steps] == ["A", "A", "B"]
        links = [re.findall(r'<a href="(.*?)">(.*?)</a>', words) for _, words in steps]
        assert ("/settings", "Allow one thickness more") in links[0] + links[1]
        assert "Buy 1 skein" in str(links[0] + links[1])
        assert links[2] == [("/lot/2", "Look up its length")]
        for to, _ in [link for each in links for link in each]:
            assert browser.opens(unescaped(to)).status == 200


def test_a_fix_that_is_gone_is_said(lively_browser: Browser) -> None:
    page = lively_browser.opens("/pairs/1?fix=no_brim&of=L1%2BL2")
    assert "no longer a way to make it fit" in page.text


@pytest.fixture
def alike(nobody: Maker) -> Maker:
    """Two navies that nobody can tell apart, and an oatmeal that costs more to take."""
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1, 90g left")
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 2, 90g left")
    nobody.does("add", "Fell Wool worsted 100g/200m, oatmeal, lot 3")
    nobody.does(
        "design", "add", "hat", "--stated", "A=100m", "--stated", "B=30m", "--thickness", "4"
    )
    return nobody


def test_colours_that_look_alike_are_asked_about_and_the_answers_are_buttons(alike: Maker) -> None:
    for browser in at_the_page_of(alike.file):
        page = browser.opens("/pairs/1")
        assert "look alike" in cards(page)[0]
        before = alike.entries()
        asked = browser.presses(page.form("/pairs/aside"))
        assert alike.entries() == before
        buttons = [form for form in asked.forms("/pairs/aside") if form.fields["key"]]
        chosen = next(form for form in buttons if "L3" in form.fields["key"])
        done = browser.presses(chosen)
        assert "/item/1" in done.address
        assert alike.entries() == before + 1


def test_a_changed_design_whose_colours_look_alike_is_asked_about_too(alike: Maker) -> None:
    plan = ("--shape", "round hat", "--size", "woman", "--fabric", "1 hdc", "--thickness", "4")
    figures = ("--stated", "A=150m", "--stated", "B=60m")
    alike.does("design", "add", "banded", *plan, *figures, "--band", "B 6cm bottom")
    alike.does("gone", "3", "--why", "given")
    alike.does("weigh", "2", "30g")
    kinds = [
        (fix["kind"], "+".join(one["lot_ref"] for one in miss["roles"].values()))
        for miss in alike.ask("match", "banded")["near_misses"]
        for fix in miss["fixes"]
    ]
    of = next(key for kind, key in kinds if kind == "narrower_bands" and key in ("L1+L2", "L2+L1"))
    for browser in at_the_page_of(alike.file):
        page = browser.opens(f"/pairs/2?fix=narrower_bands&of={quote(of)}")
        assert of in sets_pressed(page, "alike")
        before = alike.entries()
        asked = browser.presses(page.form("/pairs/save"), alike=of)
        assert alike.entries() == before
        done = browser.presses(asked.form("/pairs/save", key=of))
        assert "/item/1" in done.address
        assert alike.entries() == before + 1


def test_what_only_some_eyes_confuse_is_said_once_in_plain_words(lively: Maker) -> None:
    """Her own eyes are marked on the card, once she has set them; others' are one line for all."""
    for browser in at_the_page_of(lively.file):
        page = browser.opens("/pairs/1?cards=24")
        found = {one["key"]: one for one in lively.ask("match", HAT, "--top", "60")["proposals"]}
        shown = [found[key] for key in keys_shown(page)]
        some = [one for one in shown if any(pair["look_alike_to"] for pair in one["pairs"])]
        assert page.text.count("Some eyes may not tell the") == (1 if some else 0)
        assert not re.search(r"deutan|protan|tritan", page.text)
        assert not any("may look alike" in card for card in cards(page))
        lively.does("settings", "colour vision", "deutan")
        hers = browser.opens("/pairs/1?cards=24")
        for key, card in zip(keys_shown(hers), cards(hers), strict=True):
            told = {who for pair in found[key]["pairs"] for who in pair["look_alike_to"]}
            assert ("may look alike to you (deutan)" in card) == ("deutan" in told)
        assert "Some eyes" not in hers.text


def test_an_order_that_a_set_would_leave_short_is_named_on_its_card_and_after(
    nobody: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(ordered, "_PATIENCE_S", 60)  # on a busy machine too
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    nobody.does("design", "add", "cap", "--stated", "A=150m", "--thickness", "4")
    nobody.does("order", "add", "for Friday", "cap", "--by", "2999-12-12")
    said = nobody.does("match", "cap").err
    assert "order 1" in said
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/pairs/1")
        assert "this leaves order 1" in page.text
        done = browser.presses(page.form("/pairs/aside"))
        assert "This leaves order 1 (for Friday)" in done.text


def test_one_colour_and_three_colours_have_their_own_words(lively: Maker) -> None:
    three = ("--band", "B 3cm bottom", "--band", "C 2cm middle")
    plan = ("--shape", "round hat", "--size", "woman", "--fabric", "1 hdc", "--thickness", "DK")
    lively.does("design", "add", "Striped hat", *plan, *three)
    for browser in at_the_page_of(lively.file):
        one = browser.opens("/pairs/Ridge%20headband")
        assert "Yarn for Ridge headband" in one.text
        sets = browser.opens("/pairs/Striped%20hat")
        assert "Sets for Striped hat" in sets.text
        found = {p["key"]: p for p in lively.ask("match", "Striped hat")["proposals"]}
        need = lively.ask("need", "Striped hat")
        for key, card in zip(keys_shown(sets), cards(sets), strict=True):
            says_what_is_free(card, found[key], need, 1, "m")


HOSTILE = ("<script>alert(1)</script>", "x" * 200, "\u202eevil", "snow \u2603 \U0001f9f6")


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_only_names(alike: Maker, name: str) -> None:
    alike.does("design", "copy", "hat", name)
    alike.does("change", "3", "--colour", name)
    for browser in at_the_page_of(alike.file):
        page = browser.opens("/pairs/2")
        assert page.status == 200
        assert "<script>alert" not in page.source
        assert "style=" not in page.source


def test_an_empty_shelf_says_so(nobody: Maker) -> None:
    nobody.does("design", "add", "hat", "--stated", "A=100m", "--thickness", "4")
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/pairs/1")
        assert "None on your shelf covers it" in page.text


@pytest.fixture
def somebody(lively: Maker) -> Iterator[Browser]:
    yield from at_the_page_of(lively.file)


def test_the_list_to_pick_is_that_of_aside(somebody: Browser, lively: Maker) -> None:
    made = lively.ask("aside", HAT, "--contrast", "clear")
    page = somebody.opens(f"/pick/{made['item']}")
    places = [one["place"] for one in made["places"]]
    assert re.findall(r"<h2>(.*?)</h2>", page.source) == places
    for place in made["places"]:
        for skein in place["skeins"]:
            row = rf"no\. {skein['number']} {skein['role']} {math.ceil(skein['take_m'] - 1e-3)} m"
            assert re.search(row, page.text)
