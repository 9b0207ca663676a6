"""A line while its spans are put together: the facts so far, and what was understood."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from stash.errors import Ambiguous
from stash.measures.note import Note
from stash.parsing.label.cover import Cover
from stash.parsing.label.span import Kind, Span
from stash.parsing.label.text import Text
from stash.stock.incoming import Incoming


@dataclass(slots=True)
class Draft:
    """What the spans of a line say together.

    `kept` are words that belong in the yarn's note; `notes` are doubts for whoever typed the line;
    `understood` has a note for each fact.
    """

    text: Text
    cover: Cover
    currency: str = ""
    facts: Incoming = field(default_factory=lambda: Incoming(name=""))
    understood: list[Note] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)

    def of(self, *kinds: Kind) -> list[Span]:
        """The spans of some kinds, from left to right."""
        return self.cover.of(*kinds)

    def values(self, *kinds: Kind) -> list[Any]:
        """What those spans hold."""
        return [span.value for span in self.cover.of(*kinds)]

    def learn(self, read: Note, **facts: Any) -> None:
        """Notes something as understood and keeps the facts of the yarn that follow."""
        self.understood.append(read)
        self.facts = replace(self.facts, **facts)

    def keep(self, field: str, words: str) -> None:
        """Understood, but with no place of its own: it goes into the yarn's note."""
        self.understood.append(Note("read_kept", field=field, words=words))
        self.kept.append(words)

    def doubt(self, kind: str, **facts: Any) -> None:
        """Something that whoever typed the line should look at."""
        self.notes.append(Note(kind, **facts))

    def words(self, span: Span) -> str:
        """What was typed of a span."""
        return self.text.words(span.first, span.end)

    def between(self, one: Span, other: Span) -> str:
        """What stands between two spans."""
        return self.text.plain[
            self.text.tokens[one.end - 1].end : self.text.tokens[other.first].start
        ]

    def question(self, spans: Sequence[Span], readings: Sequence[str]) -> Ambiguous:
        """Which of the readings stands in the place of some spans; what is between them stays."""
        ordered = sorted(spans, key=lambda s: s.first)
        middle = self.between(ordered[0], ordered[-1]) if len(ordered) > 1 else ""
        kept = middle.rstrip() if re.search(r"\w", middle) else ""
        return Ambiguous(self.stretch(ordered), [f"{reading}{kept}" for reading in readings])

    def stretch(self, spans: Sequence[Span]) -> str:
        """The words from the first of some spans to the last, as they were typed."""
        return self.text.words(min(s.first for s in spans), max(s.end for s in spans))
