"""The movement of the shelf over a span of days: what a seller needs at the end of her year."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.actions import clock
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.method import method_of
from stash.actions.priced import Priced
from stash.costing.pools import Method
from stash.measures.note import Note
from stash.stock.entry import Entry
from stash.stock.holding import HeldSkein
from stash.stock.movement import Booked
from stash.stock.turnover import NOTHING, MeasuredMovement, Turnover, turnover
from stash.stock.yarn import Lot
from stash.store import entry_rows


class By(StrEnum):
    """What the shelf is divided by; how yarn came and went is given in any case."""

    YARN = "yarn"
    LOT = "lot"


@dataclass(frozen=True, slots=True)
class Group:
    """One yarn or lot record, and what became of it over the span; of a yarn each lot as well."""

    name: str | Note
    turnover: Turnover
    lots: tuple[Turnover, ...] = ()


@dataclass(frozen=True, slots=True)
class LogSum:
    """A span of days: the whole shelf, its parts if asked for, and what the figures lack.

    What leaves is priced by the method of the year in which the span ends.

    `lots` is what became of each lot, however the shelf is divided: what is shown of the whole is
    the sum of what is shown of these, so that it is one figure whatever is asked for.

    `unmeasured` are skeins without a put-up, `unpriced` those whose price is not known, `unweighed`
    those whose grams are only inferred from a length. `left_out` are entries of the span that were
    taken back after it.
    """

    first: date | None
    last: date
    method: Method
    whole: Turnover
    groups: tuple[Group, ...]
    unmeasured: tuple[int, ...]
    unpriced: tuple[int, ...]
    unweighed: tuple[int, ...]
    left_out: tuple[Entry, ...]
    settings: Settings
    lots: tuple[Turnover, ...] = ()

    @property
    def currency(self) -> str:
        """The currency of its costs."""
        return self.settings.currency


def log_sum(
    book: Book, first: date | None = None, last: date | None = None, by: By | None = None
) -> LogSum:
    """The span from `first` to `last`, both included; from the beginning and until today if None.

    What counts as in and out, and how what was taken back is left out, is said in `turnover`.
    """
    last = last or clock.today()
    with book.reading() as db:
        settings = Settings.read(db)
        priced = Priced.read(db, method_of(db, last.year))
        moves = entry_rows.movements(db)
        entries = entry_rows.entries(db)
    moved, skeins, lots = priced.moved, priced.skeins, priced.lots
    seen = [m for m in moved if m.on <= last]
    lot_of = {number: skein.lot_id for number, skein in skeins.items()}
    concerned = sorted({m.skein for m in seen if first is None or m.on >= first} | _there(seen))
    return LogSum(
        first=first,
        last=last,
        method=priced.method,
        whole=turnover(moved, first, last),
        groups=tuple(_groups(moved, (first, last), _namer(by, skeins, lots), lot_of)) if by else (),
        unmeasured=tuple(n for n in concerned if skeins[n].pair.put_up is None),
        unpriced=_unpriced(seen, concerned),
        unweighed=tuple(n for n in concerned if not skeins[n].mass_known),
        left_out=tuple(_left_out(entries, moves, first, last)),
        settings=settings,
        lots=_by_lot(moved, (first, last), lot_of),
    )


_Span = tuple[date | None, date]


def _by_lot(
    moved: Sequence[MeasuredMovement], span: _Span, lot_of: Mapping[int, int]
) -> tuple[Turnover, ...]:
    """What became of each lot of which anything moved or is there."""
    parts: dict[int, list[MeasuredMovement]] = {}
    for m in moved:
        parts.setdefault(lot_of[m.skein], []).append(m)
    each = (turnover(part, *span) for part in parts.values())
    return tuple(one for one in each if one != Turnover())


def _there(moved: Sequence[MeasuredMovement]) -> set[int]:
    """Skeins that hold yarn after all that."""
    held = dict.fromkeys((m.skein for m in moved), NOTHING)
    for m in moved:
        held[m.skein] += m.total
    return {number for number, total in held.items() if total}


def _unpriced(moved: Sequence[MeasuredMovement], concerned: Sequence[int]) -> tuple[int, ...]:
    unpriced = {m.skein for m in moved if not m.total.all_priced}
    return tuple(number for number in concerned if number in unpriced)


def _namer(
    by: By | None, skeins: Mapping[int, HeldSkein], lots: Mapping[int, Lot]
) -> Callable[[int], tuple[str, int, str | Note]]:
    """The order and the name of the group a skein belongs to."""

    def name(number: int) -> tuple[str, int, str | Note]:
        lot = lots[skeins[number].lot_id]
        if by is By.LOT:
            return "", lot.id, Note("lot_in_full", lot=lot)
        return str(lot.yarn).casefold(), lot.yarn.id, str(lot.yarn)

    return name


def _groups(
    moved: Sequence[MeasuredMovement],
    span: _Span,
    name: Callable[[int], tuple[str, int, str | Note]],
    lot_of: Mapping[int, int],
) -> list[Group]:
    parts: dict[tuple[str, int, str | Note], list[MeasuredMovement]] = {}
    for m in moved:
        parts.setdefault(name(m.skein), []).append(m)
    groups = [
        Group(key[-1], turnover(parts[key], *span), _by_lot(parts[key], span, lot_of))
        for key in sorted(parts, key=lambda key: key[:2])
    ]
    return [g for g in groups if g.turnover != Turnover()]


def _left_out(
    entries: Sequence[Entry], moves: Sequence[Booked], first: date | None, last: date
) -> list[Entry]:
    """Entries of the span that moved yarn and were taken back after it, oldest first."""
    days = {entry.number: entry.on for entry in entries}
    moving = {booked.entry for booked in moves}
    return [
        entry
        for entry in reversed(entries)
        if entry.number in moving
        and entry.taken_back_by is not None
        and (first is None or entry.on >= first)
        and entry.on <= last < days[entry.taken_back_by]
    ]
