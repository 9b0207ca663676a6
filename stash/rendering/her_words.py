"""The program's own words as she says and types them: her spelling, and examples in her units.

Only what the program itself says goes through here, and before any fact is filled in: a word that
she typed herself is shown as she typed it.
"""

from __future__ import annotations

import re
from functools import lru_cache

from stash.measures.length import INCH_UM
from stash.rendering.figures import OUNCE_MG, YARD_UM, Units, screen
from stash.trade.fibres import under_each_name
from stash.trade.thickness import CLASSES

_AMERICAN = {
    "colour": "color", "fibre": "fiber", "grey": "gray", "centre": "center", "metre": "meter",
    "cancelled": "canceled", "unravell": "unravel", "misspelt": "misspelled",
}  # fmt: skip
#: Thicknesses that go by another name in the one country or the other (common practice, no
#: source).
_THICKNESS_US = {"chunky": "bulky", "super chunky": "super bulky"}
_THICKNESS_UK = {"fingering": "4 ply", "worsted": "aran"}
#: What is between braces is a fact to come; an example is an amount as it is typed, without a
#: space, and no part of a name such as `per 100g`.
_OWN = re.compile(
    rf"\{{[^{{}}]*\}}|(?P<word>{'|'.join(_AMERICAN)})"
    r"|(?<![\w.-])(?<!per )(?P<number>\d+(?:\.\d+)?)(?P<unit>g|m|cm)(?!\w)",
    re.IGNORECASE,
)


def hers(words: str) -> str:
    """Some of the program's own words, or a template of them, for her eyes."""
    return _in(words, screen().units)


@lru_cache(maxsize=1024)
def _in(words: str, units: Units) -> str:
    def put(found: re.Match[str]) -> str:
        if word := found["word"]:
            return _spelt(word) if units.american else word
        if found["unit"]:
            return _typed(float(found["number"]), found["unit"], units) or found[0]
        return found[0]

    return _OWN.sub(put, words)


def _spelt(word: str) -> str:
    plain = _AMERICAN[word.lower()]
    if word.isupper():
        return plain.upper()
    return plain.capitalize() if word[0].isupper() else plain


def _typed(number: float, unit: str, units: Units) -> str:
    """An example in her unit, as round as one types it; "" where it is in hers."""
    if unit == "g" and units.weight == "oz":
        ounces = number * 1000 / float(OUNCE_MG)
        return f"{round(4 * ounces) / 4 if ounces >= 1 else round(ounces, 2):g}oz"
    if unit == "m" and units.length == "yd":
        yards = number * 1_000_000 / YARD_UM
        return f"{5 * round(yards / 5) if yards >= 20 else round(yards):g}yd"
    if unit == "cm" and units.size == "in":
        return f"{round(number * 20_000 / INCH_UM) / 2:g}in"
    return ""


def blend(fibre: str) -> str:
    """What a yarn is made of, with the name her country has for a fibre of two names."""
    return under_each_name(fibre)[1] if screen().units.american else fibre


def thickness_name(low: int, high: int) -> str:
    """A thickness, or a range of them, without its number, as her country calls it."""
    units = screen().units
    other = _THICKNESS_US if units.american else _THICKNESS_UK if units.british else {}
    names = (CLASSES[number].name for number in (low, high))
    return " to ".join(dict.fromkeys(other.get(name, name) for name in names))


def named_thickness(low: int, high: int) -> str:
    """The same with its number: `DK (3)`, `DK to worsted (3-4)`."""
    return f"{thickness_name(low, high)} ({low if low == high else f'{low}-{high}'})"
