"""The sale tag of an item."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    FOR_WHOM,
    As,
    AsOption,
    File,
    answer,
    items_meant,
    open_book,
    refuse,
    say,
)

if TYPE_CHECKING:
    from stash.actions.tag import Tag, TagAsked
    from stash.costing.label import Rules
    from stash.rendering.tag import Facts


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(tag)


def tag(
    items: Annotated[
        str, typer.Argument(metavar="ITEMS", help="Numbers, as 3 or 1,4-12; or a design's name.")
    ] = "",
    rules: Annotated[
        str,
        typer.Option(
            metavar="eu|uk|us", help="Whose rules: eu, uk or us; else those of your settings."
        ),
    ] = "",
    whom: Annotated[str, typer.Option("--for", help=FOR_WHOM)] = "",
    functional: Annotated[
        list[str] | None,
        typer.Option("--functional", help="A fibre that does something at a small share (US)."),
    ] = None,
    target: Annotated[
        Path | None, typer.Option("--print", help="Write the sheet to this file.")
    ] = None,
    over: Annotated[bool, typer.Option("--over", help="Write over a file that is there.")] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What a sale tag must say. Fibres by grams used, care in words, maker, batch and cautions."""
    from stash.actions import writing
    from stash.actions.tag import TagAsked
    from stash.parsing.design import design
    from stash.rendering import tags as rendered

    asked = TagAsked(_rules(rules), functional or [], design.meant_for(whom))
    facts = _facts(items_meant(file, items, "tag"), asked, file)
    if target is not None:
        writing.write(target, rendered.tags_text(facts) + "\n", over=over)
        say(rendered.tags_written(facts, target))
        return
    answer(
        how,
        lambda: rendered.tags_keys(facts),
        lambda: rendered.tags_text(facts),
        lambda: rendered.tags_rows(facts),
    )


def _rules(text: str) -> Rules | None:
    from stash.parsing import settings

    return settings.rules(text) if text else None


def _facts(items: Sequence[str], asked: TagAsked, file: Path | None) -> list[Facts]:
    from stash.actions.tag import tags
    from stash.parsing import facts

    for fibre in asked.functional:
        if not facts.known_fibre(fibre):
            refuse("no_known_fibre", fibre=fibre)
    return [_facts_of(found) for found in tags(open_book(file), items, asked)]


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
