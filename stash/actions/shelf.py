"""The shelf: lots found, narrowed and sorted; and what of them is set aside for what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from stash.actions import find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.errors import NotFound
from stash.measures.colour import family, lab
from stash.measures.length import NO_LENGTH, Length
from stash.stock.holding import HeldLot, HeldSkein, SkeinState
from stash.stock.item import Item
from stash.stock.promise import Promised
from stash.stock.yarn import Condition, Lot
from stash.store import item_rows, skein_rows
from stash.store.engine import Connection
from stash.store.kept_shelf import kept_lots
from stash.trade.fibres import under_each_name


@dataclass(frozen=True, slots=True)
class Filters:
    """What of the shelf to show; what is left out does not narrow.

    `words` may be misspelt. `colour` and `fibre` are looked for in the words of the band. `sound`
    leaves out lots under any condition. `lone`: one whole skein and nothing else of its lot.
    """

    words: str = ""
    thickness: tuple[int, int] | None = None
    fibre: str = ""
    colour: str = ""
    lot: str = ""
    place: str = ""
    owner: str = ""
    least_free: Length | None = None
    with_spent: bool = False
    family: str = ""
    conditions: frozenset[Condition] = frozenset()
    sound: bool = False
    daylight: bool = False
    lone: bool = False
    remnants: bool = False


class SortBy(StrEnum):
    """What a shelf can be sorted by."""

    NAME = "name"
    FREE = "free"
    THICKNESS = "thickness"
    COLOUR = "colour"
    PLACE = "place"
    AGE = "age"


@dataclass(frozen=True, slots=True)
class OnShelf:
    """The lots that were asked for, in order, and her settings.

    `nearest`: where words found none, words on the shelf that are like them.
    """

    lots: tuple[HeldLot, ...]
    settings: Settings
    nearest: tuple[str, ...] = ()


def shelf(book: Book, filters: Filters, order: SortBy | None = None) -> OnShelf:
    """The lots that answer to the filters, in the order asked for.

    Without one: by yarn, colour and lot; best fit first where words were given.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        lots = kept_lots(db, with_spent=filters.with_spent)
        notes = _notes(db) if filters.words else None
    lots = tuple(lot for lot in lots if _answers(lot, filters))
    if filters.words:
        there = lots
        lots = tuple(find.matching(there, filters.words, notes))
        if not lots:
            return OnShelf((), settings, find.nearest_words(there, filters.words))
        if order is None:
            return OnShelf(lots, settings)
    by = order or SortBy.NAME
    return OnShelf(
        tuple(sorted(lots, key=lambda lot: (*_sorted_by(lot, by), *_by_name(lot)))), settings
    )


def lot(book: Book, number: int) -> Lot:
    """The record of a lot."""
    with book.reading() as db:
        found = skein_rows.lots(db, [number])
    if number not in found:
        raise NotFound("lot", f"L{number}")
    return found[number]


def _notes(db: Connection) -> dict[int, str]:
    """What is noted of each skein."""
    return {number: note for number, (_, _, note) in skein_rows.bought_and_paid(db).items()}


def _sorted_by(held: HeldLot, order: SortBy) -> tuple[float | str, ...]:
    lot = held.lot
    if order is SortBy.FREE:
        return (-(held.free_length or NO_LENGTH).um,)
    if order is SortBy.THICKNESS:
        return (8 if lot.thickness_from is None else lot.thickness_from,)
    if order is SortBy.COLOUR:
        return _by_colour(lot)
    if order is SortBy.PLACE:
        return (min((skein.place for skein in held.skeins), default="").casefold(),)
    return (min(skein.number for skein in held.skeins),) if order is SortBy.AGE else ()


def _by_colour(lot: Lot) -> tuple[float, ...]:
    """By hue, greys last and unknown ones behind them, then light to dark."""
    if not lot.colours:
        return (2, 0.0, 0.0)
    seen = lab(lot.colours[0])
    hue = seen.hue
    return (1, 0.0, -seen.lightness) if hue is None else (0, hue, -seen.lightness)


def _by_name(lot: HeldLot) -> tuple[str, str, str, str, int]:
    facts = lot.lot
    return (
        facts.yarn.name.casefold(),
        facts.yarn.maker.casefold(),
        facts.colour.casefold(),
        facts.lot,
        facts.id,
    )


def _answers(held: HeldLot, filters: Filters) -> bool:
    lot = held.lot
    texts = (
        (filters.fibre, lambda: under_each_name(lot.fibre)),
        (filters.colour, lambda: [lot.colour, lot.colour_no]),
        (filters.place, lambda: [skein.place for skein in held.skeins]),
        (filters.owner, lambda: [skein.owner for skein in held.skeins]),
    )
    return (
        all(_in_any(wanted, found()) for wanted, found in texts if wanted)
        and (not filters.lot or lot.lot == filters.lot.strip())
        and (filters.thickness is None or _meets(lot, filters.thickness))
        and (filters.least_free is None or (held.free_length or NO_LENGTH) >= filters.least_free)
        and _is_such(held, filters)
    )


def _is_such(held: HeldLot, filters: Filters) -> bool:
    """What the lot is like, beyond the words of its band."""
    lot = held.lot
    states = [skein.state for skein in held.skeins if skein.held]
    return (
        (not filters.family or filters.family in {family(lab(c)) for c in lot.colours})
        and filters.conditions <= {*lot.conditions}
        and not (filters.sound and lot.conditions)
        and (not filters.daylight or lot.daylight)
        and (not filters.lone or states == [SkeinState.WHOLE])
        and (not filters.remnants or SkeinState.REMNANT in states)
    )


def _in_any(wanted: str, texts: Sequence[str]) -> bool:
    return any(wanted.strip().casefold() in text.casefold() for text in texts)


def _meets(lot: Lot, wanted: tuple[int, int]) -> bool:
    if lot.thickness_from is None:
        return False
    high = lot.thickness_from if lot.thickness_to is None else lot.thickness_to
    return lot.thickness_from <= wanted[1] and wanted[0] <= high


@dataclass(frozen=True, slots=True)
class AsideLine:
    """A promise with its skein's record and its item."""

    promise: Promised
    item: Item
    lot: Lot
    place: str


@dataclass(frozen=True, slots=True)
class AllAside:
    """All that is promised, by item, then role and skein, and her settings."""

    lines: tuple[AsideLine, ...]
    settings: Settings


def set_aside(book: Book) -> AllAside:
    """What is promised to what."""
    with book.reading() as db:
        settings = Settings.read(db)
        promises = item_rows.promises(db)
        known = {item.number: item for item in item_rows.items(db)}
        skeins = skeins_of(db, [p.skein for p in promises])
        lots = skein_rows.lots(db, sorted({s.lot_id for s in skeins.values()}))
    lines = [
        AsideLine(p, known[p.item], lots[skeins[p.skein].lot_id], skeins[p.skein].place)
        for p in promises
    ]
    lines.sort(key=lambda x: (x.item.number, x.promise.role, x.promise.skein))
    return AllAside(tuple(lines), settings)


def skeins_of(db: Connection, numbers: Sequence[int]) -> dict[int, HeldSkein]:
    """Some skeins as they are now, by number."""
    held = skein_rows.held_skeins(db, sorted(set(numbers)))
    return {skein.number: skein for skein in held}
