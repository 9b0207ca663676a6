"""The price list of a planned batch: yarn, the least to ask, what she asks, what an hour earns."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import counted

if TYPE_CHECKING:
    from stash.actions.batch_prices import WantPriced
    from stash.actions.her_settings import Settings


@dataclass(frozen=True, slots=True)
class PriceShown:
    """A line of the list; `below` where she asks less than the least, `earns` what an hour then is.

    `ordered`: it is for somebody, and not for the stall.

    Where items of a line are in yarns of several prices, it is that of the dearest. `at_least`:
    what some of the yarn cost is not known.
    """

    name: str
    count: int
    yarn: str
    least: str
    price: str
    below: bool
    at_least: bool
    earns: str
    ordered: bool


def prices_shown(found: Sequence[WantPriced], settings: Settings) -> list[PriceShown]:
    """Every line."""
    return [_line(one, settings.currency) for one in found]


def _line(one: WantPriced, currency: str) -> PriceShown:
    below = one.price is not None and one.price < one.least
    order = "" if one.want.order is None else f", order {one.want.order}"
    return PriceShown(
        f"{one.want.name}{order}",
        len(one.items),
        _known(one, one.dearest.yarn_cost, currency),
        _known(one, one.least, currency),
        "" if one.price is None else show_money(one.price, currency),
        below,
        not one.known,
        _earns(one, currency),
        one.want.order is not None,
    )


def _known(one: WantPriced, amount: Money, currency: str) -> str:
    return show_money(amount, currency) if one.known or amount.coins else "not known"


def _earns(one: WantPriced, currency: str) -> str:
    pays = one.earns
    if pays is None:
        return ""
    if pays <= 0:
        return "pays nothing for your hours"
    at_most = "" if one.known else "at most "
    return f"earns {at_most}{show_money(Money(math.floor(pays)), currency)} an hour"


def price_typed(price: Money, currency: str) -> str:
    """A price as it can be typed again: `28`, `28.50`."""
    digits = re.sub(r"[^0-9.]", "", show_money(price, currency))
    return digits.removesuffix(".00")


def wage_words(found: Sequence[WantPriced], settings: Settings) -> str:
    """What the least pays for: her wage where it is set, else nothing of her time."""
    if settings.wage is None:
        return "your hours unpaid"
    wage = f"at {show_money(settings.wage, settings.currency)} an hour"
    unpaid = [one.want.name for one in found if not one.pays_wage]
    return f"{wage}; without hours: {', '.join(unpaid)}" if unpaid else wage


def unpriced_words(found: Sequence[WantPriced]) -> Iterator[str]:
    """That some yarn has no price."""
    skeins = {line.skein for one in found for c in one.items.values() for line in c.yarn
              if not line.known}  # fmt: skip
    if skeins:
        yield f"What you paid for {counted(len(skeins), 'skein')} is not known."
