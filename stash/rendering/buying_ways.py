"""The ways out of a shortage beside each other: what to buy, and what the shelf could do."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.length import Length
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.planning.shopping.ways import BuyingWay
from stash.rendering import amounts, figures
from stash.rendering.amounts import colour_name, counted, dye_lot
from stash.rendering.columns import columns
from stash.rendering.keys import lot_name
from stash.rendering.sentences.say import plain_facts, sentence

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


def otherwise_keys(short: ToBuy) -> list[dict[str, Any]]:
    """Each want that lacks yarn with the ways to make one of it without buying.

    `uses_coins` is what the yarn it takes was bought for, None where that is not known.
    """
    return [
        {
            "design": one.want.name or None,
            "ways": [
                {
                    "roles": {role: lot_name(held.lot) for role, held in way.roles},
                    "fix": plain_facts(way.fix),
                    "cost_coins": 0,
                    "uses_m": Length(way.um).m,
                    "uses_coins": None if cost is None else cost.coins,
                }
                for way, cost in one.ways
            ],
        }
        for one in short.otherwise
    ]


def otherwise_lines(short: ToBuy) -> Iterator[str]:
    """What would let the shelf do for one of each want, and what of her own yarn that takes."""
    for one in short.otherwise:
        if one.ways:
            yield ""
            yield f"Or buy nothing, for {f'one {one.want.name}' if one.want.name else 'one'}:"
        for way, cost in one.ways:
            worth = "" if cost is None else f" ({show_money(cost, short.settings.currency)})"
            lots = "+".join(held.lot.ref for _, held in way.roles)
            uses = f"{figures.up(Length(way.um))} of your own yarn{worth}"
            yield f"  {lots}: {sentence(way.fix)}; takes {uses}"


def way_rows(short: ToBuy) -> Iterator[dict[str, Any]]:
    """Every way as facts of a row of a sheet: those of buying by role, then those without."""
    for of_role in ways_keys(short):
        for way in of_role["ways"]:
            yield {
                "line": "top up" if way["lot_ref"] else "buy new",
                **{name: of_role[name] for name in ("design", "role")},
                **{name: way[name] for name in ("yarn", "skeins", "cost_coins")},
                "for": way["lot_ref"],
            }
    for of_want in otherwise_keys(short):
        for way in of_want["ways"]:
            lots = "+".join(lot["lot_ref"] for lot in way["roles"].values())
            yield {
                "line": "buy nothing",
                "design": of_want["design"],
                "yarn": lots,
                "cost_coins": way["cost_coins"],
                "for": way["fix"]["words"],
            }


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
