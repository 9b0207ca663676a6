"""An order by itself: its turn, how it is doing on a day, and which designs fill it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from stash.stock.order import Order, OrderState

DAY = date(2026, 12, 12)
ORDER = Order(3, "blue, collected Friday", 1, "Winter hat", DAY, count=2, size="woman")


def test_the_earliest_day_comes_first_then_the_lowest_number() -> None:
    later = replace(ORDER, number=1, by=date(2026, 12, 13))
    same_day = replace(ORDER, number=4)

    assert sorted([same_day, later, ORDER], key=lambda one: one.turn) == [ORDER, same_day, later]


@pytest.mark.parametrize(
    ("facts", "today", "state", "left"),
    [
        ({}, DAY, OrderState.OPEN, 2),
        ({}, date(2026, 12, 13), OrderState.LATE, 2),
        ({"items": (7,)}, DAY, OrderState.OPEN, 1),
        ({"items": (7, 9)}, date(2026, 12, 13), OrderState.FILLED, 0),
        ({"items": (7, 9, 11)}, DAY, OrderState.FILLED, 0),
        ({"dropped": True}, date(2026, 12, 13), OrderState.DROPPED, 0),
    ],
)
def test_how_an_order_is_doing(
    facts: dict[str, object], today: date, state: OrderState, left: int
) -> None:
    order = replace(ORDER, **facts)  # type: ignore[arg-type]

    assert (order.state(today), order.left) == (state, left)


@pytest.mark.parametrize(
    ("design", "fits"),
    [
        ("Winter hat", True),
        ("winter HAT", True),
        ("Winter hat, woman", True),  # as a batch names a design at another size
        ("Winter hat, man", False),
        ("Scarf", False),
    ],
)
def test_an_item_of_its_design_fills_it(design: str, fits: bool) -> None:
    assert ORDER.fits(design) is fits
