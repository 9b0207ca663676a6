"""Pieces and what they need."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    begun,
    begun_book,
    open_book,
    page,
    page_of,
    refuse,
    say,
    settings_of,
    units_in,
)
from stash.cli.match_options import Margin
from stash.cli.piece_options import describes_a_piece

if TYPE_CHECKING:
    from stash.actions.preferences import Preferences
    from stash.parsing.design.piece import PieceWords
    from stash.rendering.amounts import Units
    from stash.requirements.yarn.design_context import DesignContext


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(need)
    pieces = typer.Typer(help="The pieces you make: their plans and needs.", no_args_is_help=True)
    for name, command in (
        ("add", add_piece),
        ("list", list_pieces),
        ("show", show_piece),
        ("change", change_piece),
    ):
        pieces.command(name=name)(command)
    app.add_typer(pieces, name="piece")


@describes_a_piece
def need(
    words: PieceWords,
    piece: Annotated[str, typer.Argument(help="A kept piece; else say it with options.")] = "",
    margin: Margin = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """The yarn a piece takes of each colour. Expected, spread, to set aside, and its source."""
    from stash.rendering import need as rendered

    known, settings = known_piece(piece, words, margin, file)
    asked = known.need(known.piece)
    answer(
        how,
        lambda: rendered.keys(asked),
        lambda: rendered.text(asked, page(units_typed(settings, words))),
        lambda: rendered.rows(asked),
    )


def units_typed(settings: Preferences, words: PieceWords) -> Units:
    """The units she set; else those she typed this piece in."""
    from stash.parsing.quantities import mostly_yards

    if "units" in (settings.kept or {}):
        return units_in(settings)
    typed = (words.around, words.tall, words.wide, words.long, words.put_up, *words.stated)
    return units_in(replace(settings, units="yards") if mostly_yards(typed) else settings)


def in_her_words(words: PieceWords, settings: Preferences) -> PieceWords:
    """Her names of stitches, and the sides of a size of her own where none is typed beside it."""
    hers = settings.size(words.size) or {}
    sides = tuple((name, side) for name, side in hers.items() if not getattr(words, name))
    return replace(
        words, terms=words.terms or settings.terms, scale_step=settings.scale_step, sides=sides
    )


def known_piece(
    piece: str, words: PieceWords, margin: str, file: Path | None
) -> tuple[DesignContext, Preferences]:
    """A kept piece with what is known of it, or one described with options; and her settings."""
    from stash.actions import pieces
    from stash.parsing.design import piece as piece_typed

    share = piece_typed.margin(margin) if margin else None
    if piece:
        if words != piece_typed.PieceWords(terms=words.terms):
            refuse("named_and_described")
        kept = pieces.show(open_book(file), piece, share)
        return kept.known, kept.settings
    hers = pieces.her_pieces(open_book(file)) if begun(file) else pieces.HerPieces()
    described = piece_typed.piece(in_her_words(words, hers.settings))
    return hers.known_for(described, share), hers.settings


@describes_a_piece
def add_piece(
    words: PieceWords,
    name: Annotated[str, typer.Argument(help="What you call it.")],
    file: File = None,
) -> None:
    """Keep a plan under a name."""
    from stash.actions import pieces
    from stash.parsing.design import piece as piece_typed
    from stash.rendering import pieces as rendered

    if not name.strip() or name.strip().isdigit():
        refuse("no_name_of_a_piece", name=name)
    settings = settings_of(file)
    words = replace(in_her_words(words, settings), name=name.strip())
    plan = piece_typed.piece(words)
    with begun_book(file) as book:
        number, asked = pieces.add_piece(book, plan)
    say(rendered.added_text(number, plan, asked, page(units_typed(settings, words))))


def list_pieces(how: AsOption = As.TEXT, file: File = None) -> None:
    """Every piece with its need."""
    from stash.actions import pieces
    from stash.rendering import pieces as rendered

    kept = pieces.listed(open_book(file))
    shown_on = page_of(kept[0].settings) if kept else page()
    answer(
        how,
        lambda: [rendered.keys(one) for one in kept],
        lambda: rendered.text(kept, shown_on),
        lambda: rendered.rows(kept),
    )


def show_piece(
    name: Annotated[str, typer.Argument(help="The piece.")],
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """One piece with its need, your own finished articles counted in."""
    from stash.actions import pieces
    from stash.rendering import need
    from stash.rendering import pieces as rendered

    kept = pieces.show(open_book(file), name)
    answer(
        how,
        lambda: rendered.keys(kept),
        lambda: rendered.text([kept], page_of(kept.settings)),
        lambda: need.rows(kept.need),
    )


@describes_a_piece
def change_piece(
    words: PieceWords,
    name: Annotated[str, typer.Argument(help="The piece.")],
    new_name: Annotated[str, typer.Option("--name", help="Another name for it.")] = "",
    file: File = None,
) -> None:
    """Put a kept plan right; what you leave out stays as it is."""
    from stash.actions import pieces
    from stash.parsing.design import piece as piece_typed
    from stash.rendering import pieces as rendered

    book = open_book(file)
    hers = pieces.her_pieces(book)
    words = replace(in_her_words(words, hers.settings), name=new_name.strip())
    plan = piece_typed.put_right(hers.plan(name), words)
    number, asked = pieces.change_piece(book, name, plan)
    say(rendered.put_right_text(number, plan, asked, page(units_typed(hers.settings, words))))
