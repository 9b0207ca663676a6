"""Weighing, using, and facts put right; the log and taking back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.accounts import days_between, show_account
from stash.cli.asking import agreed, somebody_is_there
from stash.cli.at_the_scale import MOST_ROWS, walk
from stash.cli.common import (
    As,
    AsOption,
    File,
    On,
    answer,
    day,
    note,
    open_book,
    page,
    page_of,
    refuse,
    say,
    say_shorts,
    whole,
)

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.her_settings import Settings
    from stash.measures.mass import Mass

SkeinName = Annotated[str, typer.Argument(help="A skein's number, or words for its lot.")]
ForItem = Annotated[str, typer.Option("--for", metavar="ITEM", help="The item it is for.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (weigh, use, gone, log, undo):
        app.command()(command)


def weigh(
    skein: Annotated[
        str,
        typer.Argument(help="A number, or words for its lot; none: every ball you work from."),
    ] = "",
    reading: Annotated[str, typer.Argument(help="What the scale shows, as 43g.")] = "",
    item: ForItem = "",
    recount: Annotated[bool, typer.Option("--recount", help="The books were wrong.")] = False,
    opened: Annotated[bool, typer.Option("--opened", help="It has been broken into.")] = False,
    tare: Annotated[
        str, typer.Option(help="Core, bowl or needle on the scale, as 12g or a name.")
    ] = "",
    row: Annotated[
        int | None, typer.Option(min=0, max=MOST_ROWS, help="Rows of the item done by now.")
    ] = None,
    metre: Annotated[
        str, typer.Option("--metre", help="A length of it weighed by itself, as 10m=4.3g.")
    ] = "",
    on: On = "",
    file: File = None,
) -> None:
    """The scale against the books. Books use, a correction, or agreement."""
    from stash.actions.settings import read_settings
    from stash.actions.weigh import ScaleReading, weigh
    from stash.parsing import quantities
    from stash.rendering import weigh as rendered

    if row is not None and not reading:
        refuse("row_without_reading", row=row)
    book = open_book(file)
    if not skein:
        walk(book, item, tare_typed(tare, read_settings(book)) if tare else None, day(on))
        return
    if metre:
        _weigh_metre(book, skein, metre, on)
    if not reading:
        if not metre:
            refuse("no_reading")
        return
    off = tare_typed(tare, read_settings(book)) if tare else None
    asked = ScaleReading(quantities.mass(reading), item or None, off, opened, recount, row=row)
    found = weigh(book, skein, asked, on=day(on))
    note(found.said)
    say(rendered.text(found, page_of(found.settings)))
    say_shorts(found.shorts)


def _weigh_metre(book: Book, skein: str, text: str, on: str) -> None:
    from stash.actions.weigh_metre import weigh_metre
    from stash.parsing import quantities
    from stash.rendering import weigh as rendered

    found = weigh_metre(book, skein, quantities.put_up(text.replace("=", " / ")), on=day(on))
    note(found.said)
    say(rendered.metre_text(found, page_of(found.settings)))
    note(rendered.second_look(found))
    say_shorts(found.shorts)


def tare_typed(text: str, settings: Settings) -> Mass:
    """What comes off a reading: a weight, or a tare she has named."""
    from stash.errors import NotFound
    from stash.parsing import quantities

    known = settings.tare(text.strip().lower())
    if known is None and text.strip().isalpha():
        named = [n.removeprefix("tare ") for n in settings.kept or {} if n.startswith("tare ")]
        raise NotFound("tare", text, named or ["12g, or name one with `stash settings tare-NAME`"])
    return known or quantities.mass(text)


def use(
    skein: SkeinName,
    amount: Annotated[str, typer.Argument(help="Grams or length, as 20g or 35m.")],
    item: ForItem = "",
    on: On = "",
    file: File = None,
) -> None:
    """Yarn used, in grams or by length."""
    from stash.actions.use import Amount, use
    from stash.parsing import quantities
    from stash.rendering import use as rendered

    book = open_book(file)
    typed = Amount(amount, quantities.amount(amount))
    found = use(book, skein, typed, item=item or None, on=day(on))
    note(found.said)
    say(rendered.text(found, page_of(found.settings)))
    say_shorts(found.shorts)


def gone(
    skein: SkeinName,
    amount: Annotated[str, typer.Argument(help="How much; else all that is free.")] = "",
    why: Annotated[
        str, typer.Option("--why", help="Why it is gone; mistake: it never was there.")
    ] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Yarn that leaves otherwise: given, sold, lost or spoilt."""
    from stash.actions.use import Amount, gone, leaving
    from stash.parsing import quantities
    from stash.rendering import use as rendered

    if not why:
        refuse("gone_without_reason")
    reason = leaving(why)
    book = open_book(file)
    typed = Amount(amount, quantities.amount(amount)) if amount else None
    found = gone(book, skein, typed, reason, on=day(on))
    note(found.said)
    say(rendered.gone_text(found, reason, page_of(found.settings)))
    say_shorts(found.shorts)


def log(
    newest: Annotated[
        int | None, typer.Option("--newest", help="How many, newest first; 20 without a span.")
    ] = None,
    everything: Annotated[bool, typer.Option("--all", help="Every entry.")] = False,
    begins: Annotated[
        str, typer.Option("--from", metavar="DAY", help="From this day on, as 2026-01-01.")
    ] = "",
    ends: Annotated[str, typer.Option("--to", help="Up to and with this day.")] = "",
    summed: Annotated[
        bool, typer.Option("--sum", help="What came in and went out, in grams, length and cost.")
    ] = False,
    by: Annotated[str, typer.Option("--by", help="With --sum: told apart by yarn or lot.")] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What was booked. One numbered entry for each command that wrote."""
    from stash.actions.log import log
    from stash.rendering import log as rendered

    span = days_between(begins, ends)
    if summed:
        if newest is not None or everything:
            refuse("sum_of_all")
        show_account(span, by, how, file)
        return
    if by:
        refuse("by_without_sum")
    if newest is not None:
        newest = whole("--newest", newest, 1_000_000)
    elif not everything and not any(span):
        newest = 20
    entries = log(open_book(file), newest, *span)
    facts = rendered.keys(entries)
    answer(how, lambda: facts, lambda: rendered.text(entries), lambda: facts)


def undo(
    entry: Annotated[int | None, typer.Argument(help="The entry; else the newest.")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Do it without asking.")] = False,
    show: Annotated[bool, typer.Option("--show", help="Only show what would be undone.")] = False,
    file: File = None,
) -> None:
    """Cancel an entry whole, by its opposite. At a terminal you are asked first."""
    from stash.actions.log import to_undo, undo
    from stash.rendering import log as rendered

    if entry is not None:
        whole("entry", entry, 10**9)
    book = open_book(file)
    asks = not yes and somebody_is_there()
    if show or asks:
        meant = to_undo(book, entry)
        entry = meant.number
        say(rendered.to_undo_text(meant, page()))
        if show or not agreed(rendered.UNDO_IT):
            note(rendered.NOTHING_UNDONE)
            return
    number, wrong = undo(book, entry)
    say(rendered.undone_text(number, wrong, page()))
