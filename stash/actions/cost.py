"""What an item cost, or what the next one of a design would, by the yarn on the shelf."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from stash.actions import clock, find
from stash.actions.book import Book
from stash.actions.designs import kept_named
from stash.actions.her_hours import HerHours
from stash.actions.her_settings import Settings
from stash.actions.match import propose_within
from stash.actions.priced import Priced, yarn_of
from stash.actions.several import in_turn
from stash.costing.pools import Method
from stash.costing.price import NO_MONEY, Costing, Terms, YarnCost, gifts_at
from stash.errors import Ambiguous, NotFound, Refusal
from stash.matching.answer.proposal import Proposal
from stash.matching.question.wish import Wish
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.requirements.yarn.need import Need
from stash.stock.item import Item, ItemState
from stash.stock.movement import Booked, Kind, Movement
from stash.stock.sale import Sale, sold
from stash.stock.yarn import Lot
from stash.store import item_rows, sale_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class CostAsked:
    """What a person says of the cost; what is None is as in her settings."""

    sundries: Money | None = None
    hours: Fraction | None = None
    wage: Money | None = None
    overhead: Fraction | None = None
    fees: Fraction | None = None
    gifts_at: Money | None = None
    method: Method | None = None


#: Nothing said beside her settings.
AS_SET = CostAsked()


@dataclass(frozen=True, slots=True)
class Costed:
    """An item's cost, or (`item` None) that of the next one of a design.

    `lots` are the records of its skeins; `sale` the sale not taken back; `key` the proposal that
    the next one was reckoned from; `others` what finished items of the design took in yarn.
    """

    design: str
    item: Item | None
    costing: Costing
    lots: dict[int, Lot]
    method: Method
    currency: str
    sale: Sale | None = None
    key: str = ""
    others: tuple[tuple[int, Costing], ...] = ()


def cost(book: Book, asked: Sequence[str], said: CostAsked | None = None) -> list[Costed]:
    """The cost of items (by number, or by a design's name while one is open), else of a design.

    An item is reckoned from the grams it took so far; a design from what the shelf proposes
    first, at the expected amount.
    """
    said = said or CostAsked()
    with book.reading() as db:
        view = _View(db, Settings.read(db), HerHours.read(db), said)
        return in_turn(book, asked, lambda one: _costed(view, one), saves=False)


@dataclass(frozen=True, slots=True)
class _View:
    """One view of the books, and what was said of the cost."""

    db: Connection
    settings: Settings
    hours: HerHours
    said: CostAsked
    _priced: list[Priced] = field(default_factory=list)

    @property
    def priced(self) -> Priced:
        """Every movement at its cost, read once for all that is asked."""
        if not self._priced:
            self._priced.append(Priced.read(self.db, self.said.method))
        return self._priced[0]


def _costed(view: _View, asked: str) -> Costed:
    item = _item(view.db, asked)
    return _of_design(view, find.design(view.db, asked)) if item is None else _of_item(view, item)


def _item(db: Connection, asked: str) -> Item | None:
    """None where a design is meant: by a name that no item bears which is on the hook."""
    numbered = asked.strip().removeprefix("#").isdecimal()
    try:
        found = find.item(db, asked)
    except (NotFound, Ambiguous):
        if numbered:
            raise
        return None
    return found if numbered or item_rows.used_by_role(db, found.number) else None


def _terms(view: _View, design: str, item: Item | None = None) -> Terms:
    """What she says, else what the item took or was to take, else her own hours and settings."""
    hours = view.hours.of(design, view.settings)
    if item is not None:
        minutes = item.asked.minutes if item.made_minutes is None else item.made_minutes
        hours = hours if minutes is None else Fraction(minutes, 60)
    return terms_of(view.settings, hours, view.said)


def terms_of(settings: Settings, hours: Fraction | None, said: CostAsked = AS_SET) -> Terms:
    """What comes on top of the yarn of one that takes so long: what she says, else her settings."""
    sundries = settings.sundries if said.sundries is None else said.sundries
    overhead = settings.overhead if said.overhead is None else said.overhead
    fees = settings.fees if said.fees is None else said.fees
    return Terms(
        sundries=sundries or NO_MONEY,
        hours=hours if said.hours is None else said.hours,
        wage=settings.wage if said.wage is None else said.wage,
        overhead=overhead or Fraction(0),
        fees=fees or Fraction(0),
    )


def _of_item(view: _View, item: Item) -> Costed:
    if item.state is ItemState.UNRAVELLED:
        raise Refusal("cost_of_unravelled", item=item)
    priced, said = view.priced, view.said
    lines = yarn_of(priced, item.number)
    if not lines:
        raise Refusal("cost_of_nothing_used", item=item)
    return Costed(
        design=item.design,
        item=item,
        costing=_costing(lines, priced, _terms(view, item.design, item), said),
        lots={line.skein: priced.lot(line.skein) for line in lines},
        method=priced.method,
        currency=view.settings.currency,
        sale=sold(sale_rows.sales(view.db, [item.number])),
    )


def _costing(lines: Sequence[YarnCost], priced: Priced, terms: Terms, said: CostAsked) -> Costing:
    if said.gifts_at is None:
        return Costing(tuple(lines), terms)
    if priced.method is not Method.SPECIFIC:
        raise Refusal("gifts_lower_all", method=priced.method)
    return Costing(gifts_at(lines, said.gifts_at), terms)


#: The number of an item that is only thought of.
_THOUGHT_OF = -1


def _of_design(view: _View, row: item_rows.DesignRow) -> Costed:
    db, settings, said = view.db, view.settings, view.said
    design = kept_named(db, settings, row.name)
    answer = propose_within(db, settings, design.need, Wish(top=1), design)
    if not answer.match.proposals:
        raise Refusal("nothing_covers_design", design=row.name)
    proposal = answer.match.proposals[0]
    moves = list(_thought_of(proposal, answer.match.need))
    priced = Priced.read(db, said.method, moves)
    terms = _terms(view, row.name)
    lines = yarn_of(priced, _THOUGHT_OF)
    made = [
        a.number for a in item_rows.items(db) if a.design_id == row.id and a.state is ItemState.DONE
    ]
    return Costed(
        design=row.name,
        item=None,
        costing=_costing(lines, priced, terms, said),
        lots={line.skein: priced.lot(line.skein) for line in lines},
        method=priced.method,
        currency=settings.currency,
        key=proposal.key,
        others=tuple(
            (number, _costing(yarn_of(priced, number), priced, terms, said)) for number in made
        ),
    )


def _thought_of(proposal: Proposal, need: Need) -> Iterator[Booked]:
    """The proposal worked up today: each take by the share of it that is expected to be used."""
    today, last = clock.today(), 2**40
    expected = {role.role: role.estimate.expected_m for role in need.roles}
    for filled in proposal.roles:
        taken_m = math.fsum(take.length.m for take in filled.takes)
        pairs = {skein.number: skein.pair.put_up for skein in filled.lot.skeins}
        for take in filled.takes:
            pair = pairs[take.number]
            if pair is None:
                continue
            share = min(1.0, expected[filled.role] / taken_m)
            mass = Mass(round(pair.mass_of(take.length).mg * share))
            last += 1
            move = Movement(
                take.number, Kind.USED, -mass, item=_THOUGHT_OF, role=filled.role, id=last
            )
            yield Booked(last, today, move)
