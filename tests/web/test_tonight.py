"""Tonight: what the page shows is what `ideas` and `items` say."""

import re

from commands import Maker
from pages import Browser, at_the_page_of


def test_the_ideas_are_the_first_of_the_command_with_their_yarns(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/")
    able = [one for one in lively.ask("ideas")["designs"] if one["proposal"]]
    shown = [form.fields for form in page.forms("/aside")]
    assert [(one["design"], one["key"]) for one in shown] == [
        (one["design"], one["proposal"]["key"]) for one in able[:3]
    ]
    for one in able[:3]:
        for role in one["proposal"]["roles"].values():
            assert all(str(skein["number"]) in page.text for skein in role["skeins"])


def test_an_idea_is_drawn_in_the_colours_of_its_yarns(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/")
    best = lively.ask("ideas")["designs"][0]["proposal"]
    lots = {lot["lot_ref"]: lot for lot in lively.ask("shelf")}
    for role in best["roles"].values():
        for colour in lots[role["lot_ref"]]["colours_hex"]:
            assert colour in page.source


def test_setting_aside_is_one_press_and_can_be_undone_in_one(
    lively_browser: Browser, lively: Maker
) -> None:
    before = lively.entries()
    page = lively_browser.opens("/")
    form = page.forms("/aside")[0]
    done = lively_browser.presses(form)
    assert done.address.split("?")[0].endswith("/item/6")
    assert "Set aside for item 6" in done.text
    assert lively.entries() == before + 1
    undone = lively_browser.presses(done.form("/undo"))
    assert "Undone" in undone.text
    assert lively.entries() == before + 2
    assert all(one["number"] != 6 for one in lively.ask("items"))


def test_of_two_pages_the_second_gets_the_truth(lively_browser: Browser, lively: Maker) -> None:
    form = lively_browser.opens("/").forms("/aside")[0]
    proposal = next(
        one for one in lively.ask("ideas")["designs"] if one["design"] == form.fields["design"]
    )["proposal"]
    for role in proposal["roles"].values():
        for skein in role["skeins"]:
            lively.does("gone", str(skein["number"]), "--why", "given")
    refused = lively_browser.presses(form)
    assert 'role="alert"' in refused.source
    assert all(one["number"] != 6 for one in lively.ask("items"))


def test_what_is_under_way_says_how_much_is_used(lively_browser: Browser, lively: Maker) -> None:
    lively.does("weigh", "36", "60g")
    page = lively_browser.opens("/")
    used = sum(
        -move["change_g"] for move in lively.ask("show", "item", "2")["movements"]
        if move["kind"] == "use"
    )  # fmt: skip
    assert re.search(rf"\b{used:g} of about \d+(\.\d)? g used", page.text)


def test_an_empty_shelf_says_what_to_do(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK 50g/120m, navy")
    nobody.does("gone", "1", "--why", "given")
    for browser in at_the_page_of(nobody.file):
        page = browser.opens("/")
        assert page.links["Add yarn"] == "/add"


def test_without_designs_one_is_begun(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK 50g/120m, navy")
    for browser in at_the_page_of(nobody.file):
        assert browser.opens("/").links["Begin a design"] == "/designs"
