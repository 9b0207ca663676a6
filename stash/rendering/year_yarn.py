"""The sheets of a year that are about yarn: what was there, what moved, and that it adds up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from stash.costing.valuation import Flow
from stash.measures.mass import Mass
from stash.rendering.items import item_named
from stash.rendering.workbook import (
    BLANK,
    Cell,
    Sheet,
    Style,
    Totals,
    column_sum,
    formula,
    heads,
    words,
)
from stash.stock.movement import Kind
from stash.stock.turnover import MeasuredMovement, Total, Way

if TYPE_CHECKING:
    from stash.actions.year import YarnMoved, Year

AT_LEAST = "at least: some prices are not known"
#: Why yarn went, where its own word is not what a person says.
WHY = {
    Kind.GIVEN: "given away",
    Kind.CORRECTED: "missing on the scale",
    Kind.RESTATED: "grams corrected",
    Kind.WOUND_OFF: "rounded where wound off",
    Kind.MISTAKEN: "noted by mistake",
}
_IN = (Flow.BOUGHT, Flow.FOUND)
_CAME = {Kind.ARRIVED: "bought or received", Kind.CORRECTED: "found on the scale"}


def stock_sheet(totals: Totals, name: str, parts: Sequence[tuple[str, Total]]) -> Sheet:
    """What was there of each yarn."""
    sheet = Sheet(name, (36, 14, 14, 32))
    sheet.add(*heads("yarn", "grams", "cost", "note"))
    for yarn, total in parts:
        note = "" if total.all_priced else AT_LEAST
        sheet.add(words(yarn), _grams(total.mass), cost_cell(totals, total), words(note))
    rows = range(2, len(sheet.rows) + 1)
    end = sheet.add(
        words("in all", bold=True),
        column_sum("B", rows, Style.GRAMS),
        column_sum("C", rows, Style.MONEY),
    )
    totals.places |= {f"{name} g": sheet.ref("B", end), name: sheet.ref("C", end)}
    return sheet


def cost_cell(totals: Totals, total: Total) -> Cell:
    """What some yarn cost; blank where no price of it is known, for it did not cost nothing."""
    return totals.money(total.cost) if total.all_priced or total.cost.coins else BLANK


def moved_sheet(totals: Totals, year: Year, of: Flow, name: str) -> Sheet:
    """Movements by day, in blocks each with its sum, and the sum of those sums."""
    sheet = Sheet(name, (12, 8, 8, 30, 20, 26, 12, 12, 32))
    sheet.add(*heads("day", "entry", "skein", "yarn", "colour", "what", "grams", "cost", "note"))
    ends = []
    sign = 1 if of in _IN else -1
    for block, some in blocks(year, of).items():
        first = len(sheet.rows) + 1
        for one in some:
            sheet.add(*_movement(totals, year, one, sign))
        ends.append(_block_end(totals, sheet, block, range(first, len(sheet.rows) + 1)))
    cells = (
        formula("+".join(f"{column}{end}" for end in ends), style)
        if ends
        else Cell(0, style, bold=True)
        for column, style in (("G", Style.GRAMS), ("H", Style.MONEY))
    )
    end = sheet.add(words("in all", bold=True), *[BLANK] * 5, *cells)
    totals.places |= {f"{name} g": sheet.ref("G", end), name: sheet.ref("H", end)}
    return sheet


def _block_end(totals: Totals, sheet: Sheet, block: str, rows: range) -> int:
    end = sheet.add(
        words(f"sum: {block}", bold=True),
        *[BLANK] * 5,
        column_sum("G", rows, Style.GRAMS),
        column_sum("H", rows, Style.MONEY),
    )
    totals.places[f"{sheet.name} {block}"] = sheet.ref("H", end)
    return end


def _movement(totals: Totals, year: Year, one: YarnMoved, sign: int) -> Iterator[Cell]:
    m, total = one.moved, one.moved.total if sign > 0 else -one.moved.total
    yield Cell(m.on, Style.DAY)
    yield Cell(m.entry, Style.COUNT)
    yield Cell(m.skein, Style.COUNT)
    yield words(str(one.lot.yarn))
    yield words(one.lot.colour)
    yield words(_what(year, m))
    yield _grams(total.mass)
    yield cost_cell(totals, total)
    yield words("" if total.all_priced else "price not known")


def _what(year: Year, m: MeasuredMovement) -> str:
    item = year.items.get(m.movement.item or 0)
    if item is not None:
        back = "back from " if m.kind is Kind.UNRAVELLED else ""
        return f"{back}{item_named(item)}"
    return (_CAME if m.way is Way.IN else WHY).get(m.kind, m.kind.value)


def with_check(totals: Totals, sheet: Sheet) -> Sheet:
    """Under what is there: how it came about, and the difference, which must be nothing."""
    sheet.add()
    steps = (("Opening", "at the start"), ("Bought", "+ bought"), ("Found", "+ found"),
             ("Used", "- used"), ("Gone", "- gone otherwise"))  # fmt: skip
    rows = [
        sheet.add(
            words(called),
            formula(totals.of(f"{name} g"), Style.GRAMS, bold=False),
            formula(totals.of(name), Style.MONEY, bold=False),
        )
        for name, called in steps
    ]
    opening, bought, found, used, gone = rows
    worked = sheet.add(
        words("= at the end", bold=True),
        *(
            formula(f"{x}{opening}+{x}{bought}+{x}{found}-{x}{used}-{x}{gone}", style)
            for x, style in (("B", Style.GRAMS), ("C", Style.MONEY))
        ),
    )
    listed = {x: totals.of(name).partition("!")[2] for x, name in
              (("B", "Closing g"), ("C", "Closing"))}  # fmt: skip
    sheet.add(
        words("difference to the list above (must be 0)"),
        formula(f"B{worked}-{listed['B']}", Style.GRAMS),
        formula(f"C{worked}-{listed['C']}", Style.MONEY),
    )
    return sheet


def blocks(year: Year, of: Flow) -> dict[str, list[YarnMoved]]:
    """The movements of one kind in the order of the days, each block under what it is called."""
    found: dict[str, list[YarnMoved]] = {}
    for one in year.moved[of]:
        found.setdefault(_block(one.moved, of), []).append(one)
    return dict(sorted(found.items()))


def _block(m: MeasuredMovement, of: Flow) -> str:
    if of is Flow.USED:
        return "for items" if m.movement.item is not None else "for no item"
    return (_CAME if of in _IN else WHY).get(m.kind, m.kind.value)


def _grams(mass: Mass) -> Cell:
    return Cell(mass.g, Style.GRAMS)
