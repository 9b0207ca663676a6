"""A design made at another size: it is kept as a design of its own, so that it learns by itself."""

from __future__ import annotations

import json
from typing import NamedTuple

from stash.actions.batch import as_kept, at_size, row_made
from stash.actions.book import EntryWriter
from stash.actions.designs import Kept, kept_named
from stash.requirements.design.serialise import serialise
from stash.requirements.fit.grading import Run
from stash.store import item_rows


class Sized(NamedTuple):
    """A size that a design is made at, as it was typed, and the run of one row it stands for."""

    words: str
    run: Run


def kept_at(
    writer: EntryWriter, design: str, sized: Sized | None, margin: float | None = None
) -> Kept:
    """A design of hers, at another size where one is asked for, kept at it as part of an entry.

    One that is kept at that size already is taken as it is.
    """
    plan = kept_named(writer.db, writer.settings, design, margin)
    if sized is None:
        return plan
    row = row_made(plan.known, sized.run, sized.words)
    if as_kept(row, plan.known.design):
        return plan
    name = f"{plan.design.name}, {sized.words}"
    if not any(one.name.casefold() == name.casefold() for one in item_rows.designs(writer.db)):
        text = json.dumps(serialise(at_size(row.design, row.need, name)), sort_keys=True)
        item_rows.add_design(writer.db, writer.number, name, text)
    return kept_named(writer.db, writer.settings, name, margin)
