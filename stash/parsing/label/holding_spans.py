"""How many skeins a line has, and what is left of those that are opened."""

from __future__ import annotations

from collections.abc import Iterator

from stash.measures.mass import Mass
from stash.parsing.label.counts import count_spans
from stash.parsing.label.lefts import left_spans
from stash.parsing.label.parts import part_spans
from stash.parsing.label.shares import amount_in
from stash.parsing.label.span import Kind, Span, span_of
from stash.parsing.label.tares import CONE_ALONE, GROSS, TARE, WITH_CONE
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import (
    OPENED,
    WHOLE,
    compiled,
)


def holding_spans(text: Text) -> Iterator[Span]:
    """Counts, shares, what is left, parts beside others, tares."""
    yield from count_spans(text)
    yield from left_spans(text)
    yield from part_spans(text)
    for m in TARE.finditer(text.plain):
        words = m["a"] or m["b"] or m["c"] or m["d"]
        if (amount := amount_in(words)) and isinstance(amount, Mass):
            yield span_of(text, m, Kind.TARE, amount, 3.0)
    for m in CONE_ALONE.finditer(text.plain) if WITH_CONE.search(text.plain) else ():
        if (amount := amount_in(m["a"])) and isinstance(amount, Mass):
            yield span_of(text, m, Kind.TARE, amount, 3.0)
    for m in GROSS.finditer(text.plain):
        amount = amount_in(m["gross"] or m["gross2"])
        if isinstance(amount, Mass):
            tool = (m["tool"] or "").lower()
            yield span_of(text, m, Kind.GROSS, (amount, tool), 3.0)
    for m in compiled(rf"(?<![\w-]){OPENED}").finditer(text.plain):
        yield span_of(text, m, Kind.OPENED, m[0].lower(), 0.5)
    for m in compiled(rf"(?<![\w-]){WHOLE}").finditer(text.plain):
        yield span_of(text, m, Kind.WHOLE, m[0].lower(), 0.2)
