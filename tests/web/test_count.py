"""Counting a place: as `count` counts it, one tick at a time, on any device."""

from urllib.parse import urlencode

import pytest
from commands import Maker
from pages import Browser, Form, Page

PLACE = "tin on the desk"
ADDRESS = f"/count?place={PLACE}"


def row(page: Page, action: str, skein: int, weighs: bool = False) -> Form:
    """The form of one skein: its box, or its field for a weight."""
    for form in page.forms(action):
        if form.fields.get("skein") == str(skein) and ("reading" in form.fields) is weighs:
            return form
    raise AssertionError(f"no form for skein {skein}")


def test_looking_begins_nothing(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens(ADDRESS)
    assert "5 to find, 0 found" in page.text
    assert lively("count", PLACE, "--drop").status == 3, "there is none to drop"


def test_a_tick_and_a_weight_move_a_skein_to_the_found(
    lively_browser: Browser, lively: Maker
) -> None:
    numbers = [one["number"] for one in lively.ask("count", PLACE)["skeins"]]
    first, second, *others = numbers
    page = lively_browser.presses(row(lively_browser.opens(ADDRESS), "/count/note", first))
    page = lively_browser.presses(row(page, "/count/note", second, weighs=True), reading="7")
    assert f"{len(others)} to find, 2 found" in page.text
    said = {one["number"]: one for one in lively.ask("count", PLACE)["skeins"]}
    assert {n for n, one in said.items() if one["seen"]} == {first, second}
    assert said[second]["reading_g"] == 7
    shown = [int(form.fields["skein"]) for form in page.forms("/count/note")[:-1:2]]
    assert shown[: len(others)] == others, "what is still to be found stands first"


def test_what_was_noted_at_the_terminal_stands_there(
    lively_browser: Browser, lively: Maker
) -> None:
    lively.does("count", PLACE, "--tick", "35")
    assert "4 to find, 1 found" in lively_browser.opens(ADDRESS).text
    assert "1 found" in lively_browser.opens("/count").text
    page = lively_browser.presses(row(lively_browser.opens(ADDRESS), "/count/unsee", 35))
    assert "5 to find, 0 found" in page.text
    assert lively.ask("count", PLACE)["open"] == 5


def test_closing_asks_in_place_and_leaves_them_or_loses_them(
    lively_browser: Browser, lively: Maker
) -> None:
    free = [one["number"] for one in lively.ask("count", PLACE)["skeins"] if not one["set_aside_g"]]
    every = [one["number"] for one in lively.ask("count", PLACE)["skeins"]]
    lost = free[0]
    for number in every:
        if number != lost:
            lively.does("count", PLACE, "--tick", str(number))
    page = lively_browser.opens(f"{ADDRESS}&close=yes")
    assert f"What about no. {lost}?" in page.text
    forms = page.forms("/count/close")
    assert [form.buttons for form in forms] == [["Leave as it is"], ["It is lost"]]
    done = lively_browser.presses(forms[1])
    assert f"lost: {lost}" in done.text
    assert lively.skein(lost)["held_g"] == 0
    lively_browser.presses(done.form("/undo"))
    assert lively.skein(lost)["held_g"] > 0
    again = lively_browser.presses(
        lively_browser.opens(f"{ADDRESS}&close=yes").forms("/count/close")[0]
    )
    assert f"missing, still listed: {lost}" in again.text


def test_nothing_is_lost_where_nobody_has_looked(lively_browser: Browser, lively: Maker) -> None:
    before = lively.ask("count", PLACE)
    page = lively_browser.opens(f"{ADDRESS}&close=yes")
    refused = lively_browser.presses(page.forms("/count/close")[1])
    assert 'role="alert"' in refused.source
    assert lively.ask("count", PLACE) == before


def test_one_from_elsewhere_is_ticked_by_its_number(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens(ADDRESS)
    page = lively_browser.presses(page.forms("/count/note")[-1], skein="36")
    assert "listed in sack under the bench" in page.text


def test_a_count_can_be_dropped(lively_browser: Browser, lively: Maker) -> None:
    lively.does("count", PLACE, "--tick", "35")
    done = lively_browser.presses(lively_browser.opens(ADDRESS).form("/count/drop"))
    assert f"Dropped the count of {PLACE}" in done.text
    assert "5 to find, 0 found" in lively_browser.opens(ADDRESS).text


@pytest.mark.parametrize("place", ["nowhere", "..", "<script>x</script>", "x" * 500])
def test_a_place_where_nothing_lies_is_not_found(lively_browser: Browser, place: str) -> None:
    page = lively_browser.opens("/count?place=" + place)
    assert page.status == 404
    assert "<script>x" not in page.source


@pytest.mark.parametrize("place", ["../etc", "<i>tin</i>", "ящик 🧶", "a/b?c=d&e"])
def test_any_name_is_a_place(lively_browser: Browser, lively: Maker, place: str) -> None:
    lively.does("change", "37", "--place", place)
    page = lively_browser.opens("/count")
    link = f"/count?{urlencode({'place': place})}"
    assert f'href="{link}"' in page.source
    page = lively_browser.presses(row(lively_browser.opens(link), "/count/note", 37))
    assert "0 to find, 1 found" in page.text
    assert "<i>tin" not in page.source


@pytest.mark.parametrize("typed", ["heavy", "-4", "7 m"])
def test_a_weight_that_cannot_be_read_is_said(
    lively_browser: Browser, lively: Maker, typed: str
) -> None:
    form = row(lively_browser.opens(ADDRESS), "/count/note", 35, weighs=True)
    page = lively_browser.presses(form, reading=typed)
    assert 'role="alert"' in page.source
    assert "0 found" in page.text
