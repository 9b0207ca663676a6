"""What is missing, and what to buy for it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.batching import Watch, plan_typed, stopped_by_hand
from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    open_book,
    page_of,
    refuse,
    settings_of,
    whole,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.parsing.wish.typed import by_role

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.match import NeedAsked
    from stash.actions.short import ShortAsked
    from stash.parsing.wish.typed import WishWords
    from stash.planning.shopping.shopping import Offer


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(asks_the_shelf(short))


def short(
    plan: Annotated[
        Path | None, typer.Argument(metavar="FILE", help="A plan, as for `stash batch`.")
    ] = None,
    want: Annotated[
        list[str] | None, typer.Option("--want", help="'Winter hat=6'. Repeat for more.")
    ] = None,
    need: Annotated[
        list[str] | None,
        typer.Option(
            "--need", metavar="A=AMOUNT", help="What you need: A=1250yd or A=21oz. Repeat for more."
        ),
    ] = None,
    count: Annotated[int, typer.Option(help="With --need: how many you make, as 2.")] = 1,
    thickness: Annotated[
        str, typer.Option("--thickness", help="With --need: DK, worsted, 4.")
    ] = "",
    put_up: Annotated[
        str, typer.Option("--full", help="With --need by weight: a full skein, as 100g/180m.")
    ] = "",
    strands: Annotated[
        str, typer.Option(help="With --need: how many strands you hold together.")
    ] = "",
    offer: Annotated[
        list[str] | None,
        typer.Option(
            "--offer", help="A yarn you could buy: 'Fell Wool 50g/120m 4.50'. Repeat for more."
        ),
    ] = None,
    how: AsOption = As.TEXT,
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """What is missing, and what to buy. Of what you want, or of what is set aside."""
    if words.two_lots or words.apart:
        refuse("bought_in_one_lot")
    book = open_book(file)
    if not (plan or want or need):
        if offer or put_up or thickness or strands or count != 1:
            refuse("nothing_to_buy_for")
        _show_items(book, how)
        return
    if need and (plan or want):
        refuse("need_alone")
    if put_up and not need:
        refuse("put_up_of_need")
    wanted = _asked(book, plan, want or [], words)
    if need:
        typed = _typed_need(need, thickness, put_up, strands)
        wanted = replace(wanted, need=typed, count=whole("--count", count, 10_000))
    _show(book, replace(wanted, offers=_offers(offer or [], file)), how)


def _asked(book: Book, plan: Path | None, wants: Sequence[str], words: WishWords) -> ShortAsked:
    from stash.actions.short import ShortAsked
    from stash.exchange.batch_read import batch_read

    read = batch_read(book, plan_typed(plan, wants)).wants if plan or wants else ()
    return ShortAsked(read, wish_typed(words))


def _typed_need(need: Sequence[str], thickness: str, put_up: str, strands: str) -> NeedAsked:
    from stash.actions.match import NeedAsked
    from stash.parsing import facts, quantities, to_buy
    from stash.parsing.design import design
    from stash.rendering.short import usual_length

    classes = facts.thickness(thickness) if thickness else None
    pair = quantities.put_up(put_up) if put_up else None
    lengths = {}
    for role, text in by_role(need, "--need").items():
        lengths[role], usual = to_buy.need(text, pair, classes)
        if usual:
            note(usual_length(role, usual))
    return NeedAsked(
        lengths=lengths,
        thickness=classes,
        strands=design.strands(strands) if strands else 1,
    )


def _offers(texts: Sequence[str], file: Path | None) -> tuple[Offer, ...]:
    from stash.parsing.to_buy import offer

    currency = settings_of(file).currency if texts else ""
    return tuple(offer(text, currency) for text in texts)


def _show(book: Book, wanted: ShortAsked, how: As) -> None:
    from stash.actions.short import short
    from stash.rendering import short as rendered

    watch = Watch()
    with stopped_by_hand(watch):
        found = short(book, wanted, watch.stop, watch.now_doing)
    answer(
        how,
        lambda: rendered.keys(found),
        lambda: rendered.text(found, page_of(found.settings)),
        lambda: list(rendered.rows(found)),
    )
    if not found.basket.least:
        note(rendered.NOT_PROVED)


def _show_items(book: Book, how: As) -> None:
    from stash.actions.short import short_items
    from stash.rendering import short_items as rendered

    short = short_items(book)
    facts, shown_on = rendered.keys(short.found), page_of(short.settings)
    answer(how, lambda: facts, lambda: rendered.text(short.found, shown_on), lambda: facts)
