"""The ways of buying what a role lacks, beside each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.length import Length
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.planning.shopping.ways import BuyingWay
from stash.rendering import amounts
from stash.rendering.amounts import colour_name, counted, dye_lot
from stash.rendering.columns import columns

if TYPE_CHECKING:
    from stash.actions.short import ToBuy


def ways_keys(short: ToBuy) -> list[dict[str, Any]]:
    """Each role with its ways in their order; `lot_ref` is that of the old lot."""
    return [
        {
            "design": lack.missing.design or None,
            "role": lack.missing.role,
            "ways": [
                {
                    "lot_ref": way.lot and way.lot.lot.ref,
                    "yarn": way.offer.name,
                    "skeins": way.skeins,
                    "cost_coins": way.coins,
                    "bought_m": Length(way.um).m,
                }
                for way in ways
            ],
        }
        for lack, ways in zip(short.shortfall.lacks, short.ways, strict=True)
    ]


def ways_lines(short: ToBuy) -> Iterator[str]:
    """A table for each role that the old lot could be topped up for, where there is a choice."""
    for lack, ways in zip(short.shortfall.lacks, short.ways, strict=True):
        if lack.completed is None or len(ways) < 2:
            continue
        missing = lack.missing
        many = f"{missing.count} x " if missing.count > 1 else ""
        of = f" of {many}{missing.design}" if missing.design else ""
        yield ""
        yield f"Top up or buy new, for {missing.role}{of} alone:"
        yield columns(list(_rows(ways, short.settings.currency)), "  ")


def _rows(ways: Sequence[BuyingWay], currency: str) -> Iterator[list[str]]:
    for way in ways:
        price = "price not known" if way.coins is None else show_money(Money(way.coins), currency)
        yield [_what(way), price, f"{amounts.yarn(Length(way.um))} to buy"]


def _what(way: BuyingWay) -> str:
    skeins = counted(way.skeins, "skein")
    if way.lot is None:
        return f"{skeins} of {way.offer.name}, new"
    lot = way.lot.lot
    return f"{skeins} more of {lot.ref}, {colour_name(lot)}, {dye_lot(lot)}"
