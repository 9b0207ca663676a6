"""Opened balls beside whole ones, or among those that were counted."""

from __future__ import annotations

import re
from collections.abc import Iterator

from stash.parsing.label.shares import (
    LEAN,
    OF_IT,
    ROUGHS,
    SHARE,
    SO_MUCH,
    STATE,
    amount_in,
    share_in,
)
from stash.parsing.label.span import Held, Kind, Part, Span, span_of
from stash.parsing.label.text import NUMBER_WORDS, Text
from stash.parsing.label.vocabulary import (
    ABOUT,
    AMOUNT,
    LEFT,
    OPENED,
    PACKAGE,
    USED,
    compiled,
)

_AND_MORE = (
    r"(?:(?:\+|&|(?<![^\W\d_])(?:and|plus|und|et|y|e|en|och|og)(?![^\W\d_]))\s*(?:there\s+is\s+"
    r"|there's\s+|also\s+)?)"
)


_ANOTHER = (
    r"(?:(?:an?|another|one|1|a\s+further|one\s+more|1\s+more|(?:an?\s+)?other|ein|un|een|en)\s+)?"
)


#: "plus 35 g of another", "+ 60g", "and another 40 g left", "and a part ball of 20g".
_PLUS_AMOUNT = compiled(
    rf"{_AND_MORE}(?:{_ANOTHER})?(?:{_ANOTHER})?(?:(?:with|at|about|only|just|extra)\s+)*"
    rf"(?:{OPENED}"
    rf"\s*)?(?:(?:with|at|about|of|weighing|\()\s*)*{SO_MUCH}"
    rf"(?:\s*(?:(?:of|from)\s+(?:another|an?\s+\w+|one)|extra|more|over|left(?:over)?"
    rf"|remaining|{OPENED}|{PACKAGE}|loose|on\s+top|\)))*"
)


#: Words by which an "and" leads to another ball, and not to the other half of a pair.
_ONE_MORE = compiled(
    rf"\bplus\b|\b(?:from|of)\s+an?\s+(?:second|third|fourth|fifth|sixth|seventh|different)\b"
    rf"|\b(?:another|other|extra|loose|one|a|an|only|on\s+top|ein|un|een|en|ett)\b|{LEFT}|{OPENED}"
    rf"|{PACKAGE}"
)


_PLUS_PART = compiled(
    rf"{_AND_MORE}(?:{_ANOTHER})(?:(?:{ABOUT}\s*)?{SHARE}(?:\s+of\s+an?\s+\w+\s+(?:one|{PACKAGE}))?"
    rf"(?:\s+(?:of\s+)?(?:an?\s+|one\s+|another\s+)?{PACKAGE})?(?:\s+(?:{LEFT}|{USED}|full))?"
    rf"|(?P<open>{OPENED})(?:\s+(?:one|{PACKAGE}))?(?!\s*(?:of\s+)?{AMOUNT}))"
)


_A_BIT = compiled(
    rf"(?<![\w.,/])(?:\+|&|and|plus)\s*(?:(?:an?|one|1)\s+)?(?:bits?|little|scraps?|some"
    rf"|leftovers?|smidge|tad|few\s+(?:yards|metres))\b(?:\s+(?:more|extra|left))?(?:"
    rf"\s+{PACKAGE}\b)?"
)


#: "one of them half used", "1 with 45 g gone", "one opened", "1 iniziato con 20 g".
_OF_THEM = r"(?:of\s+(?:them|these|which|those|it)|is|are|has|have|been|already|av\s+dem|davon)"


_ONE_OF = (
    r"(?:but\s+|with\s+|davon\s+|dont\s+|di\s+cui\s+|waarvan\s+|varav\s+|of\s+which\s+)?"
    rf"(?:(?P<times2>one(?![\s-]+(?:thirds?|quarters?|fifths?))|1(?!\s+[0-9]+\s?/)|another|the"
    rf"\s+other|the\s+last|last\s+one|eins|eines|einer|une?|uno|una|een|en|ett)"
    rf"(?:\s+(?:{_OF_THEM}|{PACKAGE}|one|only|about|nur|noch))*"
    rf"|(?P<times3>(?:two|three)(?![\s-]+(?:thirds?|quarters?|fifths?))|[23](?!\s+[0-9]+\s?/))"
    rf"(?:\s+{PACKAGE})?\s+(?:{_OF_THEM}|opened|half)(?:\s+(?:{_OF_THEM}|only"
    rf"|about))*)"
)


_ONE_SHARE = compiled(
    rf"(?<![\w.,/]){_ONE_OF}\s*,?\s*(?:(?P<lean>{LEAN})\s*)?{SHARE}{OF_IT}{STATE}?"
)


_SHARE_OF_ONE = compiled(
    rf"(?<!\w)(?:(?P<lean>{LEAN})\s*)?{SHARE}\s+of\s+(?:one|1)(?:\s+of\s+(?:them|these))?(?:"
    rf"\s+{PACKAGE})?{STATE}"
)


_ONE_AMOUNT = compiled(
    rf"(?<![\w.,/]){_ONE_OF}\s*(?:{OPENED}\s*)?(?:down\s+to|with|at|only|weighs|is|has|of|con"
    rf"|mit|med"
    rf"|met|avec|à|,|\()?\s*{SO_MUCH}\s*(?:(?P<left>{LEFT})|(?P<used>{USED}))?\)?"
)


_ONE_OPEN = compiled(
    rf"(?<![\w.,/]){_ONE_OF}\s*(?:is\s+|has\s+been\s+|been\s+|slightly\s+|already\s+)*"
    rf"(?P<open>{OPENED})(?!\s*(?:of\s+|with\s+|con\s+)?{AMOUNT})"
)


_IS_OPENED = compiled(rf"{OPENED}|down\s+to|with\b|at\b|con\b|mit\b|only\b")
_MORE_HINT = compiled(r"[+&]|\b(?:and|plus|und|et|y|e|en|och|og)\b")


_WITHIN_HINT = compiled(
    rf"{LEFT}|{USED}|{OPENED}|\b(?:with|con|mit|avec|at|gone|half|hardly|barely|just|nearly"
    rf"|almost)\b"
)


def part_spans(text: Text) -> Iterator[Span]:
    """The opened balls a line may speak of, one more or one of those counted."""
    plain = text.plain
    if _WITHIN_HINT.search(plain):
        yield from _within(text)
    if not _MORE_HINT.search(plain):
        return
    for m in _PLUS_AMOUNT.finditer(plain):
        amount = amount_in(m["amount"])
        if amount and (not m[0][:1].isalpha() or _ONE_MORE.search(m[0])):
            yield span_of(text, m, Kind.PART, Part(Held(amount=amount), within=False), _plus(m))
    for m in _PLUS_PART.finditer(plain):
        if not text.plain[: m.start()].strip():
            continue
        share = share_in(m)
        if share is not None and 0 < share < 1:
            used = bool(re.search(rf"{USED}", m[0], re.IGNORECASE))
            held = Held(share=1 - share if used else share, about=True)
            yield span_of(text, m, Kind.PART, Part(held, within=False), _plus(m))
        elif m["open"]:
            yield span_of(text, m, Kind.PART, Part(None, within=False), _plus(m) - 1)
    for m in _A_BIT.finditer(plain):
        yield span_of(text, m, Kind.PART, "bit", 3.5)


def _plus(m: re.Match[str]) -> float:
    """A plus says that what follows is one more; an "and" may lead to one of those counted."""
    return 4.5 if m[0][:1].isalpha() and not m[0].lower().startswith("plus") else 6.8


def _within(text: Text) -> Iterator[Span]:
    """Opened balls among those counted."""
    for m in _ONE_SHARE.finditer(text.plain):
        share = share_in(m)
        if share is not None and 0 < share < 1:
            held = Held(share=1 - share if m["used"] else share, about=True)
            yield span_of(text, m, Kind.PART, Part(held, True, _times(m)), 6.0)
    for m in _SHARE_OF_ONE.finditer(text.plain):
        share = share_in(m)
        if share is not None and 0 < share < 1:
            held = Held(share=1 - share if m["used"] else share, about=True)
            yield span_of(text, m, Kind.PART, Part(held, True), 7.0)
    for m in _ONE_AMOUNT.finditer(text.plain):
        amount = amount_in(m["amount"])
        opened = _IS_OPENED.search(m[0])
        if amount and (m["left"] or m["used"] or opened):
            held = Held(amount=amount, used=bool(m["used"]))
            yield span_of(text, m, Kind.PART, Part(held, True, _times(m)), 6.0)
    for m in _ONE_OPEN.finditer(text.plain):
        yield span_of(text, m, Kind.PART, Part(None, True, _times(m)), 4.0)
    for rough, share in ROUGHS:
        one = compiled(rf"(?<![\w.,/]){_ONE_OF}\s*(?:{rough.pattern})")
        for m in one.finditer(text.plain):
            yield span_of(
                text, m, Kind.PART, Part(Held(share=share, about=True), True, _times(m)), 6.5
            )


def _times(m: re.Match[str]) -> int:
    word = (m["times2"] or m["times3"]).lower()
    return NUMBER_WORDS.get(word, 0) or (int(word) if word.isdigit() else 1)
