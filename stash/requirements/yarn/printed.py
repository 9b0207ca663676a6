"""A pattern's printed figure: what it says of the yarn, and where it lies beside an estimate.

A figure in metres is taken as what is expected, though printed ones are often rounded up. A figure
for buying, so many whole skeins, is an interval: it takes no more than they hold, and more than one
skein fewer, else fewer would have been printed.
"""

from __future__ import annotations

import math
from enum import StrEnum

from stash.measures.estimate import Estimate
from stash.measures.length import Length
from stash.measures.note import Note
from stash.requirements.yarn.margin import margin_for
from stash.requirements.yarn.need import Figure, RoleNeed, Source
from stash.requirements.yarn.tails import JOIN_M

#: How far a pattern's printed figure is off, one standard deviation (a measured figure of
#: somebody else's, 8 %).
STATED_SPREAD = 0.08
#: Of one skein, half at the least: who needs less of it says so (our choice).
_LEAST_OF_ONE = 0.5


def printed(length: Length, skeins: int | None) -> Estimate:
    """A printed length as an estimate; `skeins` where it is that of so many whole ones.

    Anywhere in the interval is as likely: its middle, and its width by the root of twelve.
    """
    if skeins is None:
        return Estimate(length.m, STATED_SPREAD * length.m)
    least_m = length.m * (1 - 1 / skeins if skeins > 1 else _LEAST_OF_ONE)
    return Estimate((least_m + length.m) / 2, (length.m - least_m) / math.sqrt(12))


def bought_margin(length: Length, skeins: int) -> float:
    """The margin up to the end of the last skein, no more: so many are enough, joins and all."""
    return (length.m - JOIN_M * (skeins - 1)) / printed(length, skeins).expected_m - 1


class PrintedPlace(StrEnum):
    """Where a printed length lies beside what another source says."""

    BELOW = "below"
    BETWEEN = "between"
    ABOVE = "above"


def where_it_lies(need: RoleNeed, length: Length) -> Note | None:
    """Where a printed length lies beside another figure for its role; None without one."""
    own = Figure(need.source, need.estimate)
    other = next((f for f in (own, *need.others) if f.source is not Source.STATED), None)
    if other is None:
        return None
    margin = need.margin if other is own else margin_for(other.estimate, None)
    expected_m = other.estimate.expected_m
    aside_m = expected_m * (1 + margin)
    place = PrintedPlace.BETWEEN if length.m <= aside_m else PrintedPlace.ABOVE
    return Note(
        "printed_beside_estimate",
        role=need.role,
        printed=length,
        place=PrintedPlace.BELOW if length.m < expected_m else place,
        source=other.source,
        expected_m=expected_m,
        set_aside_m=aside_m,
    )
