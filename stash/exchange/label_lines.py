"""Label lines as she types them, with what is said beside them, read into what is to come in."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any

from stash.actions import likeness
from stash.actions.add import Received, receive
from stash.actions.book import Book
from stash.errors import BadInput, StashError, Undecided
from stash.exchange import cells
from stash.measures.note import Note
from stash.parsing import coins, facts, quantities
from stash.parsing import label as labels
from stash.parsing.label import Label
from stash.stock.incoming import Incoming
from stash.stock.yarn import LotState

_LED = re.compile(r'--(?:new|like (?P<like>L\d+)) "(?P<line>.*)"', re.DOTALL)


@dataclass(frozen=True, slots=True)
class Beside:
    """What is said beside a label, of every line alike.

    `facts` are words by the columns of a sheet, read as a cell of that column is: they win over
    the line, and one that is empty clears its fact. `more` is added to the note. `like` and `new`
    are those of `likeness`: the same as a lot, or not the yarn of nearly that name.
    """

    like: str = ""
    new: bool = False
    facts: Mapping[str, str] = field(default_factory=dict)
    more: str = ""


@dataclass(frozen=True, slots=True)
class LineRead:
    """One line as typed and as read; no label where it is the very same as a lot again.

    `own` is the line before anything was filled in from yarn that is known; `said` is what was
    beside it, with what led the line.
    """

    typed: str
    line: Incoming
    own: Incoming
    label: Label | None
    said: Beside
    notes: Sequence[Note] = ()

    @property
    def unknown(self) -> list[str]:
        """The important facts that neither the label nor anything beside it says."""
        if self.label is None:
            return []
        line = self.line
        given = {
            "lot": bool(line.lot),
            "colour": bool(line.colour),
            "weight": line.full_mass is not None,
            "length": line.full_length is not None,
            "thickness": line.thickness_from is not None,
            "fibre": bool(line.fibre),
        }
        return [name for name in self.label.left_unknown if not given.get(name)]


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads label lines for one book (None: it is yet to be begun) on a day, in a currency."""

    book: Book | None
    today: date
    currency: str = ""

    def line(self, typed: str, said: Beside) -> LineRead:
        """A line read, and filled from what is known.

        `--like L1 "…"` and `--new "…"` may lead it, as a question offers them. Raises `Ambiguous`
        or `Undecided` where it asks, `Unreadable` where nothing is understood.
        """
        typed, said = led(typed, said)
        if said.like and not typed:
            line = self._overruled(likeness.like(self._begun(), said.like), said)
            return LineRead(typed, line, line, None, said)
        known = likeness.like(self._begun(), said.like).name if said.like else ""
        label = labels.read(typed, self.today, self.currency, known=known)
        own = self._overruled(label.incoming, said)
        if said.like:
            line = likeness.like(self._begun(), said.like, label.incoming)
            return LineRead(typed, self._overruled(line, said), own, label, said)
        if own.name == labels.NO_NAME or self.book is None:
            return LineRead(typed, own, own, label, said)
        filled = likeness.filled_from_known(self.book, own, another=said.new)
        cleared = {column: text for column, text in said.facts.items() if not text}
        return LineRead(typed, self._with(filled.line, cleared), own, label, said, filled.notes)

    def same_again(self, said: Beside) -> LineRead:
        """The yarn of a lot in another colour: that and the dye lot are only what is said."""
        known = likeness.like(self._begun(), said.like, Incoming(""))
        line = self._overruled(known, said)
        return LineRead("", line, line, None, said)

    def lines(self, text: str, said: Beside) -> Iterator[tuple[int, str, LineRead | StashError]]:
        """Each line of a text by its number, read or what is wrong with it.

        Empty ones and those that begin with `# ` are left out.
        """
        for number, typed in enumerate(text.splitlines(), start=1):
            if typed.strip() and not typed.lstrip().startswith("# "):
                yield number, typed, self._read_or_wrong(typed, said)

    def _read_or_wrong(self, typed: str, said: Beside) -> LineRead | StashError:
        try:
            return self.line(typed, said)
        except (BadInput, Undecided) as wrong:
            return wrong

    def _begun(self) -> Book:
        if self.book is None:
            raise BadInput("no_yarn_yet")
        return self.book

    def _overruled(self, line: Incoming, said: Beside) -> Incoming:
        line = self._with(line, said.facts)
        return replace(line, note="; ".join(filter(None, [line.note, said.more])))

    def _with(self, line: Incoming, said: Mapping[str, str]) -> Incoming:
        """The line with facts in the place of its own; a price last, as it may be of each skein."""
        for column in sorted(said, key=lambda one: one == "paid"):
            try:
                line = self._with_fact(line, column, said[column].strip())
            except BadInput as bad:
                bad.field = column
                raise
        return line

    def _with_fact(self, line: Incoming, column: str, text: str) -> Incoming:
        if not text or cells.not_known(column, text):
            return replace(line, **_CLEARED[column])
        if column == "paid":
            return replace(line, paid=facts.paid(text, self.currency, line.full_skeins))
        value = cells.read_cell(column, text, self.today, self.currency)
        taken = _CLEARED[column] if value is cells.NOTHING else _taken(column, value)
        return replace(line, **taken)


def led(typed: str, said: Beside) -> tuple[str, Beside]:
    """The line without an option in front of it, as a question offers one to type."""
    found = _LED.fullmatch(typed.strip())
    if not found:
        return typed, said
    return found["line"], replace(said, like=found["like"] or said.like, new=not found["like"])


def book_lines(book: Book, read: Sequence[LineRead], on: date | None = None) -> Received:
    """Every line or none, in one entry; units and currency follow what was typed."""
    paid = " ".join(one.said.facts.get("paid", "") for one in read[:1])
    typed = [one.typed for one in read]
    habits = {
        "currency": coins.currency_in(f"{paid} {' '.join(typed)}"),
        **quantities.units_typed(typed),
    }
    return receive(book, [one.line for one in read], on=on, habits=habits)


#: What a fact is once it is cleared.
_CLEARED: Mapping[str, Mapping[str, Any]] = {
    "yarn": {"name": labels.NO_NAME},
    "maker": {"maker": ""},
    "colour": {"colour": "", "colours": ()},
    "colour_no": {"colour_no": ""},
    "hex": {"colours": ()},
    "lot": {"lot": "", "lot_state": LotState.UNKNOWN},
    "thickness": {"thickness_from": None, "thickness_to": None},
    "fibre": {"fibre": ""},
    "mass": {"full_mass": None},
    "length": {"full_length": None},
    "count": {},
    "tare": {"tare": None},
    "place": {"place": ""},
    "owner": {"owner": ""},
    "bought": {"bought": None},
    "paid": {"paid": None},
    "care": {"care": ""},
    "note": {"note": ""},
    "dyed": {"dyed": None},
    "surface": {"surface": None},
}
#: How a fact that was read goes into a line, where that is not under the name of its column.
_TAKEN: Mapping[str, Callable[[Any], Mapping[str, Any]]] = {
    "yarn": lambda name: {"name": name},
    "colour": lambda words: {"colour": words, "colours": facts.named_colour(words)},
    "hex": lambda colours: {"colours": colours},
    "lot": lambda lot: {"lot": lot.text, "lot_state": lot.state},
    "thickness": lambda span: {"thickness_from": span[0], "thickness_to": span[1]},
    "mass": lambda mass: {"full_mass": mass, "assumed": False},
    "length": lambda length: {"full_length": length, "assumed": False},
}


def _taken(column: str, value: Any) -> Mapping[str, Any]:
    return _TAKEN[column](value) if column in _TAKEN else {column: value}
