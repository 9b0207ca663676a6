"""The movements of a file at their cost by a valuation method."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stash.actions import clock
from stash.actions.method import method_of
from stash.costing.pools import Method, priced_by
from stash.costing.price import YarnCost
from stash.measures.mass import NO_MASS
from stash.measures.money import Money
from stash.stock.holding import HeldSkein
from stash.stock.movement import Booked, Kind
from stash.stock.turnover import MeasuredMovement, Origin, Total, measured_movements
from stash.stock.yarn import Lot
from stash.store import entry_rows, skein_rows
from stash.store.engine import Connection
from stash.store.memory import recall


@dataclass(frozen=True, slots=True)
class Priced:
    """Every movement not taken back, by day, with the skeins and lots it is of.

    `booked` are the movements as the books have them.
    """

    method: Method
    booked: Sequence[Booked]
    moved: Sequence[MeasuredMovement]
    skeins: Mapping[int, HeldSkein]
    lots: Mapping[int, Lot]
    origins: Mapping[int, Origin]

    @classmethod
    def read(
        cls,
        db: Connection,
        method: Method | None = None,
        more: Sequence[Booked] = (),
    ) -> Priced:
        """The books, and `more` that is only thought of; by this year's method if none is said."""
        method = method or method_of(db, clock.today().year)
        if more:
            return cls._read(db, method, more)
        return recall(db, ("priced", method), lambda: cls._read(db, method))

    @classmethod
    def _read(cls, db: Connection, method: Method, more: Sequence[Booked] = ()) -> Priced:
        skeins = {s.number: s for s in skein_rows.held_skeins(db)}
        lots = skein_rows.lots(db)
        known = origins(db, skeins)
        booked = [*entry_rows.movements(db), *more]
        moved = priced_by(method, measured_movements(booked, known), _yarns(skeins, lots))
        return cls(method, booked, moved, skeins, lots, known)

    def with_more(self, more: Sequence[Booked]) -> Priced:
        """The same books with more movements that are only thought of."""
        booked = [*self.booked, *more]
        moved = priced_by(self.method, measured_movements(booked, self.origins), self.yarns)
        return replace(self, booked=booked, moved=moved)

    @property
    def yarns(self) -> dict[int, int]:
        """Which yarn (maker and name) each skein is of."""
        return _yarns(self.skeins, self.lots)

    def lot(self, skein: int) -> Lot:
        """The record of a skein."""
        return self.lots[self.skeins[skein].lot_id]

    def gift(self, skein: int) -> bool:
        """Whether nothing was paid for it, or for the skein it came from."""
        origin = self.origins[skein]
        if origin.paid is None and origin.parent is not None:
            return self.gift(origin.parent)
        return origin.paid is not None and not origin.paid.coins

    def held_costs(self) -> dict[int, Money | None]:
        """What the yarn each skein holds cost, None where that is not known.

        Where yarn of one name is interchangeable, its cost is shared over the skeins that have a
        price, by weight; together they are what `value` counts the shelf at.
        """
        held = {n: s.held.mg for n, s in self.skeins.items() if s.held}
        costs: dict[int, Money | None] = dict.fromkeys(held)
        for numbers, total in self._together(held):
            priced = [n for n in numbers if self._has_price(n)]
            if not priced and total.coins:
                priced = numbers
            weights = [held[n] for n in priced]
            costs.update(zip(priced, total.shared(weights) if priced else [], strict=True))
        return costs

    def _together(self, held: Mapping[int, int]) -> list[tuple[list[int], Money]]:
        """Skeins that hold yarn, as far as they are priced together, and what all of it cost."""
        by_skein = self.method is Method.SPECIFIC
        pool_of = {n: n if by_skein else pool for n, pool in self.yarns.items()}
        coins: dict[int, int] = {}
        for m in self.moved:
            pool = pool_of[m.skein]
            coins[pool] = coins.get(pool, 0) + m.total.cost.coins
        members: dict[int, list[int]] = {}
        for number in held:
            members.setdefault(pool_of[number], []).append(number)
        return [(numbers, Money(coins[pool])) for pool, numbers in members.items()]

    def _has_price(self, skein: int) -> bool:
        """Whether it is known what was paid for a skein, or for the one it came from."""
        origin = self.origins[skein]
        if origin.paid is None and origin.parent is not None:
            return self._has_price(origin.parent)
        return origin.paid is not None

    def used_by_items(self) -> dict[int, dict[tuple[str, int], Total]]:
        """The same of every item, in one walk over the movements."""
        found: dict[int, dict[tuple[str, int], Total]] = {}
        for m in self.moved:
            move = m.movement
            if move.item is not None and move.kind in (Kind.USED, Kind.UNRAVELLED):
                own, key = found.setdefault(move.item, {}), (move.role, move.skein)
                own[key] = own.get(key, Total()) + -m.total
        return found

    def used_by(self, item: int) -> dict[tuple[str, int], Total]:
        """What an item took of each skein by role, less what was unravelled of it."""
        found: dict[tuple[str, int], Total] = {}
        for m in self.moved:
            move = m.movement
            if move.item == item and move.kind in (Kind.USED, Kind.UNRAVELLED):
                key = (move.role, move.skein)
                found[key] = found.get(key, Total()) + -m.total
        return {key: total for key, total in sorted(found.items()) if total.mass != NO_MASS}


def origins(db: Connection, skeins: Mapping[int, HeldSkein]) -> dict[int, Origin]:
    """What each skein is reckoned with, by number."""
    parents, facts = skein_rows.parents(db), skein_rows.bought_and_paid(db)
    return {
        number: Origin(held.pair.put_up, facts[number][1], parents.get(number))
        for number, held in skeins.items()
    }


def _yarns(skeins: Mapping[int, HeldSkein], lots: Mapping[int, Lot]) -> dict[int, int]:
    return {number: lots[held.lot_id].yarn.id for number, held in skeins.items()}


def yarn_of(priced: Priced, item: int) -> tuple[YarnCost, ...]:
    """What an item took of each skein by role, and what that cost."""
    return tuple(
        YarnCost(skein, role, total.mass, total.cost, total.all_priced, priced.gift(skein))
        for (role, skein), total in priced.used_by(item).items()
    )
