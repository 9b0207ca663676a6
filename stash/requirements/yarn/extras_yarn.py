"""What pompoms, cords, fringe, flaps, edgings and joined squares take beside the fabric.

It is added to what a role is expected to take by a swatch or by the gauge; a finished item and a
pattern's figure hold it already.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from stash.measures.estimate import Estimate
from stash.measures.note import Note
from stash.requirements.design.bands import MAIN
from stash.requirements.design.design import Design
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.parts import fringed_m, outline_m, shared_sides
from stash.requirements.design.shapes import SEAM_TAKES, Shape
from stash.requirements.yarn.need import ExtraYarn
from stash.requirements.yarn.tails import TAIL_M

#: How far off each is, one standard deviation: an assumption, as each maker winds her own.
EXTRA_SPREAD = 0.30


@dataclass(frozen=True, slots=True)
class Ground:
    """What extras are worked out from: metres in a square metre of the fabric, and in 100 g.

    The first is over all strands, the second of one; None where it is not known.
    """

    per_m2: float | None = None
    m_per_100g: float | None = None


def extras_yarn(design: Design, ground: Ground) -> tuple[ExtraYarn, ...]:
    """All that can be worked out, over all strands; joining first, then as they were typed."""
    typed = (_one(extra, design, ground) for extra in design.extras)
    return (*_joining(design), *(one for one in typed if one is not None))


def with_extras(fabric: Mapping[str, Estimate], extras: Iterable[ExtraYarn]) -> dict[str, Estimate]:
    """What each role takes with its extras; their own spread adds as squares."""
    whole = dict(fabric)
    for one in extras:
        before = whole.get(one.role, Estimate(0.0, 0.0))
        spread_m = math.hypot(before.spread_m, EXTRA_SPREAD * one.expected_m)
        whole[one.role] = Estimate(before.expected_m + one.expected_m, spread_m)
    return dict(sorted(whole.items()))


def _joining(design: Design) -> Iterator[ExtraYarn]:
    if design.shape is Shape.SQUARE and design.made > 1 and design.size:
        seam_m = shared_sides(design.made) * design.size.across.m
        takes = SEAM_TAKES[design.joining] * seam_m * design.strands
        yield ExtraYarn(Note("joined_squares", count=design.made), MAIN, takes)


def _one(extra: Extra, design: Design, ground: Ground) -> ExtraYarn | None:
    length_m = _TAKES[extra.kind](extra, design, ground)
    return None if length_m is None else ExtraYarn(extra, extra.role, length_m)


#: Grams in a cubic centimetre of pompom, clippings included. One maker's ball of 277 yd made eight
#: of 3 3/8 in (weblog, 2019): 0.05 in a medium yarn, with some left over.
_POMPOM_DENSITY = 0.06
#: Its tie is a strand of 24 in (a trade body's instruction).
_TIE_M = 0.6


def _pompom(extra: Extra, design: Design, ground: Ground) -> float | None:
    """A ball of yarn; thinner yarn takes more metres for the same weight."""
    if ground.m_per_100g is None:
        return None
    across_cm = extra.lengths[0].m * 100
    grams = _POMPOM_DENSITY * math.pi / 6 * across_cm**3
    return _count(extra) * (grams * ground.m_per_100g / 100 + _TIE_M)


#: Turns round a card of the tassel's length, and the wrap and cord it hangs on: makers' pages say
#: 25 and 36 turns, and 30 in and two times 10 in.
_TASSEL_TURNS = 30
_TASSEL_TIES_M = 1.3


def _tassel(extra: Extra, design: Design, ground: Ground) -> float:
    return _count(extra) * (_TASSEL_TURNS * 2 * extra.lengths[0].m + _TASSEL_TIES_M)


#: Strands to a metre of edge: three every 2 cm. Each is folded in half, and 3 cm go into its knot.
_FRINGE_PER_M = 150
_FRINGE_KNOT_M = 0.03


def _fringe(extra: Extra, design: Design, ground: Ground) -> float | None:
    strands = extra.count
    if strands is None:
        if design.size is None:
            return None
        strands = round(_FRINGE_PER_M * fringed_m(design))
    return strands * (2 * extra.lengths[0].m + _FRINGE_KNOT_M) * design.strands


#: A cord is twisted of two lengths and comes to a quarter of each (a yarn maker's tutorial).
_CORD_TAKES = 8
#: One maker measured 4.8 to 5.1 in of a medium yarn in an inch of chain.
_CHAIN_TAKES = 5


def _cord(extra: Extra, design: Design, ground: Ground) -> float:
    return _count(extra) * (_CORD_TAKES * extra.lengths[0].m + 2 * TAIL_M) * design.strands


def _chain(extra: Extra, design: Design, ground: Ground) -> float:
    return _count(extra) * (_CHAIN_TAKES * extra.lengths[0].m + 2 * TAIL_M) * design.strands


#: An ear flap narrows in a straight line to a third of its width: two thirds of its rectangle.
_FLAP_SHARE = 2 / 3


def _flap(extra: Extra, design: Design, ground: Ground) -> float | None:
    """By area, in the fabric of the design, and edged like the rest of it."""
    if ground.per_m2 is None:
        return None
    wide, tall = extra.lengths
    area = _FLAP_SHARE * wide.m * tall.m
    return _count(extra) * (area * ground.per_m2 + 2 * TAIL_M * design.strands)


#: One round of single crochet takes eight times its length: its row by the strands of a stitch, at
#: a usual gauge of a medium yarn.
_EDGING_TAKES = 8


def _edging(extra: Extra, design: Design, ground: Ground) -> float | None:
    if design.size is None:
        return None
    return (_count(extra) * _EDGING_TAKES * outline_m(design) + 2 * TAIL_M) * design.strands


def _count(extra: Extra) -> int:
    return 1 if extra.count is None else extra.count


_Takes = Callable[[Extra, Design, Ground], float | None]

_TAKES: dict[Kind, _Takes] = {
    Kind.POMPOM: _pompom,
    Kind.TASSEL: _tassel,
    Kind.FRINGE: _fringe,
    Kind.CORD: _cord,
    Kind.CHAIN: _chain,
    Kind.FLAP: _flap,
    Kind.EDGING: _edging,
}
