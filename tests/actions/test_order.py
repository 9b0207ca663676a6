"""Orders in the books: taken in, changed, dropped, filled, and all of it undone."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path
from unittest.mock import patch

import pytest
from books import a_book, a_design, a_line, an_order, aside, refuses

from stash.actions import add as add_action
from stash.actions import aside as aside_action
from stash.actions import clock, done, order, sold
from stash.actions.book import Book
from stash.actions.change_item import ItemChanges, change_items
from stash.actions.log import log, undo
from stash.actions.order import ForOrder
from stash.actions.release import release
from stash.actions.settings import read_settings
from stash.errors import InTheWay, Undecided
from stash.measures.money import Money
from stash.stock.order import Order, OrderState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Yarn for several hats, and the design of one."""
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(count=3), a_line(colour="cream", lot="7", count=2)])
    a_design(made, A=60, B=20)
    return made


def kept(book: Book, number: int) -> Order:
    """An order as it stands."""
    return order.order_kept(book, number)


def an_item(book: Book, number: int | None = None) -> int:
    """One more hat with its yarn set aside, for an order."""
    chosen = {"A": [1, 2], "B": [4]}
    return aside_action.aside_own_choice(book, "hat", chosen, order=ForOrder(number)).item.number


def test_an_order_is_kept_as_it_was_typed_and_holds_no_yarn(book: Book) -> None:
    number = an_order(book, count=2, colours={"A": "navy"}, price=Money(3200), currency="EUR")

    one = kept(book, number)
    assert (one.who, one.design, one.count, one.filled) == ("blue, for Friday", "hat", 2, 0)
    assert (one.colours, one.price) == ({"A": "navy"}, Money(3200))
    assert one.by == clock.today() + timedelta(days=7)
    assert read_settings(book).currency == "EUR"
    with book.reading() as db:
        assert db.exec_driver_sql("SELECT count(*) FROM promise").scalar() == 0


def test_orders_stand_in_their_turn(book: Book) -> None:
    late, soon, same = (an_order(book, days) for days in (9, 2, 9))

    assert [one.number for one in order.orders_kept(book).all] == [soon, late, same]


def test_a_day_that_has_gone_by_is_refused_today_is_not(book: Book) -> None:
    with refuses("day_gone_by_for_order"):
        an_order(book, days=-1)

    assert kept(book, an_order(book, days=0)).by == clock.today()


@pytest.mark.parametrize(
    ("facts", "kind"),
    [
        ({"design": "mitten"}, "design_for_batch"),
        ({"colours": {"C": "blue"}}, "role"),
        ({"by": None}, "order_without_day"),
    ],
)
def test_what_cannot_be_ordered_books_nothing(
    book: Book, facts: dict[str, object], kind: str
) -> None:
    before = len(log(book))
    with refuses(kind):
        an_order(book, **facts)  # type: ignore[arg-type]

    assert len(log(book)) == before
    assert order.orders_kept(book).all == ()


def test_an_order_is_late_the_day_after_until_it_is_filled(book: Book) -> None:
    number = an_order(book, days=1)
    tomorrow = clock.today() + timedelta(days=1)

    assert kept(book, number).state(tomorrow) is OrderState.OPEN
    assert kept(book, number).state(tomorrow + timedelta(days=1)) is OrderState.LATE
    an_item(book, number)
    assert kept(book, number).state(tomorrow + timedelta(days=1)) is OrderState.FILLED


def test_an_item_fills_one_of_the_count_until_the_order_is_full(book: Book) -> None:
    number = an_order(book, count=2)
    items = an_item(book, number), an_item(book, number)

    assert kept(book, number).items == items
    with refuses("order_full"):
        an_item(book, number)


def test_what_is_released_or_undone_fills_no_order(book: Book) -> None:
    number = an_order(book)
    release(book, [str(an_item(book, number))])
    assert kept(book, number).filled == 0

    an_item(book, number)
    undo(book)
    assert kept(book, number).filled == 0


def test_an_item_of_another_design_or_for_a_dropped_order_is_refused(book: Book) -> None:
    number = an_order(book)
    a_design(book, "scarf", A=100)
    with refuses("order_of_another_design"):
        aside_action.aside_own_choice(book, "scarf", {"A": [1]}, order=ForOrder(number))
    order.drop_order(book, number)
    with refuses("order_is_dropped"):
        an_item(book, number)


def give(book: Book, item: int, number: int | None) -> None:
    change_items(book, [str(item)], ItemChanges(order=ForOrder(number)))


def test_an_item_is_given_to_an_order_and_taken_from_it(book: Book) -> None:
    number, made = an_order(book), aside(book, A=1, B=4)

    give(book, made, number)
    assert kept(book, number).items == (made,)
    with refuses("item_for_that_order"):
        give(book, made, number)
    give(book, made, None)
    assert kept(book, number).items == ()
    undo(book)
    assert kept(book, number).items == (made,)


def test_finishing_gives_an_item_to_an_order_in_the_same_entry(book: Book) -> None:
    number, made = an_order(book), aside(book, A=1, B=4)

    done.done(book, {str(made): done.Known(as_planned=True)}, order=ForOrder(number))
    assert kept(book, number).items == (made,)
    undo(book)
    assert kept(book, number).items == ()


def test_each_change_of_an_order_is_one_entry_that_undo_cancels(book: Book) -> None:
    number = an_order(book, price=Money(3200))
    before = kept(book, number)

    later = order.OrderTyped(
        who="red", by=clock.today() + timedelta(days=20), count=4, colours={"B": "red"},
        price=Money(3500), note="ring", size="",
    )  # fmt: skip
    order.change_order(book, number, later)
    now = kept(book, number)
    assert (now.who, now.count, now.colours, now.price) == ("red", 4, {"B": "red"}, Money(3500))
    order.drop_order(book, number)
    undo(book)
    assert kept(book, number) == now
    undo(book)
    assert kept(book, number) == before
    undo(book)
    with refuses("order"):
        kept(book, number)


def test_a_number_of_an_order_is_never_used_again(book: Book) -> None:
    first = an_order(book)
    undo(book)

    assert an_order(book) == first + 1


def test_what_items_rest_on_is_not_undone_nor_changed(book: Book) -> None:
    number = an_order(book, count=2)
    entry = len(log(book))
    an_item(book, number)

    with pytest.raises(InTheWay):
        undo(book, entry)
    a_design(book, "scarf", A=100)
    with refuses("order_has_items"):
        order.change_order(book, number, order.OrderTyped(design="scarf"))
    an_item(book, number)
    with refuses("count_below_items", count=1):
        order.change_order(book, number, order.OrderTyped(count=1))


def test_a_design_that_is_ordered_is_not_undone(book: Book) -> None:
    a_design(book, "scarf", A=100)
    entry = len(log(book))
    an_order(book, design="scarf")

    with pytest.raises(InTheWay):
        undo(book, entry)


def test_nothing_to_change_is_said_and_books_nothing(book: Book) -> None:
    number = an_order(book, count=2)
    before = len(log(book))

    with refuses("order_so_already"):
        order.change_order(book, number, order.OrderTyped(count=2))
    assert len(log(book)) == before


def test_the_price_of_an_order_is_proposed_and_never_taken_by_itself(book: Book) -> None:
    number = an_order(book, price=Money(3200))
    made = str(an_item(book, number))
    done.done(book, {made: done.Known(as_planned=True)})

    with pytest.raises(Undecided) as asked:
        sold.sell(book, {made: sold.Price()})
    assert [typed for _, typed in asked.value.ways] == ["32.00"]
    assert sold.sell(book, {made: sold.Price(Money(3000))})[0].sale.price == Money(3000)


def test_an_item_for_no_order_is_not_sold_without_a_price(book: Book) -> None:
    made = str(aside(book, A=1, B=4))
    done.done(book, {made: done.Known(as_planned=True)})

    with refuses("no_price_paid"):
        sold.sell(book, {made: sold.Price()})


def test_an_order_price_keeps_the_currency_of_the_file(book: Book) -> None:
    an_order(book, price=Money(3200), currency="EUR")

    with refuses("other_currency_kept", known="EUR"):
        an_order(book, price=Money(3200), currency="GBP")


def test_an_order_that_was_late_can_be_moved_to_a_day_to_come(book: Book) -> None:
    number = an_order(book, days=1)
    then = clock.today() + timedelta(days=5)

    with patch.object(clock, "today", lambda: then):
        with refuses("day_gone_by_for_order"):
            order.change_order(book, number, order.OrderTyped(by=then - timedelta(days=1)))
        moved = order.change_order(book, number, order.OrderTyped(by=then)).order
    assert moved.state(then) is OrderState.OPEN
