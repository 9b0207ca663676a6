"""What the movements must add up to: on every day, and with what took them back."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from sqlalchemy import Connection, func, select, true

from stash.errors import Refusal
from stash.measures.mass import Mass
from stash.store.in_list import in_list
from stash.store.skein_rows import moved_on
from stash.store.tables import entry, movement, skein


def lowest_on_any_day(
    db: Connection, skeins: Collection[int] | None = None
) -> list[tuple[int, date, Mass]]:
    """Skeins that would have held less than nothing on some day: number, day, how much.

    What was taken back never happened, whatever the day on which that was noticed.
    """
    answered = select(movement.c.undoes).where(movement.c.undoes.is_not(None))
    movements_asked = true() if skeins is None else in_list(movement.c.skein_number, skeins)
    running = (
        select(
            movement.c.skein_number,
            moved_on.label("on_day"),
            func.sum(movement.c.change_mg)
            .over(
                partition_by=movement.c.skein_number,
                order_by=(moved_on, entry.c.number, movement.c.id),
            )
            .label("held_mg"),
        )
        .join(entry, entry.c.number == movement.c.entry_number)
        .join(skein, skein.c.number == movement.c.skein_number)
        .where(movements_asked, movement.c.undoes.is_(None), movement.c.id.not_in(answered))
        .subquery()
    )
    asked = select(running).where(running.c.held_mg < 0).order_by(*running.c)
    return [(n, date.fromisoformat(day), Mass(mg)) for n, day, mg in db.execute(asked)]


def refuse_if_ever_below_nothing(db: Connection, skeins: Collection[int]) -> None:
    """A back-dated movement must leave every skein with at least nothing on every later day."""
    for number, day, held in lowest_on_any_day(db, skeins):
        raise Refusal("skein_below_nothing_on", skein=number, held=held, day=day)


def unbalanced_take_backs(db: Connection) -> list[tuple[int, int, Mass]]:
    """Entries and their answers whose movements do not cancel: both numbers, what is left over."""
    moved = func.sum(movement.c.change_mg)
    both = (
        select(entry.c.takes_back, entry.c.number, moved)
        .join(movement, movement.c.entry_number.in_([entry.c.number, entry.c.takes_back]))
        .where(entry.c.takes_back.is_not(None))
        .group_by(entry.c.takes_back, entry.c.number, movement.c.skein_number)
        .having(moved != 0)
        .order_by(entry.c.number)
    )
    return [(wrong, answer, Mass(mg)) for wrong, answer, mg in db.execute(both)]
