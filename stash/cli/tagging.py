"""The sale tag of an article."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    FOR_WHOM,
    As,
    AsOption,
    File,
    answer,
    open_book,
    refuse,
    say,
)

if TYPE_CHECKING:
    from stash.actions.tag import Asked
    from stash.costing.label import Place
    from stash.rendering.tag import Facts


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(tag)


def tag(
    article: Annotated[str, typer.Argument(help="An article's number, or its piece's name.")],
    place: Annotated[
        str, typer.Option(help="Whose rules: eu, uk or us; else as your setting `place`.")
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
    from stash.actions.tag import Asked
    from stash.parsing.design import piece
    from stash.rendering import tag as tag_words

    asked = Asked(_place(place), functional or [], piece.whom(whom))
    facts = _facts(article, asked, file)
    if target is not None:
        writing.write(target, tag_words.sheet(facts) + "\n", over=over)
        say(f"The tag of batch {facts.batch} is in {target}")
        return
    answer(
        how,
        lambda: tag_words.keys(facts),
        lambda: tag_words.sheet(facts),
        lambda: list(tag_words.rows(facts)),
    )


def _place(text: str) -> Place | None:
    from stash.parsing import settings

    return settings.place(text) if text else None


def _facts(article: str, asked: Asked, file: Path | None) -> Facts:
    from stash.actions.tag import tag
    from stash.parsing import care, facts
    from stash.rendering import tag as tag_words

    for fibre in asked.functional:
        if not facts.known_fibre(fibre):
            refuse(f"{fibre!r} is no fibre known here: write it like elastane or nylon")
    found = tag(open_book(file), article, asked)
    hers = found.settings
    return tag_words.Facts(
        batch=found.article.number,
        name=found.article.piece,
        made_on=found.made_on,
        content=found.content,
        sources=[(source.lot, source.skeins, source.mass) for source in found.sources],
        care={source.lot.ref: care.care(source.lot.care) for source in found.sources},
        estimated=found.estimated,
        shape=found.shape,
        whom=found.whom,
        warnings=found.warnings,
        minded=found.cautions,
        maker=tag_words.Maker(hers.maker, hers.address, hers.contact),
    )
