"""The sale tag of an article."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import As, AsOption, File, answer, open_book, refuse, say, settings_of

if TYPE_CHECKING:
    from stash.costing.label import Place
    from stash.wording.tag_words import Facts


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(tag)


def tag(
    article: Annotated[str, typer.Argument(help="An article's number, or its piece's name.")],
    place: Annotated[
        str, typer.Option(help="Whose rules: eu or us; else as your setting `regain`.")
    ] = "",
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
    """What a sale tag must say. Fibres by grams used, care in words, batch and cautions."""
    from stash.actions import writing
    from stash.wording import tag_words

    facts = _facts(article, _place(place, file), functional or [], file)
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


def _place(text: str, file: Path | None) -> Place:
    from stash.wording import settings

    return settings.place(text or settings_of(file).regain)


def _facts(article: str, place: Place, functional: list[str], file: Path | None) -> Facts:
    from stash.actions.tag import tag
    from stash.wording import facts, tag_words

    for fibre in functional:
        if not facts.known_fibre(fibre):
            refuse(f"{fibre!r} is no fibre known here: write it like elastane or nylon")
    found = tag(open_book(file), article, place, functional)
    return tag_words.Facts(
        batch=found.article.number,
        name=found.article.piece,
        made_on=found.made_on,
        content=found.content,
        sources=[(source.lot, source.skeins, source.mass) for source in found.sources],
        for_child=found.for_child,
        hat=found.hat,
        small=found.small,
    )
