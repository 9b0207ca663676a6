"""A seller's year as the sheets of a workbook: numbers as numbers, sums as formulas to follow."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from stash.costing.valuation import HERS, Flow, Where
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering.amounts import Page
from stash.rendering.items import item_named
from stash.rendering.sales import happened, how_sure
from stash.rendering.value import METHODS
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
from stash.rendering.year_yarn import (
    AT_LEAST,
    WHY,
    blocks,
    cost_cell,
    moved_sheet,
    stock_sheet,
    with_check,
)
from stash.stock.movement import Kind
from stash.stock.sale import SaleKind
from stash.stock.turnover import NOTHING, Total

if TYPE_CHECKING:
    from stash.actions.sales import SoldLine
    from stash.actions.year import Year


def sheets(year: Year) -> list[Sheet]:
    """All the sheets, in the order in which they are read."""
    totals = Totals(year.settings.currency)
    return [
        stock_sheet(totals, "Opening", year.opening),
        moved_sheet(totals, year, Flow.BOUGHT, "Bought"),
        moved_sheet(totals, year, Flow.FOUND, "Found"),
        moved_sheet(totals, year, Flow.USED, "Used"),
        moved_sheet(totals, year, Flow.GONE, "Gone"),
        with_check(totals, stock_sheet(totals, "Closing", year.closing)),
        _items(totals, year),
        _sales(totals, year),
        _fees(totals, year),
        _profit(totals, year),
        _method(year),
    ]


def _items(totals: Totals, year: Year) -> Sheet:
    """Each item at the cost of its yarn: what was hers, what was made, how it went."""
    sheet = Sheet("Items", (8, 28, 16, *[12] * 7, 32))
    sheet.add(
        *heads(
            "item", "design", "at the end", "opening", "made", "sold", "given away", "lost",
            "unravelled", "closing", "note",
        )
    )  # fmt: skip
    for number, amounts, where, known in _item_amounts(year):
        row = len(sheet.rows) + 1
        item = year.items[number]
        sheet.add(
            Cell(number, Style.COUNT),
            words(item.design or item.note),
            words(_STANDS.get(where, where.value)),
            *map(totals.money, amounts),
            formula(f"D{row}+E{row}-F{row}-G{row}-H{row}-I{row}", Style.MONEY, bold=False),
            words("" if known else AT_LEAST),
        )
    rows = range(2, len(sheet.rows) + 1)
    end = sheet.add(
        words("in all", bold=True),
        BLANK,
        BLANK,
        *(column_sum(column, rows, Style.MONEY) for column in "DEFGHIJ"),
    )
    for name, column in zip(_COLUMNS, "DEFGHIJ", strict=True):
        totals.places[f"Items {name}"] = sheet.ref(column, end)
    return sheet


def _sales(totals: Totals, year: Year) -> Sheet:
    """Every sale and return, as `stash sales` lists them."""
    sheet = Sheet("Sales", (12, 8, 12, 8, 32, *[12] * 7, 32))
    sheet.add(
        *heads(
            "day", "entry", "what", "item", "design or yarn", "price", "fee", "yarn",
            "sundries", "profit", "hours", "an hour", "note",
        )
    )  # fmt: skip
    for one in _to_buyers(year):
        sheet.add(*_sale(totals, one, len(sheet.rows) + 1))
    rows = range(2, len(sheet.rows) + 1)
    end = sheet.add(
        words("in all", bold=True),
        *[BLANK] * 4,
        *(column_sum(column, rows, Style.MONEY) for column in "FGHIJ"),
        column_sum("K", rows, Style.HOURS),
    )
    for name, column in zip(("price", "fee", "yarn", "sundries", "profit"), "FGHIJ",
                            strict=True):  # fmt: skip
        totals.places[f"Sales {name}"] = sheet.ref(column, end)
    return sheet


def _sale(totals: Totals, one: SoldLine, row: int) -> Iterator[Cell]:
    yield Cell(one.on, Style.DAY)
    yield Cell(one.entry, Style.COUNT)
    yield words(happened(one))
    yield Cell(one.item.number if one.item else None, Style.COUNT)
    yield words(_named(one))
    yield totals.money(one.price) if one.price is not None else BLANK
    yield totals.money(one.fee)
    yield cost_cell(totals, one.yarn)
    yield totals.money(one.sundries)
    yield formula(f"F{row}-G{row}-H{row}-I{row}", Style.MONEY, bold=False)
    yield Cell(None if one.hours is None else float(one.hours), Style.HOURS)
    yield BLANK if one.per_hour is None else totals.money(one.per_hour)
    yield words("; ".join(_lacks(one)))


def _fees(totals: Totals, year: Year) -> Sheet:
    """What places of sale kept, and what came back of it."""
    sheet = Sheet("Fees", (12, 8, 12, 36, 12))
    sheet.add(*heads("day", "entry", "what", "of", "fee"))
    for one in _to_buyers(year):
        if one.fee.coins:
            of = item_named(one.item) if one.item else _named(one)
            sheet.add(
                Cell(one.on, Style.DAY),
                Cell(one.entry, Style.COUNT),
                words(happened(one)),
                words(of),
                totals.money(one.fee),
            )
    rows = range(2, len(sheet.rows) + 1)
    end = sheet.add(words("in all", bold=True), *[BLANK] * 3, column_sum("E", rows, Style.MONEY))
    totals.places["Fees"] = sheet.ref("E", end)
    return sheet


def _profit(totals: Totals, year: Year) -> Sheet:
    """What is left of what buyers paid, and of that after what was lost."""
    sheet = Sheet("Profit", (52, 16))
    sheet.add(*heads("", "amount"))
    sold = _lines(
        totals,
        sheet,
        ("sold for", "Sales price"),
        ("- fees", "Fees"),
        ("- yarn in what was sold", "Sales yarn"),
        ("- sundries in what was sold", "Sales sundries"),
    )
    profit = sheet.add(
        words("= profit on sales", bold=True),
        formula("-".join(f"B{row}" for row in sold), Style.MONEY),
    )
    lost = _lines(
        totals,
        sheet,
        ("- items lost", "Items lost"),
        ("- yarn lost by unravelling", "Items unravelled"),
        ("- yarn used for no item", "Used for no item"),
        *(
            (f"- yarn {why}", f"Gone {why}")
            for why in blocks(year, Flow.GONE)
            if why not in _NO_LOSS
        ),
    )
    sheet.add(
        words("= left after that", bold=True),
        formula("-".join(f"B{row}" for row in (profit, *lost)), Style.MONEY),
    )
    sheet.add()
    _lines(
        totals,
        sheet,
        ("items given away, at cost (not taken off above)", "Items given away"),
        ("yarn given away, at cost (not taken off above)", f"Gone {WHY[Kind.GIVEN]}"),
    )
    sheet.add(words("Your hours are not taken off. What counts for tax: check local rules."))
    return sheet


def _lines(totals: Totals, sheet: Sheet, *lines: tuple[str, str]) -> list[int]:
    return [
        sheet.add(words(called), formula(totals.of(name), Style.MONEY, bold=False))
        for called, name in lines
    ]


def _method(year: Year) -> Sheet:
    """How yarn is priced, in what money, of which days, and what is not known."""
    sheet = Sheet("Method", (24, 90))
    sheet.add(*heads("", ""))
    sheet.add(words("year"), Cell(year.first.year, Style.COUNT))
    sheet.add(words("from"), Cell(year.first, Style.DAY))
    sheet.add(words("to"), Cell(year.last, Style.DAY))
    sheet.add(words("currency"), words(year.settings.currency or "not set"))
    sheet.add(words("method"), words(year.method.value))
    sheet.add(words("what leaves is priced"), words(METHODS[year.method]))
    sheet.add(words("items"), words("at the cost of the yarn in them, without your hours"))
    for note in year_notes(year):
        sheet.add(words("note"), words(note))
    return sheet


def _named(one: SoldLine) -> str:
    if one.item is not None:
        return one.item.design or one.item.note
    yarn = f"{one.lot.yarn} {one.lot.colour}".strip() if one.lot else ""
    return f"yarn: skein {one.skein}, {yarn}"


def _lacks(one: SoldLine) -> Iterator[str]:
    if one.price is None:
        yield "price not noted"
    if not one.yarn.all_priced:
        yield "cost of yarn at least"
    if one.hours is not None and not one.noted:
        yield "hours as planned"


def _to_buyers(year: Year) -> Iterable[SoldLine]:
    return (one for one in year.sold if one.way is SaleKind.SOLD)


#: What went and is no loss: it was paid for, given, or never there.
_NO_LOSS = (Kind.SOLD.value, WHY[Kind.GIVEN], WHY[Kind.MISTAKEN])
#: The columns of money of an item, and where an item may be at the end of the year.
_COLUMNS = ("opening", "made", "sold", "given away", "lost", "unravelled", "closing")
_WENT = (Where.SOLD, Where.GIVEN, Where.LOST, Where.UNRAVELLED)
_STANDS = {Where.UNDER_WAY: "in the making", Where.GIVEN: "given away"}


def _item_amounts(year: Year) -> Iterator[tuple[int, list[Money], Where, bool]]:
    """Each item that was hers in the year: opening, made, and what went each way; where it is."""
    opening, closing = year.valuation.opening.items, year.valuation.closing.items
    for number, (where, total) in closing.items():
        stood, was = opening.get(number, (where, NOTHING))
        amounts = [
            was.cost if stood in HERS else Money(0),
            total.cost - was.cost,
            *(_at(where, total, one) - _at(stood, was, one) for one in _WENT),
        ]
        moved = number not in opening or stood is not where or any(a.coins for a in amounts)
        if where in HERS or moved:
            yield number, amounts, where, total.all_priced


def _at(where: Where, total: Total, wanted: Where) -> Money:
    return total.cost if where is wanted else Money(0)


def text(year: Year, target: Path, page: Page) -> str:
    """Where the year is, and its main figures."""
    sold = list(_to_buyers(year))
    price = sum((one.paid for one in sold), Money(0))
    profit = sum((one.profit for one in sold), Money(0))
    money = year.settings.currency
    worth = year.valuation.closing.whole
    least = "" if worth.all_priced else "at least "
    yarn_known = all(one.yarn.all_priced for one in sold)
    sure = how_sure(all(one.price is not None for one in sold), yarn_known)
    return "\n".join(
        [
            f"{page.strong(f'Saved {year.first.year}')}, up to {year.last}, in {target}",
            f"  sales {show_money(price, money)}, profit on them {sure}{show_money(profit, money)}",
            f"  yarn and items at the end {least}{show_money(worth.cost, money)}, at cost",
        ]
    )


def year_notes(year: Year) -> list[str]:
    """What the figures lack."""
    notes = []
    worth = year.valuation
    parts = (
        worth.opening.stock,
        worth.closing.whole,
        worth.used,
        worth.gone,
        worth.bought,
        worth.found,
    )
    if not all(part.all_priced for part in parts):
        notes.append(
            "the price of some yarn is not known and counts as nothing; "
            "`stash value` says of which skeins"
        )
    if any(one.price is None for one in _to_buyers(year)):
        notes.append("what some yarn was sold for is not known; `stash sales` says which")
    return notes
