"""What a maker asks of the matcher, beside the need itself.

One `Wish` goes all the way. Parsing makes it of what she typed, names as they were typed; the
action holds it once against her settings, the need and the shelf; the matcher takes that.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from stash.matching.question.two_lots_asked import TwoLots
from stash.measures.colour import Lab
from stash.measures.note import Note
from stash.measures.vision import Vision
from stash.requirements.yarn.tails import JOIN_M
from stash.stock.yarn import Condition


class Contrast(StrEnum):
    """How far two colours should stand apart, the strongest first."""

    BOLD = "bold"
    CLEAR = "clear"
    SOFT = "soft"
    TONAL = "tonal"
    ANY = "any"


@dataclass(frozen=True, slots=True)
class Gap:
    """The same by numbers: at least so far apart in L*, and at most where `most` is given."""

    least: float
    most: float | None = None

    def __str__(self) -> str:
        return f"{self.least:g}" if self.most is None else f"{self.least:g}-{self.most:g}"


#: A wish for contrast, by its word or by numbers.
Wished = Contrast | Gap


def wished(kept: str) -> Wished:
    """A wish for contrast as it is kept: `bold`, `30`, `20-40`."""
    if kept in set(Contrast):
        return Contrast(kept)
    least, _, most = kept.partition("-")
    return Gap(float(least), float(most) if most else None)


#: Metres per 100 g from and to, or how far they may lie from the design's own, as a share of it.
Fineness = tuple[float, float] | float


def fineness(kept: str) -> Fineness:
    """Metres per 100 g as they are kept: `200 260`, or a share of the design's own, `0.15`."""
    low, _, high = kept.partition(" ")
    return (float(low), float(high)) if high else float(low)


class Wash(StrEnum):
    """What the lots must bear together in a wash."""

    ANY = "any"
    TOGETHER = "together"  # nothing that felts beside what does not
    HOT = "hot"  # 60 degrees C and more


@dataclass(frozen=True, slots=True)
class Named:
    """A colour by its plain word: a whole family of hues, or a name with the value it stands for.

    `near` is None for a family, and for a word that is only looked for in the words of the band.
    """

    word: str
    family: bool = False
    near: Lab | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """What keeps a lot out of a role, or two lots from each other, beside length and class.

    By role: `fineness` is the least and the most metres per 100 g; `wanted` are colours of which it
    must be one, `unwanted` of which it must be none. `without` are fibres by name; `let_in` the
    conditions that may take part although they usually may not. `barred` are skeins that may not
    be taken, each with why. `no_bleeding` keeps strong darks from very light colours.

    As typed, until they are held against the shelf and the need: `owner`, whose yarn may be taken,
    and `not_in`, parts of places left out, become `barred`; `asked_fineness` (None: her setting)
    becomes `fineness`; colours under no role ("") become those of every role.
    """

    asked_fineness: Fineness | None = None
    owner: str = ""
    not_in: tuple[str, ...] = ()
    fineness: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    without: frozenset[str] = frozenset()
    wash: Wash = Wash.ANY
    let_in: frozenset[Condition] = frozenset()
    wanted: Mapping[str, tuple[Named, ...]] = field(default_factory=dict)
    unwanted: Mapping[str, tuple[Named, ...]] = field(default_factory=dict)
    barred: Mapping[int, Note] = field(default_factory=dict)
    no_bleeding: bool = False


@dataclass(frozen=True, slots=True)
class Ranking:
    """What each drawback costs when proposals are put in order; hers to set, all at least 0."""

    opening: float = 1.0  # breaking a whole skein
    very_little: float = 1.0  # ...for less than a sixth of it
    join: float = 0.5
    looseness: float = 1.0  # times the share of the lot's free yarn that stays behind
    useless_end: float = 0.5  # leaving an end too short to use
    lone_skein: float = 0.25  # leaving one whole skein by itself
    lot_not_known: float = 0.75  # two skeins together whose lot is not known
    two_lots: float = 2.0  # two lots in one role, where she asks for that
    thickness_step: float = 0.5  # a class away, or a class only derived
    colour_not_known: float = 0.5
    condition: float = 0.5  # for each of faded, smoke, pets
    newness: float = 0.25  # times how far it came after the oldest yarn, the shelf's span being 1
    price: float = 0.25  # times its price a metre over that and the shelf's middle one together


@dataclass(frozen=True, slots=True)
class Wish:
    """Contrast, fixed roles, tolerance and limits.

    `contrast` is None where nothing was said. `fixed` ties a role to lots and skeins. `assume` lets
    a lot without a length take part by its class's usual metres per 100 g. `two_lots` says where
    two lots may share a role, and how each role could be shared. `top` is how many sets are wanted
    (None: all). Of the need: `margin` stands in place of her setting, and each strand of the roles
    in `apart` may be a yarn of its own.

    From her settings: `thickness_tolerance`; `useful_end_m`, the shortest design worth joining in;
    `ranking`; `vision`, the eyes the colours are for, where cones are missing. `join_m` is the yarn
    a join costs.
    """

    contrast: Wished | None = None
    fixed: Mapping[str, Fixed] = field(default_factory=dict)
    thickness_tolerance: int = 0
    useful_end_m: float = 2.0
    join_m: float = JOIN_M
    assume: bool = False
    ranking: Ranking = Ranking()
    top: int | None = 20
    limits: Limits = field(default_factory=Limits)
    vision: Vision | None = None
    two_lots: TwoLots | None = None
    margin: float | None = None
    apart: tuple[str, ...] = ()

    @property
    def contrast_or_any(self) -> Wished:
        """The contrast; any where nothing was said."""
        return self.contrast or Contrast.ANY


@dataclass(frozen=True, slots=True)
class Fixed:
    """What a role was tied to by the person who asked.

    `typed` is a skein's number, a lot's reference or words; once they are found on the shelf,
    `lots` are ids, and `skeins` numbers (empty: any skein of those lots).
    """

    lots: frozenset[int] = frozenset()
    skeins: frozenset[int] = frozenset()
    typed: str = ""
