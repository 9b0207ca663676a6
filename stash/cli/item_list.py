"""What is planned, begun, done and sold."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import As, AsOption, File, Over, answer, open_book, page_of, refuse, say

if TYPE_CHECKING:
    from stash.actions.items import ItemList, Which


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(items)


def items(
    still_open: Annotated[bool, typer.Option("--open", help="Planned or begun.")] = False,
    finished: Annotated[bool, typer.Option("--finished", help="Done, sold or not.")] = False,
    unsold: Annotated[bool, typer.Option("--unsold", help="Done and yours still.")] = False,
    sold: Annotated[bool, typer.Option("--sold", help="Sold.")] = False,
    target: Annotated[
        Path | None, typer.Option("--save", help="Write the list to a .csv or .xlsx file.")
    ] = None,
    over: Over = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Your items: planned, begun, done and sold, each with its next step."""
    from stash.actions.items import Which, listed_items
    from stash.rendering import items as rendered

    chosen = {
        Which.OPEN: still_open,
        Which.FINISHED: finished,
        Which.UNSOLD: unsold,
        Which.SOLD: sold,
    }
    found = listed_items(open_book(file), _which([which for which, said in chosen.items() if said]))
    if target is not None:
        _save(found, target, over)
        return
    answer(
        how,
        lambda: rendered.items_keys(found),
        lambda: rendered.items_text(found, page_of(found.settings)),
        lambda: rendered.items_keys(found),
    )


def _which(chosen: list[Which]) -> Which:
    from stash.actions.items import Which

    if len(chosen) > 1:
        refuse("one_kind_of_items", options=[f"--{which}" for which in chosen])
    return chosen[0] if chosen else Which.ALL


def _save(found: ItemList, target: Path, over: bool) -> None:
    from stash.actions import writing
    from stash.exchange import item_sheet
    from stash.rendering import items as rendered

    if target.suffix.lower() not in (".csv", ".xlsx"):
        refuse("no_kind_of_list", file=target.name)
    rows = rendered.items_keys(found)
    writing.write(target, item_sheet.written(rows, target.suffix.lower()), over=over)
    say(rendered.items_saved(len(rows), str(target)))
