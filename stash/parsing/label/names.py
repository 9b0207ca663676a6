"""The yarn's name: the words that say nothing else.

The name is every word from where it begins to the first break, figure or run of colour words; words
for thickness, fibre and kind stay in it. What colour words there are, and the one run of words left
when all else is read, is the colour."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from stash.parsing.label.colours import colour_spans
from stash.parsing.label.looks import thickness_of_words
from stash.parsing.label.span import Kind, Span
from stash.parsing.label.text import NUMBER_WORDS, Text
from stash.parsing.label.words import SMALL, Word, first_words, thickness_tokens, word_at

_DOUBTFUL = re.compile(r"\b(?:maybe|possibly|perhaps|probably)\b|\?|ish\b", re.IGNORECASE)

#: More tokens than any name has.
_LONGEST = 18


def name_spans(text: Text) -> Iterator[Span]:
    """Every run of words that may be the name, the colour, or the words of a note."""
    words = [word_at(text, at) for at in range(len(text.tokens))]
    first_part = first_words(text, words)
    for first, end in _runs(text, words):
        yield from _names(text, words, first, end, first_part)
    yield from _quoted(text)
    yield from _loose_parts(text)
    yield from colour_spans(text, words)


def _runs(text: Text, words: Sequence[Word]) -> Iterator[tuple[int, int]]:
    """Stretches without a break or a figure; a ply or a mark inside a word goes along."""
    at = 0
    while at < len(words):
        end = at
        while end < len(words) and _goes_on(text, words, end):
            end += 1
        if end > at:
            yield at, end
        at = end + 1


def _goes_on(text: Text, words: Sequence[Word], at: int) -> bool:
    token = text.tokens[at]
    if at in text.breaks:
        return False
    if token.is_word:
        return True
    if token.is_figure:
        return bool(
            re.match(
                r"[0-9]{1,2}[\s-]?(?:ply|fach|f[aä]dig)\b", text.plain[token.start :], re.IGNORECASE
            )
        ) or (token.start > 0 and text.plain[token.start - 1].isalpha())
    return token.text in "&'/-.+" and 0 < at < len(words) - 1


def _names(
    text: Text, words: Sequence[Word], first: int, end: int, first_part: int
) -> Iterator[Span]:  # fmt: skip
    for start in range(first, end):
        if not _may_begin(text, words, start):
            continue
        for stop in range(start + 1, min(end, start + _LONGEST) + 1):
            if words[stop - 1].never and stop - 1 > start and not _inside(words, stop - 1, end):
                break
            if not _may_end(text, words, stop - 1):
                continue
            score = _name_score(text, words, start, stop)
            score += _where(text, words, start, first, first_part)
            yield Span(start, stop, Kind.NAME, score, text.words(start, stop))


def _where(text: Text, words: Sequence[Word], start: int, run: int, first_part: int) -> float:
    """A name most often begins the line, or stands behind the colour that does."""
    word = words[start]
    lower = not (word.capital or word.kind or word.modifier or word.effect or word.plain_colour)
    if (
        lower
        and text.mixed_case
        and any(w.capital for w in words[start + 1 :])
        and not thickness_of_words(word.small)
    ):
        return 0.8 if start <= first_part else -0.5
    if start <= first_part:
        return 3.0
    ahead = words[start - 1].plain_colour and not words[start - 1].capital and words[start].capital
    if ahead and run <= first_part:
        return 2.6
    return 1.0 if start == run else 0.0


def _inside(words: Sequence[Word], at: int, end: int) -> bool:
    return words[at].small in ("of", "in", "on", "by", "at", "to", "no", "the") and at + 1 < end


def _may_begin(text: Text, words: Sequence[Word], at: int) -> bool:
    word, token = words[at], text.tokens[at]
    counts = word.small in NUMBER_WORDS and len(word.small) > 2 and not word.capital
    return (
        (token.is_word or token.is_figure)
        and not (word.never or counts)
        and word.small not in SMALL - {"la", "le"}
    )


def _may_end(text: Text, words: Sequence[Word], at: int) -> bool:
    token = text.tokens[at]
    joined = (
        at + 1 < len(text.tokens)
        and text.tokens[at + 1].start == token.end
        and text.tokens[at + 1].is_word
    )
    if token.is_figure and at + 1 < len(text.tokens) and text.tokens[at + 1].text.lower() == "ply":
        return False
    return (
        (token.is_word or token.is_figure)
        and not words[at].never
        and words[at].small not in SMALL
        and not (joined and token.is_word and text.tokens[at + 1].is_word)
    )


def _name_score(text: Text, words: Sequence[Word], first: int, end: int) -> float:
    """Words of its own count most; colour words count against a name, at its end above all."""
    score, own = 0.0, 0
    thick = thickness_tokens(text, first, end)
    for at in range(first, end):
        word = words[at]
        if at in thick:
            score += 1.4
        elif word.mark or word.small in SMALL or not text.tokens[at].is_word:
            score += 0.3
        elif word.plain_colour:
            score += -1.6 if at == end - 1 and at > first else -1.0
        elif word.thing:
            score += 0.4 if word.capital else 0.0
            own += 1
        elif word.modifier or word.effect:
            score += 0.6
        elif word.kind:
            score += 1.4
        else:
            score += 1.9 if word.capital else 1.5
            own += 1
    if thick and own:
        score += 0.8
    if not own and all(
        at in thick or words[at].small in SMALL or not text.tokens[at].is_word
        for at in range(first, end)
    ):
        score -= 9.0
    elif not own:
        score -= 1.5
    if own and thick and end - 1 not in thick:
        after = [at for at in range(max(thick) + 1, end) if text.tokens[at].is_word]
        strange = [
            at
            for at in after
            if not words[at].kind and not words[at].effect and not words[at].capital
        ]
        score -= 0.9 * len(strange)  # `Pebble DK bracken`: what follows a thickness is a colour
    score -= 0.7 * _small_after_capital(text, words, first, end)
    return score if text.words(first, end) else -9.0


def _small_after_capital(text: Text, words: Sequence[Word], first: int, end: int) -> int:
    """Words of no kind in small letters behind one with a capital: `Abberwhin heathland`."""
    count = 0
    for at in range(end - 1, first, -1):
        word = words[at]
        own = not (word.kind or word.mark or word.capital or word.effect or word.modifier)
        if (
            not own
            or not text.tokens[at].is_word
            or word.small in SMALL
            or thickness_of_words(word.small)
        ):
            break
        count += 1
    capital = any(words[at].capital for at in range(first, end - count))
    return count if capital and text.mixed_case else 0


def _loose_parts(text: Text) -> Iterator[Span]:
    """A part that is nothing but words may be a remark, however long it is."""
    first = 0
    for end in (*sorted(text.breaks), len(text.tokens)):
        if first < end and all(
            token.is_word or token.text in "'&-." for token in text.tokens[first:end]
        ):
            yield Span(first, end, Kind.NOTE, -1.8, "remark", text.words(first, end))
        first = end + 1


_QUOTED = re.compile(r"\"([^\"]{2,60})\"|(?<![\w])'([^\"]{2,50}?)'(?![\w])|«\s*([^»]{2,60})\s*»")


def _quoted(text: Text) -> Iterator[Span]:
    """What stands in quotation marks is a name of its own: the colour's, or the yarn's."""
    for m in _QUOTED.finditer(text.plain):
        words = (m[1] or m[2] or m[3]).strip()
        first, end = text.tokens_of(m.start(), m.end())
        if not re.search(r"[^\W\d_]{2}", words):
            continue
        yield Span(first, end, Kind.COLOUR, 2.0 * (end - first) + 1.5, words)
        yield Span(first, end, Kind.NAME, 1.5 * (end - first) + (2.0 if first == 0 else 0.0), words)


def maker_of(name: str) -> tuple[str, str]:
    """A name and the maker behind `by` in it, empty where none is named."""
    by = re.fullmatch(r"(.*?)\s*\bby\s+(.+)", name, re.IGNORECASE)
    return (by[1], by[2]) if by and by[1] else (name, "")


def is_doubtful(words: str) -> bool:
    """Whether a colour's words say that nobody is certain."""
    return _DOUBTFUL.search(words) is not None


def quiet_words(words: str) -> str:
    """A remark without the marks at its edges."""
    return words.strip(" \t.:,;-–—=/+&~*!\"'()[]")
