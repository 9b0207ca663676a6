"""Items, their promises and the designs they are made from."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from sqlalchemy import Connection, Select, func, insert, select

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.stock.item import (
    NOT_ASKED,
    TEACHING,
    AskedFor,
    Item,
    ItemState,
    Weighed,
)
from stash.stock.promise import Promised
from stash.store.in_list import given, in_given, in_list
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import (
    design,
    entry,
    item,
    item_need,
    item_step,
    movement,
    promise,
)


def promises(
    db: Connection,
    *,
    skeins: Collection[int] | None = None,
    items: Collection[int] | None = None,
) -> list[Promised]:
    """What is still promised, of skeins, for items or in all: by skein, then oldest first."""
    asked = _promised_statement(skeins=skeins is not None, items=items is not None)
    return [_promised(row) for row in db.execute(asked, given(skeins=skeins, items=items))]


@cache
def _promised_statement(*, skeins: bool, items: bool) -> Select[Any]:
    since = func.min(promise.c.id)
    asked = (
        select(
            promise.c.skein_number,
            promise.c.item_number,
            promise.c.role,
            promise.c.strand,
            func.sum(promise.c.change_mg).label("mg"),
            func.sum(promise.c.change_um).label("um"),
            since.label("since"),
        )
        .group_by(promise.c.skein_number, promise.c.item_number, promise.c.role, promise.c.strand)
        .having(func.sum(promise.c.change_mg) > 0)
        .order_by(promise.c.skein_number, since)
    )
    if skeins:
        asked = asked.where(in_given(promise.c.skein_number, "skeins"))
    return asked.where(in_given(promise.c.item_number, "items")) if items else asked


def strands_of(db: Connection, item_number: int, role: str) -> dict[int, set[int]]:
    """Of which strands of a role each skein was set aside, whatever is still promised of it."""
    asked = (
        select(promise.c.skein_number, promise.c.strand)
        .where(promise.c.item_number == item_number, promise.c.role == role)
        .order_by(promise.c.id)
    )
    found: dict[int, set[int]] = {}
    for skein, strand in db.execute(asked):
        found.setdefault(skein, set()).add(strand)
    return found


def _promised(row: Any) -> Promised:
    return Promised(
        row.skein_number,
        row.item_number,
        row.role,
        row.strand,
        Mass(row.mg),
        None if row.um is None else Length(row.um),
        row.since,
    )


def roles_set_aside(db: Connection, skein_number: int, made: int) -> list[str]:
    """The roles a skein was ever set aside for, for one item, in the order of the alphabet."""
    asked = select(promise.c.role).where(
        promise.c.skein_number == skein_number, promise.c.item_number == made
    )
    return list(db.execute(asked.distinct().order_by(promise.c.role)).scalars())


def items(db: Connection, numbers: Collection[int] | None = None) -> list[Item]:
    """Items in their present state, by number; without those whose entry was taken back."""
    asked = _item_statement(narrowed=numbers is not None)
    return [
        Item(
            row.number,
            ItemState(row.state),
            row.design_id,
            row.design or "",
            row.note,
            Weighed(row.how) if row.how else None,
            bool(row.promised_mg),
            AskedFor(
                None if row.asked_coins is None else Money(row.asked_coins),
                row.asked_minutes,
                row.order_number,
            ),
            row.made_minutes,
        )
        for row in db.execute(asked, given(items=numbers))
    ]


@cache
def _item_statement(*, narrowed: bool) -> Select[Any]:
    """`narrowed`: of given items, and nothing is summed of the others."""
    steps = select(item_step.c.item_number, func.max(item_step.c.id).label("id"))
    sums = select(promise.c.item_number, func.sum(promise.c.change_mg).label("mg"))
    if narrowed:
        steps = steps.where(in_given(item_step.c.item_number, "items"))
        sums = sums.where(in_given(promise.c.item_number, "items"))
    last = steps.group_by(item_step.c.item_number).subquery()
    promised = sums.group_by(promise.c.item_number).subquery()
    asked = (
        select(
            item.c.number,
            item.c.design_id,
            item.c.note,
            item.c.asked_coins,
            item.c.asked_minutes,
            item.c.order_number,
            item.c.made_minutes,
            design.c.name.label("design"),
            item_step.c.state,
            item_step.c.how,
            func.coalesce(promised.c.mg, 0).label("promised_mg"),
        )
        .select_from(item)
        .outerjoin(design, design.c.id == item.c.design_id)
        .join(last, last.c.item_number == item.c.number)
        .join(item_step, item_step.c.id == last.c.id)
        .outerjoin(promised, promised.c.item_number == item.c.number)
        .where(item.c.entry_number.not_in(taken_back_entries))
        .order_by(item.c.number)
    )
    return asked.where(in_given(item.c.number, "items")) if narrowed else asked


@dataclass(frozen=True, slots=True)
class Stepped:
    """An item reaching a state on a day."""

    item: int
    entry: int
    on: date
    state: ItemState


def standing_steps(db: Connection, items: Collection[int] | None = None) -> list[Stepped]:
    """Every step that was not taken back, of some items or of all, as they were booked."""
    answered = select(item_step.c.undoes).where(item_step.c.undoes.is_not(None))
    asked = (
        select(item_step, entry.c.on_day)
        .join(entry, entry.c.number == item_step.c.entry_number)
        .where(item_step.c.undoes.is_(None), item_step.c.id.not_in(answered))
        .order_by(item_step.c.id)
    )
    if items is not None:
        asked = asked.where(in_list(item_step.c.item_number, items))
    return [
        Stepped(
            row.item_number,
            row.entry_number,
            date.fromisoformat(row.on_day),
            ItemState(row.state),
        )
        for row in db.execute(asked)
    ]


def note_of(db: Connection, number: int) -> str:
    """What is noted of an item."""
    found: str = db.execute(select(item.c.note).where(item.c.number == number)).scalar_one()
    return found


def own_minutes(db: Connection) -> dict[str, list[int]]:
    """What finished items really took, by the name of their design."""
    found: dict[str, list[int]] = {}
    for one in items(db):
        if one.made_minutes is not None and one.design and one.state is ItemState.DONE:
            found.setdefault(one.design, []).append(one.made_minutes)
    return found


def add_item(
    db: Connection, number: int, design_id: int | None, note: str, asked: AskedFor = NOT_ASKED
) -> int:
    """A new item; its number is never used again."""
    added = db.execute(
        insert(item).values(
            entry_number=number,
            design_id=design_id,
            note=note,
            asked_coins=None if asked.price is None else asked.price.coins,
            asked_minutes=asked.minutes,
            order_number=asked.order,
        )
    ).inserted_primary_key
    assert added is not None
    made: int = added[0]
    return made


def used_by_role(db: Connection, number: int) -> dict[str, Mass]:
    """What one item took so far, by role; what the open entry has booked counts."""
    return used_of(db, [number]).get(number, {})


def used_of(db: Connection, items: Collection[int]) -> dict[int, dict[str, Mass]]:
    """The same of several items, by number; those that took nothing are not there."""
    asked = (
        select(movement.c.item_number, movement.c.role, func.sum(movement.c.change_mg))
        .where(in_list(movement.c.item_number, items))
        .group_by(movement.c.item_number, movement.c.role)
        .having(func.sum(movement.c.change_mg) != 0)
        .order_by(movement.c.item_number, movement.c.role)
    )
    found: dict[int, dict[str, Mass]] = {}
    for number, role, mg in db.execute(asked):
        found.setdefault(number, {})[role] = Mass(-mg)
    return found


@dataclass(frozen=True, slots=True)
class Used:
    """What one item took of one skein for one role, and how that became known.

    `design` and `planned_in`: which design it is of, and the entry in which it was planned.
    """

    item: int
    design: int
    planned_in: int
    skein: int
    role: str
    used: Mass
    how: Weighed


def used_by_items(db: Connection) -> list[Used]:
    """What finished items took, where that was weighed; by item, skein and role."""
    done = {
        a.number: (a.design_id, a.how)
        for a in items(db)
        if a.design_id is not None and a.state is ItemState.DONE and a.how in TEACHING
    }
    if not done:
        return []
    asked = (
        select(
            movement.c.item_number,
            item.c.entry_number,
            movement.c.skein_number,
            movement.c.role,
            func.sum(movement.c.change_mg).label("mg"),
        )
        .join(item, item.c.number == movement.c.item_number)
        .where(movement.c.kind == "used", movement.c.item_number.is_not(None))
        .group_by(movement.c.item_number, movement.c.skein_number, movement.c.role)
        .having(func.sum(movement.c.change_mg) < 0)
        .order_by(movement.c.item_number, movement.c.skein_number, movement.c.role)
    )
    found = []
    for number, entry_number, skein, role, mg in db.execute(asked):
        if number in done:
            design_id, how = done[number]
            assert design_id is not None
            assert how is not None
            found.append(Used(number, design_id, entry_number, skein, role, Mass(-mg), how))
    return found


@dataclass(frozen=True, slots=True)
class PlannedRole:
    """What a role of an item was expected to take, on the day its yarn was set aside."""

    role: str
    expected: Length
    set_aside: Length
    source: str


def add_planned(db: Connection, number: int, made: int, roles: Collection[PlannedRole]) -> None:
    """The need an item was begun with."""
    for planned in roles:
        db.execute(
            insert(item_need).values(
                entry_number=number,
                item_number=made,
                role=planned.role,
                expected_um=planned.expected.um,
                set_aside_um=planned.set_aside.um,
                source=planned.source,
            )
        )


def planned_roles(db: Connection, made: int) -> list[PlannedRole]:
    """The need an item was begun with, A first."""
    return planned_of(db, [made]).get(made, [])


def planned_of(db: Connection, items: Collection[int]) -> dict[int, list[PlannedRole]]:
    """The same of several items, by number; none was estimated of those that are not there."""
    of_these = in_list(item_need.c.item_number, items)
    found: dict[int, list[PlannedRole]] = {}
    for row in db.execute(select(item_need).where(of_these).order_by(item_need.c.role)):
        need = Length(row.expected_um), Length(row.set_aside_um), row.source
        found.setdefault(row.item_number, []).append(PlannedRole(row.role, *need))
    return found


@dataclass(frozen=True, slots=True)
class DesignRow:
    """A design as it is kept: its plan as JSON text."""

    id: int
    name: str
    plan: str
    dropped: bool = False


def designs(db: Connection, *, dropped: bool = False) -> list[DesignRow]:
    """Every design, by name; those whose entry was taken back are not there.

    Those she has dropped are there where it is asked for them: their items are still of them.
    """
    asked = (
        select(design)
        .where(design.c.entry_number.not_in(taken_back_entries))
        .order_by(func.lower(design.c.name), design.c.id)
    )
    rows = [DesignRow(r.id, r.name, r.plan, bool(r.dropped)) for r in db.execute(asked)]
    return rows if dropped else [row for row in rows if not row.dropped]


def add_design(db: Connection, number: int, name: str, plan: str) -> int:
    """A new design."""
    added = db.execute(
        insert(design).values(entry_number=number, name=name, plan=plan)
    ).inserted_primary_key
    assert added is not None
    made: int = added[0]
    return made
