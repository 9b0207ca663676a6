"""What is missing for what is wanted, and what to buy for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.length import Length
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.planning.model.batch import Batch
from stash.planning.shopping.shopping import Basket, Bought, Missing, Offer
from stash.planning.shopping.shortfall import Lack, Shortfall
from stash.rendering import amounts
from stash.rendering import keys as plain_keys
from stash.rendering.amounts import Page, colour_name, counted, dye_lot
from stash.rendering.buying_ways import ways_keys, ways_lines
from stash.rendering.columns import columns
from stash.trade.thickness import plain_name

if TYPE_CHECKING:
    from stash.actions.short import ToBuy

Keys = dict[str, Any]

NOT_PROVED = "note: a cheaper way of buying was not ruled out"


def usual_length(role: str, m_per_100g: int) -> str:
    """What is taken of yarn by weight where nobody says its length."""
    return (
        f"note: {role}: {m_per_100g} m to 100 g is taken, as is usual for the class; its yarns "
        "lie a fifth above and below, so give the put-up if it can be found"
    )


def keys(short: ToBuy) -> Keys:
    """What is wanted, what the shelf gives of it, what is missing and what to buy."""
    found, basket = short.shortfall, short.basket
    return {
        "as_of": short.batch.as_of.isoformat(),
        "wanted": [
            {"design": want.name or None, "wanted": want.at_most, "from_stock": given}
            for want, given in zip(short.batch.wants, found.given, strict=True)
        ],
        "missing": [_lack_keys(lack) for lack in found.lacks],
        "buy": [_bought_keys(lot) for lot in basket.bought],
        "compare": ways_keys(short),
        "cost_coins": basket.coins,
        "at_least": not basket.priced,
        "proved_least": basket.least,
        "nowhere": [_missing_keys(one) for one in basket.nowhere],
        "currency": short.settings.currency or None,
    }


def _missing_keys(one: Missing) -> Keys:
    return {
        "design": one.design or None,
        "role": one.role,
        "count": one.count,
        "each_m": Length(one.um).m,
        "strands": one.strands,
        "thickness": one.classes and one.classes[0],
        "thickness_to": one.classes and one.classes[1],
        "colour": one.colour or None,
    }


def _lack_keys(lack: Lack) -> Keys:
    more = lack.completed
    lot = more and {**plain_keys.named(more.lot), "skeins": more.skeins}
    return {**_missing_keys(lack.missing), "complete": lot}


def _bought_keys(lot: Bought) -> Keys:
    return {
        "yarn": lot.offer.name,
        "each_g": lot.offer.mass and lot.offer.mass.g,
        "each_m": Length(lot.offer.um).m,
        "skeins": lot.skeins,
        "cost_coins": lot.coins,
        "joins": lot.joins,
        "left_m": Length(lot.left_um).m,
        "for": [
            {"design": one.design or None, "role": one.role, "count": one.count}
            for one in lot.wanted
        ],
    }


def rows(short: ToBuy) -> Iterator[Keys]:
    """Every line for a sheet: what is wanted and there, missing, to buy, nowhere, the total."""
    found, basket = short.shortfall, short.basket
    for want, given in zip(short.batch.wants, found.given, strict=True):
        yield _row("wanted", design=want.name or None, count=want.at_most, from_stock=given)
    for lack in found.lacks:
        yield _row("missing", **_of_missing(lack.missing))
    for lot in basket.bought:
        bought = _bought_keys(lot)
        for_what = "; ".join(f"{w.count} {w.role} of {w.design}".strip() for w in lot.wanted)
        yield _row("buy", **{**bought, "for": for_what})
    for one in basket.nowhere:
        yield _row("nowhere", **_of_missing(one))
    skeins = sum(lot.skeins for lot in basket.bought)
    yield _row("total", skeins=skeins, cost_coins=basket.coins, at_least=not basket.priced)


def _of_missing(one: Missing) -> Keys:
    return {k: v for k, v in _missing_keys(one).items() if k in _COLUMNS}


_COLUMNS = (
    *("line", "design", "role", "count", "from_stock", "each_m", "strands", "colour"),
    *("yarn", "each_g", "skeins", "cost_coins", "at_least", "joins", "left_m", "for"),
)


def _row(line: str, **facts: Any) -> Keys:
    return {**dict.fromkeys(_COLUMNS), "line": line, **facts}


def text(short: ToBuy, page: Page) -> str:
    """The same for reading."""
    found, basket, currency = short.shortfall, short.basket, short.settings.currency
    strong = page.strong
    lines = [*_given(short.batch, found)]
    if not found.lacks:
        return "\n".join([*lines, strong("Nothing is missing.")])
    lines += ["", strong("Missing:"), columns([*_missing(found.lacks)], "  ")]
    if basket.bought:
        lines += ["", strong(_headline(basket, currency))]
        lines += [text for lot in basket.bought for text in _bought(lot, currency)]
    lines += [*_nowhere(basket), *_completing(found.lacks, page), *ways_lines(short)]
    return "\n".join(lines)


def _given(batch: Batch, found: Shortfall) -> Iterator[str]:
    for want, given in zip(batch.wants, found.given, strict=True):
        if want.name:
            yield f"{want.name}: {want.at_most} wanted, the shelf gives {given or 'none'}"


def _missing(lacks: Sequence[Lack]) -> Iterator[list[str]]:
    for one in (lack.missing for lack in lacks):
        each = amounts.take(Length(one.um))
        ends = f", {one.strands} strands together" if one.strands > 1 else ""
        of_thickness = f"class {plain_name(*one.classes)}" if one.classes else "any class"
        many = f"{one.count} x {each}" if one.count > 1 else each
        yield [
            one.design,
            one.role,
            f"{many}{ends}",
            ", ".join(filter(None, [of_thickness, one.colour])),
        ]


def _headline(basket: Basket, currency: str) -> str:
    if not basket.priced and not basket.coins:
        return "Buy (no price known, so the least yarn):"
    least = "" if basket.priced else "at least "
    return f"Buy, for {least}{show_money(Money(basket.coins), currency)}:"


def _bought(lot: Bought, currency: str) -> Iterator[str]:
    price = "" if lot.coins is None else f", {show_money(Money(lot.coins), currency)}"
    in_lot = "" if lot.skeins == 1 else " in one dye lot"
    yield f"  {counted(lot.skeins, 'skein')} of {_offer(lot.offer)}{in_lot}{price}"
    for_what = ", ".join(
        f"{one.role} of {_designs_of(one)}" if one.design else one.role for one in lot.wanted
    )
    joins = f", {counted(lot.joins, 'join')}" if lot.joins else ""
    left = f"{amounts.yarn(Length(lot.left_um))} stay" if lot.left_um else "nothing stays"
    yield f"    for {for_what}{joins}; {left}"


def _designs_of(one: Missing) -> str:
    """So many of a design: `2 Winter hat`, or the design alone."""
    return one.design if one.count == 1 else f"{one.count} {one.design}"


def _offer(offer: Offer) -> str:
    length = amounts.yarn(Length(offer.um))
    put_up = f"{offer.mass} / {length}" if offer.mass else length
    return f"{offer.name}, {put_up}"


def _nowhere(basket: Basket) -> Iterator[str]:
    for one in basket.nowhere:
        where = f"{one.role} of {one.design}" if one.design else one.role
        yield (
            f"  {where}: no yarn you have had suits it; say what can be bought, as in "
            '--offer "Fell Wool 50g/120m 4.50"'
        )


def _completing(lacks: Sequence[Lack], page: Page) -> Iterator[str]:
    completed = [lack for lack in lacks if lack.completed]
    if completed:
        yield ""
        yield "Or, where the same dye lot is still to be had:"
    for lack in completed:
        if lack.completed is None:
            continue
        lot = lack.completed.lot.lot
        where = f"{lack.missing.role} of {_designs_of(lack.missing)}".removesuffix(" of ")
        yield (
            f"  {where}: {counted(lack.completed.skeins, 'skein')} more of {lot.ref}, "
            f"{page.patch(lot)}{colour_name(lot)}, {lot.yarn}, {dye_lot(lot)}"
        )
