"""What the yarn she has could become: every design asked of the shelf, of a lot or of a skein."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.actions import clock, designs, find
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.match import AS_SET, settled, shelf_of, wish_of
from stash.errors import Refusal
from stash.matching.answer.proposal import Proposal, Take
from stash.matching.lots.lot_view import LotView, Thickness, thickness_of, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Wish
from stash.matching.rules.fits import role_query
from stash.matching.scoring.coverage import filled, role_fit, weigh
from stash.matching.shelf_survey import Question, ShelfAsked, ShelfSurvey, asked_of, survey
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.requirements.fit.fit_to_yarn import lacking
from stash.requirements.fit.reach import Reach, RoleReach, reach
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.tails import JOIN_M
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.item import Item
from stash.stock.promise import Promised, shortages
from stash.stock.yarn import Lot
from stash.store import item_rows
from stash.store.engine import Connection
from stash.store.memory import recall


@dataclass(frozen=True, slots=True)
class StillNeeded:
    """What an item may still take for one role, and how much of that is gone from its skeins.

    `length` is None where what is set aside was only weighed.
    """

    role: str
    mass: Mass
    length: Length | None
    gone: Mass


@dataclass(frozen=True, slots=True)
class OpenItem:
    """An item that is planned or begun, with what it still needs of each role."""

    item: Item
    needs: tuple[StillNeeded, ...]


@dataclass(frozen=True, slots=True)
class FromShelf:
    """What each kept design hears from the shelf, and what one more skein of a lot would do.

    `open_items`: what is planned or begun, oldest first.
    """

    as_of: date
    lots: int
    found: ShelfSurvey
    open_items: tuple[OpenItem, ...]
    settings: Settings


def from_shelf(book: Book, report: Callable[[str | Note], None]) -> FromShelf:
    """Which kept designs the shelf allows today, each as `match` would answer it without options.

    `report` hears the name of each design as it is looked at.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        asked = _asked(db, settings)
        still_open = tuple(_open_items(db, asked.shelf))
    found = survey(asked, report)
    return FromShelf(asked.shelf.as_of, len(asked.shelf.lots), found, still_open, settings)


def best_sets(book: Book) -> dict[str, Proposal]:
    """The best set of each kept design by its name, as `from_shelf` has it; none, no name."""
    with book.reading() as db:
        asked = _asked(db, Settings.read(db))
    return {one.question.name: one.best for one in asked.designs if one.best}


def _asked(db: Connection, settings: Settings) -> ShelfAsked:
    """Today's shelf with every kept design asked of it; once, where the file is kept."""

    def ask() -> ShelfAsked:
        shelf = shelf_of(db, settings)
        kept = designs.listed_within(db, settings)
        questions = [
            Question(
                one.design.name,
                one.need,
                wish_of(db, settings, AS_SET, one.need, shelf),
                one.known,
            )
            for one in kept
        ]
        return asked_of(shelf, questions)

    return recall(db, ("shelf asked", clock.today()), ask)


def _open_items(db: Connection, shelf: Shelf) -> Iterator[OpenItem]:
    """Items that yarn may still go into; a note that only holds yarn is none."""
    held = {skein.number: skein.held for lot in shelf.lots for skein in lot.skeins}
    by_skein: dict[int, list[Promised]] = {}
    by_item: dict[int, list[Promised]] = {}
    for promise in item_rows.promises(db):
        by_skein.setdefault(promise.skein, []).append(promise)
        by_item.setdefault(promise.item, []).append(promise)
    gone = {
        promise.since: mass
        for number, promises in by_skein.items()
        for promise, mass in shortages(held.get(number, Mass(0)), promises)
    }
    for item in item_rows.items(db):
        if item.open and item.design_id is not None:
            yield OpenItem(item, tuple(_still_needed(by_item.get(item.number, ()), gone)))


def _still_needed(promises: Sequence[Promised], gone: Mapping[int, Mass]) -> Iterator[StillNeeded]:
    for role in sorted({promise.role for promise in promises}):
        ours = [promise for promise in promises if promise.role == role]
        lengths = [promise.length for promise in ours if promise.length is not None]
        yield StillNeeded(
            role,
            Mass(sum(promise.mass.mg for promise in ours)),
            Length(sum(one.um for one in lengths)) if len(lengths) == len(ours) else None,
            Mass(sum(gone[promise.since].mg for promise in ours if promise.since in gone)),
        )


@dataclass(frozen=True, slots=True)
class YarnUse:
    """One role of a design worked from some yarn; `steps`: how far its thickness is from it.

    `takes` is what the design as it is would take of the yarn; nothing where that is not enough.
    """

    role: str
    reach: Reach
    steps: int
    takes: tuple[Take, ...] = ()

    @property
    def enough(self) -> bool:
        """Whether the design as it is can be made."""
        return not self.reach.short


@dataclass(frozen=True, slots=True)
class FromYarn:
    """What the free yarn of a skein, or of all skeins of a lot, can become, the likeliest first.

    `skein` is None where the whole lot is meant; `free` is the sum of what is known.
    """

    lot: Lot
    skein: HeldSkein | None
    free: Length
    uses: tuple[YarnUse, ...]
    settings: Settings


def from_yarn(book: Book, asked: str, report: Callable[[str], None]) -> FromYarn:
    """Which designs a skein (its number) or a lot (`L4`, or words) can be worked into.

    As which colour, and how large they get. What it covers as planned comes first, then what it
    nearly covers; yarn of another thickness last. `report` hears the name of each design.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        lot, skein = _meant(db, asked)
        plans = designs.all_known(db, settings, item_rows.designs(db))
        alone = Shelf(clock.today(), (lot,), settings.scale)
        wish = settled(db, settings, AS_SET, alone.lots)
    free = lot.free_length
    if free is None:
        raise Refusal("length_of_skein_not_known", skein=lot.skeins[0].number)
    joins = sum(1 for one in lot.skeins if one.free_length) - 1
    have_m = max(0.0, free.m - JOIN_M * max(0, joins))
    (view,), thickness = views_of(alone, wish.assume), thickness_of(lot)
    uses: list[YarnUse] = []
    for known in plans:
        report(known.design.name)
        uses += _uses(known, have_m, thickness)
    uses.sort(key=lambda use: (use.steps, not use.enough, _lacks(use), use.reach.known.design.name))
    likely = tuple(replace(use, takes=_takes(view, use, wish)) for use in uses)
    return FromYarn(lot.lot, skein, free, likely, settings)


def _takes(view: LotView, use: YarnUse, wish: Wish) -> tuple[Take, ...]:
    need = use.reach.need
    query = role_query(next(one for one in need.roles if one.role == use.role), need, wish)
    return () if role_fit(view, query).blockers else filled(weigh(view, query), query).takes


def _meant(db: Connection, asked: str) -> tuple[HeldLot, HeldSkein | None]:
    """The lot that is meant, and its skein where a number was typed."""
    if asked.strip().removeprefix("#").isdecimal():
        found = find.skein(db, asked)
        return HeldLot(found.lot, (found.skein,)), found.skein
    return find.one_lot(db, asked), None


def _uses(known: DesignContext, have_m: float, thickness: Thickness | None) -> Iterator[YarnUse]:
    low, high = known.design.classes or (None, None)
    steps = thickness.steps_from(low, high) if thickness and low is not None and high else 0
    need = known.need(known.design)
    for one in need.roles:
        try:
            found = reach(known, {one.role: (have_m,)})
        except Refusal:  # a plan whose size is not known can only be made as it is
            alone = (RoleReach(one.role, have_m, None, None, None),)
            found = Reach(known, need, lacking(need, {one.role: have_m}), alone, (), (), None)
        yield YarnUse(one.role, found, steps)


def _lacks(use: YarnUse) -> float:
    """How much of the role is lacking, as a share; what is left over does not count."""
    one = next(one for one in use.reach.need.roles if one.role == use.role)
    return max(0.0, 1 - math.fsum(r.have_m for r in use.reach.roles) / one.set_aside_m)
