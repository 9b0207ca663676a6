"""The sale tag of an item."""

from __future__ import annotations

from collections.abc import Collection
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
    item_meant,
    open_book,
    refuse,
    say,
)
from stash.cli.papers import Output, print_cards, several, show_list

if TYPE_CHECKING:
    from stash.actions.tag import Tag, TagAsked
    from stash.costing.label import Rules
    from stash.rendering.tag import Facts


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(tag)


def tag(
    item: Annotated[str, typer.Argument(help="Numbers, as 3 or 1,4-12; or a design's name.")] = "",
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
    from stash.actions import writing
    from stash.actions.tag import TagAsked
    from stash.parsing.design import design
    from stash.rendering import figures
    from stash.rendering import tag as rendered

    if listed or box is not None:
        show_list(listed, several(item) or [item], box, Output(target, over, how), file)
        return
    asked = TagAsked(_rules(rules), functional or [], design.meant_for(whom))
    _refuse_unknown(asked.functional)
    items = several(item)
    if target is not None and (items or target.suffix.lower() in (".html", ".htm")):
        items = items or [item_meant(file, item, "tag")]
        print_cards([_found(one, asked, file) for one in items], Output(target, over, how))
        return
    _, facts = _found(item_meant(file, item, "tag"), asked, file)
    if target is not None:
        sheet = figures.settled(lambda: rendered.text(facts))
        writing.write(target, sheet + "\n", over=over)
        say(rendered.written_text(facts, target))
        return
    answer(
        how,
        lambda: rendered.keys(facts),
        lambda: rendered.text(facts),
        lambda: list(rendered.rows(facts)),
    )


def _rules(text: str) -> Rules | None:
    from stash.parsing import settings

    return settings.rules(text) if text else None


def _found(item: str, asked: TagAsked, file: Path | None) -> tuple[Tag, Facts]:
    from stash.actions.tag import tag

    found = tag(open_book(file), item, asked)
    return found, _facts_of(found)


def _refuse_unknown(fibres: Collection[str]) -> None:
    from stash.parsing import facts

    for fibre in fibres:
        if not facts.known_fibre(fibre):
            refuse("no_known_fibre", fibre=fibre)


def _facts_of(found: Tag) -> Facts:
    from stash.parsing import care
    from stash.rendering import tag as rendered

    hers = found.settings
    return rendered.Facts(
        batch=found.item.number,
        name=found.item.design,
        made_on=found.made_on,
        content=found.content,
        sources=[(source.lot, source.skeins, source.mass) for source in found.sources],
        care={source.lot.ref: care.care(source.lot.care) for source in found.sources},
        estimated=found.estimated,
        shape=found.shape,
        whom=found.whom,
        warnings=found.warnings,
        minded=found.cautions,
        maker=rendered.Maker(hers.maker, hers.address, hers.contact),
    )
