"""Ranking and lengths as makers type them: the only module that knows pint.

A weight or a length of one unit is a product of exact factors, and needs no library (a test holds
them equal to pint's). A length to a weight, and a yarn count, are of units made of units, in both
directions: those are pint's, and only they wait for it to load (0.17 s of the 1.3 that `stash add`
took with it).

Pint is never shown raw text, because its grammar is not a maker's: with its own units it takes
`8 ply` for eight pico-light-years and a slash for a division. It gets a number we have read and
one of the few units below, in a private registry on exact fractions.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING, TypeVar

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.measures.written import LENGTH_UNITS, MASS_UNITS, show
from stash.parsing import numbers

if TYPE_CHECKING:
    from pint import UnitRegistry

Amount = Mass | Length
_M = TypeVar("_M", Mass, Length)


#: Every spelling that is read, and the unit it stands for.
UNIT_WORDS: dict[str, str] = {
    word: unit
    for unit, words in {
        "g": "g gr grs grms gm gms gram grams gramme grammes",
        "kg": "kg kgs kilo kilos kilogram kilograms",
        "oz": "oz ozs ounce ounces",
        "lb": "lb lbs pound pounds",
        "m": "m mt mts mtr mtrs metre metres meter meters",
        "cm": "cm cms centimetre centimetres centimeter centimeters",
        "mm": "mm mms millimetre millimetres millimeter millimeters",
        "in": 'in ins inch inches "',
        "ft": "ft foot feet",
        "yd": "yd yds y yrd yrds yard yards",
    }.items()
    for word in words.split()
}

_UNIT = "|".join(re.escape(w) for w in sorted(UNIT_WORDS, key=lambda w: (-len(w), w)))
#: One amount with its unit, for finding amounts inside a longer text (after `numbers.cleaned`).
PATTERN = (
    rf"(?:(?<![\w.#])(?<![0-9],)|(?<=[0-9][x×]))(?P<number>{numbers.PATTERN})"
    rf"\s*(?P<unit>{_UNIT})(?![^\W\d_])\.?"
)
_AMOUNT = re.compile(PATTERN, re.IGNORECASE)
_COUNTED = re.compile(r"\s*([0-9]{1,4})\s*[x×✕*]\s*(.*\D.*)", re.IGNORECASE | re.DOTALL)
_COUNTED_AFTER = re.compile(r"(.*[^\W\d_\"].*?|.*\")\s*[x×✕*]\s*([0-9]{1,4})\s*", re.IGNORECASE)
_BETWEEN = re.compile(
    r"(?:\s|[/,;=:|()~@&+–-]|\b(?:per|to|for|or|and|each|ball|skein|hank|approx|about|ca)\b\.?)*",
    re.IGNORECASE,
)
_DENSITY = re.compile(
    rf"\s*(?P<number>{numbers.PATTERN})\s*(?:(?P<ypp>ypp)"
    rf"|(?P<length>{_UNIT})\.?\s*(?:/|\bper\b)\s*(?P<mass>{_UNIT}))\.?\s*",
    re.IGNORECASE,
)
#: How fine yarn is, in units made of ours: so many of the first to one of the second. Direct counts
#: are a weight to a length, indirect ones a length to a weight (ASTM D2260).
FINENESS_UNITS: dict[str, tuple[Fraction, str, str]] = {
    "tex": (Fraction(1, 1000), "g", "m"),
    "dtex": (Fraction(1, 10_000), "g", "m"),
    "denier": (Fraction(1, 9000), "g", "m"),
    "nm": (Fraction(1), "m", "g"),
    "ne": (Fraction(840), "yd", "lb"),
    "worsted": (Fraction(560), "yd", "lb"),
}
#: Two figures for one thing (ounces beside grams) may differ by what printers round away.
_PRINTED_ROUNDING = Fraction(3, 100)
#: Beyond this a figure is a slip of the finger, and would not fit the books.
_MOST = 10**15


@dataclass(frozen=True, slots=True)
class Found:
    """One amount found in a text: what it is, the unit it was typed in, and where it stands."""

    value: Amount
    unit: str
    start: int
    end: int


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Our own units; pint's thousand are what makes raw text dangerous."""
    from pint import UnitRegistry

    registry: UnitRegistry[Fraction] = UnitRegistry(None, non_int_type=Fraction)
    registry.define("milligram = [mass]")
    registry.define("micrometre = [length]")
    for units, base in ((MASS_UNITS, "milligram"), (LENGTH_UNITS, "micrometre")):
        for unit, size in units.items():
            registry.define(f"stash_{unit} = {size} * {base}")
    for unit, (number, above, below) in FINENESS_UNITS.items():
        registry.define(f"stash_{unit} = {number} * stash_{above} / stash_{below}")
    return registry


def pair_at(number: Fraction, fineness: str, size: int, of: str) -> tuple[Fraction, Fraction]:
    """Milligrams and micrometres, exactly, of `size` grams, metres or the like of a yarn.

    `fineness` is one of `FINENESS_UNITS`, or a length to a weight such as `yd/lb`; `of` is the unit
    it is taken over: a length for a direct one (tex), a weight for an indirect one (Ne, `yd/lb`).
    """
    registry = _registry()
    unit = "/".join(f"stash_{part}" for part in fineness.split("/"))
    over = registry.Quantity(Fraction(size), f"stash_{of}")
    beside = registry.Quantity(number, unit) * over
    mass, length = (over, beside) if of in MASS_UNITS else (beside, over)
    return mass.to("milligram").magnitude, length.to("micrometre").magnitude


def _measure(number: Fraction, word: str, text: str) -> Amount:
    """Number and unit word as a weight or a length, to the nearest milligram or micrometre."""
    unit = UNIT_WORDS[word.lower()]
    exact = number * (MASS_UNITS[unit] if unit in MASS_UNITS else LENGTH_UNITS[unit])
    if exact > _MOST:
        raise Unreadable(text, "amount_too_large")
    return Mass(round(exact)) if unit in MASS_UNITS else Length(round(exact))


def found_in(text: str) -> list[Found]:
    """Every amount with a unit in a cleaned text, from left to right.

    A figure that could be thousands or thousandths is refused with both readings.
    """
    joined: list[Found] = []
    for one in (_found(match, text) for match in _AMOUNT.finditer(text)):
        if joined and _goes_on(joined[-1], one, text):
            before = joined.pop()
            total = before.value + one.value  # type: ignore[operator]  # alike by _falls
            one = Found(total, one.unit, before.start, one.end)
        joined.append(one)
    return joined


def _goes_on(before: Found, one: Found, text: str) -> bool:
    """Whether an amount only goes on with the one before it, as in `1 lb 4 oz`."""
    beside = not text[before.end : one.start].strip()
    if not beside or not _falls(before.unit, one.unit):
        return False
    sizes = MASS_UNITS if before.unit in MASS_UNITS else LENGTH_UNITS
    small = one.value.mg if isinstance(one.value, Mass) else one.value.um
    return small < sizes[before.unit]


def _found(match: re.Match[str], text: str) -> Found:
    number, word = match["number"], match["unit"]
    try:
        value = _measure(numbers.fraction(number), word, text)
    except Ambiguous as both:
        raise Ambiguous(match[0], [f"{reading} {word}" for reading in both.readings]) from None
    return Found(value, UNIT_WORDS[word.lower()], match.start(), match.end())


#: What each of the three settings of units counts for each of its two units.
_TOLD_BY: dict[str, dict[str, tuple[str, ...]]] = {
    "length": {"m": ("m",), "yd": ("yd", "ft")},
    "weight": {"g": ("g", "kg"), "oz": ("oz", "lb")},
    "size": {"cm": ("m", "cm"), "in": ("in", "ft", "yd")},
}


def units_typed(texts: Iterable[str]) -> dict[str, str]:
    """The units somebody thinks in who types so, by the settings of units; none where none tells.

    Of the two units of a kind the one that is typed more often, the metric one where both are
    typed alike.
    """
    units = [UNIT_WORDS[m["unit"].lower()] for t in texts for m in _AMOUNT.finditer(t)]
    found = {}
    for name, told_by in _TOLD_BY.items():
        often = {unit: sum(one in alike for one in units) for unit, alike in told_by.items()}
        if any(often.values()):
            found[name] = max(often, key=lambda unit: often[unit])
    return found


def amount(text: str) -> Amount:
    """A weight or a length, whichever the unit says; `2x50g` is 100 g.

    A bare number is refused with the units it might have.
    """
    count, each = counted(text)
    return each * count


def mass(text: str) -> Mass:
    """A weight of yarn: `43g`, `1 1/2 oz`, `2x50g`, `1 lb 4 oz`."""
    return _of_kind(text, Mass, ("g", "oz"))


def length(text: str) -> Length:
    """A length of yarn or of fabric: `180yd`, `165 m`, `8"`, `15cm`."""
    return _of_kind(text, Length, ("m", "yd", "cm", "in"))


def counted(text: str) -> tuple[int, Amount]:
    """How many and what each is: `2x50g` is two of 50 g; without a count it is one."""
    return _counted(text, ("g", "m", "yd"))


def put_up(text: str) -> PutUp:
    """The pair on a band: `100g/200m`, `231y/50g`, `3.5 oz, 220 yds`, `4.6 y/g`, `1200 ypp`.

    Where a band gives one thing twice (`50 g / 1.75 oz / 125 m`), the metric figure is taken.
    """
    plain = numbers.cleaned(text)
    dense = _DENSITY.fullmatch(plain)
    if dense:
        return _pair_of(dense, text)
    found = found_in(plain)
    if not found or not _only_between(plain, found):
        raise _no_pair(text, plain)
    masses = [f for f in found if isinstance(f.value, Mass)]
    lengths = [f for f in found if isinstance(f.value, Length)]
    if not masses or not lengths:
        raise _no_pair(text, plain)
    return _above_nothing(one_of(masses, text), one_of(lengths, text), text)


def density(text: str) -> PutUp:
    """Fineness as a pair: `4.6 y/g` is 1 g and 4.6 yd, `1200 ypp` 1 lb and 1200 yd."""
    dense = _DENSITY.fullmatch(numbers.cleaned(text))
    if not dense:
        raise Unreadable(text, "no_density")
    return _pair_of(dense, text)


def one_of(found: Sequence[Found], text: str) -> Amount:
    """The one amount several figures of a kind stand for: the metric one, if they agree.

    Figures further apart than printed rounding are different things, and are refused.
    """
    sizes = [f.value.mg if isinstance(f.value, Mass) else f.value.um for f in found]
    if max(sizes) - min(sizes) > _PRINTED_ROUNDING * max(sizes):
        raise Ambiguous(text, [show(f.value, f.unit) for f in found])
    metric = [f for f in found if f.unit in ("g", "kg", "m")]
    return (metric or found)[0].value


def _counted(text: str, units: tuple[str, ...]) -> tuple[int, Amount]:
    plain = numbers.cleaned(text).strip()
    before, after = _COUNTED.fullmatch(plain), _COUNTED_AFTER.fullmatch(plain)
    if before:
        count, rest = int(before[1]), before[2]
    elif after:
        count, rest = int(after[2]), after[1]
    else:
        count, rest = 1, plain
    if count < 1:
        raise Unreadable(text, "counted_below_one")
    return count, _single(text, rest, units)


def _single(text: str, plain: str, units: tuple[str, ...]) -> Amount:
    """One amount, or one in falling units: `1 lb 4 oz`."""
    found = found_in(plain)
    gaps = plain
    for one in reversed(found):
        gaps = gaps[: one.start] + gaps[one.end :]
    if not found or not re.fullmatch(r"[\s,]*(?:and)?[\s,]*", gaps):
        raise _no_amount(text, plain, units)
    total = found[0].value
    for larger, smaller in pairwise(found):
        if not _falls(larger.unit, smaller.unit):
            raise Unreadable(text, "several_amounts")
        total = total + smaller.value  # type: ignore[operator]  # _falls holds the kinds alike
    return total


def _falls(larger: str, smaller: str) -> bool:
    """True for two units of one kind, the second smaller."""
    return any(
        larger in units and smaller in units and units[larger] > units[smaller]
        for units in (MASS_UNITS, LENGTH_UNITS)
    )


def _of_kind(text: str, kind: type[_M], units: tuple[str, ...]) -> _M:
    count, each = _counted(text, units)
    if not isinstance(each, kind):
        raise Unreadable(text, "no_weight" if kind is Mass else "no_length", units=units)
    return each * count


def _no_amount(text: str, plain: str, units: tuple[str, ...]) -> Ambiguous | Unreadable:
    """A number by itself might be anything; other words are no amount at all."""
    bare = plain.strip().removeprefix("~").strip()
    if re.fullmatch(numbers.PATTERN, bare):
        try:
            numbers.fraction(bare)
        except Ambiguous as both:
            return Ambiguous(text, [f"{r} {u}" for r in both.readings for u in units[:2]])
        return Ambiguous(text, [f"{bare} {unit}" for unit in units])
    return Unreadable(text, "no_amount")


def _no_pair(text: str, plain: str) -> Ambiguous | Unreadable:
    bare = re.fullmatch(
        rf"\s*({numbers.PATTERN})\s*(g|oz)?\s*[/,=x-]\s*({numbers.PATTERN})\s*",
        plain,
        re.IGNORECASE,
    )
    if bare:
        first = f"{bare[1]}{bare[2] or 'g'}"
        return Ambiguous(text, [f"{first}/{bare[3]}m", f"{first}/{bare[3]}yd"])
    return Unreadable(text, "no_pair")


def _only_between(plain: str, found: list[Found]) -> bool:
    """True where nothing but separators stands around the amounts."""
    edges = [0, *(edge for f in found for edge in (f.start, f.end)), len(plain)]
    gaps = [plain[a:b] for a, b in zip(edges[::2], edges[1::2], strict=True)]
    return all(_BETWEEN.fullmatch(gap) for gap in gaps)


def _pair_of(dense: re.Match[str], text: str) -> PutUp:
    long, heavy = ("yd", "lb") if dense["ypp"] else (dense["length"], dense["mass"])
    try:
        number = numbers.fraction(dense["number"])
    except Ambiguous as both:
        raise Ambiguous(text, [f"{reading} {long}/{heavy}" for reading in both.readings]) from None
    long, heavy = UNIT_WORDS[long.lower()], UNIT_WORDS[heavy.lower()]
    if long not in LENGTH_UNITS or heavy not in MASS_UNITS:
        raise Unreadable(text, "pair_of_nothing")
    mg, um = pair_at(number, f"{long}/{heavy}", 1, heavy)
    if um > _MOST:
        raise Unreadable(text, "amount_too_large")
    return _above_nothing(Mass(round(mg)), Length(round(um)), text)


def _above_nothing(heavy: Amount, long: Amount, text: str) -> PutUp:
    if not isinstance(heavy, Mass) or not isinstance(long, Length) or not (heavy and long):
        raise Unreadable(text, "pair_of_nothing")
    return PutUp(heavy, long)
