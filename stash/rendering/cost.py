"""What an item cost, or the next one of a design would, and what to ask for it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from stash.costing.price import Costing, Price, YarnCost
from stash.measures.mass import OUNCE_MG
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering import figures
from stash.rendering.amounts import Page, colour_name, dye_lot, grams, numbers
from stash.rendering.columns import columns
from stash.rendering.work import show_hours, show_share
from stash.stock.sale import Sale
from stash.stock.yarn import Lot

if TYPE_CHECKING:
    from stash.actions.cost import Costed

Lots = Mapping[int, Lot]


def yarn_cost(yarn: Sequence[YarnCost], currency: str) -> str:
    """What some yarn cost, at least where a price is not known, if there is one at all."""
    if not _some_known(yarn):
        return "cost not known"
    cost = show_money(sum((line.cost for line in yarn), Money(0)), currency)
    return cost if all(line.known for line in yarn) else f"at least {cost}"


def known_coins(yarn: Sequence[YarnCost]) -> int | None:
    """The same for scripts: None where no price is known at all."""
    return sum(line.cost.coins for line in yarn) if _some_known(yarn) else None


def _some_known(yarn: Sequence[YarnCost]) -> bool:
    return not yarn or any(line.known or line.cost.coins for line in yarn)


def keys(found: Costed) -> dict[str, Any]:
    """A cost with stable keys; where `at_least`, costs and prices are least, pay is most.

    What no price of the yarn is known for is None.
    """
    return {
        "item": found.item.number if found.item else None,
        "state": found.item.state.value if found.item else None,
        "design": found.design or None,
        "key": found.key or None,
        "method": found.method.value,
        "currency": found.currency or None,
        "others": [
            {
                "item": number,
                "yarn_coins": known_coins(costing.yarn),
                "at_least": not costing.known,
            }
            for number, costing in found.others
        ],
        "yarn": list(rows(found)),
        **_costing_keys(found.costing, found.sale),
        "notes": cost_notes(found),
    }


def _costing_keys(costing: Costing, sale: Sale | None) -> dict[str, Any]:
    terms, wanted = costing.terms, costing.wanted
    return {
        "yarn_coins": known_coins(costing.yarn),
        "gifts_worth_coins": costing.gifts_worth.coins,
        "sundries_coins": terms.sundries.coins,
        "materials_coins": costing.materials.coins,
        "at_least": not costing.known,
        "hours": None if terms.hours is None else float(terms.hours),
        "wage_coins_per_h": None if terms.wage is None else terms.wage.coins,
        "overhead_share": float(terms.overhead),
        "fees_share": float(terms.fees),
        "floor": _price_keys(costing.floor),
        "wanted": None if wanted is None else _price_keys(wanted),
        "three_times": _pay_keys(costing, costing.three_times, None),
        "sold": None if sale is None else _pay_keys(costing, sale.price, sale.fee),
    }


def _price_keys(price: Price) -> dict[str, Any]:
    return {
        "price_coins": price.price.coins,
        "materials_coins": price.materials.coins,
        "work_coins": price.work.coins,
        "overhead_coins": price.overhead.coins,
        "fees_coins": price.fees.coins,
    }


def _pay_keys(costing: Costing, price: Money, fee: Money | None) -> dict[str, Any]:
    pays = costing.earns(price, fee)
    return {
        "price_coins": price.coins,
        "fee_coins": None if fee is None else fee.coins,
        "pays_coins_per_h": None if pays is None else float(pays),
    }


def rows(found: Costed) -> Iterator[dict[str, Any]]:
    """Its yarn line by line, for a sheet."""
    costing, lots = found.costing, found.lots
    for line in costing.yarn:
        lot = lots[line.skein]
        mg, coins = _of_lot(line, costing, lots)
        yield {
            "role": line.role or None,
            "skein": line.skein,
            "lot_ref": lot.ref,
            "yarn": str(lot.yarn),
            "colour": lot.colour or None,
            "used_g": line.mass.g,
            "cost_coins": line.cost.coins if line.known else None,
            "cost_coins_per_100g": 100_000 * coins / mg if line.known else None,
            "gift": line.gift,
            "gift_worth_coins": line.worth.coins,
        }


def text(found: Costed, page: Page) -> str:
    """The same for reading: the yarn, what comes on top, and what to ask."""
    costing, currency = found.costing, found.currency
    yarn = columns([_yarn_row(line, costing, found.lots, currency) for line in costing.yarn], "  ")
    asking = _asking(costing, currency, found.sale)
    return "\n".join([page.strong(_title(found)), yarn, _yarn_total(costing, currency), *asking])


def _title(found: Costed) -> str:
    if found.item is None:
        return f"The next {found.design}, from {found.key}"
    return f"Item {found.item}, {found.item.state}"


def _yarn_total(costing: Costing, currency: str) -> str:
    """The sum of the rows above it; gifts that count for something are added by themselves."""
    paid = yarn_cost(costing.yarn, currency)
    gifts = costing.gifts_worth
    if not gifts.coins:
        return f"  yarn in it: {paid}"
    whole = show_money(costing.yarn_cost + gifts, currency)
    least = "" if costing.known else "at least "
    return f"  yarn in it: {paid} paid + {show_money(gifts, currency)} of gifts = {least}{whole}"


def cost_notes(found: Costed) -> list[str]:
    """What the figures lack, and what finished items of the design took."""
    said = []
    unknown = sorted({line.skein for line in found.costing.yarn if not line.known})
    if unknown:
        said.append(no_price(unknown))
    if found.item is not None and found.item.state == "begun":
        said.append("still being made, so this is its yarn so far")
    if found.others:
        others = ", ".join(f"item {n} {yarn_cost(c.yarn, found.currency)}" for n, c in found.others)
        said.append(f"yarn in the finished ones: {others}")
    return said


def no_price(skeins: Sequence[int]) -> str:
    """Which skeins have no price, and how to add one."""
    return (
        f"no price known for {of_skeins(skeins)}: add it, as in "
        f"`stash change {skeins[0]} --paid 9.80` (0 for a gift)"
    )


def of_skeins(skeins: Sequence[int]) -> str:
    """Skeins by their numbers: `skein 3`, `skeins 3-5`."""
    return f"skein{'s' if skeins[1:] else ''} {numbers(skeins)}"


def _of_lot(line: YarnCost, costing: Costing, lots: Lots) -> tuple[int, int]:
    """The grams and the coins of all known lines of a lot: each by itself is rounded its own way.

    Gifts, which cost nothing, are apart.
    """
    lot = lots[line.skein].id
    alike = [
        one
        for one in costing.yarn
        if lots[one.skein].id == lot and one.known and one.gift == line.gift
    ]
    return sum(one.mass.mg for one in alike), sum(one.cost.coins for one in alike)


def _yarn_row(line: YarnCost, costing: Costing, lots: Lots, currency: str) -> list[str]:
    lot = lots[line.skein]
    cost = show_money(line.cost, currency) if line.known else "cost not known"
    if line.gift:
        worth = f", counts as {show_money(line.worth, currency)}" if line.worth.coins else ""
        cost = f"gift{worth}"
    priced = line.known and not line.gift
    return [
        line.role or "-",
        f"skein {line.skein}",
        f"{lot.yarn}, {colour_name(lot)}, {dye_lot(lot)}",
        grams(line.mass),
        cost,
        _by_weight(*_of_lot(line, costing, lots), currency) if priced else "",
    ]


def _by_weight(mg: int, coins: int, currency: str) -> str:
    """What 100 g cost, or an ounce where she weighs in these: no finer than whole coins can say."""
    in_ounces = figures.screen().units.weight == "oz"
    per_mg, name = (OUNCE_MG, "oz") if in_ounces else (Fraction(100_000), "100 g")
    step = 1
    while step * mg < per_mg:
        step *= 10
    return f"{show_money(Money(step * round(per_mg * coins / (mg * step))), currency)} per {name}"


def _asking(costing: Costing, currency: str, sale: Sale | None) -> Iterator[str]:
    terms, wanted, floor = costing.terms, costing.wanted, costing.floor
    least = "" if costing.known else "at least "
    if not costing.known and not costing.materials.coins:
        yield "  add what its yarn cost to see what to ask"
        return
    price = show_money(floor.price, currency)
    yield f"  to cover what you spend, ask {least}{price} (your work unpaid)"
    if wanted is not None and terms.hours is not None and terms.wage is not None:
        wage = f"{show_money(terms.wage, currency)} an hour for {show_hours(terms.hours)}"
        yield f"  to earn {wage}, ask {least}{show_money(wanted.price, currency)}:"
        yield columns(list(_parts(costing, wanted, currency)), "    ")
    else:
        missing = "--hours 2h30min" if terms.hours is None else "--wage 12.00"
        yield f"  to count your work too, add {missing}; `stash settings` can keep it"
    yield _pays(
        "rule of thumb, three times the materials", costing, costing.three_times, None, currency
    )
    if sale is not None:
        fee = f", less a fee of {show_money(sale.fee, currency)}" if sale.fee.coins else ""
        said = f"sold on {sale.on}{fee}"
        yield _pays(said, costing, sale.price, sale.fee, currency)


def _parts(costing: Costing, price: Price, currency: str) -> Iterator[list[str]]:
    terms = costing.terms
    yarn = costing.yarn_cost + costing.gifts_worth
    for name, amount in (
        ("yarn", yarn),
        ("sundries", terms.sundries),
        ("work", price.work),
        (f"overhead {show_share(terms.overhead)}", price.overhead),
        (f"fees {show_share(terms.fees)}", price.fees),
    ):
        if amount.coins:
            yield [name, show_money(amount, currency)]


def _pays(said: str, costing: Costing, price: Money, fee: Money | None, currency: str) -> str:
    """What a price leaves for an hour, down to the coin.

    Of a sale it is less the more the yarn cost; a price of three times that grows faster than it.
    """
    pays = costing.earns(price, fee)
    least = "" if costing.known or fee is not None else "at least "
    text = f"  {said}: {least}{show_money(price, currency)}"
    if pays is None:
        return text
    bound = "at most " if not costing.known and fee is not None else least
    return f"{text}, which pays {bound}{show_money(Money(math.floor(pays)), currency)} an hour"
