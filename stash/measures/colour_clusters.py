"""The few colours that many pixels have: Lab k-means, in which light and shade count for less.

Sources: CIE 15 for CIE Lab; the sets are moved as by S. P. Lloyd, Least squares quantization in
PCM, IEEE Trans. Inf. Theory 28 (1982), 129-137, begun from points that lie farthest apart
(T. F. Gonzalez, Theor. Comput. Sci. 38 (1985), 293-306), so that no chance comes into it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stash.measures.adaptation import Light
from stash.measures.colour import Colour, lab_of_light

#: Light and shade of a strand are no colours of it: lightness counts for this much of itself.
LIGHTNESS_COUNTS = 0.35
#: Sets whose means are nearer than this are one colour to an eye that looks at a yarn (our choice).
ONE_COLOUR_UNDER = 11.0
#: A set with less than this share of the pixels is an edge, a knot or a stray fibre (our choice).
LEAST_SHARE = 0.06
#: Between two colours lie the pixels that have some of each: a set there needs this share.
LEAST_BETWEEN = 0.15
#: Below this lightness a camera's noise outweighs hue, which counts for less the darker it is.
HUE_FADES_UNDER = 15.0
#: In the shade a colour keeps its hue and loses chroma with its light: sets are compared as if both
#: lay in the light of the lighter one, as far as chroma would grow by this factor.
_MOST_SHADE = 1.4
#: The Lab curve is a cube root of light, but for this much (CIE 15).
_CURVE_FOOT = 16.0
#: So many steps from one colour to another are looked at for mixtures of them.
_STEPS = 10
#: So many sets are begun with, and moved so often at most.
_SETS, _MOVES = 8, 20
#: Pixels are put together in cells this wide (weighed Lab), as 5,000 of them differ by noise.
_CELL = 2.0
#: A cell with a smaller share of the pixels begins no set.
_LEAST_CELL = 0.002

_Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Cluster:
    """Pixels of one colour: their numbers in the order they were given, and their mean."""

    members: tuple[int, ...]
    mean: _Point


@dataclass(frozen=True, slots=True)
class ColourShare:
    """One colour of a yarn and its share of what was looked at, 0 to 1; all of them make 1."""

    colour: Colour
    share: float


def clusters(pixels: Sequence[Light]) -> list[Cluster]:
    """The colours among pixels of linear light, the one with most of them first.

    Sets nearer than `ONE_COLOUR_UNDER` are joined, the nearest pair first. Then those below
    `LEAST_SHARE`, and those below `LEAST_BETWEEN` that are mixtures of two others, are left out;
    never the largest. None where there are no pixels.
    """
    cells = _cells(pixels)
    sets = _joined([one for one in _lloyd(cells, _seeds(cells, len(pixels))) if one.members])
    sets.sort(key=lambda one: (-len(one.members), one.members[0]))
    lights = [_mean([pixels[one] for one in each.members]) for each in sets]
    return [
        one
        for at, one in enumerate(sets)
        if not at
        or len(one.members) >= LEAST_BETWEEN * len(pixels)
        or (len(one.members) >= LEAST_SHARE * len(pixels) and not _mixed(one, at, lights))
    ]


def _mixed(one: Cluster, at: int, lights: Sequence[Light]) -> bool:
    """Whether a mixture of two other colours' light is as near as one colour is to itself."""
    rest = [light for number, light in enumerate(lights) if number != at]
    return any(
        math.dist(one.mean, _weighed(_on_the_way(a, b, step / _STEPS))) < ONE_COLOUR_UNDER
        for number, a in enumerate(rest)
        for b in rest[:number]
        for step in range(1, _STEPS)
    )


def _on_the_way(one: Light, other: Light, share: float) -> Light:
    return tuple(a + (b - a) * share for a, b in zip(one, other, strict=True))


def _mean(lights: Sequence[Light]) -> Light:
    return tuple(math.fsum(each) / len(lights) for each in zip(*lights, strict=True))


def _weighed(light: Light) -> _Point:
    lab = lab_of_light(light)
    hue = min(1.0, max(0.0, lab.lightness) / HUE_FADES_UNDER)
    return (LIGHTNESS_COUNTS * lab.lightness, hue * lab.a, hue * lab.b)


def _cells(pixels: Sequence[Light]) -> list[Cluster]:
    """Pixels that lie together; in the order of their place, so that none depends on a hash."""
    points = [_weighed(light) for light in pixels]
    found: dict[tuple[int, ...], list[int]] = {}
    for number, point in enumerate(points):
        found.setdefault(tuple(round(x / _CELL) for x in point), []).append(number)
    return [_of(members, points) for _, members in sorted(found.items())]


def _of(members: Sequence[int], points: Sequence[_Point]) -> Cluster:
    x, y, z = (math.fsum(points[one][axis] for one in members) for axis in range(3))
    count = len(members)
    return Cluster(tuple(members), (x / count, y / count, z / count))


def _together(sets: Iterable[Cluster]) -> Cluster:
    """One set of several: no pixel is looked at again."""
    sets = list(sets)
    members = tuple(sorted(one for each in sets for one in each.members))
    x, y, z = (math.fsum(each.mean[axis] * len(each.members) for each in sets) for axis in range(3))
    count = max(1, len(members))
    return Cluster(members, (x / count, y / count, z / count))


def _seeds(cells: Sequence[Cluster], pixels: int) -> list[_Point]:
    """The fullest cell, then each time the one farthest from all before."""
    able = [one for one in cells if len(one.members) >= _LEAST_CELL * pixels] or list(cells)
    able.sort(key=lambda one: (-len(one.members), one.mean))
    seeds = [one.mean for one in able[:1]]
    while len(seeds) < min(_SETS, len(able)):
        far = max(
            able, key=lambda one: (min(math.dist(one.mean, seed) for seed in seeds), one.mean)
        )
        seeds.append(far.mean)
    return seeds


def _lloyd(cells: Sequence[Cluster], means: Sequence[_Point]) -> list[Cluster]:
    """Each cell to the nearest mean, each mean to the middle of its cells, until none moves."""
    before: list[int] = []
    for _ in range(_MOVES):
        nearest = [_nearest(cell.mean, means) for cell in cells]
        if nearest == before:
            break
        before = nearest
        sets = _sets(cells, nearest, len(means))
        means = [one.mean if one.members else mean for one, mean in zip(sets, means, strict=True)]
    return _sets(cells, before, len(means))


def _sets(cells: Sequence[Cluster], of: Sequence[int], count: int) -> list[Cluster]:
    return [
        _together(cell for cell, number in zip(cells, of, strict=True) if number == wanted)
        for wanted in range(count)
    ]


def _nearest(point: _Point, means: Sequence[_Point]) -> int:
    return min(range(len(means)), key=lambda number: (math.dist(point, means[number]), number))


def _joined(sets: list[Cluster]) -> list[Cluster]:
    """The nearest two become one as long as they are nearer than one colour is to another."""
    while len(sets) > 1:
        apart, one, other = min(
            (_apart(sets[a].mean, sets[b].mean), a, b) for b in range(len(sets)) for a in range(b)
        )
        if apart >= ONE_COLOUR_UNDER:
            break
        both = _together((sets[one], sets[other]))
        sets = [both, *(each for at, each in enumerate(sets) if at not in (one, other))]
    return sets


def _apart(one: _Point, other: _Point) -> float:
    """How far two sets are from one colour: as they are, or the darker as if in more light."""
    dark, light = sorted((one, other))
    by = (light[0] / LIGHTNESS_COUNTS + _CURVE_FOOT) / (dark[0] / LIGHTNESS_COUNTS + _CURVE_FOOT)
    by = min(_MOST_SHADE, by)
    return min(math.dist(one, other), math.dist(light, (dark[0], dark[1] * by, dark[2] * by)))
