"""A person's sheet read into lines of yarn, with findings for the rows that cannot be taken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from typing import Any

from stash.errors import BadInput, Refusal
from stash.exchange import cells, findings, readers
from stash.exchange.findings import Finding
from stash.exchange.readers import Row
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.stock.incoming import Incoming
from stash.stock.yarn import LotState, PairFrom
from stash.wording import coins, quantities
from stash.wording.facts import without_each
from stash.wording.label_lot import LotSaid


@dataclass(frozen=True, slots=True)
class Sheet:
    """What a sheet holds: the rows that can be taken with their lines, and what is to be said.

    A row with a finding is not among `rows`. `headings` shows which heading was taken for which
    column. `notes` point at what deserves a look and keep nothing out. `currency` is that of the
    prices, empty where no sign tells.
    """

    name: str
    headings: tuple[tuple[str, str], ...]
    rows: tuple[tuple[int, Incoming], ...]
    findings: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    currency: str = ""
    in_yards: bool = False


def read_sheet(name: str, data: bytes, today: date, currency: str = "") -> Sheet:
    """The yarn in a csv or xlsx file, row by row.

    Nothing is raised for a row: one finding tells all that is wrong with it. `currency` is the
    one her book is kept in (ISO 4217); without it the first sign in the sheet that means one only
    decides, and a price in another is a finding. Raises `FileTrouble` where the file is no sheet,
    `Unreadable` where it has no headings of ours.
    """
    table = readers.read_table(name, data)
    currency = currency or _currency(table.rows)
    taken: list[tuple[int, Incoming]] = []
    found, notes = list(table.findings), list(table.notes)
    numbers: dict[int, int] = {}
    for row in table.rows:
        facts, problems = _facts(row, today, currency)
        problems += [*_across(facts, problems), *_seen_before(facts, row.line, numbers)]
        if problems:
            found.append(findings.of_row(row.line, problems))
            continue
        taken.append((row.line, _incoming(facts, row)))
        notes += _worth_a_look(row)
    return Sheet(
        name,
        table.headings,
        tuple(taken),
        tuple(sorted(found)),
        tuple(sorted(notes)),
        currency,
        _in_yards(table.rows),
    )


#: What the cells of a row say once read, by column; a blank cell says nothing.
_Facts = dict[str, Any]
#: A column and what is wrong in it.
_Problem = tuple[str, str]


def _currency(rows: Sequence[Row]) -> str:
    for row in rows:
        with suppress(BadInput):
            meant = coins.currencies_of(without_each(row.cells.get("paid", "0")))
            if len(meant) == 1:
                return meant[0]
    return ""


def _in_yards(rows: Sequence[Row]) -> bool:
    """Whether most lengths are given in yards."""
    cells = [row.cells.get(column, "") for row in rows for column in ("put_up", "left")]
    return quantities.mostly_yards(dict.fromkeys(cells))


def _facts(row: Row, today: date, currency: str) -> tuple[_Facts, list[_Problem]]:
    facts: _Facts = {}
    problems: list[_Problem] = []
    for column, text in row.cells.items():
        try:
            facts[column] = cells.read(column, text, today, currency)
        except (BadInput, Refusal) as bad:
            problems.append((column, str(bad)))
    return facts, problems


def _across(facts: _Facts, troubled: Sequence[_Problem]) -> Iterator[_Problem]:
    """What is wrong between the cells of a row that can each be read."""
    columns = {column for column, _ in troubled}
    if "yarn" not in facts:
        yield "yarn", 'no yarn is named; write its name, or words of your own like "grey, no band"'
    if facts.get("count", 1) > 1:
        for column in ("number", "left"):
            if column in facts:
                yield (
                    column,
                    f"speaks of one skein, not of {facts['count']}; give it a row of its own",
                )
    if not columns & {"put_up", "left", "pair_from"}:
        yield from _amounts(facts)


def _amounts(facts: _Facts) -> Iterator[_Problem]:
    """Whether the row says how much there is, and says it once."""
    mass, length = facts.get("put_up", (None, None))
    left = facts.get("left")
    if mass is None and length is None and left is None:
        yield "put_up", "nothing says how much this is; write it like 100g/200m, or `left` like 43g"
    if "pair_from" in facts and not _agrees(facts["pair_from"], mass, length):
        yield "pair_from", f"{facts['pair_from']} does not go with this put_up; {_GOES_WITH}"
    # a numbered row was given out by us: books may hold more than a band says, and are to come back
    if left is not None and "number" not in facts:
        yield from _beside_full(left, mass, length)


_GOES_WITH = "band and measured take both, 100g/200m; assumed needs a length, missing has none"


def _agrees(origin: PairFrom, mass: Mass | None, length: Length | None) -> bool:
    if origin is PairFrom.MISSING:
        return length is None
    if origin is PairFrom.ASSUMED:
        return length is not None
    return mass is not None and length is not None


def _beside_full(
    left: Mass | Length, mass: Mass | None, length: Length | None
) -> Iterator[_Problem]:
    full, other = (mass, length) if isinstance(left, Mass) else (length, mass)
    if full is None and other is not None:
        yield "left", f"{left} cannot be set against a full skein of {other}; give put_up as a pair"
    elif full is not None and left > full:  # type: ignore[operator]  # both of the kind of left
        yield "left", f"{left} is more than the {full} of a full skein; put right one of the two"


def _seen_before(facts: _Facts, line: int, numbers: dict[int, int]) -> Iterator[_Problem]:
    number = facts.get("number")
    if number is not None and numbers.setdefault(number, line) != line:
        yield "number", f"skein {number} stands in row {numbers[number]} already; leave one blank"


def _incoming(facts: _Facts, row: Row) -> Incoming:
    lot = facts.get("lot", LotSaid(LotState.UNKNOWN))
    low, high = facts.get("class") or (None, None)
    full_mass, full_length = facts.get("put_up", (None, None))
    count = facts.get("count", 1)
    paid, each = facts.get("paid", (None, False))
    return Incoming(
        name=facts["yarn"],
        maker=facts.get("maker", ""),
        colour=facts.get("colour", ""),
        colour_no=facts.get("colour_no", ""),
        colours=facts.get("hex", ()),
        lot=lot.text,
        lot_state=lot.state,
        class_from=low,
        class_to=high,
        fibre=facts.get("fibre", ""),
        full_mass=full_mass,
        full_length=full_length,
        measured=facts.get("pair_from") is PairFrom.MEASURED,
        assumed=facts.get("pair_from") is PairFrom.ASSUMED,
        count=count,
        left=facts.get("left"),
        tare=facts.get("tare"),
        place=facts.get("place", ""),
        owner=facts.get("owner", ""),
        bought=facts.get("bought"),
        paid=Money(paid.coins * count) if each else paid,
        care=facts.get("care", ""),
        note=_note(facts.get("note", ""), lot.doubt),
        hand_dyed=facts.get("hand_dyed", False),
        about=any(cells.rough(row.cells.get(column, "")) for column in ("put_up", "left")),
        number=facts.get("number"),
        record=facts.get("record"),
        typed="; ".join(f"{column}: {text}" for column, text in row.cells.items()),
    )


def _note(note: str, doubt: str) -> str:
    """Her note; a doubtful lot is kept in it, so that the doubt stays in sight."""
    return "; ".join(filter(None, [note, f"lot: {doubt}" if doubt else ""]))


def _worth_a_look(row: Row) -> list[Finding]:
    lot = row.cells.get("lot", "")
    if "lot" in row.not_text or cells.spoilt(lot):
        return [Finding(row.line, "lot", f"{lot} {_SPOILT}")]
    return []


_SPOILT = "may be what a spreadsheet made of it (a day, a lost zero): check the band"
