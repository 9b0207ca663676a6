"""Colours as a maker sees them whose eyes lack one kind of cone.

Source: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, A physiologically-based model for
simulation of color vision deficiency, IEEE Transactions on Visualization and Computer Graphics
15(6), 2009: their matrices for severity 1.0, applied to linear sRGB.
"""

from __future__ import annotations

import math
from enum import StrEnum

from stash.measures.colour import Colour, Lab, lab_of_light, light


class Vision(StrEnum):
    """Which cones are missing: those for long, middle or short waves."""

    PROTAN = "protan"
    DEUTAN = "deutan"
    TRITAN = "tritan"


_SEEN_AS = {
    Vision.PROTAN: (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    Vision.DEUTAN: (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    Vision.TRITAN: (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}


def seen_as(colour: Colour, vision: Vision) -> Lab:
    """The colour in CIE Lab as such eyes see it; light a screen cannot give is cut to what it can.

    A model of the strongest form: many see more than this. For tritan eyes it is an approximation
    by its authors' own word.
    """
    rgb = light(colour)
    turned = (math.fsum(m * c for m, c in zip(row, rgb, strict=True)) for row in _SEEN_AS[vision])
    return lab_of_light([min(1.0, max(0.0, part)) for part in turned])
