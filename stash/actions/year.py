"""A seller's year: everything that came, went and is there at cost, and what was earned by it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import clock
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.method import method_of
from stash.actions.priced import Priced
from stash.actions.sales import SoldLine, sold_lines
from stash.actions.value import turns
from stash.costing.pools import Method
from stash.costing.valuation import Flow, Valuation, flow, priced_together, stock_parts, valuation
from stash.errors import Refusal
from stash.stock.item import Item
from stash.stock.turnover import NOTHING, MeasuredMovement, Total
from stash.stock.yarn import Lot
from stash.store import item_rows, sale_rows


@dataclass(frozen=True, slots=True)
class YarnMoved:
    """One movement of the year, with the record of its skein."""

    moved: MeasuredMovement
    lot: Lot


@dataclass(frozen=True, slots=True)
class Year:
    """A year up to its last day or today, by its one method.

    `opening` and `closing` are what was there of each yarn (maker and name); `moved` all movements
    by what they are; `sold` everything that went to a buyer or otherwise and came back.
    """

    first: date
    last: date
    method: Method
    opening: Sequence[tuple[str, Total]]
    closing: Sequence[tuple[str, Total]]
    moved: Mapping[Flow, Sequence[YarnMoved]]
    valuation: Valuation
    items: Mapping[int, Item]
    sold: Sequence[SoldLine]
    settings: Settings


def year(book: Book, number: int) -> Year:
    """The year of this number; it must have begun."""
    first, last = date(number, 1, 1), min(date(number, 12, 31), clock.today())
    if first > last:
        raise Refusal("year_not_come", year=number)
    with book.reading() as db:
        settings = Settings.read(db)
        priced = Priced.read(db, method_of(db, number))
        facts = sale_rows.sales(db)
        lines = sold_lines(db, settings, priced, facts)
        worth = valuation(
            priced.method, priced.moved, turns(db, facts), priced.yarns, (first, last)
        )
        items = {a.number: a for a in item_rows.items(db)}
    moved: dict[Flow, list[YarnMoved]] = {one: [] for one in Flow}
    for m in priced.moved:
        if first <= m.on <= last:
            moved[flow(m)].append(YarnMoved(m, priced.lot(m.skein)))
    return Year(
        first=first,
        last=last,
        method=priced.method,
        opening=_by_yarn(priced, [m for m in priced.moved if m.on < first]),
        closing=_by_yarn(priced, [m for m in priced.moved if m.on <= last]),
        moved=moved,
        valuation=worth,
        items=items,
        sold=[one for one in lines if first <= one.on <= last],
        settings=settings,
    )


def _by_yarn(priced: Priced, moved: Sequence[MeasuredMovement]) -> list[tuple[str, Total]]:
    """What is there of each yarn, by its name, after all that."""
    yarns = priced.yarns
    held = priced_together(priced.method, moved, yarns)
    names = {lot.yarn.id: str(lot.yarn) for lot in priced.lots.values()}
    parts: dict[int, Total] = {}
    by_skein = priced.method is Method.SPECIFIC
    for key, total in stock_parts(moved, held).items():
        yarn = yarns[key] if by_skein else key
        parts[yarn] = parts.get(yarn, NOTHING) + total
    there = sorted((names[yarn].casefold(), yarn) for yarn, total in parts.items() if total)
    return [(names[yarn], parts[yarn]) for _, yarn in there]
