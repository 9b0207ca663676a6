"""Care as a tag says it, in the order of ISO 3758."""

from __future__ import annotations

from typing import Any

from stash.trade.care import Bleach, Care, Clean, Dry, Iron, Wash

_WASHED = {
    Wash.MACHINE: "machine wash",
    Wash.GENTLE: "gentle machine wash",
    Wash.HAND: "hand wash",
    Wash.NO: "do not wash",
}


_REST: dict[str, dict[Any, str]] = {
    "bleaching": {
        Bleach.ANY: "any bleach",
        Bleach.OXYGEN: "oxygen bleach only",
        Bleach.NO: "do not bleach",
    },
    "drying": {
        Dry.TUMBLE: "tumble dry",
        Dry.TUMBLE_LOW: "tumble dry at low heat",
        Dry.NO_TUMBLE: "do not tumble dry",
        Dry.FLAT: "dry flat, do not tumble dry",
    },
    "ironing": {
        Iron.HOT: "hot iron",
        Iron.WARM: "warm iron",
        Iron.COOL: "cool iron",
        Iron.NO: "do not iron",
    },
    "professional care": {Clean.DRY: "can be dry cleaned", Clean.NO: "do not dry clean"},
}


def care_words(known: Care, *, fahrenheit: bool = False) -> dict[str, str | None]:
    """Each kind of care in words, in the order of ISO 3758; None where it is not known."""
    parts = (known.bleach, known.dry, known.iron, known.clean)
    rest = {
        kind: None if part is None else words[part]
        for (kind, words), part in zip(_REST.items(), parts, strict=True)
    }
    return {"washing": _washing(known, fahrenheit), **rest}


def _washing(known: Care, fahrenheit: bool) -> str | None:
    if known.wash is None:
        return None
    how = _WASHED[known.wash]
    if known.wash is Wash.NO:
        return how
    if known.max_c is None:
        return how
    most = f"{round(known.max_c * 9 / 5 + 32)} °F" if fahrenheit else f"{known.max_c} °C"
    return f"{how} at up to {most}"
