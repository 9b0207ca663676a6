"""Our exact factors against pint's own definitions, a general-purpose library of units."""

from __future__ import annotations

from fractions import Fraction

import pytest
from pint import UnitRegistry

from stash.measures.written import LENGTH_UNITS, MASS_UNITS
from stash.parsing.quantities import FINENESS_UNITS, length, mass, pair_at

#: The thousand units that pint comes with; the program shows it none of them.
PINT: UnitRegistry[Fraction] = UnitRegistry(non_int_type=Fraction)
#: How pint says a fineness of ours that it has another name for, or none.
ITS_WORDS = {"nm": (1, "m/g"), "ne": (1, "number_english"), "worsted": (560, "yd/lb")}


@pytest.mark.parametrize("unit", [*MASS_UNITS])
def test_a_unit_of_weight_is_pints(unit: str) -> None:
    milligrams = PINT.Quantity(Fraction(1), unit).to("milligram").magnitude

    assert MASS_UNITS[unit] == milligrams
    assert mass(f"1000 {unit}").mg == round(1000 * milligrams)


@pytest.mark.parametrize("unit", [*LENGTH_UNITS])
def test_a_unit_of_length_is_pints(unit: str) -> None:
    micrometres = PINT.Quantity(Fraction(1), unit).to("micrometer").magnitude

    assert LENGTH_UNITS[unit] == micrometres
    assert length(f"1000 {unit}").um == round(1000 * micrometres)


@pytest.mark.parametrize("unit", [*FINENESS_UNITS, "yd/lb", "yd/g", "m/kg", "ft/oz"])
def test_a_fineness_is_pints(unit: str) -> None:
    """Both ways of saying it: a weight to a length, and a length to a weight."""
    direct = unit in ("tex", "dtex", "denier")
    of, base = ("m", "milligram") if direct else ("lb", "micrometer")

    mg, um = pair_at(Fraction(9, 2), unit, 9000, of)

    times, words = ITS_WORDS.get(unit, (1, unit))
    fineness = PINT.Quantity(times * Fraction(9, 2), words)
    beside = (fineness * PINT.Quantity(Fraction(9000), of)).to(base).magnitude
    assert (mg if direct else um) == beside
