"""Whom a thing is to fit, as people say it: by who it is, an age, a letter, or a measured girth."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length
from stash.parsing import names, numbers, people
from stash.parsing.design.girths import NUMBER, TO, between, hat_size, measured, shown
from stash.parsing.people import PEOPLE, Group, Someone
from stash.requirements.design.sizing import BodyPart
from stash.requirements.design.whom import BABY_MONTHS, Whom
from stash.trade.bodies import HEAD_LETTERS, HEADS_PRETERM, OLDEST, Person, Sex, head

_YEARS = ("year", "years", "yr", "yrs", "yo", "y", "t")
_MONTHS = ("month", "months", "mth", "mths", "mo", "mos", "m")
_WEEKS = ("week", "weeks", "wk", "wks", "w")
_MONTHS_EACH = {
    **dict.fromkeys(_YEARS, Fraction(12)),
    **dict.fromkeys(_MONTHS, Fraction(1)),
    **dict.fromkeys(_WEEKS, Fraction(28, 121)),  # 7 days of 30.4 and a bit
}
_UNIT = rf"(?:{'|'.join(sorted(_MONTHS_EACH, key=len, reverse=True))})\b"
_AGE = re.compile(
    rf"(?P<low>{NUMBER})(?:\s*-?\s*(?P<lows>{_UNIT}))?"
    rf"(?:{TO}(?P<high>{NUMBER})(?:\s*-?\s*(?P<unit>{_UNIT}))?)?"
)
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]*)*")

_COUNTS = (
    "one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen"
)
#: What is several words, or none, and is read as one.
_AS_ONE = (
    (
        r"\bone[- ]size(?: fits (?:all|most))?\b|\bosfa\b|\bos\b|\bfree size\b|\buniversal\b"
        r"|\bevery(?:one|body)\b|\bany(?:one|body)\b",
        "onesize",
    ),
    (r"\bnew[- ]born", "newborn"),
    (r"\bnewborn(?=\s*(?:-|to)\s*[0-9])", "0"),
    (r"\bto fit\b", "fit"),
    (r"\ba (?=year|month|week)", "1 "),
    (r"\bgrown[- ]?ups?\b", "grownup"),
    (r"\bpre[- ](teen|term|mature)", r"pre\1"),
    (r"\b(?:extra|x)[- ]?(small|large)\b", r"x\1"),
    (r"\by/o\b", "yo"),
    (r"(?<=[0-9])\+", ""),
    *((rf"\b{word}\b", str(number)) for number, word in enumerate(_COUNTS.split(), 1)),
)
_LETTERS = {
    **{letter: letter for letter in (*HEAD_LETTERS, "xs", "xxl", "xxs")},
    "small": "s",
    "sm": "s",
    "medium": "m",
    "med": "m",
    "large": "l",
    "lg": "l",
    "xsmall": "xs",
    "xlarge": "xl",
    **dict.fromkeys(("little", "tiny", "micro"), "s"),
    "big": "l",
}
_AGED = ("age", "aged", "ages", "old", "olds")
#: What may stand beside a size and says nothing of it.
_BESIDE = (
    "size sized sizes hat for a an the my of fit fits or and young measured about approx head hand "
    "foot feet girth circumference around average regular standard normal"
)
_ASIDE = (*_AGED, *_BESIDE.split())
#: The ages that are asked about where only a word is said.
_AGES = {
    Group.PREEMIE: ("28 weeks", "32 weeks", "34 weeks", "36 weeks"),
    Group.BABY: ("3 months", "6 months", "12 months"),
    Group.TODDLER: ("18 months", "2 years", "3 years"),
    Group.CHILD: ("4 years", "6 years", "8 years", "10 years"),
    Group.TWEEN: ("9 years", "11 years", "13 years"),
    Group.TEEN: ("13 years", "15 years", "17 years"),
}
#: What one hat can fit: heads that differ by more than it stretches are asked about (our choice).
_STRETCH_MM = 60
_GROWN_YEARS = 18
#: A span of numbers below this is no span of centimetres around a head.
_LEAST_HEAD_CM = 30
_MOST_YEARS_OF_TODDLERS = 4


@dataclass(frozen=True, slots=True)
class _Said:
    """A size taken apart: the words for somebody, the letters, an age, and what else is there."""

    text: str
    who: Someone
    #: The words for somebody, as they are to be typed again.
    base: str
    letters: tuple[str, ...]
    words: frozenset[str]
    age: re.Match[str] | None


def wearer(text: str, part: BodyPart = BodyPart.HEAD) -> Person | Length:
    """Whom it is to fit, or a girth as it was measured.

    Read: `woman`, `ladies`, `newborn girl`, `child 5`, `5-6 years` (its middle), `2T`, `12m`,
    `preemie 32 weeks`, `56cm`, `M`. A word or a number that may be several ages or girths is asked
    about: `toddler`, `S/M`, `size 6`.
    """
    plain = _plain(text)
    if (girth := measured(text, _figure(plain))) is not None:
        return girth
    if part is BodyPart.HEAD and (size := hat_size(text, plain)):
        return size
    said = _said(text, plain)
    if said.age:
        return _aged(said, said.age)
    _refuse_several(said)
    if said.letters:
        return _lettered(said, part)
    if "onesize" in said.words and not said.who.sex:
        raise Ambiguous(text.strip(), ("adult", "woman", "man"))
    return _unaged(said)


def whom(text: str) -> Whom | None:
    """Whom a thing is for in the same words, as far as cautions go; None where they do not say."""
    if known := people.together(_WORD.findall(_plain(text))).whom:
        return known
    try:
        found = wearer(text)
    except BadInput:
        return None
    if isinstance(found, Length) or found.months is None:
        return None
    return Whom.BABY if found.months < BABY_MONTHS else Whom.CHILD


def _figure(plain: str) -> str:
    """What is left of a text beside the words that measure nothing: `woman's head 56cm`."""
    words = plain.split()
    return " ".join(word for word in words if word not in _ASIDE and not people.someone(word))


def _plain(text: str) -> str:
    plain = " ".join(numbers.cleaned(text).lower().split())
    for pattern, word in _AS_ONE:
        plain = re.sub(pattern, word, plain)
    return plain


# words


def _said(text: str, plain: str) -> _Said:
    age, words, unknown = _apart(plain)
    if unknown:
        raise Unreadable(text, "no_size", nearest=_mended(plain, unknown))
    return _Said(
        text=text.strip(),
        who=people.together(words),
        base=" ".join(word for word in words if people.someone(word)),
        letters=tuple(_LETTERS[word] for word in words if word in _LETTERS),
        words=frozenset(words),
        age=age,
    )


def _apart(plain: str) -> tuple[re.Match[str] | None, list[str], list[str]]:
    """The age in a text, the words beside it, and what of all that is not known."""
    age = _AGE.search(plain)
    rest = f"{plain[: age.start()]} {plain[age.end() :]}" if age else plain
    words = _WORD.findall(rest)
    signs = re.findall(r"[^\s,;:./()&'-]+", _WORD.sub("", rest))
    return age, words, [word for word in words if not _known(word)] + signs


def _known(word: str) -> bool:
    return word in _LETTERS or word in _ASIDE or word == "onesize" or bool(people.someone(word))


def _mended(plain: str, unknown: Sequence[str]) -> str:
    """The text with each word that is not known put right, "" where that makes no size either."""
    vocabulary = [*PEOPLE, *_MONTHS_EACH, *_LETTERS, *_ASIDE]
    mended = plain
    for word in unknown:
        near = [one for one in names.closest(word, vocabulary) if one != word]
        mended = mended.replace(word, near[0], 1) if near else ""
    if mended in ("", plain) or _apart(mended)[2]:
        return ""
    try:
        wearer(mended)
    except Ambiguous:
        return mended
    except BadInput:
        return ""
    return mended


def _unaged(said: _Said) -> Person:
    group = said.who.group
    if group is Group.GROWN:
        return Person(None, said.who.sex)
    if group is Group.NEWBORN:
        return Person(0, said.who.sex)
    if group is None:
        raise Unreadable(said.text, "no_size", nearest="")
    raise _which_age(said, group)


def _refuse_several(said: _Said) -> None:
    """`child/teen` may be either; each is asked about as somebody of its middle age."""
    by_group = {who.group: word for word in said.base.split() if (who := people.someone(word))}
    several = people.groups(who for word in by_group.values() if (who := people.someone(word)))
    if len(several) > 1:
        each = [f"{by_group[one]} {_AGES.get(one, ('', ''))[1]}".strip() for one in several]
        raise Ambiguous(said.text, each)


def _which_age(said: _Said, group: Group) -> Ambiguous:
    return Ambiguous(said.text, [f"{said.base} {age}" for age in _AGES[group]])


def _lettered(said: _Said, part: BodyPart) -> Person | Length:
    """A letter is the middle of what it spans, on a head; of hand and foot only the middle one is.

    Two letters are asked about: they are further apart than a hat stretches to no purpose.
    """
    group, sex = said.who.group, said.who.sex
    if group in _AGES:
        raise _which_age(said, group)
    usual = ("woman",) if sex is Sex.FEMALE else ("man",) if sex is Sex.MALE else ("woman", "man")
    if part is BodyPart.HEAD and all(letter in HEAD_LETTERS for letter in said.letters):
        if sex and {*said.letters} == {"m"}:
            return Person(None, sex)
        girths = sorted({Fraction(sum(HEAD_LETTERS[letter]), 2) for letter in said.letters})
        if len(girths) > 1:
            raise Ambiguous(said.text, [f"{float(cm):g}cm" for cm in girths])
        return Length(int(girths[0] * 10_000))
    if part is BodyPart.HEAD or {*said.letters} != {"m"}:
        raise Unreadable(said.text, "no_letters", part=part)
    if sex is None:
        raise Ambiguous(said.text, usual)
    return Person(None, sex)


# ages


def _aged(said: _Said, age: re.Match[str]) -> Person:
    low, high = numbers.fraction(age["low"]), numbers.fraction(age["high"] or age["low"])
    unit = age["unit"] or age["lows"]
    if said.who.group is Group.PREEMIE and unit in (None, *_WEEKS):
        return _born_early(said, (low + high) / 2)
    if unit is None:
        if said.who.group is Group.GROWN and low >= _GROWN_YEARS:
            return Person(None, said.who.sex)
        unit = _unit_meant(said, low, high)
    if unit in _WEEKS and said.who.group is None and high >= min(HEADS_PRETERM):
        raise Ambiguous(said.text, [f"{who} {age[0]}" for who in ("preemie", "baby")])
    first = low * _MONTHS_EACH[age["lows"] or unit]
    return _of_months(said, first, high * _MONTHS_EACH[unit])


def _born_early(said: _Said, weeks: Fraction) -> Person:
    first, *_, last = HEADS_PRETERM
    if not first <= weeks <= last:
        raise Unreadable(said.text, "no_such_weeks", first=first, last=last)
    return Person(0, said.who.sex, round(weeks))


def _unit_meant(said: _Said, low: Fraction, high: Fraction) -> str:
    """What a number without a unit counts, by whom it is said of; asked where that is open."""
    group = said.who.group
    if group is None and not said.words & {*_AGED}:
        return _bare(said, low, high)
    if group is Group.GROWN:
        raise Unreadable(said.text, "no_size", nearest="")
    if group is Group.TODDLER:
        return "years" if high <= _MOST_YEARS_OF_TODDLERS else "months"
    if group not in (Group.BABY, Group.NEWBORN):
        return "years"
    if high > 2:
        return "months"
    units = ("month", "year") if high == 1 else ("months", "years")
    raise Ambiguous(said.text, [f"{said.base} {shown(high)} {unit}" for unit in units])


def _bare(said: _Said, low: Fraction, high: Fraction) -> str:
    """The unit of a number that nothing is said of: asked, but for a span that only months fit."""
    if low > _GROWN_YEARS:
        units = ("cm", "in") if low == high else ("in",) if high < _LEAST_HEAD_CM else ("cm",)
        raise Ambiguous(said.text, [one for unit in units for one in between(low, high, unit)])
    if low == high:
        year, month = ("year", "month") if low == 1 else ("years", "months")
        each = (f"child {shown(low)} {year}", f"baby {shown(low)} {month}")
        raise Ambiguous(said.text, each)
    if _too_wide(12 * low, 12 * high):
        return "months"
    span = f"{shown(low)}-{shown(high)}"
    raise Ambiguous(said.text, (f"{span} years", f"{span} months"))


def _too_wide(first: Fraction, last: Fraction, sex: Sex | None = None) -> bool:
    """Whether no one hat fits heads of both ages."""
    small, large = (head(Person(math.floor(age), sex)).mm for age in (first, last))
    return large - small > _STRETCH_MM


def _of_months(said: _Said, first: Fraction, last: Fraction) -> Person:
    """The middle of a span of ages, as labels have them; asked where no one size fits all of it."""
    sex = said.who.sex
    if said.who.group is Group.GROWN and first >= 12 * _GROWN_YEARS:
        return Person(None, sex)
    if last > OLDEST:
        raise Unreadable(said.text, "no_child_of_that_age")
    middle = (first + last) / 2
    if _too_wide(first, last, sex):
        raise Ambiguous(said.text, [_age(said.base, age) for age in (first, middle, last)])
    return Person(math.floor(middle + Fraction(1, 2)), sex)


def _age(base: str, months: Fraction) -> str:
    whole = math.floor(months + Fraction(1, 2))
    if whole == 0:
        return f"newborn {base}".strip()
    age = f"{whole // 12} years" if whole % 12 == 0 and whole > 12 else f"{whole} months"
    return f"{base} {age}".strip()
