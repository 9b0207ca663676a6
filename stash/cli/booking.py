"""Weighing, using, and yarn that leaves; the log and undoing."""

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
    settings_of,
    whole,
)
from stash.cli.leaving import say_yarn_price, show_item_gone

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.her_settings import Settings
    from stash.measures.mass import Mass

SkeinName = Annotated[str, typer.Argument(help="Its number, or words: 12, navy.")]
ForItem = Annotated[str, typer.Option("--for", metavar="ITEM", help="The item it goes into, as 3.")]


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    for command in (weigh, use, gone, log, undo):
        app.command()(command)


def weigh(
    skein: Annotated[
        str,
        typer.Argument(help="Its number, or words: 12, navy; left out: each ball you work from."),
    ] = "",
    reading: Annotated[str, typer.Argument(help="What the scale shows, as 43g.")] = "",
    item: ForItem = "",
    recount: Annotated[
        bool, typer.Option("--recount", help="The noted weight was wrong; nothing was used.")
    ] = False,
    opened: Annotated[bool, typer.Option("--opened", help="The skein has been opened.")] = False,
    tare: Annotated[
        str, typer.Option(help="Core or bowl on the scale, as 12g or its name in your settings.")
    ] = "",
    row: Annotated[
        int | None, typer.Option(min=0, max=MOST_ROWS, help="How many rows of the item are done.")
    ] = None,
    metre: Annotated[
        str, typer.Option("--metre", help="A length you measured and weighed, as 10m=4.3g.")
    ] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Weigh a skein. Notes what was used, or corrects what was noted."""
    from stash.actions.settings import read_settings
    from stash.actions.weigh import ScaleReading, weigh
    from stash.parsing import quantities
    from stash.rendering import figures
    from stash.rendering import weigh as rendered

    if row is not None and not reading:
        refuse("row_without_reading", row=row)
    if reading and metre:
        refuse("reading_and_metre")
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
    shown_on = page_of(found.settings)
    say(figures.settled(lambda: rendered.text(found, shown_on)))
    say_shorts(found.shorts)


def _weigh_metre(book: Book, skein: str, text: str, on: str) -> None:
    from stash.actions.weigh_metre import weigh_metre
    from stash.parsing import quantities
    from stash.rendering import figures
    from stash.rendering import weigh as rendered

    found = weigh_metre(book, skein, quantities.put_up(text.replace("=", " / ")), on=day(on))
    note(found.said)
    shown_on = page_of(found.settings)
    say(figures.settled(lambda: rendered.metre_text(found, shown_on)))
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
    amount: Annotated[str, typer.Argument(help="Weight or length, as 20g or 35m.")],
    item: ForItem = "",
    on: On = "",
    file: File = None,
) -> None:
    """Note yarn you used. By weight or by length."""
    from stash.actions.use import Amount, use
    from stash.parsing import quantities
    from stash.rendering import figures
    from stash.rendering import use as rendered

    book = open_book(file)
    typed = Amount(amount, quantities.amount(amount))
    found = use(book, skein, typed, item=item or None, on=day(on))
    note(found.said)
    shown_on = page_of(found.settings)
    say(figures.settled(lambda: rendered.text(found, shown_on)))
    say_shorts(found.shorts)


def gone(
    skein: SkeinName,
    amount: Annotated[
        str, typer.Argument(help="How much, as 20g or 35m; all that is free if left out.")
    ] = "",
    why: Annotated[
        str, typer.Option("--why", help="given, sold, lost, spoilt; or mistake: never there.")
    ] = "",
    price: Annotated[
        str, typer.Option("--for", metavar="MONEY", help="With sold: what the buyer paid.")
    ] = "",
    fee: Annotated[str, typer.Option(help="What the place of sale kept of it.")] = "",
    on: On = "",
    file: File = None,
) -> None:
    """Yarn that left your shelf. Given away, sold, lost or spoilt; an item too: gone item 3."""
    from stash.actions.use import Amount, gone, leaving
    from stash.exchange.typed_facts import yarn_price
    from stash.parsing import quantities
    from stash.rendering import figures
    from stash.rendering import use as rendered

    if not why:
        refuse("gone_without_reason")
    if skein.strip().lower() == "item":
        show_item_gone(amount, why, price or fee, on, file)
        return
    reason = leaving(why)
    book = open_book(file)
    typed = Amount(amount, quantities.amount(amount)) if amount else None
    paid = yarn_price(price, fee, settings_of(file).currency)
    found = gone(book, skein, typed, reason, paid=paid, on=day(on))
    note(found.said)
    shown_on = page_of(found.settings)
    say(figures.settled(lambda: rendered.gone_text(found, reason, shown_on)))
    say_yarn_price(paid, found.settings.currency)
    say_shorts(found.shorts)


def log(
    newest: Annotated[
        int | None, typer.Option("--newest", help="How many, newest first; 20 if left out.")
    ] = None,
    everything: Annotated[bool, typer.Option("--all", help="Every entry.")] = False,
    begins: Annotated[
        str, typer.Option("--from", metavar="DAY", help="First day, as 2026-01-01.")
    ] = "",
    ends: Annotated[str, typer.Option("--to", help="Last day, as 2026-12-31.")] = "",
    kind: Annotated[
        str, typer.Option("--kind", help="Only what such commands did, as weigh or aside,release.")
    ] = "",
    device: Annotated[
        str, typer.Option("--device", help="Only from one device, as the record names it.")
    ] = "",
    summed: Annotated[
        bool, typer.Option("--sum", help="Totals: what came in and went out, and its cost.")
    ] = False,
    by: Annotated[str, typer.Option("--by", help="With --sum: by yarn or by lot.")] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What you did, entry by entry. Each can be cancelled with `stash undo`."""
    from stash.actions.log import entries_meant, log
    from stash.parsing.numbers import listed
    from stash.rendering import log as rendered

    span = days_between(begins, ends)
    if summed:
        if newest is not None or everything:
            refuse("sum_of_all")
        if kind or device:
            refuse("sum_of_all_kinds")
        show_account(span, by, how, file)
        return
    if by:
        refuse("by_without_sum")
    if newest is not None:
        newest = whole("--newest", newest, 1_000_000)
    elif not everything and not any(span):
        newest = 20
    which = entries_meant(span, listed(kind), rendered.device_named(device))
    entries = log(open_book(file), newest, which)
    facts = rendered.keys(entries)
    answer(how, lambda: facts, lambda: rendered.text(entries), lambda: facts)


def undo(
    entry: Annotated[
        int | None, typer.Argument(help="Its number in `stash log`; the newest if left out.")
    ] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask first.")] = False,
    show: Annotated[bool, typer.Option("--show", help="Only show what it would cancel.")] = False,
    file: File = None,
) -> None:
    """Cancel an entry. You see what it was, and are asked first."""
    from stash.actions.log import to_undo, undo
    from stash.rendering import figures
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
    say(figures.settled(lambda: rendered.undone_text(number, wrong, page())))
