"""The shelf as a sheet, one row a skein, exact enough to be taken in again as it stands."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from stash.exchange.shapes import SheetSkein
from stash.measures import written
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.parsing import coins
from stash.parsing.headings import COLUMNS, MORE_COLUMNS
from stash.rendering.printable import inert, plain
from stash.stock.yarn import Lot, LotState


def sheet_rows(skeins: Sequence[SheetSkein], currency: str = "") -> list[dict[str, str]]:
    """The rows of a sheet for so many skeins, in order of their numbers."""
    return [sheet_row(one, currency) for one in sorted(skeins, key=lambda s: s.skein.number)]


def sheet_row(one: SheetSkein, currency: str = "") -> dict[str, str]:
    """One skein as a row, blank where nothing is known; to the milligram and the micrometre.

    `currency` is the one her book is kept in (ISO 4217), for the sign beside `paid`, the cost of
    what the row holds.
    """
    lot, skein = one.lot, one.skein
    left = _left(one)
    return {
        "number": str(skein.number),
        "yarn": lot.yarn.name,
        "maker": lot.yarn.maker,
        "colour": lot.colour,
        "colour_no": lot.colour_no,
        "hex": "/".join(colour.hex for colour in lot.colours),
        "lot": _lot(lot),
        "thickness": _class(lot),
        "fibre": lot.fibre,
        "full": _put_up(one),
        "full_from": skein.pair.origin.value,
        "count": "1",
        "left": left,
        "tare": exact(skein.tare) if skein.tare is not None else "",
        "place": skein.place,
        "owner": skein.owner,
        "bought": one.bought.isoformat() if one.bought else "",
        "paid": _paid(one.paid, currency) if one.paid is not None else "",
        "note": one.note,
        "care": lot.care,
        "hand_dyed": "yes" if lot.hand_dyed else "",
        "condition": "/".join(condition.value for condition in lot.conditions),
        "daylight": "yes" if lot.daylight else "",
        "about": "yes" if skein.about else "",
        "opened": "no" if left and not skein.opened else "",
        "record": lot.ref,
        "dyed": lot.dyed or "",
        "surface": lot.surface or "",
    }


def to_csv(rows: Sequence[dict[str, str]]) -> bytes:
    """Rows as csv: UTF-8, commas, our own columns as headings; no cell is a formula."""
    out = io.StringIO()
    writer = csv.DictWriter(out, _columns(rows), extrasaction="ignore", lineterminator="\n")
    writer.writeheader()
    writer.writerows({column: inert(text) for column, text in row.items()} for row in rows)
    return out.getvalue().encode()


def to_xlsx(rows: Sequence[dict[str, str]]) -> bytes:
    """Rows as an xlsx workbook; every cell is text, so that no lot turns into a date."""
    from openpyxl import Workbook
    from openpyxl.cell import WriteOnlyCell

    book = Workbook(write_only=True)
    sheet = book.create_sheet("shelf")
    columns = _columns(rows)
    for line in (columns, *([row[column] for column in columns] for row in rows)):
        cells = [WriteOnlyCell(sheet, _kept(text)) for text in line]
        for cell in cells:
            cell.data_type = "s"  # else a text that begins with "=" would be a formula
            cell.number_format = "@"
        sheet.append(cells)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def _kept(text: str) -> str:
    """A cell that is text by its kind; only an apostrophe in front needs another, as in a csv."""
    return inert(text) if text.startswith("'") else plain(text)


def exact(amount: Mass | Length) -> str:
    """An amount in grams or metres, to its last milligram or micrometre."""
    return written.show(amount, "g" if isinstance(amount, Mass) else "m").replace(" ", "")


def _columns(rows: Sequence[dict[str, str]]) -> list[str]:
    return [*COLUMNS, *(c for c in MORE_COLUMNS if any(row[c] for row in rows))]


def _paid(paid: Money, currency: str) -> str:
    """A price by a sign that means one currency only, or by the three letters of its code."""
    shown = show_money(paid, currency)
    clear = not currency or coins.currencies_of(shown) == (currency,)
    return shown if clear else f"{shown.lstrip('$¥')} {currency}"


def _lot(lot: Lot) -> str:
    return {LotState.CLAIMED_NONE: "none", LotState.UNKNOWN: ""}.get(lot.lot_state, lot.lot)


def _class(lot: Lot) -> str:
    ends = dict.fromkeys(end for end in (lot.thickness_from, lot.thickness_to) if end is not None)
    return "-".join(str(end) for end in ends)


def _put_up(one: SheetSkein) -> str:
    """The pair, or a mass alone where no length is known."""
    pair = one.skein.pair
    if pair.put_up is None:
        full = one.lot.full_mass if one.skein.opened else one.skein.held
        return exact(full) if full is not None else ""
    return f"{exact(pair.put_up.mass)}/{exact(pair.put_up.length)}"


def _left(one: SheetSkein) -> str:
    """Blank for a skein that is whole as its pair says; in metres where its mass is inferred."""
    skein = one.skein
    full = skein.pair.put_up.mass if skein.pair.put_up else skein.held
    if not skein.opened and skein.held == full:
        return ""
    if not skein.mass_known and skein.held_length is not None:
        return exact(skein.held_length)
    return exact(skein.held)
