"""Everything at cost on a day, through a real file: answer keys, and what must always balance."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from books import a_book, a_design, a_line, add, aside, g, refuses

from stash.actions import (
    add as add_action,
)
from stash.actions import (
    clock,
    done,
    log,
    log_sum,
    sold,
    unravel,
    use,
    value,
)
from stash.actions.book import Book
from stash.actions.done import Known
from stash.actions.settings import change_setting
from stash.costing.pools import Method
from stash.costing.valuation import Where
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.stock.movement import Kind

#: "Accounting Principles: A Business Perspective" (Global Text, CC BY 3.0), pp. 290-293: units
#: bought on a day at a price each (a unit is a gram here), and those sold, by the purchase that
#: specific identification takes them from: 10 of August and 10 of December stay.
BOUGHT = [
    (date(2024, 12, 31), 800, 10), (date(2025, 3, 2), 850, 10), (date(2025, 5, 28), 840, 20),
    (date(2025, 8, 12), 900, 10), (date(2025, 10, 12), 880, 20), (date(2025, 12, 21), 910, 10),
]  # fmt: skip
SOLD = [
    (date(2025, 3, 10), 1, 10), (date(2025, 7, 14), 3, 20), (date(2025, 9, 7), 2, 10),
    (date(2025, 11, 22), 5, 20),
]  # fmt: skip
END = date(2025, 12, 31)


@pytest.fixture
def textbook(tmp_path: Path) -> Book:
    made = a_book(tmp_path)
    for day, cents, units in BOUGHT:
        line = a_line(full_mass=grams(units), paid=Money(cents * units))
        add_action.receive(made, [line], on=day)
    for day, skein, units in SOLD:
        use.gone(made, str(skein), g(units), Kind.SOLD, on=day)
    return made


@pytest.mark.parametrize(
    ("method", "closing", "gone"),
    [
        (Method.SPECIFIC, 181_00, 509_00),
        (Method.FIFO, 179_00, 511_00),
        # perpetual moving average, computed from the exhibit: 178.583333 and 511.416667
        (Method.AVERAGE, 178_58, 511_42),
    ],
)
def test_the_textbook_example_to_the_cent(
    textbook: Book, method: Method, closing: int, gone: int
) -> None:
    """Exhibits 50-56 of the textbook above: 80 units at 690.00, of which 20 are left."""
    found = value.value(textbook, END, method=method).valuation

    assert found.closing.stock.cost == Money(closing)
    assert found.gone.cost == Money(gone)
    assert found.opening.stock.cost == Money(80_00)
    assert found.bought.cost == Money(610_00)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """100 g at 10.00, 100 g at 16.00, and a hat of 30 g of the second that was done on a day."""
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(paid=Money(1000)), a_line(paid=Money(1600))], on=ago(20))
    a_design(made, A=40)
    aside(made, A=2)
    done.done(made, {"1": Known(left={"2": grams(70)})}, on=ago(10))
    return made


def ago(days: int) -> date:
    return clock.today() - timedelta(days=days)


def on_the_way(book: Book, days: int, method: Method = Method.SPECIFIC) -> dict[str, int]:
    """The cost of yarn and of items by where they stood, so many days ago."""
    worth = value.value(book, ago(days), ago(30), method).valuation.closing
    return {
        "stock": worth.stock.cost.coins,
        **{where.value: worth.of(where).cost.coins for where in Where if worth.of(where)},
    }


def test_an_item_is_worth_its_yarn_until_it_is_sold_and_again_when_it_is_back(
    book: Book,
) -> None:
    """By hand: 30 g of 100 g at 16.00 are 4.80."""
    sold.sell(book, {"1": sold.Price(Money(2800), Money(120))}, on=ago(6))
    sold.take_back(book, ["1"], on=ago(2))

    assert on_the_way(book, 11) == {"stock": 2600}
    assert on_the_way(book, 10) == {"stock": 2120, "finished": 480}
    assert on_the_way(book, 6) == {"stock": 2120, "sold": 480}
    assert on_the_way(book, 2) == {"stock": 2120, "finished": 480}
    found = value.value(book, ago(6), ago(7))
    assert (found.takings, found.fees) == (Money(2800), Money(120))
    assert found.valuation.went_to(Where.SOLD) == Money(480)


def test_by_fifo_the_same_hat_is_of_the_yarn_that_came_first(book: Book) -> None:
    """By hand: 30 g of the 100 g at 10.00 are 3.00, of 200 g at 26.00 3.90."""
    assert on_the_way(book, 10, Method.FIFO) == {"stock": 2300, "finished": 300}
    assert on_the_way(book, 10, Method.AVERAGE) == {"stock": 2210, "finished": 390}


def test_yarn_under_way_is_told_apart_from_what_is_finished(book: Book) -> None:
    aside(book, A=1)
    use.use(book, "1", g(10), item="2", on=ago(3))

    assert on_the_way(book, 3) == {"stock": 2020, "finished": 480, "under way": 100}


@pytest.mark.parametrize("method", [*Method])
def test_unravelled_yarn_comes_back_at_what_it_left_at_and_the_rest_is_lost(
    book: Book, method: Method
) -> None:
    before = on_the_way(book, 10, method)
    unravel.unravel(book, ["1"], back=grams(15), on=ago(1))
    after = on_the_way(book, 1, method)

    assert after["unravelled"] == before["finished"] / 2
    assert after["stock"] == before["stock"] + before["finished"] / 2


def test_specific_is_what_the_log_sums_up(book: Book) -> None:
    use.gone(book, "1", g(7), Kind.LOST, on=ago(4))
    found = value.value(book, ago(4), ago(10)).valuation
    summed = log_sum.log_sum(book, ago(10), ago(4)).whole

    assert found.closing.stock.cost == summed.closing.cost
    assert found.opening.stock.cost == summed.opening.cost


def test_what_was_taken_back_never_happened(book: Book) -> None:
    before = on_the_way(book, 0)
    sold.sell(book, {"1": sold.Price(Money(2800))})
    log.undo(book)

    assert on_the_way(book, 0) == before


def test_unknown_prices_make_it_at_least_and_name_the_skeins(book: Book) -> None:
    add(book, name="Ottermeade")
    found = value.value(book)

    assert not found.valuation.closing.whole.all_priced
    assert found.unpriced == (3,)


def test_a_span_must_not_end_before_it_begins(book: Book) -> None:
    with refuses("span_backwards", first=ago(4), last=ago(5)):
        value.value(book, ago(5), ago(4))


def test_one_method_a_year(book: Book, monkeypatch: pytest.MonkeyPatch) -> None:
    chosen = change_setting(book, "valuation", "fifo")
    assert chosen is not None
    with refuses("method_chosen_already", entry=chosen):
        change_setting(book, "valuation", "average")
    assert value.value(book).valuation.method is Method.FIFO
    assert value.value(book, date(clock.today().year - 1, 12, 31)).kept_by is Method.SPECIFIC

    later = date(clock.today().year + 1, 3, 1)
    monkeypatch.setattr(clock, "today", lambda: later)
    change_setting(book, "valuation", "average")
    assert value.value(book).kept_by is Method.AVERAGE
    assert value.value(book, date(later.year - 1, 12, 31)).kept_by is Method.FIFO


def test_a_choice_that_is_taken_back_can_be_made_again(book: Book) -> None:
    change_setting(book, "valuation", "fifo")
    log.undo(book)
    change_setting(book, "valuation", "average")

    assert value.value(book).kept_by is Method.AVERAGE


@pytest.mark.parametrize("method", list(Method))
def test_the_sum_of_the_log_closes_at_the_value_of_the_day(textbook: Book, method: Method) -> None:
    """One figure, one method: that of the year (the textbook's three closing stocks)."""
    change_setting(textbook, "valuation", method.value)

    summed = log_sum.log_sum(textbook, date(2025, 1, 1))

    there = value.value(textbook, first=date(2025, 1, 1)).valuation
    assert summed.method is method
    assert summed.whole.closing.cost == there.closing.stock.cost
    assert summed.whole.opening.cost == there.opening.stock.cost
