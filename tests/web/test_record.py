"""The record on the page: what was done, and undoing it."""

import re

import pytest
from commands import Maker
from pages import Browser, Page
from rooms import Room

from stash.rendering.log import SORTS


def test_the_record_says_what_the_log_says(browser: Browser, demo: Maker) -> None:
    page = browser.opens("/record")
    for entry in demo.ask("log"):
        words = entry["words"]
        assert words[:1].upper() + words[1:] in page.text


def test_undo_asks_in_its_row_and_cancels_that_entry(browser: Browser, demo: Maker) -> None:
    asked = browser.opens("/record?undo=6")
    assert "Undo entry 6?" in asked.text
    done = browser.presses(asked.form("/undo", entry="6"))
    assert "Undone: item 1, Tidewrack hat, is done" in done.text
    assert demo.ask("log")[0]["takes_back"] == 6


def test_an_entry_that_later_ones_rest_on_says_what_must_go_first(
    browser: Browser, demo: Maker
) -> None:
    asked = browser.opens("/record?undo=3")
    assert not [form for form in asked.forms("/undo") if form.fields["entry"] == "3"]
    said = demo("undo", "3", "--yes")
    assert said.status == 4
    assert "undo 6, 5, 4 first" in said.err
    assert "undo 6, 5, 4 first" in asked.text
    assert asked.links["Look at 6"].endswith("undo=6#entry-6")


def test_an_entry_that_others_rest_on_by_now_is_refused_in_place(
    browser: Browser, demo: Maker
) -> None:
    form = browser.opens("/record?undo=6").form("/undo", entry="6")
    form.fields["entry"] = "3"
    refused = browser.presses(form)
    assert 'role="alert"' in refused.source
    assert demo.entries() == 6


def test_the_question_says_what_would_be_so_after(browser: Browser, demo: Maker) -> None:
    before = demo.skein(18)["held_g"]
    demo.does("weigh", "18", "12g")
    asked = browser.opens("/record?undo=7")
    assert f"Then no. 18 holds {round(before, 1):g} g instead of 12 g." in asked.text
    browser.presses(asked.form("/undo", entry="7"))
    assert demo.skein(18)["held_g"] == before


def test_looking_at_what_undo_would_do_writes_nothing(browser: Browser, demo: Maker) -> None:
    browser.opens("/record?undo=6")
    assert demo.entries() == 6
    assert demo.ask("show", "item", "1")["state"] == "done"


def shown(page: Page) -> list[int]:
    """The numbers of the entries on a page of the record."""
    return [int(one) for one in re.findall(r'<td class="number">(\d+)</td>', page.source)]


def told(maker: Maker, *which: str) -> list[int]:
    """Those that `stash log` says."""
    return [entry["number"] for entry in maker.ask("log", "--all", *which)]


def test_it_is_narrowed_to_kinds_by_links_as_the_log_is(browser: Browser, demo: Maker) -> None:
    demo.does("weigh", "18", "12g")
    demo.does("aside", "--note", "a cushion", "--skein", "17", "5g")
    demo.does("release", "2")
    page, every = browser.opens("/record"), []
    for words, commands in SORTS.items():
        narrowed = browser.opens(page.links[words])
        entries = told(demo, "--kind", ",".join(commands))
        assert shown(narrowed) == entries, words
        assert ("Nothing like that is recorded" in narrowed.text) is (not entries)
        every += entries
    assert sorted(every) == [*range(1, 10)], "every entry is of one sort"


def test_it_is_narrowed_to_a_device_by_links_as_the_log_is(room: Room, demo: Maker) -> None:
    assert "all devices" not in room.desk.opens("/record").text
    phone = room.phone("kitchen phone")
    phone.presses(phone.opens("/scale?skein=37").form("/weigh"), reading="20 g", **{"as": "opened"})
    page = room.desk.opens("/record")
    for device, numbers in (("kitchen phone", [7]), ("this computer", [*range(6, 0, -1)])):
        assert told(demo, "--device", device) == numbers
        assert shown(room.desk.opens(page.links[device])) == numbers
    both = room.desk.opens(room.desk.opens(page.links["kitchen phone"]).links["designs"])
    assert shown(both) == []
    assert both.links["all devices"] == "/record?kind=design"
    seen = phone.opens("/record")
    assert shown(phone.opens(seen.links["this phone"])) == [7]
    assert shown(phone.opens(seen.links["the computer"])) == [*range(6, 0, -1)]


def test_what_it_is_narrowed_to_stays_while_an_undo_is_asked_and_left(
    browser: Browser, demo: Maker
) -> None:
    demo.does("weigh", "18", "12g")
    page = browser.opens("/record?kind=weigh")
    asked = browser.opens(page.links["undo"])
    assert shown(asked) == shown(page) == [7, 5]
    assert asked.links["Leave it"] == "/record?kind=weigh"


@pytest.mark.parametrize("address", ["/record?kind=nonsense", "/record?device=nowhere"])
def test_an_address_with_no_such_kind_or_device_is_said_so(browser: Browser, address: str) -> None:
    page = browser.opens(address)
    assert page.status in (404, 422)
    assert "--" not in page.text


def test_a_second_press_of_a_form_writes_nothing_and_says_so(browser: Browser, demo: Maker) -> None:
    form = browser.opens("/record").form("/undo", entry="6")
    browser.presses(form)
    again = browser.presses(form)
    assert "the second press changed nothing" in again.text
    assert len(demo.ask("log")) == 7


def test_what_an_entry_names_by_its_number_is_a_link(browser: Browser, demo: Maker) -> None:
    demo.does("design", "add", "<b>item 9</b>", "--stated", "A=20m")
    page = browser.opens("/record")
    assert page.links["Item 1"] == "/item/1"
    assert page.links["Skein 35"] == "/skein/35"
    assert "<b>item" not in page.source.replace("&lt;b&gt;", "")
