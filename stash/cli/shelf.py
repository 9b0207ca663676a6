"""Looking at the shelf, at one skein and at one article."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import islice
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    open_book,
    refuse,
    units_in,
)
from stash.rendering.paint import patch, strong

if TYPE_CHECKING:
    from stash.actions.show import ArticleStory, AsideLine, Filters, Order
    from stash.rendering.amounts import Units
    from stash.stock.holding import HeldLot


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command(name="shelf")(look)
    app.command()(show)


def look(
    words: Annotated[
        list[str] | None, typer.Argument(help="Words to find; misspelt is fine.")
    ] = None,
    thickness: Annotated[str, typer.Option("--class", help="Thickness class or name.")] = "",
    fibre: Annotated[str, typer.Option(help="Part of the fibre content.")] = "",
    colour: Annotated[str, typer.Option(help="Part of the colour.")] = "",
    lot: Annotated[str, typer.Option(help="Dye lot, exactly.")] = "",
    place: Annotated[str, typer.Option(help="Part of the place.")] = "",
    owner: Annotated[str, typer.Option(help="Whose it is.")] = "",
    free: Annotated[str, typer.Option(help="At least so much free, as 80m.")] = "",
    family: Annotated[str, typer.Option(help="red, orange, … brown, grey, black or white.")] = "",
    condition: Annotated[
        list[str] | None,
        typer.Option("--condition", help="Under this condition; none: under no condition."),
    ] = None,
    daylight: Annotated[bool, typer.Option("--daylight", help="Looked at in daylight.")] = False,
    lone: Annotated[bool, typer.Option("--lone", help="Whole skeins that are alone.")] = False,
    remnants: Annotated[bool, typer.Option("--remnants", help="Lots with remnants.")] = False,
    spent: Annotated[bool, typer.Option("--spent", help="Used-up skeins as well.")] = False,
    sort: Annotated[str, typer.Option(help="name, free, class, colour, place or age.")] = "",
    aside: Annotated[bool, typer.Option("--aside", help="What is promised to what.")] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What lies on the shelf. Held, free and set aside, by yarn, colour and lot."""
    from stash.actions import show as show_action
    from stash.rendering import keys

    book = open_book(file)
    if aside:
        promised = show_action.set_aside(book)
        lines, units = promised.lines, units_in(promised.settings)
        facts = [_aside_keys(line) for line in lines]
        answer(how, lambda: facts, lambda: _aside_text(lines, units), lambda: facts)
        return
    filters = show_action.Filters(
        words=" ".join(words or []), fibre=fibre, colour=colour, lot=lot, place=place, owner=owner,
        with_spent=spent, daylight=daylight, lone=lone, remnants=remnants,
    )  # fmt: skip
    filters = _narrowed(filters, thickness, free, family, condition)
    shelf = show_action.shelf(book, filters, _order(sort))
    lots, units, scale = shelf.lots, units_in(shelf.settings), shelf.settings.scale
    answer(
        how,
        lambda: [keys.held_lot(held, scale) for held in lots],
        lambda: _shelf_text(lots, units) if lots else _none_text(filters),
        lambda: [row for held in lots for row in _skein_rows(held)],
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


def _order(text: str) -> Order | None:
    from stash.actions.show import Order

    if not text:
        return None
    if text.strip().lower() not in set(Order):
        refuse(f"cannot sort by {text!r}: choose {', '.join(Order)}")
    return Order(text.strip().lower())


def _skein_rows(held: HeldLot) -> list[dict[str, Any]]:
    from stash.rendering import keys

    facts = keys.lot_facts(held.lot)
    return [{**facts, **keys.held_skein(skein)} for skein in held.skeins]


def _none_text(filters: Filters) -> str:
    if filters in (type(filters)(), type(filters)(with_spent=True)):
        return "the shelf is empty; bring yarn in with `stash add` or `stash import`"
    return "nothing on the shelf answers to that; `stash shelf` shows it all"


def _shelf_text(lots: Sequence[HeldLot], units: Units) -> str:
    from stash.rendering import amounts as shown
    from stash.rendering.columns import columns

    # all rows in one go, so that the columns run through under every yarn
    groups = _by_yarn(lots)
    rows = iter(columns([_lot_row(x, units) for _, same in groups for x in same], "  ").split("\n"))
    blocks = [line for name, same in groups for line in (strong(name), *islice(rows, len(same)))]
    skeins = sum(len(held.skeins) for held in lots)
    total = f"{shown.counted(len(lots), 'lot')}, {shown.counted(skeins, 'skein')}"
    return "\n".join([*blocks, total])


def _by_yarn(lots: Sequence[HeldLot]) -> list[tuple[str, list[HeldLot]]]:
    groups: dict[str, list[HeldLot]] = {}
    for held in lots:
        facts = held.lot
        heading = f"{facts.yarn}, {_class_words(facts.class_from, facts.class_to)}"
        groups.setdefault(f"{heading}{', ' if facts.fibre else ''}{facts.fibre}", []).append(held)
    return list(groups.items())


def _class_words(low: int | None, high: int | None) -> str:
    if low is None:
        return "class not known"
    return f"class {low}" if high in (None, low) else f"class {low} to {high}"


def _lot_row(held: HeldLot, units: Units) -> list[str]:
    from stash.rendering import amounts as shown

    lot = held.lot
    grams = shown.grams(held.free) if all(s.mass_known for s in held.skeins) else "not weighed"
    length = held.free_length
    free = (
        f"{units.yarn(length)} free, {grams}"
        if length is not None
        else f"{grams} free, length not known"
    )
    aside = held.held - held.free
    return [
        lot.ref,
        f"{patch(lot)}{shown.colour(lot)}",
        lot.lot_words,
        _skein_words(held),
        free,
        f"{shown.grams(aside)} set aside" if aside else "",
        ", ".join(dict.fromkeys(s.place for s in held.skeins if s.place)),
        ", ".join(condition.value for condition in lot.conditions),
    ]


def _skein_words(held: HeldLot) -> str:
    """Which skeins, and how they stand: `17-19 whole, 21 opened`."""
    from stash.rendering import amounts as shown

    states: dict[str, list[int]] = {}
    for skein in held.skeins:
        states.setdefault(skein.state.value, []).append(skein.number)
    return ", ".join(f"{shown.numbers(found)} {state}" for state, found in states.items())


def _aside_keys(line: AsideLine) -> dict[str, Any]:
    from stash.rendering import keys

    return {
        "article": line.article.number,
        "piece": line.article.piece or None,
        "note": line.article.note or None,
        "state": line.article.state.value,
        "role": line.promise.role or None,
        "skein": line.promise.skein,
        "lot_ref": line.lot.ref,
        "place": line.place or None,
        "set_aside_g": line.promise.mass.g,
        "set_aside_m": keys.metres(line.promise.length),
    }


def _aside_text(lines: Sequence[AsideLine], units: Units) -> str:
    if not lines:
        return "nothing is set aside"
    from stash.rendering import amounts as shown
    from stash.rendering.columns import columns

    rows = [
        [
            f"article {line.article}",
            line.article.state.value,
            line.promise.role,
            f"skein {line.promise.skein}",
            f"{patch(line.lot)}{shown.colour(line.lot)}, {line.lot.yarn}",
            f"{units.yarn(line.promise.length)}, {shown.grams(line.promise.mass)}",
            line.place,
        ]
        for line in lines
    ]
    return columns(rows)


def show(
    what: Annotated[str, typer.Argument(help="A skein (number or words) or `article 3`.")],
    number: Annotated[str, typer.Argument(help="The article's number or piece.")] = "",
    spread: Annotated[
        bool, typer.Option("--spread", help="How sure its length is, reason by reason.")
    ] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """All that is known of a skein or article. Facts, history, and the trace both ways."""
    from stash.actions.show import ArticleStory, article_story
    from stash.actions.show import story as story_of
    from stash.rendering import stories

    book = open_book(file)
    if what.lower() == "article" and number:
        _show_article(article_story(book, number), how)
        return
    story = story_of(book, f"{what} {number}".strip())
    if isinstance(story, ArticleStory):
        _show_article(story, how)
        return
    units = units_in(story.settings)
    if story.said:
        note(story.said)
    answer(
        how,
        lambda: stories.skein_keys(story),
        lambda: stories.spread_text(story, units) if spread else stories.skein_text(story, units),
        lambda: stories.moved_rows(story.moved),
    )


def _show_article(story: ArticleStory, how: As) -> None:
    from stash.rendering import stories

    units = units_in(story.settings)
    answer(
        how,
        lambda: stories.article_keys(story),
        lambda: stories.article_text(story, units),
        lambda: stories.moved_rows(story.moved),
    )
