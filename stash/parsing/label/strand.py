"""How yarn is dyed and what its strand is like: read where it is said, whatever else it says there.

A word between two commas is a span like any other. Words in the name, in the colour and in a
remark stay there and are read as well: `Fescue Tweed Aran` is the name, and tweed. The colour says
most, for it is of this lot; the name least, for it is of all. A noun that a place may be called
after counts in a name only at its end: `Tweed Valley DK` says nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from stash.measures.note import Note
from stash.parsing.label.draft import Draft
from stash.parsing.label.looks import KIND_WORDS, thickness_of_words
from stash.parsing.label.span import Kind, Span, span_between
from stash.parsing.label.strand_words import BY_WAY, ROWS, Said, Where, meant_in, rows_for
from stash.parsing.label.text import Text
from stash.parsing.label.vocabulary import compiled
from stash.parsing.label.words import ends, opens, word_at
from stash.stock.yarn import Dyed, Surface
from stash.trade import colour_words
from stash.trade.fibres import fibre_named

#: Surer than a second colour in a line, less sure than the only one it says.
_DYED_BONUS, _SURFACE_BONUS = 1.7, 2.0
#: What is said of such a word without changing it.
_BESIDE = re.compile(
    r"(?:(?:very|slightly|lightly|softly|really|quite|a\s+bit|lovely|nice|with)\s+)+$", re.I
)
_BEHIND = re.compile(
    r"\s+(?:yarn|texture|surface|finish|effect|look|strand|thread|nicely|well)\b", re.I
)
#: A remark on what yarn is for, came from or goes with says nothing of the yarn.
_OF_SOMETHING_ELSE = compiled(
    r"\b(?:for|from|left\s*over|remains|enough|makes?|made|meant|want\w*|need\w*|use[ds]?|using"
    r"|goes\s+with|match\w*|hat|cowl|scarf|blanket|socks?|sweater|jumper|shawl|mittens?|bag)\b"
)


@dataclass(frozen=True, slots=True)
class Looks:
    """What words say of a yarn's strand; None where they say nothing."""

    dyed: Dyed | None = None
    surface: Surface | None = None


def strand_spans(text: Text) -> Iterator[Span]:
    """Parts of a line that say no more than this."""
    words = None
    for row in ROWS:
        for start, end in meant_in(row, text.plain) if Where.PART in row.where else ():
            words = words or [word_at(text, at) for at in range(len(text.tokens))]
            if before := _BESIDE.search(text.plain[:start]):
                start = before.start()
            if behind := _BEHIND.match(text.plain[end:]):
                end += behind.end()
            of_surface = isinstance(row.says, Surface)
            first, last = text.tokens_of(start, end)
            opened = opens(text, words, first) or (of_surface and words[first - 1].plain_colour)
            if opened and ends(text, words, last):
                bonus = _SURFACE_BONUS if of_surface else _DYED_BONUS
                yield span_between(text, start, end, Kind.STRAND, row.says, bonus)


def settle_strand(draft: Draft) -> None:
    """How it is dyed and its surface, from wherever the line says them."""
    spans = draft.values(Kind.STRAND)
    colours = [draft.words(span) for span in draft.of(Kind.COLOUR)]
    other = draft.of(Kind.FIBRE, Kind.THICKNESS)
    remarks = [
        draft.words(span)
        for span in other + draft.of(Kind.NOTE)
        if not _OF_SOMETHING_ELSE.search(draft.words(span))
    ]
    ways = [draft.words(span) for span in draft.of(Kind.DYED)]
    said = looks_of(draft.facts.name, colours, remarks, ways)
    dyed = next((one for one in spans if isinstance(one, Dyed)), said.dyed)
    surface = next((one for one in spans if isinstance(one, Surface)), said.surface)
    if dyed:
        draft.learn(Note("read_dyed", dyed=dyed), dyed=dyed)
    if surface:
        draft.learn(Note("read_surface", surface=surface), surface=surface)


def looks_of(
    name: str,
    colours: Sequence[str] = (),
    remarks: Sequence[str] = (),
    ways: Sequence[str] = (),
) -> Looks:
    """What the words of a yarn say of its strand: of its colour first, then remarks, its name.

    `ways` are words for how it was dyed, which count where nothing else is said.
    """
    return Looks(
        _said(Dyed, name, colours, remarks) or _by_way([*colours, *ways, name]),
        _said(Surface, name, colours, remarks),
    )


def _said(
    says: type[Said], name: str, colours: Iterable[str], remarks: Iterable[str]
) -> Said | None:
    for where, texts in ((Where.COLOUR, colours), (Where.REMARK, remarks)):
        for row in rows_for(says, where):
            if any(True for text in texts for _ in meant_in(row, text)):
                return says(row.says)
        if where is Where.COLOUR and says is Dyed and any(map(_heather_beside, texts)):
            return says(Dyed.HEATHERED)
    for row in rows_for(says, Where.END_OF_NAME):
        anywhere = Where.NAME in row.where
        if any(anywhere or _ends_name(name[end:]) for _, end in meant_in(row, name)):
            return says(row.says)
    return None


def _by_way(texts: Sequence[str]) -> Dyed | None:
    ways = [row.says for row in BY_WAY for text in texts for _ in meant_in(row, text)]
    return next((way for way in ways if isinstance(way, Dyed)), None)


def _heather_beside(colour: str) -> bool:
    """`heather grey`: heather is a colour by itself, and says how another one is spun."""
    rest, times = re.subn(r"\bheathers?\b", " ", colour, flags=re.IGNORECASE)
    return times > 0 and bool(colour_words.colour_of(rest))


def _ends_name(rest: str) -> bool:
    """Whether what follows in a name is of its kind and thickness only: `Tweed Aran`."""
    words = re.findall(r"[^\W_]+", rest.lower())
    return all(
        word.isdigit()
        or word in KIND_WORDS
        or word in ("ply", "weight", "double", "knitting", "heavy", "light")
        or fibre_named(word)
        or thickness_of_words(word)
        or any(row.pattern.fullmatch(word) for row in ROWS)
        for word in words
    )
