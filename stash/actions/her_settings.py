"""Her settings as the file keeps them, and what each is until she sets it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from stash.costing.pools import Method
from stash.matching.question.wish import (
    Contrast,
    Fineness,
    Ranking,
    Wished,
    fineness,
    wished,
)
from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.measures.vision import Vision
from stash.requirements.design.sizing import sides_of
from stash.stock.holding import USUAL_USEFUL_SIZE
from stash.stock.spread import USUAL_SCALE, Scale
from stash.store import entry_rows
from stash.store.engine import Connection
from stash.trade.regain import RegainSet

#: What one setting of all units sets each of them to.
SYSTEMS: Mapping[str, Mapping[str, str]] = {
    "metric": {"length": "m", "weight": "g", "size": "cm"},
    "us": {"length": "yd", "weight": "oz", "size": "in"},
}
#: The settings that are units.
UNITS = tuple(SYSTEMS["metric"])


def system_of(kept: Mapping[str, str | None]) -> str | None:
    """The system that all three kept units are of; None where they are of none."""
    own = {name: kept.get(name) for name in UNITS}
    return next((system for system, units in SYSTEMS.items() if own == units), None)


def units_decided(typed: Mapping[str, str]) -> dict[str, str]:
    """All three units, by those that somebody typed; none where they leave it open.

    A length decides. Ounces alone go with yards; grams alone go with both, and so does no weight.
    """
    length = typed.get("length") or ("yd" if typed.get("weight") == "oz" else "")
    if not length:
        return {}
    size = SYSTEMS["us" if length == "yd" else "metric"]["size"]
    return {"length": length, "weight": typed.get("weight") or "g", "size": size}


@dataclass(frozen=True, slots=True)
class Settings:
    """Her settings as measures; what she never set has its usual value.

    `length` (of yarn: m or yd), `weight` (g or oz) and `size` (of work: cm or in) are the units
    she sees; empty until she, or what she types, has chosen them.
    """

    length: str = ""
    weight: str = ""
    size: str = ""
    scale_step: Mass = grams(1)
    humidity: tuple[float, float] = USUAL_SCALE.damp
    rules: str = "eu"
    terms: str = "us"
    margin: float | None = None
    thickness_tolerance: int = 0
    useful_end: Length = metres(2)
    useful_size: Length = USUAL_USEFUL_SIZE
    contrast: Wished = Contrast.ANY
    fineness: Fineness | None = None
    colour_vision: Vision | None = None
    currency: str = ""
    wage: Money | None = None
    sundries: Money | None = None
    overhead: Fraction | None = None
    fees: Fraction | None = None
    valuation: Method = Method.SPECIFIC
    maker: str = ""
    address: str = ""
    contact: str = ""
    letter_keys: str = "on"
    ranking: Ranking = Ranking()
    kept: dict[str, str] | None = None

    @classmethod
    def read(cls, db: Connection) -> Settings:
        """What the file says, in one question."""
        return cls.of(entry_rows.settings(db))

    @classmethod
    def of(cls, kept: dict[str, str]) -> Settings:
        """From settings as they are kept: whole units as digits, fractions as decimals."""
        usual = cls()
        margin = kept.get("margin")
        ranking = {
            name.removeprefix("ranking ").replace(" ", "_"): float(value)
            for name, value in kept.items()
            if name.startswith("ranking ")
        }
        return cls(
            scale_step=Mass(int(kept.get("scale step", usual.scale_step.mg))),
            humidity=_span(kept["humidity"]) if "humidity" in kept else usual.humidity,
            rules=kept.get("rules", usual.rules),
            terms=kept.get("terms", usual.terms),
            margin=None if margin is None else float(margin),
            thickness_tolerance=int(kept.get("thickness tolerance", usual.thickness_tolerance)),
            useful_end=Length(int(kept.get("useful end", usual.useful_end.um))),
            useful_size=Length(int(kept.get("useful size", usual.useful_size.um))),
            contrast=wished(kept["contrast"]) if "contrast" in kept else usual.contrast,
            fineness=fineness(kept["per 100g"]) if "per 100g" in kept else None,
            colour_vision=_vision(kept.get("colour vision", "usual")),
            currency=kept.get("currency", usual.currency),
            wage=_money(kept.get("wage")),
            sundries=_money(kept.get("sundries")),
            overhead=_share(kept.get("overhead")),
            fees=_share(kept.get("fees")),
            valuation=Method(kept.get("valuation", usual.valuation)),
            **{name: kept.get(name, "") for name in (*UNITS, "maker", "address", "contact")},
            letter_keys=kept.get("letter keys", usual.letter_keys),
            ranking=Ranking(**ranking),
            kept=kept,
        )

    @property
    def scale(self) -> Scale:
        """Her scale and its room, for how sure a weight is."""
        return Scale(self.scale_step, self.humidity, self.moisture)

    @property
    def moisture(self) -> RegainSet:
        """The table of moisture that goes with her rules."""
        return RegainSet.US if self.rules == "us" else RegainSet.EU

    def own_size(self, name: str) -> dict[str, Length] | None:
        """A size of her own chart: finished sides by the names of their options."""
        plain = re.sub(r"[-_\s]+", " ", name).strip().lower()
        kept = (self.kept or {}).get(f"size {plain}")
        return None if kept is None else sides_of(kept)

    def hours(self, design: str) -> Fraction | None:
        """The hours that one item of a design takes, as she has set them, to the minute."""
        kept = (self.kept or {}).get(f"hours {' '.join(design.lower().split())}")
        return None if kept is None else Fraction(int(kept), 60)

    def tare(self, name: str) -> Mass | None:
        """A tare she has named, such as *bowl*."""
        kept = (self.kept or {}).get(f"tare {name}")
        return None if kept is None else Mass(int(kept))


#: Settings whose record calls them otherwise.
_FIELDS = {"per 100g": "fineness"}


def usual_of(name: str) -> Any:
    """What a setting is until she sets it; None where it is nothing."""
    kind, _, rest = name.partition(" ")
    holder = Settings().ranking if kind == "ranking" else Settings()
    plain = (rest if kind == "ranking" else _FIELDS.get(name, name)).replace(" ", "_")
    return getattr(holder, plain, None)


def _vision(kept: str) -> Vision | None:
    return None if kept == "usual" else Vision(kept)


def _money(kept: str | None) -> Money | None:
    return None if kept is None else Money(int(kept))


def _share(kept: str | None) -> Fraction | None:
    return None if kept is None else Fraction(kept)


def _span(kept: str) -> tuple[float, float]:
    low, _, high = kept.partition(" ")
    return float(low), float(high)
