"""What was sold over a span of days, what came back, and what went without a buyer."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from stash.actions import clock
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.method import method_of
from stash.actions.priced import Priced
from stash.costing.pools import Method
from stash.costing.price import NO_MONEY, Costing, Terms, YarnCost
from stash.costing.valuation import Flow, flow
from stash.errors import Refusal
from stash.measures.money import Money
from stash.stock.item import Item
from stash.stock.movement import Kind
from stash.stock.sale import Sale, SaleKind
from stash.stock.turnover import NOTHING, MeasuredMovement, Total
from stash.stock.yarn import Lot
from stash.store import item_rows, sale_rows
from stash.store.engine import Connection


class Every(StrEnum):
    """How long the periods are that sales are divided into; *all* divides nothing."""

    WEEK = "week"
    MONTH = "month"
    ALL = "all"


@dataclass(frozen=True, slots=True)
class SoldLine:
    """One thing that was sold, came back, or went without a buyer; what came back is below nothing.

    It is of an `item`, or of yarn of a `skein`. `way` is how it went; `back` says that it came back
    from there. `yarn` is what its yarn cost, with what of that is known; `price` is None where
    nobody said what yarn was sold for. `noted` tells hours it took from hours it was to take.
    """

    on: date
    entry: int
    way: SaleKind
    back: bool
    item: Item | None
    skein: int | None
    lot: Lot | None
    price: Money | None
    fee: Money
    yarn: Total
    sundries: Money
    hours: Fraction | None
    noted: bool
    earned: Fraction | None

    @property
    def paid(self) -> Money:
        """The price; one that is not known counts as nothing."""
        return self.price or NO_MONEY

    @property
    def profit(self) -> Money:
        """What is left of the price when fee, yarn and sundries are paid."""
        return self.paid - self.fee - self.yarn.cost - self.sundries

    @property
    def sure(self) -> bool:
        """Whether its price and all of its cost are known."""
        return self.price is not None and self.yarn.all_priced

    @property
    def per_hour(self) -> Money | None:
        """What an hour of it earned, down to the coin; None of what came back or has no hours."""
        return None if self.back else hourly([self])


@dataclass(frozen=True, slots=True)
class SoldTotal:
    """The sums of some lines; where `yarn_known` or `price_known` is not, they are at least so.

    `hours` and `per_hour` are of the items whose hours are known; `hourly_known` says that the cost
    of all of those is.
    """

    price: Money
    fee: Money
    yarn: Money
    sundries: Money
    profit: Money
    hours: Fraction
    per_hour: Money | None
    price_known: bool
    yarn_known: bool
    hourly_known: bool


@dataclass(frozen=True, slots=True)
class Sales:
    """A span of days: sales and returns as `lines`, and what went otherwise as `unsold`."""

    first: date | None
    last: date
    method: Method
    lines: tuple[SoldLine, ...]
    unsold: tuple[SoldLine, ...]
    settings: Settings


def sales(book: Book, first: date | None = None, last: date | None = None) -> Sales:
    """Sales from `first` to `last`, both included; from the beginning and until today if None.

    Yarn is priced by the method of the year in which the span ends, as `log_sum` has it.
    """
    last = last or clock.today()
    if first is not None and first > last:
        raise Refusal("span_backwards", first=first, last=last)
    with book.reading() as db:
        settings = Settings.read(db)
        priced = Priced.read(db, method_of(db, last.year))
        lines = sold_lines(db, settings, priced, sale_rows.sales(db))
    within = [one for one in lines if (first is None or first <= one.on) and one.on <= last]
    return Sales(
        first=first,
        last=last,
        method=priced.method,
        lines=tuple(one for one in within if one.way is SaleKind.SOLD),
        unsold=tuple(one for one in within if one.way is not SaleKind.SOLD),
        settings=settings,
    )


def sold_lines(
    db: Connection, settings: Settings, priced: Priced, facts: Sequence[Sale]
) -> list[SoldLine]:
    """Everything that went, to a buyer or otherwise, or came back, and yarn sold, by day."""
    items = {a.number: a for a in item_rows.items(db)}
    worked = _worked_by_item(priced.moved)
    minutes = sale_rows.minutes(db)
    found: list[SoldLine] = []
    went: dict[int, SaleKind] = {}
    for fact in facts:
        item = items[fact.item]
        back = fact.kind is SaleKind.RETURNED
        way = went[fact.item] if back else fact.kind
        went[fact.item] = way
        yarn = sum((m.total for m in worked.get(fact.item, ()) if m.entry < fact.entry), NOTHING)
        found.append(_of_item(fact, way, item, -yarn, _hours(settings, item, minutes), settings))
    found += [_of_yarn(m, priced) for m in priced.moved if m.kind is Kind.SOLD]
    return sorted(found, key=lambda one: (one.on, one.entry))


def _worked_by_item(moved: Iterable[MeasuredMovement]) -> dict[int, list[MeasuredMovement]]:
    found: dict[int, list[MeasuredMovement]] = {}
    for m in moved:
        if m.movement.item is not None and flow(m) is Flow.USED:
            found.setdefault(m.movement.item, []).append(m)
    return found


def _hours(
    settings: Settings, item: Item, minutes: Mapping[int, sale_rows.Minutes]
) -> tuple[Fraction | None, bool]:
    """What it really took (True), else what it was to take, else what its design usually takes."""
    known = minutes[item.number]
    if known.made is not None:
        return Fraction(known.made, 60), True
    if known.asked is not None:
        return Fraction(known.asked, 60), False
    return settings.hours(item.design), False


def _of_item(
    fact: Sale,
    way: SaleKind,
    item: Item,
    yarn: Total,
    hours: tuple[Fraction | None, bool],
    settings: Settings,
) -> SoldLine:
    back = fact.kind is SaleKind.RETURNED
    sign = -1 if back else 1
    took, noted = hours
    sundries = settings.sundries or NO_MONEY
    costing = Costing(
        (YarnCost(0, "", yarn.mass, yarn.cost, yarn.all_priced),),
        Terms(sundries, took, None, settings.overhead or Fraction(0)),
    )
    pays = costing.earns(fact.price, fact.fee) if way is SaleKind.SOLD else None
    return SoldLine(
        on=fact.on,
        entry=fact.entry,
        way=way,
        back=back,
        item=item,
        skein=None,
        lot=None,
        price=fact.price * sign,
        fee=fact.fee * sign,
        yarn=-yarn if back else yarn,
        sundries=sundries * sign,
        hours=None if took is None else took * sign,
        noted=noted,
        earned=None if pays is None or took is None else pays * took * sign,
    )


def _of_yarn(m: MeasuredMovement, priced: Priced) -> SoldLine:
    return SoldLine(
        on=m.on,
        entry=m.entry,
        way=SaleKind.SOLD,
        back=False,
        item=None,
        skein=m.skein,
        lot=priced.lot(m.skein),
        price=m.movement.price,
        fee=m.movement.fee or NO_MONEY,
        yarn=-m.total,
        sundries=NO_MONEY,
        hours=None,
        noted=False,
        earned=None,
    )


def hourly(lines: Iterable[SoldLine]) -> Money | None:
    """What an hour earned over some lines, down to the coin, of those whose hours are known."""
    known = [(one.earned, one.hours) for one in lines if one.earned is not None and one.hours]
    hours = sum((hours for _, hours in known), Fraction(0))
    earned = sum((earned for earned, _ in known), Fraction(0))
    return Money(math.floor(earned / hours)) if hours > 0 else None


def total_of(lines: Sequence[SoldLine]) -> SoldTotal:
    """The sums of the lines, as they are shown."""
    return SoldTotal(
        price=sum((one.paid for one in lines), NO_MONEY),
        fee=sum((one.fee for one in lines), NO_MONEY),
        yarn=sum((one.yarn.cost for one in lines), NO_MONEY),
        sundries=sum((one.sundries for one in lines), NO_MONEY),
        profit=sum((one.profit for one in lines), NO_MONEY),
        hours=sum((one.hours for one in lines if one.hours is not None), Fraction(0)),
        per_hour=hourly(lines),
        price_known=all(one.price is not None for one in lines),
        yarn_known=all(one.yarn.all_priced for one in lines),
        hourly_known=all(one.yarn.all_priced for one in lines if one.hours is not None),
    )


def periods(lines: Sequence[SoldLine], every: Every) -> list[tuple[date, list[SoldLine]]]:
    """The lines by week or month in order, each with its first day; a week begins on Monday."""
    found: dict[date, list[SoldLine]] = {}
    for one in lines:
        found.setdefault(_begin(one.on, every), []).append(one)
    return sorted(found.items())


def _begin(day: date, every: Every) -> date:
    if every is Every.WEEK:
        return day - timedelta(days=day.weekday())
    return day.replace(day=1)
