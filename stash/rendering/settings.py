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

#: A usual value as the settings have it.
Usual = Mass | Length | str | float | tuple[float, ...] | None


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting by what it means, its value as it is kept if she set it, and the usual one."""

    name: str
    meaning: str
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
    return columns([[one.name, one.shown or _as_usual(one.usual), one.meaning] for one in settings])


def setting_text(name: str, kept: str | None, currency: str, entry: int | None) -> str:
    """What a setting is from now on; `kept` is None where it is as usual again."""
    now = "as usual" if kept is None else shown(name, kept, currency)
    return f"{name}: {now}" + (f" from now on  (entry {entry})" if entry else "")


def followed(habits: Mapping[str, str]) -> list[str]:
    """What is shown otherwise from now on, because of what came in."""
    if habits.get("units") != "yards":
        return []
    return ["note: shown in yards from now on: `stash prefer units metres` turns it back"]


def shown(name: str, value: str, currency: str = "") -> str:
    """A kept value as a person reads it; typed again it means the same."""
    kind = name.partition(" ")[0]
    if kind == "size":
        sides = sides_of(value).items()
        return " ".join(f"{side} {length.um / 10_000:g} cm" for side, length in sides)
    if kind in ("tare", "scale"):
        return show_mass(Mass(int(value)))
    if name in ("useful end", "useful size"):
        return show_length(Length(int(value)))
    if name == "room":
        return _span(tuple(float(share) for share in value.split()))
    if name == "margin":
        return f"{100 * float(value):g}%"
    if name == "fineness":
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
