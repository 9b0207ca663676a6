"""Weighings of a ball, rows left and yarn to keep back, as a maker types them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from stash.errors import BadInput, Unreadable
from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass
from stash.parsing import numbers, quantities
from stash.requirements.lasting.lasting import (
    READING_NOISE,
    STITCHES_TO_A_ROW,
    GrowingRows,
    Keep,
    Lasting,
    Left,
    Reading,
    Weighings,
    lasting,
)

_COUNT = r"[0-9]+(?:\s?/\s?[0-9]+|[.,][0-9]+)?|\.[0-9]+"
_STITCHES = ("st", "sts", "stitch", "stitches")
_ROWS = ("", "r", "row", "rows", "rnd", "rnds", "round", "rounds")
_HEAD = re.compile(rf"(?:^|[\s,;])\s*({_COUNT})\s*([a-z]*)\s*[:=]", re.IGNORECASE)

_GROWING = re.compile(rf"({_COUNT})\s*(?:sts?)?(?:\s*([+-])\s*({_COUNT}))?(?:\s*a row)?")

_KEPT_ROWS = re.compile(rf"({_COUNT})\s*(?:rows?|rounds?|rnds?)")


@dataclass(frozen=True, slots=True)
class TypedWeighing:
    """One weighing as typed: the count, what the scale showed, and to what step it was written."""

    count: Fraction
    gross: Mass
    step: Mass


def readings(text: str) -> tuple[tuple[TypedWeighing, ...], bool]:
    """Weighings in order, and whether they count stitches: `0:98g 20:81g`, `0st:98g 1600st:81g`."""
    plain = numbers.cleaned(text).strip()
    heads = list(_HEAD.finditer(plain))
    if not heads or plain[: heads[0].start()].strip():
        raise Unreadable(text, "no_weighings")
    ends = [head.start() for head in heads[1:]] + [len(plain)]
    typed = tuple(
        _weighing(head[1], plain[head.end() : end]) for head, end in zip(heads, ends, strict=True)
    )
    units = {head[2].lower() for head in heads if head[2]}
    if not units <= {*_STITCHES, *_ROWS} or (units & {*_STITCHES} and units & {*_ROWS}):
        raise Unreadable(text, "weighings_counted_both_ways")
    return typed, bool(units & {*_STITCHES})


def _weighing(count: str, words: str) -> TypedWeighing:
    words = words.strip().rstrip(",;").strip()
    return TypedWeighing(numbers.fraction(count), quantities.mass(words), _step(words))


def _step(words: str) -> Mass:
    """The last place that was written: 98g is to the gram, 98.4g to the tenth, 3.4 oz likewise."""
    last = quantities.found_in(words)[-1]
    decimals = re.search(r"[.,]([0-9]+)", words[last.start : last.end])
    unit = quantities.mass(f"1{last.unit}")
    return Mass(max(1, unit.mg // 10 ** len(decimals[1] if decimals else "")))


def scale_step(typed: tuple[TypedWeighing, ...], usual: Mass) -> Mass:
    """The step of the scale: the finest that was written, or her usual one where that is grams."""
    finest = min(one.step for one in typed)
    return min(finest, usual) if finest == quantities.mass("1g") else finest


def count(text: str, kind: str) -> float:
    """How many rows or stitches: `36`, `1/2`; else `Unreadable`, of the kind given."""
    plain = numbers.cleaned(text).strip()
    if not re.fullmatch(_COUNT, plain):
        raise Unreadable(text, kind)
    return float(numbers.fraction(plain))


def rows_done(text: str) -> tuple[tuple[float, ...], dict[int, float]]:
    """Rows at the newest weighings of one ball, or at that of each by its number: `1=50,4=20`."""
    if "=" not in text:
        return (counts(text) if text else ()), {}
    found = {}
    for part in re.split(r"[\s;,]+", text.strip()):
        number, sign, row = part.partition("=")
        if not sign or not number.isdecimal():
            raise Unreadable(text, "no_rows_by_skein")
        found[int(number)] = count(row, "no_count_of_rows_worked")
    return (), found


def counts(text: str) -> tuple[float, ...]:
    """The rows worked at the newest weighings, oldest first: `20,40`."""
    return tuple(
        count(part, "no_count_of_rows_worked") for part in re.split(r"[\s;]+|,\s*", text.strip())
    )


def growing(text: str) -> GrowingRows:
    """Rows that change: `80 +2` begins with 80 stitches and has 2 more in each row."""
    found = _GROWING.fullmatch(numbers.cleaned(text).strip().lower())
    if found is None or not numbers.fraction(found[1]):
        raise Unreadable(text, "no_growing_rows")
    more = numbers.fraction(found[3]) if found[3] else Fraction(0)
    return GrowingRows(float(numbers.fraction(found[1])), float(-more if found[2] == "-" else more))


def keep(text: str) -> Keep:
    """What to keep back: `4g`, `6m`, `3 rows`."""
    if not text:
        return Keep()
    rows = _KEPT_ROWS.fullmatch(numbers.cleaned(text).strip().lower())
    if rows:
        return Keep(rows=float(numbers.fraction(rows[1])))
    amount = quantities.amount(text)
    if isinstance(amount, Length):
        return Keep(length_m=amount.m)
    return Keep(mass_g=amount.g)


@dataclass(frozen=True, slots=True)
class BallWords:
    """What was typed of a ball that no books need know."""

    readings: str = ""
    rows_left: str = ""
    stitches_left: str = ""
    stitches: str = ""
    keep: str = ""
    put_up: str = ""


def of_ball(words: BallWords, usual_step: Mass, tare: Mass | None) -> Lasting:
    """Whether a ball lasts; the tare comes off every reading."""
    if not words.readings:
        raise BadInput("no_ball_weighed")
    typed, in_stitches = readings(words.readings)
    left = _left(words, in_stitches)
    work = growing(words.stitches) if words.stitches else GrowingRows()
    step = scale_step(typed, usual_step)
    noise, off = READING_NOISE * step.g, tare or NO_MASS
    points = tuple(Reading(float(one.count), (one.gross - off).g, noise) for one in typed)
    weighings = Weighings(points, work, STITCHES_TO_A_ROW if in_stitches else None)
    kept = keep(words.keep)
    pair = quantities.put_up(words.put_up).m_per_100g if words.put_up else None
    return lasting(weighings, Left(left, kept.grams(pair), kept.rows), step.g)


def _left(words: BallWords, in_stitches: bool) -> float:
    """How much is still to work, counted as the weighings are."""
    typed, other = words.rows_left, words.stitches_left
    if in_stitches:
        typed, other = other, typed
    if not typed or other or (in_stitches and words.stitches):
        raise BadInput("left_counted_otherwise", in_stitches=in_stitches)
    return count(typed, "no_count_of_work_left")
