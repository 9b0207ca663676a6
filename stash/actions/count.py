"""Stock-taking: what should lie in a place, ticked or weighed, put right in one entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import clock, find
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.weigh import ScaleReading, weigh_within
from stash.errors import NotFound, Refusal
from stash.measures.note import Note
from stash.parsing import names
from stash.stock.holding import HeldSkein
from stash.stock.movement import Kind, Movement
from stash.stock.weighing import Reading, weighed
from stash.stock.yarn import Lot
from stash.store import skein_rows, stocktake_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class Line:
    """One skein of a stock-taking: `seen` once ticked or weighed; `reading` if weighed.

    `elsewhere`: the books have it in another place.
    """

    skein: HeldSkein
    lot: Lot
    seen: bool
    reading: ScaleReading | None
    elsewhere: bool


@dataclass(frozen=True, slots=True)
class Count:
    """A stock-taking so far: every skein that should be there, and those found besides.

    `begun` is None for a place where nothing was noted yet.
    """

    place: str
    begun: date | None
    lines: tuple[Line, ...]
    settings: Settings

    @property
    def open(self) -> int:
        """How many are still to be looked for."""
        return sum(not line.seen for line in self.lines)


@dataclass(frozen=True, slots=True)
class Place:
    """A place with yarn in it: how many skeins, and of a count under way since when and how many
    were found."""

    name: str
    skeins: int
    begun: date | None
    found: int


@dataclass(frozen=True, slots=True)
class Lost:
    """What of a count is to be booked as lost: skeins by number, or all that were not seen."""

    numbers: tuple[int, ...] = ()
    all_missing: bool = False


NOTHING_LOST = Lost()


@dataclass(frozen=True, slots=True)
class Closed:
    """A stock-taking that was booked: how many were right, weighed, moved here, and not found.

    `lost` of those not found are booked as lost, the others stay on the books.
    """

    entry: int
    right: int
    corrected: tuple[int, ...]
    moved_here: tuple[int, ...]
    not_found: tuple[int, ...]
    lost: tuple[int, ...]
    shorts: tuple[Note, ...]


def note(
    book: Book, place: str, ticks: Sequence[str], readings: Mapping[str, ScaleReading]
) -> Count:
    """The count of a place, begun now or gone on with, after noting what was seen and weighed.

    Notes are kept until the count is closed; nothing is booked. A reading that could not be booked
    is refused at once rather than at the end.
    """
    with book.file.writing() as db:
        settings = Settings.read(db)
        session = stocktake_rows.open_session(db, place) or _begin(db, place)
        for typed in ticks:
            number = find.skein(db, typed).skein.number
            stocktake_rows.note(db, session.id, number, None, None)
        for typed, asked in readings.items():
            skein = find.skein(db, typed).skein
            weighed(skein, _reading(asked, skein), settings.scale_step, ())
            stocktake_rows.note(db, session.id, skein.number, asked.gross, asked.tare)
        return _count(db, settings, place, session)


def places(book: Book) -> tuple[Place, ...]:
    """Every place that yarn lies in, by name, with the count that is under way there."""
    with book.reading() as db:
        settings = Settings.read(db)
        names_here: dict[str, str] = {}
        for skein in skein_rows.held_skeins(db):
            if skein.held and skein.place.strip():
                names_here.setdefault(skein.place.strip().casefold(), skein.place.strip())
        counts = [_looked_at(db, settings, names_here[key]) for key in sorted(names_here)]
    return tuple(
        Place(one.place, len(one.lines), one.begun, len(one.lines) - one.open) for one in counts
    )


def look(book: Book, place: str) -> Count:
    """How the count of a place stands; nothing is begun by looking.

    Raises NotFound for a place where nothing lies.
    """
    with book.reading() as db:
        found = _looked_at(db, Settings.read(db), place)
        if not found.lines:
            raise _nothing_there(skein_rows.held_skeins(db), place)
    return found


def _looked_at(db: Connection, settings: Settings, place: str) -> Count:
    return _count(db, settings, place, stocktake_rows.open_session(db, place))


def unsee(book: Book, place: str, skein: int) -> None:
    """A skein was ticked or weighed by mistake: it is still to be found."""
    with book.file.writing() as db:
        stocktake_rows.forget(db, _open(db, place).id, skein)


def drop(book: Book, place: str) -> None:
    """Forget the count of a place that is under way."""
    with book.file.writing() as db:
        stocktake_rows.drop(db, _open(db, place).id)


def _begin(db: Connection, place: str) -> stocktake_rows.Session:
    held = skein_rows.held_skeins(db)
    if not any(skein.held and _lies_in(skein, place) for skein in held):
        raise _nothing_there(held, place)
    return stocktake_rows.begin(db, place, clock.today())


def _nothing_there(held: Sequence[HeldSkein], place: str) -> NotFound:
    known = sorted({skein.place for skein in held if skein.held and skein.place})
    return NotFound("yarn_in_place", place, names.nearest(place, known) or known[:5])


def _open(db: Connection, place: str) -> stocktake_rows.Session:
    found = stocktake_rows.open_session(db, place)
    if found is not None:
        return found
    closed = stocktake_rows.newest_closing(db, place)
    if closed is None:
        raise NotFound("count_under_way", place)
    raise Refusal("count_closed", place=place, entry=closed)


def _reading(asked: ScaleReading, skein: HeldSkein) -> Reading:
    """A reading as a recount: nobody says the skein was worked from."""
    return Reading(asked.gross, asked.tare, recount=skein.opened)


def refuse_unless_under_way(book: Book, place: str) -> None:
    """Refused where no count of a place is under way: a closed one is closed."""
    with book.reading() as db:
        _open(db, place)


def close(book: Book, place: str, *, lost: Lost = NOTHING_LOST, on: date | None = None) -> Closed:
    """Book what was found: corrections of weighed skeins, skeins that lay here after all.

    What was not found stays on the books and is named, unless it is `lost`: by its number, or all
    of it beside something that was seen. Where nothing was, nobody has looked.
    """
    with book.entry("count", on) as writer:
        session = _open(writer.db, place)
        count = _count(writer.db, writer.settings, place, session)
        corrected = [n for line in count.lines if (n := _put_right(writer, line)) is not None]
        moved = [line.skein.number for line in count.lines if line.elsewhere]
        for number in moved:
            writer.set_facts("skein", number, place=place)
        missing = [line.skein for line in count.lines if not line.seen]
        gone = _lost_of(count, missing, lost)
        _book_lost(writer, gone)
        stocktake_rows.close(writer.db, session.id, writer.number)
        right = sum(line.seen for line in count.lines) - len(corrected)
        numbers = tuple(skein.number for skein in missing)
        written_off = tuple(skein.number for skein in gone)
        writer.what = Note(
            "place_counted",
            place=place,
            right=right,
            corrected=len(corrected),
            not_found=len(numbers),
            lost=len(gone),
        )
    return Closed(
        writer.number, right, tuple(corrected), tuple(moved), numbers, written_off, writer.shorts
    )


def _lost_of(count: Count, missing: Sequence[HeldSkein], lost: Lost) -> list[HeldSkein]:
    """The skeins to book as lost; refused for what was seen, or where nothing was."""
    if lost.all_missing:
        if count.open == len(count.lines):
            raise Refusal("nothing_ticked", place=count.place)
        return [*missing]
    by_number = {skein.number: skein for skein in missing}
    for number in lost.numbers:
        if number not in by_number:
            names = [str(one) for one in by_number]
            raise NotFound("skein_missing", str(number), names, place=count.place)
    return [by_number[number] for number in dict.fromkeys(lost.numbers)]


def _count(
    db: Connection, settings: Settings, place: str, session: stocktake_rows.Session | None
) -> Count:
    noted = stocktake_rows.lines(db, session.id) if session else {}
    held = skein_rows.held_skeins(db)
    here = [s for s in held if s.held and (_lies_in(s, place) or s.number in noted)]
    lots = skein_rows.lots(db, sorted({s.lot_id for s in here}))
    lines = [
        Line(s, lots[s.lot_id], s.number in noted, _asked(noted, s), not _lies_in(s, place))
        for s in here
    ]
    return Count(place, session.begun if session else None, tuple(lines), settings)


def _asked(noted: Mapping[int, stocktake_rows.Noted], skein: HeldSkein) -> ScaleReading | None:
    found = noted.get(skein.number)
    if found is None or found.reading is None:
        return None
    return ScaleReading(found.reading, tare=found.tare, recount=skein.opened)


def _lies_in(skein: HeldSkein, place: str) -> bool:
    return skein.place.strip().casefold() == place.strip().casefold()


def _put_right(writer: EntryWriter, line: Line) -> int | None:
    if line.reading is None:
        return None
    outcome, _ = weigh_within(writer, line.skein, line.reading, None)
    return line.skein.number if outcome.change else None


def _book_lost(writer: EntryWriter, missing: Sequence[HeldSkein]) -> None:
    promised = [s.number for s in missing if s.promised]
    if promised:
        raise Refusal("lost_but_set_aside", skeins=tuple(promised))
    writer.move([Movement(s.number, Kind.LOST, -s.held) for s in missing])
