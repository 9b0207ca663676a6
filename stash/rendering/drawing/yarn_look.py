"""How a yarn looks: its colours, how they lie along its strand, its surface, how thick it is."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass, replace
from functools import lru_cache
from math import fsum

from stash.measures.colour import Colour, lab
from stash.stock.looks import looks_dyed, looks_surface
from stash.stock.yarn import Dyed, Lot, Surface

#: Of a tweed or a speckled yarn, what its flecks or spots are together.
FLECKED = {Dyed.TWEED: 0.08, Dyed.SPECKLED: 0.1}
#: What is mixed into a colour for the other shades of a yarn of which only one is known: near ones
#: to both sides in a heather, contrary ones in a tweed.
_DERIVED = {
    Dyed.HEATHERED: (("#ffffff", 0.2), ("#000000", 0.2)),
    Dyed.TWEED: (("#f3e8d2", 0.7), ("#17120f", 0.6)),
    Dyed.SPECKLED: (("#17120f", 0.45), ("#f7f3ea", 0.6)),
    Dyed.VARIEGATED: (("#ffffff", 0.18), ("#000000", 0.2)),
    Dyed.STRIPING: (("#ffffff", 0.18), ("#000000", 0.2)),
}


@dataclass(frozen=True, slots=True)
class YarnLook:
    """What is known of a yarn's looks; without colours it is drawn as not known.

    `colours`: `#rrggbb`, the ground first. `thickness`: class 0-7. `seed`: any number that is the
    lot's own, for where its colours begin and how long each run is.
    """

    colours: tuple[str, ...] = ()
    dyed: Dyed = Dyed.SOLID
    surface: Surface = Surface.SMOOTH
    thickness: int | None = None
    seed: int = 0
    name: str = ""

    @property
    def shades(self) -> tuple[tuple[str, float], ...]:
        """Every colour that is drawn and its share; the ground first, none where not known."""
        return _shades(self)

    @property
    def lightness(self) -> float | None:
        """The mean L* of its colours by their shares; None where its colours are not known."""
        if not self.colours:
            return None
        return fsum(share * lightness_of(colour) for colour, share in self.shades)

    def in_grey(self) -> YarnLook:
        """The same yarn, each of its colours as the grey of the same lightness."""
        return replace(self, colours=tuple(needed_grey(one) for one, _ in self.shades))


def look_of(lot: Lot) -> YarnLook:
    """How a lot looks: as it was said, else as its colours and its fibre make likely."""
    return YarnLook(
        colours=tuple(colour.hex for colour in lot.colours),
        dyed=looks_dyed(lot) or Dyed.SOLID,
        surface=looks_surface(lot),
        thickness=lot.thickness_to,
        seed=lot.id,
        name=lot.colour or str(lot.yarn),
    )


@lru_cache(maxsize=4096)
def needed_grey(colour: str) -> str:
    """The grey that is exactly as light as a colour: the one of the 256 nearest in L*."""
    wanted = lightness_of(colour)
    above = min(bisect_left(_GREYS, wanted), 255)
    step = min((max(above - 1, 0), above), key=lambda at: abs(_GREYS[at] - wanted))
    return f"#{step:02x}{step:02x}{step:02x}"


@lru_cache(maxsize=4096)
def lightness_of(colour: str) -> float:
    """How light a colour is, L* from 0 to 100."""
    return lab(Colour(colour)).lightness


_GREYS = tuple(lab(Colour(f"#{step:02x}{step:02x}{step:02x}")).lightness for step in range(256))


def mixed(colour: str, other: str, share: float) -> str:
    """A colour with a share of another in it, as a screen mixes them."""
    pairs = zip(bytes.fromhex(colour[1:]), bytes.fromhex(other[1:]), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02x}" for a, b in pairs)


@lru_cache(maxsize=4096)
def _shades(look: YarnLook) -> tuple[tuple[str, float], ...]:
    if not look.colours or look.dyed is Dyed.SOLID:
        return tuple((colour, 1.0) for colour in look.colours[:1])
    ground = look.colours[0]
    others = look.colours[1:] or tuple(mixed(ground, *one) for one in _DERIVED[look.dyed])
    few = FLECKED.get(look.dyed)
    rest = few or (0.5 if look.dyed is Dyed.HEATHERED else len(others) / (len(others) + 1))
    return ((ground, 1 - rest), *((other, rest / len(others)) for other in others))
