"""How much yarn one stitch takes: published constants for knitting, a fitted model for crochet.

A crochet stitch is counted in strands: some lie along the row, some stand in the post, and going
round other yarns costs a few diameters. The coefficients are near-whole numbers chosen so that
three makers' published unravelling experiments are met within about 10 %: they are calibrated,
not proved, and carry the wider spread in `model.spread`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stash.requirements.gauge import Gauge

#: Loop constant Ks = stitches per area x loop length squared, for fully relaxed plain fabric, as
#: set in a national engineering examination, 2015 (textile section, item 54).
PLAIN_KS = 23.1
#: Garter takes 1.35 times (the lower of two makers' experiments) the yarn of plain per area at the
#: same needle, which is this constant at garter's own closer row gauge.
GARTER_KS = 31.0
#: Rows in the height of one stitch's width: Kc/Kw = 5.5/4.2 (the same examination).
PLAIN_ROWS = Fraction(55, 42)
#: A garter ridge, two rows, is about as tall as a stitch is wide (common practice, no source).
GARTER_ROWS = Fraction(2)

#: Bulk density of hand-knitting yarn in g/cm3. Spinning handbooks give 0.7-0.9 for firmer yarns;
#: an error of 40 % here moves a crochet stitch by 3-5 % and a knitted one not at all.
BULK_DENSITY = 0.60
#: Loop length over yarn diameter below which a plain fabric jams (Chamberlain: 16.67).
JAMMED = 16.67


class Craft(StrEnum):
    """Which craft a fabric is made in."""

    KNIT = "knit"
    CROCHET = "crochet"


@dataclass(frozen=True, slots=True)
class Knit:
    """A knitted stitch: the loop l = sqrt(Ks x stitch width x row height), whatever the yarn.

    `rows_to_width`: how many rows make up the width of one stitch, for a usual gauge.
    """

    name: str
    ks: float
    rows_to_width: Fraction
    turning: int = 0
    craft = Craft.KNIT

    def yarn_m(self, gauge: Gauge, diameter_m: float) -> float:
        """Metres of yarn in one stitch."""
        return math.sqrt(self.ks * gauge.stitch_m * gauge.row_m)


@dataclass(frozen=True, slots=True)
class Crochet:
    """A crochet stitch: l = along x stitch width + up x row height + wraps x yarn diameter.

    `turning`: chains that begin a row.
    """

    name: str
    along: int
    up: int
    wraps: int
    rows_to_width: Fraction
    turning: int
    craft = Craft.CROCHET

    def yarn_m(self, gauge: Gauge, diameter_m: float) -> float:
        """Metres of yarn in one stitch."""
        return self.along * gauge.stitch_m + self.up * gauge.row_m + self.wraps * diameter_m


Stitch = Knit | Crochet

#: Chains are never a row of their own; they begin a piece and every row.
CHAIN = Crochet("ch", 3, 0, 12, Fraction(1), 0)

#: Row heights: 14 stitches against 25, 16, 11, 8 and 6 rows over four inches in a medium yarn
#: (common practice, no source).
STITCHES: dict[str, Stitch] = {
    stitch.name: stitch
    for stitch in (
        Knit("stockinette", PLAIN_KS, PLAIN_ROWS),
        Knit("garter", GARTER_KS, GARTER_ROWS),
        # A rib is reckoned with plain's loop at the pattern's own relaxed rib gauge.
        Knit("1x1 rib", PLAIN_KS, PLAIN_ROWS),
        Knit("2x2 rib", PLAIN_KS, PLAIN_ROWS),
        Crochet("sl st", 3, 2, 9, Fraction(25, 14), 1),
        Crochet("sc", 3, 4, 9, Fraction(16, 14), 1),
        Crochet("hdc", 4, 4, 9, Fraction(11, 14), 2),
        Crochet("dc", 4, 5, 9, Fraction(8, 14), 3),
        Crochet("tr", 4, 5, 11, Fraction(6, 14), 4),
    )
}

#: UK names of the same stitches (two conversion charts agree).
UK_TO_US = {"ss": "sl st", "sl st": "sl st", "dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr"}


def tex(m_per_100g: float, strands: int = 1) -> float:
    """Grams in 1000 m of so many strands held together: tex adds."""
    return strands * 100_000 / m_per_100g


def diameter_m(tex_held: float) -> float:
    """How thick the yarn is when packed, in metres: about half of what loose wraps suggest."""
    return math.sqrt(4 * tex_held / (math.pi * 1000 * BULK_DENSITY)) / 1000
