"""A typed line as tokens, and where its parts begin and end."""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass, field
from functools import cached_property

from stash.parsing import numbers

#: Number words that may stand for a count; "a" and "an" only where something follows.
NUMBER_WORDS = {
    "a": 1, "an": 1, "single": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6,
    "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "dozen": 12,
    "fifteen": 15, "twenty": 20, "couple": 2, "pair": 2,
    "ein": 1, "eine": 1, "einen": 1, "zwei": 2, "drei": 3, "vier": 4, "fünf": 5, "sechs": 6,
    "un": 1, "une": 1, "deux": 2, "trois": 3, "quatre": 4, "cinq": 5,
    "uno": 1, "una": 1, "dos": 2, "tres": 3, "cuatro": 4, "due": 2, "tre": 3, "quattro": 4,
    "een": 1, "twee": 2, "drie": 3, "en": 1, "ett": 1, "två": 2, "to": 2, "fyra": 4, "fire": 4,
}  # fmt: skip

_TOKEN = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*|[0-9]+|[^\s]")
_HALF_MORE = re.compile(
    r"\b([0-9]{1,3}|one|two|three|four|five|six|seven|eight|nine|ten)\s+(?:and|&)\s+(?:a\s+"
    r"|one\s+)?"
    r"(half|quarter|third|three\s+quarters?)\b",
    re.IGNORECASE,
)
_ONE_AND_A_HALF = re.compile(
    r"\b(?:(ein|zwei|drei|vier|fünf)einhalb|anderthalb(?:e|er|es)?|anderhalve?|halvannan"
    r"|halvanden|halvannen)\b",
    re.IGNORECASE,
)
_HYPHEN = re.compile(
    r"(?<=\b(?:half|part))-(?=(?:used|gone|left|full|empty|ball|skein)\b)", re.IGNORECASE
)
_SHARES = {
    "half": "1/2",
    "quarter": "1/4",
    "third": "1/3",
    "three quarters": "3/4",
    "three quarter": "3/4",
}
_BREAKS = re.compile(
    r"[;|()\[\]{}•·\n]|,(?![0-9])|(?<![0-9]),|(?<=\s)[-–—]+(?=\s|$)|(?<=^)[-–—]+(?=\s)|[–—]|"
    r"(?<=[^\W\d]):(?=\s)|(?<=\s)/(?=\s)|\.(?=\s+[A-Z0-9])|(?<=[a-z)]{3})\.(?=\s|$)|(?<="
    r"\s)\.{2,}|…|!+"
)
#: Longer than any label; keeps a pasted page away from the patterns.
LONGEST = 1000


@dataclass(frozen=True, slots=True)
class Token:
    """A word, a figure or a mark, and where it stands in the cleaned text."""

    text: str
    start: int
    end: int

    @property
    def is_word(self) -> bool:
        """Letters, with an apostrophe at most."""
        return self.text[0].isalpha()

    @property
    def is_figure(self) -> bool:
        """Digits alone."""
        return self.text[0].isdigit()


def tidied(text: str) -> str:
    """The text as the patterns see it: plain spaces and quotes, fractions in figures."""
    plain = re.sub(r"[\r\n\v\f\t]+", " ; ", text)
    plain = re.sub(r"[\x00-\x1f\x7f-\x9f]", " ", plain)
    plain = numbers.cleaned(plain)
    plain = re.sub(r"(?<=[^\W\d]),(?=[0-9])", ", ", plain)
    # "twenty-five" and "one-half" are rare; "half-used" is not, and its hyphen says nothing
    plain = _HYPHEN.sub(" ", plain)
    plain = _ONE_AND_A_HALF.sub(lambda m: f"{NUMBER_WORDS[m[1].lower()] if m[1] else 1} 1/2", plain)
    plain = re.sub(r"\bhalf\s+(?:a\s+)?dozen\b", "6", plain, flags=re.I)
    return " ".join(_HALF_MORE.sub(_in_figures, plain).split())


def _in_figures(found: re.Match[str]) -> str:
    whole = NUMBER_WORDS.get(found[1].lower(), found[1])
    return f"{whole} {_SHARES[' '.join(found[2].lower().split())]}"


@dataclass(frozen=True)
class Text:
    """A cleaned line, its tokens, and the marks that part it."""

    plain: str
    tokens: tuple[Token, ...] = field(default=())

    @classmethod
    def of(cls, plain: str) -> Text:
        """The text with its tokens found."""
        found = (Token(m[0], m.start(), m.end()) for m in _TOKEN.finditer(plain))
        return cls(plain, tuple(found))

    @cached_property
    def breaks(self) -> frozenset[int]:
        """Which tokens part the line."""
        marks: set[int] = set()
        for m in _BREAKS.finditer(self.plain):
            marks.update(self.at(place) for place in range(m.start(), m.end()))
        return frozenset(marks)

    @cached_property
    def _starts(self) -> list[int]:
        return [token.start for token in self.tokens]

    def at(self, place: int) -> int:
        """The number of the token that begins at a place, or the next one after it."""
        return bisect_left(self._starts, place)

    def words(self, first: int, end: int) -> str:
        """The text of some tokens, as it was typed."""
        if first >= end:
            return ""
        return self.plain[self.tokens[first].start : self.tokens[end - 1].end]

    def tokens_of(self, start: int, end: int) -> tuple[int, int]:
        """The tokens that a stretch of text holds, as numbers from and to."""
        return self.at(start), self.at(end)

    def part_end(self, first: int) -> int:
        """The number of the token that ends the part a token stands in."""
        place = first
        while place < len(self.tokens) and place not in self.breaks:
            place += 1
        return place

    def stands_apart(self, start: int, end: int) -> bool:
        """Whether no plain word touches a stretch on either side."""
        first, last = self.tokens_of(start, end)
        before = first == 0 or first - 1 in self.breaks or not self.tokens[first - 1].is_word
        after = last >= len(self.tokens) or last in self.breaks or not self.tokens[last].is_word
        unit = first > 1 and self.tokens[first - 2].is_figure
        return (before or unit) and after

    @cached_property
    def mixed_case(self) -> bool:
        """Whether capitals say anything here: not in a line of capitals or of small letters."""
        letters = [c for c in self.plain if c.isalpha()]
        return any(c.isupper() for c in letters) and any(c.islower() for c in letters)
