"""What each source says a design takes, role by role: own items, swatch, stated figure, model."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from statistics import fmean

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.length import inches
from stash.measures.mass import Mass
from stash.requirements.design.bands import MAIN
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import GRAM, OwnItem, Swatch
from stash.requirements.design.fabric import PLAIN, Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout, laid_out, laid_out_finely
from stash.requirements.design.stitches import CHAIN, Craft, diameter_m, tex
from stash.requirements.design.thickness_defaults import in_fabric
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn, with_extras
from stash.requirements.yarn.learning import WITHIN_MAKER, Observed, next_item
from stash.requirements.yarn.model import summed, worked_by_role
from stash.requirements.yarn.printed import printed
from stash.requirements.yarn.tails import finishing

#: What one source says: an estimate for each role it knows.
Said = Mapping[str, Estimate]

#: How far a colour's part of an item may be off where only the whole was weighed, for a colour
#: that is small (an assumption; of a colour that is nearly all of it little can be off).
SHARE_SPREAD = 0.10

#: A reading to the nearest step is off by step/sqrt(12); a difference of two by sqrt(2) times that.
_DIFFERENCE_OF_TWO = math.sqrt(2 / 12)
#: A side measured to the nearest sixteenth of an inch, taken as one standard deviation.
_SIDE = inches(1).m / 16
#: Metres per gram of one ball against its band: balls run +-6 %, taken as two standard deviations.
_BAND_PAIR = 0.03
#: The same by class alone: class 4 runs from 130 to 200 m per 100 g, an even spread of 12 %.
_THICKNESS_PAIR = 0.12


def from_stated(design: Design) -> Said:
    """A pattern's figures: a length is taken as what is expected, whole skeins as an interval."""
    skeins = dict(design.bought)
    return {role: printed(length, skeins.get(role)) for role, length in sorted(design.stated)}


def from_swatch(design: Design, swatch: Swatch) -> Said:
    """The swatch's yarn enlarged by area, and what goes round the fabric.

    The relative spreads of the weighing, the two sides and the metres per gram add as squares
    (error of a product), with what an item differs from its swatch.
    """
    relative = math.hypot(
        _DIFFERENCE_OF_TWO * swatch.step.mg / swatch.mass.mg,
        _SIDE / swatch.wide.m,
        _SIDE / swatch.tall.m,
        _pair_spread(design),
        WITHIN_MAKER,
    )
    per_m2 = per_square_metre(design, swatch)
    layout = (
        laid_out(design, in_fabric(design.fabric or PLAIN, design.gauge), design.fabric or PLAIN)
        if design.gauge
        else laid_out_finely(design)
    )
    around = summed(finishing(design, layout))
    expected = {
        role: per_m2 * area + design.strands * around[role]
        for role, area in swatched_areas(design, layout, swatch).items()
    }
    fabric = {role: Estimate(m, relative * m) for role, m in expected.items()}
    return with_extras(fabric, extras_yarn(design, Ground(per_m2, design.m_per_100g)))


def swatched_areas(design: Design, layout: Layout, swatch: Swatch) -> Mapping[str, float]:
    """How much of the swatch's fabric the yarn of each role would make, in square metres.

    With fabric, gauge and thickness known the model only says how the yarn is shared: a tall row
    takes more than a low one, and a small swatch has more edge than a design. How much yarn that
    is, the swatch says. Otherwise the plain areas.
    """
    if not (design.fabric and design.gauge and design.m_per_100g):
        return layout.area_m2
    diameter = diameter_m(tex(design.m_per_100g, design.strands))
    per_m2 = _patch_m(design.fabric, layout.gauge, swatch, diameter) / (
        swatch.wide.m * swatch.tall.m
    )
    worked = worked_by_role(layout, diameter)
    return {role: worked[role] / per_m2 for role in layout.roles}


def _patch_m(fabric: Fabric, gauge: Gauge, swatch: Swatch, diameter: float) -> float:
    """What the model gives for the swatch itself, its edges included."""
    stitches, rows = swatch.wide.m / gauge.stitch_m, swatch.tall.m / gauge.row_m
    each = fmean(row.yarn_m(gauge, diameter) for row in fabric.rows)
    if fabric.craft is Craft.KNIT:
        edge = fmean(stitch.yarn_m(gauge, diameter) for stitch in fabric.stitches)
        return stitches * (rows * each + 2 * edge)
    chains = stitches + rows * fmean(stitch.turning for stitch in fabric.stitches)
    return stitches * rows * each + chains * CHAIN.yarn_m(gauge, diameter)


def per_square_metre(design: Design, swatch: Swatch) -> float:
    """How many metres the swatch has in a square metre."""
    return _metres(design, swatch.mass) / (swatch.wide.m * swatch.tall.m)


def weighed_item(design: Design) -> OwnItem | None:
    """The item whose colours were weighed, in metres; None where there is none."""
    if not design.weighed:
        return None
    return OwnItem(
        by_role=tuple((role, _metres(design, mass)) for role, mass in design.weighed),
        scale_m=_DIFFERENCE_OF_TWO * _metres(design, GRAM),
        pair_spread=0.0 if design.put_up else _THICKNESS_PAIR,
    )


def from_own(design: Design, items: Sequence[OwnItem], next_best: Said) -> Said:
    """What the next item takes, by those that were finished.

    They are drawn a little toward the next best source, as `learning.next_item` explains. An
    item whose colours were not told apart is shared out by those that were, else by the next
    best source; then its parts are less sure than the whole.
    """
    shares = _shares(design, items, next_best)
    told_apart = any(item.by_role for item in items)
    pair = max(item.pair_spread for item in items)
    seen: dict[str, list[Observed]] = defaultdict(list)
    for item in items:
        for role, one in _split(item, shares):
            seen[role].append(one)
    said = {}
    for role in sorted(seen):
        unsure = 0.0 if told_apart else SHARE_SPREAD * (1 - shares[role])
        said[role] = next_item(next_best.get(role), seen[role], math.hypot(pair, unsure))
    return said


def _split(item: OwnItem, shares: Mapping[str, float]) -> Iterator[tuple[str, Observed]]:
    """What an item says of each role."""
    if item.by_role:
        for role, length_m in item.by_role:
            yield role, Observed(length_m, item.scale_m / length_m)
        return
    total = item.total_m or 0.0
    for role, share in shares.items():
        yield role, Observed(total * share, item.scale_m / total)


def _shares(design: Design, items: Sequence[OwnItem], next_best: Said) -> dict[str, float]:
    """How a total is split over the roles; all of it is A where there are no bands."""
    told_apart = summed(part for item in items for part in item.by_role)
    lengths = told_apart or {role: said.expected_m for role, said in next_best.items()}
    if not lengths and (design.bands or design.stripes):
        raise Refusal("shares_not_known")
    whole = math.fsum(lengths.values())
    return {role: length_m / whole for role, length_m in lengths.items()} if whole else {MAIN: 1.0}


def _metres(design: Design, mass: Mass) -> float:
    if design.m_per_100g is None:
        raise Refusal("mass_not_in_metres", mass=mass)
    return mass.g * design.m_per_100g / 100


def _pair_spread(design: Design) -> float:
    return _BAND_PAIR if design.put_up else _THICKNESS_PAIR
