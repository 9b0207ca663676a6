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
    SQUARE = "square"
    TRIANGLE = "triangle"
    CIRCLE = "circle"
    MITTEN = "mitten"
    SOCK = "sock"


class Start(StrEnum):
    """Where the work begins, which is how its rows are numbered."""

    BRIM = "brim"
    CROWN = "crown"
    EDGE = "edge"
    CENTRE = "centre"
    POINT = "point"
    CUFF = "cuff"
    TIP = "tip"
    TOE = "toe"


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
    """The finished item, relaxed: around and tall, or wide and long for flat things.

    Tall includes a fold-up brim and is measured along the fabric to the middle of the crown. What
    is as wide as it is long has both sides alike; `along` is the foot of a sock.
    """

    across: Length
    up: Length
    along: Length | None = None

    @property
    def sides(self) -> tuple[Length, ...]:
        """The sides in the order in which a shape names them."""
        return (self.across, self.up) if self.along is None else (self.across, self.up, self.along)


@dataclass(frozen=True, slots=True)
class Build:
    """How a shape is made.

    `sideways`: rows run up the item and are stacked around it; otherwise they run across it and
    are stacked upwards. `seamed`: one seam as tall as the item. `crowns`: the ways its top may
    close, none where it stays open. `words`: what its sizes are called. `starts`: where the work
    may begin, the usual place first; `top` is the one from which it grows downwards. `made`: how
    many are one item; `counted` where that may be said otherwise.
    """

    sideways: bool = False
    seamed: bool = False
    crowns: tuple[Crown, ...] = ()
    words: tuple[str, ...] = ("around", "tall")
    starts: tuple[Start, ...] = ()
    top: Start | None = None
    made: int = 1
    counted: bool = False


_FLAT_WORDS = ("wide", "long")
_HAT = (Start.BRIM, Start.CROWN)

BUILDS = {
    Shape.SIDEWAYS_HAT: Build(sideways=True, seamed=True, crowns=(Crown.GATHERED,)),
    Shape.ROUND_HAT: Build(crowns=tuple(Crown), starts=_HAT, top=Start.CROWN),
    Shape.FLAT_HAT: Build(seamed=True, crowns=tuple(Crown), starts=_HAT, top=Start.CROWN),
    Shape.HEADBAND: Build(),
    Shape.COWL: Build(counted=True),
    Shape.SCARF: Build(words=_FLAT_WORDS),
    Shape.BLANKET: Build(words=_FLAT_WORDS),
    Shape.SQUARE: Build(words=("wide",), starts=(Start.CENTRE, Start.EDGE), counted=True),
    Shape.TRIANGLE: Build(words=_FLAT_WORDS, starts=(Start.POINT, Start.EDGE), top=Start.EDGE),
    Shape.CIRCLE: Build(words=("wide",), starts=(Start.CENTRE,)),
    Shape.MITTEN: Build(starts=(Start.CUFF, Start.TIP), top=Start.TIP, made=2, counted=True),
    Shape.SOCK: Build(
        words=("around", "tall", "long"),
        starts=(Start.CUFF, Start.TOE),
        top=Start.TOE,
        made=2,
        counted=True,
    ),
}


#: What is worked closer than the band says, to keep out the wind and to wear (common practice, no
#: source): by the middle of a thickness's stitches, mittens of sources left out came to 22 % too
#: little.
WORKED_CLOSE = (Shape.MITTEN, Shape.SOCK)

#: What may have a brim to fold up.
HATS = (Shape.SIDEWAYS_HAT, Shape.ROUND_HAT, Shape.FLAT_HAT)

#: The part in which a shape ends, where it has a name of its own.
TOPS = {**dict.fromkeys(HATS, Start.CROWN), Shape.MITTEN: Start.TIP, Shape.SOCK: Start.TOE}
