"""Skeins and lots as they lie in the file, with what the books add up to."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from functools import lru_cache
from typing import Any

from sqlalchemy import (
    Connection,
    Row,
    RowMapping,
    Select,
    and_,
    case,
    func,
    insert,
    null,
    or_,
    select,
)

from stash.measures.colour import Colour
from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass
from stash.measures.money import Money
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.incoming import Incoming
from stash.stock.movement import OPENING
from stash.stock.yarn import Lot, LotState, Pair, PairFrom, Yarn
from stash.store.tables import entry, lot, movement, promise, skein, yarn

#: Entries that were answered by another: what they brought is no longer on the shelf.
taken_back_entries = select(entry.c.takes_back).where(entry.c.takes_back.is_not(None))


def held_skeins(
    db: Connection, useful_end: Length, only: Collection[int] | None = None
) -> list[HeldSkein]:
    """Every skein on the books with what it holds and what is promised, by number.

    Skeins taken back are left out; spent ones are not. `only` narrows to some numbers.
    """
    rows = db.execute(_held_statement(only)).all()
    return [_held_skein(row, useful_end) for row in rows]


def _held_statement(only: Collection[int] | None) -> Select[Any]:
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
    if only is not None:
        moved = moved.where(movement.c.skein_number.in_(only))
        promised = promised.where(promise.c.skein_number.in_(only))
    m, p = moved.subquery(), promised.subquery()
    asked = (
        select(
            skein.c.number,
            skein.c.lot_id,
            func.coalesce(m.c.held_mg, 0).label("held_mg"),
            func.coalesce(p.c.promised_mg, 0).label("promised_mg"),
            skein.c.own_mg,
            skein.c.own_um,
            lot.c.full_mg,
            lot.c.full_um,
            lot.c.pair_from,
            skein.c.opened,
            func.coalesce(m.c.openings, 0).label("openings"),
            skein.c.place,
            skein.c.owner,
            skein.c.tare_mg,
        )
        .select_from(skein)
        .join(lot, lot.c.id == skein.c.lot_id)
        .outerjoin(m, m.c.skein_number == skein.c.number)
        .outerjoin(p, p.c.skein_number == skein.c.number)
        .where(skein.c.entry_number.not_in(taken_back_entries))
        .order_by(skein.c.number)
    )
    return asked if only is None else asked.where(skein.c.number.in_(only))


def _held_skein(row: Any, useful_end: Length) -> HeldSkein:
    # unpacked by place: by name costs more than all the rest on a shelf of thousands
    number, lot_id, held_mg, promised_mg, own_mg, own_um, full_mg, full_um, *rest = row
    pair_from, opened, openings, place, owner, tare_mg = rest
    pair = _pair(own_mg, own_um, "measured") or _pair(full_mg, full_um, pair_from) or _NO_PAIR
    held, is_opened = Mass(held_mg), bool(opened) or openings > 0
    remnant = is_opened and pair.put_up is not None and pair.put_up.length_of(held) < useful_end
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
    )


_NO_PAIR = Pair(None, PairFrom.MISSING)


# a shelf holds few different pairs, and many skeins of each
@lru_cache(maxsize=4096)
def _pair(mg: int | None, um: int | None, origin: str) -> Pair | None:
    return Pair(PutUp(Mass(mg), Length(um)), PairFrom(origin)) if mg and um else None


def lots(db: Connection, only: Collection[int] | None = None) -> dict[int, Lot]:
    """Lot records by number; `only` narrows to some."""
    asked = select(lot, yarn.c.maker, yarn.c.name).join(yarn, yarn.c.id == lot.c.yarn_id)
    if only is not None:
        asked = asked.where(lot.c.id.in_(only))
    return {row.id: _lot(row._mapping) for row in db.execute(asked.order_by(lot.c.id))}


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
        class_from=row["class_from"],
        class_to=row["class_to"],
        fibre=row["fibre"],
        pair=_pair(mg, um, row["pair_from"]) or _NO_PAIR,
        full_mass=None if mg is None else Mass(mg),
        hand_dyed=bool(row["hand_dyed"]),
        care=row["care"],
        note=row["note"],
    )


def colours_from(text: str) -> tuple[Colour, ...]:
    """Colours as the file keeps them: hex values with slashes between."""
    return tuple(Colour(part) for part in text.split("/") if part)


def colours_text(colours: Collection[Colour]) -> str:
    """The same, on the way in."""
    return "/".join(colour.hex for colour in colours)


def held_lots(
    db: Connection, useful_end: Length, *, with_spent: bool = False
) -> tuple[HeldLot, ...]:
    """The whole shelf: lots with their skeins that hold yarn, by lot number, in two questions."""
    by_lot: dict[int, list[HeldSkein]] = {}
    for held in held_skeins(db, useful_end):
        if held.held > NO_MASS or with_spent or held.promised > NO_MASS:
            by_lot.setdefault(held.lot_id, []).append(held)
    records = lots(db)
    return tuple(HeldLot(records[key], tuple(by_lot[key])) for key in sorted(by_lot))


def yarn_id(db: Connection, maker: str, name: str) -> int:
    """The yarn of this maker and name, made if it is new."""
    found: int | None = db.execute(
        select(yarn.c.id).where(
            # both sides by SQLite, which lowers A to Z alone
            func.lower(yarn.c.maker) == func.lower(maker),
            func.lower(yarn.c.name) == func.lower(name),
        )
    ).scalar()
    if found is not None:
        return found
    return _key(db.execute(insert(yarn).values(maker=maker, name=name)).inserted_primary_key)


def _key(key: Row[Any] | None) -> int:
    assert key is not None
    number: int = key[0]
    return number


def numbered_lot(db: Connection, yarn: int, line: Incoming) -> int | None:
    """The record this line belongs to: same yarn, colour and lot text, exact after trimming.

    None for a lot without a number and for hand-dyed yarn, which join nothing, and for a record
    that was taken back and holds no other yarn.
    """
    if line.lot_state is not LotState.NUMBERED or line.hand_dyed:
        return None
    still_here = select(skein.c.lot_id).where(skein.c.entry_number.not_in(taken_back_entries))
    same = and_(
        lot.c.yarn_id == yarn,
        lot.c.colour == line.colour,
        lot.c.colour_no == line.colour_no,
        lot.c.lot_text == line.lot,
        lot.c.hand_dyed == 0,
        or_(lot.c.entry_number.not_in(taken_back_entries), lot.c.id.in_(still_here)),
    )
    found: int | None = db.execute(select(func.min(lot.c.id)).where(same)).scalar()
    return found


def add_lot(db: Connection, entry_number: int, yarn: int, line: Incoming, pair: Pair) -> int:
    """A new lot record from a line as it came in, under the number it asks for if that is free."""
    full = pair.put_up
    free = line.record is not None and not lots(db, [line.record])
    added = db.execute(
        insert(lot).values(
            id=line.record if free else None,
            entry_number=entry_number,
            yarn_id=yarn,
            colour=line.colour,
            colour_no=line.colour_no,
            colours_hex=colours_text(line.colours),
            lot_text=line.lot if line.lot_state is LotState.NUMBERED else "",
            lot_state=line.lot_state.value,
            class_from=line.class_from,
            class_to=line.class_to,
            fibre=line.fibre,
            full_mg=full.mass.mg if full else line.full_mass.mg if line.full_mass else null(),
            full_um=full.length.um if full else null(),
            pair_from=pair.origin.value,
            hand_dyed=int(line.hand_dyed),
            care=line.care,
            note=line.note,
        )
    )
    return _key(added.inserted_primary_key)


def add_skeins(db: Connection, rows: Sequence[Mapping[str, object]]) -> None:
    """New skeins, one for each row of columns, numbers and all."""
    db.execute(insert(skein), [dict(row) for row in rows])


def highest_number(db: Connection) -> int:
    """The highest number a skein was ever given; taken-back numbers count."""
    return db.execute(select(func.max(skein.c.number))).scalar() or 0


def skein_facts(db: Connection, number: int) -> RowMapping:
    """The columns of one skein as they stand; it must be there."""
    return db.execute(select(skein).where(skein.c.number == number)).one()._mapping


def numbers_in_use(db: Connection, numbers: Collection[int]) -> set[int]:
    """Which of these numbers were ever given to a skein."""
    return set(db.execute(select(skein.c.number).where(skein.c.number.in_(numbers))).scalars())


def bought_and_paid(db: Connection) -> dict[int, tuple[date | None, Money | None, str]]:
    """When each skein was bought, what was paid for it, and its note; by number."""
    asked = select(skein.c.number, skein.c.bought_on, skein.c.paid_coins, skein.c.note)
    return {
        number: (
            date.fromisoformat(day) if day else None,
            None if coins is None else Money(coins),
            note,
        )
        for number, day, coins, note in db.execute(asked.order_by(skein.c.number))
    }
