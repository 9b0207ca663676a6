"""How much yarn one stitch takes: published constants for knitting, path geometry for crochet.

A crochet stitch is counted in strands and half turns: some strands lie along the row, some stand
in the post, and each time the yarn bends back round another strand it runs a half circle of one
yarn diameter's radius, pi diameters long (Peirce found 5.94 diameters for the two of a knitted
loop). The counts follow how a stitch is made; where the path alone leaves a choice, three makers'
unravelling experiments decided. Nothing is fitted to items. What the rows of items in
`fixtures/checks/items.csv` show is printed by `tests/requirements/test_check_rows.py`; those
rows were seen while the counts were settled, so they are no proof: there plain crochet is off by
5 % in the median and 8 % rms. On 17 rows of 12 sources that nobody here had seen it was off by
12.7 % in the median and 21 % rms, bias +2 %.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from itertools import groupby

from stash.requirements.design.gauge import Gauge

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
#: an error of 40 % here moves a crochet stitch by 3-7 % and a knitted one not at all.
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

    `rows_to_width`: how many rows make up the width of one stitch, for a usual gauge. `extra`: what
    the fabric takes more per area than plain, for when only plain fabric's gauge is known.
    `carrying`: a second strand goes along behind every stitch.
    """

    name: str
    ks: float
    rows_to_width: Fraction
    turning: int = 0
    extra: float = 0.0
    carrying: bool = False
    craft = Craft.KNIT

    def yarn_m(self, gauge: Gauge, diameter_m: float) -> float:
        """Metres of yarn in one stitch, without what is carried behind it."""
        return math.sqrt(self.ks * gauge.stitch_m * gauge.row_m)


@dataclass(frozen=True, slots=True)
class Crochet:
    """A crochet stitch: l = along x stitch width + up x row height + turns x pi x yarn diameter.

    `turns`: half turns round other strands. `turning`: chains that begin a row. `carrying`: a
    second strand lies inside every stitch.
    """

    name: str
    along: int
    up: float
    turns: int
    rows_to_width: Fraction
    turning: int
    carrying: bool = False
    extra = 0.0
    craft = Craft.CROCHET

    def yarn_m(self, gauge: Gauge, diameter_m: float) -> float:
        """Metres of yarn in one stitch, without what is carried inside it."""
        bends = self.turns * math.pi * diameter_m
        return self.along * gauge.stitch_m + self.up * gauge.row_m + bends


@dataclass(frozen=True, slots=True)
class Mixed:
    """Crochet stitches in turn along one row; each counts as a stitch of the gauge, chains too."""

    parts: tuple[Crochet, ...]
    extra = 0.0
    craft = Craft.CROCHET

    @property
    def name(self) -> str:
        """As it is typed: `(1 sc, 1 ch)`."""
        runs = ((part.name, sum(1 for _ in run)) for part, run in groupby(self.parts))
        return f"({', '.join(f'{count} {name}' for name, count in runs)})"

    @property
    def rows_to_width(self) -> Fraction:
        """By the mean height of what stands in the row; chains lie over it."""
        heights = [1 / part.rows_to_width for part in self.parts if part != CHAIN]
        return len(heights) / sum(heights, Fraction(0))

    @property
    def turning(self) -> int:
        """Those of the stitch that begins the row."""
        return self.parts[0].turning

    @property
    def carrying(self) -> bool:
        """Whether a second strand lies inside."""
        return any(part.carrying for part in self.parts)

    def yarn_m(self, gauge: Gauge, diameter_m: float) -> float:
        """Metres of yarn in one stitch, on average over the row."""
        return math.fsum(part.yarn_m(gauge, diameter_m) for part in self.parts) / len(self.parts)


Stitch = Knit | Crochet | Mixed

#: Two legs, each half as long again as a link because links lie into one another, and the bump
#: behind: four widths; one loop drawn, its two half turns. A maker unravelled 4.8-5.1 in of yarn
#: per in of chain; this gives 4.9 in a medium yarn. Never a row of its own.
CHAIN = Crochet("ch", 4, 0, 2, Fraction(1), 0)

#: What is taken more per area where only plain gauge is known: the middle of what makers say
#: (10-20 % for ribs, 15-30 % for cables; common practice, no source).
RIB_EXTRA = 0.15
CABLE_EXTRA = 0.22
#: Single crochet ribbing in the back loop pulls in: 10-30 % (common practice, no source).
BACK_LOOP_EXTRA = 0.20

#: A stitch round the post starts lower: its row is about 0.8 as tall (a yarn maker's tutorial,
#: 2015), with the strands of a whole stitch in it.
POST_ROW = Fraction(4, 5)


def _round_post(mark: str, stitch: Crochet) -> Crochet:
    return replace(
        stitch,
        name=mark + stitch.name,
        up=float(stitch.up / POST_ROW),
        rows_to_width=stitch.rows_to_width / POST_ROW,
    )


#: Row heights: 14 stitches against 25, 16, 11, 8 and 6 rows over four inches in a medium yarn
#: (common practice, no source).
#:
#: Strands. Along: the V on top, whose legs lie half into the next one (three widths), and one more
#: for each yarn over. Up: down to the row below, the drawn loop's two legs, and up again (four
#: heights); the yarn overs of double and treble slant through the post, one more between them.
#: Half turns: two for each loop drawn (slip stitch 1, sc 2, hdc 2, dc 3, tr 4), one for each yarn
#: over. A slip stitch is a chain drawn through the fabric, its two legs a row taller.
_PLAIN_CROCHET = (
    Crochet("sl st", 4, 2, 2, Fraction(25, 14), 1),
    Crochet("sc", 3, 4, 4, Fraction(16, 14), 1),
    Crochet("hdc", 4, 4, 5, Fraction(11, 14), 2),
    Crochet("dc", 4, 5, 7, Fraction(8, 14), 3),
    Crochet("tr", 5, 5, 10, Fraction(6, 14), 4),
)

_KNITTED: tuple[Knit, ...] = (
    Knit("stockinette", PLAIN_KS, PLAIN_ROWS),
    Knit("garter", GARTER_KS, GARTER_ROWS),
    # Plain's loop at the fabric's own relaxed gauge; nothing better was found for these.
    *(
        Knit(f"{knit}x{purl} rib", PLAIN_KS, PLAIN_ROWS, extra=RIB_EXTRA)
        for knit in range(1, 7)
        for purl in range(1, 7)
    ),
    Knit("cables", PLAIN_KS, PLAIN_ROWS, extra=CABLE_EXTRA),
    Knit("stranded", PLAIN_KS, PLAIN_ROWS, carrying=True),
    # Its purl bumps lie as in garter, whose constant is taken; no figure was found.
    Knit("seed stitch", GARTER_KS, GARTER_ROWS),
)

_CROCHETED: tuple[Crochet, ...] = (
    *_PLAIN_CROCHET,
    *(_round_post(mark, one) for one in _PLAIN_CROCHET[1:] for mark in ("fp", "bp")),
    replace(_PLAIN_CROCHET[1], name="tapestry", carrying=True),
)

#: Every stitch that makes rows, by its name.
STITCHES: dict[str, Stitch] = {
    **{one.name: one for one in _KNITTED},
    **{one.name: one for one in _CROCHETED},
}

#: What may stand among others in a crocheted row: any crochet stitch, and chains.
PARTS: dict[str, Crochet] = {one.name: one for one in (CHAIN, *_CROCHETED)}


def named(name: str) -> Stitch:
    """The stitch of this name, a row of several as `Mixed.name` writes it."""
    if not name.startswith("("):
        return STITCHES[name]
    counted = (part.split(" ", 1) for part in name.strip("()").split(", "))
    return Mixed(tuple(PARTS[part] for count, part in counted for _ in range(int(count))))


#: A strand carried along: behind a knitted stitch as long as the stitch is wide; inside a
#: crocheted one it winds a little, 1.0-1.1 widths. By geometry; no measurement was found.
_CARRIED_WIDTHS = {Craft.KNIT: 1.0, Craft.CROCHET: 1.05}


def carried_m(craft: Craft, gauge: Gauge) -> float:
    """Metres of a second colour that goes along behind (or inside) one stitch of the first.

    In stranded knitting about a quarter of a loop, in tapestry crochet an eighth of a stitch. Each
    colour takes it for every stitch it does not work between its first and last of the row.
    """
    return _CARRIED_WIDTHS[craft] * gauge.stitch_m


#: UK names of the same stitches (two conversion charts agree).
UK_TO_US = {"ss": "sl st", "sl st": "sl st", "dc": "sc", "htr": "hdc", "tr": "dc", "dtr": "tr"}


def tex(m_per_100g: float, strands: int = 1) -> float:
    """Grams in 1000 m of so many strands held together: tex adds."""
    return strands * 100_000 / m_per_100g


def diameter_m(tex_held: float) -> float:
    """How thick the yarn is when packed, in metres: about half of what loose wraps suggest."""
    return math.sqrt(4 * tex_held / (math.pi * 1000 * BULK_DENSITY)) / 1000
