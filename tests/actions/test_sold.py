"""Sales: facts beside the state of an item, taken back like everything else."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from books import a_book, a_design, add, aside, refuses

from stash.actions import check, clock, done, export, log, show, sold, unravel
from stash.actions.book import Book
from stash.actions.done import Known
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.stock.item import ItemState
from stash.stock.sale import SaleKind

PRICE, FEE = Money(2800), Money(120)


def ago(days: int) -> date:
    return clock.today() - timedelta(days=days)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Item 1 of a hat is done, five days ago."""
    made = a_book(tmp_path)
    add(made, count=2)
    a_design(made, A=60)
    item = aside(made, A=1)
    done.done(made, {str(item): Known(left={"1": grams(70)})}, on=clock.today())
    return made


def test_a_sale_stands_beside_the_state(book: Book) -> None:
    sold.sell(book, {"1": sold.Price(PRICE, FEE)})
    story = show.item_story(book, "1")

    assert story.item.state is ItemState.DONE
    assert [(s.kind, s.price, s.fee) for s in story.sales] == [(SaleKind.SOLD, PRICE, FEE)]
    assert check.check(book) == []


def test_only_what_is_done_and_hers_can_be_sold(book: Book) -> None:
    begun = aside(book, A=2)
    with refuses("only_done_is_sold"):
        sold.sell(book, {str(begun): sold.Price(PRICE)})
    sold.sell(book, {"1": sold.Price(PRICE)})
    with refuses("item_is_sold"):
        sold.sell(book, {"1": sold.Price(PRICE)})


def test_what_came_back_can_be_sold_again(book: Book) -> None:
    sold.sell(book, {"1": sold.Price(PRICE, FEE)})
    sold.take_back(book, ["1"], Money(20))
    sold.sell(book, {"1": sold.Price(Money(2500))})
    sales = show.item_story(book, "1").sales

    assert [s.kind.value for s in sales] == ["sold", "returned", "sold"]
    assert [(s.price.coins, s.fee.coins) for s in sales] == [(2800, 120), (2800, 20), (2500, 0)]
    assert check.check(book) == []


def test_what_was_not_sold_cannot_come_back(book: Book) -> None:
    with refuses("item_not_sold"):
        sold.take_back(book, ["1"])
    with refuses("sold_item", asked="hat"):
        sold.take_back(book, ["hat"])


def test_no_more_of_a_fee_comes_back_than_was_paid_and_no_fee_is_above_the_price(
    book: Book,
) -> None:
    with refuses("fee_above_price"):
        sold.sell(book, {"1": sold.Price(FEE, PRICE)})
    sold.sell(book, {"1": sold.Price(PRICE, FEE)})
    with refuses("fee_back_above_fee"):
        sold.take_back(book, ["1"], Money(121))


def test_a_design_names_its_only_item_that_can_be_meant(book: Book) -> None:
    assert sold.sell(book, {"Hat": sold.Price(PRICE)})[0].item.number == 1
    with refuses("unsold_item"):
        sold.sell(book, {"hat": sold.Price(PRICE)})
    assert sold.take_back(book, ["hat"])[0].item.number == 1
    second = aside(book, A=2)
    done.done(book, {str(second): Known(left={"2": grams(70)})})
    with refuses("ambiguous", readings=("1", "2")):
        sold.sell(book, {"hat": sold.Price(PRICE)})


def test_a_sale_lies_on_or_after_the_day_of_what_was_before_it(book: Book) -> None:
    with refuses("dated_before_last_step", step="done"):
        sold.sell(book, {"1": sold.Price(PRICE)}, on=ago(1))
    sold.sell(book, {"1": sold.Price(PRICE)})
    with refuses("dated_before_last_step", step="sold"):
        sold.take_back(book, ["1"], on=ago(1))


def test_a_sold_item_is_not_unravelled(book: Book) -> None:
    sold.sell(book, {"1": sold.Price(PRICE)})
    with refuses("item_is_sold"):
        unravel.unravel(book, ["1"])
    sold.take_back(book, ["1"])
    assert unravel.unravel(book, ["1"])[0].item.state is ItemState.UNRAVELLED


def test_a_sale_is_taken_back_and_stands_in_the_way_of_what_it_rests_on(book: Book) -> None:
    sale = sold.sell(book, {"1": sold.Price(PRICE)})[0].sale.entry
    with refuses("in_the_way", later=(sale,)):
        log.undo(book, sale - 1)
    back = sold.take_back(book, ["1"])[0].sale.entry
    with refuses("in_the_way", later=(back,)):
        log.undo(book, sale)

    assert log.undo(book)[1].number == back
    assert log.undo(book)[1].number == sale
    assert show.item_story(book, "1").sales == ()
    assert sold.sell(book, {"1": sold.Price(PRICE)})[0].item.number == 1
    assert check.check(book) == []


def test_sales_go_out_and_come_in_with_the_whole_file(book: Book, tmp_path: Path) -> None:
    sold.sell(book, {"1": sold.Price(PRICE, FEE)})
    (tmp_path / "other").mkdir()
    other = a_book(tmp_path / "other")

    export.take_in_whole(other, export.whole_file(book))

    assert show.item_story(other, "1").sales == show.item_story(book, "1").sales
    assert show.item_story(other, "1").sales


def test_a_check_finds_sales_that_cannot_be(book: Book) -> None:
    sold.sell(book, {"1": sold.Price(PRICE)})
    with book.file.writing() as db:
        db.exec_driver_sql("DROP TRIGGER guard_sale_update")
        db.exec_driver_sql("UPDATE sale SET kind = 'returned'")

    assert "sales_out_of_turn" in {finding.kind for finding in check.check(book)}
