"""One currency a file: learnt once, and fixed while prices are kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, a_line, aside, refuses

from stash.actions import add, change, clock, done, log, sold
from stash.actions.book import Book
from stash.actions.change import Changes
from stash.actions.done import Known
from stash.actions.settings import change_setting, read_settings
from stash.measures.mass import grams
from stash.measures.money import Money


@pytest.fixture
def book(tmp_path: Path) -> Book:
    made = a_book(tmp_path)
    add.receive(made, [a_line()])
    return made


def currency(book: Book) -> str:
    return read_settings(book).currency


def test_the_first_price_that_names_a_currency_sets_it(book: Book) -> None:
    change.change(book, ["1"], Changes(paid=Money(299), currency="USD"))

    assert currency(book) == "USD"


def test_a_sale_sets_it_in_its_own_entry(book: Book) -> None:
    a_design(book, A=60)
    done.done(book, {str(aside(book, A=1)): Known(left={"1": grams(70)})}, on=clock.today())

    assert sold.sell(book, {"1": sold.Price(Money(2800))}, currency="AUD")[0].currency == "AUD"
    assert currency(book) == "AUD"
    log.undo(book)
    assert currency(book) == ""


@pytest.mark.parametrize("priced", ["skein", "wage"])
def test_the_currency_changes_only_while_no_price_is_kept(book: Book, priced: str) -> None:
    change_setting(book, "currency", "EUR")
    change_setting(book, "currency", "GBP")
    if priced == "skein":
        change.change(book, ["1"], Changes(paid=Money(299)))
    else:
        change_setting(book, "wage", "1500")

    for value in ("USD", None):
        with refuses("prices_kept_in_currency", known="GBP"):
            change_setting(book, "currency", value)
    assert currency(book) == "GBP"


def test_a_gift_is_no_price_in_any_currency(book: Book) -> None:
    change_setting(book, "currency", "EUR")
    change.change(book, ["1"], Changes(paid=Money(0)))

    change_setting(book, "currency", "GBP")

    assert currency(book) == "GBP"


def test_a_second_currency_is_never_added_to_the_first(book: Book) -> None:
    add.receive(book, [a_line(paid=Money(350))], habits={"currency": "USD"})

    with refuses("other_currency_kept", known="USD"):
        add.receive(book, [a_line(paid=Money(350))], habits={"currency": "GBP"})


def test_prices_in_hundredths_are_not_taken_for_whole_yen(book: Book) -> None:
    change.change(book, ["1"], Changes(paid=Money(299)))

    with refuses("other_digits_kept", currency="JPY", digits=0):
        change_setting(book, "currency", "JPY")
    change_setting(book, "currency", "EUR")
