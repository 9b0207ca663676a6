"""Which yarns may share a wash: what felts, and what bears heat.

An item of several materials is washed as its most delicate part asks for (a reading of
ISO 3758, whose symbols give the most severe treatment that does no lasting harm). Which fibre
felts or bears heat is common practice, no source; the band and the care label outrank it.
"""

from __future__ import annotations

import re
from functools import lru_cache

from stash.trade.fibres import content

#: From here a wash is hot: hospital linen is held at 65 degrees C for ten minutes or at 71 for
#: three (guidance of the British Health and Safety Executive), and 60 is the care label below.
HOT_FROM = 60

#: Fibres that are commonly sold with a care label of 60 degrees or more: no wool, no hair, no silk,
#: no acetate, no acrylic, no rubber or elastane.
BEAR_HEAT = frozenset(
    {"cotton", "linen", "hemp", "ramie", "polyester", "polyamide", "nylon", "elastomultiester"}
)
_TREATED = re.compile(
    r"super[\s-]?wash|machine\s+wash|shrink[\s-]?(?:resist|proof)|non[\s-]?felting", re.IGNORECASE
)
_NOT_TREATED = re.compile(
    r"(?:\bnot?\b|\bnon|\bnever\b|n't)[\s-]*(?:be\s+)?(?:super[\s-]?wash|machine)", re.IGNORECASE
)
_COOL = re.compile(
    r"\b(?:hand[\s-]?wash|cold|cool|lukewarm|gentle|delicate|dry[\s-]?clean|do not wash)",
    re.IGNORECASE,
)
_DEGREES = re.compile(r"(?<![\d.,])([2-9]\d)(?![\d.,%])")


@lru_cache(maxsize=1024)
def felts(fibre: str, care: str) -> bool | None:
    """Whether a yarn may felt in a wash: any wool or hair in it, unless it was treated.

    None where the blend is not known, or not wholly, and nothing in it felts for certain.
    """
    made_of = content(fibre)
    if any(f.animal for f in made_of.fibres):
        return not _TREATED.search(care) or bool(_NOT_TREATED.search(care))
    return False if made_of.whole else None


@lru_cache(maxsize=1024)
def bears_hot_wash(fibre: str, care: str) -> bool | None:
    """Whether a yarn commonly bears 60 degrees C and more, by its fibres and its care words.

    None where the blend is not known wholly and nothing speaks against it.
    """
    made_of = content(fibre)
    degrees = [int(n) for n in _DEGREES.findall(care)]
    if not made_of.names <= BEAR_HEAT or _COOL.search(care):
        return False
    if degrees and max(degrees) < HOT_FROM:
        return False
    return True if made_of.whole else None
