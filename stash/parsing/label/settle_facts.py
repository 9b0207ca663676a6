"""What a line says of the yarn itself: name, colour, thickness, fibre, lot, and the rest."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date
from itertools import pairwise

from stash.errors import Ambiguous, StashError, Unreadable
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.parsing import numbers
from stash.parsing.label import names
from stash.parsing.label.draft import Draft
from stash.parsing.label.fibres import Blend, lone_fibres, pure_fibre, says_superwash
from stash.parsing.label.looks import thickness_of_words
from stash.parsing.label.lots import LotSaid
from stash.parsing.label.span import Kind, Span
from stash.stock.yarn import LotState
from stash.trade import colour_words, fibres, hooks, thickness

#: How a lot is kept in the note that is not sure enough to go by.
_NOT_KNOWN = "{}, so not known"
#: How a note begins that keeps yarn for something.
_FOR_SOMETHING = re.compile(
    r"(?:for|reserved|saved|promised|keep|kept|do not use|don't use|earmarked)\b", re.IGNORECASE
)


def settle_facts(draft: Draft) -> None:
    """Every fact that is no amount and no price."""
    _lot(draft)
    _name(draft)
    _colour(draft)
    _fibre(draft)
    _thickness(draft)
    _place_and_day(draft)
    _care(draft)
    _notes(draft)


def _lot(draft: Draft) -> None:
    said: list[LotSaid] = draft.values(Kind.LOT)
    numbered = {lot.text for lot in said if lot.state is LotState.NUMBERED}
    if len(numbered) > 1:
        raise Unreadable(draft.text.plain, "several_lots")
    for lot in said:
        if lot.doubt:
            draft.learn(Note("read_doubtful_lot", lot=lot.doubt))
            draft.kept.append(_NOT_KNOWN.format(lot.doubt))
            draft.doubt("doubtful_lot", lot=lot.doubt)
        elif lot.state is LotState.CLAIMED_NONE and not numbered:
            draft.learn(Note("read_no_lot"), lot_state=LotState.CLAIMED_NONE)
    for text in numbered:
        draft.learn(Note("read_lot", lot=text), lot=text, lot_state=LotState.NUMBERED)


def _name(draft: Draft) -> None:
    for span in draft.of(Kind.MAKER):
        draft.learn(Note("read_maker", maker=span.value), maker=span.value)
    for span in draft.of(Kind.NAME):
        name, maker = names.maker_of(span.value)
        draft.learn(Note("read_name", name=name), name=name)
        if maker and not draft.facts.maker:
            draft.learn(Note("read_maker", maker=maker), maker=maker)


def _colour(draft: Draft) -> None:
    for span in draft.of(Kind.HEX):
        draft.learn(Note("read_colour_value", colour=span.value), colours=(span.value,))
    spans = draft.of(Kind.COLOUR)
    if two := next((s for s in spans if not isinstance(s.value, str)), None):
        _, words, (one, first, other, second) = two.value
        values = colour_words.colour_of(f"{one} {other}")
        draft.learn(Note("read_colour", colour=words), colour=words, colours=values)
        draft.doubt("two_colours", colours=(one, other), numbers=(first, second))
    elif spans:
        words = ", ".join(names.quiet_words(s.value) for s in spans)
        _refuse_dark(draft, words)
        values = draft.facts.colours or colour_words.colour_of(words)
        draft.learn(Note("read_colour", colour=words), colour=words, colours=values)
        if names.is_doubtful(words):
            draft.doubt("uncertain_colour", colour=words)
    _colour_number(draft)


def _refuse_dark(draft: Draft, words: str) -> None:
    """`dk green` in small letters at the head of a part may be a thickness or a dark colour."""
    spans = draft.cover.spans
    for one, other in pairwise(spans):
        heads = one.first == 0 or one.first - 1 in draft.text.breaks
        if (
            heads
            and draft.words(one) == "dk"
            and other.kind is Kind.COLOUR
            and not thickness_of_words(draft.facts.name)
            and len(draft.of(Kind.THICKNESS)) == 1
        ):
            colour = draft.words(other)
            raise Ambiguous(f"dk {colour}", [f"DK, {colour}", f"dark {colour}"])
    if (
        words.startswith("dk ")
        and not draft.of(Kind.THICKNESS)
        and not thickness_of_words(draft.facts.name)
    ):
        colour = words.removeprefix("dk ")
        raise Ambiguous(words, [f"DK, {colour}", f"dark {colour}"])


def _colour_number(draft: Draft) -> None:
    spans = [s for s in draft.of(Kind.COLOUR_NO) if isinstance(s.value, str)]
    if not spans:
        return
    if len({s.value for s in spans}) > 1:
        raise Unreadable(draft.text.plain, "two_colour_numbers")
    number = spans[0].value
    draft.learn(Note("read_colour_number", number=number), colour_no=number)


def _fibre(draft: Draft) -> None:
    for span in draft.of(Kind.FIBRE):
        blend: Blend = span.value
        if blend.superwash:
            draft.learn(Note("read_care", care="superwash"), care="superwash")
        if blend.strange:
            words = draft.words(span)
            draft.learn(Note("read_strange_fibre", fibre=words))
            draft.kept.append(words)
            for name in blend.strange:
                draft.doubt("unknown_fibre", fibre=name)
            continue
        words = ", ".join(
            f"{float(s):g}% {name}" if s is not None else name for s, name in blend.parts
        )
        draft.learn(Note("read_fibre", fibre=words), fibre=words)
        shares = [s for s, _ in blend.parts if s is not None]
        percent = fibres.odd_sum(words)
        if percent is not None:
            draft.doubt("odd_blend", percent=percent)
        if not shares:
            draft.doubt("fibre_without_shares", fibre=words)
    if draft.of(Kind.FIBRE):
        return
    if says_superwash(draft.facts.name):
        draft.learn(Note("read_care", care="superwash"), care="superwash")
    found = lone_fibres(draft.facts.name)
    if pure := pure_fibre(draft.facts.name):
        words = f"100% {pure}"
        draft.learn(Note("read_fibre", fibre=words), fibre=words)
    elif found:
        words = ", ".join(found)
        draft.learn(Note("read_fibre", fibre=words), fibre=words)
        draft.doubt("fibre_without_shares", fibre=words)


# ---------------------------------------------------------------- thickness
def _thickness(draft: Draft) -> None:
    """Said outside the name it outranks what the name holds; two that differ span both."""
    inside = thickness_of_words(draft.facts.name)
    spans = draft.of(Kind.THICKNESS)
    digit = next((s for s in draft.of(Kind.COLOUR_NO) if not isinstance(s.value, str)), None)
    if digit is not None:
        _hash(draft, digit, inside or (spans[0].value if spans else None))
        inside = inside or _said(draft)
    if not spans and digit is None and inside:
        _learn(draft, inside)
    elif spans:
        _outside(draft, spans, inside)
    _compare(draft)


def _said(draft: Draft) -> tuple[int, int] | None:
    low, high = draft.facts.thickness_from, draft.facts.thickness_to
    return None if low is None or high is None else (low, high)


def _outside(draft: Draft, spans: Sequence[Span], inside: tuple[int, int] | None) -> None:
    brackets = [s for s in spans if draft.words(s)[:1] in "([" and draft.words(s)[1:2].isdigit()]
    others = [s.value for s in spans if s not in brackets] or ([inside] if inside else [])
    for span in brackets:
        number = span.value[0]
        if others and not any(low - 1 <= number <= high + 1 for low, high in others):
            raise Ambiguous(draft.words(span), [f"{number} skeins", f"thickness {number}"])
    values = [s.value for s in spans]
    if len(set(values)) > 1:
        narrow = [v for v in values if all(low <= v[0] and v[1] <= high for low, high in values)]
        values = narrow or values
        if not narrow:
            draft.doubt("thickness_said_twice")
    low, high = min(low for low, _ in values), max(high for _, high in values)
    if inside and (inside[1] < low or high < inside[0]):
        draft.doubt("thickness_in_name_differs", classes=inside)
    _learn(draft, (low, high))


def _hash(draft: Draft, span: Span, known: tuple[int, int] | None) -> None:
    """`#4` is the colour where the class is said, the class where the colour is, else asked."""
    digit = span.value[1]
    if known is not None and known[0] <= int(digit) <= known[1]:
        _learn(draft, (int(digit), int(digit)))
    elif known is not None and not draft.facts.colour_no:
        draft.learn(Note("read_colour_number", number=digit), colour_no=digit)
        _learn(draft, known)
    elif known is not None:
        raise Unreadable(draft.text.plain, "unclear_number", digit=digit)
    elif (draft.facts.colour_no or draft.facts.colour) and not _beside_colour(draft, span):
        _learn(draft, (int(digit), int(digit)))
        draft.doubt("number_taken_for_thickness", digit=digit)
    else:
        raise Ambiguous(draft.words(span), [f"thickness {digit}", f"colour {digit}"])


def _beside_colour(draft: Draft, span: Span) -> bool:
    """`#2 gold`: the number may be that of the colour it stands with."""
    return any(s.end == span.first or s.first == span.end for s in draft.of(Kind.COLOUR))


def _learn(draft: Draft, classes: tuple[int, int]) -> None:
    low, high = classes
    draft.learn(Note("read_thickness", classes=classes), thickness_from=low, thickness_to=high)


def _compare(draft: Draft) -> None:
    """A class far from what so many metres per 100 g usually are is worth a second look."""
    facts, known = draft.facts, _said(draft)
    if known is None or not facts.full_mass or not facts.full_length:
        return
    usual = thickness.thickness_of_m_per_100g(PutUp(facts.full_mass, facts.full_length).m_per_100g)
    if usual < known[0] - 1 or usual > known[1] + 1:
        draft.doubt("thickness_unlike_fineness", classes=(usual, usual))


# ---------------------------------------------------------------- beside the yarn
def _place_and_day(draft: Draft) -> None:
    places = [names.quiet_words(place) for place in draft.values(Kind.PLACE)]
    if places:
        place = ", ".join(places)
        draft.learn(Note("read_place", place=place), place=place)
    for span in draft.of(Kind.OWNER):
        draft.learn(Note("read_owner", owner=span.value), owner=span.value)
    for value in draft.values(Kind.DAY):
        if isinstance(value, StashError):
            raise value
        assert isinstance(value, date)
        draft.learn(Note("read_bought", day=value), bought=value)
    for condition, words in draft.values(Kind.CONDITION):
        both = tuple(dict.fromkeys((*draft.facts.conditions, condition)))
        draft.learn(Note("read_condition", condition=condition, words=words), conditions=both)


def _care(draft: Draft) -> None:
    words = [draft.facts.care] if draft.facts.care else []
    words += [w for w in draft.values(Kind.CARE) if w not in words]
    if draft.of(Kind.CARE):
        care = ", ".join(words)
        draft.learn(Note("read_care", care=care), care=care)
    if draft.of(Kind.DYED):
        draft.learn(Note("read_hand_dyed"), hand_dyed=True)


#: Notes that have a word of their own for what they are.
_NAMED = {
    "gauge",
    "wraps",
    "hook",
    "tool size",
    "bar code",
    "about when",
    "yarn count",
    "thickness",
    "thread size",
    "size",
    "shop price",
    "offer",
}


def _notes(draft: Draft) -> None:
    """Every word that is no fact is kept, run by run, and shown."""
    run: list[Span] = []
    for span in (*draft.cover.spans, None):
        loose = span is not None and span.kind in (Kind.NOTE, Kind.GAP) and not _own(span)
        if loose and span is not None:
            run.append(span)
            continue
        _keep_run(draft, run)
        run = []
        if span is not None and span.kind is Kind.NOTE:
            _keep_named(draft, span)
    if any(s.kind is Kind.GAP and s.value == "doubt" for s in draft.cover.spans):
        draft.doubt("only_thought")


def _own(span: Span) -> bool:
    return span.kind is Kind.NOTE and (span.value in _NAMED or span.value == "note")


def _keep_run(draft: Draft, run: Sequence[Span]) -> None:
    """A run of loose words; marks at its edges and fillers alone are nothing to keep."""
    while run and run[-1].kind is Kind.GAP:
        run = run[:-1]
    while run and run[0].kind is Kind.GAP:
        run = run[1:]
    if not run:
        return
    words = names.quiet_words(draft.stretch(run))
    if words:
        draft.learn(Note("read_note", words=words))
        draft.kept.append(words)
        if _FOR_SOMETHING.match(words):
            draft.doubt("kept_for_something", words=words)


def _keep_named(draft: Draft, span: Span) -> None:
    words = span.plain if span.value == "note" else draft.words(span)
    draft.keep(str(span.value), words)
    if span.value == "gauge" and re.search(
        r"(?:[=/]|to|per|over|in)\s*(?:1\s*)?(?:in|ins|inch|\")$", words, re.I
    ):
        draft.doubt("rough_gauge")
    if span.value == "hook":
        _check_hook(draft, words)


def _check_hook(draft: Draft, words: str) -> None:
    """A label and millimetres that do not belong together are pointed out, not put right."""
    found = re.search(
        rf"(?P<label>[A-S]\s?[/-]\s?\d{{1,2}}(?:\s?1/2|\.5)?)(?:\s*[,(/]?\s*"
        rf"(?P<mm>{numbers.PATTERN})\s*mm)?",
        words,
    )
    known = hooks.hook_mm(found["label"]) if found else None
    if found and known and found["mm"] and float(numbers.fraction(found["mm"])) != known:
        draft.doubt("odd_hook", label=found["label"], mm=known)
