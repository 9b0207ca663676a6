"""What is missing for what is wanted, and what to buy for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from stash.measures.estimate import to_books
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.planning.model.batch import Batch
from stash.planning.shopping.shopping import Basket, Bought, Missing
from stash.planning.shopping.shortfall import Lack, Shortfall
from stash.rendering import figures
from stash.rendering import keys as plain_keys
from stash.rendering.amounts import Page, colour_name, counted, dye_lot
from stash.rendering.buying_ways import (
    otherwise_keys,
    otherwise_lines,
    way_rows,
    ways_keys,
    ways_lines,
)
from stash.rendering.columns import columns
from stash.rendering.figures import Figure
from stash.rendering.her_words import named_thickness
from stash.stock.holding import HeldLot

if TYPE_CHECKING:
    from stash.actions.short import ToBuy

Keys = dict[str, Any]

NOT_PROVED = "note: there may be a cheaper way to buy this"


def usual_length(role: str, m_per_100g: int) -> str:
    """What is assumed of yarn by weight where nobody says its length."""
    usual = figures.near(figures.of_metres(m_per_100g))
    return (
        f"note: {role}: assumed {usual} per 100 g, usual for this thickness; yarns differ by a "
        "fifth either way, so add --full if you know it"
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
        "otherwise": otherwise_keys(short),
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
    lot = more and {
        **plain_keys.named(more.lot),
        "skeins": more.skeins,
        "full_g": more.full.mass.g,
        "full_m": more.full.length.m,
    }
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
    """Every line for a sheet: wanted and there, missing, to buy, nowhere, the total, every way."""
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
    for facts in way_rows(short):
        yield _row(**facts)


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
    lines += ["", strong("Missing:"), columns([*_missing(found.lacks, short.batch)], "  ")]
    if basket.bought:
        lines += ["", strong(headline(basket, currency))]
        lines += [text for lot in basket.bought for text in _bought(lot, currency)]
    lines += [
        *nowhere_lines(basket.nowhere),
        *completing_lines(found.lacks, page),
        *ways_lines(short),
    ]
    lines += otherwise_lines(short)
    return "\n".join(lines).lstrip("\n")


def _given(batch: Batch, found: Shortfall) -> Iterator[str]:
    for want, given in zip(batch.wants, found.given, strict=True):
        if want.name:
            yield f"{want.name}: you want {want.at_most}, the shelf has yarn for {given or 'none'}"


def _missing(lacks: Sequence[Lack], batch: Batch) -> Iterator[list[str]]:
    for one in (lack.missing for lack in lacks):
        thickness = named_thickness(*one.classes) if one.classes else "any thickness"
        together = f", {one.strands} strands together" if one.strands > 1 else ""
        yield [
            one.design,
            one.role,
            f"{_need(one)}{f' for {one.count}' if one.count > 1 else ''}{together}",
            _margin(one, batch),
            ", ".join(filter(None, [thickness, one.colour])),
        ]


def _margin(one: Missing, batch: Batch) -> str:
    """What of it is expected and what is margin: they add up to it as shown."""
    needs = [want.need for want in batch.wants if want.name == one.design]
    roles = [role for need in needs for role in need.roles if role.role == one.role]
    if not roles or not roles[0].margin:
        return ""
    expected = figures.near(to_books(roles[0].estimate.expected_m * one.count))
    return f"{expected} + {_need(one) - expected} margin" if expected < _need(one) else ""


def _times(count: int) -> str:
    return f"{count} x " if count > 1 else ""


def _need(one: Missing) -> Figure:
    """All of it: rounded once, for one by one it would be more than is bought."""
    return figures.up(Length(one.um * one.count))


def headline(basket: Basket, currency: str) -> str:
    """What all of it costs, as far as prices are known."""
    if not basket.priced and not basket.coins:
        return "Buy (no prices known, so as little yarn as possible):"
    least = "" if basket.priced else "at least "
    return f"Buy, for {least}{show_money(Money(basket.coins), currency)}:"


@dataclass(frozen=True, slots=True)
class BoughtShown:
    """Skeins of a dye lot to buy: what, how much that is in all, what for, what it costs."""

    what: str
    in_all: str
    for_what: str
    price: str


def bought_shown(basket: Basket, currency: str) -> list[BoughtShown]:
    """What to buy, in words."""
    return [_in_words(lot, currency) for lot in basket.bought]


def _in_words(lot: Bought, currency: str) -> BoughtShown:
    return BoughtShown(
        f"{counted(lot.skeins, 'skein')} of {full_skein(lot.offer.mass, Length(lot.offer.um))}, "
        f"{lot.offer.name}",
        "" if lot.skeins == 1 else f"all of one dye lot, {_whole(lot)} in all",
        ", ".join(map(_what_for, lot.wanted)),
        "price not known" if lot.coins is None else show_money(Money(lot.coins), currency),
    )


def _bought(lot: Bought, currency: str) -> Iterator[str]:
    shown = _in_words(lot, currency)
    in_lot = f", {shown.in_all}" if shown.in_all else ""
    yield f"  {shown.what}{in_lot}: {shown.price}"
    joins, left = _joins_and_left(lot)
    yield f"    for {shown.for_what}{joins}; {left}"


def _joins_and_left(lot: Bought) -> tuple[str, str]:
    """The yarn that joins take, and what is left: all less needs less joins, as shown."""
    left = _whole(lot) - figures.total(map(_need, lot.wanted), Length)
    joins = f", {counted(lot.joins, 'join')}" if lot.joins else ""
    needed_um = sum(one.um * one.count for one in lot.wanted)
    ends_um = lot.offer.um * lot.skeins - needed_um - lot.left_um
    if ends := min(figures.up(Length(max(0, ends_um))), left):
        joins, left = f"{joins} taking {ends}", left - ends
    return joins, f"{left} left over" if left else "nothing left over"


def _whole(lot: Bought) -> Figure:
    """All that is bought: of several skeins rounded up as the needs are, to hold them."""
    length = Length(lot.offer.um * lot.skeins)
    return figures.near(length) if lot.skeins == 1 else figures.up(length)


def full_skein(mass: Mass | None, length: Length) -> str:
    """What a full skein holds, in her units: `100 g / 230 m`."""
    weight = f"{figures.near(mass)} / " if mass else ""
    return f"{weight}{figures.near(length)}"


def _what_for(one: Missing) -> str:
    """The colour of so many of a design: `B of 2 x Winter hat`."""
    return f"{one.role} of {_times(one.count)}{one.design}" if one.design else one.role


def nowhere_lines(nowhere: Sequence[Missing]) -> Iterator[str]:
    """What none of the yarns that can be bought will do for."""
    for one in nowhere:
        yield (
            f"  {_what_for(one)}: none of the yarns you have had fits; say what you can buy, as in "
            '--offer "Fell Wool 50g/120m 4.50"'
        )


def completing_lines(lacks: Sequence[Lack], page: Page) -> Iterator[str]:
    """What more of a lot she has would do, under its heading."""
    completed = [(lack.missing, lack.completed) for lack in lacks if lack.completed]
    if completed:
        yield ""
        yield "Or, if your shop still has the same dye lot:"
    for missing, more in completed:
        lot = more.lot.lot
        skeins = "skein" if more.skeins == 1 else "skeins"
        yield (
            f"  {_what_for(missing)}: {more.skeins} more {skeins} of "
            f"{full_skein(more.full.mass, more.full.length)}, "
            f"{page.patch(lot)}{colour_name(lot)}, {lot.yarn}, {dye_lot(lot)} ({lot.ref})"
            f"{_has(more.lot)}"
        )


def _has(held: HeldLot) -> str:
    """What is free of a lot, where that is known."""
    return f": you have {figures.down(held.free_length)}" if held.free_length else ""
