"""What is missing: for what is wanted, as skeins to buy; and of what was set aside and is gone."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from stash.actions.batch import BatchAsked, read_wants
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.match import AS_SET, NeedAsked, need_and_design, shelf_of, wish_of
from stash.actions.priced import Priced
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Wish
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import Batch, Terms, Wanted
from stash.planning.model.encode import ends_of
from stash.planning.model.problem import Aim
from stash.planning.optimiser.incumbent import Calls
from stash.planning.plan_batch import planned
from stash.planning.shopping.offers import known_offers
from stash.planning.shopping.shopping import Basket, Offer, shopping
from stash.planning.shopping.shortfall import Shortfall, shortfall
from stash.planning.shopping.ways import BuyingWay, buying_ways
from stash.planning.shopping.without_buying import ShelfWay, shelf_ways
from stash.requirements.yarn.design_context import DesignContext
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.promise import Promised, shortages
from stash.store import item_rows, skein_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class ShortAsked:
    """What is wanted: kept designs, or (`need`) so much of each role, `count` times.

    `offers` are yarns that can be bought; none is those she has had.
    """

    wants: tuple[WantAsked, ...] = ()
    wish: Wish = AS_SET
    need: NeedAsked | None = None
    count: int = 1
    offers: tuple[Offer, ...] = ()


@dataclass(frozen=True, slots=True)
class ToBuy:
    """What the shelf gives of it, what is missing, and what to buy.

    `ways` are all there are of buying for each role that is missing, by itself; `otherwise` those
    of making one more of each want that lacks yarn out of what is left.
    """

    batch: Batch
    shortfall: Shortfall
    basket: Basket
    settings: Settings
    ways: tuple[tuple[BuyingWay, ...], ...]
    otherwise: tuple[MadeOtherwise, ...]


@dataclass(frozen=True, slots=True)
class MadeOtherwise:
    """A want that lacks yarn, and how one more of it could be made without buying.

    Each with what the yarn it takes cost; None where that is not known.
    """

    want: Wanted
    ways: tuple[tuple[ShelfWay, Money | None], ...]


def short(
    book: Book, asked: ShortAsked, stop: Callable[[], bool], report: Callable[[Note], None]
) -> ToBuy:
    """What must be bought for what is wanted, in whole skeins, each role of a want in one lot.

    The shelf gives as much of it as the planner finds; of the rest whole roles come from what is
    left where a lot covers them.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        shelf = shelf_of(db, settings)
        wants, plans = _wants(db, settings, asked, shelf)
        costs = Priced.read(db).held_costs()
        offers = asked.offers or known_offers(
            shelf_of(db, settings, with_spent=True), asked.wish.limits
        )
    batch = planned(shelf, wants, TERMS, Calls(stop, report))
    missing = shortfall(shelf, batch)
    ends, near = ends_of(batch.wants[0].wish), settings.thickness_tolerance
    basket = shopping([lack.missing for lack in missing.lacks], offers, ends, near)
    ways = tuple(buying_ways(lack, offers, ends, near) for lack in missing.lacks)
    lacking = {lack.missing.design for lack in missing.lacks}
    otherwise = (
        MadeOtherwise(want, tuple(_priced(missing.left, want, plan, costs)))
        for want, plan in zip(wants, plans, strict=True)
        if want.name in lacking
    )
    return ToBuy(batch, missing, basket, settings, ways, tuple(otherwise))


def _priced(
    left: Shelf, want: Wanted, plan: DesignContext | None, costs: Mapping[int, Money | None]
) -> Iterator[tuple[ShelfWay, Money | None]]:
    for way in shelf_ways(left, want, plan):
        each = [_cost(held, length, costs) for held, length in way.uses]
        known = [one for one in each if one is not None]
        yield way, Money(round(sum(known))) if len(known) == len(each) else None


def _cost(held: HeldLot, length: Length, costs: Mapping[int, Money | None]) -> Fraction | None:
    """What so much of a lot cost, by weight of the skeins whose price is known."""
    priced = [(s.held.mg, cost.coins) for s in held.skeins if (cost := costs.get(s.number))]
    full, mg = held.lot.pair.put_up, sum(weight for weight, _ in priced)
    if full is None or not mg:
        return None
    return Fraction(sum(coins for _, coins in priced) * full.mass_covering(length).mg, mg)


#: As little as can be is to be bought.
TERMS = Terms((Aim.BUYING,))


def _wants(
    db: Connection, settings: Settings, asked: ShortAsked, shelf: Shelf
) -> tuple[list[Wanted], list[DesignContext | None]]:
    """What is wanted, each with the plan it is made by, where there is one."""
    if asked.need is None:
        batch = BatchAsked(tuple(map(_all_of, asked.wants)), TERMS, asked.wish)
        to_make, wants = read_wants(db, settings, batch, shelf.lots, item_rows.designs(db))
        return wants, [one.known.resized(one.made) for one in to_make]
    _, need = need_and_design(db, settings, asked.need, asked.wish.margin)
    wish = wish_of(db, settings, asked.wish, need, shelf)
    return [Wanted("", need, wish, at_most=asked.count)], [None]


def _all_of(want: WantAsked) -> WantAsked:
    """As many as are wanted at most, else at least, else one; the shelf need not give them."""
    return replace(want, at_least=0, at_most=want.at_most or want.at_least or 1)


@dataclass(frozen=True, slots=True)
class ItemShort:
    """A promise that its skein can no longer keep, and the lot it is of.

    `length` is what is missing, None where the skein has no pair; `free` what else of the lot is.
    """

    item: Item
    promise: Promised
    skein: HeldSkein
    lot: HeldLot
    mass: Mass

    @property
    def length(self) -> Length | None:
        """What is missing, as a length."""
        return self.skein.length(self.mass)

    @property
    def free(self) -> Length | None:
        """What of the same lot could still be set aside."""
        return self.lot.free_length


@dataclass(frozen=True, slots=True)
class AllShort:
    """Everything that is set aside and no longer there, item by item; and her settings."""

    found: tuple[ItemShort, ...]
    settings: Settings


def short_items(book: Book) -> AllShort:
    """What is set aside and no longer there."""
    with book.reading() as db:
        settings = Settings.read(db)
        lots = skein_rows.held_lots(db, with_spent=True)
        promises = item_rows.promises(db)
        items = {one.number: one for one in item_rows.items(db)}
    by_skein: dict[int, list[Promised]] = {}
    for promise in promises:
        by_skein.setdefault(promise.skein, []).append(promise)
    found = [
        ItemShort(items[promise.item], promise, skein, lot, mass)
        for lot in lots
        for skein in lot.skeins
        for promise, mass in shortages(skein.held, by_skein.get(skein.number, []))
    ]
    found.sort(key=lambda s: (s.item.number, s.promise.role, s.skein.number))
    return AllShort(tuple(found), settings)
