"""What kind of yarn and which colour number: both may be written as `#` and a digit."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from stash.errors import Ambiguous, Unreadable
from stash.measures.colour import Colour
from stash.parsing.label.span import Kind, Span, span_between, span_of
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import PACKAGE, Pattern, compiled, words_of
from stash.trade import colour_words, thickness

#: Words about what a yarn is for or how it is made: in a name they say no more than that.
KIND_WORDS = words_of(
    "yarn wool cotton tweed soft sock socks party blend baby kitchen dishcloth cloth pure natural"
    " organic chunky garn wolle fil laine "
    "hilo lana filato draad sockengarn sockenwolle strumpfwolle handspun homespun roving"
    " crochet knitting thread string twine cord rug "
    "mohair alpaca linen silk merino acrylic superwash supersoft fine classic value budget"
    " basic plain craft cone minis mini ull"
)

_THICKNESS_NAMES = (
    r"lace(?:\s*weight)?|super\s*fine|super\s*bulky|fine|light(?:\s*worsted)?|medium|bulky|jumbo"
    r"|dk|worsted|aran|chunky|fingering|sock|sport"
)
_AMOUNT_BEHIND = (
    r"(?!\d|[.,/]\d|\s*[-–]\s*\d|\s*(?:g|gr|grams?|oz|kg|lbs?|m|yds?|yards?|met(?:er|re)s?|%|x"
    r"|×)(?![^\W\d_])|\s*" + PACKAGE + r")"
)
_NUMBERED = compiled(
    rf"\b(?:class|category|cat|cyc(?:a)?|(?:yarn\s+)?weight|wt|thickness|gauge\s+class|yarn"
    rf"\s+class|size)\.?\s*[:#]?\s*\(?(?P<classes>[0-7](?:\s*(?:[-–/]|to|or)"
    rf"\s*[0-7])?)\)?{_AMOUNT_BEHIND}"
)
_WITH_NAME = compiled(
    rf"(?<![\w.,/])[#(]?\(?(?P<n>[0-7])\)?\s*[-:]?\s*\(?(?P<name>{_THICKNESS_NAMES})\)?"
    rf"(?![^\W\d_])(?:\s*(?:weight|wt))?(?![\s-]*(?:grey|gr[ae]y|blue|green|pink|brown|purple"
    rf"|lilac))"
    rf"|(?<![^\W\d_])(?P<name2>{_THICKNESS_NAMES})\s*(?:weight\s*)?[-,]?\s*[#(]\s*(?P<n2>[0-7])\)?"
    rf"(?![\w.,/%])"
)
_BRACKETED = compiled(r"[(\[]\s*(?:#\s*)?(?P<n>[0-7])\s*[)\]]")
_PLY = compiled(
    r"(?<![\w.,])(?P<ply>[0-9]{1,2}[\s-]*ply)\b|(?<![\w.,])(?P<german>[23468][\s-]*(?:fach"
    r"|f[aäæ]d(?:en|ig)?))\b"
)
_COLOUR_KEY = (
    r"(?:colou?r(?:way)?|col|colr|clr|cw|shade|sh|farbe?(?:nr|nummer)?|couleur|coloris|kleur"
    r"(?:nummer|nr|code)?|färg(?:nummer|nr|kod)?|farge?(?:nummer|nr|kode)?|farve(?:nummer|nr"
    r"|kode)?|colore|cor|tinta|fb|fbnr|fnr)"
)
_COLOUR_NO = compiled(
    rf"\b(?P<key>{_COLOUR_KEY})(?![^\W\d_])\.?\s*-?(?:nos?\b\.?|numbers?\b|num\b\.?|nr\b\.?|n°"
    rf"|nº|code)?\s*[:#=]?\s*#?\s*"
    r"(?P<number>[A-Za-z]{0,3}-?[0-9][\w.-]*(?:/[\w-]+)*)(?!\s*%)"
)
_HASH = compiled(r"(?<!\w)(?<!lot)(?<!lot )#\s*(?P<hash>[A-Za-z]{0,3}-?[0-9][\w-]*)")
_NO = compiled(
    r"(?<!\w)(?:no\.|nr\.?|n°|nº|no(?=\s?[0-9])|number|num\.?)\s*(?P<no>[0-9]{1,6}[A-Za-z]?)"
    r"(?![\w.,/%])"
)
_COLOUR_TOLD = compiled(
    rf"\b(?:{_COLOUR_KEY}|colou?rs|color)(?![^\W\d_])\.?\s*(?:name\s*)?(?:(?:is|was|called"
    rf"|named)\s+)?[:=]?\s*(?=[^\W\d_\"'])"
)
_HEX = compiled(r"(?<!\w)#(?=[0-9]*[a-f])([0-9a-f]{6})\b")
_TWO_NUMBERS = compiled(
    r"(?<!\w)([^\W\d]+)\s+#?(\d+)\s+(?:vs\.?|versus|or)\s+([^\W\d]+)\s+#?(\d+)\b"
)
_NUMBERED_COLOUR = re.compile(r"(?<![\w.,/#-])(?P<no>[0-9]{1,6})(?![\w/%-]|[.,][0-9])")


def look_spans(text: Text) -> Iterator[Span]:
    """Thickness by number, mark, ply or trade name; colour numbers and values."""
    yield from _classes(text)
    yield from _numbers(text)
    for m in _HEX.finditer(text.plain):
        yield span_of(text, m, Kind.HEX, Colour(f"#{m[1].lower()}"), 3.0)
    yield from _several(text)
    for m in _TWO_NUMBERS.finditer(text.plain):
        yield span_of(text, m, Kind.COLOUR, ("two", m[0], m.groups()), 4.0)


_FEW = r"(?<![\w.,/#£€$])(?:[1-9][0-9]?|one|two|three|four|five|six)"
_SHADE = r"(?P<{0}>[^\W\d_]+(?:\s+[^\W\d_]+){{0,2}}?)"
_JOINT = r"\s*(?:,\s*and\b|,|;|\+|&|/|\band\b|\bund\b|\bet\b|\bplus\b|\s)\s*"
_OF = rf"\s*(?:x\s*)?(?:{PACKAGE}\s+)?(?:(?:of|in)\s+)?(?:the\s+)?"
_EACH_OF = rf"(?:{_FEW}\s+)?(?:{PACKAGE}\s+)?(?:of\s+)?each\s*(?:of|in)?\s*(?:colou?r)?\s*[:,-]?\s*"
#: `2 white and 3 black`, `white x2, black x3`, `one each of navy, cream and rust`; the shades are
#: looked up afterwards.
_COUNTED_COLOURS = (
    compiled(
        rf"{_FEW}{_OF}{_SHADE.format('a')}{_JOINT}{_FEW}{_OF}{_SHADE.format('b')}(?![^\W\d_])"
    ),
    compiled(
        rf"(?<![^\W\d_]){_SHADE.format('a')}\s*\(?\s*(?:x\s*)?{_FEW}(?!\s*(?:g|m|yd|oz|x)\b)"
        rf"\s*\)?{_JOINT}"
        rf"{_SHADE.format('b')}\s*\(?\s*(?:x\s*)?{_FEW}(?!\s*(?:g|m|yd|oz|x|/)|[\w.,]*\d)"
    ),
    compiled(
        rf"{_EACH_OF}{_SHADE.format('a')}\s*(?:,|;|/|&|\band\b)\s*{_SHADE.format('b')}(?![^\W\d_])"
    ),
    compiled(
        rf"(?<![^\W\d_]){_SHADE.format('a')}\s*(?:,|/|&|\band\b)\s*{_SHADE.format('b')}\s*[,:"
        rf"(]?\s*{_FEW}\s*(?:x\s*)?(?:{PACKAGE}\s+)?(?:of\s+)?each\b"
    ),
)


_EACH_COLOUR = compiled(
    rf"(?<![\w.,/#£€$@])(?<![£€$] )(?:[0-9]{{1,2}}|one|two|three|four|five)\s+(?:{PACKAGE}"
    rf"\s+)?(?:of\s+each|each)(?:\s+(?:colou?r|shade))?(?=\s*(?:[,;:(]|of\b|in\b|$))"
)


def _several(text: Text) -> Iterator[Span]:
    """Several colours, a count of each: several yarns, a line for each."""
    found = [
        m for pattern in _COUNTED_COLOURS for m in _overlapping(pattern, text.plain) if _shades(m)
    ]
    for m in (*found, *_EACH_COLOUR.finditer(text.plain)):
        question = Unreadable(text.plain, "colours_with_counts")
        yield span_of(text, m, Kind.QUESTION, question, 8.0)


def _overlapping(pattern: Pattern, text: str) -> Iterator[re.Match[str]]:
    """Every place a pattern fits, also inside another."""
    place = 0
    while m := next(pattern.finditer(text, place), None):
        yield m
        place = m.start() + 1


def _shades(m: re.Match[str]) -> bool:
    """Whether both words that are counted are colours, and nothing but that."""
    return all(
        colour_words.only_colour(m[name]) and colour_words.colour_of(m[name]) for name in "ab"
    )


@cache
def trade_name() -> Pattern:
    """The trade's names, alone or in a chain: `worsted-ish/heavy DK`."""
    certain = [
        name for name in thickness.TRADE_NAMES
        if name not in thickness.PLAIN_ADJECTIVES and not name[0].isdigit()
    ]  # fmt: skip
    words = sorted(certain, key=lambda name: (-len(name), name))
    sure = "|".join(re.escape(word).replace(r"\ ", r"[\s-]+") for word in words)
    plain = "|".join(sorted(thickness.PLAIN_ADJECTIVES))
    one = (
        rf"(?:(?:(?:heavy|light)[\s-]+)?(?:{sure})(?:[\s-]?(?:weight|wt)|[\s-]?ish)?"
        rf"|(?:{plain})[\s-]?(?:weight|wt)|[0-9]{{1,2}}[\s-]*ply|[23468][\s-]*(?:fach"
        rf"|f[aä]dig))(?![^\W\d_])"
    )
    return compiled(
        rf"(?<![\w-]){one}(?:\s*(?:[/–-]|to|or)\s*{one})*(?!\s*(?:spun|ball|thread))(?:\s*"
        rf"(?:weight|wt)(?![^\W\d_]))?"
    )


def thickness_of_words(words: str) -> tuple[int, int] | None:
    """The thickness in a yarn's name: by the last of its words, one with ply or DK first.

    `Sock Drawer DK` is DK, `Ivel Sock 4ply` is 4 ply.
    """
    found = [(m.start(), m[0]) for m in trade_name().finditer(words)]
    sure = [w for _, w in found if re.search(r"ply|\bdk\b|double", w, re.IGNORECASE)]
    for word in reversed(sure or [w for _, w in found]):
        classes = thickness.named(word)
        if classes:
            return classes
    return None


def _classes(text: Text) -> Iterator[Span]:
    plain = text.plain
    for m in _NUMBERED.finditer(plain):
        yield span_of(text, m, Kind.THICKNESS, thickness.named(m["classes"]), 3.0)
    for m in _WITH_NAME.finditer(plain):
        number = int(m["n"] or m["n2"])
        named = thickness.named(m["name"] or m["name2"])
        if named and named[0] <= number <= named[1]:
            first, _ = text.tokens_of(m.start(), m.end())
            if m["n"] or first == 0 or first - 1 in text.breaks:
                yield span_of(text, m, Kind.THICKNESS, (number, number), 3.0)
            if m["n2"]:  # the word stays in the name, the mark behind it says the same
                first, last = text.tokens_of(m.end("name2"), m.end())
                yield Span(
                    first, last, Kind.THICKNESS, 2.0 * (last - first) + 1, (number, number), m["n2"]
                )
    for m in _BRACKETED.finditer(plain):
        yield span_of(text, m, Kind.THICKNESS, (int(m["n"]), int(m["n"])), 1.0)
    for m in (*_PLY.finditer(plain), *trade_name().finditer(plain)):
        classes = thickness.named(m[0])
        if classes and _stands_apart(text, m):
            yield span_of(text, m, Kind.THICKNESS, classes, 0.5)
        elif classes is None and "ply" in m[0].lower():
            yield span_of(text, m, Kind.NOTE, "thickness", 0.0)
    yield from _lone_adjectives(text)


def _stands_apart(text: Text, m: re.Match[str]) -> bool:
    """A thickness is of its own only where no word of a name stands before it."""
    first, last = text.tokens_of(m.start(), m.end())
    before = text.tokens[first - 1] if first else None
    apart = (
        before is None
        or first - 1 in text.breaks
        or not before.is_word
        or _is_fact_word(text, before.text)
    )
    after = text.tokens[last] if last < len(text.tokens) else None
    ends = (
        after is None or last in text.breaks or not after.is_word or _is_fact_word(text, after.text)
    )
    return apart and ends


def _is_fact_word(text: Text, word: str) -> bool:
    """Whether a word is a unit, a ball or a colour, none of which a name goes on from.

    A colour with a capital may be of the name: `Peatlow Blue DK`.
    """
    small = word.lower()
    if small in ("sockengarn", "sockenwolle", "strumpfwolle", "yarn", "garn", "wolle"):
        return True
    if text.mixed_case and word[0].isupper() and small in colour_words.COLOURS:
        return False
    known = colour_words.COLOURS.keys() | colour_words.ELSEWHERE.keys()
    return bool(
        small in known
        or re.fullmatch(
            rf"(?:g|gr|grams?|oz|kg|m|mt|met(?:re|er)s?|yds?|yards?|y|each|ea|x|lot|col|colour"
            rf"|color|in|and|or|to|weight|probably|prob|think|maybe|perhaps|yarn|{PACKAGE})",
            small,
        )
    )


def _lone_adjectives(text: Text) -> Iterator[Span]:
    """`medium` in a part of its own is a class; `light` and `fine` might be about anything."""
    for m in compiled(r"(?<!\w)(light|medium|fine)(?!\w)").finditer(text.plain):
        first, last = text.tokens_of(m.start(), m.end())
        alone = (first == 0 or first - 1 in text.breaks) and (
            last >= len(text.tokens) or last in text.breaks
        )
        if not alone:
            continue
        word = m[1].lower()
        classes = thickness.TRADE_NAMES[word]
        if word == "medium":
            yield span_of(text, m, Kind.THICKNESS, classes, 1.0)
        elif first:
            readings = [f"thickness {classes[0]}", f"colour: {word}"]
            yield span_of(text, m, Kind.QUESTION, Ambiguous(word, readings), 1.0)


def _numbers(text: Text) -> Iterator[Span]:
    plain = text.plain
    for m in _COLOUR_NO.finditer(plain):
        number = m["number"].rstrip(".-")
        end = m.start("number") + len(number)
        yield span_between(text, m.start(), end, Kind.COLOUR_NO, number, 3.0)
        if "/" in number:  # `col 1105/Lot 6a`
            head = number.split("/")[0]
            yield span_between(
                text, m.start(), m.start("number") + len(head), Kind.COLOUR_NO, head, 2.5
            )
    for m in _HASH.finditer(plain):
        digit = m["hash"]
        if re.fullmatch("[0-7]", digit):
            yield span_of(text, m, Kind.COLOUR_NO, ("hash", digit), 0.5)
        else:
            yield span_of(text, m, Kind.COLOUR_NO, digit, 2.5)
    for m in _NO.finditer(plain):
        yield span_of(text, m, Kind.COLOUR_NO, m["no"], 1.0)
    for m in _COLOUR_TOLD.finditer(plain):
        first, last = text.tokens_of(m.start(), m.end())
        if last < len(text.tokens) and first < last:
            yield Span(first, last, Kind.GAP, 2.0 * (last - first), "colour")
    yield from _beside_a_colour(text)


def _beside_a_colour(text: Text) -> Iterator[Span]:
    """`red 12` and `941 brick`: a colour and its number, with nothing between them."""
    for m in _NUMBERED_COLOUR.finditer(text.plain):
        before = re.search(r"([^\W\d_]+)\s+$", text.plain[: m.start()])
        after = re.match(r"\s+([^\W\d_]+)", text.plain[m.end() :])
        near = [w[1].lower() for w in (before, after) if w]
        known = [w for w in near if w in colour_words.COLOURS or w in colour_words.ELSEWHERE]
        long = len(m["no"]) >= 2 or m["no"][0] == "0"
        if (
            (
                before
                and before[1].lower() in known
                and long
                and not (after and _is_fact_word(text, after[1]) and after[1].lower() not in known)
            )
            or (
                after
                and after[1].lower() in known
                and (len(m["no"]) >= 3 or m["no"][0] == "0")
                and not re.match(r"[1-9]\d?0$", m["no"])
            )
            or (m["no"][0] == "0" and len(m["no"]) >= 3)
        ):
            yield span_of(text, m, Kind.COLOUR_NO, m["no"], 0.5)
