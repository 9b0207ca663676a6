"""Ranking and lengths in a line: of a full skein, in all, a fineness, a yarn count."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stash.errors import Ambiguous, BadInput
from stash.measures import written
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing import quantities, yarn_counts
from stash.parsing.label.span import Amount, Kind, Span, span_of
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import ABOUT, AMOUNT, IN_ALL, PACKAGE, N, compiled

_DENSITY = compiled(
    rf"(?<![\w.,]){N}\s*(?:ypp\b|(?:yards?|yds?|y|m|metres?|meters?)\s*(?:/|per)\s*(?:g|oz|lb"
    rf"|kg|pound|gram)\b)"
)
_METRES_TO_100 = compiled(rf"({AMOUNT})\s*(?:/|per|to|auf|pro|på|op)\s*(100\s*(?:g|gr|grams?)\b)")
_YARN_COUNT = compiled(yarn_counts.PATTERN)
#: A count of strands without its system: it says no length, and never joins the figure behind it.
_BARE_COUNT = compiled(
    r"(?<![\w.,/])(?:[0-9]{1,2}\s?/\s?[0-9]{1,3}|[0-9]{2,3}\s?/\s?[0-9]{1,2})(?![\w/%]|\.\d)"
)
_COUNT_TOLD = compiled(r"\b(?:yarn\s+)?count\s+(?:[0-9]{1,2}\s?/\s?[0-9]{1,3})")
_TEX_TIMES = compiled(r"\s*[x×]\s*[2-9](?!\w|[.,]\d)")
_MEASURED = compiled(r"\b(?:as\s+)?measured\b")
_RANGE = compiled(rf"(?<![\w.,/-])({N})\s*(?:[-–]|to|or)\s*({AMOUNT})")
_PARTED = compiled(r"(?<![\w.,/])(?<!/ )([0-9]{1,3}) ([0-9]{3})\s*([a-z]+)\b")
_TOTAL_AFTER = compiled(
    rf"\s*(?:(?:\(\s*)?(?:in\s+)?{IN_ALL}\)?|(?:bag|pack|packet|bundle|set|box)(?![^\W\d_])(?:"
    rf"\s+of(?=\s+[^\W\d]))?"
    rf"|(?:on|in|over|across|auf|sur|su|på|op|i|für|as|split\s+(?:into|over|between))\s+"
    rf"(?=[0-9]{{1,3}}\s+{PACKAGE}))"
)
_TOTAL_BEFORE = compiled(
    rf"(?:(?:bag|pack|packet|bundle|box|lot|whole\s+lot)\s+(?P<bag>weigh(?:s|ing)\s*)|{PACKAGE}"
    rf"\s*(?P<sum>(?:=|making|mak(?:es|ing)\s+up|totall?ing|adding\s+up\s+to|coming\s+to)\s*"
    rf"(?:a\s+total\s+of\s+)?)|{IN_ALL}\s*(?:of|:|=|is|weight)?\s*(?:{ABOUT}\s*)?)$"
)
_ABOUT_BEFORE = compiled(rf"(?:(?<!\w)|(?<=^)){ABOUT}\s*$")
_ABOUT_AFTER = compiled(
    r"\s*(?:-?ish\b|or\s+so\b|or\s+thereabouts|approx\b\.?|(?:\(\?+\)|\?+)(?!\w)|roughly\b|ca\b\.?)"
)
_EACH_AFTER = compiled(
    rf"\s*(?:each\b|ea\b\.?|apiece|per\s+{PACKAGE}|a\s+{PACKAGE}|pro\s+{PACKAGE}|par\s+{PACKAGE}"
    rf"|/\s?{PACKAGE}|\bl[ae]\s+{PACKAGE}|c/u|stück\b|cad\.?)"
)
_FABRIC_UNITS = ("cm", "mm", "in", "ft")


def amount_spans(text: Text) -> Iterator[Span]:
    """All that an amount could be: each alone, chains of a pair, totals, finenesses, counts."""
    yield from _questions(text)
    yield from _finenesses(text)
    yield from _yarn_counts(text)
    for m in _MEASURED.finditer(text.plain):
        yield Span(*text.tokens_of(m.start(), m.end()), Kind.MEASURED, 3.0, True)
    for one in found(text):
        yield from _single(text, one)


def found(text: Text) -> list[quantities.Found]:
    """Every amount of the line; one that may be two is passed over: `_questions` has it."""
    plain = text.plain
    joined: list[quantities.Found] = []
    for m in re.finditer(AMOUNT, plain, re.IGNORECASE):
        start = m.start() + _behind_slash(plain, m)
        try:
            inside = quantities.found_in(plain[start : m.end()])
        except BadInput:
            continue
        joined += [
            quantities.Found(f.value, f.unit, f.start + start, f.end + start) for f in inside
        ]
    return _as_one(plain, joined)


def _behind_slash(plain: str, m: re.Match[str]) -> int:
    """How much of an amount's figure is not its own: a count with a slash (`2/8 240 g`), a figure.

    A plain space parts thousands only behind a slash of a pair (`100 g/1 200 m`); elsewhere what
    stands before it is another figure, or asked about.
    """
    grouped = re.match(r"[0-9]+ (?=[0-9]{3})", m[0])
    if grouped and not re.search(r"[^\W\d]\.?\s?[/=]\s?$", plain[: m.start()]):
        return grouped.end()
    mixed = re.match(r"[0-9]{1,2}\s?/\s?[0-9]{1,3}\s+(?=[0-9])", m[0])
    return mixed.end() if mixed else 0


def _as_one(plain: str, found: list[quantities.Found]) -> list[quantities.Found]:
    """`1 lb 4 oz` is one amount in two units."""
    out: list[quantities.Found] = []
    for one in found:
        if out and not plain[out[-1].end : one.start].strip():
            try:
                both = quantities.found_in(plain[out[-1].start : one.end])
            except BadInput:
                both = []
            if len(both) == 1:
                start = out.pop().start
                out.append(quantities.Found(both[0].value, both[0].unit, start, one.end))
                continue
        out.append(one)
    return out


def _single(text: Text, one: quantities.Found) -> Iterator[Span]:
    """An amount as what a full skein holds, or as that of all of them; with its doubt."""
    plain, start, end = text.plain, one.start, one.end
    if one.unit in _FABRIC_UNITS:
        yield Span(*text.tokens_of(start, end), Kind.NOTE, 2.0, "size")
        return
    before, after = _ABOUT_BEFORE.search(plain[:start]), _ABOUT_AFTER.match(plain, end)
    about = bool(before or after)
    start = before.start() if before else start
    end = after.end() if after else end
    value = TypedAmount(one.value, one.unit, about, bool(_EACH_AFTER.match(plain, end)))
    each = _EACH_AFTER.match(plain, end)
    first, last = text.tokens_of(start, each.end() if each else end)
    yield Span(first, last, Kind.FULL, 2.0 * (last - first) + 0.5, value)
    total_before = _TOTAL_BEFORE.search(plain[:start])
    total_after = _TOTAL_AFTER.match(plain, end)
    if total_before or total_after:
        if total_before:
            start = total_before.start(
                "sum" if total_before["sum"] else "bag" if total_before["bag"] else 0
            )
        end = total_after.end() if total_after else end
        first, last = text.tokens_of(start, end)
        yield Span(first, last, Kind.TOTAL, 2.0 * (last - first) + 2, value)


@dataclass(frozen=True, slots=True)
class TypedAmount:
    """An amount as typed: its measure, its unit, whether it is rough, whether it is of each."""

    value: Amount
    unit: str
    about: bool = False
    each: bool = False

    @property
    def words(self) -> str:
        """As it reads back."""
        return written.show(self.value, self.unit)


def _finenesses(text: Text) -> Iterator[Span]:
    for m in _DENSITY.finditer(text.plain):
        try:
            yield span_of(text, m, Kind.FINENESS, quantities.density(m[0]), 3.0)
        except BadInput:
            continue
    for m in _METRES_TO_100.finditer(text.plain):
        try:
            pair = quantities.put_up(f"{m[2]}/{m[1]}")
        except BadInput:
            continue
        if re.search(r"per|auf|pro|på|op", m[0]):
            yield span_of(text, m, Kind.FINENESS, pair, 3.0)


def _yarn_counts(text: Text) -> Iterator[Span]:
    for m in _YARN_COUNT.finditer(text.plain):
        end = m.end()
        if (times := _TEX_TIMES.match(text.plain, end)) and m["unit"]:
            end = times.end()
        words = text.plain[m.start() : end]
        try:
            pair = yarn_counts.yarn_count(m[0])
        except BadInput:
            continue
        if end > m.end():
            strands = int(re.sub(r"\D", "", text.plain[m.end() : end]))
            pair = type(pair)(Mass(pair.mass.mg * strands), pair.length)
        first, last = text.tokens_of(m.start(), end)
        yield Span(first, last, Kind.FINENESS, 2.0 * (last - first) + 3, pair, words)
    for m in _BARE_COUNT.finditer(text.plain):
        if re.fullmatch(r"[1-9]\s?/\s?[2-4]", m[0]) and _is_share(m[0]):
            readings = [f"{m[0]} left", f"count {m[0]}"]
            first, last = text.tokens_of(m.start(), m.end())
            yield Span(first, last, Kind.QUESTION, 2.4, Ambiguous(m[0], readings), m[0])
            continue
        yield Span(*text.tokens_of(m.start(), m.end()), Kind.NOTE, 2.5, "yarn count")

    for m in _COUNT_TOLD.finditer(text.plain):
        yield Span(*text.tokens_of(m.start(), m.end()), Kind.NOTE, 6.0, "yarn count")


def _is_share(words: str) -> bool:
    above, below = (int(part) for part in words.split("/"))
    return above < below


def _questions(text: Text) -> Iterator[Span]:
    """Ranges, and figures that may be thousands or not: nobody but her can say."""
    for m in _RANGE.finditer(text.plain):
        unit = re.sub(r"[\d\s.,/']+", "", m[2])
        yield _ask(text, m, [f"{m[1]} {unit}", m[2].strip()])
    for m in _PARTED.finditer(text.plain):
        in_pair = text.plain[: m.start()].rstrip().endswith(("/", "="))
        if not in_pair and m[3].lower() in quantities.UNIT_WORDS:
            yield _ask(text, m, [f"{m[1]}{m[2]} {m[3]}", f"{m[1]} x {m[2]} {m[3]}"])
    for m in re.finditer(AMOUNT, text.plain, re.IGNORECASE):
        try:
            quantities.found_in(m[0])
        except Ambiguous as both:
            yield from _either(text, m, both.readings)
        except BadInput as wrong:
            first, last = text.tokens_of(m.start(), m.end())
            yield Span(first, last, Kind.QUESTION, 2.0 * (last - first), wrong, m[0])


def _either(text: Text, m: re.Match[str], readings: Sequence[str]) -> Iterator[Span]:
    """`4,480 yds` either way: what the rest of the line allows is read, else it is asked."""
    first, last = text.tokens_of(m.start(), m.end())
    for reading in readings:
        one = quantities.found_in(reading)[0]
        yield Span(
            first,
            last,
            Kind.FULL,
            2.0 * (last - first) + 0.5,
            TypedAmount(one.value, one.unit),
            reading,
        )


def _ask(text: Text, m: re.Match[str], readings: list[str]) -> Span:
    first, last = text.tokens_of(m.start(), m.end())
    question = Ambiguous(m[0].strip(), readings)
    return Span(first, last, Kind.QUESTION, 2.0 * (last - first) - 2, question, m[0].strip())


def same_kind(one: Amount, other: Amount | None) -> bool:
    """Whether two amounts can be compared at all."""
    return isinstance(one, Mass) == isinstance(other, Mass) and isinstance(other, Mass | Length)
