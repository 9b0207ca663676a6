"""Shapes: which way the rows run, what is seamed, and how a crown closes."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from stash.measures.length import Length


class Shape(StrEnum):
    """What is made."""

    SIDEWAYS_HAT = "sideways hat"
    ROUND_HAT = "round hat"
    FLAT_HAT = "flat hat"
    HEADBAND = "headband"
    COWL = "cowl"
    SCARF = "scarf"
    BLANKET = "blanket"


class Crown(StrEnum):
    """How the top of a hat closes."""

    FLAT = "flat"
    DECREASED = "decreased"
    GATHERED = "gathered"


class Seam(StrEnum):
    """How two edges are sewn or worked together."""

    NONE = "none"
    MATTRESS = "mattress"
    WHIP = "whip"
    BACKSTITCH = "backstitch"
    SLIP_STITCH = "slip stitch"
    SINGLE_CROCHET = "single crochet"


#: The share k of girth squared that a crown takes off a plain tube: area = girth x height - k x
#: girth squared. A flat disc is a circle, 1/(4 pi); the quicker knitted crown was settled with
#: printed hats in sight; a gathered one takes off nothing.
CROWN_LOSS = {
    Crown.FLAT: Fraction(80, 1000),
    Crown.DECREASED: Fraction(60, 1000),
    Crown.GATHERED: Fraction(0),
}

#: Yarn for a seam, as a multiple of its length; by geometry, the middle of each range.
SEAM_TAKES = {
    Seam.NONE: 0.0,
    Seam.MATTRESS: 2.25,
    Seam.WHIP: 3.0,
    Seam.BACKSTITCH: 3.0,
    Seam.SLIP_STITCH: 5.0,
    Seam.SINGLE_CROCHET: 8.0,
}


@dataclass(frozen=True, slots=True)
class Size:
    """The finished article, relaxed: around and tall, or wide and long for flat things.

    Tall includes a fold-up brim and is measured along the fabric to the middle of the crown.
    """

    across: Length
    up: Length


@dataclass(frozen=True, slots=True)
class Build:
    """How a shape is made.

    `sideways`: rows run up the article and are stacked around it; otherwise they run across it and
    are stacked upwards. `seamed`: one seam as tall as the article. `crowns`: the ways its top may
    close, none where it stays open. `words`: what its two sizes are called.
    """

    sideways: bool = False
    seamed: bool = False
    crowns: tuple[Crown, ...] = ()
    words: tuple[str, str] = ("around", "tall")


_FLAT_WORDS = ("wide", "long")

BUILDS = {
    Shape.SIDEWAYS_HAT: Build(sideways=True, seamed=True, crowns=(Crown.GATHERED,)),
    Shape.ROUND_HAT: Build(crowns=tuple(Crown)),
    Shape.FLAT_HAT: Build(seamed=True, crowns=tuple(Crown)),
    Shape.HEADBAND: Build(),
    Shape.COWL: Build(),
    Shape.SCARF: Build(words=_FLAT_WORDS),
    Shape.BLANKET: Build(words=_FLAT_WORDS),
}
