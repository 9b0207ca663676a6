"""Sheets as an xlsx workbook: every number a number with its format, every sum a formula."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from stash.measures.money import decimals
from stash.rendering.printable import plain
from stash.rendering.workbook import Cell, Sheet, Style


def to_workbook(sheets: Sequence[Sheet], currency: str) -> bytes:
    """The workbook as it lies in a file; `currency` says how many digits its money has."""
    from openpyxl import Workbook

    book = Workbook(write_only=True)
    for sheet in sheets:
        _write(book.create_sheet(sheet.name), sheet, _formats(currency))
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _formats(currency: str) -> dict[Style, str]:
    """How a spreadsheet shows each kind of cell (ECMA-376, part 1, 18.8.31)."""
    places = decimals(currency)
    return {
        Style.TEXT: "@",
        Style.HEAD: "@",
        Style.DAY: "yyyy-mm-dd",
        Style.COUNT: "0",
        Style.GRAMS: "#,##0.0##",
        Style.MONEY: f"#,##0.{'0' * places}" if places else "#,##0",
        Style.HOURS: "0.00",
    }


def _write(into: Any, sheet: Sheet, formats: dict[Style, str]) -> None:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Font
    from openpyxl.utils import get_column_letter

    strong = Font(bold=True)
    into.freeze_panes = "A2"
    for i, width in enumerate(sheet.widths, start=1):
        into.column_dimensions[get_column_letter(i)].width = width

    def made(cell: Cell) -> Any:
        value: Any = plain(cell.value) if isinstance(cell.value, str) else cell.value
        if value is None or value == "":
            return None
        one = WriteOnlyCell(into, value)
        if isinstance(value, str):
            # else a text that begins with "=" would be a formula
            one.data_type = "f" if cell.formula else "s"
        one.number_format = formats[cell.style]
        if cell.bold:
            one.font = strong
        return one

    for row in sheet.rows:
        into.append([made(cell) for cell in row])
