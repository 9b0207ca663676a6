"""What so much yarn makes of a design: amounts as given, or skeins on the shelf."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from stash.actions import designs, find
from stash.actions.book import Book
from stash.actions.designs import refuse_unknown_roles
from stash.actions.her_settings import Settings
from stash.errors import Refusal
from stash.matching.lots.lot_view import Thickness, thickness_of
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.requirements.fit.fit_to_yarn import lacking
from stash.requirements.fit.reach import Lots, Reach, RoleReach, reach, role_reach
from stash.requirements.yarn.design_context import DesignContext
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.yarn import Lot
from stash.store import item_rows

#: A length or a weight of yarn, or the number of a skein, of which the free yarn is meant.
YarnGiven = Length | Mass | int


def in_metres(
    known: DesignContext, given: Mapping[str, Sequence[YarnGiven]], book: Callable[[], Book]
) -> dict[str, tuple[float, ...]]:
    """The yarn of each role in metres, lot after lot; the book is opened only for skeins."""
    refuse_unknown_roles(known.need(known.design), given)
    skeins = [one for each in given.values() for one in each if isinstance(one, int)]
    if twice := sorted({one for one in skeins if skeins.count(one) > 1}):
        raise Refusal("skein_given_twice", skein=twice[0])
    free = dict(_free(book(), skeins)) if skeins else {}
    return {
        role: tuple(
            free[one] if isinstance(one, int) else _metres(known, role, one) for one in each
        )
        for role, each in given.items()
    }


def reached(known: DesignContext, lots: Lots) -> Reach:
    """What can become of the design with that yarn."""
    return reach(known, lots)


def rows_left(known: DesignContext, lots: Lots, done: int) -> tuple[RoleReach, ...]:
    """How far that yarn goes from after the rows that are done."""
    return tuple(role_reach(known, role, each, done) for role, each in sorted(lots.items()))


@dataclass(frozen=True, slots=True)
class BallUse:
    """One role of a kept design worked from a ball; `steps` classes lie between design and yarn."""

    role: str
    reach: Reach
    steps: int

    @property
    def enough(self) -> bool:
        """Whether the plan as it is can be made."""
        return not self.reach.short


@dataclass(frozen=True, slots=True)
class FromBall:
    """What the free yarn of one skein can become, the likeliest first."""

    skein: HeldSkein
    lot: Lot
    said: Note | None
    free_m: float
    uses: tuple[BallUse, ...]
    settings: Settings


def from_ball(book: Book, asked: str, report: Callable[[str], None]) -> FromBall:
    """Which kept designs a skein can be worked into, as which colour, and how large they get.

    What it covers as planned comes first, then what it nearly covers; yarn of another thickness
    last. `report` hears the name of each design as it is looked at.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        found = find.skein(db, asked)
        plans = designs.all_known(db, settings, item_rows.designs(db))
    length = found.skein.free_length
    if length is None:
        raise _no_length(found.skein.number)
    thickness = thickness_of(HeldLot(found.lot, (found.skein,)))
    uses: list[BallUse] = []
    for known in plans:
        report(known.design.name)
        uses += _uses(known, length.m, thickness)
    uses.sort(key=lambda use: (use.steps, not use.enough, _lacks(use), use.reach.known.design.name))
    return FromBall(found.skein, found.lot, found.said, length.m, tuple(uses), settings)


def _uses(known: DesignContext, free_m: float, thickness: Thickness | None) -> Iterator[BallUse]:
    low, high = known.design.classes or (None, None)
    steps = thickness.steps_from(low, high) if thickness and low is not None and high else 0
    need = known.need(known.design)
    for one in need.roles:
        try:
            found = reach(known, {one.role: (free_m,)})
        except Refusal:  # a plan whose size is not known can only be made as it is
            alone = (RoleReach(one.role, free_m, None, None, None),)
            found = Reach(known, need, lacking(need, {one.role: free_m}), alone, (), (), None)
        yield BallUse(one.role, found, steps)


def _lacks(use: BallUse) -> float:
    """How much of the role is lacking, as a share; what is left over does not count."""
    one = next(one for one in use.reach.need.roles if one.role == use.role)
    return max(0.0, 1 - use.reach.roles[0].have_m / one.set_aside_m)


def _no_length(skein: int) -> Refusal:
    return Refusal("length_of_skein_not_known", skein=skein)


def _free(book: Book, numbers: Sequence[int]) -> Iterator[tuple[int, float]]:
    with book.reading() as db:
        for number in numbers:
            length = find.skein(db, str(number)).skein.free_length
            if length is None:
                raise _no_length(number)
            yield number, length.m


def _metres(known: DesignContext, role: str, one: Length | Mass) -> float:
    if isinstance(one, Length):
        return one.m
    needs = known.need(known.design).roles
    m_per_100g = next((need.m_per_100g for need in needs if need.role == role), None)
    m_per_100g = m_per_100g or known.design.m_per_100g
    if m_per_100g is None:
        raise Refusal("mass_without_metres", mass=one)
    return one.g * m_per_100g / 100
