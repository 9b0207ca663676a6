"""Sentences about sheets, plans and whole files."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from stash.errors import StashError
from stash.measures.note import Note
from stash.rendering.sentences.nearest import likely
from stash.rendering.sentences.phrases import either
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words


def _found(place: int | str, key: str, what: Note | StashError) -> str:
    """Where in a plan, and what is wrong there: `line 12: at_most: …`; 0 is its end."""
    where = place if isinstance(place, str) else f"line {place}" if place else "its end"
    return ": ".join(part for part in (where, key, sentence(what)) if part)


def _no_plan_heading(heading: str, columns: Sequence[str]) -> str:
    missing = f"no column is called {heading!r}; " if heading else "the column design is missing; "
    return f"{missing}the columns are {', '.join(columns)}"


def _too_large(what: Note) -> str:
    return f"too large for a sheet of yarn: {sentence(what)}; import a part of it"


def _bought_since(opening: date, rows: Sequence[int]) -> str:
    more = " and more" if rows[5:] else ""
    return (
        f"row {', '.join(map(str, rows[:5]))}{more}: bought on or after {opening}, so not on your "
        "shelf that morning; put those in a sheet of their own, or leave --opening out"
    )


def _not_there(nearest: Sequence[str]) -> str:
    meant = f"did you mean {either(nearest)}?" if nearest else "check its name and folder"
    return f"no such file; {meant}"


#: What is wrong with a plan, each in its place.
_PLANS: Mapping[str, Words] = {
    "found_in_plan": _found,
    "plan_too_long": "the plan is too long; keep it under {most_kb} kB",
    "plan_not_utf8": "its text cannot be read; save it as UTF-8",
    "plan_too_deep": "too deeply nested, or a number too long; write it more simply",
    "not_toml": "not TOML ({said})",
    "not_csv": "not a csv ({said})",
    "no_part_of_a_plan": ("a plan has no {key!r}; write [[want]], [[mix]], [limits] or aim"),
    "no_table": "write {table} as a table",
    "no_plan_key": lambda key, keys: (
        f"no {key!r} here{likely(key, keys)}; the choices are {', '.join(keys)}"
    ),
    "no_plan_heading": _no_plan_heading,
    "want_of_no_design": 'which design? Write design="NAME"',
    "most_below_least": "{most} is less than at_least {least}",
    "more_different_than_items": (
        "{different} different sets of yarns take as many items, but at most {most} "
        "may be made; raise at_most, or ask for fewer sets"
    ),
    "mix_of_nothing_wanted": (
        "this mix matches nothing you want; name a design, size or colour family from your wants"
    ),
    "counts_and_shares": "use counts for both, or % for both",
    "hours_until_when": "until when? Write date=",
    "no_saved_batch": ("not a saved batch; name a file that `stash batch … --save FILE` wrote"),
}

#: What is wrong with a file that was to be a sheet.
_SHEETS: Mapping[str, Words] = {
    "no_mapping": (
        "cannot read {text!r} after --map: write HEADING=COLUMN, or HEADING= to leave that "
        "column out"
    ),
    "no_file_chosen": "choose a file first: csv or xlsx",
    "sheet_forgotten": "that sheet is not kept any more; choose it once more",
    "not_to_be_opened": "cannot be read ({why}); check the file, or name another",
    "file_not_there": _not_there,
    "file_too_large": "is larger than {most_mb} MB; import a part of it",
    "old_spreadsheet": "an old kind of spreadsheet; save it as xlsx or csv and try again",
    "sheet_not_text": "its text cannot be read; save it as csv",
    "not_a_sheet": "this is not a sheet; choose a csv or xlsx file",
    "broken_spreadsheet": "this spreadsheet cannot be opened; save it again as xlsx",
    "spreadsheet_unpacks": (
        "unpacks to more than {most_mb} MB, far too much for yarn; save it again as csv"
    ),
    "sheet_too_large": _too_large,
    "cell_too_long": "line {line} has a cell of more than {most} letters",
    "row_too_long": "row {line} has more than {most} cells",
    "too_many_rows": "it has more than {most_rows} rows or {most_cells} cells",
    "bought_since": _bought_since,
}


SENTENCES: Mapping[str, Words] = {**_PLANS, **_SHEETS}
