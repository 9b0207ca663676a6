"""How far the length of what lies on the shelf may be off, reason by reason.

The books hold grams; a length is inferred, and each step of that adds a contribution: one standard
deviation, as a share of the length. Half of what a rule tolerates is taken as one deviation. Her
own weighings replace what the band only claims.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.yarn import FullFrom, Lot
from stash.trade.regain import RegainSet, at_dampness, blend_regain, shares_of
from stash.trade.tolerance import tolerable_length_shortfall, tolerable_shortfall

#: A reading to the nearest step is off by step/sqrt(12): an even spread over one step.
_EVEN = 1 / math.sqrt(12)
#: A core, bowl or bag that nobody weighed; 0.5 to 2 g are met (common practice, no source).
UNKNOWN_TARE = grams(1)
#: A length said to be "about", and a part of a ball judged by eye (our choice).
ABOUT_LENGTH, ABOUT_LEFT = 0.05, 0.10
#: A length laid along a tape without stretching it (our choice).
TAPE = 0.01
#: A length that rests on the class alone: class 4 runs from 130 to 200 m to 100 g.
CLASS_ALONE = 0.15


class Why(StrEnum):
    """What leaves a length open."""

    BAND_LENGTH = "band_length"
    FULL_BALL = "full_ball"
    SCALE = "scale"
    TARE = "tare"
    MOISTURE = "moisture"
    ABOUT = "about"
    METRE = "metre"
    THICKNESS = "thickness"


#: What is wrong the same way for every skein of a lot, so that it does not average out.
SHARED = frozenset({Why.MOISTURE, Why.THICKNESS})


@dataclass(frozen=True, slots=True)
class Contribution:
    """One reason, how much it leaves open as a share of the length, and what that rests on."""

    why: Why
    share: float
    because: Note


@dataclass(frozen=True, slots=True)
class Scale:
    """Her scale and the room it is in.

    `step` is the smallest step it shows; `damp` the relative humidity of the room, from and to, as
    shares; `rules` says whose agreed moisture to reckon with.
    """

    step: Mass = grams(1)
    damp: tuple[float, float] = (0.35, 0.65)
    rules: RegainSet = RegainSet.EU


#: What is taken until she says otherwise: a kitchen scale in a lived-in room.
USUAL_SCALE = Scale()


def contributions(
    skein: HeldSkein, lot: Lot, scale: Scale, by_thickness: PutUp | None = None
) -> tuple[Contribution, ...]:
    """Why the length of a skein is not certain, each reason with its share; none without a length.

    A whole skein is as long as its band says, whatever it weighs. A part ball is measured by its
    grams: the full ball may have weighed something else than its band says (until it was weighed),
    the scale has a step, a core may have been on it, and yarn takes up moisture. `by_thickness` is
    the     put-up a skein without a pair is reckoned with, if she asked for that.
    """
    if skein.pair.put_up is None:
        return () if by_thickness is None else (_by_thickness(by_thickness),)
    found = _whole(skein, lot, scale) if not skein.opened else _part(skein, lot, scale)
    return tuple(found)


def relative_spread(found: Iterable[Contribution]) -> float:
    """One standard deviation of a length, as a share of it: the contributions add as squares."""
    return math.hypot(*(one.share for one in found))


def together_m(lengths: Iterable[tuple[float, Iterable[Contribution]]]) -> float:
    """The spread in metres of some lengths of one lot together.

    Skeins vary each by itself, so their spreads add as squares; what is wrong the same way for all
    of them adds up as it is.
    """
    alone = 0.0
    shared: dict[Why, float] = defaultdict(float)
    for length_m, found in lengths:
        for one in found:
            if one.why in SHARED:
                shared[one.why] += length_m * one.share
            else:
                alone = math.hypot(alone, length_m * one.share)
    return math.hypot(alone, *shared.values())


def spread_m(skeins: Iterable[HeldSkein], lot: Lot, scale: Scale) -> float | None:
    """The spread of what a lot's skeins hold together, in metres; None where no length is known."""
    known = [
        (skein.held_length.m, contributions(skein, lot, scale))
        for skein in skeins
        if skein.held_length is not None
    ]
    return together_m(known) if known else None


def _by_thickness(put_up: PutUp) -> Contribution:
    because = Note("usual_for_thickness", m_per_100g=put_up.m_per_100g)
    return Contribution(Why.THICKNESS, CLASS_ALONE, because)


def _whole(skein: HeldSkein, lot: Lot, scale: Scale) -> Iterator[Contribution]:
    if not skein.by_metre:
        yield from _length_of_pair(skein)
        return
    yield _metre(skein.pair.put_up, scale)
    if skein.held == lot.full_mass:  # as its band says: it was never on the scale
        yield from _full_ball(lot.full_mass)
    else:
        yield from _on_the_scale(skein, lot, scale)


def _part(skein: HeldSkein, lot: Lot, scale: Scale) -> Iterator[Contribution]:
    if skein.by_metre:
        yield _metre(skein.pair.put_up, scale)
    else:
        yield from _length_of_pair(skein)
        if skein.pair.origin is FullFrom.BAND and skein.pair.put_up:
            yield from _full_ball(skein.pair.put_up.mass)
    if skein.about and skein.arrived_opened:
        yield Contribution(Why.ABOUT, ABOUT_LEFT, Note("left_judged_by_eye"))
    yield from _on_the_scale(skein, lot, scale)


def _length_of_pair(skein: HeldSkein) -> Iterator[Contribution]:
    put_up = skein.pair.put_up
    if put_up is None:
        return
    short = tolerable_length_shortfall(put_up.length)
    because = Note("lawfully_shorter", full=put_up.length, short=short)
    yield Contribution(Why.BAND_LENGTH, short.um / put_up.length.um / 2, because)
    if skein.about and not skein.arrived_opened:
        yield Contribution(Why.ABOUT, ABOUT_LENGTH, Note("length_about_right"))


def _full_ball(full: Mass | None) -> Iterator[Contribution]:
    if full is None:
        return
    short = tolerable_shortfall(full)
    because = Note("lawfully_lighter", full=full, short=short)
    yield Contribution(Why.FULL_BALL, short.mg / full.mg / 2, because)


def _metre(put_up: PutUp | None, scale: Scale) -> Contribution:
    """A length she weighed herself: the step it was read to, and the tape it was laid along."""
    if put_up is None:  # pragma: no cover - a pair of her own is a whole one
        raise ValueError("no pair")
    step = min(_read_to(put_up.mass), scale.step)
    share = math.hypot(TAPE, _EVEN * step.mg / put_up.mass.mg)
    because = Note(
        "length_weighed", length=put_up.length, mass=put_up.mass, read_to=step, tape=TAPE
    )
    return Contribution(Why.METRE, share, because)


def _read_to(mass: Mass) -> Mass:
    """The decimal step that a weight in grams was read to: 4.31 g to a hundredth of a gram."""
    step = 1
    while mass.mg % (10 * step) == 0:
        step *= 10
    return Mass(step)


def _on_the_scale(skein: HeldSkein, lot: Lot, scale: Scale) -> Iterator[Contribution]:
    if not skein.held or not skein.mass_known:
        return
    share = _EVEN * scale.step.mg / skein.held.mg
    yield Contribution(Why.SCALE, share, Note("scale_step", step=scale.step))
    if skein.tare_open:
        because = Note("tare_not_weighed", about=UNKNOWN_TARE)
        yield Contribution(Why.TARE, UNKNOWN_TARE.mg / skein.held.mg, because)
    yield from _moisture(lot.fibre, scale)


@lru_cache(maxsize=1024)
def _moisture(fibre: str, scale: Scale) -> tuple[Contribution, ...]:
    """What the room does to the weight: an even spread between its driest and its dampest."""
    regain = blend_regain(shares_of(fibre), scale.rules)
    if not regain:
        return ()
    dry, damp = (at_dampness(regain, humidity) for humidity in scale.damp)
    share = _EVEN * (damp - dry) / (100 + (dry + damp) / 2)
    because = Note(
        "moisture_of_room",
        dry=dry,
        damp=damp,
        humidity=scale.damp,
        agreed=regain,
        rules=scale.rules,
    )
    return (Contribution(Why.MOISTURE, share, because),)
