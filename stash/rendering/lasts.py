"""Whether the yarn lasts, as a person reads it and as a script does."""

from __future__ import annotations

import math
from typing import Any

from stash.measures.rounding import two_figures
from stash.rendering import amounts
from stash.requirements.lasting.balls import Stale
from stash.requirements.lasting.lasting import Lasting, Verdict

#: Stitches are only known to two figures; rows are few enough to be counted.
_ROUNDED_FROM = 1000

_HEADS = {Verdict.YES: "Yes, it lasts", Verdict.TIGHT: "Tight", Verdict.NO: "No"}


def keys(found: Lasting, counted: str) -> dict[str, Any]:
    """Whether it lasts, with stable keys; `left`, `likely`, `sure` and `weigh_again` are counted in
    rows, or in stitches where she counts those."""
    return {
        "need_g": found.need_g,
        "have_g": found.have_g,
        "spread_g": found.spread_g,
        "chance": found.chance,
        "verdict": found.verdict.value,
        "as_of_row": None if counted == "stitch" else found.as_of,
        "keep_g": found.keep_g,
        "each_g": found.each_g,
        "counted_in": _many(counted),
        "left": found.rows_left,
        "likely": found.rows_likely,
        "sure": found.rows_sure,
        "weigh_again": found.weigh_again,
    }


def _many(counted: str) -> str:
    return "stitches" if counted == "stitch" else f"{counted}s"


def _counted(count: float, thing: str) -> str:
    shown = two_figures(count) if count >= _ROUNDED_FROM else count
    return f"{shown:,g} {thing if count == 1 else _many(thing)}"


def stale(found: Stale) -> str:
    """From which row an answer speaks, and what to do about it."""
    of = f"{found.role}: " if found.role else ""
    return (
        f"{of}this speaks from row {found.row:g}, where skein {found.skein} was last weighed; "
        f"weigh it now: `stash weigh {found.skein} 63g --row {found.now:g}`"
    )


def verdict_words(found: Lasting) -> str:
    """The verdict in a word or two."""
    return _HEADS[found.verdict]


def text(found: Lasting, counted: str) -> str:
    """What stands behind the verdict: the grams, how they were reckoned, and what to do next."""
    lines = [_grams(found, counted), _reckoned(found, counted), _next(found, counted)]
    return "\n   ".join(line for line in lines if line)


def _grams(found: Lasting, counted: str) -> str:
    about = f"about {two_figures(abs(found.spare_g)):g} g"
    short = _short(found, found.rows_likely)
    room = f"{about} to spare"
    if found.spare_g < 0:
        room = f"{about}{f' or {_counted(short, counted)}' if short else ''} short"
    return (
        f"{found.have_g:.4g} g left, {two_figures(found.need_g):g} g needed, {room} "
        f"(chance {amounts.chance(found.chance)})"
    )


def _short(found: Lasting, lasts: int | None) -> int:
    """By how many the yarn ends too early; 0 if it does not."""
    return 0 if lasts is None else max(0, math.ceil(found.rows_left - lasts))


def _reckoned(found: Lasting, counted: str) -> str:
    per, each = (100, "per 100") if counted == "stitch" else (1, "each up to now")
    kept = f", {two_figures(found.keep_g):g} g kept back" if found.keep_g else ""
    return (
        f"{_counted(found.rows_left, counted)}, {two_figures(per * found.each_g):g} g {each}"
        f"{kept}; give or take {two_figures(found.spread_g):g} g"
    )


def _next(found: Lasting, counted: str) -> str:
    if found.rows_likely is None or found.rows_sure is None:
        return ""
    likely, sure = (_counted(n, counted) for n in (found.rows_likely, found.rows_sure))
    good = f"good for {likely}, {sure} to be safe"
    fewer = _short(found, found.rows_sure)
    out = {
        Verdict.YES: "",
        Verdict.TIGHT: f": with {_counted(fewer, counted)} fewer it is safe",
        Verdict.NO: f": work {_counted(fewer, counted)} fewer, or have more of the lot at hand",
    }
    again = f"; weigh again in {_counted(found.weigh_again, counted)}" if found.weigh_again else ""
    return good + (out[found.verdict] if fewer else "") + again
