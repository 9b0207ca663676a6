"""What an article costs, as it is read."""

from __future__ import annotations

import pytest
from shelves import a_lot

from stash.costing.price import Costing, Terms, YarnCost
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.wording.cost_words import words


@pytest.mark.parametrize(
    ("used_g", "cost_coins", "told"),
    [(250, 2450, "9.80"), (43, 421, "9.80"), (13, 127, "9.80"), (2, 20, "10.00")],
)
def test_a_price_for_100_g_is_no_finer_than_coins_can_tell(
    used_g: int, cost_coins: int, told: str
) -> None:
    """Yarn at 9.80 for 100 g: 43 g cost 4.214, booked as 4.21, which would be 9.79 again."""
    line = YarnCost(1, "A", grams(used_g), Money(cost_coins), known=True)

    text = words(Costing((line,), Terms()), {1: a_lot(1, (100,)).lot}, "EUR", None)

    assert text.splitlines()[0].endswith(f"€{told} for 100 g")
