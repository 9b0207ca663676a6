"""Entries and what belongs to them: movements, promises, steps, facts."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any

from sqlalchemy import (
    ColumnElement,
    Connection,
    Integer,
    Row,
    Table,
    func,
    insert,
    null,
    select,
    text,
    update,
)

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.entry import ALL_ENTRIES, Entry, EntryFilter, as_json, from_json
from stash.stock.item import ItemState, Weighed
from stash.stock.movement import Booked, Kind, Movement
from stash.stock.promise import BookedPromise, PromiseChange, PromiseKind
from stash.store.in_list import in_list
from stash.store.skein_rows import moved_on
from stash.store.tables import (
    design,
    entry,
    fact,
    item,
    item_order,
    item_step,
    lot,
    movement,
    promise,
    setting,
    skein,
)

#: Where the facts of a thing live and by which column it is named.
_PLACES = {
    "skein": (skein, skein.c.number),
    "lot": (lot, lot.c.id),
    "design": (design, design.c.id),
    "item": (item, item.c.number),
    "order": (item_order, item_order.c.number),
}


def next_number(db: Connection) -> int:
    """The number the entry being written will have; foreign keys wait for it until the end."""
    db.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
    last = db.execute(text("SELECT seq FROM sqlite_sequence WHERE name = 'entry'")).scalar()
    return int(last or 0) + 1


def add_entry(db: Connection, made: Entry) -> None:
    """The entry itself, written last, when it is known what was done."""
    db.execute(
        insert(entry).values(
            number=made.number,
            on_day=made.on.isoformat(),
            at_utc=made.at_utc,
            kind=made.kind,
            words="" if isinstance(made.what, Note) else made.what,
            takes_back=made.takes_back,
            facts=as_json(made.what) if isinstance(made.what, Note) else None,
            device=made.device,
        )
    )


def entries(
    db: Connection,
    newest: int | None = None,
    number: int | None = None,
    which: EntryFilter = ALL_ENTRIES,
    only: Collection[int] | None = None,
) -> list[Entry]:
    """The log, newest first; `newest` limits how many, `number` asks for one, `only` for some."""
    answer = entry.alias()
    asked = (
        select(entry, answer.c.number.label("taken_back_by"))
        .outerjoin(answer, answer.c.takes_back == entry.c.number)
        .order_by(entry.c.number.desc())
        .limit(newest)
    )
    if number is not None:
        asked = asked.where(entry.c.number == number)
    if only is not None:
        asked = asked.where(in_list(entry.c.number, only))
    return [
        Entry(
            row.number,
            date.fromisoformat(row.on_day),
            row.at_utc,
            row.kind,
            row.words if row.facts is None else from_json(row.facts),
            row.takes_back,
            row.taken_back_by,
            row.device,
        )
        for row in db.execute(asked.where(*_of(which)))
    ]


def _of(which: EntryFilter) -> Iterator[ColumnElement[bool]]:
    if which.first is not None:
        yield entry.c.on_day >= which.first.isoformat()
    if which.last is not None:
        yield entry.c.on_day <= which.last.isoformat()
    if which.kinds:
        yield entry.c.kind.in_(which.kinds)
    if which.device is not None:
        yield entry.c.device == which.device


def devices(db: Connection) -> list[str]:
    """The devices that entries were written on, the last to write first; `""` is this computer."""
    newest = func.max(entry.c.number)
    asked = select(entry.c.device).group_by(entry.c.device).order_by(newest.desc())
    return [*db.execute(asked).scalars()]


def add_movements(db: Connection, number: int, moves: Sequence[Movement]) -> None:
    """Movements of one entry, in order."""
    if moves:
        db.execute(insert(movement), [_movement_values(number, move) for move in moves])


def _movement_values(number: int, move: Movement) -> dict[str, Any]:
    return {
        "entry_number": number,
        "skein_number": move.skein,
        "kind": move.kind.value,
        "change_mg": move.change.mg,
        "typed": move.typed,
        "item_number": move.item,
        "role": move.role,
        "estimated": int(move.estimated),
        "undoes": move.undoes,
        "price_coins": None if move.price is None else move.price.coins,
        "fee_coins": None if move.fee is None else move.fee.coins,
    }


def movements(
    db: Connection,
    *,
    entry_number: int | None = None,
    skeins: Collection[int] | None = None,
    items: Collection[int] | None = None,
) -> list[Booked]:
    """Movements with their day and entry, oldest first, of an entry, of skeins or of items."""
    asked = (
        select(movement, moved_on.label("on_day"))
        .join(entry, entry.c.number == movement.c.entry_number)
        .join(skein, skein.c.number == movement.c.skein_number)
    )
    for column, value in ((movement.c.entry_number, entry_number),):
        if value is not None:
            asked = asked.where(column == value)
    for column, values in ((movement.c.skein_number, skeins), (movement.c.item_number, items)):
        if values is not None:
            asked = asked.where(in_list(column, values))
    order = (moved_on, entry.c.number, movement.c.id)
    return [_booked(row) for row in db.execute(asked.order_by(*order))]


def _booked(row: Row[Any]) -> Booked:
    return Booked(
        row.entry_number,
        date.fromisoformat(row.on_day),
        Movement(
            row.skein_number,
            Kind(row.kind),
            Mass(row.change_mg),
            row.typed,
            row.item_number,
            row.role,
            bool(row.estimated),
            row.undoes,
            row.id,
            None if row.price_coins is None else Money(row.price_coins),
            None if row.fee_coins is None else Money(row.fee_coins),
        ),
    )


def newest_day(db: Connection) -> date | None:
    """The latest day any entry is dated."""
    day = db.execute(select(func.max(entry.c.on_day))).scalar()
    return None if day is None else date.fromisoformat(day)


def add_promises(db: Connection, number: int, changes: Sequence[PromiseChange]) -> None:
    """Changes of promises in one entry, in order."""
    if changes:
        db.execute(insert(promise), [_promise_values(number, change) for change in changes])


def _promise_values(number: int, change: PromiseChange) -> dict[str, Any]:
    return {
        "entry_number": number,
        "skein_number": change.skein,
        "item_number": change.item,
        "role": change.role,
        "strand": change.strand,
        "kind": change.kind.value,
        "change_mg": change.mass.mg,
        "change_um": None if change.length is None else change.length.um,
        "undoes": change.undoes,
    }


def promise_changes(
    db: Connection,
    *,
    entry_number: int | None = None,
    skeins: Collection[int] | None = None,
    item_number: int | None = None,
) -> list[BookedPromise]:
    """The changes of promises booked in one entry, of skeins or of an item, in order."""
    asked = select(promise).order_by(promise.c.id)
    if entry_number is not None:
        asked = asked.where(promise.c.entry_number == entry_number)
    if skeins is not None:
        asked = asked.where(in_list(promise.c.skein_number, skeins))
    if item_number is not None:
        asked = asked.where(promise.c.item_number == item_number)
    return [BookedPromise(row.id, row.entry_number, _change(row)) for row in db.execute(asked)]


def _change(row: Row[Any]) -> PromiseChange:
    return PromiseChange(
        row.skein_number,
        row.item_number,
        row.role,
        row.strand,
        PromiseKind(row.kind),
        Mass(row.change_mg),
        None if row.change_um is None else Length(row.change_um),
        row.undoes,
    )


@dataclass(frozen=True, slots=True)
class Step:
    """An item reaching a state; `how` and `weighed` are set when it is done."""

    item: int
    state: ItemState
    how: Weighed | None = None
    weighed: Mass | None = None
    undoes: int | None = None
    id: int | None = None


def add_steps(db: Connection, number: int, steps: Sequence[Step]) -> None:
    """Items reach a state, in order."""
    if steps:
        db.execute(insert(item_step), [_step_values(number, step) for step in steps])


def _step_values(number: int, step: Step) -> dict[str, Any]:
    return {
        "entry_number": number,
        "item_number": step.item,
        "state": step.state.value,
        "how": step.how.value if step.how else "",
        "weighed_mg": step.weighed.mg if step.weighed else None,
        "undoes": step.undoes,
    }


def steps(
    db: Connection, *, entry_number: int | None = None, item_number: int | None = None
) -> list[Step]:
    """The steps booked in one entry or of one item, in order."""
    asked = select(item_step).order_by(item_step.c.id)
    if entry_number is not None:
        asked = asked.where(item_step.c.entry_number == entry_number)
    if item_number is not None:
        asked = asked.where(item_step.c.item_number == item_number)
    return [
        Step(
            row.item_number,
            ItemState(row.state),
            Weighed(row.how) if row.how else None,
            None if row.weighed_mg is None else Mass(row.weighed_mg),
            row.undoes,
            row.id,
        )
        for row in db.execute(asked)
    ]


@dataclass(frozen=True, slots=True)
class Fact:
    """A fact put right: what it was and what it is now, as text; None is nothing known."""

    entry: int
    thing: str
    ref: str
    name: str
    old: str | None
    new: str | None


def set_facts(
    db: Connection, number: int, thing: str, ref: str, new: Mapping[str, str | None]
) -> list[str]:
    """Put facts of one thing right together and keep the old values in the entry.

    Together, because what must hold of a row must hold after each statement. The names of those
    that really changed come back.
    """
    old = _old_facts(db, thing, ref, list(new))
    changed = {name: value for name, value in new.items() if old[name] != value}
    if not changed:
        return []
    common = {"entry_number": number, "thing": thing, "ref": ref}
    rows = [
        common | {"name": name, "old": old[name], "new": value} for name, value in changed.items()
    ]
    db.execute(insert(fact), rows)
    if thing == "setting":
        _set_setting(db, ref, changed["value"])
    else:
        table, key = _PLACES[thing]
        typed = {name: _typed(table, name, value) for name, value in changed.items()}
        db.execute(update(table).where(key == int(ref)).values(typed))
    return list(changed)


def _old_facts(db: Connection, thing: str, ref: str, names: list[str]) -> dict[str, str | None]:
    if thing == "setting":
        return {"value": setting_value(db, ref)}
    table, key = _PLACES[thing]
    row = db.execute(select(*(table.c[name] for name in names)).where(key == int(ref))).one()
    return {name: None if v is None else str(v) for name, v in row._mapping.items()}


def _typed(table: Table, name: str, value: str | None) -> object:
    if value is None:
        return null()
    return int(value) if isinstance(table.c[name].type, Integer) else value


def setting_value(db: Connection, name: str) -> str | None:
    """One of her settings as it is kept, or None."""
    found: str | None = db.execute(select(setting.c.value).where(setting.c.name == name)).scalar()
    return found


def settings(db: Connection) -> dict[str, str]:
    """All her settings as they are kept, by name."""
    return {row.name: row.value for row in db.execute(select(setting).order_by(setting.c.name))}


def _set_setting(db: Connection, name: str, value: str | None) -> None:
    db.execute(setting.delete().where(setting.c.name == name))
    if value is not None:
        db.execute(insert(setting).values(name=name, value=value))


def facts(
    db: Connection,
    *,
    entry_number: int | None = None,
    thing: str = "",
    refs: Collection[str] | None = None,
) -> list[Fact]:
    """Facts put right in one entry, or the history of things or of a kind; oldest first."""
    asked = select(fact).order_by(fact.c.id)
    if entry_number is not None:
        asked = asked.where(fact.c.entry_number == entry_number)
    if thing:
        asked = asked.where(fact.c.thing == thing)
    if refs is not None:
        asked = asked.where(in_list(fact.c.ref, refs))
    return [
        Fact(row.entry_number, row.thing, row.ref, row.name, row.old, row.new)
        for row in db.execute(asked)
    ]
