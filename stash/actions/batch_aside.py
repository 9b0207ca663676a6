"""A batch that was planned, set aside: every item of it in one entry, or none."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from stash.actions.aside import Picked, promise_takes, skeins_in
from stash.actions.batch import free_now
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.order import ForOrder, order_for
from stash.errors import Refusal
from stash.matching.answer.proposal import Take
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.planning.model.saved import Saved, SavedCut, SavedWant
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import AskedFor, ItemState
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.item_rows import DesignRow, PlannedRole


@dataclass(frozen=True, slots=True)
class BatchAside:
    """The entry, the items by number with the names of their designs, and what to pick."""

    entry: int
    items: tuple[tuple[int, str], ...]
    picked: tuple[tuple[int, Picked], ...]
    settings: Settings


def aside_batch(book: Book, saved: Saved, *, on: date | None = None) -> BatchAside:
    """Set aside all yarn of a plan; refused where the shelf or a design is another since."""
    with book.entry("aside", on) as writer:
        lots = skein_rows.held_lots(writer.db)
        rows = {row.name: row for row in item_rows.designs(writer.db)}
        _refuse_changed(saved, lots, rows)
        _refuse_unsound(saved, lots)
        skeins = skeins_in(lots)
        made, picked = [], []
        for number, want in sorted(saved.items.items()):
            item = _plan_item(writer, saved.wants[want], rows)
            made.append((item, saved.wants[want].name))
            takes = [
                (cut.role, _take(cut, skeins[cut.skein][0]))
                for cut in saved.cuts
                if cut.item == number
            ]
            picked += [(item, line) for line in promise_takes(writer, item, takes, skeins)]
        first, last = made[0][0], made[-1][0]
        writer.what = Note("batch_set_aside", items=len(made), first=first, last=last)
    picked.sort(key=lambda p: (p[1].skein.place, p[1].skein.number, p[0], p[1].role))
    return BatchAside(writer.number, tuple(made), tuple(picked), writer.settings)


def changed_of(book: Book, saved: Saved) -> tuple[Note, ...]:
    """What of the shelf or of its designs is another since the plan was made."""
    with book.reading() as db:
        rows = {row.name: row for row in item_rows.designs(db)}
        return tuple(_changed(saved, skein_rows.held_lots(db), rows))


def _take(cut: SavedCut, skein: HeldSkein) -> Take:
    return Take(cut.skein, skein.lot_id, skein.place, cut.strand, cut.length)


def _plan_item(writer: EntryWriter, want: SavedWant, rows: dict[str, DesignRow]) -> int:
    price = None if want.coins is None else Money(want.coins)
    if want.order is not None:
        order_for(writer.db, ForOrder(want.order), want.name)
    asked = AskedFor(price, want.minutes, want.order)
    made = item_rows.add_item(writer.db, writer.number, _design_id(writer, want, rows), "", asked)
    writer.step([entry_rows.Step(made, ItemState.PLANNED)])
    planned = [PlannedRole(r.role, r.expected, r.set_aside, r.source) for r in want.roles]
    item_rows.add_planned(writer.db, writer.number, made, planned)
    return made


def _design_id(writer: EntryWriter, want: SavedWant, rows: dict[str, DesignRow]) -> int:
    """The kept design; another size is kept as a design of its own, so that it learns by itself."""
    if want.made_as is None:
        return rows[want.design].id
    if want.name not in rows:
        text = json.dumps(want.made_as, sort_keys=True)
        added = item_rows.add_design(writer.db, writer.number, want.name, text)
        rows[want.name] = DesignRow(added, want.name, text)
    return rows[want.name].id


def _refuse_changed(saved: Saved, lots: tuple[HeldLot, ...], rows: Mapping[str, DesignRow]) -> None:
    changed = _changed(saved, lots, rows)
    if changed:
        raise Refusal("shelf_not_as_planned", changed=tuple(changed))


def _changed(saved: Saved, lots: tuple[HeldLot, ...], rows: Mapping[str, DesignRow]) -> list[Note]:
    return [*_changed_designs(saved, rows), *_changed_skeins(saved.free, free_now(lots))]


def _changed_designs(saved: Saved, rows: Mapping[str, DesignRow]) -> Iterator[Note]:
    for want in saved.wants:
        row = rows.get(want.design)
        if row is None:
            yield Note("design_not_there", design=want.design)
        elif json.loads(row.plan) != want.plan:
            yield Note("design_put_right", design=want.design)
        other = rows.get(want.name) if want.made_as is not None else None
        if other is not None and json.loads(other.plan) != want.made_as:
            yield Note("design_is_another", design=want.name)


def _changed_skeins(then: Mapping[int, Mass], now: Mapping[int, Mass]) -> Iterator[Note]:
    for number in sorted({**then, **now}):
        if number not in now or (number in then and then[number] and not now[number]):
            yield Note("skein_not_free", skein=number)
        elif number not in then:
            yield Note("skein_is_new", skein=number)
        elif then[number] != now[number]:
            yield Note("free_not_as_planned", skein=number, free=now[number], was=then[number])


def _refuse_unsound(saved: Saved, lots: tuple[HeldLot, ...]) -> None:
    """A file that somebody wrote in must still promise whole items, and no gram twice."""
    skeins = {skein.number: skein for held in lots for skein in held.skeins}
    cut_um: dict[int, int] = {}
    given_um: dict[tuple[int, str], int] = {}
    for cut in saved.cuts:
        cut_um[cut.skein] = cut_um.get(cut.skein, 0) + cut.length.um
        key = cut.item, cut.role
        given_um[key] = given_um.get(key, 0) + cut.length.um
    for number, um in sorted(cut_um.items()):
        free = skeins[number].free_length if number in skeins else None
        if free is None or Length(um) > free:
            raise _unsound(Note("skein_lacks", skein=number, length=Length(um)))
    for item, want in sorted(saved.items.items()):
        for role in saved.wants[want].roles:
            if given_um.pop((item, role.role), 0) < role.set_aside.um:
                raise _unsound(Note("item_lacks", item=item, role=role.role))
    if given_um or not saved.items:
        raise _unsound(Note("cuts_of_no_item"))


def _unsound(why: Note) -> Refusal:
    return Refusal("plan_not_sound", why=why)
