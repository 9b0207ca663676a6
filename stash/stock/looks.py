"""What a lot looks like: as it was said, else what its colours and its fibre make likely.

A derived value is never written down, so that what nobody said stays unsaid.
"""

from __future__ import annotations

from functools import lru_cache

from stash.stock.yarn import Dyed, Lot, Surface
from stash.trade.fibres import content

#: Hair that stands off the strand where it is most of a yarn (common practice, no source).
_WITH_A_HALO = frozenset({"mohair", "angora"})


def looks_dyed(lot: Lot) -> Dyed | None:
    """How its colours lie: one is solid, several are variegated; None where none is known."""
    if lot.dyed or not lot.colours:
        return lot.dyed
    return Dyed.SOLID if len(lot.colours) == 1 else Dyed.VARIEGATED


def looks_surface(lot: Lot) -> Surface:
    """What its strand is like: brushed where mohair or angora comes first, else smooth.

    Nothing else follows: a thick yarn may be a single or plied, cotton cabled or not.
    """
    return lot.surface or _of_fibre(lot.fibre)


# a shelf holds few different blends, and many lots of each
@lru_cache(maxsize=1024)
def _of_fibre(fibre: str) -> Surface:
    first = next(iter(content(fibre).fibres), None)
    return Surface.BRUSHED if first and first.name in _WITH_A_HALO else Surface.SMOOTH
