"""Items that are done by a list of weighings: every ball, also one that several were made from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.done import Known, close_within, write_what
from stash.actions.finished import ClosedItem, Finished, finished
from stash.actions.order import ForOrder
from stash.actions.several import Listed, by_row, problems
from stash.actions.use import book_use, ready_for_use, role_for
from stash.actions.weigh import ScaleReading, weigh_within
from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.rounding import shared_out
from stash.stock.holding import HeldSkein
from stash.stock.item import Item, ItemState, Weighed
from stash.store import item_rows


@dataclass(frozen=True, slots=True)
class BallRow:
    """One row: what a ball weighs now, as the scale has it, and the items made from it."""

    items: tuple[str, ...]
    ball: str
    reading: Mass


def done_listed(
    book: Book,
    listed: Listed[BallRow],
    *,
    minutes: int | None = None,
    order: ForOrder | None = None,
    on: date | None = None,
) -> list[Finished]:
    """Every item of a list of weighings done, in one entry.

    What a ball lost that several items were made from is shared by what was set aside of it for
    each, and marked as estimated. Raises BadRows for rows that cannot be; then nothing is booked.
    """
    with book.entry("done", on) as writer:
        shared = Listed(listed.name, [*_shared(listed.rows)])
        wrong = problems(book, shared, lambda row: _share(writer, row))
        rest = Listed(listed.name, [*_by_item(listed.rows)], [*listed.unread, *wrong])
        items = find.Items(writer.db, (typed for _, (typed, _) in rest.rows))

        def close(row: tuple[str, Known]) -> ClosedItem:
            item = items.item(row[0])
            items.becomes(replace(item, state=ItemState.DONE))
            return close_within(writer, item, row[1], minutes, order)

        booked = by_row(book, rest, close)
        write_what(writer, booked, Weighed.BALLS.value)
    return finished(book, writer, booked)


def _shared(rows: Sequence[tuple[int, BallRow]]) -> Iterator[tuple[int, BallRow]]:
    """Balls of several items come first: what they lost is booked before the items are closed."""
    return ((line, row) for line, row in rows if len(row.items) > 1)


def _by_item(rows: Sequence[tuple[int, BallRow]]) -> Iterator[tuple[int, tuple[str, Known]]]:
    """The balls of each item alone, at the line that first names it."""
    lines: dict[str, int] = {}
    left: dict[str, dict[str, Mass]] = {}
    shared = {item for _, row in rows if len(row.items) > 1 for item in row.items}
    for line, row in rows:
        for item in row.items:
            lines.setdefault(item, line)
            own = left.setdefault(item, {})
            if len(row.items) == 1:
                own[row.ball] = row.reading
    for item, balls in left.items():
        yield lines[item], (item, Known(left=balls, shared=item in shared))


def _share(writer: EntryWriter, row: BallRow) -> None:
    """What a ball lost, booked as used by each of its items."""
    skein = find.skein(writer.db, row.ball).skein
    if not skein.mass_known:
        raise Refusal("skein_never_weighed", skein=skein.number)
    items = [find.item(writer.db, item) for item in row.items]
    lost = skein.held - (row.reading - (skein.tare or NO_MASS))
    if lost > NO_MASS:
        _use(writer, skein, items, lost)
    weigh_within(writer, writer.skein(skein.number), ScaleReading(row.reading, recount=True), None)


def _use(writer: EntryWriter, skein: HeldSkein, items: Sequence[Item], lost: Mass) -> None:
    promises = item_rows.promises(writer.db, skeins=[skein.number])
    aside = [[p for p in promises if p.item == item.number] for item in items]
    weights = [sum(p.mass.mg for p in own) for own in aside]
    shares = shared_out(lost.mg, weights if any(weights) else [1] * len(items))
    for item, own, mg in zip(items, aside, shares, strict=True):
        ready_for_use(writer, item)
        now = find.item(writer.db, str(item.number))
        role = role_for(writer, skein.number, now, own)
        if mg:
            held = writer.skein(skein.number)
            book_use(writer, held, Mass(mg), now, estimated=True, role=role)
