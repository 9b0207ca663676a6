"""Invented yarns and designs that the tests of drawing begin from, and how light a drawing is."""

from __future__ import annotations

import colour
import numpy as np
from rendering.drawing.svg_sampler import Points

from stash.parsing.design.design import DesignWords, design
from stash.rendering.drawing.piece import Laid
from stash.rendering.drawing.yarn_look import YarnLook
from stash.requirements.yarn.estimate import need_of
from stash.stock.yarn import Dyed, Surface

#: From very dark to very light, of several hues.
HEXES = ("#15171a", "#423a6b", "#5d2f55", "#377f85", "#8797a6", "#b9a27e", "#d9c9ab", "#f4efe4")
#: Of every way to be dyed, with several colours.
MANY = {
    Dyed.HEATHERED: ("#c4532c", "#e08a58", "#9e3f22"),
    Dyed.TWEED: ("#5a3e2f", "#e8d9bd", "#1c1512"),
    Dyed.SPECKLED: ("#e9e2d2", "#a0463f", "#3c6e88"),
    Dyed.VARIEGATED: ("#263b63", "#1c7481", "#38a3a0", "#d58a34"),
    Dyed.STRIPING: ("#35787b", "#e8dfd0", "#5c2f58", "#e2b748"),
}
LOOKS = [
    *(YarnLook((one,), surface=kind, thickness=3, seed=7) for one in HEXES for kind in Surface),
    *(YarnLook((one,), kind, thickness=3, seed=8) for one in HEXES[::2] for kind in MANY),
    *(YarnLook(many, kind, thickness=1, seed=9) for kind, many in MANY.items()),
    *(YarnLook(many, kind, thickness=5, seed=30) for kind, many in MANY.items()),
]

_GAUGE = {"gauge": "17 sts x 13 rows", "fabric": "hdc", "thickness": "3"}
_FINE = {"gauge": "22 sts x 30 rows", "fabric": "stockinette", "thickness": "3"}
#: A design of every shape, in two colours or three.
DESIGNS = {
    "sideways hat": {"around": "52cm", "tall": "24cm", "bands": ("B 4cm",), **_GAUGE},
    "round hat": {"around": "54cm", "tall": "22cm", "bands": ("B 4cm", "C 4cm 11cm up"), **_GAUGE},
    "flat hat": {"around": "54cm", "tall": "22cm", "bands": ("B 4cm top",), **_FINE},
    "headband": {"around": "52cm", "tall": "10cm", "bands": ("B 3cm middle",), **_FINE},
    "cowl": {"around": "56cm", "tall": "24cm", "bands": ("B 2cm", "C 2cm 15cm up"), **_FINE},
    "scarf": {"wide": "20cm", "long": "150cm", "bands": ("B 5cm",), **_GAUGE},
    "blanket": {"wide": "60cm", "long": "80cm", "stripes": ("A 6cm, B 3cm",), **_GAUGE},
    "square": {"wide": "12cm", "bands": ("B 2cm",), **_GAUGE},
    "triangle": {"wide": "140cm", "long": "60cm", "bands": ("B 8cm top",), **_FINE},
    "circle": {"wide": "20cm", "bands": ("B 3cm",), **_GAUGE},
    "mitten": {"around": "19cm", "tall": "26cm", "bands": ("B 6cm",), **_FINE},
    "sock": {"around": "20cm", "tall": "18cm", "long": "24cm", "bands": ("B 4cm",), **_FINE},
}  # fmt: skip


def laid(shape: str, **more: object) -> Laid:
    """A design of a shape, laid out; some of it said otherwise."""
    found = need_of(design(DesignWords(shape=shape, **{**DESIGNS[shape], **more}))).laid
    assert found is not None
    return found


def grid(left: float, top: float, right: float, bottom: float, step: float = 1.1) -> Points:
    """Places all over a rectangle."""
    x, y = np.meshgrid(np.arange(left, right, step), np.arange(top, bottom, step))
    return np.c_[x.ravel(), y.ravel()]


def mean_lightness(rgb: Points) -> float:
    """The mean L* of colours, by colour-science."""
    return float(colour.XYZ_to_Lab(colour.sRGB_to_XYZ(rgb / 255))[:, 0].mean())
