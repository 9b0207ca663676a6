"""Measures as a person reads them, in the units she works in."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from stash.measures.colour import family, lab
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering import figures
from stash.rendering.her_words import hers
from stash.stock.yarn import Lot, LotState


def yarn(length: Length | None) -> str:
    """A length of yarn to the nearest step, as it was used or is expected."""
    return "length not known" if length is None else str(figures.near(length))


def amount(length: Length | None, mass: Mass) -> str:
    """Yarn by both its measures: `142 m, 61.5 g`."""
    return f"{yarn(length)}, {grams(mass)}"


def _same(words: str) -> str:
    return words


def _none(lot: Lot) -> str:
    return ""


@dataclass(frozen=True, slots=True)
class Page:
    """How an answer is set for reading: her currency, headlines, patches of colour.

    A patch stands in front of a lot's name, and is nothing where no colour can be shown. `encoding`
    says which letters can be shown; `across` how wide her terminal is, None where lines are whole.
    """

    currency: str = ""
    strong: Callable[[str], str] = _same
    patch: Callable[[Lot], str] = _none
    encoding: str = "utf-8"
    across: int | None = None


def grams(mass: Mass) -> str:
    """A weight to the nearest step."""
    return str(figures.near(mass))


def chance(probability: float) -> str:
    """A chance in whole percent; what is only nearly certain is not called certain."""
    if probability > 0.99:
        return "over 99%"
    return "under 1%" if probability < 0.01 else f"{probability:.0%}"


def colour(lot: Lot, *, numbers: bool = False) -> str:
    """A lot's colour by its name, or its family's, and how light it is: `navy (very dark)`.

    A patch of colour says nothing to some eyes and on some screens; these words do. With `numbers`
    the lightness from 0 to 100 is shown too: `navy (very dark, 14)`.
    """
    shades = [lab(value) for value in lot.colours]
    named = lot.colour or lot.colour_no or not shades
    name = colour_name(lot) if named else hers("/".join(dict.fromkeys(map(family, shades))))
    light = "/".join(dict.fromkeys(lightness_words(shade.lightness) for shade in shades))
    exact = "/".join(str(int(shade.lightness)) for shade in shades) if numbers else ""
    shown = ", ".join(part for part in (light, exact) if part)
    return f"{name} ({shown})" if shown else name


#: Up to where each word for lightness goes, from 0 to 100.
_LIGHTNESS = ((25, "very dark"), (45, "dark"), (65, "medium"), (85, "light"))


def lightness_words(lightness: float) -> str:
    """How light a colour is, in words."""
    return next((words for below, words in _LIGHTNESS if lightness < below), "very light")


def colour_name(lot: Lot) -> str:
    """The colour as a person says it, with its number where there is one."""
    number = f"no. {lot.colour_no}" if lot.colour_no else ""
    return " ".join(part for part in (lot.colour, number) if part) or hers("colour not known")


def dye_lot(lot: Lot) -> str:
    """The dye lot as a person says it."""
    return {
        LotState.NUMBERED: f"lot {lot.lot}",
        LotState.CLAIMED_NONE: "no dye lot",
        LotState.UNKNOWN: "lot not known",
    }[lot.lot_state]


def counted(count: int, thing: str) -> str:
    """So many of a thing: `1 skein`, `3 skeins`."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def numbers(wanted: Sequence[int]) -> str:
    """Numbers with runs drawn together: `4, 17-19`."""
    runs: list[list[int]] = []
    for number in sorted(wanted):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(r[0]) if len(r) == 1 else f"{r[0]}-{r[-1]}" for r in runs)


def bar(part: float, width: int = 10) -> str:
    """A share drawn as a bar that needs no colour: full at 1 alone, never beyond."""
    full = width if part >= 1 else min(round(max(part, 0.0) * width), width - 1)
    return "■" * full + "·" * (width - full)
