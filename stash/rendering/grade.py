"""A graded design, its amounts rounded as a pattern prints them.

To set aside, in the unit of the table: up to the next 5 until 100, then up to the next 10; grams up
to whole ones; skeins of the design's own put-up up to whole ones. Each is rounded once, from the
full figure.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.measures.rounding import printed_up
from stash.rendering import figures
from stash.rendering.amounts import Page, counted
from stash.rendering.columns import columns
from stash.rendering.figures import Figure
from stash.rendering.need import caution_lines
from stash.rendering.sentences.phrases import source_words
from stash.rendering.sentences.say import sentence
from stash.requirements.design import cautions
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Shape
from stash.requirements.fit.grading import Choice, Graded, NotMade
from stash.requirements.yarn.need import TRUST, RoleNeed

Keys = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Grading:
    """The rows of a table and the plan they were made from."""

    plan: Design
    rows: tuple[Graded, ...]
    not_made: tuple[NotMade, ...]

    @property
    def roles(self) -> list[str]:
        """Every role that some row has, A first."""
        return sorted({role.role for row in self.rows for role in row.need.roles})

    @property
    def noted(self) -> tuple[Note, ...]:
        """What holds of all rows alike, and the cautions if they are for any."""
        each = [row.need.notes for row in self.rows]
        common = [note for note in each[0] if all(note in notes for notes in each)] if each else []
        minded = [one for one in cautions.ALL if any(one in notes for notes in each)]
        return (*common, *(one for one in minded if one not in common))

    @property
    def notes(self) -> list[str]:
        """The same in words."""
        return list(map(sentence, self.noted))


def _notes(row: Graded) -> list[str]:
    return [sentence(note) for note in row.need.notes]


def keys(table: Grading) -> Keys:
    """The table with stable keys; `printed_m` and `printed_yd` are rounded as said above."""
    put_up = table.plan.put_up
    return {
        "design": table.plan.name or None,
        "roles": table.roles,
        "put_up": put_up and {"mass_g": put_up.mass.g, "length_m": put_up.length.m},
        "rows": [_row_keys(row, put_up) for row in table.rows],
        "findings": [{**_choice_keys(no.choice), "why": sentence(no.why)} for no in table.not_made],
        "notes": table.notes,
    }


def _row_keys(row: Graded, put_up: PutUp | None) -> Keys:
    return {
        **_choice_keys(row.choice),
        **_sides(row),
        "source": row.need.source.value,
        "margin": row.need.margin,
        "roles": {role.role: _role_keys(role, put_up) for role in row.need.roles},
        "notes": _notes(row),
    }


def _choice_keys(choice: Choice) -> Keys:
    """What was asked for; None where it stays as planned, a brim of 0 where it is none."""
    brim, bands = choice.brim, choice.bands
    return {
        "size": choice.size.words,
        "brim_cm": None if brim is None else (brim[0].um / 10_000 if brim[0] else 0.0),
        "bands": None if bands is None else [str(band) for band in bands.bands],
    }


def _sides(row: Graded) -> dict[str, float]:
    """The finished sides in centimetres, by the names of their options."""
    pairs = zip(row.design.build.words, row.finished.sides, strict=False)
    return {f"{word}_cm": side.um / 10_000 for word, side in pairs}


def _role_keys(role: RoleNeed, put_up: PutUp | None) -> Keys:
    aside = role.set_aside_m
    return {
        "expected_m": role.estimate.expected_m,
        "spread_m": role.estimate.spread_m,
        "set_aside_m": aside,
        "expected_g": role.expected_g,
        "set_aside_g": role.set_aside_g,
        "printed_m": printed_up(aside),
        "printed_yd": printed_up(figures.of_metres(aside).yd),
        "printed_g": None if role.set_aside_g is None else _whole_up(role.set_aside_g),
        "skeins": _skeins(role, put_up),
        "strands": role.strands,
        "source": role.source.value,
    }


def _skeins(role: RoleNeed, put_up: PutUp | None) -> int | None:
    return None if put_up is None else _whole_up(role.set_aside_m / put_up.length.m)


def _whole_up(value: float) -> int:
    return math.ceil(round(value, 9))


def rows(table: Grading) -> Iterator[Keys]:
    """One row for each size and option, for a sheet: `A_set_aside_m`, `B_skeins`…"""
    for row in keys(table)["rows"]:
        roles, plain = row["roles"], {k: v for k, v in row.items() if k not in ("roles", "notes")}
        names: Keys = next(iter(roles.values()), {})
        for role in table.roles:
            of_role = roles.get(role, dict.fromkeys(names))
            plain.update({f"{role}_{name}": of_role[name] for name in names})
        yield plain


def text(table: Grading, page: Page) -> str:
    """The same for reading: the table, how it is rounded, and what is to be known of all of it."""
    name = page.strong(table.plan.name or f"{table.plan.shape}")
    lines = columns(list(cells(table)), "  ")
    said = [sentence(note) for note in table.noted if note not in cautions.ALL]
    notes = [f"   {line}" for line in (*_rules(table), *said, *caution_lines(table.noted))]
    return "\n".join([f"{name} ({_source(table)})", lines, *notes])


def cells(table: Grading) -> Iterator[Sequence[str]]:
    """A line for each colour of each row, under a heading; options only where there are any."""
    options = any(_option(row.choice) for row in table.rows)
    yield ["size", *["option"][:options], "finished", "", "expected", "set aside", "", ""]
    for row in table.rows:
        option = [_cut(_option(row.choice), 15)][:options]
        first = [_cut(row.choice.size.words, 16), *option, _finished(row)]
        for role in row.need.roles:
            yield [*first, role.role, *_amounts(role, table.plan.put_up)]
            first = [""] * len(first)


def _amounts(role: RoleNeed, put_up: PutUp | None) -> list[str]:
    skeins = _skeins(role, put_up)
    return [
        str(figures.near(figures.of_metres(role.estimate.expected_m))),
        str(_printed(role.set_aside_m)),
        "" if role.set_aside_g is None else _weight(role.set_aside_g),
        "" if skeins is None else counted(skeins, "skein"),
    ]


def _printed(length_m: float) -> Figure:
    """A length to set aside as a pattern prints it, in her own unit."""
    unit = figures.screen().units.length
    length = figures.of_metres(length_m)
    return Figure(printed_up(length.yd if unit == "yd" else length.m), unit, tenths=False)


def _weight(mass_g: float) -> str:
    """A weight to set aside: grams as a pattern prints them, else in her own unit."""
    figure = figures.up(figures.of_grams(mass_g))
    return f"{_whole_up(mass_g)} g" if figure.unit == "g" else str(figure)


def _cut(text: str, widest: int) -> str:
    """Words no wider than that, so that the table stays within 100 places."""
    return text if len(text) <= widest else f"{text[: widest - 1]}…"


def _option(choice: Choice) -> str:
    """What was chosen of a row beside its size, in few words."""
    chosen = []
    if choice.brim is not None:
        chosen.append(f"brim {figures.size(choice.brim[0])}" if choice.brim[0] else "no brim")
    if choice.bands is not None:
        chosen.append(choice.bands.words)
    return ", ".join(chosen)


def _finished(row: Graded) -> str:
    """The finished sides to the half centimetre or quarter inch that a tape shows."""
    sides = row.finished.sides
    shown = sides[:1] if row.design.shape in (Shape.SQUARE, Shape.CIRCLE) else sides
    return figures.sizes(shown, " x ")


def _source(table: Grading) -> str:
    """Where the least trusted figure among the rows comes from."""
    least = max((row.need for row in table.rows), key=lambda need: TRUST.index(need.source))
    return source_words(least.source, least.thickness_from, least.thickness_to)


def _rules(table: Grading) -> Iterator[str]:
    """How the table is rounded, and what its skeins are."""
    yield "Set aside is rounded up to the next 5, over 100 to the next 10."
    if put_up := table.plan.put_up:
        yield f"A skein is {figures.near(put_up.mass)} / {figures.near(put_up.length)}."


def not_made(no: NotMade) -> str:
    """One line for a row that cannot be made."""
    what = ", ".join(text for text in (no.choice.size.words, _option(no.choice)) if text)
    return f"not made: {what}: {sentence(no.why)}"
