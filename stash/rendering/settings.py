"""Her settings as a person reads them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import show_length, show_mass, show_money
from stash.rendering.columns import columns
from stash.rendering.work import show_hours, show_share
from stash.requirements.design.sizing import sides_of

#: What every setting is for; tares, sizes, weights and headings have a name of their own behind
#: theirs.
MEANINGS = {
    "units": "metric or us: sets the three below together",
    "length": "m or yd, for lengths of yarn",
    "weight": "g or oz, for weights",
    "size": "cm or in, for sizes of work",
    "scale step": "the smallest step of your kitchen scale, as 1g",
    "humidity": "how damp the air is where you weigh, as 40% to 60%",
    "rules": "eu, uk or us: whose rules your tags follow",
    "maker": "your name or your workshop's, as it stands on a tag",
    "address": "your postal address, for tags",
    "contact": "your electronic address, for tags: e-mail or web",
    "terms": "us or uk names of crochet stitches",
    "margin": "added to what is expected where a command names none, as 15%",
    "thickness tolerance": "how many steps of thickness two yarns may be apart",
    "useful end": "the shortest design worth joining in, as 2m",
    "useful size": "an opened skein that holds less is a remnant, as 10m: for bands only",
    "contrast": "bold, clear, soft, tonal or any; or a gap in lightness, as 30 or 20-40",
    "per 100g": "metres per 100 g that a yarn may have, as 200-260, or 15% about the design's own",
    "colour vision": "protan, deutan or tritan: what would look alike to you is then said",
    "currency": "the three letters of the money of this file, as EUR",
    "wage": "what an hour of work is worth to you",
    "hours DESIGN": "the hours one of a design takes you, as 3h 20min",
    "sundries": "buttons, labels and the like for one item, as 0.80",
    "overhead": "what rent, tools and power add to yarn, sundries and work, as 10%",
    "fees": "the share of the price that the place of sale keeps, as 6.5%",
    "valuation": "specific, fifo or average: how yarn that leaves is priced; one choice a year",
    "tare NAME": "the weight of a bowl, core or needle you weigh with, as 12g",
    "size NAME": "a size of your own chart, finished, as around 54cm tall 22cm",
    "ranking NAME": "how much a drawback counts in `match`; `settings ranking` lists them",
    "heading NAME": "which column a heading of your sheets stands for, or ignored",
}
#: The drawbacks that can be weighed, by the names people type, and what each is counted for.
RANKING = {
    "opening": "each whole skein that is opened",
    "very little": "each skein opened for less than a sixth of it",
    "join": "each join",
    "looseness": "times the share of the lot that stays free: the tightest fit first",
    "useless end": "each end left that is shorter than the useful end",
    "lone skein": "one whole skein left by itself",
    "lot not known": "two skeins together whose dye lot is not known",
    "two lots": "two lots in one colour, where you ask for that with --two-lots",
    "thickness step": "each step of thickness away, or where the thickness is only worked out",
    "colour not known": "a lot whose colour is not known",
    "condition": "each of faded, smoke or pets",
    "newness": "yarn that came today; the oldest of the shelf counts nothing",
    "price": "times its price a metre over that and the middle one of the shelf together",
}


def meaning(name: str) -> str:
    """What a setting is for."""
    return RANKING.get(name.removeprefix("ranking ")) or MEANINGS.get(name, "")


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
        """Her value as a person reads it, None where it is as usual."""
        return None if self.kept is None else shown(self.name, self.kept, self.currency)


def keys(settings: Sequence[Setting]) -> dict[str, str | None]:
    """Her values by their names."""
    return {one.name: one.shown for one in settings}


def rows(settings: Sequence[Setting]) -> list[dict[str, Any]]:
    """One row for each setting."""
    return [{"name": one.name, "value": one.shown} for one in settings]


def text(settings: Sequence[Setting]) -> str:
    """Each setting with its value and what it means."""
    return columns(
        [[one.name, one.shown or _as_usual(one.usual), meaning(one.name)] for one in settings]
    )


def setting_text(name: str, kept: str | None, currency: str, entry: int | None) -> str:
    """What a setting is from now on; `kept` is None where it is as usual again."""
    now = "as usual" if kept is None else shown(name, kept, currency)
    return f"{name}: {now}" + (f" from now on  (entry {entry})" if entry else "")


def followed(habits: Mapping[str, str]) -> list[str]:
    """What is shown otherwise from now on, because of what came in."""
    if "length" not in habits:
        return []
    shown = [_UNITS[unit] for name in ("length", "weight", "size") if (unit := habits.get(name))]
    other = "metric" if habits["length"] == "yd" else "us"
    return [
        f"Amounts are shown in {', '.join(shown)} from now on, as you typed this; "
        f"`stash settings units {other}` changes it."
    ]


def shown(name: str, value: str, currency: str = "") -> str:
    """A kept value as a person reads it; typed again it means the same."""
    kind = name.partition(" ")[0]
    if kind == "size" and name != "size":
        sides = sides_of(value).items()
        return " ".join(f"{side} {length.um / 10_000:g} cm" for side, length in sides)
    if kind in ("tare", "scale"):
        return show_mass(Mass(int(value)))
    if name in ("useful end", "useful size"):
        return show_length(Length(int(value)))
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
        return show_hours(Fraction(int(value), 60))
    return value


def _as_usual(value: Usual) -> str:
    """What a setting is until she sets it, where it is anything."""
    if value is None or value == "":
        return "as usual"
    if isinstance(value, tuple):
        return f"as usual ({_span(value)})"
    if isinstance(value, Mass):
        return f"as usual ({show_mass(value)})"
    if isinstance(value, Length):
        return f"as usual ({show_length(value)})"
    return f"as usual ({value:g})" if isinstance(value, float) else f"as usual ({value})"


def _span(ends: tuple[float, ...]) -> str:
    """`40% to 60%`."""
    return " to ".join(f"{100 * share:g}%" for share in ends)
