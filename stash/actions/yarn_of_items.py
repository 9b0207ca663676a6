"""What went into items or is set aside for them, read of all of them together."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass

from stash.stock.holding import HeldSkein
from stash.stock.movement import Movement
from stash.stock.promise import Promised
from stash.stock.yarn import Lot
from stash.store import entry_rows, item_rows, skein_rows
from stash.store.engine import Connection
from stash.store.item_rows import PlannedRole


@dataclass(frozen=True, slots=True)
class YarnOfItems:
    """By item what was booked for it (also what was taken back), is promised, and was planned.

    `skeins` and `records` are all that these lead to, by number.
    """

    moves: Mapping[int, Sequence[Movement]]
    promised: Mapping[int, Sequence[Promised]]
    planned: Mapping[int, Sequence[PlannedRole]]
    skeins: Mapping[int, HeldSkein]
    records: Mapping[int, Lot]

    @classmethod
    def read(cls, db: Connection, items: Collection[int]) -> YarnOfItems:
        """In five questions, however many items there are."""
        moves: dict[int, list[Movement]] = {number: [] for number in items}
        promised: dict[int, list[Promised]] = {number: [] for number in items}
        for row in entry_rows.movements(db, items=items):
            moves[row.movement.item or 0].append(row.movement)
        for promise in item_rows.promises(db, items=items):
            promised[promise.item].append(promise)
        numbers = {move.skein for some in moves.values() for move in some}
        numbers |= {promise.skein for some in promised.values() for promise in some}
        held = skein_rows.held_skeins(db, sorted(numbers))
        return cls(
            moves,
            promised,
            item_rows.planned_of(db, items),
            {skein.number: skein for skein in held},
            skein_rows.lots(db, sorted({skein.lot_id for skein in held})),
        )

    def lots(self, item: int) -> tuple[Lot, ...]:
        """The records of the yarn set aside for an item or used."""
        numbers = {promise.skein for promise in self.promised[item]}
        numbers |= {move.skein for move in self.moves[item]}
        held = (self.skeins[number] for number in numbers if number in self.skeins)
        return tuple(self.records[number] for number in sorted({one.lot_id for one in held}))
