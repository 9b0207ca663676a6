"""The list of items as a sheet: numbers as numbers, days as days, texts that no sheet runs."""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from stash.rendering.columns import as_csv, sheet_cell
from stash.rendering.printable import plain

#: Columns that hold days, and those that hold money.
_DAYS = ("since", "sold_on")
_MONEY = ("cost", "asked", "sold_for")


def written(rows: Sequence[Mapping[str, Any]], suffix: str) -> bytes:
    """The rows as `.csv`, or as `.xlsx`."""
    return as_csv(rows).encode() if suffix == ".csv" else _workbook(rows)


def _workbook(rows: Sequence[Mapping[str, Any]]) -> bytes:
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    sheet = book.create_sheet("items")
    sheet.freeze_panes = "A2"
    sheet.append(list(rows[0]) if rows else [])
    for row in rows:
        cells = []
        for column, value in row.items():
            cell = WriteOnlyCell(sheet, _value(column, value))
            if isinstance(cell.value, str):
                cell.data_type = "s"  # else a text that begins with "=" would be a formula
            elif column in _DAYS:
                cell.number_format = "yyyy-mm-dd"
            elif column in _MONEY:
                cell.number_format = "0.00"
            cells.append(cell)
        sheet.append(cells)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _value(column: str, value: Any) -> Any:
    if isinstance(value, list):
        return plain(" + ".join(map(str, value)))
    if column in _DAYS and value:
        return date.fromisoformat(value)
    cell = sheet_cell(column, value)
    return plain(value) if isinstance(value, str) else cell
