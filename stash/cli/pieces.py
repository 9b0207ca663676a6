"""Pieces and what they need."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    begun,
    begun_book,
    open_book,
    refuse,
    say,
    settings_of,
    units_in,
)
from stash.cli.match_options import Margin
from stash.cli.piece_options import describes_a_piece
from stash.rendering.paint import strong

if TYPE_CHECKING:
    from stash.actions.pieces import Kept
    from stash.actions.preferences import Preferences
    from stash.parsing.design.piece import PieceWords
    from stash.rendering.amounts import Units
    from stash.requirements.yarn.design_context import Known
    from stash.requirements.yarn.need import Need, RoleNeed


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(need)
    pieces = typer.Typer(help="The pieces you make: their plans and needs.", no_args_is_help=True)
    pieces.command()(add)
    pieces.command(name="list")(listed)
    pieces.command()(show)
    pieces.command()(change)
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
    from stash.rendering import keys

    known, settings = known_piece(piece, words, margin, file)
    asked = known.need(known.piece)
    answer(
        how,
        lambda: keys.need(asked),
        lambda: need_text(asked, units_typed(settings, words)),
        lambda: need_rows(asked),
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
) -> tuple[Known, Preferences]:
    """A kept piece with what is known of it, or one described with options; and her settings."""
    from stash.actions import pieces
    from stash.parsing.design import piece as piece_typed

    share = piece_typed.margin(margin) if margin else None
    if piece:
        if words != piece_typed.PieceWords(terms=words.terms):
            refuse("name a kept piece or describe one with options, not both")
        kept = pieces.show(open_book(file), piece, share)
        return kept.known, kept.settings
    hers = pieces.her_pieces(open_book(file)) if begun(file) else pieces.HerPieces()
    described = piece_typed.piece(in_her_words(words, hers.settings))
    return hers.known_for(described, share), hers.settings


def need_rows(asked: Need) -> list[dict[str, Any]]:
    """A need as flat rows, one a role."""
    from stash.rendering import keys

    roles = keys.need(asked)["roles"]
    return [
        {"role": name, **{k: v for k, v in facts.items() if k != "others"}}
        for name, facts in roles.items()
    ]


def need_text(asked: Need, units: Units) -> str:
    """A need for reading: a line for each colour, then what to know of it."""
    from stash.rendering.columns import columns
    from stash.rendering.drawing import drawing

    rows = [_role_row(role, units) for role in asked.roles]
    lines = [columns(rows)]
    for role in asked.roles:
        lines += [
            f"   {role.role} by {figure.source}: {units.estimate(figure.estimate.expected_m)}"
            f" ± {units.estimate(figure.estimate.spread_m)}"
            for figure in role.others
        ]
    lines += [
        f"   of it {line.role} for {line.what}: {units.estimate(line.expected_m)} ({line.source})"
        for line in asked.lines
    ]
    lines += [f"   {text}" for text in asked.notes]
    drawn = drawing(asked, sys.stdout.encoding or "utf-8")
    return "\n".join([*lines, *(["", *(f"   {row}" for row in drawn)] if drawn else [])])


def _role_row(role: RoleNeed, units: Units) -> list[str]:
    from stash.rendering.amounts import grams_up

    weight = "" if role.set_aside_g is None else f", {grams_up(role.set_aside_g)}"
    each = units.set_aside(role.set_aside_m / role.strands)
    strands = f" ({role.strands} strands of {each})" if role.strands > 1 else ""
    return [
        strong(role.role),
        f"{units.estimate(role.estimate.expected_m)} expected",
        f"± {units.estimate(role.estimate.spread_m)}",
        strong(f"set aside {units.set_aside(role.set_aside_m)}{weight}{strands}"),
        f"margin {role.margin:.0%}",
        f"by {role.source}",
    ]


@describes_a_piece
def add(
    words: PieceWords,
    name: Annotated[str, typer.Argument(help="What you call it.")],
    file: File = None,
) -> None:
    """Keep a plan under a name."""
    from stash.actions import pieces
    from stash.parsing.design import piece as piece_typed

    if not name.strip() or name.strip().isdigit():
        refuse(f"{name!r} cannot be the name of a piece: give it a word, so that it is no number")
    settings = settings_of(file)
    words = replace(in_her_words(words, settings), name=name.strip())
    plan = piece_typed.piece(words)
    with begun_book(file) as book:
        number, asked = pieces.add(book, plan)
    say(f"Kept {strong(plan.name)}  (entry {number})")
    say(need_text(asked, units_typed(settings, words)))


def listed(how: AsOption = As.TEXT, file: File = None) -> None:
    """Every piece with its need."""
    from stash.actions import pieces

    kept = pieces.listed(open_book(file))
    answer(
        how,
        lambda: [kept_keys(one) for one in kept],
        lambda: "\n".join(_kept_text(one) for one in kept) or _no_pieces(),
        lambda: [{"piece": k.piece.name, **row} for k in kept for row in need_rows(k.need)],
    )


def _no_pieces() -> str:
    return "no piece is kept yet; `stash piece add NAME --shape …` keeps one"


def kept_keys(kept: Kept) -> dict[str, Any]:
    """A kept piece with stable keys: its plan and its need."""
    from stash.actions.pieces import plan_keys
    from stash.rendering import keys

    return {"piece": kept.piece.name, "plan": plan_keys(kept.piece), "need": keys.need(kept.need)}


def _kept_text(kept: Kept) -> str:
    shape = f", {kept.piece.shape}" if kept.piece.shape else ""
    need = need_text(kept.need, units_in(kept.settings))
    return f"{strong(kept.piece.name)}{shape}\n{need}"


def show(
    name: Annotated[str, typer.Argument(help="The piece.")],
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """One piece with its need, your own finished articles counted in."""
    from stash.actions import pieces

    kept = pieces.show(open_book(file), name)
    answer(
        how,
        lambda: kept_keys(kept),
        lambda: _kept_text(kept),
        lambda: need_rows(kept.need),
    )


@describes_a_piece
def change(
    words: PieceWords,
    name: Annotated[str, typer.Argument(help="The piece.")],
    new_name: Annotated[str, typer.Option("--name", help="Another name for it.")] = "",
    file: File = None,
) -> None:
    """Put a kept plan right; what you leave out stays as it is."""
    from stash.actions import pieces
    from stash.parsing.design import piece as piece_typed

    book = open_book(file)
    hers = pieces.her_pieces(book)
    words = replace(in_her_words(words, hers.settings), name=new_name.strip())
    plan = piece_typed.put_right(hers.plan(name), words)
    number, asked = pieces.change(book, name, plan)
    say(f"Put right {strong(plan.name)}  (entry {number})")
    say(need_text(asked, units_typed(hers.settings, words)))
