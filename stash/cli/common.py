"""What every command shares: its file, how it answers, and colour where it is wanted."""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date
from enum import StrEnum
from functools import partial
from pathlib import Path
from shutil import get_terminal_size
from time import monotonic
from typing import TYPE_CHECKING, Annotated, Any, NoReturn

import typer

from stash.cli.which_file import chosen_file

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.her_settings import Settings
    from stash.errors import StashError
    from stash.measures.note import Note
    from stash.rendering.amounts import Page
    from stash.rendering.figures import Units


class As(StrEnum):
    """How an answer is given."""

    TEXT = "text"
    JSON = "json"
    CSV = "csv"


#: Whom an item is for, where a command tells what to mind.
FOR_WHOM = "Who it is for, if the size does not say: baby, child or adult."

File = Annotated[
    Path | None,
    typer.Option("--file", envvar="STASH_FILE", help="Your stash file, if not the usual one."),
]
AsOption = Annotated[As, typer.Option("--as", help="text to read, json or csv for scripts.")]
On = Annotated[str, typer.Option("--on", help="The day it happened, as 2026-05-31 or yesterday.")]


Thick = Annotated[str, typer.Option("--thickness", help="A name or number: DK, worsted, 4.")]
Hexes = Annotated[
    str, typer.Option("--hex", help="Its colour code, as '#1f4e5f'; several with slashes.")
]
Over = Annotated[bool, typer.Option("--over", help="Replace a file that is there.")]


def open_book(file: Path | None) -> Book:
    """The book this command works on; it must be there."""
    from stash.actions.book import open_book

    path = chosen_file(file)
    _ask_units_of(path)
    return replace(open_book(path), report=patiently("{}"))


def _ask_units_of(path: Path) -> None:
    """Amounts shown before any settings were read, as in a refusal, are in her units too."""
    from stash.rendering import figures

    figures.ask(partial(_units_of, path))


def ask_units_at_once() -> None:
    """The same for a help, which loads no database library: as the file says by itself."""
    from stash.rendering import figures

    named = os.environ.get("STASH_FILE")
    figures.ask(partial(_units_kept, chosen_file(Path(named) if named else None)))


def _units_kept(path: Path) -> Units:
    from stash.actions.completion import completion
    from stash.rendering.figures import Units

    kept = dict(one.split("=", 1) for one in completion(path, "UNITS"))
    said = (kept.get(name, "") for name in ("length", "weight", "size", "terms"))
    return Units.of(*said)


def _units_of(path: Path) -> Units:
    from stash.actions.book import open_book
    from stash.actions.settings import read_settings
    from stash.errors import StashError
    from stash.rendering.figures import Units

    try:
        return _chosen(read_settings(open_book(path)), {})
    except StashError:
        return Units()


@contextmanager
def begun_book(file: Path | None) -> Iterator[Book]:
    """The book for a command that brings things in; a refused one leaves no empty file behind."""
    from stash.actions.book import begun_book

    path = chosen_file(file)
    _ask_units_of(path)
    with begun_book(path) as book:
        yield book


def design_meant(file: Path | None, typed: str) -> str:
    """The design that is meant by a name or by none; said where it was not typed so."""
    from stash.actions import meant

    found = meant.design_meant(open_book(file), typed)
    note(found.said)
    return found.name


def item_meant(file: Path | None, typed: str, command: str) -> str:
    """The item that this command can mean, likewise."""
    from stash.actions import meant

    found = meant.item_meant(open_book(file), typed, command)
    note(found.said)
    return found.name


def items_meant(file: Path | None, typed: str, command: str) -> list[str]:
    """The items that this command can mean: numbers and runs of them, else as for one."""
    parts = items_typed(typed)
    return parts if len(parts) > 1 else [item_meant(file, typed, command)]


def items_typed(typed: str) -> list[str]:
    """`1,3-5` as its numbers, each once; a name, also one with a comma in it, stays as it is."""
    from stash.parsing.numbers import listed

    parts = [*dict.fromkeys(listed(typed))]
    refuse_runs(parts)
    return parts if parts and any(map(str.isdecimal, parts)) else [typed]


def refuse_runs(parts: Sequence[str]) -> None:
    """Runs that go backwards, or over more than anybody means, are still runs in what is listed."""
    from stash.parsing.numbers import LONGEST_RUN

    for part in parts:
        if run := re.fullmatch(r"([0-9]+) *- *([0-9]+)", part):
            kind = "run_too_long" if int(run[1]) < int(run[2]) else "no_run_of_numbers"
            refuse(kind, typed=part, most=LONGEST_RUN)


def only_item(items: Sequence[str], **options: object) -> None:
    """Refuse options that are of one item where several are named."""
    if len(items) > 1:
        for option in (name for name, given in options.items() if given):
            refuse("for_one_item", option=f"--{option.replace('_', '-')}")


def listed_alone(**given: object) -> None:
    """Refuse what is typed beside a list that says all of it."""
    for option in (name for name, value in given.items() if value):
        refuse("list_says_all", option=option)


@contextmanager
def rows_of_a_list() -> Iterator[None]:
    """What is wrong with the rows of a list is said row by row before it is refused."""
    from stash.errors import BadRows
    from stash.rendering.sentences.say import sentence

    try:
        yield
    except BadRows as bad:
        for line, why in bad.problems:
            note(f"{bad.name}: row {line}: {sentence(why)}")
        raise


def begun(file: Path | None) -> bool:
    """Whether there is a file to open; an empty one is yet to be begun."""
    path = chosen_file(file)
    return path.exists() and (path.is_dir() or path.stat().st_size > 0)


def settings_of(file: Path | None) -> Settings:
    """Her settings; the usual ones where there is no file yet."""
    from stash.actions.her_settings import Settings
    from stash.actions.settings import read_settings

    return read_settings(open_book(file)) if begun(file) else Settings()


def day(text: str) -> date | None:
    """The day typed with --on, None where none was."""
    if not text:
        return None
    from stash.actions import clock
    from stash.parsing import days

    return days.day(text, clock.today())


def in_her_units(settings: Settings, typed: Mapping[str, str] | None = None) -> None:
    """Show amounts in the units she has chosen, else in those she has `typed`."""
    from stash.rendering import figures

    figures.use(_chosen(settings, typed or {}))


def _chosen(settings: Settings, typed: Mapping[str, str]) -> Units:
    from stash.rendering.figures import Units

    said = {} if settings.length else typed
    return Units.of(
        said.get("length", settings.length),
        said.get("weight", settings.weight),
        said.get("size", settings.size),
        settings.terms,
    )


def page_of(settings: Settings) -> Page:
    """The page for her eyes: her units and currency, and colour where a terminal can show it."""
    in_her_units(settings)
    return page(settings.currency)


def page(currency: str = "") -> Page:
    """The same in the units that are in use."""
    from shutil import get_terminal_size

    from stash.rendering.amounts import Page
    from stash.rendering.paint import patch, strong

    across = get_terminal_size().columns if sys.stdout.isatty() else None
    return Page(currency, strong, patch, sys.stdout.encoding or "utf-8", across)


def say_habits(habits: Mapping[str, str]) -> None:
    """What is shown otherwise from now on, because of what came in."""
    from stash.rendering.settings import followed

    for text in followed(habits):
        note(text)


def say_shorts(shorts: Sequence[Note]) -> None:
    """Promises that can no longer be kept, with the items' names and the way out."""
    from stash.rendering.sentences.say import sentence

    for short in shorts:
        note(sentence(short))


def say_notes(notes: Iterable[Note | str]) -> None:
    """What to know of an answer, beside it, each called a note."""
    from stash.rendering.sentences.say import sentence

    for one in notes:
        note(f"note: {sentence(one)}")


def answer(
    how: As,
    keys: Callable[[], Any],
    text: Callable[[], str],
    rows: Callable[[], Sequence[Mapping[str, Any]]],
) -> None:
    """One answer in the form that was asked for, alone on standard output."""
    if how is As.JSON:
        import json

        plain = "utf" not in (sys.stdout.encoding or "utf-8").lower()
        say(json.dumps(keys(), ensure_ascii=plain, indent=1))
    elif how is As.CSV:
        from stash.rendering.columns import as_csv

        typer.echo(as_csv(rows()), nl=False)
    else:
        from stash.rendering import figures

        _say_wrapped(figures.settled(text))


def _say_wrapped(text: str) -> None:
    """A longer answer, its lines broken to the width of a person's terminal.

    Into a pipe or a file they stay whole: how wide a reader is, is not known there, and whoever
    searches finds a whole line.
    """
    if sys.stdout.isatty():
        from stash.rendering.wrapped import wrapped

        text = wrapped(text, get_terminal_size().columns)
    say(text)


#: Our own paint, which passes; a label or a sheet may hold other orders to a terminal.
_PAINT = re.compile(r"(\x1b\[[0-9;]*m)")


def _shown(text: str) -> str:
    from stash.rendering.printable import plain

    parts = _PAINT.split(text)
    return "".join(part if i % 2 else plain(part) for i, part in enumerate(parts))


def say(text: str) -> None:
    """A line, or several, for whoever asked."""
    typer.echo(_shown(text))


def note(said: Note | StashError | str | None) -> None:
    """Something to know beside the answer; it never mixes with what a script reads.

    Nothing is said where there is nothing to say.
    """
    if not said:
        return
    if not isinstance(said, str):
        from stash.rendering.sentences.say import sentence

        said = sentence(said)
    typer.echo(_shown(said), err=True)


def progress(text: str) -> None:
    """What a longer command is at, for a person who waits; scripts see nothing of it."""
    if sys.stderr.isatty():
        typer.echo(f"{text} …", err=True)


#: Sooner than this nobody wonders what a command is at.
_PATIENCE_S = 1.0


def patiently(words: str) -> Callable[[str | Note], None]:
    """Says what is done now in these words, where a person has waited in silence for a second."""
    said = monotonic()

    def report(doing: str | Note) -> None:
        nonlocal said
        if monotonic() - said > _PATIENCE_S:
            from stash.rendering.sentences.say import sentence

            progress(words.format(sentence(doing)))
            said = monotonic()

    return report


def refuse(kind: str, /, **facts: Any) -> NoReturn:
    """Words that do not go together; `rendering.sentences.commands` has the line for each kind."""
    from stash.errors import BadInput

    raise BadInput(kind, **facts)


def whole(option: str, value: int, most: int) -> int:
    """A whole number typed with an option, from 1 up."""
    if not 1 <= value <= most:
        refuse("no_whole_number", option=option, value=value, most=most)
    return value
