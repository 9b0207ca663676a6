"""Everything at once that so much yarn of each role says of a design."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from stash.requirements.design.shapes import Shape
from stash.requirements.fit.fit_to_yarn import Changed, lacking, largest, widest_band, without_brim
from stash.requirements.fit.rowwise import Walk, rows_of, stripes_of, walk
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need
from stash.requirements.yarn.tails import TAIL_M

#: What has one side that is as good as another to be longer.
_FLAT = (Shape.SCARF, Shape.BLANKET, Shape.TRIANGLE)

Lots = Mapping[str, Sequence[float]]


@dataclass(frozen=True, slots=True)
class RoleReach:
    """What the yarn of one role comes to: whole rows and stripes by itself, and along the design.

    None where its rows are not known, or it has none; `stripes` for the main colour.
    """

    role: str
    have_m: float
    rows: int | None
    stripes: int | None
    walk: Walk | None


@dataclass(frozen=True, slots=True)
class Grown:
    """A design as large as it gets: along one side, or (with none) all in proportion."""

    side: str
    changed: Changed | None


@dataclass(frozen=True, slots=True)
class Reach:
    """All of it; `short` are the roles that lack yarn for the plan as it is.

    `brimless` is the design without its fold-up brim, where it is short with it.
    """

    known: DesignContext
    need: Need
    short: tuple[str, ...]
    roles: tuple[RoleReach, ...]
    sizes: tuple[Grown, ...]
    bands: tuple[Changed | None, ...]
    brimless: Changed | None


def reach(known: DesignContext, lots: Lots) -> Reach:
    """What can become of a design with so many metres of each role, lot after lot."""
    have = {role: together_m(known, each) for role, each in lots.items()}
    need = known.need(known.design)
    short = lacking(need, have)
    return Reach(
        known=known,
        need=need,
        short=short,
        roles=tuple(_roles(known, lots, need)),
        sizes=tuple(Grown(side, largest(known, have, side)) for side in _sides(known)),
        bands=tuple(widest_band(known, at, have) for at in _limited(known, have)),
        brimless=without_brim(known) if short else None,
    )


def role_reach(known: DesignContext, role: str, lots: Sequence[float], done: int = 0) -> RoleReach:
    """What the yarn of one role comes to, from after the rows that are done; refused without."""
    have_m = together_m(known, lots)
    return RoleReach(
        role=role,
        have_m=have_m,
        rows=rows_of(known, role, have_m),
        stripes=stripes_of(known, role, have_m),
        walk=walk(known, role, lots, done),
    )


def _roles(known: DesignContext, lots: Lots, need: Need) -> Iterator[RoleReach]:
    """The same of all; of those that lie in no row that is known, only how much there is."""
    in_rows = {one.role for one in need.roles if one.row_m}
    for role, each in sorted(lots.items()):
        if role in in_rows:
            yield role_reach(known, role, each)
        else:
            yield RoleReach(role, together_m(known, each), None, None, None)


def together_m(known: DesignContext, lots: Sequence[float]) -> float:
    """What several lots of one role come to, two tails less for each change between them."""
    return max(0.0, math.fsum(lots) - 2 * TAIL_M * known.design.strands * (len(lots) - 1))


def _sides(known: DesignContext) -> Iterator[str]:
    """All sides in proportion, then those that can be longer by themselves."""
    yield ""
    words = known.design.build.words
    yield from words if known.design.shape in _FLAT else words[1:]


def _limited(known: DesignContext, have: Mapping[str, float]) -> Iterator[int]:
    """The bands whose yarn is given."""
    return (at for at, band in enumerate(known.design.bands) if band.role in have)
