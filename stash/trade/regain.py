"""Moisture that yarn takes up: agreed allowances by fibre, and what a mass is at another dampness.

Regain is the moisture in percent of the dry mass. Two named sets of agreed values: *eu* is
Regulation (EU) No 1007/2011, Annex IX (the table in `fibres`); *us* is ASTM D1909, quoted from
D1909-13 in Bioresources and Bioprocessing 2020 (table 10) where `US_PRINTED` has it, the rest from
memory.
Length does not change with moisture: a dry ball weighs less and is as long.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from stash.trade.fibres import fibre_named

#: Quoted in the paper named above.
US_PRINTED: Mapping[str, float] = {
    "wool": 13.6,
    "merino wool": 13.6,
    "silk": 11.0,
    "cotton": 8.5,
    "linen": 12.0,
    "hemp": 12.0,
    "jute": 13.75,
}
#: From memory, unverified; wanted only so that a blend has a figure at all.
US_FROM_MEMORY: Mapping[str, float] = {
    "acrylic": 1.5,
    "polyester": 0.4,
    "polyamide": 4.5,
    "nylon": 4.5,
    "viscose": 11.0,
    "lyocell": 11.0,
    "acetate": 6.5,
    "triacetate": 3.5,
    "elastane": 1.3,
}


class RegainSet(StrEnum):
    """Whose agreed allowances are used."""

    EU = "eu"
    US = "us"


@dataclass(frozen=True, slots=True)
class Share:
    """So much of one fibre in a blend, as a fraction of the dry mass.

    `second` takes the second printed value of the EU set: combed wool, mercerised cotton.
    """

    fibre: str
    part: float
    second: bool = False


def shares_of(blend: str) -> list[Share]:
    """The shares in the words of a band as a record keeps them: `75% wool, 25% polyamide`."""
    found = re.findall(r"(\d+(?:\.\d+)?)\s*%\s*([^,;/+&%\d]+)", blend)
    return [
        Share(name.strip().removesuffix(" and"), float(percent) / 100) for percent, name in found
    ]


def agreed_regain(share: Share, rules: RegainSet = RegainSet.EU) -> float | None:
    """The agreed regain of a fibre in percent, None where the set has none."""
    found = fibre_named(share.fibre)
    if found is None:
        return None
    if rules is RegainSet.US:
        return US_PRINTED.get(found.name, US_FROM_MEMORY.get(found.name))
    if share.second and found.other_regain is not None:
        return found.other_regain
    return found.regain


def blend_regain(shares: Sequence[Share], rules: RegainSet = RegainSet.EU) -> float | None:
    """The agreed regain of a blend: the sum over its dry shares; None where a fibre has none."""
    parts = [(share.part, agreed_regain(share, rules)) for share in shares]
    if not parts or any(regain is None for _, regain in parts):
        return None
    return math.fsum(part * regain for part, regain in parts if regain is not None)


def at_dampness(regain: float, humidity: float) -> float:
    """The regain of yarn in a room of so much relative humidity, from its agreed one at 65 %.

    Between 30 and 80 % the curves of wool and cotton are near a straight line through two thirds of
    the agreed value at 40 % (from memory, unverified; 18 % wool and 8.5 % cotton at 65 %).
    """
    return regain * (100 * humidity + 5) / 70
