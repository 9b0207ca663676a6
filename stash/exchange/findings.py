"""What is said about the rows of a sheet: findings keep a row out, notes only point at it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, order=True)
class Asked:
    """A cell that may mean several things: its column, what stands there, how it can be read."""

    column: str
    text: str
    readings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Answers:
    """What she answered of a sheet: other words for cells, by row and column; rows to leave out."""

    cells: Mapping[tuple[int, str], str] = field(default_factory=dict)
    without: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """What is wrong with one row: its line in the file, the column or columns, and a way out.

    `line` is the line of a csv, the row of a spreadsheet, counted from 1; 0 speaks of the whole
    file. `column` is empty where the row as a whole is meant. `asked` are the cells of the row that
    may mean several things. `called` is what her sheet calls the columns, where it has them.
    """

    line: int
    column: str
    text: str
    asked: tuple[Asked, ...] = ()
    called: str = ""

    def __str__(self) -> str:
        row = f"row {self.line}" if self.line else ""
        where = ", ".join(filter(None, [row, self.called or self.column]))
        return f"{where}: {self.text}" if where else self.text


def of_row(
    line: int,
    problems: Iterable[tuple[str, str]],
    asked: Iterable[Asked] = (),
    called: Mapping[str, str] | None = None,
) -> Finding:
    """All that is wrong with one row, column by column, as one finding.

    `called`: what her sheet calls a column.
    """
    by_column: dict[str, list[str]] = {}
    for column, text in problems:
        by_column.setdefault(column, []).append(text)
    hers = {column: (called or {}).get(column, column) for column in by_column}
    texts = {hers[column]: "; ".join(texts) for column, texts in by_column.items()}
    text = "; ".join(f"{c}: {text}" if len(texts) > 1 else text for c, text in texts.items())
    return Finding(line, ", ".join(by_column), text, tuple(asked), ", ".join(texts))


#: What a finding offers to type of a heading, with the words that lead to it.
_OFFER = re.compile(
    r',?;? ?(?:or )?(?:if so |if not |if it is [^,;]*, )?(?:[Aa]dd )?--map "([^"]*)"'
)


def maps_offered(text: str) -> list[str]:
    """What a finding or a note offers to say of a heading, as `HEADING=COLUMN` each."""
    return _OFFER.findall(text)


def without_maps(text: str) -> str:
    """The same without these, for whoever presses buttons."""
    plain = re.split(_OFFER.pattern, text, maxsplit=1)[0]
    return re.sub(r"[;,]? (?:for the whole column|(?:if|For)[^?;]*)?$", "", plain).rstrip(" ;,")
