"""Short lists about items: what the balls weigh now, and what was sold at a market.

Such a list is a csv or an xlsx with headings; other columns than the known ones are left alone.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path

from stash.actions.done_list import BallRow
from stash.actions.several import Listed
from stash.actions.sold import NO_MONEY, Price, SaleRow
from stash.errors import BadInput, FileTrouble, StashError, Unreadable
from stash.exchange import readers
from stash.exchange.raw_rows import MOST_COLUMNS, RawRow, bounded, cell_text
from stash.exchange.tables import DITTO, TOTALS
from stash.exchange.workbooks import workbook_rows
from stash.parsing import coins, quantities
from stash.parsing.headings import KnownHeadings
from stash.parsing.numbers import listed

#: The columns of each list, with the other words people head them by (common practice, no source).
WEIGHINGS: Mapping[str, Sequence[str]] = {
    "item": ("item", "items", "number", "numbers", "no", "hat", "batch"),
    "ball": ("ball", "skein", "yarn"),
    "reading": ("reading", "weight", "left", "now", "grams", "scale"),
}
MARKET: Mapping[str, Sequence[str]] = {
    "item": ("item", "items", "item or design", "number", "no"),
    "design": ("design", "what", "article", "name"),
    "price": ("price", "paid", "for", "amount", "takings", "sold for"),
    "fee": ("fee", "fees", "commission"),
    "note": ("note", "notes", "remark", "comment", "who", "buyer"),
}
_SEARCHED = 20
_Row = tuple[int, dict[str, str]]


def weighings(path: Path) -> Listed[BallRow]:
    """A list of items, ball and reading; where they are left blank they are those of the row above.

    A ball that several items were made from has them as `1-4`. A bare figure is of the unit in its
    heading; where none is there either, it is found as unclear, as `weigh` asks about it.
    """
    rows = _rows(path, WEIGHINGS)
    good: list[tuple[int, BallRow]] = []
    unread: list[tuple[int, StashError]] = []
    item, seen = "", set[tuple[str, str]]()
    for line, cells in rows:
        item = cells.get("item", item)
        try:
            _refuse_gaps({"item": item, **cells}, WEIGHINGS)
            ball, items = _number(cells["ball"]), _items(item)
            for one in items:
                if (one, ball) in seen:
                    raise BadInput("ball_twice", ball=ball, item=one)
                seen.add((one, ball))
            reading = quantities.mass(cells["reading"])
            good.append((line, BallRow(items, ball, reading)))
        except StashError as why:
            unread.append((line, why))
    return Listed(path.name, good, unread)


def market(path: Path, currency: str) -> tuple[Listed[SaleRow], str]:
    """A list of item or design, price, fee and note; and the currency its prices came in."""
    good: list[tuple[int, SaleRow]] = []
    unread: list[tuple[int, StashError]] = []
    for line, cells in _rows(path, MARKET):
        try:
            what = {"item": cells.get("item") or cells.get("design", "")}
            _refuse_gaps({**cells, **what}, ("item", "price"))
            prices = [cells["price"], cells.get("fee", "")]
            (price, fee), currency = coins.typed_together(prices, currency)
            paid = Price(price or NO_MONEY, fee or NO_MONEY)
            good.append((line, SaleRow(_number(what["item"]), paid, cells.get("note", ""))))
        except StashError as why:
            unread.append((line, why))
    return Listed(path.name, good, unread), currency


def _refuse_gaps(cells: Mapping[str, str], columns: Iterable[str]) -> None:
    for column in columns:
        if not cells.get(column):
            raise BadInput("cell_missing", column=column)


def _items(text: str) -> tuple[str, ...]:
    """`1,4-6` as its numbers; a name stays."""
    parts = listed(text)
    return tuple(parts) if all(map(str.isdecimal, parts)) else (_number(text),)


def _number(text: str) -> str:
    """`#12` and `item 12` are 12; a name stays."""
    return re.sub(r"(?i)^(item|skein|ball|no\.?)?\s*#?(?=\d+$)", "", text.strip())


def _rows(
    path: Path,
    columns: Mapping[str, Sequence[str]],
) -> list[_Row]:
    """The rows below the headings, by column; what is blank or only adds up is passed over.

    A bare figure below a heading with a unit has that one.
    """
    raw = _raw_rows(path.name, readers.bytes_of(path), columns)
    heads = (i for i, row in enumerate(raw[:_SEARCHED]) if len(_places(row[1], columns)) > 1)
    at = next(heads, None)
    if at is None:
        raise Unreadable(path.name, "no_list_of_columns", columns=[*columns])
    places = _places(raw[at][1], columns)
    unit_of = {c: _unit(cell_text(raw[at][1][place])) for c, place in places.items()}
    rows = [
        (line, {c: _with_unit(t, unit_of[c]) for c, t in found.items()})
        for line, cells in raw[at + 1 :]
        if (found := _cells(cells, places)) and not _total(found)
    ]
    if not rows:
        raise BadInput("list_without_rows", name=path.name)
    return rows


def _with_unit(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit and re.fullmatch(r"[\d.,]+", text) else text


def _unit(heading: str) -> str:
    """The unit of weight that a heading names: `Reading (oz)`, `grams`."""
    found = re.search(r"(?i)\b(g|grams?|oz|ounces?)\b", heading)
    return found[1].lower()[0].replace("o", "oz") if found else ""


def _total(cells: Mapping[str, str]) -> bool:
    return TOTALS.fullmatch(next(iter(cells.values()))) is not None


def _cells(values: Sequence[object], places: Mapping[str, int]) -> dict[str, str]:
    texts = {c: cell_text(values[at]) for c, at in places.items() if at < len(values)}
    return {column: text for column, text in texts.items() if text and text.lower() not in DITTO}


def _places(cells: Sequence[object], columns: Mapping[str, Sequence[str]]) -> dict[str, int]:
    """Where each column stands; of two headings for one the first, by the nearest word."""
    heads = [_plain(cell_text(cell)) for cell in cells]
    found: dict[str, int] = {}
    for column, words in columns.items():
        at = [heads.index(word) for word in words if word in heads]
        free = [place for place in at if place not in found.values()]
        if free:
            found[column] = free[0]
    return found


def _plain(heading: str) -> str:
    """A heading in small letters, without a unit in brackets: `Reading (g)`."""
    return re.sub(r"[\s_]+", " ", re.sub(r"\(.*?\)|\[.*?\]", "", heading)).strip().lower()


def _raw_rows(name: str, data: bytes, columns: Mapping[str, Sequence[str]]) -> list[RawRow]:
    if data.startswith(b"PK\x03\x04"):
        return workbook_rows(name, data, KnownHeadings())[0]
    if data.startswith(b"\xd0\xcf\x11\xe0"):
        raise FileTrouble(name, "old_spreadsheet")
    text, _ = readers.text_of(name, data)
    top = text.splitlines()[:_SEARCHED]
    separator = max(readers.SEPARATORS, key=lambda one: _columns_found(top, one, columns))
    return bounded(name, readers.split(name, text, separator))


def _columns_found(top: Sequence[str], separator: str, columns: Mapping[str, Sequence[str]]) -> int:
    rows = csv.reader(io.StringIO("\n".join(top)), delimiter=separator)
    try:
        return max((len(_places(cells[:MOST_COLUMNS], columns)) for cells in rows), default=0)
    except csv.Error:
        return 0
