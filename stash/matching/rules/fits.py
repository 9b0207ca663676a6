"""The conditions that must hold, each answering yes or what is in the way.

For one role: the lot covers it, its thickness and colour are known and right, and it keeps to her
limits. For lots together: each lot serves one role, their classes lie within her tolerance, their
colours stand apart as she wishes, and they share a wash and do not bleed where she asks for that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from stash.matching.lots.lot_view import Lots, LotView, order_of, put_up_of
from stash.matching.question.strands import colour_of, colours_of
from stash.matching.question.wish import Contrast, Fixed, Limits, Wash, Wish, Wished
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.colour_pairs import bleeds
from stash.matching.rules.contrast import (
    leaves_room,
    stands_apart,
)
from stash.matching.rules.limits import limit_blockers
from stash.measures.estimate import to_books
from stash.measures.vision import Vision
from stash.requirements.yarn.need import Need, RoleNeed
from stash.stock.picking import Supply, Wanted
from stash.trade.washing import felts


@dataclass(frozen=True, slots=True)
class RoleQuery:
    """One role with everything its answer depends on.

    `fixed` is what she tied the role to; `limited` says whether she set any limit, `together`
    whether lots must suit each other: a single role has no partner; `colours` whether several
    colours must; `main` whether it is the main colour of such a design. `shelf` is all that is
    looked at, for whoever looks for a second lot.
    """

    role: RoleNeed
    need: Need
    wish: Wish
    wanted: Wanted
    fixed: Fixed | None
    limited: bool
    together: bool
    colours: bool
    main: bool
    shelf: Sequence[LotView] = field(default=(), compare=False, repr=False)

    def allows(self, lot_id: int) -> bool:
        """Whether this lot may be looked at for the role."""
        return self.fixed is None or lot_id in self.fixed.lots

    def of(self, supplies: Sequence[Supply]) -> tuple[Supply, ...]:
        """The pieces that may be taken for the role.

        Remnants are for bands: they stay out of the main colour of a design that has bands, unless
        she tied it to a yarn. A barred skein stays out of all.
        """
        if barred := self.wish.limits.barred:
            supplies = [supply for supply in supplies if supply.number not in barred]
        if self.fixed is not None:
            named = self.fixed.skeins
            return tuple(supply for supply in supplies if not named or supply.number in named)
        if self.main:
            supplies = [supply for supply in supplies if not supply.remnant]
        return tuple(supplies)


def role_query(role: RoleNeed, need: Need, wish: Wish) -> RoleQuery:
    """The question for one role, its lengths brought to the books."""
    wanted = Wanted(
        um=to_books(role.set_aside_m).um,
        strands=role.strands,
        join_um=to_books(wish.join_m).um,
        useful_um=to_books(wish.useful_end_m).um,
    )
    colours = {colour_of(one.role) for one in need.roles}
    several = len(colours) > 1
    return RoleQuery(
        role,
        need,
        wish,
        wanted,
        fixed=wish.fixed.get(role.role),
        limited=wish.limits != Limits(),
        together=len(need.roles) > 1,
        colours=several,
        main=several and colour_of(role.role) == colour_of(need.roles[0].role),
    )


def blockers_but_length(view: LotView, query: RoleQuery) -> tuple[Blocker, ...]:
    """What speaks against the lot before any length is measured.

    A class that is not known is no bar to a lot she named herself. A lot with neither class nor
    length has one blocker, the missing band.
    """
    found = [_thickness_blocker(view, query), _colour_blocker(view, query)]
    if query.limited or view.lot.lot.conditions:
        found += limit_blockers(view, query.role.role, query.wish.limits)
    unmeasured = len(view.supplies) < len(view.lot.skeins)
    if unmeasured and not query.of(view.supplies) and without_length(view, query):
        found = [Blocker.NO_LENGTH, *(t for t in found if t is not Blocker.NO_CLASS)]
    blockers = [blocker for blocker in found if blocker is not None]
    return tuple(dict.fromkeys(blockers)) if blockers else ()


def _thickness_blocker(view: LotView, query: RoleQuery) -> Blocker | None:
    if query.need.thickness_from is None and not query.together:
        return None
    if view.thickness is None:
        return Blocker.NO_CLASS if query.fixed is None else None
    return (
        Blocker.WRONG_CLASS
        if thickness_steps(view, query) > query.wish.thickness_tolerance
        else None
    )


def thickness_steps(view: LotView, query: RoleQuery) -> int:
    """How many classes the lot lies from the one asked for; 0 where either is open."""
    low, high = query.need.thickness_from, query.need.thickness_to
    if view.thickness is None or low is None:
        return 0
    return view.thickness.steps_from(low, high if high is not None else low)


def _colour_blocker(view: LotView, query: RoleQuery) -> Blocker | None:
    if view.shades or not query.colours or query.wish.contrast_or_any is Contrast.ANY:
        return None
    return Blocker.NO_COLOUR


def without_length(view: LotView, query: RoleQuery) -> tuple[int, ...]:
    """The skeins that may be taken for the role and cannot be measured, by number."""
    only = query.fixed.skeins if query.fixed else frozenset[int]()
    return tuple(
        skein.number
        for skein in view.lot.skeins
        if put_up_of(skein, view.thickness, view.assume) is None
        and (not only or skein.number in only)
        and skein.number not in query.wish.limits.barred
    )


@dataclass(frozen=True, slots=True)
class PairRules:
    """The conditions between lots, and what a step between their classes costs (thousandths).

    `vision` keeps nothing out: it is whose eyes the notes on colours are for. `lots` is how many
    colours lie side by side: the more there are, the fewer gaps between two leave room for the
    others. `colours` is the colour of each role by number, where strands of one colour are roles
    of their own; those of the colours in `alike` come in the order of their lots, or each set would
    come twice.
    """

    contrast: Wished
    tolerance: int
    step_cost: int
    wash: Wash = Wash.ANY
    no_bleeding: bool = False
    vision: Vision | None = None
    lots: int = 2
    colours: tuple[int, ...] = ()
    alike: frozenset[int] = frozenset()

    def fit(self, one: LotView, other: LotView, of_one_colour: bool = False) -> bool:
        """Whether two lots may be in one proposal, perhaps as strands of one colour."""
        return (
            one.id != other.id
            and steps_between(thicknesses_of(one), thicknesses_of(other)) <= self.tolerance
            and (of_one_colour or self._apart(one, other))
            and self.wash_together(one, other)
            and not self.would_bleed(one, other)
        )

    def _apart(self, one: LotView, other: LotView) -> bool:
        return stands_apart(one.shades, other.shades, self.contrast) and (
            self.lots == 2 or self._leaves_room(one, other)
        )

    def among(self, roles: Sequence[int]) -> PairRules:
        """The same conditions between the lots of these roles alone, by their places."""
        if not self.colours:
            return self
        return replace(self, colours=tuple(self.colours[at] for at in roles))

    def of_one_colour(self, role: int, other: int) -> bool:
        """Whether two roles, by their places, are strands of one colour."""
        return bool(self.colours) and self.colours[role] == self.colours[other]

    def fit_all(self, chosen: Sequence[Lots], lots: Lots) -> bool:
        """Whether the lots for the next role fit all those of the first ones."""
        if not self.colours:
            return all(self.fit(x, y) for one in chosen for x in one for y in lots)
        role = len(chosen)
        return all(self._fit_at(other, at, lots, role) for at, other in enumerate(chosen))

    def _fit_at(self, one: Lots, at: int, other: Lots, role: int) -> bool:
        strands = self.of_one_colour(at, role)
        if strands and self.colours[role] in self.alike and order_of(one) > order_of(other):
            return False
        return all(self.fit(x, y, strands) for x in one for y in other)

    def _leaves_room(self, one: LotView, other: LotView) -> bool:
        if self.contrast is Contrast.ANY:
            return True
        return leaves_room(one.shades, other.shades, self.contrast, self.lots)

    def wash_together(self, one: LotView, other: LotView) -> bool:
        """Whether both felt or neither does, where she asks for that."""
        if self.wash is not Wash.TOGETHER:
            return True
        first, second = one.lot.lot, other.lot.lot
        return felts(first.fibre, first.care) == felts(second.fibre, second.care)

    def would_bleed(self, one: LotView, other: LotView) -> bool:
        """Whether one may bleed into the other, where she will not have that."""
        return self.no_bleeding and (
            bleeds(one.shades, other.shades) or bleeds(other.shades, one.shades)
        )

    def cost(self, lots: Sequence[LotView]) -> int:
        """What the classes cost together, in thousandths: by the widest step between any two."""
        return self.step_cost * widest_step(lots) if self.step_cost else 0


def pair_rules(need: Need, wish: Wish) -> PairRules:
    """The conditions between lots; a class named in the need is what each lot is compared with."""
    colours = colours_of(need)
    tied = {c for role, c in zip(need.roles, colours, strict=False) if role.role in wish.fixed}
    step = 0 if need.thickness_from is not None else round(1000 * wish.ranking.thickness_step)
    return PairRules(
        wish.contrast_or_any,
        wish.thickness_tolerance,
        step,
        wash=wish.limits.wash,
        no_bleeding=wish.limits.no_bleeding,
        vision=wish.vision,
        colours=colours,
        alike=frozenset(colours) - tied,
    )


def widest_step(lots: Sequence[LotView]) -> int:
    """The most classes between any two lots; one that is not known counts for nothing."""
    classes = [thicknesses_of(view) for view in lots]
    pairs = [(x, y) for i, x in enumerate(classes) for y in classes[i + 1 :]]
    return max((steps_between(x, y) for x, y in pairs), default=0)


#: The lowest and highest class of a lot; None where it is not known.
Thicknesses = tuple[int, int] | None


def thicknesses_of(view: LotView) -> Thicknesses:
    """The lowest and highest class of a lot."""
    return (view.thickness.low, view.thickness.high) if view.thickness else None


def steps_between(one: Thicknesses, other: Thicknesses) -> int:
    """How many classes lie between two lots; 0 where they meet or one is not known."""
    if one is None or other is None:
        return 0
    return max(0, one[0] - other[1], other[0] - one[1])
