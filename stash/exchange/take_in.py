"""A person's sheet read into lines of yarn, with findings for the rows that cannot be taken."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date
from functools import lru_cache

from stash.errors import Ambiguous, BadInput
from stash.exchange import cells, findings, prices, row_checks, row_merge, tables, warnings
from stash.exchange.findings import Answers, Finding
from stash.exchange.header import Head
from stash.exchange.row_merge import RowFacts
from stash.exchange.tables import SheetRow
from stash.parsing import coins, quantities
from stash.parsing.facts import named_colour, without_share
from stash.parsing.headings import KnownHeadings
from stash.parsing.label.lots import LotSaid
from stash.stock.incoming import Incoming
from stash.stock.yarn import FullFrom, LotState


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet holds: the rows that can be taken with their lines, and what is to be said.

    A row with a finding is not among `rows`. `headings` shows which heading was taken for which
    column. `notes` point at what deserves a look and keep nothing out. `currency` is that of the
    prices, empty where no sign says it. `mapped` is what was said of headings this time.
    """

    name: str
    headings: tuple[Head, ...]
    rows: tuple[tuple[int, Incoming], ...]
    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    currency: str = ""
    units: Mapping[str, str] = field(default_factory=dict)
    mapped: tuple[tuple[str, str], ...] = ()


def read_sheet(
    name: str,
    data: bytes,
    today: date,
    currency: str = "",
    known: KnownHeadings | None = None,
    answers: Answers | None = None,
) -> Sheet:
    """The yarn in a csv or xlsx file, row by row.

    Nothing is raised for a row: one finding says all that is wrong with it. `currency` is the
    one her book is kept in (ISO 4217); without it the first sign in the sheet that means one only
    decides, and a price in another is a finding; where all of them may mean several, one finding
    asks. `known` is what she said of headings, `answers` of rows and cells. Raises `FileTrouble`
    where the file is no sheet, `Unreadable` where it has no headings of ours.
    """
    table = tables.read_table(name, data, known)
    prices_typed = _prices(table.rows)
    currency = currency or _currency(prices_typed)
    asked = None if currency else _shared_sign(prices_typed)
    # read on in one of them, so that all else that is wrong is found in the same go
    stand_in = currency or (asked[0] if asked else "")
    called = {head.meaning.column: head.theirs for head in table.headings}
    body = _Body(lambda column, text: cells.read_cell(column, text, today, stand_in), called)
    for row in _answered(table.rows, answers or Answers()):
        body.take(row)
    open_prices = [warnings.shared_sign(*asked[1:])] if asked else []
    return Sheet(
        name,
        table.headings,
        () if asked else tuple(body.taken),
        tuple(sorted([*table.findings, *body.findings, *open_prices])),
        tuple(sorted([*table.notes, *body.notes, *warnings.at_sheet(table, body.doubts)])),
        currency,
        _units(table.rows),
        tuple(sorted(known.mapped.items())) if known else (),
    )


class _Body:
    """The rows as they are gone through: taken in, or found to be wrong."""

    def __init__(self, read: row_merge.Reader, called: Mapping[str, str]) -> None:
        self.taken: list[tuple[int, Incoming]] = []
        self.findings: list[Finding] = []
        self.notes: list[Finding] = []
        self.doubts = warnings.Doubts()
        self._read, self._called = read, called
        self._numbers: dict[int, int] = {}

    def take(self, row: SheetRow) -> None:
        facts = row_merge.row_facts(row, self._read)
        prices.settle(facts, row)
        self.doubts.open_prices += facts.open_price
        problems = [
            *facts.problems,
            *row_checks.problems(facts),
            *row_checks.seen_before(facts, row.line, self._numbers),
        ]
        if problems:
            self.findings.append(findings.of_row(row.line, problems, facts.asked, self._called))
            return
        line = _incoming(facts, row)
        self.taken.append((row.line, line))
        notes = [*warnings.at_row(row), *(Finding(row.line, *note) for note in facts.notes)]
        self.notes += [
            replace(note, called=self._called.get(note.column, note.column)) for note in notes
        ]
        self.doubts.in_names += [line] if facts.thickness_in_name else []
        self.doubts.shared_prices += facts.shared_price


def _answered(rows: Sequence[SheetRow], answers: Answers) -> Iterator[SheetRow]:
    """The rows that are not left out, with cells as she answered."""
    for row in rows:
        if row.line not in answers.without:
            said = {
                column: text for (line, column), text in answers.cells.items() if line == row.line
            }
            yield replace(row, cells={**row.cells, **said}) if said else row


def _prices(rows: Sequence[SheetRow]) -> dict[str, int]:
    """The different prices in a sheet, each with the first line it stands in."""
    first: dict[str, int] = {}
    for row in rows:
        for column in ("paid", "price", "cost"):
            if column in row.cells:
                first.setdefault(row.cells[column], row.line)
    return {without_share(text): line for text, line in first.items()}


def _currency(typed: Mapping[str, int]) -> str:
    for text in typed:
        with suppress(BadInput):
            meant = coins.currencies_of(text)
            if len(meant) == 1:
                return meant[0]
    return ""


def _shared_sign(typed: Mapping[str, int]) -> tuple[str, int, Ambiguous] | None:
    """The first price whose sign may mean several currencies: one of them, the line, the error."""
    for text, line in typed.items():
        try:
            coins.money(text)
        except Ambiguous as asked:
            meant = coins.currencies_of(text)
            if len(meant) > 1:
                return meant[0], line, asked
        except BadInput:
            continue
    return None


_LENGTHS = ("full", "left", "length", "total_length", "label", "yarn")


def _units(rows: Sequence[SheetRow]) -> Mapping[str, str]:
    """The units most amounts are given in."""
    cells = [row.cells.get(column, "") for row in rows for column in _LENGTHS]
    return quantities.units_typed(dict.fromkeys(cells))


def _incoming(facts: RowFacts, row: SheetRow) -> Incoming:
    said = facts.said
    lot = said.get("lot", LotSaid(LotState.UNKNOWN))
    low, high = said.get("thickness") or (None, None)
    full_mass, full_length = facts.full
    return Incoming(
        name=said["yarn"],
        maker=said.get("maker", ""),
        colour=said.get("colour", ""),
        colour_no=said.get("colour_no", ""),
        colours=said.get("hex") or _by_word(said.get("colour", "")),
        lot=lot.text,
        lot_state=lot.state,
        thickness_from=low,
        thickness_to=high,
        fibre=said.get("fibre", ""),
        full_mass=full_mass,
        full_length=full_length,
        measured=said.get("full_from") is FullFrom.MEASURED or "measured" in said,
        assumed=said.get("full_from") is FullFrom.ASSUMED,
        count=facts.count,
        left=said.get("left"),
        part_balls=said.get("part_balls", ()),
        opened=said.get("opened"),
        tare=said.get("tare"),
        place=said.get("place", ""),
        owner=said.get("owner", ""),
        bought=said.get("bought"),
        paid=said.get("paid"),
        care=said.get("care", ""),
        note=_note(said.get("note", ""), lot.doubt),
        hand_dyed=said.get("hand_dyed", False),
        conditions=said.get("condition", ()),
        daylight=said.get("daylight", False),
        about=facts.about or said.get("about", False),
        number=said.get("number"),
        record=said.get("record"),
        dyed=said.get("dyed"),
        surface=said.get("surface"),
        typed="; ".join(f"{column}: {text}" for column, text in row.cells.items()),
    )


# a sheet names the same few colours over and over
_by_word = lru_cache(maxsize=4096)(named_colour)


def _note(note: str, doubt: str) -> str:
    """Her note; a doubtful lot is kept in it, so that the doubt stays in sight."""
    return "; ".join(filter(None, [note, f"lot: {doubt}" if doubt else ""]))
