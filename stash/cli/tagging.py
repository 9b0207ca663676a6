"""The sale tag of an item."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    FOR_WHOM,
    As,
    AsOption,
    File,
    Over,
    answer,
    items_meant,
    items_typed,
    open_book,
    refuse,
    say,
)
from stash.cli.papers import Output, print_cards, show_list

if TYPE_CHECKING:
    from stash.actions.tag import Tag
    from stash.costing.label import Rules
    from stash.rendering.tag import Facts


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(tag)


def tag(
    items: Annotated[
        str, typer.Argument(metavar="ITEMS", help="Numbers, as 3 or 1,4-12; or the design's name.")
    ] = "",
    rules: Annotated[
        str,
        typer.Option(
            metavar="eu|uk|us", help="The law your tags follow; left out: as in your settings."
        ),
    ] = "",
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    functional: Annotated[
        list[str] | None,
        typer.Option(
            "--functional", help="US rules: name a fibre under 5% that does a job, such as stretch."
        ),
    ] = None,
    target: Annotated[
        Path | None, typer.Option("--print", help="Write the tag to this file, as tag.txt.")
    ] = None,
    over: Over = False,
    listed: Annotated[
        str,
        typer.Option("--list", metavar="prices|packing", help="A list of what is for sale."),
    ] = "",
    box: Annotated[
        int | None, typer.Option("--box", help="With packing: how many go into a box.")
    ] = None,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What a sale tag must say. Fibres, care, maker, number and cautions."""
    from stash.actions.tag import TagAsked, tags
    from stash.exchange.tag_facts import facts_of
    from stash.parsing.design import design
    from stash.rendering import tags as rendered

    if listed or box is not None:
        show_list(listed, items_typed(items), box, Output(target, over, how), file)
        return
    asked = TagAsked(_rules(rules), functional or [], design.meant_for(whom))
    _refuse_unknown(asked.functional)
    found = tags(open_book(file), items_meant(file, items, "tag"), asked)
    facts = [facts_of(one) for one in found]
    if target is not None:
        _print(found, facts, target, over=over)
        return
    answer(
        how,
        lambda: rendered.tags_keys(facts),
        lambda: rendered.tags_text(facts),
        lambda: rendered.tags_rows(facts),
    )


def _print(found: Sequence[Tag], facts: Sequence[Facts], target: Path, *, over: bool) -> None:
    """The tags in a file: several, or a page for a browser, as cards; one as its sheet."""
    from stash.actions import writing
    from stash.rendering import figures
    from stash.rendering import tags as rendered
    from stash.rendering.tag import written_text

    if len(found) > 1 or target.suffix.lower() in (".html", ".htm"):
        print_cards([*zip(found, facts, strict=True)], Output(target, over, As.TEXT))
        return
    sheet = figures.settled(lambda: rendered.tags_text(facts))
    writing.write(target, sheet + "\n", over=over)
    say(written_text(facts[0], target))


def _rules(text: str) -> Rules | None:
    from stash.parsing import settings

    return settings.rules(text) if text else None


def _refuse_unknown(fibres: Collection[str]) -> None:
    from stash.parsing import facts

    for fibre in fibres:
        if not facts.known_fibre(fibre):
            refuse("no_known_fibre", fibre=fibre)
