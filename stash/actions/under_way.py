"""Items that are planned or begun: what of each was used, of about how much, and its rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from stash.actions import find
from stash.actions.book import Book
from stash.actions.items import ItemLine, Which, lines_of, listed_items
from stash.actions.yarn_of_items import YarnOfItems
from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import Shape
from stash.requirements.yarn.by_rows import by_rows
from stash.stock.holding import HeldSkein
from stash.stock.movement import standing
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class UsedOf:
    """What a colour of an item used so far, about how much it will take, and what is set aside.

    `expected` is None where nothing was estimated, or no skein says what a length weighs.
    """

    role: str
    used: Mass
    expected: Mass | None
    set_aside: Mass
    skeins: tuple[HeldSkein, ...]


@dataclass(frozen=True, slots=True)
class UnderWay:
    """An item as it lies on her table; `laid` is its shape with its rows, where they are known."""

    line: ItemLine
    colours: tuple[UsedOf, ...]
    laid: tuple[Shape, Layout] | None

    @property
    def used(self) -> Mass:
        """All that went into it."""
        return sum((one.used for one in self.colours), NO_MASS)

    @property
    def expected(self) -> Mass | None:
        """About what it takes in all; None where that is not known of every colour."""
        each = [one.expected for one in self.colours]
        known = [mass for mass in each if mass is not None]
        return sum(known, NO_MASS) if known and len(known) == len(each) else None


def under_way(book: Book, which: Which = Which.OPEN) -> tuple[UnderWay, ...]:
    """The items that are open (or others), each with its yarn by colour."""
    lines = listed_items(book, which).lines
    with book.reading() as db:
        return tuple(_at_hand(db, lines))


def item_at_hand(book: Book, number: int) -> UnderWay:
    """One item likewise, whatever its state."""
    with book.reading() as db:
        (one,) = _at_hand(db, lines_of(db, [find.item(db, str(number))]))
        return one


def _at_hand(db: Connection, lines: Sequence[ItemLine]) -> Iterator[UnderWay]:
    """The yarn of all of them is read together, and a plan that several share is laid out once."""
    yarn = YarnOfItems.read(db, [line.item.number for line in lines])
    laid = {id(line.plan): line.plan for line in lines}
    layouts = {key: laid_of(plan) for key, plan in laid.items()}
    for line in lines:
        yield UnderWay(line, tuple(used_of(yarn, line.item.number)), layouts[id(line.plan)])


def laid_of(plan: Design) -> tuple[Shape, Layout] | None:
    """The shape of a plan with its rows; None where it has none."""
    rows = by_rows(plan)
    return (plan.shape, rows.layout) if rows and plan.shape else None


def used_of(yarn: YarnOfItems, item: int) -> Iterator[UsedOf]:
    """What each colour of an item used, A first."""
    moves, promises = standing(yarn.moves[item]), yarn.promised[item]
    planned = {one.role: one.expected for one in yarn.planned.get(item, ())}
    roles = {m.role for m in moves} | {p.role for p in promises} | {*planned}
    for role in sorted(roles):
        ours = [p for p in promises if p.role == role]
        used = {m.skein for m in moves if m.role == role} | {p.skein for p in ours}
        balls = tuple(yarn.skeins[number] for number in sorted(used))
        yield UsedOf(
            role,
            Mass(max(0, -sum(m.change.mg for m in moves if m.role == role))),
            _weight(planned.get(role), balls),
            sum((p.mass for p in ours), NO_MASS),
            balls,
        )


def _weight(length: Length | None, skeins: Iterable[HeldSkein]) -> Mass | None:
    """What a length weighs, by the first of these skeins of which that is known."""
    pairs = (skein.pair.put_up for skein in skeins)
    pair = next((pair for pair in pairs if pair is not None), None)
    return None if length is None or pair is None else pair.mass_covering(length)
