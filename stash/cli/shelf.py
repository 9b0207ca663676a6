"""Looking at the shelf, at one skein and at one item."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    Thick,
    answer,
    note,
    open_book,
    page_of,
    refuse,
)

if TYPE_CHECKING:
    from stash.actions.shelf import Filters, SortBy
    from stash.actions.show import ItemStory


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(shelf)
    app.command()(show)


def shelf(
    words: Annotated[
        list[str] | None, typer.Argument(help="What to look for, as navy; misspelt is fine.")
    ] = None,
    thickness: Thick = "",
    fibre: Annotated[str, typer.Option(help="What it is made of, as wool.")] = "",
    colour: Annotated[str, typer.Option(help="A colour, as blue, or part of its name.")] = "",
    lot: Annotated[str, typer.Option(help="The dye lot, as on the band.")] = "",
    place: Annotated[str, typer.Option(help="Where you keep it, as 'blue box'.")] = "",
    owner: Annotated[str, typer.Option(help="Whose yarn it is.")] = "",
    free: Annotated[str, typer.Option(help="At least so much free, as 80m or 90yd.")] = "",
    family: Annotated[str, typer.Option(help="red, orange, … brown, grey, black or white.")] = "",
    condition: Annotated[
        list[str] | None,
        typer.Option(
            "--condition", help="faded, quarantined, smoke or pets; none for yarn without any."
        ),
    ] = None,
    daylight: Annotated[
        bool, typer.Option("--daylight", help="Colours you have looked at in daylight.")
    ] = False,
    lone: Annotated[
        bool, typer.Option("--lone", help="Whole skeins with no other of their lot.")
    ] = False,
    remnants: Annotated[
        bool, typer.Option("--remnants", help="Lots with small leftovers.")
    ] = False,
    spent: Annotated[bool, typer.Option("--spent", help="With used-up skeins.")] = False,
    sort: Annotated[str, typer.Option(help="In which order.")] = "",
    aside: Annotated[
        bool, typer.Option("--aside", help="What is set aside, and for what.")
    ] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What is on your shelf. By yarn, colour and lot: what you have and what is free."""
    from stash.actions import shelf as shelf_action
    from stash.rendering import set_aside
    from stash.rendering import shelf as rendered

    book = open_book(file)
    if aside:
        promised = shelf_action.set_aside(book)
        lines, page = promised.lines, page_of(promised.settings)
        facts = set_aside.keys(lines)
        answer(how, lambda: facts, lambda: set_aside.text(lines, page), lambda: facts)
        return
    filters = shelf_action.Filters(
        words=" ".join(words or []), fibre=fibre, colour=colour, lot=lot, place=place, owner=owner,
        with_spent=spent, daylight=daylight, lone=lone, remnants=remnants,
    )  # fmt: skip
    filters = _narrowed(filters, thickness, free, family, condition)
    found = shelf_action.shelf(book, filters, _order(sort))
    lots, page, scale = found.lots, page_of(found.settings), found.settings.scale
    answer(
        how,
        lambda: rendered.keys(lots, scale),
        lambda: rendered.text(lots, page, narrowed=_narrows(filters), nearest=found.nearest),
        lambda: rendered.rows(lots),
    )


def _narrowed(
    filters: Filters, thickness: str, free: str, family: str, condition: list[str] | None
) -> Filters:
    """The filters with those that have to be read first."""
    from stash.parsing import facts, quantities

    if thickness:
        filters = replace(filters, thickness=facts.thickness(thickness))
    if free:
        filters = replace(filters, least_free=quantities.length(free))
    if family:
        filters = replace(filters, family=facts.family(family))
    if condition is not None:
        wanted = frozenset(facts.conditions(condition))
        filters = replace(filters, conditions=wanted, sound=not wanted)
    return filters


def _order(text: str) -> SortBy | None:
    from stash.actions.shelf import SortBy
    from stash.parsing.names import our_spelling

    if not text:
        return None
    ours = our_spelling(text.strip())
    if ours not in set(SortBy):
        refuse("cannot_sort", by=text, orders=tuple(SortBy))
    return SortBy(ours)


def _narrows(filters: Filters) -> bool:
    return filters not in (type(filters)(), type(filters)(with_spent=True))


def show(
    what: Annotated[str, typer.Argument(help="A skein (12), a lot (L4), words (navy), or item.")],
    number: Annotated[
        str,
        typer.Argument(
            metavar="ITEM", help="After the word item: its number, or the design's name."
        ),
    ] = "",
    spread: Annotated[
        bool, typer.Option("--spread", help="How sure its length is, and why.")
    ] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """All about a skein, a lot or an item. What it is, and where its yarn came from or went."""
    from stash.actions.show import ItemStory, LotStory, item_story
    from stash.actions.show import story as story_of
    from stash.rendering import show as rendered
    from stash.rendering.history import moved_rows

    book = open_book(file)
    if what.lower() == "item" and number:
        _show_item(item_story(book, number), how)
        return
    story = story_of(book, f"{what} {number}".strip(), one_skein=spread)
    if isinstance(story, ItemStory):
        _show_item(story, how)
        return
    page = page_of(story.settings)
    if isinstance(story, LotStory):
        lot = story
        answer(
            how,
            lambda: rendered.lot_keys(lot),
            lambda: rendered.lot_text(lot, page),
            lambda: rendered.lot_rows(lot),
        )
        return
    note(story.said)
    answer(
        how,
        lambda: rendered.skein_keys(story),
        lambda: rendered.spread_text(story, page) if spread else rendered.skein_text(story, page),
        lambda: moved_rows(story.history),
    )


def _show_item(story: ItemStory, how: As) -> None:
    from stash.rendering import show as rendered
    from stash.rendering.history import moved_rows

    page = page_of(story.settings)
    answer(
        how,
        lambda: rendered.item_keys(story),
        lambda: rendered.item_text(story, page),
        lambda: moved_rows(story.history),
    )
