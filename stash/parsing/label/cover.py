"""The best way to cover a whole line with spans, and the next best ones.

Each token is in exactly one span. A cover's score is the sum of its spans' scores; a yarn has one
name and one colour, and what follows a second one in a line is a note.
"""

from __future__ import annotations

import heapq
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from stash.parsing.label import words
from stash.parsing.label.span import Kind, Span
from stash.parsing.label.text import Text
from stash.trade import colour_words

#: What a word costs that is kept as a note only, and a figure that nothing explains.
_NOTE, _NOTE_BEGINS, _FIGURE = -1.3, -0.8, -5.0
#: What a line without a name costs.
_NAMELESS = 1.0
#: How many covers are kept at each place: far more than differ in what they say.
_WIDTH = 60
#: Facts that a line holds once: a second name, another blend.
_ONCE = {Kind.NAME: 1, Kind.COLOUR: 2, Kind.FIBRE: 4, Kind.MAKER: 8, Kind.HEX: 16}
_STRANGE_COLOUR = 32
#: A second run of plain colour words belongs to the colour too, but is less likely.
_COLOUR_AGAIN = -1.5


@dataclass(frozen=True, slots=True)
class Cover:
    """A line read whole: its spans from left to right and the sum of their scores."""

    score: float
    spans: tuple[Span, ...]

    def of(self, *kinds: Kind) -> list[Span]:
        """The spans of some kinds."""
        return [span for span in self.spans if span.kind in kinds]


@dataclass(slots=True)
class _Way:
    score: float
    used: int
    span: Span | None
    before: _Way | None

    def spans(self) -> tuple[Span, ...]:
        out: list[Span] = []
        way: _Way | None = self
        while way is not None and way.span is not None:
            out.append(way.span)
            way = way.before
        return tuple(reversed(out))


def covers(text: Text, spans: Iterable[Span]) -> list[Cover]:
    """Covers of a line from the best down; equal ones in the order their spans were proposed."""
    size = len(text.tokens)
    starting: dict[int, list[Span]] = defaultdict(list)
    for span in spans:
        if span.first < span.end <= size:
            starting[span.first].append(span)
    width = _WIDTH if size <= 80 else 12
    ways: list[list[_Way]] = [[] for _ in range(size + 1)]
    ways[0] = [_Way(0.0, 0, None, None)]
    for at in range(size):
        best = _kept(ways[at], width)
        for span in (*_dearest(starting[at]), *_leftovers(text, at)):
            for way in best:
                step = _step(way, span, text)
                if step is not None:
                    ways[span.end].append(step)
    for way in ways[size]:
        way.score -= 0.0 if way.used & _ONCE[Kind.NAME] else _NAMELESS
    return [Cover(way.score, way.spans()) for way in _kept(ways[size], width)]


def _dearest(spans: Sequence[Span]) -> Iterator[Span]:
    """Of spans that say the same over the same words, the surest."""
    best: dict[object, Span] = {}
    for span in spans:
        key = (span.end, span.kind, repr(span.value))
        if key not in best or best[key].score < span.score:
            best[key] = span
    yield from best.values()


def _kept(ways: list[_Way], width: int) -> list[_Way]:
    return heapq.nlargest(width, ways, key=lambda way: way.score)


def _step(way: _Way, span: Span, text: Text) -> _Way | None:
    score = way.score + span.score
    used = way.used
    bit = _ONCE.get(span.kind, 0)
    if span.kind is Kind.COLOUR:
        only, known = _known_colour(span.value)
        if used & bit and not (only and not used & _STRANGE_COLOUR):
            return None
        score += _COLOUR_AGAIN if used & bit else 0.0
        bit |= 0 if known else _STRANGE_COLOUR
    elif bit and used & bit:
        return None
    if span.kind is Kind.NOTE and (way.span is None or way.span.kind is not Kind.NOTE):
        score += _NOTE_BEGINS if not span.value else 0.0
    return _Way(score, used | bit, span, way)


@lru_cache(maxsize=4096)
def _known_colour(words: object) -> tuple[bool, bool]:
    """Whether words are nothing but colours that are known, and whether any of them is one."""
    if not isinstance(words, str):
        return False, True
    return colour_words.only_colour(words), bool(colour_words.colour_of(words))


def _leftovers(text: Text, at: int) -> Iterator[Span]:
    """What a token is when nothing reads it: a mark, a filler, a word of a note, a stray figure."""
    token = text.tokens[at]
    if token.is_figure:
        yield Span(at, at + 1, Kind.NUMBER, _FIGURE, token.text)
    elif not token.is_word:
        yield Span(at, at + 1, Kind.GAP, -0.1 if token.text not in "%$£€" else -1.5)
    else:
        if words.is_filler(token.text.lower()):
            yield Span(at, at + 1, Kind.GAP, -0.3)
        yield Span(at, at + 1, Kind.NOTE, _NOTE)
