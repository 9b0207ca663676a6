"""How many skeins a line has."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from stash.errors import BadInput
from stash.parsing import numbers
from stash.parsing.label.span import Count, Kind, Span, span_of
from stash.parsing.label.text import NUMBER_WORDS, Text
from stash.parsing.label.vocabulary import (
    ABOUT,
    AMOUNT,
    BALLS,
    IN_ALL,
    LEFT,
    PACKAGE,
    TO_A_WORD,
    USED,
    WHOLE,
    Pattern,
    compiled,
)

_FIGURE = (
    r"(?:[0-9]{1,3}(?:[ -]|\s*(?:&|and)\s*)(?:[1-9]/[2-9])(?![0-9])|[1-9]/[2-9](?![0-9])"
    r"|[0-9]{1,4}(?:[.,][0-9]{1,2})?(?![0-9/])|[0-9]{1,4}(?=\s?/\s))"
)


_NUM = rf"(?P<n>{_FIGURE})|(?P<word>{TO_A_WORD}(?:\s+dozen)?)"


_HAVE = (
    r"(?:me\s+quedan|il\s+(?:me|m'en)\s+reste|mi\s+restano|ich\s+habe(?:\s+noch)?|ik\s+heb(?:"
    r"\s+nog)?|jag\s+har|jeg\s+har|(?:i\s+|we\s+|still\s+)*(?:have|got|'ve\s+got|has|own|habe|j'ai"
    r"|tengo|ho|heb|har)(?:\s+(?:still|noch|encore|nog))?)"
)


#: What follows is no amount; `3 in the attic` is no length, nor `3 100g` a number in groups.
_NO_AMOUNT = rf"(?!(?=[0-9.,]+\s*[^\W\d_])(?![0-9]+\s+in\s+[a-z]){AMOUNT})"

_COUNTS: tuple[tuple[Pattern, dict[str, Any], float], ...] = (
    # "3 x 50g", "3 of 50g"
    (compiled(
        rf"(?<![\w.,#%])(?P<n>{_FIGURE})\s*(?:[x×*✕]|of|@|à|je|da|de|van|stk|st)\s*(?=(?:{ABOUT}"
        rf"\s*)?{AMOUNT})"), {"bound": True}, 1.5),
    (compiled(rf"(?<![\w.,/#])(?:{_NUM})\s*(?:{PACKAGE}\s*)?(?=@)"), {}, 1.5),
    # "3 balls of 50g", "3 balls 50g"
    (compiled(
        rf"(?<![\w.,/#])(?:{_HAVE}\s+)?(?:{_NUM})[\s-]*[x×]?\s*{BALLS}(?:'s)?(?:\s*(?:of|à|@|je|da"
        rf"|de|van|av|à|zu|mit)(?=\s*(?:{ABOUT}\s*)?{AMOUNT}))"), {"bound": True}, 2.5),
    (compiled(
        rf"(?<![\w.,/#])(?:{_HAVE}\s+)?(?:{_NUM})(?:-?ish)?[\s-]*[x×]?\s*{BALLS}(?:\s+(?:of|von|de"
        rf"|di|van))?(?:\s+(?:left|remaining|available|in\s+stock|there|kvar|übrig|over))?"),
     {}, 1.0),
    (compiled(
        rf"(?<!\w)(?:{_NUM})\s+(?:(?P<size>{WHOLE})\s+)?(?=(?:{AMOUNT})[\s-]*{PACKAGE})"),
     {"bound": True}, 1.0),
    # "a pair of Fern skeins"
    (compiled(r"(?<!\w)(?:a\s+)?(?P<word>pair|couple)\s+of(?!\s+[0-9])"), {}, 1.5),
    # "400 g of Fern in 4 balls"
    (compiled(
        rf"\b(?:in|on|over|across|auf|sur|su|på|op|fördelat\s+på)\s+(?:{_NUM})\s*{BALLS}(?!\s*"
        rf"(?:of|à)?\s*{AMOUNT})"), {"pack": True, "divides": True}, 1.5),
    (compiled(
        rf"(?<![\w.,/#])(?:{_NUM})\s*x?\s*(?P<times>[0-9]{{1,2}})[\s-]?(?:packs?|pks?|packets?)"
        rf"(?![^\W\d_])"), {"pack": True}, 4.0),
    (compiled(r"(?<![\w.,/#])(?P<n>[0-9]{1,3})(?:no|off)\b\.?(?=\s|,|$)"), {}, 2.0),
    # "3 + a bit"
    (compiled(
        rf"(?<![\w.,/#])(?:{_NUM})(?=\s*(?:full\s*|whole\s*)?(?:\+|&|and|plus)\s*(?:an?\s+|one\s+"
        rf"|1\s+)?(?:bits?|little|scraps?|part|remnants?|leftovers?)\b)"), {}, 1.0),
    # "five Fern", in small letters: a figure would be asked about
    (compiled(
        r"(?<!\w)(?<!and )(?P<word>(?-i:two|three|four|five|six|seven|eight|nine|ten|twelve))(?="
        r"\s+(?-i:[A-Z])[^\W\d_]+)"), {}, 0.0),
    (compiled(
        rf"(?:(?<=[^\W\d_]|[\")\d])|(?<=[\s(\[])|^)(?<![\d.,/])\s*[x×*✕]\s?{_NO_AMOUNT}(?P<n>[0-9]{{1,3}})"
        rf"(?!\w|[.,]\d|/|\s*(?:sts|rows))(?:\s+{PACKAGE})?"), {}, 2.0),
    (compiled(r"(?<![\w.,/#])(?P<n>[0-9]{1,3})\s?[x×✕](?![\w])(?!\s*[0-9])"), {}, 2.0),
    (compiled(
        rf"\b(?:pack|packet|bag|set|box|bundle|lot|pkg|bundle)\s+of\s+(?P<n>[0-9]{{1,3}})\b(?!"
        rf"\s*{AMOUNT})(?:\s*{PACKAGE})?|\b(?P<n2>[0-9]{{1,3}})[\s-]*(?:pack|packs|pk)\b(?!\s+of)|"
        rf"(?:a\s+)?(?P<word>{TO_A_WORD})[\s-]pack\b"), {"pack": True}, 2.5),
    (compiled(
        rf"(?<![\w.,/#])(?:{_NUM})[\s-]*(?:{PACKAGE})[\s-]+(?:pack|packet|bag|bundle|set)s?"
        rf"(?![^\W\d_])"), {"pack": True}, 3.5),
    (compiled(
        rf"\b(?:pack|packet|bag|set|box|bundle)\s+of\s+(?:{_NUM})(?:\s*{PACKAGE})?(?!\s*(?:g|m"
        rf"|yd))"), {"pack": True}, 2.0),
    (compiled(
        r"(?<!thread )(?<!stitch )\b(?:qty|quantity|count|number\s+of\s+(?:skeins|balls)"
        r"|anzahl|menge|aantal|antal|cantidad|quantité|quantità)\s*[:=.]?\s*"
        rf"{_NO_AMOUNT}(?:(?P<n>[0-9]{{1,3}})(?![\w/%]|[.,]\d)|(?P<word>{TO_A_WORD})(?![^\W\d_]))"),
     {}, 3.0),
    (compiled(
        r"\b(?:amount|stock|how\s+many|have)\s*[:=.]\s*(?P<n>[0-9]{1,3})\b(?!\s*(?:g|gr"
        r"|grams|m|yd|yds|oz)\b)"), {}, 2.5),
    (compiled(
        rf"(?<![\w.,/#])(?:{_HAVE}|there\s+(?:are|is)|there's|there're|only|now|gave\s+me|given)"
        rf"\s+(?:only\s+|just\s+|now\s+)*(?:{ABOUT}\s+)?(?:{_NUM})(?!\s*{AMOUNT})(?!\s*(?:[x×%/]"
        rf"|{PACKAGE}))(?:\s+(?:of\s+(?:these|them|this|those)|left|remaining|now))*"
        rf"(?![\w.,]*\d)"), {}, 2.5),
    (compiled(rf"(?<![\w.,/#])(?:{_NUM})\s+(?:full|whole)\s+ones?(?![^\W\d_])"),
     {"whole": True}, 2.0),
    (compiled(
        rf"(?<![\w.,/#])(?:{_NUM})\s+(?:of\s+(?:these|them|those)|available|in\s+stock|on\s+hand"
        rf"|in\s+total|in\s+all|off|stk\b\.?|st\b\.?|stck\b\.?|stuks|pz\b\.?|uds?\b\.?|pièces)"
        rf"(?![^\W\d_])"), {}, 2.0),
    (compiled(
        rf"(?<![\w.,/#])(?:{_NUM})\s+(?:are\s+|is\s+)?(?:still\s+)?(?:left|remaining|to\s+go|kvar"
        rf"|übrig|over|restants?|rimasti|quedan)(?![^\W\d_])(?!\s+(?:side|hand))(?:\s+(?:out"
        rf"\s+)?of\s+(?:the\s+)?[0-9]{{1,3}}(?![\w.,]*\d|\s*(?:g|gr|m|yd|oz|kg)))?"), {}, 2.0),
    (compiled(
        rf"(?<![\w.,/#])(?:{_NUM})\s+(?:out\s+)?of\s+(?:(?:the|my)\s+)?(?P<had>[0-9]{{1,3}})\s*"
        rf"(?:{PACKAGE}\s*)?(?:left|remaining|unused)"), {}, 3.0),
    (compiled(
        r"(?<!\w)(?P<word>one|two|three|four|five|six)\s+(?P<size>whole|full|new|unused|complete)"
        r"(?=\s+(?-i:[A-Z]))"), {"whole": True}, 1.0),
    (compiled(rf"{IN_ALL}\s*(?:of|:)?\s*(?:{_NUM})\s*{BALLS}"), {"pack": True}, 2.0),
    (compiled(
        rf"(?<![\w.,/#])(?:(?P<n>[0-9]{{1,3}})|(?P<word>{TO_A_WORD}))\s+(?P<size>{WHOLE})(?="
        rf"\s*(?:[,;+&)]|and\b|plus\b|$"
        rf"|[0-9]))"), {"whole": True}, 2.0),
)  # fmt: skip


_BOUGHT = compiled(
    rf"\b(?:bought|purchased|had|got|ordered|started\s+with|originally|of|gekauft|acheté|köpte"
    rf"|von)\s+(?P<n>[0-9]{{1,3}}|{TO_A_WORD})(?![\w])(?!\s*(?:{AMOUNT}|[x×%/.]))(?:"
    rf"\s+{PACKAGE})?\s*,?\s*(?:and\s+|but\s+)?"
    rf"(?=[^;]*\b(?:{LEFT}|{USED}|still|now))"
)


_USED_BALLS = compiled(
    rf"\b(?:used|gave\s+away|sold)\s+(?P<n>[0-9]{{1,2}}|{TO_A_WORD})(?![\w])(?!\s*(?:{AMOUNT}"
    rf"|[/%.,]\d))(?:\s+{PACKAGE})?(?=\s*(?:[,;)]|$))|(?<![\w.,/#])(?P<n2>[0-9]{{1,2}})\s+{USED}"
    rf"(?=\s*(?:[,;)]|$))"
)


def count_spans(text: Text) -> Iterator[Span]:
    """Every count a line may hold, and the numbers of balls that were there once."""
    for pattern, how, bonus in _COUNTS:
        for m in pattern.finditer(text.plain):
            number = _number(m)
            if number is None or number > 1000:
                continue
            size = (m.groupdict().get("size") or "").lower()
            whole = how.get("whole") or re.fullmatch(WHOLE, size, re.IGNORECASE)
            if m.groupdict().get("times"):
                number *= int(m["times"])
            value = Count(
                number,
                how.get("bound", False),
                bool(whole),
                how.get("pack", False),
                how.get("divides", False),
            )
            yield span_of(text, m, Kind.COUNT, value, bonus)
    for m in _BOUGHT.finditer(text.plain):
        yield span_of(text, m, Kind.BOUGHT_COUNT, _few(m["n"]), 2.5)
    for m in _USED_BALLS.finditer(text.plain):
        yield span_of(text, m, Kind.BOUGHT_COUNT, -_few(m["n"] or m["n2"]), 1.0)


def _few(word: str) -> int:
    return NUMBER_WORDS.get(word.lower(), 0) or int(word)


def _number(m: re.Match[str]) -> Fraction | None:
    named = m.groupdict()
    figure = named.get("n") or named.get("n2")
    if figure:
        try:
            return numbers.fraction(figure)
        except BadInput:
            return None
    words = (named.get("word") or "").lower().split()
    if not words:
        return None
    number = NUMBER_WORDS[words[0]]
    return Fraction(number * 12 if words[1:] == ["dozen"] else number)
