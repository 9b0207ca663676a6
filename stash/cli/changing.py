"""Facts changed: of skeins, of lots, of all that lies in a place, and of items."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.change_options import says_what_to_change
from stash.cli.common import (
    File,
    On,
    day,
    in_her_units,
    items_typed,
    note,
    open_book,
    page,
    refuse,
    refuse_runs,
    say,
    say_shorts,
    settings_of,
)
from stash.cli.ordered import for_order
from stash.exchange.typed_facts import ChangeWords, yarn_changes

if TYPE_CHECKING:
    from stash.actions.change import Changes
    from stash.actions.change_item import ItemChanges


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(change)


@says_what_to_change
def change(
    what: Annotated[
        str,
        typer.Argument(
            metavar="SKEINS|LOT|PLACE|item",
            help="Skeins (12,14-17), a lot (L4) or a place; or the word item.",
        ),
    ] = "",
    number: Annotated[
        str,
        typer.Argument(metavar="ITEMS", help="After the word item: numbers, as 3 or 1,4-12."),
    ] = "",
    on: On = "",
    file: File = None,
    *,
    words: ChangeWords,
) -> None:
    """Change what is noted of skeins, a lot, a place or items. The log keeps what it was before."""
    currency = settings_of(file).currency
    if what.strip().lower() == "item" and number:
        note, other = words.note, replace(words, note=None)
        _change_items(number, yarn_changes(other, ""), _item(words, note, currency, file), on, file)
        return
    what = f"{what} {number}".strip()
    by_lot = "" if what else words.lot
    changes = yarn_changes(replace(words, lot="") if by_lot else words, currency)
    of_item = _item(words, None, currency, file)
    _change_yarn(what or by_lot, bool(by_lot), changes, of_item, on, file)


def _item(words: ChangeWords, note: str | None, currency: str, file: Path | None) -> ItemChanges:
    """The facts of items that were typed."""
    from stash.actions.change_item import ItemChanges
    from stash.actions.order import ForOrder
    from stash.parsing import coins, work

    (asked,), currency = coins.typed_together([words.asked], currency)
    minutes = work.minutes(words.hours) if words.hours else None
    none = words.order.strip().lower() == "none"
    order = ForOrder(None) if none else for_order(open_book(file), words.order)
    return ItemChanges(note, asked, minutes, order, currency if words.asked else "")


def _change_yarn(
    what: str, by_lot: bool, changes: Changes, of_item: ItemChanges, on: str, file: Path | None
) -> None:
    from stash.actions.change import change
    from stash.actions.change_targets import lot_meant
    from stash.rendering import figures
    from stash.rendering import several as rendered

    if of_item != type(of_item)():
        refuse("change_of_an_item")
    if changes == type(changes)():
        refuse("no_change")
    if not what:
        refuse("nothing_to_change")
    book = open_book(file)
    asked = [lot_meant(book, what)] if by_lot else _parts(what)
    done = change(book, asked, changes, on=day(on))
    note(done.said)
    in_her_units(settings_of(file))
    say(figures.settled(lambda: rendered.changed_skeins(done, page())))
    say_shorts(done.shorts)


def _parts(what: str) -> list[str]:
    """Numbers and lots as a list; a place, or words, in one."""
    from stash.parsing.numbers import listed

    parts = [*dict.fromkeys(listed(what))]
    refuse_runs(parts)
    return parts if all(re.fullmatch(r"[Ll]?\d{1,15}", part) for part in parts) else [what]


def _change_items(
    what: str, changes: Changes, of_item: ItemChanges, on: str, file: Path | None
) -> None:
    from stash.actions.change_item import change_items
    from stash.rendering import several as rendered

    if changes != type(changes)():
        refuse("change_of_yarn")
    if of_item == type(of_item)():
        refuse("no_change_of_item")
    done = change_items(open_book(file), items_typed(what), of_item, on=day(on))
    say(rendered.changed_items(done, page()))
