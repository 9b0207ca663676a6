"""What each source says a piece takes, role by role: own articles, swatch, stated figure, model."""

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
from stash.requirements.design.evidence import GRAM, OwnArticle, Swatch
from stash.requirements.design.fabric import PLAIN, Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.layout import Layout, laid_out, laid_out_finely
from stash.requirements.design.piece import Piece
from stash.requirements.design.stitches import CHAIN, Craft, diameter_m, tex
from stash.requirements.design.thickness_defaults import in_fabric
from stash.requirements.yarn.extras_yarn import Ground, extras_yarn, with_extras
from stash.requirements.yarn.learning import WITHIN_MAKER, Observed, next_article
from stash.requirements.yarn.model import summed, worked_by_role
from stash.requirements.yarn.printed import printed
from stash.requirements.yarn.tails import finishing

#: What one source says: an estimate for each role it knows.
Said = Mapping[str, Estimate]

#: How far a colour's part of an article may be off where only the whole was weighed, for a colour
#: that is small (an assumption; of a colour that is nearly all of it little can be off).
SHARE_SPREAD = 0.10

#: A reading to the nearest step is off by step/sqrt(12); a difference of two by sqrt(2) times that.
_DIFFERENCE_OF_TWO = math.sqrt(2 / 12)
#: A side measured to the nearest sixteenth of an inch, taken as one standard deviation.
_SIDE = inches(1).m / 16
#: Metres per gram of one ball against its band: balls run +-6 %, taken as two standard deviations.
_BAND_PAIR = 0.03
#: The same by class alone: class 4 runs from 130 to 200 m per 100 g, an even spread of 12 %.
_CLASS_PAIR = 0.12


def from_stated(piece: Piece) -> Said:
    """A pattern's figures: a length is taken as what is expected, whole skeins as an interval."""
    skeins = dict(piece.bought)
    return {role: printed(length, skeins.get(role)) for role, length in sorted(piece.stated)}


def from_swatch(piece: Piece, swatch: Swatch) -> Said:
    """The swatch's yarn enlarged by area, and what goes round the fabric.

    The relative spreads of the weighing, the two sides and the metres per gram add as squares
    (error of a product), with what an article differs from its swatch.
    """
    relative = math.hypot(
        _DIFFERENCE_OF_TWO * swatch.step.mg / swatch.mass.mg,
        _SIDE / swatch.wide.m,
        _SIDE / swatch.tall.m,
        _pair_spread(piece),
        WITHIN_MAKER,
    )
    per_m2 = per_square_metre(piece, swatch)
    layout = (
        laid_out(piece, in_fabric(piece.fabric or PLAIN, piece.gauge), piece.fabric or PLAIN)
        if piece.gauge
        else laid_out_finely(piece)
    )
    around = summed(finishing(piece, layout))
    expected = {
        role: per_m2 * area + piece.strands * around[role]
        for role, area in swatched_areas(piece, layout, swatch).items()
    }
    fabric = {role: Estimate(m, relative * m) for role, m in expected.items()}
    return with_extras(fabric, extras_yarn(piece, Ground(per_m2, piece.m_per_100g)))


def swatched_areas(piece: Piece, layout: Layout, swatch: Swatch) -> Mapping[str, float]:
    """How much of the swatch's fabric the yarn of each role would make, in square metres.

    With fabric, gauge and thickness known the model only says how the yarn is shared: a tall row
    takes more than a low one, and a small swatch has more edge than a piece. How much yarn that
    is, the swatch says. Otherwise the plain areas.
    """
    if not (piece.fabric and piece.gauge and piece.m_per_100g):
        return layout.area_m2
    diameter = diameter_m(tex(piece.m_per_100g, piece.strands))
    per_m2 = _patch_m(piece.fabric, layout.gauge, swatch, diameter) / (
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


def per_square_metre(piece: Piece, swatch: Swatch) -> float:
    """How many metres the swatch has in a square metre."""
    return _metres(piece, swatch.mass) / (swatch.wide.m * swatch.tall.m)


def weighed_article(piece: Piece) -> OwnArticle | None:
    """The article whose colours were weighed, in metres; None where there is none."""
    if not piece.weighed:
        return None
    return OwnArticle(
        by_role=tuple((role, _metres(piece, mass)) for role, mass in piece.weighed),
        scale_m=_DIFFERENCE_OF_TWO * _metres(piece, GRAM),
        pair_spread=0.0 if piece.put_up else _CLASS_PAIR,
    )


def from_own(piece: Piece, articles: Sequence[OwnArticle], next_best: Said) -> Said:
    """What the next article takes, by those that were finished.

    They are drawn a little toward the next best source, as `learning.next_article` explains. An
    article whose colours were not told apart is shared out by those that were, else by the next
    best source; then its parts are less sure than the whole.
    """
    shares = _shares(piece, articles, next_best)
    told_apart = any(article.by_role for article in articles)
    pair = max(article.pair_spread for article in articles)
    seen: dict[str, list[Observed]] = defaultdict(list)
    for article in articles:
        for role, one in _split(article, shares):
            seen[role].append(one)
    said = {}
    for role in sorted(seen):
        unsure = 0.0 if told_apart else SHARE_SPREAD * (1 - shares[role])
        said[role] = next_article(next_best.get(role), seen[role], math.hypot(pair, unsure))
    return said


def _split(article: OwnArticle, shares: Mapping[str, float]) -> Iterator[tuple[str, Observed]]:
    """What an article says of each role."""
    if article.by_role:
        for role, length_m in article.by_role:
            yield role, Observed(length_m, article.scale_m / length_m)
        return
    total = article.total_m or 0.0
    for role, share in shares.items():
        yield role, Observed(total * share, article.scale_m / total)


def _shares(piece: Piece, articles: Sequence[OwnArticle], next_best: Said) -> dict[str, float]:
    """How a total is split over the roles; all of it is A where there are no bands."""
    told_apart = summed(part for article in articles for part in article.by_role)
    lengths = told_apart or {role: said.expected_m for role, said in next_best.items()}
    if not lengths and (piece.bands or piece.stripes):
        raise Refusal("shares_not_known")
    whole = math.fsum(lengths.values())
    return {role: length_m / whole for role, length_m in lengths.items()} if whole else {MAIN: 1.0}


def _metres(piece: Piece, mass: Mass) -> float:
    if piece.m_per_100g is None:
        raise Refusal("mass_not_in_metres", mass=mass)
    return mass.g * piece.m_per_100g / 100


def _pair_spread(piece: Piece) -> float:
    return _BAND_PAIR if piece.put_up else _CLASS_PAIR
