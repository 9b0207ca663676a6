"""Whether the yarn lasts: for one ball, and for each role of an item."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from stash.measures.rounding import two_figures
from stash.rendering import figures
from stash.rendering.amounts import Page, chance, colour_name
from stash.rendering.columns import columns
from stash.rendering.figures import Figure
from stash.rendering.her_words import hers
from stash.rendering.sentences.say import sentence
from stash.requirements.lasting.balls import Stale
from stash.requirements.lasting.lasting import Lasting, Verdict

if TYPE_CHECKING:
    from stash.actions.lasts import Outlook

#: Stitches are only known to two figures; rows are few enough to be counted.
_ROUNDED_FROM = 1000

#: Where what one row takes shows fewer steps than this, it is said of ten, a hundred or more.
_FINE = 20
#: Beyond so many times what is left to do, a count says nothing: the design ends long before.
_FAR_MORE = 5
_INDENT = "   "
#: So many colours fit a screen with all that is behind their answers.
_MOST_IN_FULL = 3

_HEADS = {Verdict.YES: "Yes, it lasts:", Verdict.TIGHT: "Tight:", Verdict.NO: "No:"}


def keys(found: Outlook) -> dict[str, Any]:
    """The role that is least sure, with stable keys, and each role by itself; `not_known`: the
    roles that no weighing says anything of yet."""
    roles = {role: ball_keys(lasting, "row") for role, lasting in found.roles.items()}
    named = {"role": found.least_sure, "roles": roles, "not_known": list(found.unknown)}
    return {**roles[found.least_sure], **named}


def rows(found: Outlook) -> list[dict[str, Any]]:
    """One row for each role."""
    return [{"role": role, **ball_keys(one, "row")} for role, one in found.roles.items()]


def text(found: Outlook, page: Page, *, brief: bool = False) -> str:
    """The verdict for each colour and what is behind it; `brief`: no more than a screen of it."""
    many = len(found.roles) + len(found.unknown)
    short = brief and many > _MOST_IN_FULL
    parts = [
        (f"{yarn_named(found, role)}  " if role and many > 1 else "")
        + (_line(one, page) if short and role != found.least_sure else ball_text(one, "row", page))
        for role, one in found.roles.items()
    ]
    more = (
        [hers("One colour in full: stash lasts {item} --colour A").format(item=found.item.number)]
        if short
        else []
    )
    return "\n".join(parts + more)


def yarn_named(found: Outlook, role: str) -> str:
    """A colour and the yarn it is worked from: `B, cream`."""
    names = (colour_name(lot) for lot in found.lots.get(role, ()))
    return ", ".join([role, *dict.fromkeys(names)])


def _line(found: Lasting, page: Page) -> str:
    shown = have_and_need(found)
    head = f"{page.strong(_HEADS[found.verdict])} {_outcome(found, shown, 'row')}"
    return f"{head} (chance {chance(found.chance)})"


def outlook_notes(found: Outlook) -> list[str]:
    """What to know of it, and which weighings are old."""
    known = (*found.notes, *found.unknown.values())
    return [*map(sentence, known), *map(_stale, found.stale)]


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
    return f"{_count(count)} {unit if count == 1 else _many(unit)}"


def _count(count: float) -> str:
    return f"{two_figures(count) if count >= _ROUNDED_FROM else count:,g}"


def _stale(found: Stale) -> str:
    """From which row an answer speaks, and what to do about it."""
    of = f"{found.role}: " if found.role else ""
    return (
        f"{of}this is as of row {found.row:g}, when skein {found.skein} was last weighed; "
        f"weigh it now: `stash weigh {found.skein} 63g --row {found.now:g}`"
    )


def ball_text(found: Lasting, unit: str, page: Page) -> str:
    """The verdict; the amounts behind it, what they rest on, and what to do next."""
    shown = have_and_need(found)
    head = f"{page.strong(_HEADS[found.verdict])} {_outcome(found, shown, unit)}."
    behind = columns([*_amounts(found, shown, unit)], _INDENT)
    after = _next(found, unit)
    return "\n".join([head, behind, *([f"{_INDENT}{after}"] if after else [])])


@dataclass(frozen=True, slots=True)
class HaveAndNeed:
    """What is there, what it takes, and the difference of the two as they are shown."""

    have: Figure
    need: Figure
    short: bool
    rest: Figure


def have_and_need(found: Lasting) -> HaveAndNeed:
    """It as it is shown: what is over, or short, is made of the other two."""
    have = figures.near(figures.of_grams(found.have_g))
    need = figures.up(figures.of_grams(found.need_g))
    short = need > have or found.verdict is Verdict.NO
    return HaveAndNeed(have, need, short, need - have if short else have - need)


def _outcome(found: Lasting, shown: HaveAndNeed, unit: str) -> str:
    if not shown.short:
        return f"about {shown.rest} left over" if shown.rest else "next to nothing left over"
    fewer = _short(found, found.rows_likely)
    rows = _steps(fewer, unit) if fewer else ""
    missing = " or ".join(part for part in (str(shown.rest) if shown.rest else "", rows) if part)
    return f"about {missing} short" if missing else "just short"


def _amounts(found: Lasting, shown: HaveAndNeed, unit: str) -> Iterator[list[str]]:
    """What is there, less what it takes, is what is left, or what is missing the other way."""
    kept = figures.up(figures.of_grams(found.keep_g))
    none = found.rows_left and found.need_g <= found.keep_g
    each = "none of them has it" if none else f"so far {_each(found, unit)}"
    rows = f"for {_steps(found.rows_left, unit)} ({each})"
    keep = f", {kept} of it to keep" if kept else ""
    spread = figures.up(figures.of_grams(found.spread_g))
    yield ["have", str(shown.have), "by the last weighing"]
    yield ["need", str(shown.need), rows + keep]
    yield [
        "short" if shown.short else "left over",
        str(shown.rest),
        f"give or take {spread}; chance that it lasts {chance(found.chance)}",
    ]


def _each(found: Lasting, unit: str) -> str:
    """What one takes up to now, or so many that it can be shown in steps that say something."""
    for many in (1, 10, 100, 1000):
        took = figures.near(figures.of_grams(many * found.each_g))
        if took.steps >= _FINE:
            break
    one = f"a {unit}" if many == 1 else f"for {_steps(many, unit)}"
    return f"{took} {one}"


def _short(found: Lasting, lasts: int | None) -> int:
    """By how many the yarn ends too early; 0 if it does not."""
    return 0 if lasts is None else max(0, math.ceil(found.rows_left - lasts))


def _next(found: Lasting, unit: str) -> str:
    """How far it goes, what would make it safe, and when to weigh again."""
    if found.rows_likely is None or found.rows_sure is None:
        return ""
    fewer = _short(found, found.rows_sure) if found.verdict is not Verdict.YES else 0
    more = ", or get more of the same lot" if found.verdict is Verdict.NO else ""
    work = f": work {_count(fewer)} fewer{more}" if fewer else ""
    again = f" Weigh again in {_steps(found.weigh_again, unit)}." if found.weigh_again else ""
    if found.rows_sure > _FAR_MORE * found.rows_left:
        return f"Enough for far more than that.{again}"
    likely, sure = _steps(found.rows_likely, unit), _count(found.rows_sure)
    return f"Enough for about {likely}, for {sure} to be safe{work}.{again}"
