"""Sizing: from whom a thing is to fit to how large it is when finished."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from stash.errors import Refusal
from stash.measures.length import NO_LENGTH, Length
from stash.requirements.design.shapes import BUILDS, HATS, Shape, size_options
from stash.trade import bodies
from stash.trade.bodies import Person

#: What ease is told in: a share of the girth, or a length; below nothing it is smaller than the
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


@dataclass(frozen=True, slots=True)
class Fit:
    """The finished sides that follow, by the names of their options, and what they were made from.

    Sides that nothing follows for are left out: they are to be given.
    """

    sides: dict[str, Length]
    words: str


def fitted(shape: Shape, whom: Person | Length, ease: Ease | None, brim: Length | None) -> Fit:
    """The size of a shape for somebody, or for a girth as it was measured.

    Its girth is the body's and the ease, the usual one where none is given. A hat's height follows
    from the head and the fold-up brim is added to it; a mitten's from the hand, a sock's foot from
    the foot. Refused where the shape is not worn, or no table knows the measure.
    """
    if not worn(shape):
        words = size_options(BUILDS[shape])
        raise Refusal(f"a {shape} is made to no one's measure: leave --size out and give {words}")
    around, long, words = _measures(shape, whom)
    used = _USUAL_EASE[shape] if ease is None else ease
    sides = {"around": _to_millimetres(_eased(around, used))}
    if shape in HATS:
        sides["tall"] = _to_millimetres(Length(round(around.um * _HAT_TALL))) + (brim or NO_LENGTH)
    if shape is Shape.MITTEN and long:
        sides["tall"] = _to_millimetres(long + _CUFF)
    if shape is Shape.SOCK and long:
        sides["long"] = _to_millimetres(long)
    return Fit(sides, words + _ease_words(used))


def worn(shape: Shape) -> bool:
    """Whether it is made to somebody's measure."""
    return shape in _USUAL_EASE


def kept_as(sides: Mapping[str, Length]) -> str:
    """Sides of a size as one text, in whole micrometres: `around 540000 tall 220000`."""
    return " ".join(f"{name} {side.um}" for name, side in sides.items())


def sides_of(kept: str) -> dict[str, Length]:
    """The sides that `kept_as` was given."""
    words = kept.split()
    return {name: Length(int(um)) for name, um in zip(words[::2], words[1::2], strict=True)}


def _measures(shape: Shape, whom: Person | Length) -> tuple[Length, Length | None, str]:
    """How far round the part of the body is, how long where that matters, and whose it is."""
    part = {Shape.MITTEN: "hand", Shape.SOCK: "foot"}.get(shape, "head")
    if isinstance(whom, Length):
        return whom, None, f"a {part} of {_cm(whom)}"
    if part == "head":
        found: bodies.Measured | None = bodies.head(whom)
        long = None
    else:
        hand = part == "hand"
        found = bodies.grown_up(bodies.HAND_AROUND if hand else bodies.FOOT_AROUND, whom)
        long = bodies.grown_up(bodies.HAND_LONG if hand else bodies.FOOT_LONG, whom)
    if found is None:
        raise Refusal(
            f"no table of children's {'hands' if part == 'hand' else 'feet'} is at hand: measure, "
            f"and give {size_options(BUILDS[shape])}"
        )
    around = Length(round(found.mm * 1000))
    words = f"{person_words(whom)}: {part} {_cm(around)} ({found.source})"
    return around, Length(round(long.mm * 1000)) if long else None, words


def person_words(person: Person) -> str:
    """Somebody in words: a newborn, a child of 4 years, a woman."""
    sexes = {None: 0, bodies.Sex.MALE: 1, bodies.Sex.FEMALE: 2}
    if person.months is None:
        return ("adult", "man", "woman")[sexes[person.sex]]
    who = ("child", "boy", "girl")[sexes[person.sex]]
    if person.months == 0:
        return "newborn" if person.sex is None else f"newborn {who}"
    if person.months < 24 or person.months % 12:
        return f"{who} of {person.months} months"
    return f"{who} of {person.months // 12} years"


def _eased(girth: Length, ease: Ease) -> Length:
    eased = girth + ease if isinstance(ease, Length) else Length(round(girth.um * (1 + ease)))
    if 2 * eased.um < girth.um or eased.um > 2 * girth.um:
        raise Refusal("that much ease makes it half or twice the body: look at --ease again")
    return eased


def _ease_words(ease: Ease) -> str:
    if not ease:
        return ", no ease"
    if isinstance(ease, Length):
        less, much = ease.um < 0, _cm(Length(abs(ease.um)))
    else:
        less, much = ease < 0, f"{abs(float(ease)):.0%}"
    return f", {much} {'smaller, to stretch' if less else 'roomier'}"


def _to_millimetres(length: Length) -> Length:
    return Length(round(length.um / 1000) * 1000)


def _cm(length: Length) -> str:
    return f"{length.m * 100:.1f} cm"
