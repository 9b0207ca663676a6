"""What is missing, and what to buy for it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.batching import Watch, plan_typed, read_plan, stopped_by_hand
from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    open_book,
    refuse,
    settings_of,
    units_in,
    whole,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.parsing.wish.typed import by_role
from stash.rendering.paint import patch, strong

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.match import NeedAsked
    from stash.actions.short import ArticleShort, ShortAsked
    from stash.parsing.wish.typed import WishWords
    from stash.planning.shopping.shopping import Offer
    from stash.rendering.amounts import Units


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(asks_the_shelf(short))


def short(
    plan: Annotated[
        Path | None, typer.Argument(help="A plan as for `stash batch`.", show_default=False)
    ] = None,
    want: Annotated[list[str] | None, typer.Option("--want", help="'PIECE=6'; repeat it.")] = None,
    need: Annotated[
        list[str] | None, typer.Option("--need", help="A=1250yd, or A=21oz; repeat it.")
    ] = None,
    count: Annotated[int, typer.Option(help="With --need: how many of it.")] = 1,
    thickness: Annotated[
        str, typer.Option("--class", help="With --need: thickness class or name.")
    ] = "",
    put_up: Annotated[
        str, typer.Option("--put-up", help="With --need in grams: its yarn, as 100g/180m.")
    ] = "",
    strands: Annotated[str, typer.Option(help="With --need: how many strands it is over.")] = "",
    offer: Annotated[
        list[str] | None,
        typer.Option("--offer", help="A yarn to be had: 'Fell Wool 50g/120m 4.50'; repeat it."),
    ] = None,
    how: AsOption = As.TEXT,
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """What is missing for what you want, in whole skeins to buy. Alone: what was set aside."""
    if words.two_lots or words.apart:
        refuse("each role is bought in one lot: leave out --two-lots and --strands-apart")
    book = open_book(file)
    if not (plan or want or need):
        if offer or put_up or thickness or strands or count != 1:
            refuse("say what is wanted: --want 'PIECE=6', or --need A=1250yd")
        _show_articles(book, how)
        return
    if need and (plan or want):
        refuse("--need is a want by itself: leave out the plan and --want")
    if put_up and not need:
        refuse("--put-up says what --need in grams is of; a kept piece has its own")
    wanted = _asked(book, plan, want or [], words)
    if need:
        typed = _typed_need(need, thickness, put_up, strands)
        wanted = replace(wanted, need=typed, count=whole("--count", count, 10_000))
    _show(book, replace(wanted, offers=_offers(offer or [], file)), how)


def _asked(book: Book, plan: Path | None, wants: Sequence[str], words: WishWords) -> ShortAsked:
    from stash.actions.short import ShortAsked

    read = read_plan(book, plan_typed(plan, wants)).wants if plan or wants else ()
    return ShortAsked(read, wish_typed(words))


def _typed_need(need: Sequence[str], thickness: str, put_up: str, strands: str) -> NeedAsked:
    from stash.actions.match import NeedAsked
    from stash.parsing import facts, quantities, to_buy
    from stash.parsing.design import piece

    classes = facts.thickness(thickness) if thickness else None
    pair = quantities.put_up(put_up) if put_up else None
    lengths = {}
    for role, text in by_role(need, "--need").items():
        lengths[role], usual = to_buy.need(text, pair, classes)
        if usual:
            note(
                f"note: {role}: {usual} m to 100 g is taken, as is usual for the class; its yarns "
                "lie a fifth above and below, so give the put-up if it can be found"
            )
    return NeedAsked(
        lengths=lengths,
        thickness=classes,
        strands=piece.strands(strands) if strands else 1,
    )


def _offers(texts: Sequence[str], file: Path | None) -> tuple[Offer, ...]:
    from stash.parsing.to_buy import offer

    currency = settings_of(file).currency if texts else ""
    return tuple(offer(text, currency) for text in texts)


def _show(book: Book, wanted: ShortAsked, how: As) -> None:
    from stash.actions.short import short
    from stash.rendering import short as short_words
    from stash.rendering.amounts import Page

    watch = Watch()
    with stopped_by_hand(watch):
        found = short(book, wanted, watch.stop, watch.tell)
    currency = found.settings.currency
    page = Page(units_in(found.settings), currency, strong, patch)
    told = found.batch, found.shortfall, found.basket
    answer(
        how,
        lambda: short_words.keys(*told, currency),
        lambda: short_words.text(*told, page),
        lambda: list(short_words.rows(*told)),
    )
    if not found.basket.least:
        note("note: a cheaper way of buying was not ruled out")


def _show_articles(book: Book, how: As) -> None:
    from stash.actions.short import short_articles

    short = short_articles(book)
    found, units = short.found, units_in(short.settings)
    answer(
        how,
        lambda: [_article_keys(one) for one in found],
        lambda: _articles_text(found, units),
        lambda: [_article_keys(one) for one in found],
    )


def _article_keys(one: ArticleShort) -> Mapping[str, Any]:
    from stash.rendering import keys

    return {
        "article": one.article.number,
        "piece": one.article.piece or None,
        "role": one.promise.role or None,
        "skein": one.skein.number,
        "lot_ref": one.lot.lot.ref,
        "short_g": one.mass.g if one.skein.mass_known else None,
        "short_m": keys.metres(one.length),
        "same_lot_free_m": keys.metres(one.free),
    }


def _articles_text(found: Sequence[ArticleShort], units: Units) -> str:
    if not found:
        return (
            "Everything that is set aside is there. Ask what a want lacks with "
            "--want 'PIECE=6', or --need A=1250yd"
        )
    return "\n".join(line for one in found for line in _article_lines(one, units))


def _article_lines(one: ArticleShort, units: Units) -> list[str]:
    from stash.rendering import amounts

    lot, number = one.lot.lot, one.article.number
    role = f", {one.promise.role}" if one.promise.role else ""
    length = f"{units.take(one.length)}, " if one.length else ""
    lacks = f"{length}{amounts.grams(one.mass)} of skein {one.skein.number} are no longer there"
    free = f"{units.yarn(one.free)} more of its lot are free" if one.free else ""
    same = f"as much of {lot.ref}, {lot.colour_words}, {lot.yarn}, {lot.lot_words}"
    return [
        f"{strong(f'Article {one.article}')}{role}: {lacks}",
        f"  {free or f'buy {same}'}; or `stash release {number}` and set other yarn aside",
    ]
