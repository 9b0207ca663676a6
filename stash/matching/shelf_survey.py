"""Many designs asked of one shelf: which it allows, how often, and what one more skein would do.

The shelf is viewed once and each role of each design gone through once; what follows comes from
that, with the matcher itself.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from stash.matching.after_taking import alone_in, fitting, renewed, views_after
from stash.matching.answer.proposal import NearMiss, Proposal
from stash.matching.lots.lot_view import LotView, known_put_up, view_of, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.match import lots_by_role, match, proposed
from stash.matching.near_misses.near_misses import RoleLots
from stash.matching.question.wish import Wish
from stash.matching.rules.colour_pairs import nobody_tells_apart
from stash.matching.rules.fits import PairRules, pair_rules
from stash.matching.scoring.coverage import role_fit
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.yarn import FullFrom, Pair

#: More in a row than this is a market's worth, and is only counted as "or more" (our choice).
MOST_IN_A_ROW = 9
#: So many sets are gone through for one whose colours do not look alike (our choice).
MOST_LOOKED_AT = 100


@dataclass(frozen=True, slots=True)
class Question:
    """A design as it is asked of the shelf; with its plan, near misses say how else to make it."""

    name: str
    need: Need
    wish: Wish
    plan: DesignContext | None = None


@dataclass(frozen=True, slots=True)
class Allowed:
    """What the shelf says to one design.

    `best` is the best set whose colours do not look alike; only where there is none they may.
    `in_a_row`: so many can be made one after the other, each with the best set of what the one
    before has left, counted up to `MOST_IN_A_ROW`. Where none can, `near` is the best near miss,
    and `empty` are the roles that no lot fills.
    """

    question: Question
    best: Proposal | None
    in_a_row: int
    near: NearMiss | None
    empty: tuple[str, ...] = ()

    @property
    def lacking(self) -> float:
        """What is short, as a share of the whole need; 1 where length is not the trouble."""
        if self.near is None or self.near.short_m is None:
            return 1.0
        return self.near.short_m / math.fsum(role.set_aside_m for role in self.question.need.roles)

    @property
    def looks_alike(self) -> bool:
        """Whether two colours of the best set look alike to any eyes."""
        return self.best is not None and nobody_tells_apart(self.best.colour_difference)

    @property
    def order(self) -> tuple[int, float, bool, str]:
        """What can be made first, by cost, then with colours that look alike; then what is nearest.

        By name where they are alike.
        """
        if self.best:
            return (int(self.looks_alike), self.best.cost, False, self.question.name)
        return (2, self.lacking, self.near is None, self.question.name)


@dataclass(frozen=True, slots=True)
class Becomes:
    """A design a lot would fill the main colour of: its set, with the skein still to come in it."""

    name: str
    best: Proposal


@dataclass(frozen=True, slots=True)
class OneMore:
    """A lot that fills no design as its main colour today, and would with one more full skein."""

    lot: HeldLot
    put_up: PutUp
    designs: tuple[Becomes, ...]


@dataclass(frozen=True, slots=True)
class ShelfSurvey:
    """Everything the shelf says to the designs, the likeliest first."""

    designs: tuple[Allowed, ...]
    one_more: tuple[OneMore, ...]


@dataclass(frozen=True, slots=True)
class Asking:
    """A design with what the shelf holds for each of its roles, and its best sets.

    `first` is the best set of all; `best` the best one whose colours do not look alike, among the
    first ones, else the same. None where the shelf has no set.
    """

    question: Question
    by_role: Sequence[RoleLots]
    rules: PairRules
    first: Proposal | None
    best: Proposal | None


@dataclass(frozen=True, slots=True)
class ShelfAsked:
    """A shelf with every design asked of it once."""

    shelf: Shelf
    views: Sequence[LotView]
    designs: tuple[Asking, ...]


def asked_of(shelf: Shelf, questions: Sequence[Question]) -> ShelfAsked:
    """The best sets of each of these designs. All of them assume, or none does."""
    views = views_of(shelf, any(question.wish.assume for question in questions))
    return ShelfAsked(shelf, views, tuple(_asking(views, question) for question in questions))


def _asking(views: Sequence[LotView], question: Question) -> Asking:
    rules = pair_rules(question.need, question.wish)
    by_role = lots_by_role(views, question.need, question.wish)
    first = next(iter(proposed(by_role, rules, 1)), None)
    best = _told_apart(by_role, rules, first) if first else None
    return Asking(question, by_role, rules, first, best)


def _told_apart(by_role: Sequence[RoleLots], rules: PairRules, best: Proposal) -> Proposal:
    """The best set whose colours do not look alike, among the first ones; else the best of all."""
    if not nobody_tells_apart(best.colour_difference):
        return best
    first = proposed(by_role, rules, MOST_LOOKED_AT)
    return next((one for one in first if not nobody_tells_apart(one.colour_difference)), best)


def survey(asked: ShelfAsked, tell: Callable[[str | Note], None]) -> ShelfSurvey:
    """Which of these designs the shelf allows, and which lots one more skein would bring to one.

    `tell` hears the name of each design as it is looked at, then what comes last.
    """
    allowed = []
    for asking in asked.designs:
        tell(asking.question.name)
        allowed.append(_allowed(asking, asked.shelf))
    tell(Note("one_more_skein"))
    found = [one for lot in asked.views if (one := _one_more(lot, asked.designs))]
    found.sort(key=lambda one: (one.designs[0].best.cost, -len(one.designs), one.lot.lot.id))
    return ShelfSurvey(tuple(sorted(allowed, key=lambda one: one.order)), tuple(found))


def _allowed(asking: Asking, shelf: Shelf) -> Allowed:
    if asking.first is None:
        empty = tuple(at.query.role.role for at in asking.by_role if not at.good)
        return Allowed(asking.question, None, 0, _nearest(asking.question, shelf), empty)
    return Allowed(asking.question, asking.best, _in_a_row(asking, asking.first), None)


def _nearest(question: Question, shelf: Shelf) -> NearMiss | None:
    """The first near miss that has a lot for every role, else the first."""
    found = match(shelf, question.need, question.wish, question.plan).near_misses
    every = len(question.need.roles)
    return next((miss for miss in found if len(miss.roles) == every), found[0] if found else None)


def _in_a_row(asking: Asking, best: Proposal) -> int:
    """How often it can be made: with the best set, then with the best of what that leaves."""
    by_role, count = asking.by_role, 1
    while count < MOST_IN_A_ROW:
        takes = [take for filled in best.roles for take in filled.takes]
        left = views_after(takes, by_role)
        by_role = [renewed(at, left) for at in by_role]
        found = proposed(by_role, asking.rules, 1)
        if not found:
            break
        (best,), count = found, count + 1
    return count


def _one_more(lot: LotView, asking: Sequence[Asking]) -> OneMore | None:
    """What one more full skein would make of a lot; None where it would make nothing new.

    Only of a numbered dye lot can one more skein be of the same lot. What a new skein covers by
    itself says nothing of the lot, and is left out.
    """
    put_up = known_put_up(lot.lot)
    if put_up is None or not lot.known_lot or not any(design.um for design in lot.supplies):
        return None
    new = HeldSkein(0, lot.id, put_up.mass, NO_MASS, Pair(put_up, FullFrom.BAND), opened=False)
    alone, more = _with(lot, (new,)), _with(lot, (*lot.lot.skeins, new))
    able = [one for one in asking if not _fills_main(alone, one) and _fills_main(more, one)]
    if not able or any(_best_with(lot, one) for one in asking):
        return None
    found = [Becomes(one.question.name, best) for one in able if (best := _best_with(more, one))]
    found.sort(key=lambda becomes: (becomes.best.cost, becomes.name))
    return OneMore(lot.lot, put_up, tuple(found)) if found else None


def _with(lot: LotView, skeins: tuple[HeldSkein, ...]) -> LotView:
    return view_of(HeldLot(lot.lot.lot, skeins), lot.assume, lot.scale, lot.stats)


def _fills_main(lot: LotView, asking: Asking) -> bool:
    return not role_fit(lot, asking.by_role[0].query).blockers


def _best_with(lot: LotView, asking: Asking) -> Proposal | None:
    """The best set in which this lot is the main colour, None where there is none."""
    main, *others = asking.by_role
    alone = replace(main, good=alone_in(fitting([lot], main.query), main.query))
    return next(iter(proposed([alone, *others], asking.rules, 1)), None)
