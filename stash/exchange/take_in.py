"""A person's sheet read into lines of yarn, with findings for the rows that cannot be taken."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date

from stash.errors import BadInput
from stash.exchange import across, cells, findings, joined, looks, tables
from stash.exchange.findings import Finding
from stash.exchange.heads import Head
from stash.exchange.joined import Facts
from stash.exchange.tables import Row
from stash.measures.money import Money
from stash.parsing.label.lots import LotSaid
from stash.stock.incoming import Incoming
from stash.stock.yarn import LotState, PairFrom
from stash.wording import coins, quantities
from stash.wording.facts import without_each
from stash.wording.headings import Known


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet holds: the rows that can be taken with their lines, and what is to be said.

    A row with a finding is not among `rows`. `headings` shows which heading was taken for which
    column. `notes` point at what deserves a look and keep nothing out. `currency` is that of the
    prices, empty where no sign tells. `told` is what was said of headings this time.
    """

    name: str
    headings: tuple[Head, ...]
    rows: tuple[tuple[int, Incoming], ...]
    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    currency: str = ""
    in_yards: bool = False
    told: tuple[tuple[str, str], ...] = ()


def read_sheet(
    name: str, data: bytes, today: date, currency: str = "", known: Known | None = None
) -> Sheet:
    """The yarn in a csv or xlsx file, row by row.

    Nothing is raised for a row: one finding tells all that is wrong with it. `currency` is the
    one her book is kept in (ISO 4217); without it the first sign in the sheet that means one only
    decides, and a price in another is a finding. `known` is what she said of headings. Raises
    `FileTrouble` where the file is no sheet, `Unreadable` where it has no headings of ours.
    """
    table = tables.read_table(name, data, known)
    currency = currency or _currency(table.rows)
    taken: list[tuple[int, Incoming]] = []
    found, notes = list(table.findings), list(table.notes)
    numbers: dict[int, int] = {}
    in_names: list[Incoming] = []
    for row in table.rows:
        facts = joined.facts_of(row, lambda column, text: cells.read(column, text, today, currency))
        told = [
            *facts.problems,
            *across.problems(facts),
            *across.seen_before(facts, row.line, numbers),
        ]
        if told:
            found.append(findings.of_row(row.line, told))
            continue
        line = _incoming(facts, row)
        taken.append((row.line, line))
        notes += [*looks.at_row(row), *(Finding(row.line, *note) for note in facts.notes)]
        in_names += [line] if facts.class_in_name else []
    notes += looks.at_sheet(table, in_names)
    return Sheet(
        name,
        table.headings,
        tuple(taken),
        tuple(sorted(found)),
        tuple(sorted(notes)),
        currency,
        _in_yards(table.rows),
        tuple(sorted(known.told.items())) if known else (),
    )


def _currency(rows: Sequence[Row]) -> str:
    for row in rows:
        with suppress(BadInput):
            meant = coins.currencies_of(without_each(row.cells.get("paid", "0")))
            if len(meant) == 1:
                return meant[0]
    return ""


_LENGTHS = ("put_up", "left", "length", "total_length", "label", "yarn")


def _in_yards(rows: Sequence[Row]) -> bool:
    """Whether most lengths are given in yards."""
    cells = [row.cells.get(column, "") for row in rows for column in _LENGTHS]
    return quantities.mostly_yards(dict.fromkeys(cells))


def _incoming(facts: Facts, row: Row) -> Incoming:
    said = facts.said
    lot = said.get("lot", LotSaid(LotState.UNKNOWN))
    low, high = said.get("class") or (None, None)
    full_mass, full_length = facts.full
    paid, each = said.get("paid", (None, False))
    return Incoming(
        name=said["yarn"],
        maker=said.get("maker", ""),
        colour=said.get("colour", ""),
        colour_no=said.get("colour_no", ""),
        colours=said.get("hex", ()),
        lot=lot.text,
        lot_state=lot.state,
        class_from=low,
        class_to=high,
        fibre=said.get("fibre", ""),
        full_mass=full_mass,
        full_length=full_length,
        measured=said.get("pair_from") is PairFrom.MEASURED or "measured" in said,
        assumed=said.get("pair_from") is PairFrom.ASSUMED,
        count=facts.count,
        left=said.get("left"),
        opened=said.get("opened"),
        tare=said.get("tare"),
        place=said.get("place", ""),
        owner=said.get("owner", ""),
        bought=said.get("bought"),
        paid=Money(paid.coins * facts.count) if each else paid,
        care=said.get("care", ""),
        note=_note(said.get("note", ""), lot.doubt),
        hand_dyed=said.get("hand_dyed", False),
        conditions=said.get("condition", ()),
        daylight=said.get("daylight", False),
        about=facts.about or said.get("about", False),
        number=said.get("number"),
        record=said.get("record"),
        typed="; ".join(f"{column}: {text}" for column, text in row.cells.items()),
    )


def _note(note: str, doubt: str) -> str:
    """Her note; a doubtful lot is kept in it, so that the doubt stays in sight."""
    return "; ".join(filter(None, [note, f"lot: {doubt}" if doubt else ""]))
