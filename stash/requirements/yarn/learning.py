"""What finished, weighed items teach about the next one.

Everything is reckoned in logarithms, so that a third more and a third less weigh alike. An item
took so many times what was foreseen; that ratio has four parts, each with a spread of its own:

    her hands over all  +  this stitch and class  +  this design  +  this very item

The first two carry over to other designs, the third to the next item of the same design, the last
to nothing. At each level the estimate is drawn toward the one above it by as much as it is less
sure (normal prior, normal evidence: precisions add). One item says little about her hands and
nearly all about its own design.

An item far from the rest has probably been mis-weighed. It counts fully within one spread of
the middle and ever less beyond (the weights of Student's t with 4 degrees of freedom), so that one
of five that is off by half hardly moves the estimate.

Normal and shrinking: a textbook of hierarchical models has the formulas (normal-normal, nested);
the weights are those of its scale mixture.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from statistics import median

from stash.measures.estimate import Estimate

#: One maker's items of one design differ by about so much. No study was found: an assumption
#: worth four items, which the maker's own log replaces as it grows.
WITHIN_MAKER = 0.04
_PRIOR_WORTH = 4
#: Makers at one needle differ in the yarn they take by 7.1 % (seven yarns, five to seven knitters
#: each, sd from the published extremes).
HANDS = 0.071
#: Two designs in one stitch and class differ in how well the model fits by so much (an assumption:
#: their edges, shaping and seams are what it knows least).
BETWEEN_DESIGNS = 0.06
#: However sure a model is said to be, its stitch may be off by so much (an assumption).
_LEAST_GROUP = 0.05

_FREEDOM = 4
#: Weights and middle are worked out in turn until they settle.
_ROUNDS, _SETTLED = 200, 1e-10


@dataclass(frozen=True, slots=True, order=True)
class Normal:
    """A logarithm that is known with a spread: its middle and its variance."""

    mean: float
    variance: float


#: Nothing learned yet: what the model says, and that her hands may differ from the next maker's.
UNKNOWN_HANDS = Normal(0.0, HANDS**2)


def centre(seen: Iterable[Normal]) -> Normal:
    """The middle of several of the same thing, those far out counting less.

    The order in which they come does not matter.
    """
    ordered = sorted(seen)
    middle = median(one.mean for one in ordered)
    for _ in range(_ROUNDS):
        before, middle = middle, _weighed(ordered, middle).mean
        if abs(middle - before) < _SETTLED:
            break
    return _weighed(ordered, middle)


def _weighed(seen: Sequence[Normal], middle: float) -> Normal:
    """The mean, each counting by its weight as seen from a middle."""
    shares = [_weight(one, middle) / one.variance for one in seen]
    total = math.fsum(shares)
    mean = math.fsum(s * one.mean for s, one in zip(shares, seen, strict=True)) / total
    return Normal(mean, 1 / total)


def _weight(one: Normal, middle: float) -> float:
    """1 within one spread of the middle, less and less beyond."""
    square = (one.mean - middle) ** 2 / one.variance
    return min(1.0, (_FREEDOM + 1) / (_FREEDOM + square))


def _together(one: Normal, other: Normal) -> Normal:
    """Two of the same thing: precisions add."""
    variance = 1 / (1 / one.variance + 1 / other.variance)
    mean = variance * (one.mean / one.variance + other.mean / other.variance)
    return Normal(mean, variance)


def doubted(trusted: Normal, other: Normal) -> Normal:
    """One drawn toward another that may be a mistake: far from the trusted one it counts less."""
    apart = Normal(other.mean, trusted.variance + other.variance)
    return _together(trusted, Normal(other.mean, other.variance / _weight(apart, trusted.mean)))


@dataclass(frozen=True, slots=True)
class Observed:
    """What an item took, in metres, and how far off that may be, as a share of it."""

    length_m: float
    noise: float = 0.0


def items(seen: Sequence[Observed]) -> tuple[Normal, float]:
    """The middle of one design's items, and the variance from one item to the next.

    That variance begins at the usual one and follows how these items differ.
    """
    made = sorted((math.log(one.length_m), one.noise**2) for one in seen)
    middle, within = median(mean for mean, _ in made), WITHIN_MAKER**2
    for _ in range(_ROUNDS):
        logs = [Normal(mean, within + noise) for mean, noise in made]
        found = _weighed(logs, middle)
        scatter = math.fsum(
            _weight(one, found.mean) * (one.mean - found.mean) ** 2 * within / one.variance
            for one in logs
        )
        before, middle = (middle, within), found.mean
        within = (_PRIOR_WORTH * WITHIN_MAKER**2 + scatter) / (_PRIOR_WORTH + len(made) - 1)
        if abs(middle - before[0]) + abs(within - before[1]) < _SETTLED:
            break
    return found, within


def next_item(prior: Estimate | None, seen: Sequence[Observed], common: float = 0.0) -> Estimate:
    """What one more item takes: those made, drawn toward the figure of the next rank.

    Her own items are trusted: a figure that contradicts them counts less the farther it is.
    The spread is that of a further item: how far the middle is unsure, and how far one item
    differs from the next. `common` is what is off in all of them alike, as a share. With a prior
    of 20 % one item comes to 5.6 %, five that agree to 4 %.
    """
    middle, within = items(seen)
    if prior is not None and prior.expected_m > 0 and prior.relative > 0:
        middle = doubted(middle, Normal(math.log(prior.expected_m), prior.relative**2))
    expected_m = math.exp(middle.mean)
    return Estimate(expected_m, expected_m * math.sqrt(middle.variance + within + common**2))


@dataclass(frozen=True, slots=True, order=True)
class Outcome:
    """What the items of one design came to, against the model at the size they had.

    `stitch`: the stitches and the thickness class they were made in. `ratio`: log of what they
    took over what the model says. `count` items.
    """

    stitch: tuple[str, ...]
    ratio: Normal
    count: int


@dataclass(frozen=True, slots=True)
class Lesson:
    """What her other items say of a stitch: the log ratio, and how many there are behind it.

    `alike` items were in this stitch and class, `others` in any other.
    """

    ratio: Normal
    alike: int
    others: int


@dataclass(frozen=True, slots=True)
class Hands:
    """How the maker works: what all her finished items came to, other designs included."""

    outcomes: tuple[Outcome, ...] = ()

    def lesson(self, stitch: tuple[str, ...], group: float) -> Lesson:
        """What to think of a design in this stitch before its first item.

        `group` is the variance from one stitch and class to the next. The other groups tell of her
        hands, those give the prior of this group, and its own designs correct it.
        """
        groups = {
            key: [one.ratio for one in run]
            for key, run in groupby(sorted(self.outcomes), key=lambda one: one.stitch)
        }
        own = groups.pop(stitch, [])
        hands = UNKNOWN_HANDS
        if groups:
            others = [_wider(centre(ratios), group) for _, ratios in sorted(groups.items())]
            hands = doubted(hands, centre(others))
        thought = _wider(hands, group)
        ratio = doubted(thought, centre(own)) if own else thought
        alike = sum(one.count for one in self.outcomes if one.stitch == stitch)
        return Lesson(ratio, alike, sum(one.count for one in self.outcomes) - alike)


NO_HANDS = Hands()


def _wider(one: Normal, variance: float) -> Normal:
    return Normal(one.mean, one.variance + variance)


def group_variance(model_spread: float) -> float:
    """What of a model's variance belongs to stitch and class: all that hands, design and item
    do not account for."""
    rest = HANDS**2 + BETWEEN_DESIGNS**2 + WITHIN_MAKER**2
    return max(_LEAST_GROUP**2, model_spread**2 - rest)


def outcome(stitch: tuple[str, ...], ratios: Sequence[Observed], unsure: float = 0.0) -> Outcome:
    """One design's items as evidence for others: `ratios` of taken to foreseen.

    `unsure` is a variance that the design brings of its own, such as a gauge that was guessed.
    """
    middle, _ = items(ratios)
    return Outcome(stitch, _wider(middle, BETWEEN_DESIGNS**2 + unsure), len(ratios))


def corrected(said: Mapping[str, Estimate], lesson: Lesson, group: float) -> dict[str, Estimate]:
    """A model's figures put right by what her other items taught.

    The part of the spread that her hands and the stitch made up is replaced by what is left of it.
    """
    factor = math.exp(lesson.ratio.mean)
    known = HANDS**2 + group - lesson.ratio.variance
    return {
        role: Estimate(
            factor * one.expected_m,
            factor * one.expected_m * math.sqrt(max(WITHIN_MAKER**2, one.relative**2 - known)),
        )
        for role, one in said.items()
    }
