"""Pixels of a photograph read into the colours of a yarn; nothing of the picture is kept."""

from __future__ import annotations

import math
from collections.abc import Sequence
from statistics import median

from stash.errors import BadInput
from stash.measures.adaptation import Light, balanced
from stash.measures.colour import Colour, colour_of_light, lab_of_light, linear_of
from stash.measures.colour_clusters import ColourShare, clusters

#: So many pixels of a disc are read at most, each four bytes (red, green, blue, how opaque).
MOST_PIXELS = 16_384
#: A pixel that is more clear than this shows nothing of the yarn.
_OPAQUE = 128
#: White paper throws back this share of the light, L* 95.6 (from memory, for office paper).
_PAPER = 0.89
#: Paper darker than this share in its darkest channel lies in the dark: it says nothing of a light.
_DARKEST_PAPER = 0.02
#: A colour is what the lit side of the strand has: not the gaps between the plies, nor the shine.
_LIT_FROM, _LIT_TO = 0.5, 0.95


def yarn_colours(yarn: bytes, paper: bytes = b"") -> list[ColourShare]:
    """The colours in a disc of RGBA pixels (sRGB, a byte a channel), the largest share first.

    `paper`: pixels of white paper in the same light, by which they are balanced; lightness is then
    that of the yarn, whatever the exposure. Without paper the pixels stand as they are.
    Raises BadInput for no pixels, too many or a part of one, and for paper in the dark.
    """
    light = _balanced(_opaque(yarn), _opaque(paper) if paper else [])
    found = clusters(light)
    together = sum(len(one.members) for one in found)
    return [ColourShare(_lit(one.members, light), len(one.members) / together) for one in found]


def _opaque(data: bytes) -> list[Light]:
    """The pixels that show something, as linear light."""
    if not data or len(data) % 4:
        raise BadInput("photo_in_part")
    if len(data) > 4 * MOST_PIXELS:
        raise BadInput("photo_too_large", most=MOST_PIXELS)
    pixels = zip(data[::4], data[1::4], data[2::4], data[3::4], strict=True)
    light = [linear_of(bytes(pixel[:3])) for pixel in pixels if pixel[3] >= _OPAQUE]
    if not light:
        raise BadInput("photo_clear")
    return light


def _balanced(yarn: list[Light], paper: list[Light]) -> list[Light]:
    if not paper:
        return yarn
    white = tuple(median(one[channel] for one in paper) for channel in range(3))
    if min(white) < _DARKEST_PAPER:
        raise BadInput("photo_dark_paper")
    return balanced(yarn, white, _PAPER)


def _lit(members: Sequence[int], light: Sequence[Light]) -> Colour:
    """The mean of the lighter half of these pixels, without the lightest few."""
    by_light = sorted((light[one] for one in members), key=_luminance)
    lit = by_light[int(len(by_light) * _LIT_FROM) : max(1, math.ceil(len(by_light) * _LIT_TO))]
    return colour_of_light([math.fsum(each) / len(lit) for each in zip(*lit, strict=True)])


def _luminance(light: Light) -> float:
    return lab_of_light(light).lightness
