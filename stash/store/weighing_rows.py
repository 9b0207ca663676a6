"""What the scale said: every reading, and the row of an item at which it was taken."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, func, insert, select

from stash.measures.mass import Mass
from stash.stock.holding import HeldSkein
from stash.stock.weighing import WeighingOutcome
from stash.store.in_list import in_list
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import entry, promise, weighing


@dataclass(frozen=True, slots=True)
class RowOf:
    """A row of an item, counted over all its rows."""

    item: int
    row: int


@dataclass(frozen=True, slots=True)
class RowWeighed:
    """At which row of its item a skein was weighed, and in which entry."""

    entry: int
    skein: int
    row: int


def add_weighing(
    db: Connection,
    number: int,
    before: HeldSkein,
    gross: Mass,
    outcome: WeighingOutcome,
    at: RowOf | None = None,
) -> None:
    """What the scale said of a skein, kept whatever came of it; `at` which row of its item."""
    db.execute(
        insert(weighing).values(
            entry_number=number,
            skein_number=before.number,
            reading_mg=gross.mg,
            tare_mg=outcome.tare.mg,
            tare_from=outcome.tare_from,
            net_mg=outcome.net.mg,
            held_before_mg=before.held.mg,
            booked=outcome.verdict.value,
            item_number=at.item if at else outcome.item,
            at_row=at.row if at else None,
        )
    )


@dataclass(frozen=True, slots=True)
class OnScale:
    """On which day a skein was on the scale, and what it weighed without its tare."""

    on: date
    net: Mass


def last_on_scale(db: Connection, skeins: Collection[int]) -> dict[int, OnScale]:
    """The newest weighing of each of these skeins that was not taken back."""
    asked = (
        select(weighing.c.skein_number, entry.c.on_day, weighing.c.net_mg)
        .join(entry, entry.c.number == weighing.c.entry_number)
        .where(in_list(weighing.c.skein_number, skeins))
        .where(weighing.c.entry_number.not_in(taken_back_entries))
        .order_by(entry.c.on_day, weighing.c.id)
    )
    rows = db.execute(asked)
    return {skein: OnScale(date.fromisoformat(day), Mass(net)) for skein, day, net in rows}


def entries_weighing(db: Connection, skeins: Collection[int]) -> set[int]:
    """The entries in which any of these skeins was on the scale, whatever came of it."""
    asked = select(weighing.c.entry_number).where(in_list(weighing.c.skein_number, skeins))
    return set(db.execute(asked).scalars())


def rows_weighed(db: Connection, item_number: int) -> list[RowWeighed]:
    """The weighings for an item whose row was said, oldest first, none that was taken back."""
    asked = (
        select(weighing.c.entry_number, weighing.c.skein_number, weighing.c.at_row)
        .where(weighing.c.item_number == item_number, weighing.c.at_row.is_not(None))
        .where(weighing.c.entry_number.not_in(taken_back_entries))
        .order_by(weighing.c.entry_number, weighing.c.id)
    )
    return [RowWeighed(*row) for row in db.execute(asked)]


@dataclass(frozen=True, slots=True)
class LastWeighed:
    """In which entry a skein was last on the scale, and what it weighed without its tare."""

    entry: int
    net: Mass


def weighed_since_set_aside(
    db: Connection, items: Collection[int]
) -> dict[int, dict[int, LastWeighed]]:
    """By item, the newest weighing of each of its skeins since that was first set aside for it."""
    since = (
        select(
            promise.c.item_number,
            promise.c.skein_number,
            func.min(promise.c.entry_number).label("entry_number"),
        )
        .where(in_list(promise.c.item_number, items))
        .group_by(promise.c.item_number, promise.c.skein_number)
        .subquery()
    )
    asked = (
        select(
            since.c.item_number, weighing.c.skein_number, weighing.c.entry_number, weighing.c.net_mg
        )
        .join(since, since.c.skein_number == weighing.c.skein_number)
        .where(weighing.c.entry_number > since.c.entry_number)
        .where(weighing.c.entry_number.not_in(taken_back_entries))
        .order_by(weighing.c.id)
    )
    found: dict[int, dict[int, LastWeighed]] = {number: {} for number in items}
    for number, skein, weighed_in, net_mg in db.execute(asked):
        found[number][skein] = LastWeighed(weighed_in, Mass(net_mg))
    return found


def last_weighing(db: Connection, skein: int) -> LastWeighed | None:
    """The newest weighing of a skein that was not taken back."""
    asked = (
        select(weighing.c.entry_number, weighing.c.net_mg)
        .where(weighing.c.skein_number == skein)
        .where(weighing.c.entry_number.not_in(taken_back_entries))
        .order_by(weighing.c.id.desc())
        .limit(1)
    )
    found = db.execute(asked).first()
    return LastWeighed(found[0], Mass(found[1])) if found else None


def first_weighings(db: Connection, skeins: Collection[int]) -> dict[int, int]:
    """The entry in which each of these skeins was first put on the scale; some never were."""
    asked = (
        select(weighing.c.skein_number, func.min(weighing.c.entry_number))
        .where(weighing.c.skein_number.in_(skeins))
        .where(weighing.c.entry_number.not_in(taken_back_entries))
        .group_by(weighing.c.skein_number)
        .order_by(weighing.c.skein_number)
    )
    return {row[0]: row[1] for row in db.execute(asked)}
