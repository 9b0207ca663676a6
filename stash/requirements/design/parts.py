"""What each shape is made of: one profile or several, the body of the design first.

Hats, bands, panels, triangles and circles are plain geometry. Mittens and socks are sums of simple
shapes, which is our own geometry: a mitten is a tube with a cap and a thumb set into it without a
gusset; a sock is one tube from cuff to toe, closed by a cap, with another cap set in for the heel.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import hypot, isqrt

from stash.errors import Refusal
from stash.measures.length import Length
from stash.requirements.design.design import Design
from stash.requirements.design.profile import Profile, Slope
from stash.requirements.design.shapes import CROWN_LOSS, Crown, Shape, Start

#: A circle's round is 2 pi times as long as it is far out; a square's, 8 times.
TWO_PI = Fraction(710, 113)
_SQUARE = Fraction(8)

#: Toe, heel and tip narrow to a third of the girth, four stitches every second round (common
#: practice, no source): two stitches a round, at 1.3 rows to a stitch's width 8/3 of the height.
CAP = Slope(edge=Fraction(1, 3), rate=Fraction(8, 3))
#: The heel takes a fifth of the foot; a thumb is two fifths of the hand around and three tenths of
#: it tall (our own geometry: 8 cm by 6 cm on a hand of 20 cm).
_HEEL_OF_FOOT = Fraction(1, 5)
_THUMB_AROUND, _THUMB_TALL = Fraction(2, 5), Fraction(3, 10)


def profiles(design: Design) -> tuple[Profile, ...]:
    """The parts of one of it: the body, where bands are placed, then what is set into it."""
    shape = design.shape
    return _SHAPES.get(shape, _panel)(design) if shape else _panel(design)


def centred(design: Design) -> bool:
    """Whether its rows are rounds about a centre, which is then its bottom and its rim the top."""
    return design.beginning is Start.CENTRE


def outline_m(design: Design) -> float:
    """How long the open edge is that an edging goes along, in metres, all of the item."""
    size = design.needed_size
    across, up = size.across.m, size.up.m
    if design.shape is Shape.SQUARE:
        return across * (4 * design.made - 2 * shared_sides(design.made))
    one = {
        Shape.SCARF: 2 * (across + up),
        Shape.BLANKET: 2 * (across + up),
        Shape.TRIANGLE: across + _two_sides_m(across, up),
        Shape.CIRCLE: float(TWO_PI) * across / 2,
        Shape.HEADBAND: 2 * across,
        Shape.COWL: 2 * across,
    }
    return one.get(design.shape, across) * design.made if design.shape else across


def fringed_m(design: Design) -> float:
    """How long the edge is that a fringe hangs from: both ends of a scarf, two sides of a shawl."""
    size = design.needed_size
    if design.shape in (Shape.SCARF, Shape.BLANKET):
        return 2 * size.across.m
    if design.shape is Shape.TRIANGLE:
        return _two_sides_m(size.across.m, size.up.m)
    return outline_m(design)


def shared_sides(squares: int) -> int:
    """How many sides so many squares share, laid as closely as can be: 2n - ceil(2 sqrt n).

    Harary and Harborth, Extremal animals, 1976 (from memory); a full rectangle near a square.
    """
    return 2 * squares - (isqrt(4 * squares - 1) + 1)


def _two_sides_m(across: float, up: float) -> float:
    return 2 * hypot(across / 2, up)


def _times(length: Length, share: Fraction) -> Length:
    return Length(round(length.um * share))


def _panel(design: Design) -> tuple[Profile, ...]:
    size = design.needed_size
    if design.build.sideways:
        return (Profile("body", size.up, size.across),)
    return (Profile("body", size.across, size.up),)


def _hat(design: Design) -> tuple[Profile, ...]:
    """Closing in a straight line over the last 2k x girth of height takes k x girth squared off."""
    size = design.needed_size
    loss = CROWN_LOSS[design.closing or Crown.GATHERED]
    if not loss:
        return _panel(design)
    if 2 * loss * size.across.um > size.up.um:
        least_um = 2 * loss * size.across.um
        raise Refusal("too_low_for_crown", crown=design.closing, least_um=least_um)
    return (Profile("body", size.across, size.up, closes=Slope(rate=1 / (2 * loss))),)


def _square(design: Design) -> tuple[Profile, ...]:
    side = design.needed_size.across
    if not centred(design):
        return _panel(design)
    return (Profile("body", side * 4, _times(side, Fraction(1, 2)), opens=Slope(rate=_SQUARE)),)


def _circle(design: Design) -> tuple[Profile, ...]:
    half = _times(design.needed_size.across, Fraction(1, 2))
    return (Profile("body", _times(half, TWO_PI), half, opens=Slope(rate=TWO_PI)),)


def _triangle(design: Design) -> tuple[Profile, ...]:
    size = design.needed_size
    return (Profile("body", size.across, size.up, opens=Slope()),)


def _mitten(design: Design) -> tuple[Profile, ...]:
    size = design.needed_size
    around, tall = _times(size.across, _THUMB_AROUND), _times(size.across, _THUMB_TALL)
    return Profile("body", size.across, size.up, closes=CAP), Profile("thumb", around, tall)


def _sock(design: Design) -> tuple[Profile, ...]:
    size = design.needed_size
    foot = size.along or size.up
    heel = _times(foot, _HEEL_OF_FOOT)
    return (
        Profile("body", size.across, size.up + foot - heel, closes=CAP),
        Profile("heel", size.across, heel, closes=CAP),
    )


_SHAPES: dict[Shape, Callable[[Design], tuple[Profile, ...]]] = {
    Shape.ROUND_HAT: _hat,
    Shape.FLAT_HAT: _hat,
    Shape.SQUARE: _square,
    Shape.CIRCLE: _circle,
    Shape.TRIANGLE: _triangle,
    Shape.MITTEN: _mitten,
    Shape.SOCK: _sock,
}
