"""Stock-takings under way: notes of what was seen, free to change until they are booked."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, func, insert, null, or_, select, update

from stash.measures.mass import Mass
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import stocktake, stocktake_line


@dataclass(frozen=True, slots=True)
class Session:
    """One stock-taking."""

    id: int
    begun: date


@dataclass(frozen=True, slots=True)
class Noted:
    """A skein that was seen, and what it weighed if it was on the scale."""

    reading: Mass | None
    tare: Mass | None


def open_session(db: Connection, place: str) -> Session | None:
    """The stock-taking of a place that is under way, whatever the case of its letters.

    One whose closing entry was taken back is under way again.
    """
    asked = select(stocktake.c.id, stocktake.c.begun_on).where(
        func.lower(stocktake.c.place) == place.strip().lower(),
        or_(
            stocktake.c.entry_number.is_(None),
            stocktake.c.entry_number.in_(taken_back_entries),
        ),
    )
    found = db.execute(asked).first()
    return Session(found.id, date.fromisoformat(found.begun_on)) if found else None


def newest_closing(db: Connection, place: str) -> int | None:
    """The entry that closed the newest count of a place; None where it was never counted."""
    found: int | None = db.execute(
        select(func.max(stocktake.c.entry_number)).where(
            func.lower(stocktake.c.place) == place.strip().lower()
        )
    ).scalar()
    return found


def begin(db: Connection, place: str, on: date) -> Session:
    """A new one."""
    made = db.execute(insert(stocktake).values(place=place.strip(), begun_on=on.isoformat()))
    assert made.inserted_primary_key is not None
    return Session(made.inserted_primary_key[0], on)


def lines(db: Connection, session: int) -> dict[int, Noted]:
    """What was seen, by skein."""
    asked = select(stocktake_line).where(stocktake_line.c.stocktake_id == session)
    return {
        row.skein_number: Noted(_mass(row.reading_mg), _mass(row.tare_mg))
        for row in db.execute(asked.order_by(stocktake_line.c.skein_number))
    }


def _mass(mg: int | None) -> Mass | None:
    return None if mg is None else Mass(mg)


def note(db: Connection, session: int, skein: int, reading: Mass | None, tare: Mass | None) -> None:
    """A skein seen or weighed; saying it again replaces what was noted."""
    forget(db, session, skein)
    db.execute(
        insert(stocktake_line).values(
            stocktake_id=session,
            skein_number=skein,
            reading_mg=reading.mg if reading else null(),
            tare_mg=tare.mg if tare else null(),
        )
    )


def forget(db: Connection, session: int, skein: int) -> None:
    """A skein that was noted is as if it had not been seen."""
    same = (stocktake_line.c.stocktake_id == session, stocktake_line.c.skein_number == skein)
    db.execute(stocktake_line.delete().where(*same))


def close(db: Connection, session: int, entry_number: int) -> None:
    """It is booked by this entry."""
    db.execute(update(stocktake).where(stocktake.c.id == session).values(entry_number=entry_number))


def drop(db: Connection, session: int) -> None:
    """Forget a stock-taking that was never booked."""
    db.execute(stocktake_line.delete().where(stocktake_line.c.stocktake_id == session))
    db.execute(stocktake.delete().where(stocktake.c.id == session))
