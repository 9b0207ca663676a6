"""A sheet dropped in: each row with what was found, how headings were read, then all of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import RedirectResponse, Response

from stash.actions.add import foresee
from stash.errors import BadInput, Refusal, StashError
from stash.exchange import booking, preview
from stash.exchange.findings import Answers, Finding, maps_offered, without_maps
from stash.parsing import headings
from stash.rendering import settings as settings_words
from stash.rendering.amounts import counted
from stash.rendering.arriving import look_words
from stash.rendering.her_words import hers
from stash.web.pages import begun_large, said
from stash.web.safety import MOST_BYTES
from stash.web.uploads import Upload
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.actions.arriving import Arrived
    from stash.exchange.take_in import Sheet

#: So many ready rows are shown one by one.
_MOST_ROWS = 60
#: What a column of ours holds, as the page calls it; these can be chosen for a heading.
_MEANS = {
    "yarn": "the yarn's name", "maker": "maker", "colour": "colour",
    "colour_no": "colour number", "hex": "colour code", "lot": "dye lot",
    "thickness": "thickness", "fibre": "fibre", "full": "a full skein, as 100g/230m",
    "mass": "weight of a full skein", "mass g": "grams in a full skein",
    "mass oz": "ounces in a full skein", "length": "length of a full skein",
    "length m": "metres in a full skein", "length yd": "yards in a full skein",
    "total_mass": "weight of all together", "total_mass g": "grams of all together",
    "total_mass oz": "ounces of all together", "total_length": "length of all together",
    "total_length m": "metres of all together", "total_length yd": "yards of all together",
    "count": "how many skeins", "left": "what is left", "left g": "grams left",
    "place": "place", "bought": "day bought", "paid": "paid for the row",
    "price each": "price of each", "owner": "whose it is", "care": "care", "note": "note",
    "tare": "core or bag", "label": "a whole label", "dyed": "how dyed", "surface": "surface",
}  # fmt: skip


@dataclass(slots=True)
class _Said:
    """What the address, or the form, says of the sheet."""

    maps: Sequence[str] = ()
    cells: Sequence[str] = ()
    without: Sequence[str] = ()

    @classmethod
    def of(cls, many: Mapping[str, Sequence[str]]) -> _Said:
        return cls(many.get("map", ()), many.get("cell", ()), many.get("without", ()))

    def mapped(self) -> dict[str, str]:
        """The last word on each heading."""
        return headings.mapped([one for one in self.maps if "=" in one])

    def answers(self) -> Answers:
        cells = {}
        for one in self.cells:
            line, column, text = (*one.split("|", 2), "", "")[:3]
            if line.isdecimal() and column in headings.ALL_COLUMNS:
                cells[int(line), column] = text
        return Answers(cells, frozenset(int(one) for one in self.without if one.isdecimal()))

    def with_more(self, **more: str) -> str:
        """The query with one more answer."""
        pairs = [
            *(("map", one) for one in self.maps),
            *(("cell", one) for one in self.cells),
            *(("without", one) for one in self.without),
            *more.items(),
        ]
        return urlencode(pairs)


def choose(visit: Visit) -> Response:
    """A field for the file."""
    return visit.page("sheet_choose.html", lambda: {"most": MOST_BYTES - 4096})


def upload(visit: Visit) -> Done:
    """Keep the file and look at it; one that is no sheet is refused at once."""
    sent = visit.files.get("sheet")
    if sent is None:
        raise BadInput("no_file_chosen")
    number = visit.workshop.uploads.keep(sent.filename or "", sent.file.read())
    _sheet(visit, number, _Said())
    return Done(f"/sheet/{number}", undo=False)


def _upload(visit: Visit, number: str) -> Upload:
    kept = visit.workshop.uploads.find(number)
    if kept is None:
        raise BadInput("sheet_forgotten")
    return kept


def _sheet(visit: Visit, number: str, said_of: _Said) -> Sheet:
    kept = _upload(visit, number)
    book = visit.book if visit.workshop.begun() else None
    return booking.sheet_for(book, (kept.name, kept.data), said_of.mapped(), said_of.answers())


def look(visit: Visit) -> Response:
    """The sheet row by row; nothing is saved."""
    number = visit.names["number"]
    said_of = _Said.of(visit.queries)
    if answer := visit.query.get("answer", "").strip():
        answered = said_of.with_more(cell=f"{visit.query.get('of', '')}|{answer}")
        return RedirectResponse(f"/sheet/{number}?{answered}", 303)
    if (fewer := _only_changed(visit, number, said_of)) != list(said_of.maps):
        changed = replace(said_of, maps=fewer)
        return RedirectResponse(f"/sheet/{number}?{changed.with_more()}", 303)
    name = ("sheet", number, visit.here)
    if visit.workshop.begun():
        sheet = visit.workshop.kept(name, lambda: _sheet(visit, number, said_of))
    else:
        sheet = _sheet(visit, number, said_of)
    came, wrong = _foreseen(visit, sheet)
    return visit.page("sheet.html", lambda: _values(visit, sheet, said_of, (came, wrong)))


def _only_changed(visit: Visit, number: str, said_of: _Said) -> list[str]:
    """What she says of headings that they are not read as anyway; the form sends all of them."""
    if not said_of.maps:
        return []
    heads = _heads(_sheet(visit, number, _Said()))
    usual = {f"{one['theirs']}={one['means']}" for one in heads}
    last = {one.rpartition("=")[0]: one for one in said_of.maps}
    return [one for one in last.values() if one not in usual]


def _foreseen(visit: Visit, sheet: Sheet) -> tuple[Sequence[Arrived], StashError | None]:
    if not visit.workshop.begun() or not sheet.rows:
        return (), None
    try:
        return foresee(visit.book, [line for _, line in sheet.rows]), None
    except (Refusal, BadInput) as wrong:
        return (), wrong


def _values(
    visit: Visit,
    sheet: Sheet,
    said_of: _Said,
    foreseen: tuple[Sequence[Arrived], StashError | None],
) -> Mapping[str, Any]:
    came, wrong = foreseen
    notes: dict[int, list[Finding]] = {}
    for note in sheet.notes:
        notes.setdefault(note.line, []).append(note)
    lines = {line for line, _ in sheet.rows}
    ready = [
        _ready(sheet, at, came[at] if came else None, notes.get(sheet.rows[at][0], []))
        for at in range(min(len(sheet.rows), _MOST_ROWS))
    ]
    bad = [_bad(finding, said_of) for finding in sheet.findings if finding.line]
    looks = sum(1 for line in notes if line in lines)
    skeins = sum(line.count + len(line.part_balls) for _, line in sheet.rows)
    return {
        "sheet": sheet,
        "number": visit.names["number"],
        "said_of": said_of,
        "rows": sorted([*ready, *bad], key=lambda row: int(row["row"])),
        "more": len(sheet.rows) - len(ready),
        "ready": counted(len(sheet.rows), "row"),
        "good": len(sheet.rows),
        "bad": len(bad),
        "looks": looks,
        "all": len(sheet.rows) + len(bad),
        "skeins": counted(skeins, "skein"),
        "heads": _heads(sheet),
        "means": {name: hers(words) for name, words in _MEANS.items()},
        "general": [
            _general(note, said_of, {head.theirs for head in sheet.headings})
            for note in (*sheet.findings, *sheet.notes)
            if note.line not in lines and not (note in sheet.findings and note.line)
        ],
        "wrong": said(wrong) if wrong else "",
    }


def _ready(
    sheet: Sheet, at: int, came: Arrived | None, notes: Sequence[Finding]
) -> Mapping[str, Any]:
    row, line = sheet.rows[at]
    joins = [said(look_words(note)) for note in came.notes] if came else []
    texts = [f"{note.called}: {note.text}" if note.called else note.text for note in notes]
    words = preview.row_words(row, line, sheet.currency)
    return {**words, "bad": "", "notes": [*map(without_maps, texts)], "joins": joins}


def _bad(finding: Finding, said_of: _Said) -> Mapping[str, Any]:
    """A row that cannot come in: why, and each way to answer as a link."""
    asked = [
        {
            "what": f"“{one.text}”",
            "column": _called(one.column),
            "ways": [
                (way, said_of.with_more(cell=f"{finding.line}|{one.column}|{way}"))
                for way in one.readings
            ],
        }
        for one in finding.asked
    ]
    open_asks = {one.column for one in finding.asked}
    unread = [
        {"label": begun_large(_called(column)), "of": f"{finding.line}|{column}"}
        for column in finding.column.split(", ")
        if column in headings.ALL_COLUMNS and column not in open_asks
    ]
    leave = said_of.with_more(without=str(finding.line))
    text = "" if len(asked) == len(finding.column.split(", ")) else said(finding.text)
    return {
        "row": str(finding.line),
        "bad": text or "Which is meant?",
        "asked": asked,
        "unread": unread,
        "leave": leave,
    }


def _called(column: str) -> str:
    """What a column of ours is called on the page."""
    return _MEANS.get(column, column)


def _heads(sheet: Sheet) -> list[Mapping[str, Any]]:
    """Each heading with what it was taken for; those that were left out too."""
    taken = [
        {"theirs": one.theirs, "means": hers(str(one.meaning)), "guess": one.meaning.guessed}
        for one in sheet.headings
    ]
    known = {one["theirs"] for one in taken}
    left = [
        {"theirs": note.column, "means": "", "guess": False}
        for note in sheet.notes
        if note.text.startswith("left out") and note.column not in known
    ]
    return [*taken, *left]


def _general(note: Finding, said_of: _Said, theirs: Collection[str]) -> Mapping[str, Any]:
    """What is said of a heading (in quotes) or the whole sheet, with what can be pressed."""
    ways = [(one, said_of.with_more(map=one)) for one in maps_offered(note.text)]
    words = [(_way_words(one), query) for one, query in ways]
    text = said(without_maps(note.text))
    ours = note.column in headings.ALL_COLUMNS and note.column not in theirs
    what = _called(note.column) if ours else f"“{note.column}”"
    return {"text": f"{what}: {text}" if note.column else text, "ways": words}


def _way_words(mapping: str) -> str:
    column = mapping.rpartition("=")[2].strip()
    key = column.replace("total ", "total_").replace("colour no", "colour_no")
    return f"Read it as {_called(key)}" if column else "Leave it out"


def bring_in(visit: Visit) -> Done:
    """The rows that are ready, in one entry; the same file twice is refused."""
    number = visit.typed.get("number", "")
    said_of = _Said.of(visit.ticked)
    sheet, kept = _sheet(visit, number, said_of), _upload(visit, number)
    good_rows = visit.typed.get("rows") == "good"
    booking.refuse_unless_good(sheet, good_rows=good_rows)
    again = bool(visit.typed.get("again"))
    received = booking.book_sheet(visit.book, sheet, kept.data, again=again)
    lots = counted(len({one.lot.id for one in received.arrived}), "lot")
    words = f"Brought in {counted(received.skeins, 'skein')} in {lots} from {sheet.name}"
    return Done("/shelf", (words, *settings_words.followed(received.habits)))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/sheet": choose,
    "/sheet/{number}": look,
}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/sheet": upload, "/sheet/bring": bring_in}
