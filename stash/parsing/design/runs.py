"""A run of sizes and options as it is typed: sizes, brims and bands, with commas between."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from stash.errors import BadInput, Unreadable
from stash.measures.length import Length
from stash.parsing import numbers, quantities
from stash.parsing.design import bands as bands_typed
from stash.parsing.design import sizes as sizes_typed
from stash.parsing.design.wearers import wearer
from stash.requirements.design.bands import Band, Place
from stash.requirements.design.design import Design
from stash.requirements.design.sizing import worn, worn_on
from stash.requirements.fit.grading import BandsAsked, Run, SizeAsked

#: A comma between two digits is a decimal one, as in 58,5cm.
_BETWEEN = re.compile(r"\s*(?:;|(?<![0-9]),|,(?![0-9]))\s*")
_TIMES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*(?=[0-9.½¼¾])", re.IGNORECASE)
_UNIT = re.compile(r"[a-z]+\s*$|\"\s*$", re.IGNORECASE)

#: Her own sizes: the finished sides of one by name, None where there is none of that name.
Chart = Callable[[str], Mapping[str, Length] | None]


@dataclass(frozen=True, slots=True)
class RunWords:
    """A run as typed; an empty text is an option not given."""

    sizes: str
    brims: str = ""
    bands: str = ""
    ease: str = ""


def run(words: RunWords, plan: Design, chart: Chart) -> Run:
    """The run of sizes and options that these words describe for a plan."""
    return Run(
        sizes=sizes(words.sizes, plan, chart),
        brims=brims(words.brims),
        bands=bands(words.bands, plan),
        ease=sizes_typed.ease(words.ease) if words.ease else None,
    )


def parts(text: str) -> list[str]:
    """What stands between the commas."""
    return [part.strip() for part in _BETWEEN.split(text) if part.strip()]


def sizes(text: str, plan: Design, chart: Chart) -> tuple[SizeAsked, ...]:
    """Each size: `woman`, `child 4 years`, `56cm` as measured, `58cm x 24cm` finished, or hers.

    All that cannot be read are named at once.
    """
    found, wrong = [], []
    for part in parts(text):
        try:
            found.append(_size(part, plan, chart))
        except BadInput as bad:
            wrong.append(bad)
    if len(wrong) == 1:
        raise wrong[0]
    if wrong:
        raise BadInput("several_wrong", errors=tuple(wrong))
    if not found:
        raise Unreadable(text, "no_sizes")
    return tuple(found)


def _size(text: str, plan: Design, chart: Chart) -> SizeAsked:
    hers = chart(text)
    if hers is not None:
        return SizeAsked(text, sides=hers)
    words = plan.build.words
    figures = _TIMES.split(text)
    measured = re.match(numbers.PATTERN, numbers.cleaned(text).strip()) is not None
    if len(figures) == 1 and plan.shape is not None and worn(plan.shape):
        return SizeAsked(text, whom=wearer(text, worn_on(plan.shape)))
    if not measured or len(figures) > len(words):
        raise Unreadable(text, "size_in_other_sides", shape=plan.shape)
    return SizeAsked(text, sides=dict(zip(words, _sides(figures), strict=False)))


def _sides(figures: Sequence[str]) -> list[Length]:
    """Sides above nothing; one unit at the end is that of all, as in 58 x 24cm."""
    unit = _UNIT.search(figures[-1])
    typed = [f if _UNIT.search(f) or not unit else f + unit[0] for f in figures]
    sides = [quantities.length(text) for text in typed]
    for text, side in zip(typed, sides, strict=True):
        if side.um <= 0:
            raise Unreadable(text, "finished_side_of_nothing")
    return sides


def brims(text: str) -> tuple[Length | None, ...]:
    """Fold-up brims: `none, 6cm`."""
    return tuple(sizes_typed.brim(part) for part in parts(text))


def bands(text: str, plan: Design) -> tuple[BandsAsked, ...]:
    """Choices of bands: `B 2cm, B 4cm`; several at once `B 2cm + C 1cm`; or `none`.

    A band whose place is not said is where the plan has its role's only band.
    """
    return tuple(_choice(part, plan.bands) for part in parts(text))


def _choice(text: str, planned: Sequence[Band]) -> BandsAsked:
    if text.lower() in ("none", "no band"):
        return BandsAsked("no band")
    return BandsAsked(text, tuple(_placed(part.strip(), planned) for part in text.split("+")))


def _placed(text: str, planned: Sequence[Band]) -> Band:
    band = bands_typed.band(text)
    there = [one for one in planned if one.role == band.role]
    if band.place is Place.BOTTOM and "bottom" not in text.lower() and len(there) == 1:
        return replace(band, place=there[0].place)
    return band
