"""Figures as sentences name them: metres with yards beside them, sizes, classes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from stash.matching.lots.lot_view import Thickness
from stash.measures.length import INCH_UM, Length
from stash.measures.rounding import two_figures

_CENTIMETRE_UM = 10_000


def m_and_yd(length: Length) -> str:
    """A length in metres with yards beside it, two figures each: `12 m (13 yd)`."""
    return f"{two_figures(length.m):g} m ({two_figures(length.yd):g} yd)"


def whole_metres_and_yards(length: Length) -> str:
    """As a pattern prints it, in whole metres with whole yards beside it."""
    return f"{length.m:.0f} m ({length.yd:.0f} yd)"


def sizes(lengths: Sequence[Length], inches: bool) -> str:
    """Lengths of fabric to the tenth of a centimetre or an inch: `2 and 1.5 cm`."""
    unit_um, unit = (INCH_UM, "in") if inches else (_CENTIMETRE_UM, "cm")
    return f"{joined(f'{round(length.um / unit_um, 1):g}' for length in lengths)} {unit}"


def thickness_words(thickness: Thickness) -> str:
    """A class or a range of them: `class 4`, `class 4 to 5`, `class about 4` where derived."""
    low, high = thickness.low, thickness.high
    if thickness.derived:
        return f"class about {low}"
    return f"class {low}" if low == high else f"class {low} to {high}"


def joined(parts: Iterable[str]) -> str:
    """Several things one after the other: `a and b`."""
    return " and ".join(parts)
