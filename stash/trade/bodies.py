"""Heads, hands and feet as they were measured: published tables, in millimetres.

Heads to five years: WHO Child Growth Standards, head circumference for age, 2007 (medians; from the
daily tables as two open packages carry them). Heads from six to eighteen: the UK90 reference
(medians, from one of them). Grown-ups: ANSUR II, 2012, the survey of an army, so not of everybody
(NATICK/TR-15/007; means worked out from its public records, 4,082 men and 1,986 women). Where the
first two overlap, at four years, UK90 is about 2 cm larger: both are named then. Heads of babies
born early, by the week of their birth: UK90 likewise.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Sex(StrEnum):
    """Which table is looked at."""

    MALE = "male"
    FEMALE = "female"


class Survey(StrEnum):
    """Where measures of bodies are from."""

    WHO = "WHO 2007"
    UK90 = "UK90"
    ANSUR = "ANSUR II 2012"


@dataclass(frozen=True, slots=True)
class Person:
    """Whom something is to fit: an age in months, None for the grown up; a sex, None for either.

    `weeks`: of a baby born early, and as old as at its birth, how many weeks it was carried.
    """

    months: int | None = None
    sex: Sex | None = None
    weeks: int | None = None


@dataclass(frozen=True, slots=True)
class Measured:
    """A measure in millimetres and where it is from.

    Two surveys: it lies between them, or, with `other_mm`, that is what the second one says.
    """

    mm: float
    surveys: tuple[Survey, ...]
    other_mm: float | None = None


#: Months to millimetres, male and female.
HEADS_WHO = {
    0: (344.618, 338.787), 1: (372.435, 365.163), 2: (391.349, 382.580), 3: (405.008, 395.210),
    6: (433.393, 422.079), 9: (450.007, 438.309), 12: (460.637, 448.940), 18: (473.718, 462.431),
    24: (482.536, 471.845), 36: (494.619, 485.106), 48: (502.115, 493.321), 60: (507.372, 499.225),
}  # fmt: skip
HEADS_UK90 = {
    48: (522.15, 511.04), 72: (531.68, 521.69), 96: (538.67, 530.08), 120: (544.82, 537.38),
    144: (551.26, 543.55), 168: (558.58, 548.73), 192: (565.91, 553.21), 216: (572.60, 555.20),
}  # fmt: skip
#: Of those born early: weeks to millimetres.
HEADS_PRETERM = {28: (267, 263), 32: (301, 298), 34: (315, 313), 36: (328, 324), 38: (339, 334)}
#: Letters as one seller's hats have them, in centimetres around the head (common practice, no
#: source; charts differ).
HEAD_LETTERS = {"s": (53, 54), "m": (55, 56), "l": (57, 58), "xl": (59, 60)}
#: Head, hand and foot of the grown up, male and female; around, and long where it has a length.
HEAD_AROUND = (574.4, 561.1)
HAND_AROUND, HAND_LONG = (212.3, 186.6), (193.3, 181.1)
FOOT_AROUND, FOOT_LONG = (252.0, 228.1), (271.2, 246.3)

#: WHO ends at five years; the next figure of UK90 that does not overlap it is that of six.
_WHO_TO, _UK90_FROM, OLDEST = 60, 72, 216


def head(person: Person) -> Measured:
    """The girth of a head above the ears; between two ages of a table, a straight line.

    Weeks lie within the table of those born early.
    """
    if person.months is None:
        return Measured(_of(HEAD_AROUND, person.sex), (Survey.ANSUR,))
    if person.weeks is not None:
        return Measured(_at(HEADS_PRETERM, person.weeks, person.sex), (Survey.UK90,))
    months = min(person.months, OLDEST)
    if months <= _WHO_TO:
        by_who = _at(HEADS_WHO, months, person.sex)
        if months < min(HEADS_UK90):
            return Measured(by_who, (Survey.WHO,))
        return Measured(by_who, (Survey.WHO, Survey.UK90), _at(HEADS_UK90, months, person.sex))
    if months >= _UK90_FROM:
        return Measured(_at(HEADS_UK90, months, person.sex), (Survey.UK90,))
    between = {_WHO_TO: HEADS_WHO[_WHO_TO], _UK90_FROM: HEADS_UK90[_UK90_FROM]}
    return Measured(_at(between, months, person.sex), (Survey.WHO, Survey.UK90))


def grown_up(table: tuple[float, float], person: Person) -> Measured | None:
    """A measure of the grown up; None for a child, of whom there is no table here."""
    return None if person.months is not None else Measured(_of(table, person.sex), (Survey.ANSUR,))


def _at(table: Mapping[int, tuple[float, float]], months: int, sex: Sex | None) -> float:
    below = max(age for age in table if age <= months)
    above = min(age for age in table if age >= months)
    low, high = _of(table[below], sex), _of(table[above], sex)
    return low if above == below else low + (high - low) * (months - below) / (above - below)


def _of(pair: tuple[float, float], sex: Sex | None) -> float:
    """Of the male and the female figure the one asked for, half way between them for either."""
    male, female = pair
    return {Sex.MALE: male, Sex.FEMALE: female, None: (male + female) / 2}[sex]
