"""Care as bands say it, and as a tag says it, in the order of ISO 3758."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from stash.trade.care import Bleach, Care, Clean, Dry, Iron, Wash

_NOT = r"\b(?:do not|don'?t|never|no|not)\s+"
#: Words of care and what they say, the first that fits is taken out (common practice, no source).
_SAID: tuple[tuple[str, dict[str, Any]], ...] = (
    (_NOT + r"dry[\s-]*clean(?:ed|ing)?\b", {"clean": Clean.NO}),
    (r"\bdry[\s-]*clean\s+only\b", {"clean": Clean.DRY, "wash": Wash.NO}),
    (r"\bdry[\s-]*clean(?:able|ing)?\b", {"clean": Clean.DRY}),
    (_NOT + r"(?:chlorine\s+)?bleach\b", {"bleach": Bleach.NO}),
    (r"\b(?:non[\s-]*chlorine|oxygen)\s+bleach(?:\s+only)?\b", {"bleach": Bleach.OXYGEN}),
    (r"\bbleach\b", {"bleach": Bleach.ANY}),
    (_NOT + r"tumble(?:[\s-]*dry)?\b", {"dry": Dry.NO_TUMBLE}),
    (r"\btumble(?:[\s-]*dry)?\s+(?:on\s+)?(?:low|cool)\b", {"dry": Dry.TUMBLE_LOW}),
    (r"\btumble(?:[\s-]*dry)?\b", {"dry": Dry.TUMBLE}),
    (r"\b(?:lay\s+|dry\s+)?flat(?:\s+to\s+dry|\s+dry)?\b", {"dry": Dry.FLAT}),
    (r"\b(?:line|drip|hang)(?:\s+to)?[\s-]*dry\b", {"dry": Dry.NO_TUMBLE}),
    (_NOT + r"iron\b", {"iron": Iron.NO}),
    (r"\b(?:cool|low)\s+iron\b|\biron\s+(?:on\s+)?(?:cool|low)\b", {"iron": Iron.COOL}),
    (r"\b(?:warm|medium)\s+iron\b|\biron\s+(?:on\s+)?(?:warm|medium)\b", {"iron": Iron.WARM}),
    (r"\b(?:hot|high)\s+iron\b|\biron\s+(?:on\s+)?(?:hot|high)\b", {"iron": Iron.HOT}),
    (_NOT + r"machine[\s-]+wash\b", {"wash": Wash.HAND}),
    (_NOT + r"wash\b", {"wash": Wash.NO}),
    (r"\b(?:cold|cool)[\s-]+hand[\s-]+wash\w*(?:\s+only)?", {"wash": Wash.HAND, "max_c": 30}),
    (r"\bhand[\s-]+wash\w*(?:\s+only)?", {"wash": Wash.HAND}),
    (r"\b(?:gentle|delicate|mild|wool)\s+(?:machine\s+)?(?:wash|cycle|programme?)\b",
     {"wash": Wash.GENTLE}),
    (r"\bmachine[\s-]+wash\w*|\bsuper[\s-]*wash\b", {"wash": Wash.MACHINE}),
    (r"\bgentle\b|\bdelicates?\b", {"wash": Wash.GENTLE}),
)  # fmt: skip
_DEGREES = re.compile(r"(?<!\d)([3-9]\d)\s*(?:°\s*c?|c\b|degrees\b)?", re.IGNORECASE)
#: Cold and warm as US labels mean them: up to 30 and up to 43 degrees (16 CFR 423; from memory).
_WARMTH = {r"\b(?:cold|cool)\b": 30, r"\bwarm\b": 40}
_HARMLESS = re.compile(
    r"\b(?:wash(?:able)?|at|max(?:imum)?|only|in|on|water|to|dry|and|or)\b|[\W_]+"
)


def care(text: str) -> tuple[Care, str]:
    """What the care words of a band say, and those that are not understood.

    Degrees without any word for how mean a machine. What forbids more outweighs what allows.
    """
    rest, found = f" {text.lower()} ", Care()
    for pattern, said in _SAID:
        rest, times = re.subn(pattern, " ; ", rest)
        if times:
            found = _with(found, said)
    if degrees := [int(n) for n in _DEGREES.findall(rest)]:
        how = Wash.MACHINE if found.wash is None else found.wash
        found = replace(found, max_c=min(degrees), wash=how)
        rest = _DEGREES.sub(" ; ", rest)
    for pattern, degrees_c in _WARMTH.items():
        rest, times = re.subn(pattern, " ; ", rest)
        if times and found.max_c is None and found.wash is not None:
            found = replace(found, max_c=degrees_c)
    return found, " ".join(_HARMLESS.sub(" ", rest).split())


def _with(found: Care, said: dict[str, Any]) -> Care:
    """The words added; of two on the same thing the one that spares more."""
    new = {}
    for name, value in said.items():
        old = getattr(found, name)
        new[name] = value if old is None or name == "max_c" else max(old, value)
    return replace(found, **new)
