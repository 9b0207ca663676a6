"""What on the shelf can become a design: the matcher asked on today's shelf."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from stash.actions import clock, find
from stash.actions.book import Book
from stash.actions.designs import Kept, kept_named, refuse_unknown_roles
from stash.actions.her_settings import Settings
from stash.actions.limits import held_against
from stash.actions.sharing import TWO_LOTS, refuse_unshared, shared_by_two
from stash.errors import NotFound
from stash.matching.answer.proposal import Match
from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.matching.question.strands import apart
from stash.matching.question.wish import Fixed, Wish
from stash.measures.length import Length
from stash.requirements.design.design import Design
from stash.requirements.yarn.estimate import stated_need
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.store import item_rows
from stash.store.engine import Connection
from stash.store.kept_shelf import kept_lots
from stash.store.memory import recall


@dataclass(frozen=True, slots=True)
class NeedAsked:
    """What is to be made: a kept design by name, or lengths per role, over so many strands.

    `made`: the design as it would be made otherwise; only its name is that of the kept one.
    """

    design: str = ""
    lengths: Mapping[str, Length] = field(default_factory=dict)
    thickness: tuple[int, int] | None = None
    strands: int = 1
    made: Design | None = None


#: Nothing is asked of the yarn: all is as in her settings.
AS_SET = Wish()


@dataclass(frozen=True, slots=True)
class Answer:
    """The matcher's answer, with the kept design it was for (None for typed lengths)."""

    match: Match
    design: Kept | None
    settings: Settings


def propose(book: Book, asked: NeedAsked, wish: Wish = AS_SET) -> Answer:
    """The sets of lots that cover the need, best first, and what almost does."""
    with book.reading() as db:
        settings = Settings.read(db)
        design, need = need_and_design(db, settings, asked, wish.margin)
        return propose_within(db, settings, need, wish, design)


def propose_within(
    db: Connection, settings: Settings, need: Need, wish: Wish, design: Kept | None
) -> Answer:
    """The same inside a view or an entry that is open already."""
    need = need_apart(need, wish)
    two_lots = shared_by_two(wish.two_lots, need, design.known if design else None)
    refuse_unknown_roles(need, [*wish.fixed, *two_lots.asked])
    refuse_unshared(two_lots)
    shelf = shelf_of(db, settings)
    wish = wish_of(db, settings, replace(wish, two_lots=two_lots), need, shelf)
    plan = design.known if design and not wish.apart else None
    return Answer(match(shelf, need, wish, plan), design, settings)


def need_apart(need: Need, wish: Wish) -> Need:
    """The need with each strand by itself where she asks for that."""
    refuse_unknown_roles(need, wish.apart)
    return apart(need, wish.apart)


def shelf_of(db: Connection, settings: Settings, *, with_spent: bool = False) -> Shelf:
    """The shelf as it is today, perhaps with the skeins that are used up."""
    today = clock.today()

    def read() -> Shelf:
        return Shelf(today, kept_lots(db, with_spent=with_spent), settings.scale)

    return recall(db, ("shelf", with_spent, today), read)


def wish_of(db: Connection, settings: Settings, wish: Wish, need: Need, shelf: Shelf) -> Wish:
    """Her wish held against her settings, this need and this shelf."""
    limits = held_against(wish.limits, need, shelf.lots, settings.fineness)
    return replace(settled(db, settings, wish, shelf.lots), limits=limits)


def settled(db: Connection, settings: Settings, wish: Wish, lots: Sequence[HeldLot]) -> Wish:
    """The wish with her settings in it, and the yarn it names found; its limits as they are."""
    return replace(
        wish,
        contrast=wish.contrast or settings.contrast,
        fixed={role: found_on(db, lots, to.typed) for role, to in wish.fixed.items()},
        thickness_tolerance=settings.thickness_tolerance,
        useful_end_m=settings.useful_end.m,
        ranking=settings.ranking,
        vision=settings.colour_vision,
    )


def need_and_design(
    db: Connection, settings: Settings, asked: NeedAsked, margin: float | None
) -> tuple[Kept | None, Need]:
    """The kept design that is asked for, and its need; of typed lengths the need alone."""
    margin = settings.margin if margin is None else margin
    low, high = asked.thickness or (None, None)
    if asked.lengths:
        return None, stated_need(asked.lengths, margin, low, high, asked.strands)
    if not asked.design:
        known = [row.name for row in item_rows.designs(db)]
        raise NotFound("design" if known else "no_design_yet", "", known[:5])
    design = kept_named(db, settings, asked.design, margin)
    if asked.made is not None:
        remade = design.known.resized(asked.made)
        need = remade.need(remade.design)
        design = replace(design, design=asked.made, need=need, known=remade)
    return design, design.need


def found_on(db: Connection, lots: Sequence[HeldLot], typed: str) -> Fixed:
    """What was typed for a role: skein numbers with commas, a lot, two as L3/L9, or words."""
    if pair := TWO_LOTS.fullmatch(typed.strip()):
        each = [find.lots_among(lots, ref) for ref in pair.groups()]
        return Fixed(frozenset(held.lot.id for one in each for held in one), typed=typed)
    parts = [part.strip() for part in typed.split(",")]
    if all(part.isdecimal() for part in parts):
        skeins = [find.skein_among(db, lots, part) for part in parts]
        numbers = frozenset(skein.number for skein in skeins)
        return Fixed(frozenset(skein.lot_id for skein in skeins), numbers, typed)
    return Fixed(frozenset(held.lot.id for held in find.lots_among(lots, typed)), typed=typed)


def propose_made(book: Book, design: Kept, wish: Wish = AS_SET) -> Answer:
    """The same for a design as it would be made, whether it is kept or not."""
    with book.reading() as db:
        return propose_within(db, Settings.read(db), design.need, wish, design)


def shelf_today(book: Book) -> Shelf:
    """The shelf as the matcher sees it."""
    with book.reading() as db:
        return shelf_of(db, Settings.read(db))
