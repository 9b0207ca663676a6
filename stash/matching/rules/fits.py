"""The conditions that must hold, each answering yes or what is in the way.

For one role: the lot covers it, its thickness and colour are known and right, and it keeps to her
limits. For lots together: each lot serves one role, their classes lie within her tolerance, their
colours stand apart as she wishes, and they share a wash and do not bleed where she asks for that.
"""

from __future__ import annotations

import operator
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import partial

from stash.matching.lots.lot_view import Seen, put_up_of
from stash.matching.question.strands import colour_of, colours_of
from stash.matching.question.wish import Contrast, Fixed, Limits, Wash, Wish, Wished
from stash.matching.rules.blockers import Trouble
from stash.matching.rules.colour_pairs import bleeds, sheds, very_light
from stash.matching.rules.conflicts import Trait
from stash.matching.rules.contrast import (
    gaps_among,
    hue_sectors,
    leaves_room,
    lightness_steps,
    never_apart,
    never_one_hue,
    stands_apart,
    step_for,
)
from stash.matching.rules.limits import limit_troubles
from stash.measures.estimate import to_books
from stash.measures.vision import Vision
from stash.requirements.yarn.need import Need, RoleNeed
from stash.stock.picking import Supply, Wanted
from stash.trade.washing import felts


@dataclass(frozen=True, slots=True)
class Asked:
    """One role with everything its answer depends on.

    `fixed` is what she tied the role to; `limited` says whether she set any limit, `together`
    whether lots must suit each other: a single role has no partner; `colours` whether several
    colours must; `main` whether it is the main colour of such a piece. `shelf` is all that is
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
    shelf: Sequence[Seen] = field(default=(), compare=False, repr=False)

    def allows(self, lot_id: int) -> bool:
        """Whether this lot may be looked at for the role."""
        return self.fixed is None or lot_id in self.fixed.lots

    def of(self, pieces: Sequence[Supply]) -> tuple[Supply, ...]:
        """The pieces that may be taken for the role.

        Remnants are for bands: they stay out of the main colour of a piece that has bands, unless
        she tied it to a yarn. A barred skein stays out of all.
        """
        if barred := self.wish.limits.barred:
            pieces = [piece for piece in pieces if piece.number not in barred]
        if self.fixed is not None:
            named = self.fixed.skeins
            return tuple(piece for piece in pieces if not named or piece.number in named)
        if self.main:
            pieces = [piece for piece in pieces if not piece.remnant]
        return tuple(pieces)


def asked(role: RoleNeed, need: Need, wish: Wish) -> Asked:
    """The question for one role, its lengths brought to the books."""
    wanted = Wanted(
        um=to_books(role.set_aside_m).um,
        strands=role.strands,
        join_um=to_books(wish.join_m).um,
        useful_um=to_books(wish.useful_end_m).um,
    )
    colours = {colour_of(one.role) for one in need.roles}
    several = len(colours) > 1
    return Asked(
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


def troubles_but_length(seen: Seen, ask: Asked) -> tuple[Trouble, ...]:
    """What speaks against the lot before any length is measured.

    A class that is not known is no bar to a lot she named herself. A lot with neither class nor
    length has one trouble, the missing band.
    """
    found = [_class_trouble(seen, ask), _colour_trouble(seen, ask)]
    if ask.limited or seen.lot.lot.conditions:
        found += limit_troubles(seen, ask.role.role, ask.wish.limits)
    unmeasured = len(seen.pieces) < len(seen.lot.skeins)
    if unmeasured and not ask.of(seen.pieces) and without_length(seen, ask):
        found = [Trouble.NO_LENGTH, *(t for t in found if t is not Trouble.NO_CLASS)]
    troubles = [trouble for trouble in found if trouble is not None]
    return tuple(dict.fromkeys(troubles)) if troubles else ()


def _class_trouble(seen: Seen, ask: Asked) -> Trouble | None:
    if ask.need.class_from is None and not ask.together:
        return None
    if seen.thickness is None:
        return Trouble.NO_CLASS if ask.fixed is None else None
    return Trouble.WRONG_CLASS if class_steps(seen, ask) > ask.wish.class_tolerance else None


def class_steps(seen: Seen, ask: Asked) -> int:
    """How many classes the lot lies from the one asked for; 0 where either is open."""
    low, high = ask.need.class_from, ask.need.class_to
    if seen.thickness is None or low is None:
        return 0
    return seen.thickness.steps_from(low, high if high is not None else low)


def _colour_trouble(seen: Seen, ask: Asked) -> Trouble | None:
    if seen.shades or not ask.colours or ask.wish.contrast_or_any is Contrast.ANY:
        return None
    return Trouble.NO_COLOUR


def without_length(seen: Seen, ask: Asked) -> tuple[int, ...]:
    """The skeins that may be taken for the role and cannot be measured, by number."""
    only = ask.fixed.skeins if ask.fixed else frozenset[int]()
    return tuple(
        skein.number
        for skein in seen.lot.skeins
        if put_up_of(skein, seen.thickness, seen.assume) is None
        and (not only or skein.number in only)
        and skein.number not in ask.wish.limits.barred
    )


@dataclass(frozen=True, slots=True)
class Together:
    """The conditions between lots, and what a step between their classes costs (thousandths).

    `vision` bars nothing: it is whose eyes the reasons speak to. `lots` is how many colours stand
    together: the more there are, the fewer gaps between two leave room for the others. `colours`
    is the colour of each role by number, where strands of one colour are roles of their own; those
    of the colours in `alike` are told in the order of their lots, or each set would come twice.
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

    def fit(self, one: Seen, other: Seen, of_one_colour: bool = False) -> bool:
        """Whether two lots may stand in one proposal, perhaps as strands of one colour."""
        return (
            one.id != other.id
            and _steps_between(_classes(one), _classes(other)) <= self.tolerance
            and (of_one_colour or self._apart(one, other))
            and self.wash_together(one, other)
            and not self.would_bleed(one, other)
        )

    def _apart(self, one: Seen, other: Seen) -> bool:
        return stands_apart(one.shades, other.shades, self.contrast) and (
            self.lots == 2 or self._leaves_room(one, other)
        )

    def among(self, roles: Sequence[int]) -> Together:
        """The same conditions between the lots of these roles alone, by their places."""
        if not self.colours:
            return self
        return replace(self, colours=tuple(self.colours[at] for at in roles))

    def of_one_colour(self, role: int, other: int) -> bool:
        """Whether two roles, by their places, are strands of one colour."""
        return bool(self.colours) and self.colours[role] == self.colours[other]

    def fit_all(self, chosen: Sequence[Seen], seen: Seen) -> bool:
        """Whether a lot for the next role may stand beside those of the first ones."""
        if not self.colours:
            return all(self.fit(other, seen) for other in chosen)
        role = len(chosen)
        return all(self._fit_at(other, at, seen, role) for at, other in enumerate(chosen))

    def _fit_at(self, one: Seen, at: int, other: Seen, role: int) -> bool:
        strands = self.of_one_colour(at, role)
        if strands and self.colours[role] in self.alike and one.id > other.id:
            return False
        return self.fit(one, other, strands)

    def traits(self) -> tuple[Trait, ...]:
        """What two lots can be at odds over, under these rules."""
        found = [Trait("class", _class_marks, self._classes_too_far)]
        if self.contrast is not Contrast.ANY:
            found.append(_lightness(self.contrast, self.lots))
        if self.contrast is Contrast.TONAL:
            hue = Trait("hue", _hue_marks, never_one_hue, few=False, of_colour=True)
            found.append(hue)
        if self.wash is Wash.TOGETHER:
            found.append(Trait("felting", _felting_marks, operator.ne))
        if self.no_bleeding:
            found.append(Trait("bleeding", _bleeding_marks, _would_bleed))
        return tuple(found)

    def _classes_too_far(self, one: Classes, other: Classes) -> bool:
        return _steps_between(one, other) > self.tolerance

    def _leaves_room(self, one: Seen, other: Seen) -> bool:
        if self.contrast is Contrast.ANY:
            return True
        return leaves_room(one.shades, other.shades, self.contrast, self.lots)

    def wash_together(self, one: Seen, other: Seen) -> bool:
        """Whether both felt or neither does, where she asks for that."""
        if self.wash is not Wash.TOGETHER:
            return True
        first, second = one.lot.lot, other.lot.lot
        return felts(first.fibre, first.care) == felts(second.fibre, second.care)

    def would_bleed(self, one: Seen, other: Seen) -> bool:
        """Whether one may bleed into the other, where she will not have that."""
        return self.no_bleeding and (
            bleeds(one.shades, other.shades) or bleeds(other.shades, one.shades)
        )

    def cost(self, lots: Sequence[Seen]) -> int:
        """What the classes cost together, in thousandths: by the widest step between any two."""
        return self.step_cost * widest_step(lots) if self.step_cost else 0


def together(need: Need, wish: Wish) -> Together:
    """The conditions between lots; a class named in the need is what each lot is held against."""
    colours = colours_of(need)
    tied = {c for role, c in zip(need.roles, colours, strict=False) if role.role in wish.fixed}
    step = 0 if need.class_from is not None else round(1000 * wish.weights.class_step)
    return Together(
        wish.contrast_or_any,
        wish.class_tolerance,
        step,
        wash=wish.limits.wash,
        no_bleeding=wish.limits.no_bleeding,
        vision=wish.vision,
        colours=colours,
        alike=frozenset(colours) - tied,
    )


def widest_step(lots: Sequence[Seen]) -> int:
    """The most classes between any two lots; one that is not known counts for nothing."""
    classes = [_classes(seen) for seen in lots]
    pairs = [(x, y) for i, x in enumerate(classes) for y in classes[i + 1 :]]
    return max((_steps_between(x, y) for x, y in pairs), default=0)


#: The lowest and highest class of a lot; None where it is not known.
Classes = tuple[int, int] | None


def _classes(seen: Seen) -> Classes:
    return (seen.thickness.low, seen.thickness.high) if seen.thickness else None


def _steps_between(one: Classes, other: Classes) -> int:
    if one is None or other is None:
        return 0
    return max(0, one[0] - other[1], other[0] - one[1])


def _class_marks(seen: Seen) -> Sequence[Classes]:
    return (_classes(seen),)


def _lightness(wished: Wished, lots: int) -> Trait:
    step, gaps = step_for(wished), gaps_among(wished, lots)
    return Trait(
        f"lightness in steps of {step}",
        lambda seen: lightness_steps(seen.shades, step),
        partial(never_apart, step=step, gaps=gaps),
        of_colour=True,
    )


def _hue_marks(seen: Seen) -> Sequence[int | None]:
    return hue_sectors(seen.shades)


def _felting_marks(seen: Seen) -> Sequence[bool | None]:
    return (felts(seen.lot.lot.fibre, seen.lot.lot.care),)


def _bleeding_marks(seen: Seen) -> Sequence[tuple[bool, bool]]:
    return ((sheds(seen.shades), very_light(seen.shades)),)


def _would_bleed(one: tuple[bool, bool], other: tuple[bool, bool]) -> bool:
    return (one[0] and other[1]) or (other[0] and one[1])
