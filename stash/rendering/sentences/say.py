"""From a note or an error, which are facts, to the line that a person reads."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from stash.errors import FileTrouble, NotFound, StashError, Unreadable
from stash.measures.note import Note
from stash.rendering.sentences.words import Words


def sentence(said: Note | StashError | str) -> str:
    """The line for a note or an error, by its kind and facts."""
    if isinstance(said, str):
        return said
    if isinstance(said, Unreadable):
        return _unreadable(said)
    if isinstance(said, NotFound):
        return _not_found(said)
    words = worded(said.kind, said.facts)
    if isinstance(said, FileTrouble):
        return f"{said.path}{words if said.kind in _OF_A_FILE else f': {words}'}"
    return words


def worded(kind: str, facts: Mapping[str, Any]) -> str:
    """The words of one kind with its facts in them."""
    words = _tables().get(kind, kind)
    return words.format(**facts) if isinstance(words, str) else words(**facts)


def _unreadable(error: Unreadable) -> str:
    """`UNREADABLE` says of each kind what the text was to be, and what to write instead."""
    from stash.rendering.sentences.unreadable import UNREADABLE

    wanted, way_out = UNREADABLE.get(error.kind, (error.kind, error.way_out))
    wanted, way_out = (
        part.format(**error.facts) if isinstance(part, str) else part(**error.facts)
        for part in (wanted, way_out)
    )
    return f"cannot read {error.text!r} as {wanted}: {way_out}"


#: Kinds of trouble that are told of the file as one sentence.
_OF_A_FILE = ("not_a_stash", "newer_file")
#: Which command shows the things of a kind; the first that fits.
_SHOWN_BY = (
    ("article", "stash shelf --aside"),
    ("piece", "stash piece list"),
    ("entry", "stash log"),
    ("yarn", "stash shelf"),
    ("lot", "stash shelf"),
    ("skein", "stash shelf"),
)


def _not_found(error: NotFound) -> str:
    what = worded(error.kind, error.facts)
    shown = next((f"; `{c}` shows what there is" for k, c in _SHOWN_BY if k in what), "")
    hint = f"; nearest: {', '.join(error.nearest)}" if error.nearest else shown
    return f"no {what} {error.asked!r}{hint}"


@cache
def _tables() -> dict[str, Words]:
    from stash.rendering.sentences import (
        actions,
        errors,
        labels,
        matching,
        requirements,
        sheets,
        stock,
        store,
        wishes,
    )

    modules = (actions, errors, labels, matching, requirements, sheets, stock, store, wishes)
    found: dict[str, Words] = {}
    for module in modules:
        found.update(module.SENTENCES)
    return found
