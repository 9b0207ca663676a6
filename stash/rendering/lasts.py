"""Whether the yarn lasts: for one ball, and for each role of an item."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from stash.measures.rounding import two_figures
from stash.rendering.amounts import Page, chance
from stash.rendering.sentences.say import sentence
from stash.requirements.lasting.balls import Stale
from stash.requirements.lasting.lasting import Lasting, Verdict

if TYPE_CHECKING:
    from stash.actions.lasts import Outlook

#: Stitches are only known to two figures; rows are few enough to be counted.
_ROUNDED_FROM = 1000

_HEADS = {Verdict.YES: "Yes, it lasts", Verdict.TIGHT: "Tight", Verdict.NO: "No"}


def keys(found: Outlook) -> dict[str, Any]:
    """The role that is least sure, with stable keys, and each role by itself."""
    roles = {role: ball_keys(lasting, "row") for role, lasting in found.roles.items()}
    return {**roles[found.least_sure], "role": found.least_sure, "roles": roles}


def rows(found: Outlook) -> list[dict[str, Any]]:
    """One row for each role."""
    return [{"role": role, **ball_keys(one, "row")} for role, one in found.roles.items()]


def text(found: Outlook, page: Page) -> str:
    """The verdict for each role, and what stands behind it."""
    many = len(found.roles) > 1
    return "\n".join(
        (f"{role}  " if role and many else "") + ball_text(one, "row", page)
        for role, one in found.roles.items()
    )


def outlook_notes(found: Outlook) -> list[str]:
    """What to know of it, and which weighings are old."""
    return [*map(sentence, found.notes), *map(_stale, found.stale)]


def ball_keys(found: Lasting, unit: str) -> dict[str, Any]:
    """Whether it lasts, with stable keys; `left`, `likely`, `sure` and `weigh_again` are counted in
    rows, or in stitches where she counts those: `unit` is "row" or "stitch"."""
    return {
        "need_g": found.need_g,
        "have_g": found.have_g,
        "spread_g": found.spread_g,
        "chance": found.chance,
        "verdict": found.verdict.value,
        "as_of_row": None if unit == "stitch" else found.as_of,
        "keep_g": found.keep_g,
        "each_g": found.each_g,
        "counted_in": _many(unit),
        "left": found.rows_left,
        "likely": found.rows_likely,
        "sure": found.rows_sure,
        "weigh_again": found.weigh_again,
    }


def _many(unit: str) -> str:
    return "stitches" if unit == "stitch" else f"{unit}s"


def _steps(count: float, unit: str) -> str:
    shown = two_figures(count) if count >= _ROUNDED_FROM else count
    return f"{shown:,g} {unit if count == 1 else _many(unit)}"


def _stale(found: Stale) -> str:
    """From which row an answer speaks, and what to do about it."""
    of = f"{found.role}: " if found.role else ""
    return (
        f"{of}this speaks from row {found.row:g}, where skein {found.skein} was last weighed; "
        f"weigh it now: `stash weigh {found.skein} 63g --row {found.now:g}`"
    )


def ball_text(found: Lasting, unit: str, page: Page) -> str:
    """The verdict; the grams behind it, how they were reckoned, and what to do next."""
    lines = [_grams(found, unit), _reckoned(found, unit), _next(found, unit)]
    behind = "\n   ".join(line for line in lines if line)
    return f"{page.strong(_HEADS[found.verdict])}: {behind}"


def _grams(found: Lasting, unit: str) -> str:
    about = f"about {two_figures(abs(found.spare_g)):g} g"
    short = _short(found, found.rows_likely)
    room = f"{about} to spare"
    if found.spare_g < 0:
        room = f"{about}{f' or {_steps(short, unit)}' if short else ''} short"
    return (
        f"{found.have_g:.4g} g left, {two_figures(found.need_g):g} g needed, {room} "
        f"(chance {chance(found.chance)})"
    )


def _short(found: Lasting, lasts: int | None) -> int:
    """By how many the yarn ends too early; 0 if it does not."""
    return 0 if lasts is None else max(0, math.ceil(found.rows_left - lasts))


def _reckoned(found: Lasting, unit: str) -> str:
    per, each = (100, "per 100") if unit == "stitch" else (1, "each up to now")
    kept = f", {two_figures(found.keep_g):g} g kept back" if found.keep_g else ""
    return (
        f"{_steps(found.rows_left, unit)}, {two_figures(per * found.each_g):g} g {each}"
        f"{kept}; give or take {two_figures(found.spread_g):g} g"
    )


def _next(found: Lasting, unit: str) -> str:
    if found.rows_likely is None or found.rows_sure is None:
        return ""
    likely, sure = (_steps(n, unit) for n in (found.rows_likely, found.rows_sure))
    good = f"good for {likely}, {sure} to be safe"
    fewer = _short(found, found.rows_sure)
    out = {
        Verdict.YES: "",
        Verdict.TIGHT: f": with {_steps(fewer, unit)} fewer it is safe",
        Verdict.NO: f": work {_steps(fewer, unit)} fewer, or have more of the lot at hand",
    }
    again = f"; weigh again in {_steps(found.weigh_again, unit)}" if found.weigh_again else ""
    return good + (out[found.verdict] if fewer else "") + again
