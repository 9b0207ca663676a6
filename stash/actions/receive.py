"""Yarn comes onto the shelf: lines become lot records and skeins, in one entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date

from stash.actions.book import Book, Pen
from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.stock.incoming import Incoming
from stash.stock.movement import Kind, Movement
from stash.stock.yarn import Lot, LotState, Pair, PairFrom
from stash.store import entry_rows, exchange_rows, skein_rows
from stash.store.copies import copy_beside
from stash.trade.thickness import usual_m_per_100g

#: The class reckoned with when nothing is known of a yarn but its length.
CLASS_WHEN_UNKNOWN = 4


@dataclass(frozen=True, slots=True)
class Arrived:
    """What one line became."""

    line: Incoming
    lot: Lot
    skeins: tuple[int, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Received:
    """An entry of new yarn, line by line."""

    entry: int
    arrived: tuple[Arrived, ...]

    @property
    def skeins(self) -> int:
        """How many skeins came."""
        return sum(len(a.skeins) for a in self.arrived)


@dataclass(frozen=True, slots=True)
class SheetStamp:
    """Which file the lines came from, so that the same bytes are not taken in twice."""

    name: str
    sha256: str


def receive(
    book: Book,
    lines: Sequence[Incoming],
    *,
    kind: str = "add",
    on: date | None = None,
    sheet: SheetStamp | None = None,
    habits: Mapping[str, str] | None = None,
) -> Received:
    """Book every line or none. Raises Refusal for a line with neither weight nor length.

    `habits` are settings that the lines suggest (the currency of prices, yards or metres); those
    she has not set yet are set by them in the same entry.
    """
    with book.entry(kind, on) as pen:
        asked = [line.number for line in lines if line.number is not None]
        taken = skein_rows.numbers_in_use(pen.db, asked)
        desk = _Desk(pen, taken, skein_rows.highest_number(pen.db))
        arrived = tuple(desk.take(line) for line in lines)
        desk.settle()
        for name, value in (habits or {}).items():
            if value and name not in (pen.preferences.kept or {}):
                pen.set_facts("setting", name, value=value)
        if sheet is not None:
            exchange_rows.add_sheet(pen.db, pen.number, sheet.name, sheet.sha256, len(lines))
        received = Received(pen.number, arrived)
        pen.words = _words(received, sheet)
        return received


def copy_first(book: Book) -> None:
    """A copy of the file beside it before much comes in; a file without entries needs none."""
    with book.reading() as db:
        entries = entry_rows.entries(db, newest=1)
    if entries:
        copy_beside(book.path, f"before-entry-{entries[0].number + 1}")


def taken_in_before(book: Book, sha256: str) -> int | None:
    """The entry that took in a file of the same bytes and still stands, or None."""
    with book.reading() as db:
        return exchange_rows.entry_of_sheet(db, sha256)


def _words(received: Received, sheet: SheetStamp | None) -> str:
    count = "1 skein" if received.skeins == 1 else f"{received.skeins} skeins"
    if sheet is not None:
        lots = len({a.lot.id for a in received.arrived})
        return f"{count} in {lots} lots from {sheet.name}"
    first = received.arrived[0].lot
    return f"{count} of {first.yarn} {first.colour_words}, {first.lot_words}"


def pair_of(line: Incoming) -> Pair:
    """The put-up a line is reckoned with, and where it comes from.

    With a length alone the mass is assumed from the class's usual metres per 100 g; with a mass
    alone there is no pair.
    """
    if line.full_mass and line.full_length:
        origin = PairFrom.MEASURED if line.measured else PairFrom.BAND
        origin = PairFrom.ASSUMED if line.assumed else origin
        return Pair(PutUp(line.full_mass, line.full_length), origin)
    length = line.full_length or (line.left if isinstance(line.left, Length) else None)
    if length and not line.full_mass:
        return Pair(PutUp(assumed_mass(length, line.class_from), length), PairFrom.ASSUMED)
    return Pair(None, PairFrom.MISSING)


def assumed_mass(length: Length, thickness: int | None) -> Mass:
    """What so much yarn of a class usually weighs; without a class, class 4 is taken."""
    usual = usual_m_per_100g(CLASS_WHEN_UNKNOWN if thickness is None else thickness)
    return Mass(max(1, round(length.m * 100_000 / usual)))


def mass_of_each(line: Incoming, pair: Pair) -> Mass:
    """What each skein of a line weighs in the books."""
    if isinstance(line.left, Mass):
        return line.left
    if isinstance(line.left, Length):
        if pair.put_up is None:
            raise Refusal(
                f"{line.name}: {line.left} left cannot be put in grams without a put-up; "
                "give both weight and length of a full skein, or weigh what is left"
            )
        return pair.put_up.mass_of(line.left)
    full = pair.put_up.mass if pair.put_up else line.full_mass
    if full is None:
        raise Refusal(
            f"{line.name}: neither weight nor length is given; "
            "put it on the scale, and add it with its grams"
        )
    return full


@dataclass(slots=True)
class _Desk:
    """Takes lines in one by one; skeins wait so that they are written together."""

    pen: Pen
    taken: set[int]
    highest: int
    _yarns: dict[tuple[str, str], int] = field(default_factory=dict)
    _lots: dict[object, int] = field(default_factory=dict)
    _records: dict[int, Lot] = field(default_factory=dict)
    _masses: list[tuple[int, Mass, str]] = field(default_factory=list)
    _rows: list[Mapping[str, object]] = field(default_factory=list)

    def take(self, line: Incoming) -> Arrived:
        if line.count < 1:
            raise Refusal(f"{line.name}: {line.count} skeins cannot be added")
        if line.hand_dyed and line.count > 1:
            return self._singly(line)
        pair = pair_of(line)
        known, lot = self._lot(line, pair)
        pair = _in_its_record(pair, lot)
        mass = mass_of_each(line, pair)
        numbers = self._numbers(line)
        paid = line.paid.shared([1] * line.count) if line.paid else None
        for i, number in enumerate(numbers):
            self._masses.append((number, mass, line.typed))
            coins = paid[i].coins if paid else None
            self._rows.append(self._row(number, line, lot, pair) | {"paid_coins": coins})
        notes = _differences(lot, line, pair) if known and line.record is None else ()
        return Arrived(line, lot, numbers, notes)

    def _singly(self, line: Incoming) -> Arrived:
        """Hand-dyed yarn: one record a skein."""
        shares = line.paid.shared([1] * line.count) if line.paid else [None] * line.count
        each = [self.take(replace(line, count=1, paid=share)) for share in shares]
        numbers = tuple(n for arrived in each for n in arrived.skeins)
        return Arrived(line, each[0].lot, numbers, ("hand-dyed: each skein is a lot of its own",))

    def _lot(self, line: Incoming, pair: Pair) -> tuple[bool, Lot]:
        """The line's record, and whether it was there before."""
        yarn = self._yarn(line)
        key = _record_key(line, yarn)
        found = self._lots.get(key) if key else None
        if found is None and line.record is None:
            found = skein_rows.numbered_lot(self.pen.db, yarn, line)
        known = found is not None
        if found is None:
            found = skein_rows.add_lot(self.pen.db, self.pen.number, yarn, line, pair)
        if key:
            self._lots[key] = found
        if found not in self._records:
            self._records.update(skein_rows.lots(self.pen.db, [found]))
        return known, self._records[found]

    def _yarn(self, line: Incoming) -> int:
        key = (line.maker.strip(), line.name.strip())
        if key not in self._yarns:
            self._yarns[key] = skein_rows.yarn_id(self.pen.db, *key)
        return self._yarns[key]

    def _numbers(self, line: Incoming) -> tuple[int, ...]:
        """The number asked for, if one was, else the next ones."""
        if line.number is not None:
            if line.number in self.taken or line.count > 1:
                raise Refusal(
                    f"skein number {line.number} is in use already; "
                    "leave the number blank for a new one"
                )
            self.taken.add(line.number)
            self.highest = max(self.highest, line.number)
            return (line.number,)
        first = self.highest + 1
        self.highest += line.count
        return tuple(range(first, first + line.count))

    def _row(self, number: int, line: Incoming, lot: Lot, pair: Pair) -> dict[str, object]:
        own = pair.put_up if pair.put_up != lot.pair.put_up else None
        return {
            "number": number,
            "entry_number": self.pen.number,
            "lot_id": lot.id,
            "own_mg": own.mass.mg if own else None,
            "own_um": own.length.um if own else None,
            "tare_mg": line.tare.mg if line.tare else None,
            "opened": int(line.left is not None),
            "about": int(line.about),
            "place": line.place,
            "owner": line.owner,
            "bought_on": line.bought.isoformat() if line.bought else None,
            "note": line.note,
        }

    def settle(self) -> None:
        """Write the skeins that waited, and what each brought."""
        skein_rows.add_skeins(self.pen.db, self._rows)
        self.pen.move(
            [Movement(n, Kind.ARRIVED, mass, typed=typed) for n, mass, typed in self._masses]
        )


def _record_key(line: Incoming, yarn: int) -> object:
    """What lines must share to be one record: a record asked for, or a numbered dye lot."""
    if line.record is not None:
        return line.record
    if line.lot_state is LotState.NUMBERED and not line.hand_dyed:
        return yarn, line.colour, line.colour_no, line.lot
    return None


def _in_its_record(pair: Pair, lot: Lot) -> Pair:
    """A line that only guesses at its pair is reckoned with the pair of the record it joins."""
    known = lot.pair.put_up is not None
    guessed = pair.origin in (PairFrom.ASSUMED, PairFrom.MISSING)
    if known and guessed and pair.put_up != lot.pair.put_up:
        return lot.pair
    return pair


def _differences(lot: Lot, line: Incoming, pair: Pair) -> tuple[str, ...]:
    """What this line says otherwise than the record it joins: a note, never an overwrite."""
    said = {
        "put-up": (pair.put_up, lot.pair.put_up),
        "class": (line.class_from, lot.class_from),
        "fibre": (line.fibre or None, lot.fibre or None),
    }
    different = [name for name, (new, old) in said.items() if new and old and new != old]
    if not different:
        return (f"joins {lot.ref}, which is on the books already",)
    return (f"joins {lot.ref}; its {' and '.join(different)} said otherwise and stay as they were",)
