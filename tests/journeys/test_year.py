"""A seller's year as a workbook, against a calculation of its own and all that commands say."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from fractions import Fraction
from pathlib import Path
from random import Random

import pytest
from books import a_book, a_design
from by_hand_year import Worked, worked_out
from seasons import Season
from sums import Workbook

from stash.actions import clock, cost, log, log_sum, sales, value, year
from stash.actions.book import Book
from stash.actions.settings import change_setting
from stash.costing.pools import Method
from stash.exchange.year_book import to_workbook
from stash.rendering.year import sheets
from stash.stock.turnover import Way

SUNDRIES = 55
#: Columns of the sheet of items, and what the calculation calls them.
ITEMS = {
    "D": "opening", "E": "made", "F": "sold", "G": "given", "H": "lost", "I": "apart",
    "J": "closing",
}  # fmt: skip


@pytest.fixture(scope="module", params=[1, 2])
def season(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Season]:
    """Half a year before, a year with 300 things that happen, and some weeks after it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(clock, "today", lambda: date(2027, 2, 20))
        book = a_book(tmp_path_factory.mktemp("year"))
        change_setting(book, "sundries", str(SUNDRIES))
        a_design(book, A=20)
        found = Season(book, Random(request.param), date(2025, 7, 1))
        found.go_on(60, date(2025, 12, 31))
        found.day = date(2026, 1, 1)
        found.go_on(300, date(2026, 12, 31))
        found.go_on(30, date(2027, 2, 10))
        yield found


@contextmanager
def kept_by(book: Book, method: Method) -> Iterator[None]:
    """2026 is kept by this method; the choice is taken back afterwards."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(clock, "today", lambda: date(2026, 12, 31))
        entry = change_setting(book, "valuation", method.value)
    yield
    log.undo(book, entry)


def workbook(book: Book, folder: Path) -> Workbook:
    found = year.year(book, 2026)
    path = folder / "year.xlsx"
    path.write_bytes(to_workbook(sheets(found), "EUR"))
    return Workbook(path)


@pytest.mark.parametrize("method", [*Method])
def test_every_sum_of_the_year_is_worked_out_the_same_by_itself(
    season: Season, tmp_path: Path, method: Method
) -> None:
    """IAS 2, paragraphs 23 and 25, as `by_hand_year` reads them; to the coin."""
    with kept_by(season.book, method):
        expected = worked_out(season.told, season.yarn_of, method.value, 2026, SUNDRIES)
        book = workbook(season.book, tmp_path)

        assert in_coins(book) == by_hand(expected)
        _as_the_commands_say(season, book, expected)


def in_coins(book: Workbook) -> dict[str, Fraction]:
    """The sums of every sheet, in coins."""
    sums = {
        "opening": book.labelled("Opening", "in all", "C"),
        "bought": book.labelled("Bought", "in all", "H"),
        "used": book.labelled("Used", "in all", "H"),
        "gone": book.labelled("Gone", "in all", "H"),
        "closing": book.labelled("Closing", "in all", "C"),
        "price": book.labelled("Sales", "in all", "F"),
        "fee": book.labelled("Fees", "in all", "E"),
        "yarn": book.labelled("Sales", "in all", "H"),
        "sundries": book.labelled("Sales", "in all", "I"),
        "profit": book.labelled("Profit", "= profit on sales", "B"),
        **{f"items {name}": book.labelled("Items", "in all", x) for x, name in ITEMS.items()},
    }
    return {name: amount * 100 for name, amount in sums.items()}


def by_hand(found: Worked) -> dict[str, Fraction]:
    names = ("opening", "bought", "used", "gone", "closing", "price", "fee", "yarn", "sundries",
             "profit")  # fmt: skip
    whole = {name: Fraction(getattr(found, name)) for name in names}
    return whole | {f"items {name}": Fraction(found.items[name]) for name in ITEMS.values()}


def _as_the_commands_say(season: Season, sheet: Workbook, expected: Worked) -> None:
    book, first, last = season.book, date(2026, 1, 1), date(2026, 12, 31)
    worth = value.value(book, last)
    summed = log_sum.log_sum(book, first, last).whole
    sold = sales.total_of(sales.sales(book, first, last).lines)

    assert worth.valuation.closing.stock.cost.coins == summed.closing.cost.coins
    assert summed.closing.cost.coins == expected.closing
    assert (worth.takings.coins, worth.fees.coins) == (expected.price, expected.fee)
    assert (sold.price.coins, sold.profit.coins) == (expected.price, expected.profit)
    moved = summed.of(Way.IN).cost.coins + summed.of(Way.OUT).cost.coins
    assert moved + summed.of(Way.WOUND_OFF).cost.coins == expected.closing - expected.opening
    for column in "BC":
        assert sheet.labelled("Closing", "difference to the list above (must be 0)", column) == 0
    _each_sold_item_costs_the_same(season)


def _each_sold_item_costs_the_same(season: Season) -> None:
    """What `cost` says of an item in its year is what stands beside its sale."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(clock, "today", lambda: date(2026, 12, 31))
        lines = sales.sales(season.book, date(2026, 1, 1)).lines
        beside = {one.item.number: one.yarn.cost for one in lines if one.item and not one.back}
        still_sold = [item for item, how in season.away.items() if how == "sold" and item in beside]
        assert len(still_sold) > 5
        for item in still_sold[:10]:
            assert cost.cost(season.book, [str(item)])[0].costing.yarn_cost == beside[item]


def test_every_number_is_a_number_with_its_format_and_every_sum_a_formula(
    season: Season, tmp_path: Path
) -> None:
    book = workbook(season.book, tmp_path)

    assert list(book.sheets) == [
        "Opening", "Bought", "Found", "Used", "Gone", "Closing", "Items", "Sales", "Fees", "Profit",
        "Method",
    ]  # fmt: skip
    used = [row[0].value for row in book.sheets["Used"].iter_rows()]
    assert "sum: for items" in used
    for name, sheet in book.sheets.items():
        for row in sheet.iter_rows(min_row=2):
            for cell in row:
                if isinstance(cell.value, int | float) or cell.data_type == "f":
                    assert cell.number_format not in ("General", "@"), (name, cell.coordinate)
                if isinstance(cell.value, str) and cell.data_type == "s":
                    assert not cell.value.replace(".", "").isdigit(), (name, cell.coordinate)
            if row[0].value == "in all" and sheet.max_row > 2:
                assert any(cell.data_type == "f" for cell in row), name
