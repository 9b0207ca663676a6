"""The market and the items: what the commands say, and papers to print."""

import re

from commands import Maker
from pages import Browser


def test_what_is_for_sale_is_what_is_done_and_unsold(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/market")
    unsold = [one["number"] for one in lively.ask("items", "--unsold")]
    shown = [int(to.split("/")[-1]) for to in page.links.values() if to.startswith("/item/")]
    assert shown == unsold


def test_sales_are_those_of_the_report(lively_browser: Browser, lively: Maker) -> None:
    page, told = lively_browser.opens("/market"), lively.ask("sales")
    assert f"{told['totals']['price']:.2f}" in page.text
    assert "item 1, Tidewrack hat" in page.text
    assert f"Sold, in {told['currency']}" in page.text


def test_an_order_stands_there_until_it_is_filled(lively_browser: Browser, lively: Maker) -> None:
    by = ("--by", "2030-12-12", "--price", "32")
    lively.does("order", "add", "a neighbour", "Tidewrack hat", *by)
    assert "a neighbour" in lively_browser.opens("/market").text
    lively.does("order", "drop", "1")
    assert "No open orders." in lively_browser.opens("/market").text


def test_the_items_are_those_of_the_list(lively_browser: Browser, lively: Maker) -> None:
    for which in ("all", "open", "sold"):
        page = lively_browser.opens(f"/items?which={which}")
        told = lively.ask("items", *([] if which == "all" else [f"--{which}"]))
        shown = [int(n) for n in re.findall(r"/item/(\d+)", page.source)]
        assert shown == [one["number"] for one in told][::-1]
