"""A plan as it is written, in TOML, in csv or as options: lines that know their place."""

from __future__ import annotations

import csv
import io
import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from stash.errors import BadInput, BadPlan, Unreadable
from stash.measures.note import Note

#: The keys of a want, of a mix, and of the limits.
WANT_KEYS = (
    *("design", "size", "brim", "band", "at_least", "at_most", "value", "price", "hours"),
    *("different", "colour", "not_colour", "contrast"),
)
MIX_KEYS = ("design", "size", "family", "at_least", "at_most")
LIMIT_KEYS = (
    *("hours", "hours_a_week", "date", "per_pair", "per_colour", "different"),
    *("hold_back", "keep_out", "contrast"),
)
#: A key as plans of before have it.
_BEFORE = {"piece": "design"}
_TABLES = {"want": WANT_KEYS, "mix": MIX_KEYS, "limits": LIMIT_KEYS}


#: Longer than any plan (our choice).
MOST_BYTES = 1_000_000


@dataclass(frozen=True, slots=True)
class Line:
    """What was typed by its keys, and where each is ("" for the line itself).

    A place is the line of a file, or the option or the table itself where there is none.
    """

    typed: Mapping[str, str]
    at: Mapping[str, int | str]

    def found(self, key: str, what: Note | BadInput) -> Note:
        """What is wrong there, with its place."""
        place = self.at.get(key, self.at.get("", ""))
        return Note("found_in_plan", place=place, key=key, what=what)

    def get(self, key: str) -> str:
        """What was typed; "" where nothing was."""
        return self.typed.get(key, "")


NO_LINE = Line({}, {})


@dataclass(frozen=True, slots=True)
class PlanLines:
    """A whole plan as it was typed."""

    name: str = ""
    wants: tuple[Line, ...] = ()
    mixes: tuple[Line, ...] = ()
    limits: Line = NO_LINE
    aim: str = ""


def plan_lines(name: str, data: bytes) -> PlanLines:
    """The lines of a plan file: TOML, or a csv with a want on each line."""
    if len(data) > MOST_BYTES:
        raise BadPlan(name, [_nowhere("plan_too_long", most_kb=MOST_BYTES // 1000)])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadPlan(name, [_nowhere("plan_not_utf8")]) from None
    return _from_csv(name, text) if name.lower().endswith(".csv") else _from_toml(name, text)


def _nowhere(kind: str, **facts: object) -> Note:
    """What is wrong with the plan as a whole."""
    return NO_LINE.found("", Note(kind, **facts))


def _at(place: int | str, kind: str, **facts: object) -> Note:
    return Note("found_in_plan", place=place, key="", what=Note(kind, **facts))


def _from_toml(name: str, text: str) -> PlanLines:
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError as bad:
        raise BadPlan(name, [_toml_trouble(str(bad))]) from None
    except (RecursionError, ValueError):  # brackets in brackets, a number of thousands of digits
        raise BadPlan(name, [_nowhere("plan_too_deep")]) from None
    places = _Places(text)
    wrong = [
        _at(places.of(key, 0, ""), "no_part_of_a_plan", key=key)
        for key in found
        if key not in (*_TABLES, "aim")
    ]
    lines = {table: [*_lines(found, table, places, wrong)] for table in _TABLES}
    if wrong:
        raise BadPlan(name, wrong)
    limits = lines["limits"][0] if lines["limits"] else NO_LINE
    aim = found.get("aim", "")
    aims = ", ".join(map(str, aim)) if isinstance(aim, list) else str(aim)
    return PlanLines(name, tuple(lines["want"]), tuple(lines["mix"]), limits, aims)


def _toml_trouble(said: str) -> Note:
    """The parser's own words with their line; 0 is the end of the file."""
    found = _TOML_PLACE.search(said)
    place = int(found[1]) if found and found[1] else 0
    what = said[: found.start()] if found else said
    return _at(place, "not_toml", said=f"{what[:1].lower()}{what[1:]}")


#: Where the parser says it stopped.
_TOML_PLACE = re.compile(r"\s*\(at (?:line (\d+), column \d+|end of document)\)")


class _Places:
    """The line of each table and key of a TOML text."""

    def __init__(self, text: str) -> None:
        self._at: dict[tuple[str, int, str], int] = {}
        table, counts = "", dict[str, int]()
        for number, line in enumerate(text.splitlines(), start=1):
            if head := re.match(r"\s*\[\[?\s*([\w-]+)\s*\]", line):
                table = head[1]
                counts[table] = counts.get(table, -1) + 1
                self._at[table, counts[table], ""] = number
            elif key := re.match(r"\s*\"?([\w-]+)\"?\s*=", line):
                self._at.setdefault((table, counts.get(table, 0), key[1]), number)

    def of(self, table: str, index: int, key: str) -> int | str:
        """The line of a key; that of the table where the key's own is not known."""
        at = self._at.get((table, index, key)) or self._at.get((table, index, ""))
        at = at or self._at.get(("", 0, table))
        return at or f"{table} {index + 1}"


def _lines(
    found: Mapping[str, Any], table: str, places: _Places, wrong: list[Note]
) -> Iterator[Line]:
    tables = found.get(table, [])
    tables = tables if isinstance(tables, list) else [tables]
    for index, given in enumerate(tables):
        if not isinstance(given, dict):
            wrong.append(_at(places.of(table, index, ""), "no_table", table=table))
            continue
        for key in given:
            if _today(key) not in _TABLES[table]:
                place = places.of(table, index, key)
                wrong.append(_at(place, "no_plan_key", key=key, keys=_TABLES[table]))
        at = {_today(key): places.of(table, index, key) for key in given}
        typed = {_today(key): _typed(value) for key, value in given.items()}
        yield Line(typed, {**at, "": places.of(table, index, "")})


def _today(key: str) -> str:
    """A key as it is called today."""
    return _BEFORE.get(key, key)


def _typed(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(map(str, value))
    return f"{value:f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)


def _from_csv(name: str, text: str) -> PlanLines:
    head = text.splitlines()[0] if text.strip() else ""
    reader = csv.DictReader(io.StringIO(text, newline=""), delimiter=max(",;\t", key=head.count))
    try:
        headings = [
            re.sub(r"[\s-]+", "_", (one or "").strip().lower()) for one in reader.fieldnames or ()
        ]
        headings = [_today(one) for one in headings]
        _refuse_other_headings(name, headings)
        reader.fieldnames = headings
        return PlanLines(name, tuple(_wants(reader, headings)))
    except csv.Error as bad:
        raise BadPlan(name, [_at(reader.line_num, "not_csv", said=str(bad))]) from None


def _refuse_other_headings(name: str, headings: Sequence[str]) -> None:
    unknown = [one for one in headings if one and one not in WANT_KEYS]
    if unknown or "design" not in headings:
        heading = unknown[0][:40] if unknown else ""
        raise BadPlan(name, [_at(1, "no_plan_heading", heading=heading, columns=WANT_KEYS)])


def _wants(reader: csv.DictReader[str], headings: Sequence[str]) -> Iterator[Line]:
    for row in reader:
        typed = {key: (row[key] or "").strip() for key in headings if key and row.get(key)}
        if any(typed.values()):
            yield Line(typed, {"": reader.line_num})


_COUNTED = re.compile(
    r"\s*(?:(?P<least>\d+)(?:\s*-\s*(?P<most>\d+))?)?(?:\s*\bat\s+(?P<value>.+?))?"
    r"(?:\s*\bin\s+(?P<hours>.+?))?\s*",
    re.IGNORECASE,
)


def want_typed(text: str) -> Line:
    """A want in one option: `Winter hat`, `Winter hat=6`, `Winter hat=2-6 at 24 in 2h 30min`."""
    design, sign, rest = text.rpartition("=")
    if not sign:
        return Line({"design": text.strip()}, {"": f"--want {text!r}"})
    found = _COUNTED.fullmatch(rest)
    if not found or not rest.strip() or not design.strip():
        raise Unreadable(text, "no_want")
    least = found["least"] or ""
    most = found["most"] or least
    typed = {
        "design": design.strip(),
        "at_least": least,
        "at_most": most,
        "value": found["value"] or "",
        "hours": found["hours"] or "",
    }
    return Line({k: v for k, v in typed.items() if v}, {"": f"--want {text!r}"})


@dataclass(slots=True)
class Findings:
    """What cannot be read, line by line; raised all at once."""

    name: str
    notes: list[Note] = field(default_factory=list)

    def add(self, line: Line, key: str, what: Note | BadInput) -> None:
        """One more."""
        self.notes.append(line.found(key, what))

    def refuse(self) -> None:
        """Raise all of it, if anything, in the order of the lines; options first."""
        if self.notes:
            raise BadPlan(self.name or "the batch", sorted(self.notes, key=_line_number))


def _line_number(found: Note) -> int:
    place = found.facts["place"]
    return place if isinstance(place, int) else 0


def beside(plan: PlanLines, options: Sequence[Line], limits: Mapping[str, str]) -> PlanLines:
    """A plan with the wants and limits typed as options; an option outweighs the file."""
    typed = {**plan.limits.typed, **limits}
    at = {**plan.limits.at, **{key: f"--{key.replace('_', '-')}" for key in limits}}
    return PlanLines(plan.name, (*plan.wants, *options), plan.mixes, Line(typed, at), plan.aim)
