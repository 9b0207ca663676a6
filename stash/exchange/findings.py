"""What is said about the rows of a sheet: findings keep a row out, notes only point at it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """What is wrong with one row: its line in the file, the column or columns, and a way out.

    `line` is the line of a csv, the row of a spreadsheet, counted from 1; 0 speaks of the whole
    file. `column` is empty where the row as a whole is meant.
    """

    line: int
    column: str
    text: str

    def __str__(self) -> str:
        row = f"row {self.line}" if self.line else ""
        where = ", ".join(filter(None, [row, self.column]))
        return f"{where}: {self.text}" if where else self.text


def of_row(line: int, problems: Iterable[tuple[str, str]]) -> Finding:
    """All that is wrong with one row, column by column, as one finding."""
    by_column: dict[str, list[str]] = {}
    for column, text in problems:
        by_column.setdefault(column, []).append(text)
    texts_of = {column: "; ".join(texts) for column, texts in by_column.items()}
    if len(texts_of) == 1:
        return Finding(line, *next(iter(texts_of.items())))
    return Finding(
        line, ", ".join(texts_of), "; ".join(f"{c}: {text}" for c, text in texts_of.items())
    )
