"""Her settings as a person reads them."""

from __future__ import annotations

from fractions import Fraction

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import show_length, show_mass, show_money
from stash.rendering.work import show_hours, show_share
from stash.requirements.design.sizing import sides_of


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


def usual(value: Mass | Length | str | float | tuple[float, ...] | None) -> str:
    """A usual value as a person reads it; nothing where there is none."""
    if isinstance(value, tuple):
        return _span(value)
    if isinstance(value, Mass):
        return show_mass(value)
    if isinstance(value, Length):
        return show_length(value)
    if isinstance(value, float):
        return f"{value:g}"
    return "" if value is None else str(value)


def _span(ends: tuple[float, ...]) -> str:
    """`40% to 60%`."""
    return " to ".join(f"{100 * share:g}%" for share in ends)
