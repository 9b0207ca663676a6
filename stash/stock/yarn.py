"""A yarn and a lot record: what the band said when it came in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from stash.measures.colour import Colour
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp


class LotState(StrEnum):
    """What is known of a dye lot. Unknown equals nothing, not even another unknown."""

    NUMBERED = "numbered"
    CLAIMED_NONE = "claimed none"
    UNKNOWN = "unknown"


class Condition(StrEnum):
    """What is to be known of a lot before it goes into anything."""

    FADED = "faded"
    QUARANTINED = "quarantined"
    SMOKE = "smoke"
    PETS = "pets"


class Dyed(StrEnum):
    """How the colours of a yarn lie along its strand (terms of the trade)."""

    SOLID = "solid"  # one colour
    HEATHERED = "heathered"  # near shades side by side in the strand
    TWEED = "tweed"  # rarer flecks or knops of contrary colours
    SPECKLED = "speckled"  # small spots of dye on a ground
    VARIEGATED = "variegated"  # runs of centimetres
    STRIPING = "striping"  # runs of a metre and more


class Surface(StrEnum):
    """What the strand itself looks like (terms of the trade)."""

    SMOOTH = "smooth"  # plied, each stitch clear
    SINGLE = "single"  # one ply, hardly twisted
    CABLED = "cabled"  # plied from yarns that are plied themselves
    BRUSHED = "brushed"  # a halo of fibres
    LOOPED = "looped"  # bouclé


class FullFrom(StrEnum):
    """Where the mass and length of a full skein come from."""

    BAND = "band"
    MEASURED = "measured"
    ASSUMED = "assumed"
    MISSING = "missing"


@dataclass(frozen=True, slots=True)
class Pair:
    """The put-up that a skein's length is worked out by, and how far to trust it.

    *assumed*: only a length was known, so the mass is inferred and is not shown until weighed.
    *missing*: only a mass is known (or nothing), so there is no length; `put_up` is None.
    """

    put_up: PutUp | None
    origin: FullFrom


@dataclass(frozen=True, slots=True)
class Yarn:
    """A maker and a name; the maker may be empty where the label is lost."""

    id: int
    maker: str
    name: str

    def __str__(self) -> str:
        return f"{self.maker} {self.name}".strip()


@dataclass(frozen=True, slots=True)
class Lot:
    """A lot record: yarn + colour + dye lot as it came in, and what that band said.

    `colours` holds one value, or several for a variegated yarn; empty where nothing is known.
    `thickness_from`..`thickness_to` is the thickness class 0-7 (equal ends where it is certain),
    None where the band did not say.
    `daylight` says that its colours were looked at in daylight.
    `full_mass` is what a full skein weighs, where the pair does not say it.
    `dyed` and `surface` are None where nothing was said of them (see `stock.looks`).
    `fibre` is the blend in words with shares, largest first ("75% wool, 25% nylon"), or empty.
    """

    id: int
    yarn: Yarn
    colour: str = ""
    colour_no: str = ""
    colours: tuple[Colour, ...] = ()
    lot: str = ""
    lot_state: LotState = LotState.UNKNOWN
    thickness_from: int | None = None
    thickness_to: int | None = None
    fibre: str = ""
    pair: Pair = Pair(None, FullFrom.MISSING)
    full_mass: Mass | None = None
    hand_dyed: bool = False
    care: str = ""
    note: str = ""
    conditions: tuple[Condition, ...] = ()
    daylight: bool = False
    dyed: Dyed | None = None
    surface: Surface | None = None

    @property
    def ref(self) -> str:
        """How the lot is named in answers and typed back: L and its number."""
        return f"L{self.id}"
