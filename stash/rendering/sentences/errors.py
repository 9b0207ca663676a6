"""Sentences of the errors that have a class of their own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering.figures import down, up
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words


def _ambiguous(text: str, readings: Sequence[str], shown: Sequence[Note] = ()) -> str:
    each = " or ".join(" ".join(sentence(reading).split()) for reading in shown or readings)
    if not text:
        return f"which one? Type {each}"
    return f"{text!r} could be {each}; type the one you mean"


def _bad_sheet(name: str, findings: Sequence[object]) -> str:
    rows = "1 row" if len(findings) == 1 else f"{len(findings)} rows"
    return (
        f"{name}: nothing was imported, {rows} cannot be read; "
        "fix them, or import the others with --good-rows"
    )


def _bad_plan(name: str, findings: Sequence[Note]) -> str:
    return f"{name}: {'; '.join(map(sentence, findings))}"


def _undecided(what: str | Note, ways: Sequence[tuple[str | Note, str | Note]]) -> str:
    each = "; ".join(f"{sentence(words)}: {sentence(typed)}" for words, typed in ways)
    return f"{sentence(what)}: {each}"


def _not_enough_yarn(skein: int, asked: Mass, free: Mass, hint: str | Note) -> str:
    tail = f"; {sentence(hint)}" if hint else ""
    return f"skein {skein} has {down(free)} free, not {up(asked)}{tail}"


def _in_the_way(entry: int, later: Sequence[int], why: str | Note) -> str:
    numbers = ", ".join(str(number) for number in later)
    first = f"{numbers} first" if len(later) == 1 else f"{numbers} first, newest first"
    way = f"; undo {first}" if later else ""
    return f"entry {entry} cannot be undone: {sentence(why)}{way}"


SENTENCES: Mapping[str, Words] = {
    "ambiguous": _ambiguous,
    "bad_sheet": _bad_sheet,
    "bad_plan": _bad_plan,
    "undecided": _undecided,
    "not_enough_yarn": _not_enough_yarn,
    "in_the_way": _in_the_way,
    "not_a_stash": (" is not a stash file; name another with --file, or a new path to start one"),
    "newer_file": (
        " was written by a newer stash (revision {revision}); nothing was touched: "
        "update your stash"
    ),
    "damaged": "the file is damaged; go back to a copy with `stash restore`",
}
