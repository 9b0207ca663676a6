"""The same again in another colour, and many label lines at once into one place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions import likeness
from stash.actions.add import foresee
from stash.errors import Ambiguous, BadInput, NotFound, Refusal, StashError, Undecided
from stash.exchange.label_lines import Beside, LineRead, book_lines
from stash.parsing.choices import replaced
from stash.rendering import arriving
from stash.rendering.add import added_words
from stash.rendering.amounts import counted
from stash.rendering.sentences.say import sentence
from stash.rendering.settings import followed
from stash.web.pages import said
from stash.web.screens.add import asked_of, reader_of
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.arriving import Arrived

#: So many of the newest lots are offered to be like.
_NEWEST = 12
_WRONG = (BadInput, Refusal, NotFound)


# ---------------------------------------------------------------- the same in another colour
def like(visit: Visit) -> Response:
    """A lot, and three fields: its other colour, the dye lot, how many."""
    notice = visit.notice
    form = notice.typed if notice and notice.action == "/add/like" else visit.query
    return visit.page("add_like.html", lambda: _like_values(visit, form))


def _like_values(visit: Visit, form: Mapping[str, str]) -> Mapping[str, Any]:
    asked, wrong, name, came = form.get("like", "").strip(), "", "", None
    if asked:
        try:
            name = likeness.like(visit.book, asked).name
            if form.get("colour", "").strip():
                came = foresee(visit.book, [_again(visit, form).line])[0]
        except _WRONG as why:
            wrong = said(why)
    lots = [] if name else likeness.newest_lots(visit.book, _NEWEST)
    return {
        "form": form,
        "name": name,
        "wrong": wrong,
        "coming": arriving.coming(came) if came else None,
        "lots": [(lot.ref, arriving.yarn_and_lot(lot)) for lot in lots],
    }


def _again(visit: Visit, form: Mapping[str, str]) -> LineRead:
    facts = {name: form.get(name, "") for name in ("colour", "lot", "count", "place")}
    beside = Beside(like=form.get("like", "").strip(), facts=facts)
    return reader_of(visit).same_again(beside)


def add_like(visit: Visit) -> Done:
    """Put it on the shelf."""
    if not visit.typed.get("colour", "").strip():
        return Done(f"/add/like?{urlencode({'like': visit.typed.get('like', '')})}", undo=False)
    received = book_lines(visit.book, [_again(visit, visit.typed)])
    arrived = received.arrived[0]
    words = (added_words(arrived.skeins, arrived.lot),)
    return Done(f"/add/like?{urlencode({'like': arrived.lot.ref})}", words)


# ---------------------------------------------------------------- many at once
@dataclass(slots=True)
class _Row:
    """One line of many: read and what it would become, or what is wrong with it."""

    number: int
    typed: str
    read: LineRead | StashError
    came: Arrived | None = None

    def foreseen(self, visit: Visit) -> None:
        """What it would become by itself, or why it cannot come in."""
        assert isinstance(self.read, LineRead)
        try:
            self.came = foresee(visit.book, [self.read.line])[0]
        except _WRONG as wrong:
            self.read = wrong


def many(visit: Visit) -> Response:
    """Many label lines, a row for each with what was found."""
    notice = visit.notice
    form = notice.typed if notice and notice.action == "/add/many" else visit.query
    rows = _rows(visit, form)
    return visit.page("add_many.html", lambda: _many_values(visit, form, rows))


def _rows(visit: Visit, form: Mapping[str, str]) -> list[_Row]:
    place = form.get("place", "").strip()
    beside = Beside(facts={"place": place} if place else {})
    lines = reader_of(visit).lines(form.get("lines", ""), beside)
    rows = [_Row(number, typed, read) for number, typed, read in lines]
    good = [row for row in rows if isinstance(row.read, LineRead)]
    try:
        came = foresee(
            visit.book, [row.read.line for row in good if isinstance(row.read, LineRead)]
        )
        for row, one in zip(good, came, strict=True):
            row.came = one
    except _WRONG:
        for row in good:
            row.foreseen(visit)
    return rows


def _many_values(visit: Visit, form: Mapping[str, str], rows: Sequence[_Row]) -> Mapping[str, Any]:
    shown = [_row_words(row, form.get("lines", "")) for row in rows]
    bad = sum(1 for row in rows if row.came is None)
    skeins = sum(len(row.came.skeins) for row in rows if row.came)
    return {
        "form": form,
        "kept_in": form.get("place", likeness.last_place(visit.book)),
        "rows": shown,
        "defs": arriving.defs_of([row.came for row in rows if row.came]),
        "bad": bad,
        "count": counted(skeins, "skein"),
        "lots": counted(len({row.came.lot.id for row in rows if row.came}), "lot"),
    }


def _row_words(row: _Row, text: str) -> Mapping[str, Any]:
    if row.came is not None and isinstance(row.read, LineRead):
        notes = [*(row.read.label.notes if row.read.label else ()), *row.read.notes]
        notes = arriving.worth_a_look([*notes, *row.came.notes])
        looks = [said(arriving.look_words(note)) for note in notes]
        shown = arriving.coming(row.came, small=True)
        return {"number": row.number, "typed": row.typed, "coming": shown, "notes": looks}
    assert not isinstance(row.read, LineRead)
    what, ways = _asked(row.read, row.typed)
    choices = [(words, _with_line(text, row.number, line)) for words, line in ways]
    return {
        "number": row.number,
        "typed": row.typed,
        "coming": None,
        "wrong": what,
        "choices": choices,
    }


def _asked(wrong: StashError, typed: str) -> tuple[str, Sequence[tuple[str, str]]]:
    """What is wrong or asked, and each answer: its words, and the line as it would be."""
    if isinstance(wrong, Ambiguous):
        lines = [replaced(typed, wrong.text, one) for one in wrong.readings]
        shown = [*map(sentence, wrong.shown or wrong.readings)]
        return f"“{wrong.text}”: which is it?", [*zip(shown, lines, strict=True)]
    if isinstance(wrong, Undecided):
        return asked_of(wrong)
    return said(wrong), []


def _with_line(text: str, number: int, line: str) -> str:
    """The text with one of its lines written otherwise."""
    lines = text.splitlines()
    lines[number - 1] = line
    return "\n".join(lines)


def add_many(visit: Visit) -> Done:
    """All of them or none."""
    rows = _rows(visit, visit.typed)
    bad = sum(1 for row in rows if row.came is None)
    if bad:
        raise BadInput("lines_to_fix", count=bad)
    if not rows:
        raise BadInput("no_lines")
    read = [row.read for row in rows if isinstance(row.read, LineRead)]
    received = book_lines(visit.book, read)
    lots = len({arrived.lot.id for arrived in received.arrived})
    words = f"Added {counted(received.skeins, 'skein')} in {counted(lots, 'lot')}"
    return Done("/add/many", (words, *followed(received.habits)))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/add/like": like, "/add/many": many}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/add/like": add_like, "/add/many": add_many}
