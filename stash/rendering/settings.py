"""Her settings as a person reads them."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import (
    LENGTH_UNITS,
    MASS_UNITS,
    show_length,
    show_mass,
    show_minutes,
    show_money,
)
from stash.rendering import figures
from stash.rendering.her_words import hers
from stash.rendering.work import show_share
from stash.requirements.design.sizing import sides_of

#: What every setting is for, in groups and in the order people look for them; tares, sizes, hours,
#: rankings and headings have a name of their own behind theirs.
GROUPS = {
    "Units": {
        "units": "metric or us: sets the next three",
        "length": "m or yd, for yarn",
        "weight": "g or oz, for yarn",
        "size": "cm or in, for what you make",
    },
    "Making": {
        "terms": "us or uk names of crochet stitches",
        "margin": "spare yarn on top of an estimate, as 15%",
        "thickness tolerance": "steps of thickness a yarn may be off, as 1",
        "useful end": "the shortest end worth joining in, as 2m",
        "useful size": "an opened skein with less is a remnant, as 10m",
        "hours DESIGN": "hours for one of a design, as 3h 20min",
        "size NAME": "a size of your own: around 54cm tall 22cm",
    },
    "Choosing yarn": {
        "contrast": "how far apart colours are: bold, clear, soft, tonal or any; or 20-40",
        "colour vision": "if you are colour-blind: protan (red), deutan (green) or tritan (blue)",
        "per 100g": "metres in 100 g a yarn may have, as 200-260; or 15% around the design's",
        "ranking NAME": "how much something counts against a yarn; `stash settings ranking`",
    },
    "Scale": {
        "scale step": "the smallest step of your scale, as 1g",
        "tare NAME": "the weight of a bowl or core, as 12g",
        "humidity": "how damp your room is, as 40% to 60%",
    },
    "Money": {
        "currency": "the money of this file, as EUR",
        "wage": "what an hour of your work is worth",
        "sundries": "buttons, labels and so on per item, as 0.80",
        "overhead": "rent, tools and power, as a share of yarn, sundries and work: 10%",
        "fees": "what the market keeps of a price, as 6.5%",
        "valuation": "the cost of yarn you use: specific (what that skein cost), fifo (oldest "
        "price first) or average (of that yarn); chosen once a year, for the accounts",
    },
    "Page": {
        "letter keys": "on or off: single letters as keys on the page",
    },
    "Sale tags and sheets": {
        "rules": "eu, uk or us: the law your tags follow",
        "maker": "your name or your workshop's, for tags",
        "address": "your postal address, for tags",
        "contact": "your e-mail or web address, for tags",
        "heading NAME": "the column a heading of your sheets means",
    },
}
MEANINGS = {name: meant for group in GROUPS.values() for name, meant in group.items()}
#: What may count against a yarn, by the names people type, and what each is counted for.
RANKING = {
    "opening": "each new skein it opens",
    "very little": "each skein opened for less than a sixth of it",
    "join": "each join",
    "looseness": "the share of the lot left over: the tightest fit comes first",
    "useless end": "each end left that is shorter than your useful end",
    "lone skein": "one whole skein left by itself",
    "lot not known": "two skeins together whose dye lot is not known",
    "two lots": "two lots in one colour, where you ask for it with --two-lots",
    "thickness step": "each step of thickness off, or where it is only worked out",
    "colour not known": "a yarn whose colour is not known",
    "condition": "faded, smoke or pets, each",
    "newness": "yarn bought today; the oldest on the shelf counts nothing",
    "price": "a yarn that costs more than the middle one of your shelf",
}
_NAMED = ("tare", "size", "hours", "ranking", "heading")


def meaning(name: str) -> str:
    """What a setting is for; nothing for one she has named herself, which follows its kind."""
    return hers(RANKING.get(name.removeprefix("ranking ")) or MEANINGS.get(name, ""))


def spelled(name: str) -> str:
    """A setting as she spells it; what she has named herself is as she typed it."""
    return name if _named_by_her(name) else hers(name)


def _named_by_her(name: str) -> bool:
    kind = name.partition(" ")[0]
    return name not in MEANINGS and kind in _NAMED and kind != "ranking"


def in_order(names: Iterable[str]) -> list[str]:
    """Settings in the order people look for them, those she has named behind their kind."""
    places = {name: place for place, name in enumerate(MEANINGS)}
    return sorted(
        names, key=lambda name: (places[_listed_as(name)], name != _listed_as(name), name)
    )


def _listed_as(name: str) -> str:
    """The name under which a setting is explained: `tare NAME` for `tare bowl`."""
    kind = name.partition(" ")[0]
    alike = (one for one in MEANINGS if kind in _NAMED and one.startswith(f"{kind} "))
    return name if name in MEANINGS else next(alike)


#: Units as they are called.
_UNITS = {
    "m": "metres",
    "yd": "yards",
    "g": "grams",
    "oz": "ounces",
    "cm": "centimetres",
    "in": "inches",
}

#: A usual value as the settings have it.
Usual = Mass | Length | str | float | tuple[float, ...] | None


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting with its value as it is kept if she set it, and the usual one."""

    name: str
    kept: str | None
    usual: Usual
    currency: str = ""

    @property
    def shown(self) -> str | None:
        """Her value, metric and exact; None where it is the usual one."""
        return None if self.kept is None else shown(self.name, self.kept, self.currency)


def keys(settings: Sequence[Setting]) -> dict[str, str | None]:
    """Her values by their names."""
    return {one.name: one.shown for one in settings}


def rows(settings: Sequence[Setting]) -> list[dict[str, Any]]:
    """One row for each setting."""
    return [{"name": one.name, "value": one.shown} for one in settings]


def text(settings: Sequence[Setting]) -> str:
    """Each setting with its value and what it is for, under the heading of its group."""
    if len(settings) == 1:
        one = settings[0]
        return f"{spelled(one.name)}: {value_text(one)}" + (
            f"  ({said})" if (said := meaning(one.name)) else ""
        )
    wide = max(len(one.name) for one in settings)
    values = max((len(v) for one in settings if len(v := value_text(one)) <= _SHORT), default=0)
    lines: list[str] = []
    heading = ""
    for one in settings:
        if not one.name.startswith("ranking ") and (group := group_of(one.name)) != heading:
            heading = group
            lines.append(group)
        lines += _setting_lines(one, wide, values)
    if any(one.name == "length" and one.kept is None for one in settings):
        lines.append("Until you choose units, your first yarn decides them.")
    return "\n".join([*lines, "* set by you; `stash settings NAME usual` undoes that"])


#: A longer value has a line of its own, so that the list keeps to the width of a terminal.
_SHORT, _WIDTH = 12, 80


def group_of(name: str) -> str:
    """The heading under which a setting is listed."""
    return next(group for group, names in GROUPS.items() if _listed_as(name) in names)


def _setting_lines(one: Setting, wide: int, values: int) -> list[str]:
    mark, value, said = " *"[one.kept is not None], value_text(one), meaning(one.name)
    head = f"{mark} {spelled(one.name):{wide}}  "
    if len(value) > _SHORT:
        below = [*textwrap.wrap(value, _WIDTH - len(head)), *([said] if said else [])]
        return [f"{head}{below[0]}", *(" " * len(head) + line for line in below[1:])]
    indent = len(head) + values + 2
    wrapped = textwrap.wrap(said, _WIDTH - indent) or [""]
    first = f"{head}{value:{values}}  {wrapped[0]}".rstrip()
    return [first, *(" " * indent + line for line in wrapped[1:])]


def value_text(one: Setting) -> str:
    """Her value, else the usual one, as she reads it."""
    if one.kept is not None:
        return shown(one.name, one.kept, one.currency, as_hers)
    return _usual(one.usual)


def setting_text(name: str, kept: str | None, currency: str, entry: int | None) -> str:
    """What a setting was set to; `kept` is None where it is the usual one again."""
    now = "back to usual" if kept is None else shown(name, kept, currency, as_hers)
    if name == "units" and kept is not None:
        units = figures.screen().units
        each = (units.length, units.weight, units.size)
        now = f"{now} ({', '.join(hers(_UNITS[one]) for one in each)})"
    return (
        f"{spelled(name)}: {now}  (entry {entry})" if entry else f"{spelled(name)} is already {now}"
    )


def currency_learned(currency: str) -> str:
    """That a price has given her file its currency, and the way back."""
    return f"Money is in {currency} now, as you typed; if that is wrong, `stash undo` it."


def followed(habits: Mapping[str, str]) -> list[str]:
    """Which units her first yarn chose, and how to change them."""
    if "length" not in habits:
        return []
    chosen = [_UNITS[unit] for name in ("length", "weight", "size") if (unit := habits.get(name))]
    other = "metric" if habits["length"] == "yd" else "us"
    return [
        f"Amounts are in {', '.join(chosen[:-1])} and {chosen[-1]}, as you typed; "
        f"`stash settings units {other}` changes that."
    ]


Measure = Mass | Length


def _exactly(value: Measure) -> str:
    """As it is kept: in grams and metres."""
    return show_mass(value) if isinstance(value, Mass) else show_length(value)


def as_hers(value: Measure) -> str:
    """In her unit, as near as anybody would type it."""
    unit = figures.screen().unit(value)
    if unit in ("g", "m"):
        return _exactly(value)
    whole = (
        value.mg / MASS_UNITS[unit] if isinstance(value, Mass) else value.um / LENGTH_UNITS[unit]
    )
    return f"{float(round(whole, 2 if unit == 'oz' else 1)):g} {unit}"


def shown(
    name: str, value: str, currency: str = "", measure: Callable[[Measure], str] = _exactly
) -> str:
    """A kept value as a person reads it; in grams and metres, typed again it means the same."""
    kind = name.partition(" ")[0]
    if kind == "size" and name != "size":
        return _sides(value, inches=measure is as_hers and figures.screen().units.size == "in")
    if kind in ("tare", "scale"):
        return measure(Mass(int(value)))
    if name in ("useful end", "useful size"):
        return measure(Length(int(value)))
    if name == "humidity":
        return _span(tuple(float(share) for share in value.split()))
    if name == "margin":
        return f"{100 * float(value):g}%"
    if name == "per 100g":
        low, _, high = value.partition(" ")
        return f"{low}-{high}" if high else f"{100 * float(low):g}%"
    if name in ("wage", "sundries"):
        return show_money(Money(int(value)), currency)
    if name in ("overhead", "fees"):
        return show_share(Fraction(value))
    if kind == "hours":
        return show_minutes(int(value))
    return value


def _sides(value: str, *, inches: bool) -> str:
    """`around 54 cm tall 22 cm`."""
    return " ".join(
        f"{side} {figures.edge(length) if inches else f'{length.um / 10_000:g} cm'}"
        for side, length in sides_of(value).items()
    )


def _usual(value: Usual) -> str:
    """What a setting is until she sets it; a dash where it is nothing."""
    if value is None or value == "":
        return "-"
    if isinstance(value, tuple):
        return _span(value)
    if isinstance(value, Mass | Length):
        return as_hers(value)
    return f"{value:g}" if isinstance(value, float) else str(value)


def _span(ends: tuple[float, ...]) -> str:
    """`40% to 60%`."""
    return " to ".join(f"{100 * share:g}%" for share in ends)
