"""What can hurt whom an item is for, by its plan and the yarns in it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stash.actions.past_items import Plans, ReadPlans
from stash.measures.note import Note
from stash.requirements.design.cautions import cautions
from stash.requirements.design.design import Design
from stash.requirements.design.whom import Whom
from stash.stock.item import Item
from stash.stock.yarn import Lot
from stash.store import item_rows
from stash.store.engine import Connection


def cautions_of(plan: Design, lots: Iterable[Lot], whom: Whom | None = None) -> tuple[Note, ...]:
    """Of an item by its plan and the yarn in it; `whom` where it is said at once."""
    by_number = {lot.id: lot for lot in lots}
    return cautions(plan, whom, yarn_words(lot for _, lot in sorted(by_number.items())))


def item_plan(db: Connection, item: Item) -> Design:
    """The plan as it was when its yarn was set aside; an empty one where there is none."""
    return item_plans(db, [item])[item.number]


def item_plans(db: Connection, items: Sequence[Item]) -> dict[int, Design]:
    """The same of several items, by number."""
    plans, began = ReadPlans(Plans.read(db)), dict[int, int]()
    for step in item_rows.standing_steps(db, [item.number for item in items]):
        began.setdefault(step.item, step.entry)
    return {item.number: plans.at(item.design_id, began[item.number]) for item in items}


def yarn_words(lots: Iterable[Lot]) -> str:
    """The names and fibres of yarns, which say whether one is brushed."""
    return "; ".join(f"{lot.yarn} {lot.fibre}" for lot in lots)
