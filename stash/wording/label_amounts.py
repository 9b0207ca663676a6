"""What a full skein weighs and measures: a pair, each alone, a fineness, a yarn count."""

from __future__ import annotations

import re
from collections.abc import Sequence

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import Length
from stash.measures.mass import OUNCE_MG, Mass
from stash.measures.put_up import PutUp
from stash.wording import numbers, quantities, yarn_counts
from stash.wording.label_parts import ABOUT, AMOUNT, Line
from stash.wording.quantities import Found

_N = numbers.PATTERN
_RANGE = re.compile(rf"(?<![\w.,/-])({_N})\s*(?:[-–]|to)\s*({AMOUNT})", re.IGNORECASE)
_PARTED = re.compile(r"(?<![\w.,/])([0-9]{1,3}) ([0-9]{3})\s*([a-z]+)\b", re.IGNORECASE)
_ABOUT = re.compile(rf"(?:(?<!\w){ABOUT}\s*(?={AMOUNT}))", re.IGNORECASE)
_ABOUT_AFTER = re.compile(r"(?<=\x01)\s*(?:-?ish|or so|approx\.?|\?+)(?!\w)", re.IGNORECASE)
_TOTAL = re.compile(
    rf"({AMOUNT})\s*(?:in\s+)?(?:total|altogether|in all|all together)\b"
    rf"|\btotal\s*(?:of|:)?\s*({AMOUNT})",
    re.IGNORECASE,
)
_DENSITY = re.compile(
    rf"(?<![\w.,]){_N}\s*(?:ypp\b|(?:yards?|yds?|y|m|metres?|meters?)\s*(?:/|per)\s*(?:g|oz|lb|kg|pound|gram)\b)",
    re.IGNORECASE,
)
_COUNT = re.compile(yarn_counts.PATTERN, re.IGNORECASE)
_MEASURED = re.compile(r"\b(?:as\s+)?measured\b", re.IGNORECASE)
_FABRIC_UNITS = ("cm", "mm", "in", "ft")
_ROUND_GRAMS = (25, 50, 100, 150, 200, 250, 300, 400, 500, 1000)


def refuse_unclear(line: Line) -> None:
    """Ranges, and a space that may part thousands or a count from its amount."""
    if both := _RANGE.search(line.rest):
        unit = quantities.found_in(both[2])[0].unit
        raise Ambiguous(both[0], [f"{both[1]} {unit}", both[2].strip()])
    for parted in _PARTED.finditer(line.rest):
        pairs = line.rest[: parted.start()].rstrip().endswith(("/", "="))
        if not pairs and parted[3].lower() in quantities.UNIT_WORDS:
            first, rest, unit = parted.groups()
            raise Ambiguous(parted[0], [f"{first}{rest} {unit}", f"{first} x {rest} {unit}"])


def take_put_up(line: Line) -> None:
    """The weight and length of a full skein, from a pair, from each alone, or from a fineness."""
    fineness = _take_fineness(line)
    if total := line.take(_TOTAL):
        line.total = quantities.amount(total[1] or total[2])
    if line.take(_ABOUT):
        line.so_far = line.roughly()
    found = quantities.found_in(line.rest)
    for one in reversed(found):
        if one.unit in _FABRIC_UNITS:
            line.keep("size", line.rest[one.start : one.end].strip())
        line.cut(one.start, one.end)
    if line.take(_ABOUT_AFTER) and found:
        line.so_far = line.roughly()
    yarn = [f for f in found if f.unit not in _FABRIC_UNITS]
    _learn_full(line, [f for f in yarn if isinstance(f.value, Mass)], "weight")
    _learn_full(line, [f for f in yarn if isinstance(f.value, Length)], "length")
    if fineness:
        _apply_fineness(line, fineness)
    if line.take(_MEASURED):
        line.learn("pair", "measured", measured=True)


def settle_total(line: Line) -> None:
    """`400 g total` over skeins of 100 g is four of them; over four skeins, 100 g each."""
    total, full = line.total, line.so_far.full_mass
    if total is None:
        return
    if not isinstance(total, Mass):
        raise Unreadable(
            line.text, "one line of yarn", "give the length of one skein, and how many"
        )
    if full is None:
        full = Mass(round(total.mg / (line.count or 1)))
        line.learn("weight", f"{full} each", full_mass=full)
        return
    elif total.mg % full.mg or line.count not in (None, total.mg // full.mg):
        raise Ambiguous(line.text, [f"{full} each and how many", f"{total} left"])
    line.count = total.mg // full.mg or 1


def _take_fineness(line: Line) -> PutUp | None:
    if dense := line.take(_DENSITY):
        line.keep("fineness", dense[0].strip())
        return quantities.density(dense[0])
    if count := line.take(_COUNT):
        line.keep("yarn count", count[0].strip())
        return yarn_counts.yarn_count(count[0])
    return None


def _learn_full(line: Line, found: Sequence[Found], kind: str) -> None:
    """One of the two figures of a full skein; figures that disagree are refused."""
    if not found:
        return
    try:
        value = quantities.one_of(found, line.text)
    except Ambiguous:
        shown = [quantities.show(f.value, f.unit) for f in found]
        raise Ambiguous(
            line.text, [f"{shown[0]}, {shown[-1]} left", f"{shown[-1]} alone"]
        ) from None
    typed = next(f for f in found if f.value == value)
    rough = "about " if line.so_far.about else ""
    words = rough + quantities.show(value, typed.unit)
    if isinstance(value, Mass):
        _note_ounces(line, value, typed.unit)
        line.learn("weight", words if typed.unit == "g" else f"{words} ({value})", full_mass=value)
    else:
        line.learn(
            "length", words if typed.unit == "m" else f"{words} ({value})", full_length=value
        )
    _refuse_nothing(line, kind, value)


def _refuse_nothing(line: Line, kind: str, value: Mass | Length) -> None:
    if not value:
        raise Unreadable(line.text, "a line of yarn", f"a full skein has a {kind} above nothing")


def _note_ounces(line: Line, value: Mass, unit: str) -> None:
    """Bands round metric weights to ounces; what was typed is kept and the likely figure said."""
    if unit != "oz":
        return
    likely = next((g for g in _ROUND_GRAMS if abs(value.mg / 1000 - g) < g / 100), None)
    if likely:
        ounces = f"{float(value.mg / OUNCE_MG):.3g} oz"
        line.notes.append(f"{ounces} is often a rounded {likely} g; kept as typed")


def _apply_fineness(line: Line, fineness: PutUp) -> None:
    """With a weight it gives the length; alone it says nothing of how much there is."""
    full, long = line.so_far.full_mass, line.so_far.full_length
    if full and not long:
        length = fineness.length_of(full)
        line.learn("length", f"{length}, from the fineness", full_length=length)
    elif long and not full:
        mass = fineness.mass_of(long)
        line.learn("weight", f"{mass}, from the fineness", full_mass=mass)
    elif not full:
        line.notes.append("a fineness says nothing of how much there is: give a weight")
