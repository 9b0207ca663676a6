"""Skeins and lots as they lie in the file, with what the books add up to."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from enum import StrEnum
from functools import cache, lru_cache
from typing import Any, TypeVar

from sqlalchemy import (
    Column,
    Connection,
    Integer,
    RowMapping,
    Select,
    and_,
    case,
    cast,
    func,
    insert,
    or_,
    select,
    text,
)

from stash.measures.colour import Colour
from stash.measures.length import Length, metres
from stash.measures.mass import NO_MASS, Mass
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.stock.holding import USUAL_USEFUL_SIZE, HeldLot, HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.movement import OPENING, Kind
from stash.stock.yarn import Condition, Dyed, FullFrom, Lot, LotState, Pair, Surface, Yarn
from stash.store.in_list import given, in_given, in_list
from stash.store.tables import entry, lot, movement, promise, setting, skein, weighing, yarn

#: Entries that were answered by another: what they brought is no longer on the shelf.
taken_back_entries = select(entry.c.takes_back).where(entry.c.takes_back.is_not(None))


#: The day a movement counts on, where skein and entry are joined: yarn that came counts from the
#: day it was bought, where that lies before its entry, unless it was entered as opening stock.
moved_on = case(
    (
        and_(
            movement.c.kind == Kind.ARRIVED.value,
            movement.c.undoes.is_(None),
            entry.c.kind != "opening",
        ),
        func.min(func.coalesce(skein.c.bought_on, entry.c.on_day), entry.c.on_day),
    ),
    else_=entry.c.on_day,
)


def held_skeins(db: Connection, only: Collection[int] | None = None) -> list[HeldSkein]:
    """Every skein on the books with what it holds and what is promised, by number.

    Skeins taken back are left out; spent ones are not. `only` narrows to some numbers.
    """
    asked = _held_statement(narrowed=only is not None)
    return [_held_skein(row) for row in db.execute(asked, given(skeins=only)).all()]


#: Where she has set it, how long an opened skein must be to be more than a remnant.
_useful_um = (
    select(cast(setting.c.value, Integer)).where(setting.c.name == "useful size").scalar_subquery()
)


@cache
def _held_statement(*, narrowed: bool) -> Select[Any]:
    turned = case((movement.c.undoes.is_(None), 1), else_=-1)
    opening = func.sum(case((movement.c.kind.in_([*OPENING]), turned), else_=0))
    moved = select(
        movement.c.skein_number,
        func.sum(movement.c.change_mg).label("held_mg"),
        opening.label("openings"),
    ).group_by(movement.c.skein_number)
    promised = select(
        promise.c.skein_number, func.sum(promise.c.change_mg).label("promised_mg")
    ).group_by(promise.c.skein_number)
    weighed = _last_weighing()
    if narrowed:
        moved = moved.where(in_given(movement.c.skein_number, "skeins"))
        promised = promised.where(in_given(promise.c.skein_number, "skeins"))
        weighed = weighed.where(in_given(weighing.c.skein_number, "skeins"))
    m, p, w = moved.subquery(), promised.subquery(), weighed.subquery()
    asked = (
        select(
            skein.c.number,
            skein.c.lot_id,
            func.coalesce(m.c.held_mg, 0).label("held_mg"),
            func.coalesce(p.c.promised_mg, 0).label("promised_mg"),
            skein.c.own_mg,
            skein.c.own_um,
            skein.c.own_from,
            lot.c.full_mg,
            lot.c.full_um,
            lot.c.full_from,
            skein.c.opened,
            func.coalesce(m.c.openings, 0).label("openings"),
            skein.c.place,
            skein.c.owner,
            skein.c.tare_mg,
            skein.c.about,
            w.c.tare_from,
            func.coalesce(skein.c.bought_on, entry.c.on_day).label("since"),
            skein.c.paid_coins,
            _useful_um.label("useful_um"),
        )
        .select_from(skein)
        .join(entry, entry.c.number == skein.c.entry_number)
        .join(lot, lot.c.id == skein.c.lot_id)
        .outerjoin(m, m.c.skein_number == skein.c.number)
        .outerjoin(p, p.c.skein_number == skein.c.number)
        .outerjoin(w, w.c.skein_number == skein.c.number)
        .where(skein.c.entry_number.not_in(taken_back_entries))
        .order_by(skein.c.number)
    )
    return asked.where(in_given(skein.c.number, "skeins")) if narrowed else asked


def _last_weighing() -> Select[Any]:
    """Each skein's last standing weighing; SQLite takes the bare column from the row of max()."""
    return (
        select(weighing.c.skein_number, func.max(weighing.c.id), weighing.c.tare_from)
        .where(weighing.c.entry_number.not_in(taken_back_entries))
        .group_by(weighing.c.skein_number)
    )


def _held_skein(row: Any) -> HeldSkein:
    # unpacked by place: by name costs more than all the rest on a shelf of thousands
    number, lot_id, held_mg, promised_mg, own_mg, own_um, own_from, *rest = row
    full_mg, full_um, full_from, opened, openings, place, owner, tare_mg, about, *last = rest
    tare_from, since, paid_coins, useful_um = last
    pair = _pair(own_mg, own_um, own_from) or _pair(full_mg, full_um, full_from) or _NO_PAIR
    held, is_opened = Mass(held_mg), bool(opened) or openings > 0
    useful = USUAL_USEFUL_SIZE if useful_um is None else Length(useful_um)
    remnant = is_opened and pair.put_up is not None and pair.put_up.length_of(held) < useful
    return HeldSkein(
        number=number,
        lot_id=lot_id,
        held=held,
        promised=Mass(promised_mg),
        pair=pair,
        opened=is_opened,
        place=place,
        owner=owner,
        tare=None if tare_mg is None else Mass(tare_mg),
        remnant=remnant,
        about=bool(about) and not (opened and tare_from is not None),
        arrived_opened=bool(opened),
        tare_open=tare_from == "none" and tare_mg is None,
        by_metre=own_from == "measured" and 0 < (own_um or 0) <= LONGEST_WEIGHED.um,
        since=_day(since),
        paid=None if paid_coins is None else Money(paid_coins),
    )


#: A measured pair this short is a length weighed by itself, a longer one is a full skein's.
LONGEST_WEIGHED = metres(25)

_NO_PAIR = Pair(None, FullFrom.MISSING)


# a shelf's skeins came on few different days
_day = lru_cache(maxsize=4096)(date.fromisoformat)


# a shelf holds few different pairs, and many skeins of each
@lru_cache(maxsize=4096)
def _pair(mg: int | None, um: int | None, origin: str) -> Pair | None:
    return Pair(PutUp(Mass(mg), Length(um)), FullFrom(origin)) if mg and um else None


_lots_asked = (
    select(lot, yarn.c.maker, yarn.c.name).join(yarn, yarn.c.id == lot.c.yarn_id).order_by(lot.c.id)
)


def lots(db: Connection, only: Collection[int] | None = None) -> dict[int, Lot]:
    """Lot records by number; `only` narrows to some."""
    asked = _lots_asked if only is None else _lots_asked.where(in_list(lot.c.id, only))
    return {row.id: _lot(row._mapping) for row in db.execute(asked)}


def _lot(row: RowMapping) -> Lot:
    mg, um = row["full_mg"], row["full_um"]
    return Lot(
        id=row["id"],
        yarn=Yarn(row["yarn_id"], row["maker"], row["name"]),
        colour=row["colour"],
        colour_no=row["colour_no"],
        colours=colours_from(row["colours_hex"]),
        lot=row["lot_text"],
        lot_state=LotState(row["lot_state"]),
        thickness_from=row["thickness_from"],
        thickness_to=row["thickness_to"],
        fibre=row["fibre"],
        pair=_pair(mg, um, row["full_from"]) or _NO_PAIR,
        full_mass=None if mg is None else Mass(mg),
        hand_dyed=bool(row["hand_dyed"]),
        care=row["care"],
        note=row["note"],
        conditions=conditions_from(row["conditions"]),
        daylight=bool(row["daylight"]),
        dyed=said_of(Dyed, row["dyed"]),
        surface=said_of(Surface, row["surface"]),
    )


_Said = TypeVar("_Said", bound=StrEnum)


def said_of(words: type[_Said], text: str) -> _Said | None:
    """One of a few words as the file keeps it; None where nothing was said."""
    return words(text) if text else None


def colours_from(text: str) -> tuple[Colour, ...]:
    """Colours as the file keeps them: hex values with slashes between."""
    return tuple(Colour(part) for part in text.split("/") if part)


def colours_text(colours: Collection[Colour]) -> str:
    """The same, on the way in."""
    return "/".join(colour.hex for colour in colours)


def conditions_from(text: str) -> tuple[Condition, ...]:
    """Conditions as the file keeps them: words with slashes between."""
    return tuple(Condition(part) for part in text.split("/") if part)


def conditions_text(conditions: Collection[Condition]) -> str:
    """The same, on the way in; in one order, so that like lots are alike."""
    return "/".join(sorted(condition.value for condition in set(conditions)))


def held_lots(db: Connection, *, with_spent: bool = False) -> tuple[HeldLot, ...]:
    """The whole shelf: lots with their skeins that hold yarn, by lot number, in two questions."""
    by_lot: dict[int, list[HeldSkein]] = {}
    for held in held_skeins(db):
        if held.held > NO_MASS or with_spent or held.promised > NO_MASS:
            by_lot.setdefault(held.lot_id, []).append(held)
    records = lots(db)
    return tuple(HeldLot(records[key], tuple(by_lot[key])) for key in sorted(by_lot))


def numbered_lots(db: Connection, yarn_id: int) -> list[Lot]:
    """The records of a yarn that yarn of the same colour and lot text may join, oldest first.

    Hand-dyed yarn joins nothing; a record that was taken back and holds no other yarn is no more.
    """
    still_here = select(skein.c.lot_id).where(skein.c.entry_number.not_in(taken_back_entries))
    able = and_(
        lot.c.yarn_id == yarn_id,
        lot.c.lot_state == LotState.NUMBERED.value,
        lot.c.hand_dyed == 0,
        or_(lot.c.entry_number.not_in(taken_back_entries), lot.c.id.in_(still_here)),
    )
    return [_lot(row._mapping) for row in db.execute(_lots_asked.where(able))]


def numbered_lot(db: Connection, yarn_id: int, line: Incoming) -> int | None:
    """The record this line belongs to: same yarn, colour and lot text, exact after trimming."""
    if line.lot_state is not LotState.NUMBERED or line.hand_dyed:
        return None
    for known in numbered_lots(db, yarn_id):
        if (known.colour, known.colour_no, known.lot) == (line.colour, line.colour_no, line.lot):
            return known.id
    return None


def next_lot(db: Connection) -> int:
    """The number the next lot record will have; none is used twice."""
    last = db.execute(text("SELECT seq FROM sqlite_sequence WHERE name = 'lot'")).scalar()
    return int(last or 0) + 1


def lots_in_use(db: Connection, numbers: Collection[int]) -> set[int]:
    """Which of these numbers lot records have."""
    return _in_use(db, lot.c.id, numbers)


def lot_from(number: int, owner: Yarn, line: Incoming, pair: Pair) -> Lot:
    """The record of a line as it came in."""
    return Lot(
        id=number,
        yarn=owner,
        colour=line.colour,
        colour_no=line.colour_no,
        colours=line.colours,
        lot=line.lot if line.lot_state is LotState.NUMBERED else "",
        lot_state=line.lot_state,
        thickness_from=line.thickness_from,
        thickness_to=line.thickness_to,
        fibre=line.fibre,
        pair=pair,
        full_mass=pair.put_up.mass if pair.put_up else line.full_mass,
        hand_dyed=line.hand_dyed,
        care=line.care,
        note=line.note,
        conditions=line.conditions,
        daylight=line.daylight,
        dyed=line.dyed,
        surface=line.surface,
    )


def add_lots(db: Connection, entry_number: int, made: Sequence[Lot]) -> None:
    """New lot records, numbers and all."""
    if made:
        db.execute(insert(lot), [_lot_values(entry_number, one) for one in made])


def _lot_values(entry_number: int, made: Lot) -> dict[str, object]:
    return {
        "id": made.id,
        "entry_number": entry_number,
        "yarn_id": made.yarn.id,
        "colour": made.colour,
        "colour_no": made.colour_no,
        "colours_hex": colours_text(made.colours),
        "lot_text": made.lot,
        "lot_state": made.lot_state.value,
        "thickness_from": made.thickness_from,
        "thickness_to": made.thickness_to,
        "fibre": made.fibre,
        "full_mg": made.full_mass.mg if made.full_mass else None,
        "full_um": made.pair.put_up.length.um if made.pair.put_up else None,
        "full_from": made.pair.origin.value,
        "hand_dyed": int(made.hand_dyed),
        "care": made.care,
        "note": made.note,
        "conditions": conditions_text(made.conditions),
        "daylight": int(made.daylight),
        "dyed": made.dyed or "",
        "surface": made.surface or "",
    }


def add_skeins(db: Connection, rows: Sequence[Mapping[str, object]]) -> None:
    """New skeins, one for each row of columns, numbers and all."""
    db.execute(insert(skein), [dict(row) for row in rows])


def highest_number(db: Connection) -> int:
    """The highest number a skein was ever given; taken-back numbers count."""
    return db.execute(select(func.max(skein.c.number))).scalar() or 0


def skein_facts(db: Connection, number: int) -> RowMapping:
    """The present columns of one skein; it must be there."""
    return db.execute(select(skein).where(skein.c.number == number)).one()._mapping


def numbers_in_use(db: Connection, numbers: Collection[int]) -> set[int]:
    """Which of these numbers were ever given to a skein."""
    return _in_use(db, skein.c.number, numbers)


def _in_use(db: Connection, column: Column[int], numbers: Collection[int]) -> set[int]:
    return set(db.execute(select(column).where(in_list(column, numbers))).scalars())


def bought_and_paid(db: Connection) -> dict[int, tuple[date | None, Money | None, str]]:
    """When each skein was bought, what was paid, and its note."""
    columns = (skein.c.number, skein.c.bought_on, skein.c.paid_coins, skein.c.note)
    return {
        number: (
            date.fromisoformat(day) if day else None,
            None if coins is None else Money(coins),
            note,
        )
        for number, day, coins, note in db.execute(select(*columns).order_by(skein.c.number))
    }


def any_priced(db: Connection) -> bool:
    """Whether any skein that was not taken back has a price above nothing."""
    asked = select(skein.c.number).where(
        skein.c.paid_coins > 0, skein.c.entry_number.not_in(taken_back_entries)
    )
    return db.execute(asked.limit(1)).first() is not None


def parents(db: Connection, of: int | None = None) -> dict[int, int]:
    """The skein that each was wound off or unravelled from; `of` narrows to what came of one."""
    asked = select(skein.c.number, skein.c.parent).where(
        skein.c.parent.is_not(None) if of is None else skein.c.parent == of,
        skein.c.entry_number.not_in(taken_back_entries),
    )
    return {row.number: row.parent for row in db.execute(asked.order_by(skein.c.number))}
