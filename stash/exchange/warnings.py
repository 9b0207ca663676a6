"""What deserves a look in a sheet, and keeps nothing out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from stash.errors import Ambiguous
from stash.exchange import cells
from stash.exchange.findings import Finding
from stash.exchange.header import Head
from stash.exchange.tables import SheetRow, Table
from stash.measures.note import Note
from stash.parsing import headings
from stash.rendering.amounts import counted
from stash.rendering.her_words import named_thickness
from stash.rendering.sentences.say import sentence
from stash.stock.incoming import Incoming
from stash.trade.fibres import odd_sum

_SPOILT = "may be spoilt by a spreadsheet (a day, a lost zero); check the band"


def at_row(row: SheetRow) -> list[Finding]:
    """A lot that a spreadsheet may have made something of, and a blend that is not the whole."""
    found = []
    lot = row.cells.get("lot", "")
    if "lot" in row.not_text or cells.spoilt(lot):
        found.append(Finding(row.line, "lot", f"{lot} {_SPOILT}"))
    percent = odd_sum(row.cells.get("fibre", ""))
    if percent is not None:
        found.append(Finding(row.line, "fibre", sentence(Note("odd_blend", percent=percent))))
    return found


@dataclass(slots=True)
class Doubts:
    """What rows have in common that is said once.

    Lines whose class is in their name; how many part balls got a share of a full skein's price; in
    how many rows it is open what a price is of.
    """

    in_names: list[Incoming] = field(default_factory=list)
    shared_prices: int = 0
    open_prices: int = 0


def at_sheet(table: Table, doubts: Doubts) -> list[Finding]:
    """What is to be said of whole columns."""
    return [
        *_as_one_holds(table),
        *_without_units(table),
        *_thicknesses_in_names(doubts.in_names),
        *_about_prices(table, doubts),
    ]


def shared_sign(line: int, asked: Ambiguous) -> Finding:
    """The one question about a sign that several currencies share."""
    codes = [reading.split()[-1] for reading in asked.readings]
    return Finding(
        line,
        "paid",
        f"{asked.text!r} may be {', '.join(codes)}; choose once, as with "
        f"`stash settings currency {codes[0]}`, and import again",
    )


def _about_prices(table: Table, doubts: Doubts) -> Iterator[Finding]:
    """What a column of prices was taken to be of, where that made a difference."""
    theirs = [h.theirs for h in table.headings if h.meaning.column in ("price", "cost")]
    theirs += [h.theirs for h in table.headings if h.meaning.column == "paid"]
    line = f'--map "{theirs[0]}=paid"' if theirs else ""
    if doubts.shared_prices:
        rows = counted(doubts.shared_prices, "part ball")
        yield Finding(
            0,
            theirs[0],
            f"read as the price of a full skein, so {rows} got a share by weight; "
            f"if it is what you paid for each row, add {line}",
        )
    if doubts.open_prices:
        yield Finding(
            0,
            theirs[0],
            f"is that each or in all, in {counted(doubts.open_prices, 'row')}? For the whole "
            f'column add {line} or --map "{theirs[0]}=price each"',
        )


def _thicknesses_in_names(lines: Sequence[Incoming]) -> list[Finding]:
    """One note for all rows whose class stands in nothing but the yarn's name."""
    if not lines:
        return []
    first = lines[0]
    rows = "1 row" if len(lines) == 1 else f"{len(lines)} rows"
    shown = named_thickness(first.thickness_from or 0, first.thickness_to or 0)
    return [Finding(0, "thickness", f"from the yarn's name in {rows}, {first.name!r} as {shown}")]


def _as_one_holds(table: Table) -> list[Finding]:
    """Amounts beside a count may be those of one skein or of all; which was taken is said."""
    if all(row.cells.get("count", "1") == "1" for row in table.rows):
        return []
    return [
        Finding(
            0,
            head.theirs,
            "read as what one skein holds; if it is all of them together, "
            f'add --map "{head.theirs}=total {head.meaning}"',
        )
        for head in table.headings
        if head.meaning.column in ("mass", "length") and not headings.says_each(head.theirs)
    ]


def _without_units(table: Table) -> list[Finding]:
    """Columns of bare figures: each row is a finding, and the way out is one for all of them."""
    bare = [
        head
        for head in table.headings
        if head.meaning.column in _UNITS and _all_bare(table, head.meaning.column)
    ]
    return [Finding(0, head.theirs, f"which unit? Add {_units_for(head)}") for head in bare]


def _all_bare(table: Table, column: str) -> bool:
    texts = [row.cells[column] for row in table.rows if column in row.cells]
    return bool(texts) and all(cells.is_bare(text) for text in texts)


_UNITS: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("mass", "total_mass", "tare"), ("g", "oz")),
    **dict.fromkeys(("length", "total_length"), ("m", "yd")),
    **dict.fromkeys(("full", "left"), ("g", "m", "yd")),
}


def _units_for(head: Head) -> str:
    column = head.meaning.column
    named = f"{head.theirs}={column.replace('_', ' ')}"
    return " or ".join(f'--map "{named} {unit}"' for unit in _UNITS[column])
