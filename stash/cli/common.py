"""What every command shares: its file, how it answers, and colour where it is wanted."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import date
from enum import StrEnum
from pathlib import Path
from shutil import get_terminal_size
from typing import TYPE_CHECKING, Annotated, Any, NoReturn

import typer

if TYPE_CHECKING:
    from stash.actions.book import Book, Short
    from stash.actions.preferences import Preferences
    from stash.rendering.amounts import Units


class As(StrEnum):
    """How an answer is given."""

    TEXT = "text"
    JSON = "json"
    CSV = "csv"


#: Whom an article is for, where a command tells what to mind.
FOR_WHOM = "Whom it is for, where its size cannot tell: baby, child or adult."

File = Annotated[
    Path | None,
    typer.Option("--file", envvar="STASH_FILE", help="The stash file.", show_default=False),
]
AsOption = Annotated[As, typer.Option("--as", help="text for reading, json or csv for scripts.")]
On = Annotated[str, typer.Option("--on", help="The day it happened, as 2026-05-31.")]


def chosen_file(file: Path | None) -> Path:
    """The file named, else the one in the user's own data folder."""
    if file is not None:
        from stash.errors import FileTrouble

        try:
            return file.expanduser()
        except RuntimeError:
            raise FileTrouble(file, "there is no such user; give the whole path") from None
    from platformdirs import user_data_path

    return user_data_path("stash", appauthor=False) / "shelf.stash"


def open_book(file: Path | None) -> Book:
    """The book this command works on; it must be there."""
    from stash.actions.book import open_book

    return open_book(chosen_file(file))


@contextmanager
def begun_book(file: Path | None) -> Iterator[Book]:
    """The book for a command that brings things in; a refused one leaves no empty file behind."""
    from stash.actions.book import begun_book

    with begun_book(chosen_file(file)) as book:
        yield book


def begun(file: Path | None) -> bool:
    """Whether there is a file to open; an empty one is yet to be begun."""
    path = chosen_file(file)
    return path.exists() and (path.is_dir() or path.stat().st_size > 0)


def settings_of(file: Path | None) -> Preferences:
    """Her settings; the usual ones where there is no file yet."""
    from stash.actions.prefer import settings
    from stash.actions.preferences import Preferences

    return settings(open_book(file)) if begun(file) else Preferences()


def day(text: str) -> date | None:
    """The day typed with --on, None where none was."""
    if not text:
        return None
    from stash.actions import clock
    from stash.parsing import days

    return days.day(text, clock.today())


def units_in(settings: Preferences) -> Units:
    """The units she works in."""
    from stash.rendering.amounts import Units

    return Units(yards=settings.units == "yards")


def say_habits(habits: Mapping[str, str]) -> None:
    """What is shown otherwise from now on, because of what came in."""
    if habits.get("units") == "yards":
        note("note: shown in yards from now on: `stash prefer units metres` turns it back")


def say_shorts(shorts: Sequence[Short]) -> None:
    """Promises that can no longer be kept, with the articles' names and the way out."""
    from stash.rendering import amounts

    for short in shorts:
        promise = short.promise
        note(
            f"short: skein {promise.skein} now lacks {amounts.grams(short.short)} of what is set "
            f"aside for article {short.article}, role {promise.role or 'none'}; fill up from the "
            f"same lot with `stash match`, or `stash release {promise.article}`"
        )


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
        tell(text())


def tell(text: str) -> None:
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


def note(text: str) -> None:
    """Something to know beside the answer; it never mixes with what a script reads."""
    typer.echo(_shown(text), err=True)


def progress(text: str) -> None:
    """What a longer command is at, for a person who waits; scripts see nothing of it."""
    if sys.stderr.isatty():
        typer.echo(f"{text} …", err=True)


def refuse(text: str) -> NoReturn:
    """Words that do not go together, said in one line with the way out."""
    from stash.errors import BadInput

    raise BadInput(text)


def whole(option: str, value: int, most: int) -> int:
    """A whole number typed with an option, from 1 up."""
    if not 1 <= value <= most:
        refuse(f"{option} {value}: give a whole number from 1 to {most}")
    return value
