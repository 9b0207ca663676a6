"""Amounts as she reads them: her units, one step a screen, rounded once, so that it adds up.

A `Figure` is a whole number of steps of its unit. It is rounded once, in the way that its meaning
asks for: `down` what is free, `up` what is to be set aside, taken or needed, `near` what is
expected or was used. What follows from others (held, left, missing, totals) is added up from
figures, never rounded by itself: so no part is larger than its whole.

The step depends on the largest amount of the screen, so `settled` makes a text twice: once to see
how large its amounts are, once to keep; of a long list its amounts alone are made the first time.
The screen lies in a context variable, because every sentence of it, however deep, counts in the
same steps; each request or command has its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from contextvars import ContextVar
from dataclasses import dataclass, field
from fractions import Fraction

from stash.measures.length import INCH_UM, Length
from stash.measures.mass import Mass

#: One yard and one ounce in whole smallest units, as international agreement has them.
YARD_UM = 914_400
OUNCE_MG = Fraction(45_359_237, 1_600)
#: A unit in smallest units, as a numerator and a denominator: quicker than a fraction.
_SIZES: dict[str, tuple[int, int]] = {
    "m": (1_000_000, 1),
    "yd": (YARD_UM, 1),
    "g": (1_000, 1),
    "oz": (OUNCE_MG.numerator, OUNCE_MG.denominator),
}
#: Under this, the largest length on a screen is shown to a tenth.
_SHORT = 10
#: Over this, the largest weight in grams is shown whole.
_HEAVY = 100
#: So near to a whole step an amount is that step: floats of an estimate are not exact, and books of
#: whole milligrams keep 3.5 oz a little short of it.
_NOISE = 1e-3
Amount = Length | Mass


@dataclass(frozen=True, slots=True)
class Units:
    """Her units: of lengths of yarn (m, yd), of weights (g, oz), of sizes of work (cm, in).

    Her words go with them: `american` where she works in inches and names stitches as the US do,
    `british` where she chose the UK's names.
    """

    length: str = "m"
    weight: str = "g"
    size: str = "cm"
    american: bool = False
    british: bool = False

    @classmethod
    def of(cls, length: str, weight: str, size: str, terms: str = "us") -> Units:
        """Those chosen; where none is, metric, and inches beside yards."""
        size = size or ("in" if length == "yd" else "cm")
        british = terms == "uk"
        return cls(length or "m", weight or "g", size, size == "in" and not british, british)


@dataclass(slots=True)
class Screen:
    """What is being shown: its units, and the largest amounts met or known to be on it."""

    units: Units = field(default_factory=Units)
    largest: dict[str, float] = field(default_factory=dict)
    settled: bool = False

    def unit(self, amount: Amount) -> str:
        """The unit an amount is shown in."""
        return self.units.length if isinstance(amount, Length) else self.units.weight

    def tenths(self, unit: str, value: float) -> bool:
        """Whether this unit is shown to a tenth here; until that is known, as if alone."""
        if not self.settled:
            self.largest[unit] = max(self.largest.get(unit, 0.0), value)
        most = self.largest.get(unit, value) if self.settled else value
        return most < _SHORT if unit in ("m", "yd") else unit == "oz" or most <= _HEAVY


_SCREEN: ContextVar[Screen | None] = ContextVar("screen", default=None)
_HERS: ContextVar[Callable[[], Units]] = ContextVar("hers", default=Units)


def ask(hers: Callable[[], Units]) -> None:
    """Where to learn her units as soon as an amount is shown before anything has said them."""
    _HERS.set(hers)
    _SCREEN.set(None)


def screen() -> Screen:
    """The screen of this command or request."""
    return _SCREEN.get() or use(_HERS.get()())


def use(units: Units) -> Screen:
    """Show amounts in these units from here on in this command or request."""
    now = _SCREEN.get()
    if now is None or now.units != units:
        now = Screen(units)
        _SCREEN.set(now)
    return now


def settled(text: Callable[[], str], amounts: Callable[[], object] | None = None) -> str:
    """A text whose amounts of one unit all have one step.

    `amounts` makes the largest of its figures, where that is quicker than making all of it twice.
    """
    _SCREEN.set(Screen(screen().units))
    (amounts or text)()
    screen().settled = True
    return text()


@dataclass(frozen=True, slots=True, order=True)
class Figure:
    """An amount as it is shown: so many steps of a unit, `tenths` or whole ones."""

    steps: int
    unit: str
    tenths: bool

    def __add__(self, other: Figure) -> Figure:
        if not isinstance(other, Figure) or other.unit != self.unit:
            return NotImplemented
        one, two = _alike(self, other)
        return Figure(one.steps + two.steps, self.unit, one.tenths)

    def __sub__(self, other: Figure) -> Figure:
        """What is left, never less than nothing."""
        if not isinstance(other, Figure) or other.unit != self.unit:
            return NotImplemented
        one, two = _alike(self, other)
        return Figure(max(0, one.steps - two.steps), self.unit, one.tenths)

    def __mul__(self, times: int) -> Figure:
        return Figure(self.steps * times, self.unit, self.tenths)

    def __bool__(self) -> bool:
        return self.steps > 0

    @property
    def number(self) -> str:
        """The number alone, without its unit: `82`, `7.5`."""
        return f"{self.steps / 10:g}" if self.tenths else f"{self.steps}"

    def __str__(self) -> str:
        return f"{self.number} {self.unit}"


def _alike(one: Figure, two: Figure) -> tuple[Figure, Figure]:
    """Both in the finer step of the two."""
    if one.tenths == two.tenths:
        return one, two
    return _in_tenths(one), _in_tenths(two)


def _in_tenths(figure: Figure) -> Figure:
    return figure if figure.tenths else Figure(10 * figure.steps, figure.unit, True)


def down(amount: Amount) -> Figure:
    """What there is to take from, never more than there is."""
    return _figure(amount, lambda steps: math.floor(steps + _NOISE))


def up(amount: Amount) -> Figure:
    """What must be there, never less than it takes."""
    return _figure(amount, lambda steps: math.ceil(steps - _NOISE))


def near(amount: Amount) -> Figure:
    """An estimate, or what was used or read: to the nearest step."""
    return _figure(amount, lambda steps: math.floor(steps + 0.5))


def _figure(amount: Amount, rounded: Callable[[float], int]) -> Figure:
    here = screen()
    unit = here.unit(amount)
    whole = amount.um if isinstance(amount, Length) else amount.mg
    numerator, denominator = _SIZES[unit]
    value = whole * denominator / numerator
    tenths = here.tenths(unit, value)
    return Figure(max(0, rounded(value * 10 if tenths else value)), unit, tenths)


def by_themselves(lengths: Sequence[Length]) -> list[Figure]:
    """The lengths of one list to the nearest step of their own, a tenth where all are short.

    Each is one step at least: it is small, and not nothing.
    """
    unit = screen().units.length
    numerator, denominator = _SIZES[unit]
    values = [one.um * denominator / numerator for one in lengths]
    tenths = max(values, default=0.0) < _SHORT
    steps = [max(1, round(value * 10 if tenths else value)) for value in values]
    return [Figure(step, unit, tenths) for step in steps]


def total(figures: Iterable[Figure], of: type[Amount]) -> Figure:
    """The sum of rows as they are shown; nothing of that kind where there is no row."""
    return sum(figures, start=near(of(0)))


def of_metres(length_m: float) -> Length:
    """A length of an estimate, to the nearest micrometre."""
    return Length(round(length_m * 1_000_000))


def of_grams(mass_g: float) -> Mass:
    """A weight of an estimate, to the nearest milligram."""
    return Mass(round(mass_g * 1_000))


def size(length: Length) -> str:
    """A size of work, to half a centimetre or a quarter of an inch: `21.5 cm`, `8 1/2 in`."""
    return _size(length, 2, 4)


def as_size(length: Length) -> Length:
    """The length that `size` shows, for what is made of it: a part of it, or a sum."""
    inches = screen().units.size == "in"
    um, to = (INCH_UM, 4) if inches else (10_000, 2)
    return Length(round(_rounded(length.um, um, to) * um))


def edge(length: Length) -> str:
    """Where something lies on the work, to a tenth of a centimetre or an eighth of an inch."""
    return _size(length, 10, 8)


def sizes(lengths: Iterable[Length], between: str = " and ") -> str:
    """Several sizes with the unit once: `54 and 22 cm`."""
    unit = screen().units.size
    return f"{between.join(size(one).removesuffix(f' {unit}') for one in lengths)} {unit}"


def size_in(length: Length, unit: str) -> str:
    """A size of work in cm or in, whichever is hers: what goes to a buyer says both."""
    return _size_as(length, unit, 2, 4)


def _size(length: Length, to_cm: int, to_inch: int) -> str:
    return _size_as(length, screen().units.size, to_cm, to_inch)


def _size_as(length: Length, unit: str, to_cm: int, to_inch: int) -> str:
    if unit == "cm":
        return f"{float(_rounded(length.um, 10_000, to_cm)):g} cm"
    inches = _rounded(length.um, INCH_UM, to_inch)
    whole, rest = divmod(inches, 1)
    parts = [f"{whole}"] if whole or not rest else []
    return f"{' '.join([*parts, *([str(rest)] if rest else [])])} in"


def _rounded(um: int, unit_um: int, to: int) -> Fraction:
    return Fraction(math.floor(Fraction(um * to, unit_um) + Fraction(1, 2)), to)
