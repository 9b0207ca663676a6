"""A label line read whole: the best cover settled, or the question that it leaves."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.errors import Ambiguous, StashError, Unreadable
from stash.measures.note import Note
from stash.parsing import numbers
from stash.parsing.label import (  # fmt: skip
    amounts,
    fibres,
    looks,
    lots,
    names,
    places,
    prices,
    remarks,
    strand,
)
from stash.parsing.label.cover import Cover, covers
from stash.parsing.label.draft import Draft
from stash.parsing.label.holding import Impossible
from stash.parsing.label.holding_spans import holding_spans
from stash.parsing.label.settle_facts import settle_facts
from stash.parsing.label.settle_holding import settle_holding
from stash.parsing.label.settle_price import settle_price
from stash.parsing.label.span import Kind, Span
from stash.parsing.label.text import LONGEST, Text, tidied
from stash.stock.incoming import NO_NAME, Incoming
from stash.stock.yarn import LotState

#: What may be typed for a figure that says too little.
_ABOUT, _COLOUR_NO = "about {} {}", "colour no {}"
#: A second reading this near to the best is asked about where it differs in what matters.
_NEAR = 0.75
#: How many covers are looked at for one that a skein can have, and for a near one.
_LOOKED_AT = 12


@dataclass(frozen=True, slots=True)
class Label:
    """A line of yarn as it was understood.

    `understood` has a note for each field that was read; `left_unknown` names the important
    fields the line says nothing of; `notes` are doubts somebody should look at.
    """

    incoming: Incoming
    understood: tuple[Note, ...]
    left_unknown: tuple[str, ...]
    notes: tuple[Note, ...]


_ITEMS = re.compile(
    r"(?<!\w)\d+\s+(?:hats?|beanies?|scarves|scarf|cowls?|headbands?|blankets?|mittens?|socks"
    r"|pairs|sweaters?"
    r"|jumpers?|cardigans?)\b",
    re.IGNORECASE,
)
_MEANT = re.compile(r"\b(?:for|from|enough)\b", re.IGNORECASE)
_POINTS_AWAY = re.compile(
    r"\W*(?:(?:sub[\s-]?)?totals?\b|(?:(?:see|as|same as)\s+(?:above|below|before)|ditto)\W*$)",
    re.IGNORECASE,
)


def read(text: str, today: date = date.max, currency: str = "", *, known: str = "") -> Label:
    """The yarn a typed line describes, in whatever order it was typed.

    `today` keeps out days to come; `currency` is the file's, as an ISO 4217 code; `known`
    is the yarn's name where that is known from elsewhere, so that no other word is one. Raises
    `Ambiguous` for what may mean two things: each of its readings, typed in the place of its text,
    says that one thing. Raises `Unreadable` where nothing is understood.
    """
    line = _begun(text)
    proposed = _proposed(line, today, known)
    found = covers(line, proposed)
    best, label = _first_possible(line, found, text, currency)
    _ask_where_near(line, found, best, (label, text, currency))
    return label


def _begun(text: str) -> Text:
    if len(text) > LONGEST:
        raise Unreadable(text[:40] + "…", "label_too_long", most=LONGEST)
    line = Text.of(tidied(text))
    if _POINTS_AWAY.match(line.plain):
        raise Unreadable(text, "label_points_elsewhere")
    if _ITEMS.search(line.plain) and not _MEANT.search(line.plain):
        raise Unreadable(text, "label_of_made_things")
    return line


def _proposed(line: Text, today: date, known: str) -> list[Span]:
    """Every span that anybody could read in the line."""
    found = [
        *remarks.remark_spans(line, today),
        *strand.strand_spans(line),
        *lots.lot_spans(line),
        *prices.price_spans(line),
        *looks.look_spans(line),
        *fibres.fibre_spans(line),
        *places.place_spans(line),
        *amounts.amount_spans(line),
        *holding_spans(line),
        *names.name_spans(line),
    ]
    return _named(found, known) if known else found


def _named(found: Sequence[Span], known: str) -> list[Span]:
    """The spans of a line whose yarn is known: its name may be said again, no other is one."""
    words = set(re.findall(r"\w+", known.casefold()))
    again = [
        replace(span, kind=Kind.GAP, value="known")
        for span in found
        if span.kind is Kind.NAME and {*re.findall(r"\w+", span.value.casefold())} <= words
    ]
    return [*again, *(span for span in found if span.kind is not Kind.NAME)]


def _first_possible(
    line: Text, found: Sequence[Cover], text: str, currency: str
) -> tuple[Cover, Label]:  # fmt: skip
    """The best cover that a skein can have; a question, where the best one is a question."""
    for cover in found[:_LOOKED_AT]:
        try:
            return cover, _settled(line, cover, text, currency)
        except Impossible:
            continue
    raise Unreadable(text, "too_much_for_a_skein")


def _ask_where_near(
    line: Text, found: Sequence[Cover], best: Cover, read_as: tuple[Label, str, str]
) -> None:  # fmt: skip
    """A question where another reading is near and differs in a fact that matters."""
    label, text, currency = read_as
    for cover in found[:_LOOKED_AT]:
        if best.score - cover.score > _NEAR or _facts(cover) == _facts(best):
            continue
        try:
            other = _settled(line, cover, text, currency)
        except (StashError, Impossible):
            continue
        if _matters(other.incoming) != _matters(label.incoming):
            raise _both(line, best, cover)


#: What only parts the words that are left, however they are parted.
_WORDS = (Kind.GAP, Kind.NOTE, Kind.NAME, Kind.COLOUR, Kind.PLACE, Kind.MAKER)


def _facts(cover: Cover) -> frozenset[Span]:
    """The spans of a cover that hold an amount, a number, a price or a thickness."""
    return frozenset(span for span in cover.spans if span.kind not in _WORDS)


def _matters(facts: Incoming) -> tuple[object, ...]:
    return (
        facts.full_mass, facts.full_length, facts.left, facts.part_balls, facts.count, facts.lot,
        facts.thickness_from, facts.thickness_to, facts.paid,
    )  # fmt: skip


def _both(line: Text, one: Cover, other: Cover) -> Ambiguous:
    """The words on which two covers differ, read either way."""
    apart = [s for s in one.spans if s not in other.spans] + [
        s for s in other.spans if s not in one.spans
    ]
    first, end = min(s.first for s in apart), max(s.end for s in apart)
    readings = [_plainly(line, cover, first, end) for cover in (one, other)]
    return Ambiguous(line.words(first, end), readings)


def _plainly(line: Text, cover: Cover, first: int, end: int) -> str:
    """What a cover reads in a stretch of the line, each part with its kind before it."""
    said = [s for s in cover.spans if first <= s.first and s.end <= end and s.kind is not Kind.GAP]
    return ", ".join(f"{_KEYS.get(s.kind, '')}{_words_of(line, s)}" for s in said)


def _words_of(line: Text, span: Span) -> str:
    return span.plain if span.kind is Kind.FULL and span.plain else line.words(span.first, span.end)


_KEYS = {Kind.NAME: "yarn: ", Kind.COLOUR: "colour: ", Kind.NOTE: "note: ", Kind.PLACE: "place: "}


# ---------------------------------------------------------------- one cover
def _settled(line: Text, cover: Cover, text: str, currency: str) -> Label:
    draft = Draft(line, cover, currency)
    for question in draft.values(Kind.QUESTION):
        raise question
    _ask_figures(draft)
    holding = settle_holding(draft)
    draft.facts = replace(
        draft.facts,
        full_mass=holding.mass,
        full_length=holding.length,
        count=holding.count,
        left=holding.left,
        part_balls=holding.parts,
        about=holding.about,
    )
    settle_facts(draft)
    strand.settle_strand(draft)
    settle_price(draft, holding)
    return _finished(draft, text, holding.counted)


def _ask_figures(draft: Draft) -> None:
    """A figure that nothing explains is asked about, never guessed or dropped."""
    spans = draft.of(Kind.NUMBER)
    if not spans:
        return
    together = [spans[0]]
    for span in spans[1:]:
        gap = draft.between(together[-1], span)
        if gap.strip(" ./,-"):
            break
        together.append(span)
    words = draft.stretch(together)
    start = draft.text.tokens[together[0].first].start
    if re.search(r"(?:^|[\s,;])\.$", draft.text.plain[:start]):
        words = f".{words}"
    about = re.search(
        r"(?:about|approx\.?|~|circa|ca\.?|roughly|around)\s*$",
        draft.text.plain[:start],
        re.I,
    )
    if about:
        words = about[0] + words
        raise _which_unit(words, draft.stretch(together))
    raise _which_thing(draft, words)


def _which_unit(text: str, number: str) -> Ambiguous:
    try:
        numbers.fraction(number)
    except Ambiguous as both:
        return Ambiguous(text, [f"{reading} {u}" for reading in both.readings for u in ("m", "yd")])
    except StashError:
        return Ambiguous(text, [f"lot {number}", f"colour {number}"])
    return Ambiguous(text, [_ABOUT.format(number, unit) for unit in ("g", "m", "yd")])


def _which_thing(draft: Draft, words: str) -> Ambiguous | Unreadable:
    try:
        value = numbers.fraction(words)
    except StashError:
        return Ambiguous(words, [f"lot {words}", _COLOUR_NO.format(words)])
    number = words.strip()
    if re.fullmatch(r"[0-9]*[.,][0-9]{2}", number):
        # a shell takes `$2` out of "$2.99" before anybody here sees it
        return Unreadable(number, "figure_without_meaning", figure=number.lstrip("."))
    if value.denominator == 1 and value < 30:
        a_thickness = [f"thickness {number}"] if value <= 7 and not draft.of(Kind.THICKNESS) else []
        skeins = [f"{number} skeins" if value != 1 else "1 skein"]
        return Ambiguous(number, [*skeins, *a_thickness, f"colour {number}"])
    return Ambiguous(
        number, [f"{number} {unit}" for unit in ("g", "m", "yd")] + [f"colour {number}"]
    )


def _finished(draft: Draft, text: str, counted: bool) -> Label:
    if not draft.understood and not draft.facts.about and not counted:
        raise Unreadable(text, "no_label")
    incoming = replace(
        draft.facts,
        name=draft.facts.name or NO_NAME,
        note="; ".join(dict.fromkeys(draft.kept)),
        typed=text,
    )
    order = _in_order(draft.understood)
    return Label(incoming, order, _left_unknown(incoming), tuple(dict.fromkeys(draft.notes)))


#: The name first, then the look, the amounts, and the rest as it was found.
_ORDER = {
    "read_name": 0,
    "read_maker": 1,
    "read_colour": 2,
    "read_colour_number": 3,
    **dict.fromkeys(("read_lot", "read_no_lot", "read_doubtful_lot"), 4),
    **dict.fromkeys(("read_weight", "read_weight_by_fineness"), 5),
    **dict.fromkeys(("read_length", "read_length_by_fineness"), 6),
    "read_thickness": 7,
    **dict.fromkeys(("read_fibre", "read_strange_fibre"), 8),
    **dict.fromkeys(("read_dyed", "read_surface"), 9),
}


def _in_order(understood: Sequence[Note]) -> tuple[Note, ...]:
    return tuple(sorted(understood, key=lambda read: _ORDER.get(read.kind, len(_ORDER))))


def _left_unknown(incoming: Incoming) -> tuple[str, ...]:
    known = {
        "length": incoming.full_length is not None,
        "weight": incoming.full_mass is not None,
        "thickness": incoming.thickness_from is not None,
        "fibre": bool(incoming.fibre),
        "colour": bool(incoming.colour or incoming.colour_no or incoming.colours),
        "lot": incoming.lot_state is not LotState.UNKNOWN,
    }
    return tuple(field for field, is_known in known.items() if not is_known)
