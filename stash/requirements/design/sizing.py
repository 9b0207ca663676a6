"""Sizing: from whom a thing is to fit to how large it is when finished."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stash.errors import Refusal
from stash.measures.length import NO_LENGTH, Length
from stash.requirements.design.shapes import BUILDS, HATS, Shape
from stash.trade import bodies
from stash.trade.bodies import Person, Survey

#: How ease is given: a share of the girth, or a length; below nothing it is smaller than the
#: body and stretches.
Ease = Fraction | Length

#: Hats are usually worked 5 to 10 % or an inch or two smaller than the head (three makers' charts
#: compared), socks about a tenth smaller than the foot (common practice, no source).
_USUAL_EASE = {
    **dict.fromkeys((*HATS, Shape.HEADBAND), Fraction(-5, 100)),
    Shape.COWL: Fraction(0),
    Shape.MITTEN: Fraction(0),
    Shape.SOCK: Fraction(-10, 100),
}
#: A hat is two fifths of the head's girth tall: a maker's chart from newborn to grown up keeps to
#: it within 4 mm.
_HAT_TALL = Fraction(2, 5)
#: A mitten is as long as the hand and a cuff (common practice, no source).
_CUFF = Length(70_000)


class BodyPart(StrEnum):
    """What a thing is worn on."""

    HEAD = "head"
    HAND = "hand"
    FOOT = "foot"


_WORN_ON = {Shape.MITTEN: BodyPart.HAND, Shape.SOCK: BodyPart.FOOT}


@dataclass(frozen=True, slots=True)
class MadeToFit:
    """What a size was made from: whose head, hand or foot, how far round it is, and the ease.

    Without a person it was measured; else `surveys` and `other_mm` are as in `bodies.Measured`.
    """

    part: BodyPart
    around: Length
    ease: Ease
    person: Person | None = None
    surveys: tuple[Survey, ...] = ()
    other_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Fit:
    """The finished sides that follow, by the names of their options, and what they were made from.

    Sides that nothing follows for are left out: they are to be given. A size of her own chart is
    only known by its name.
    """

    sides: dict[str, Length]
    made_from: MadeToFit | str


def fitted(shape: Shape, whom: Person | Length, ease: Ease | None, brim: Length | None) -> Fit:
    """The size of a shape for somebody, or for a girth as it was measured.

    Its girth is the body's and the ease, the usual one where none is given. A hat's height follows
    from the head and the fold-up brim is added to it; a mitten's from the hand, a sock's foot from
    the foot. Refused where the shape is not worn, or no table knows the measure.
    """
    if not worn(shape):
        raise Refusal("made_to_no_measure", shape=shape, sides=BUILDS[shape].words)
    made_from, long = _measures(shape, whom, _USUAL_EASE[shape] if ease is None else ease)
    girth = made_from.around
    sides = {"around": _to_millimetres(_eased(girth, made_from.ease))}
    if shape in HATS:
        sides["tall"] = _to_millimetres(Length(round(girth.um * _HAT_TALL))) + (brim or NO_LENGTH)
    if shape is Shape.MITTEN and long:
        sides["tall"] = _to_millimetres(long + _CUFF)
    if shape is Shape.SOCK and long:
        sides["long"] = _to_millimetres(long)
    return Fit(sides, made_from)


def worn(shape: Shape) -> bool:
    """Whether it is made to somebody's measure."""
    return shape in _USUAL_EASE


def worn_on(shape: Shape) -> BodyPart:
    """The part of the body that it is made to fit."""
    return _WORN_ON.get(shape, BodyPart.HEAD)


def kept_as(sides: Mapping[str, Length]) -> str:
    """Sides of a size as one text, in whole micrometres: `around 540000 tall 220000`."""
    return " ".join(f"{name} {side.um}" for name, side in sides.items())


def sides_of(kept: str) -> dict[str, Length]:
    """The sides that `kept_as` was given."""
    words = kept.split()
    return {name: Length(int(um)) for name, um in zip(words[::2], words[1::2], strict=True)}


def _measures(shape: Shape, whom: Person | Length, ease: Ease) -> tuple[MadeToFit, Length | None]:
    """How far round the part of the body is, and how long where that matters."""
    part = worn_on(shape)
    if isinstance(whom, Length):
        return MadeToFit(part, whom, ease), None
    around, long = _TABLES[part]
    girth = bodies.head(whom) if around is None else bodies.grown_up(around, whom)
    length = None if long is None else bodies.grown_up(long, whom)
    if girth is None:
        raise Refusal("no_table_of_children", part=part, sides=BUILDS[shape].words)
    return (
        MadeToFit(part, _of_mm(girth.mm), ease, whom, girth.surveys, girth.other_mm),
        _of_mm(length.mm) if length else None,
    )


#: How far round and how long; a head has tables by age.
_TABLES: Mapping[BodyPart, tuple[tuple[float, float] | None, tuple[float, float] | None]] = {
    BodyPart.HEAD: (None, None),
    BodyPart.HAND: (bodies.HAND_AROUND, bodies.HAND_LONG),
    BodyPart.FOOT: (bodies.FOOT_AROUND, bodies.FOOT_LONG),
}


def _of_mm(mm: float) -> Length:
    return Length(round(mm * 1000))


def _eased(girth: Length, ease: Ease) -> Length:
    eased = girth + ease if isinstance(ease, Length) else Length(round(girth.um * (1 + ease)))
    if 2 * eased.um < girth.um or eased.um > 2 * girth.um:
        raise Refusal("too_much_ease", ease=ease)
    return eased


def _to_millimetres(length: Length) -> Length:
    return Length(round(length.um / 1000) * 1000)
