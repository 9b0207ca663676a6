"""What an item costs, as it is read."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from shelves import a_lot

from stash.actions.cost import Costed
from stash.costing.pools import Method
from stash.costing.price import Costing, Terms, YarnCost
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.rendering.cost import rows, text
from stash.rendering.figures import Units
from stash.stock.yarn import Lot

PAGE = Page()


def costed(yarn: Sequence[YarnCost], lot: Lot) -> Costed:
    """A design of yarn that is all of one lot."""
    lots = {line.skein: lot for line in yarn}
    return Costed("Hat", None, Costing(tuple(yarn), Terms()), lots, Method.SPECIFIC, "EUR")


@pytest.mark.parametrize(
    ("used_g", "cost_coins", "shown"),
    [(250, 2450, "9.80"), (43, 421, "9.80"), (13, 127, "9.80"), (2, 20, "10.00")],
)
def test_a_price_for_100_g_is_no_finer_than_coins_can_tell(
    used_g: int, cost_coins: int, shown: str
) -> None:
    """Yarn at 9.80 for 100 g: 43 g cost 4.214, booked as 4.21, which would be 9.79 again."""
    line = YarnCost(1, "A", grams(used_g), Money(cost_coins), known=True)

    _, first, *_ = text(costed([line], a_lot(1, (100,)).lot), PAGE).splitlines()

    assert first.endswith(f"€{shown} per 100 g")


def test_one_lot_has_one_price_for_100_g() -> None:
    """Yarn at 6.40 for 100 g: 8 g are booked as 0.51, which by itself tells no more than 6.00."""
    lot = a_lot(1, (100, 100)).lot
    yarn = (
        YarnCost(1, "A", grams(43), Money(275), known=True),
        YarnCost(2, "A", grams(8), Money(51), known=True),
    )
    found = costed(yarn, lot)

    lines, sheet = text(found, PAGE).splitlines()[1:3], [*rows(found)]

    assert [line.split("€")[-1] for line in lines] == ["6.40 per 100 g"] * 2
    assert sheet[0]["cost_coins_per_100g"] == sheet[1]["cost_coins_per_100g"]


def test_gifts_that_count_for_something_are_added_to_what_was_paid() -> None:
    yarn = (
        YarnCost(1, "A", grams(43), Money(275), known=True),
        YarnCost(2, "B", grams(8), Money(0), known=True, gift=True, worth=Money(40)),
    )

    said = text(costed(yarn, a_lot(1, (100, 100)).lot), PAGE)

    assert "gift, counts as €0.40" in said
    assert "yarn in it: €2.75 paid + €0.40 of gifts = €3.15" in said


def test_a_cost_of_which_nothing_is_known_asks_for_the_price() -> None:
    yarn = (YarnCost(1, "A", grams(43), Money(0), known=False),)

    said = text(costed(yarn, a_lot(1, (100,)).lot), PAGE)

    assert "yarn in it: cost not known" in said
    assert "add what its yarn cost to see what to ask" in said
    assert "€" not in said


def test_of_ounces_the_price_is_by_the_ounce() -> None:
    """By hand: 28.35 g at 9.80 for 100 g are 2.78."""
    figures.use(Units("yd", "oz", "in"))
    line = YarnCost(1, "A", grams(250), Money(2450), known=True)

    _, first, *_ = text(costed([line], a_lot(1, (100,)).lot), PAGE).splitlines()

    assert first.endswith("8.8 oz  €24.50  €2.78 per oz")
