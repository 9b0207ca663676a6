"""A label line shown as it is understood, each fact to be changed in its field, then added."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions import clock, likeness
from stash.actions.add import foresee
from stash.errors import Ambiguous, BadInput, NotFound, Refusal, StashError, Undecided
from stash.exchange.label_lines import Beside, LineRead, Reader, book_lines, led
from stash.exchange.tables import with_unit
from stash.parsing.choices import replaced
from stash.rendering import arriving, figures, her_words
from stash.rendering.add import added_words
from stash.rendering.sentences.say import sentence
from stash.rendering.settings import followed
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.arriving import Arrived

#: The facts with a field, in the order of the page: column, label (her units in it), an example.
FIELDS = (
    ("yarn", "Yarn", "Greycairn DK"),
    ("count", "Skeins", "1"),
    ("thickness", "Thickness", "DK"),
    ("mass", "A full skein, {weight}", ""),
    ("length", "A full skein, {length}", ""),
    ("lot", "Dye lot", "4821, or none"),
    ("colour", "Colour", "pine dusk"),
    ("hex", "Its value on a screen", ""),
    ("fibre", "Fibre", "75% wool, 25% nylon"),
    ("place", "Place", "blue box"),
    ("bought", "Bought", "today"),
    ("paid", "Paid for all of it", "9.60, or 3.20 each"),
    ("care", "Care", "hand wash"),
    ("dyed", "How it is dyed", ""),
    ("surface", "Its surface", ""),
    ("maker", "Maker", ""),
    ("colour_no", "Colour number", ""),
    ("owner", "Whose it is", ""),
    ("tare", "Its core or bag weighs", ""),
    ("note", "Note", ""),
)
#: These have a field only where the line says something of them.
_IF_SAID = frozenset({"hex", "maker", "colour_no", "owner", "tare", "note"})
#: What a mistake in a line can be; trouble with the file is another thing.
_WRONG = (BadInput, Refusal, NotFound)


@dataclass(slots=True)
class Typed:
    """What stands in the form: the line, what leads it, and the facts that she has changed."""

    line: str
    beside: Beside
    shown: Mapping[str, str]

    @classmethod
    def of(cls, form: Mapping[str, str]) -> Typed:
        """From the fields: a fact is hers where it is not what the page had put there."""
        beside = Beside(like=form.get("like", ""), new=bool(form.get("new")))
        line, beside = led(form.get("line", ""), beside)
        shown = {column: form[column].strip() for column, _, _ in FIELDS if column in form}
        hers = {c: t for c, t in shown.items() if t != form.get(f"was-{c}", "").strip()}
        return cls(line, replace(beside, facts=hers), shown)

    def fields(self) -> dict[str, str]:
        """The form again, as an address bears it."""
        lead = {"like": self.beside.like, "new": "yes" if self.beside.new else ""}
        return {"line": self.line, **{k: v for k, v in lead.items() if v}, **self.beside.facts}


@dataclass(slots=True)
class Reading:
    """A line as it is understood now: read, or why not; `came` is what it would become.

    Where a question is open, `read` is one way to read it, and `open_facts` what depends on it.
    """

    typed: Typed
    place: str = ""
    read: LineRead | None = None
    open_facts: frozenset[str] = frozenset()
    wrong: StashError | None = None
    came: Arrived | None = None


def reading_of(visit: Visit, typed: Typed) -> Reading:
    """The line with the facts she has changed; where one of these is wrong, the line alone."""
    found = Reading(typed, likeness.last_place(visit.book))
    if not typed.line.strip() and not typed.beside.like:
        return found
    reader = reader_of(visit)
    facts = in_her_units(typed.beside.facts)
    try:
        found.read = reader.line(typed.line, replace(typed.beside, facts=facts))
        found.read = _where_last(found.read, typed, found.place)
        found.came = foresee(visit.book, [found.read.line])[0]
    except _WRONG as wrong:
        found.wrong = wrong
    if found.read is None and isinstance(found.wrong, BadInput) and found.wrong.field:
        found.read = reader.line(typed.line, replace(typed.beside, facts={}))
    elif found.read is None and isinstance(found.wrong, Undecided):
        with suppress(*_WRONG):
            found.read = reader.line(typed.line, replace(typed.beside, facts=facts, new=True))
    elif isinstance(found.wrong, Ambiguous):
        found.read, found.open_facts = _either_way(reader, found)
    return found


def _either_way(reader: Reader, found: Reading) -> tuple[LineRead | None, frozenset[str]]:
    """The line with one of the answers in it, and the facts that are others with another."""
    typed, asked, ways = found.typed, found.wrong, list[LineRead]()
    assert isinstance(asked, Ambiguous)
    for reading in ("", *asked.readings):  # what neither way says is as without the words
        with suppress(*_WRONG):
            read = reader.line(replaced(typed.line, asked.text, reading), typed.beside)
            ways.append(_where_last(read, typed, found.place))
    shown = [arriving.typed_facts(one.line, reader.currency) for one in ways]
    apart = (column for column in (shown or [{}])[0] if len({one[column] for one in shown}) > 1)
    return (ways[0] if ways else None), frozenset(apart)


def reader_of(visit: Visit) -> Reader:
    """Reads lines for her book, today, in her currency."""
    return Reader(visit.book, clock.today(), visit.settings.currency)


def in_her_units(facts: Mapping[str, str]) -> dict[str, str]:
    """Facts as typed; a bare figure has the unit that amounts are shown in."""
    units = figures.screen().units
    unit = {"mass": units.weight, "tare": units.weight, "length": units.length}
    return {c: with_unit(c, text, unit.get(c, "")) for c, text in facts.items()}


def _where_last(read: LineRead, typed: Typed, last: str) -> LineRead:
    """Kept where the last skein was, unless the line or she says something of it."""
    if read.line.place or "place" in typed.beside.facts or not last:
        return read
    return replace(read, line=replace(read.line, place=typed.shown.get("place") or last))


def add(visit: Visit) -> Response:
    """The line and what was understood of it."""
    notice = visit.notice
    form = notice.typed if notice and notice.action == "/add" else visit.query
    found = reading_of(visit, Typed.of(form))
    plain = _without_hers(visit, found)
    return visit.page("add.html", lambda: _values(visit, found, plain))


def _without_hers(visit: Visit, found: Reading) -> LineRead | None:
    """The line as it is understood without the facts that she has changed."""
    if found.read is None or found.open_facts or not found.typed.beside.facts:
        return found.read
    beside = replace(found.typed.beside, facts={})
    reader, typed = reader_of(visit), Typed(found.typed.line, beside, {})
    read = reader.line(typed.line, beside)
    return _where_last(read, typed, found.place)


def _values(visit: Visit, found: Reading, plain: LineRead | None) -> Mapping[str, Any]:
    return {
        "typed": found.typed,
        "fields": _fields(visit, found, plain) if plain else [],
        "question": _question(found),
        "problem": _problem(found),
        "coming": arriving.coming(found.came) if found.came else None,
        "again": visit.query.get("after", ""),
        "besides": _besides(found),
        "notes": _notes(found),
        "like": _like_words(visit, found.typed.beside.like),
    }


def _like_words(visit: Visit, like: str) -> str:
    return likeness.like(visit.book, like).name if like else ""


def _besides(found: Reading) -> str:
    read = found.read
    if read is None or read.label is None:
        return ""
    return "; ".join(map(said, arriving.read_besides(read.label.understood, read.line)))


def _notes(found: Reading) -> list[str]:
    read, came = found.read, found.came
    if read is None:
        return []
    notes = [*(read.label.notes if read.label else ()), *read.notes]
    looks = arriving.worth_a_look([*notes, *(came.notes if came else ())])
    return [said(arriving.look_words(note)) for note in looks]


def _fields(visit: Visit, found: Reading, plain: LineRead) -> list[dict[str, Any]]:
    """Every fact as a field: what stands in it, what the page had put there, whence."""
    hers, units = found.typed.beside.facts, figures.screen().units
    filled = arriving.filled_in(plain.own, plain.line) - hers.keys()
    values = arriving.typed_facts(plain.line, visit.settings.currency)
    values.update(dict.fromkeys(found.open_facts, ""))
    return [
        {
            "name": column,
            "label": her_words.hers(label).format(weight=units.weight, length=units.length),
            "value": hers.get(column, values[column]),
            "was": values[column],
            "known": bool(values[column]),
            "from": _whence(column, column in filled, plain),
            "example": "answer above" if column in found.open_facts else example,
            "options": arriving.CHOICES.get(column, ()),
            **_wrong_in(found, column),
        }
        for column, label, example in FIELDS
        if column not in _IF_SAID or values[column] or hers.get(column)
        if not (column in found.open_facts and column in _IF_SAID)
    ]


def _whence(column: str, filled: bool, read: LineRead) -> str:
    if not filled:
        return ""
    if column == "place":
        return "as last time"
    return "as your other" if column in ("mass", "length") else f"as your other {read.line.name}"


def _wrong_in(found: Reading, column: str) -> dict[str, Any]:
    """What is wrong in a field, and how it could be meant."""
    wrong = found.wrong
    if not isinstance(wrong, BadInput) or wrong.field != column:
        return {"wrong": "", "choices": ()}
    if isinstance(wrong, Ambiguous):
        return {"wrong": f"“{wrong.text}”: which is it?", "choices": [*wrong.readings]}
    return {"wrong": said(wrong), "choices": ()}


def _question(found: Reading) -> Mapping[str, Any] | None:
    """A question about the line with each answer: what its button says, and the line then."""
    wrong, line = found.wrong, found.typed.line
    if isinstance(wrong, Ambiguous) and not wrong.field:
        shown = [*map(sentence, wrong.shown or wrong.readings)]
        lines = [replaced(line, wrong.text, one) for one in wrong.readings]
        what = f"“{wrong.text}” can be read in more than one way."
    elif isinstance(wrong, Undecided):
        what, ways = asked_of(wrong)
        return {"what": what, "ways": ways}
    else:
        return None
    return {"what": what, "ways": [*zip(shown, lines, strict=True)]}


def asked_of(asked: Undecided) -> tuple[str, list[tuple[str, str]]]:
    """A question about a line, and each answer that is a line to read in its place."""
    ways = [(said(way), sentence(line)) for way, line in asked.ways]
    whole = [(way, line) for way, line in ways if led(line, Beside())[0] != line]
    other = "" if len(whole) == len(ways) else "; if it is another yarn, change its name"
    return f"{said(asked.what)}{other}", whole


def _problem(found: Reading) -> str:
    """Why it cannot be added, where that is no question."""
    wrong = found.wrong
    if wrong is None or isinstance(wrong, Ambiguous | Undecided):
        return ""
    return said(wrong) if not getattr(wrong, "field", "") else ""


def add_yarn(visit: Visit) -> Done:
    """Put on the shelf what the form says; where that is a question, it is asked on the page."""
    typed = Typed.of(visit.typed)
    found = reading_of(visit, typed)
    if found.read is None or found.came is None:
        return Done(f"/add?{urlencode(typed.fields())}", undo=False)
    received = book_lines(visit.book, [found.read])
    arrived = received.arrived[0]
    words = (added_words(arrived.skeins, arrived.lot), *followed(received.habits))
    return Done(f"/add?after={arrived.lot.ref}", words)


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/add": add}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/add": add_yarn}
