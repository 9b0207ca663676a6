"""What can hurt whom an item is for, by its plan and the yarns in it."""

from __future__ import annotations

from collections.abc import Iterable

from stash.actions.past_items import Plans
from stash.measures.note import Note
from stash.requirements.design.cautions import cautions
from stash.requirements.design.design import Design
from stash.requirements.design.whom import Whom
from stash.stock.item import Item
from stash.stock.yarn import Lot
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.engine import Connection


def cautions_of(plan: Design, lots: Iterable[Lot], whom: Whom | None = None) -> tuple[Note, ...]:
    """Of an item by its plan and the yarn in it; `whom` where it is said at once."""
    by_number = {lot.id: lot for lot in lots}
    return cautions(plan, whom, yarn_words(lot for _, lot in sorted(by_number.items())))


def lots_of(db: Connection, item: Item) -> tuple[Lot, ...]:
    """The records of the yarn set aside for an item or used."""
    promised = {p.skein for p in item_rows.promises(db, item_number=item.number)}
    moved = {m.movement.skein for m in entry_rows.movements(db, item_number=item.number)}
    held = skein_rows.held_skeins(db, sorted(promised | moved))
    return tuple(skein_rows.lots(db, sorted({skein.lot_id for skein in held})).values())


def item_plan(db: Connection, item: Item) -> Design:
    """The plan as it was when its yarn was set aside; an empty one where there is none."""
    if item.design_id is None:
        return Design()
    steps = item_rows.standing_steps(db, item.number)
    return Plans.read(db).at(item.design_id, steps[0].entry) or Design()


def yarn_words(lots: Iterable[Lot]) -> str:
    """The names and fibres of yarns, which say whether one is brushed."""
    return "; ".join(f"{lot.yarn} {lot.fibre}" for lot in lots)
