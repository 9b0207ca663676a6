"""A line off a label, as somebody typed it, read into the yarn it describes.

Each reader takes its part out of the line, the surest first; the words that are left are the
yarn's name, its colour, or a note. What may mean two things is refused with both.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.errors import Ambiguous, Unreadable
from stash.measures.put_up import PutUp
from stash.stock.incoming import Incoming
from stash.stock.yarn import LotState
from stash.trade import colour_words, thickness
from stash.wording import (
    label_amounts,
    label_counts,
    label_fibre,
    label_gauge,
    label_kind,
    label_lot,
    label_parts,
    label_price,
    numbers,
)
from stash.wording.label_parts import ABOUT, PACKAGE, Line

#: A yarn whose line gives no name.
NO_NAME = "unnamed yarn"
#: Longer than any label; keeps a pasted page away from the patterns.
_LONGEST = 1000


@dataclass(frozen=True, slots=True)
class Label:
    """A line of yarn as it was understood.

    `understood` pairs each field with what was read in it; `left_unknown` names the important
    fields the line says nothing of; `notes` are doubts somebody should look at.
    """

    incoming: Incoming
    understood: tuple[tuple[str, str], ...]
    left_unknown: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Segment:
    """A part of the line nobody took; `after_number` where a colour number stood before it."""

    words: str
    after_number: bool


#: In this order, because each may look like part of a later one.
_READERS: tuple[Callable[[Line], None], ...] = (
    label_parts.take_told,
    label_parts.take_days,
    label_parts.take_conditions,
    label_price.take_price,
    label_gauge.take_gauge,
    label_kind.take_colour_number,
    label_fibre.take_fibre,
    label_parts.take_place,
    label_amounts.refuse_unclear,
    label_counts.take_and_a_bit,
    label_counts.take_left,
    label_counts.take_counts,
    label_amounts.take_put_up,
    label_kind.take_class,
    label_parts.take_care,
    label_kind.take_colour_told,
    label_kind.settle_hash,
)
_SPLIT = re.compile(r"[;|()\x01•·]|,(?![0-9])|\s[-–—]+\s|\s[-–—]+$|^[-–—]+\s")
_EDGES = " \t.:,-–—=/+&~*!\"'"
_FILLER = re.compile(
    rf"^(?:(?:{PACKAGE}|of|and|with|in|the|each|ea|at|approx|about|plus|on|per|a|an|some|to|or|is"
    r"|no label|(?:bag|pack|set|box)\s+of|colou?r(?:way)?|yarn|weight|size|label|amount|length|left"
    r"|total|for)\b\.?\s*)+"
    r"|\s+(?:and|with|in|of|on|at|or|each|ea)$",
    re.IGNORECASE,
)
_ARTICLES = re.compile(
    r"(?<!\w)\d+\s+(?:hats?|beanies?|scarves|scarf|cowls?|headbands?|blankets?|mittens?|socks|pairs|sweaters?"
    r"|jumpers?|cardigans?)\b",
    re.IGNORECASE,
)
_POINTS_AWAY = re.compile(
    r"\W*(?:(?:sub[\s-]?)?totals?\b|(?:(?:see|as|same as)\s+(?:above|below|before)|ditto)\W*$)",
    re.IGNORECASE,
)
_MEANT = re.compile(r"\b(?:for|from|enough)\b", re.IGNORECASE)
_NUMBER_ALONE = re.compile(rf"({ABOUT})?\s*({numbers.PATTERN})\s*\??", re.IGNORECASE)
_ROUGH_NUMBER = re.compile(rf"(?<!\w){ABOUT}\s*({numbers.PATTERN})(?![\w%])", re.IGNORECASE)
_COUNT_AHEAD = re.compile(r"([1-9]\d?)\s+([^\W\d].*)")
_OF_A_COLOUR = re.compile(r"(?<![\w.,/#])([1-9]\d?)\s+([^\W\d_]+)(?!\w)")
_DOUBTFUL = re.compile(r"\b(?:maybe|possibly|perhaps)\b|\?|ish\b", re.IGNORECASE)


def read(text: str, today: date = date.max, currency: str = "") -> Label:
    """The yarn a typed line describes, in whatever order it was typed.

    `today` keeps out days to come; `currency` is the file's, as an ISO 4217 code. Raises
    `Ambiguous` for what may mean two things, `Unreadable` where nothing is understood.
    """
    line = _begun(text, today, currency)
    for take in _READERS:
        take(line)
    _refuse_stray_numbers(line)
    _name_and_colour(line, _segments(line.rest))
    _settle(line)
    return _finished(line)


def _begun(text: str, today: date, currency: str) -> Line:
    """The line with its lot taken, which alone is read before anything is tidied."""
    if len(text) > _LONGEST:
        raise Unreadable(text[:40] + "…", "a line of yarn", f"at most {_LONGEST} characters")
    printable = re.sub(r"[\r\n\t\v\f]+", " ; ", text)
    printable = re.sub(r"(?<=[^\W\d]),(?=[0-9])", ", ", printable)
    line = Line(text=text, rest=re.sub(r"[\x00-\x1f\x7f]", " ", printable).strip(),
                today=today, currency=currency)  # fmt: skip
    if _POINTS_AWAY.match(line.rest):
        raise Unreadable(text, "a line of yarn", "write the yarn out, one line for each")
    if _ARTICLES.search(line.rest) and not _MEANT.search(line.rest):
        raise Unreadable(text, "a line of yarn", "this counts made things, not yarn")
    label_parts.take_note(line)
    label_lot.take_lot(line)
    line.rest = label_counts.with_halves(numbers.cleaned(line.rest))
    return line


def _segments(rest: str) -> list[_Segment]:
    """What nobody took, in its parts, without the words that only held them together."""
    found = []
    for part in _SPLIT.split(rest):
        words = part.replace("\x02", " ").replace('"', " ").strip(_EDGES)
        words = _FILLER.sub("", words).strip(_EDGES)
        if re.search(r"\w", words):
            found.append(_Segment(" ".join(words.split()), "\x02" in part))
    return found


def _refuse_stray_numbers(line: Line) -> None:
    """A number that nothing explains is asked about, never guessed or dropped."""
    each = [m[2] for m in _OF_A_COLOUR.finditer(line.rest) if colour_words.only_colour(m[2])]
    if len(each) > 1:
        raise Unreadable(line.text, "one line of yarn", "write one line for each colour")
    if rough := _ROUGH_NUMBER.search(line.rest):
        raise _which_unit(rough[0], rough[1])
    for number, segment in enumerate(_segments(line.rest)):
        if alone := _NUMBER_ALONE.fullmatch(segment.words):
            raise _which_thing(segment.words, alone[2])
        ahead = _COUNT_AHEAD.fullmatch(segment.words)
        if ahead and number == 0 and line.count is None and not line.so_far.name:
            raise Ambiguous(
                segment.words, [f"{ahead[1]} skeins of {ahead[2]}", f"yarn: {segment.words}"]
            )


def _which_unit(text: str, number: str) -> Ambiguous:
    try:
        numbers.fraction(number)
    except Ambiguous as both:
        return Ambiguous(text, [f"{reading} {u}" for reading in both.readings for u in ("m", "yd")])
    return Ambiguous(text, [f"about {number} {unit}" for unit in ("g", "m", "yd")])


def _which_thing(text: str, number: str) -> Ambiguous:
    value = numbers.fraction(number)
    if value.denominator == 1 and value < 10:
        a_class = [f"class {number}"] if value <= 7 else []
        return Ambiguous(text, [f"{number} skeins", *a_class, f"colour {number}"])
    return Ambiguous(text, [f"{number} {unit}" for unit in ("g", "m", "yd")] + [f"colour {number}"])


def _name_and_colour(line: Line, segments: Sequence[_Segment]) -> None:
    """The first part that is no colour is the name; colours are colours; the rest is a note."""
    segments = [_numbered_colour(line, segment) for segment in segments]
    colours = [s.words for s in segments if colour_words.only_colour(s.words)]
    others = [s for s in segments if s.words not in colours]
    _learn_lone_fibres(line, " , ".join(s.words for s in others))
    named = [s for s in others if label_fibre.without_fibres(s.words)] or others
    first = next((s for s in named if not s.after_number), named[0] if named else None)
    for segment in named:
        if segment is not first:
            _place_rest(line, segment, colours)
    if first:
        _learn_name(line, first.words, colours)
    if colours and not line.so_far.colour:
        _learn_colour(line, ", ".join(colours))
    else:
        line.kept.extend(colours)


def _numbered_colour(line: Line, segment: _Segment) -> _Segment:
    """`red 12` and `941 brick`: a colour and its number."""
    found = re.fullmatch(r"(?:(\d{2,6})\s+)?(\D+?)(?:\s+(\d{1,6}))?", segment.words)
    if not found or not (found[1] or found[3]) or line.so_far.colour_no:
        return segment
    if not colour_words.only_colour(found[2]):
        return segment
    number = found[1] or found[3]
    line.learn("colour number", number, colour_no=number)
    return _Segment(found[2], True)


def _place_rest(line: Line, segment: _Segment, colours: list[str]) -> None:
    """A later part with a colour in it, or behind a colour number, is a colour; else a note."""
    free = not line.so_far.colour
    if free and (segment.after_number or colour_words.colour_of(segment.words)):
        colours.append(segment.words)
    else:
        line.keep("kept as a note", segment.words)


def _learn_name(line: Line, words: str, colours: list[str]) -> None:
    """The name, without the maker behind `by` and the colour at its end."""
    by = re.fullmatch(r"(.*?)\s*\bby\s+(.+)", words, re.IGNORECASE)
    if by and not line.so_far.maker:
        words = by[1]
        maker, tail = colour_words.colour_at_end(by[2])
        colours += [tail] if tail and not colours else []
        line.learn("maker", maker, maker=maker)
    if not colours and not line.so_far.colour:
        words, tail = _without_colour(words)
        colours += [tail] if tail else []
    if line.so_far.name:
        line.keep("kept as a note", words)
    elif words:
        line.learn("name", words, name=words)


def _without_colour(words: str) -> tuple[str, str]:
    """A name and its colour, which ends it or, before nothing but fibres, begins it."""
    name, tail = colour_words.colour_at_end(words)
    if tail:
        return name, tail
    parts = words.split()
    for cut in range(1, len(parts)):
        head, fibres = " ".join(parts[:cut]), " ".join(parts[cut:])
        name, tail = colour_words.colour_at_end(head)
        if tail and not label_fibre.without_fibres(fibres):
            return f"{name} {fibres}", tail
    for cut in range(len(parts) - 1, 0, -1):
        head, rest = " ".join(parts[:cut]), " ".join(parts[cut:])
        if colour_words.only_colour(head) and not label_fibre.without_fibres(rest):
            return rest, head
    return words, ""


def _learn_lone_fibres(line: Line, words: str) -> None:
    names = label_fibre.lone_fibres(words)
    if names and not line.so_far.fibre:
        line.learn("fibre", ", ".join(names), fibre=", ".join(names))
        line.notes.append(f"fibre read from the words alone ({', '.join(names)}); no shares given")


def _learn_colour(line: Line, words: str) -> None:
    values = line.so_far.colours or colour_words.colour_of(words)
    line.learn("colour", words, colour=words, colours=values)
    if _DOUBTFUL.search(words):
        line.notes.append(f"the colour {words!r} is not certain: look in daylight")


def _settle(line: Line) -> None:
    """What could only be said once the whole line was read: totals, shares, prices, doubts."""
    label_amounts.settle_total(line)
    label_counts.settle_part(line)
    count = line.count or label_price.count_of_deal(line) or 1
    if count > 1 and line.so_far.left is not None:
        raise Unreadable(
            line.text,
            "one line of yarn",
            "put the part ball on a line of its own, or say its count",
        )
    if count > 1:
        line.learn("count", str(count), count=count)
    label_price.settle_price(line, count)
    _compare_class(line)


def _compare_class(line: Line) -> None:
    """A class far from what so many metres per 100 g usually are is worth a second look."""
    facts = line.so_far
    if facts.class_from is None or facts.class_to is None:
        return
    if not facts.full_mass or not facts.full_length:
        return
    usual = thickness.class_of_m_per_100g(PutUp(facts.full_mass, facts.full_length).m_per_100g)
    if usual < facts.class_from - 1 or usual > facts.class_to + 1:
        line.notes.append(
            f"such a weight and length are usually {thickness.plain_name(usual, usual)}"
        )


def _finished(line: Line) -> Label:
    if not line.understood and not line.so_far.about and not line.count:
        raise Unreadable(
            line.text, "a line of yarn", "give a name, like `Harbour DK, 50g/125m, navy, lot 12`"
        )
    incoming = replace(
        line.so_far,
        name=line.so_far.name or NO_NAME,
        note="; ".join(dict.fromkeys(line.kept)),
        typed=line.text,
    )
    return Label(
        incoming, tuple(line.understood), _left_unknown(incoming), tuple(dict.fromkeys(line.notes))
    )


def _left_unknown(incoming: Incoming) -> tuple[str, ...]:
    known = {
        "length": incoming.full_length is not None,
        "weight": incoming.full_mass is not None,
        "class": incoming.class_from is not None,
        "fibre": bool(incoming.fibre),
        "colour": bool(incoming.colour or incoming.colour_no or incoming.colours),
        "lot": incoming.lot_state is not LotState.UNKNOWN,
    }
    return tuple(field for field, is_known in known.items() if not is_known)
