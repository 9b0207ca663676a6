"""What on the shelf can become a design."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    Thick,
    answer,
    design_meant,
    in_her_units,
    note,
    open_book,
    refuse,
    whole,
)
from stash.cli.match_options import asks_the_shelf, wish_typed
from stash.cli.ordered import said_to_be_short
from stash.parsing.wish.typed import by_role

if TYPE_CHECKING:
    from stash.actions.match import NeedAsked
    from stash.measures.length import Length
    from stash.parsing.wish.typed import WishWords


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(asks_the_shelf(match))


def match(
    design: Annotated[
        str, typer.Argument(help="A design you saved; or type what you need with --need.")
    ] = "",
    need: Annotated[
        list[str] | None, typer.Option("--need", help="What you need: A=165m. Repeat for more.")
    ] = None,
    thickness: Thick = "",
    strands: Annotated[
        str, typer.Option(help="With --need: how many strands you hold together.")
    ] = "",
    top: Annotated[int, typer.Option(help="How many sets to look for; 20 if left out.")] = 20,
    everything: Annotated[bool, typer.Option("--all", help="Show every set, best first.")] = False,
    how: AsOption = As.TEXT,
    file: File = None,
    *,
    words: WishWords,
) -> None:
    """Which of your yarns can make it? The best sets first, with what almost fits."""
    from stash.actions.match import propose
    from stash.actions.order import takes_of
    from stash.rendering import keys
    from stash.rendering import match as rendering
    from stash.rendering.sentences.say import sentence

    whole("--top", top, 1_000_000)
    if design or not (need or thickness or strands):
        design = design_meant(file, design)
    asked = _asked(design, need or [], thickness, strands)
    wish = replace(wish_typed(words), top=None if everything else top)
    book = open_book(file)
    found = propose(book, asked, wish)
    in_her_units(found.settings)
    chosen = {role.role for role in found.match.need.roles} <= wish.fixed.keys()
    if words.margin:
        for one in found.match.need.notes:
            note(f"note: {sentence(one)}")
    answer(
        how,
        lambda: keys.match(found.match),
        lambda: rendering.text(found, everything=everything, chosen=chosen, contrast=wish.contrast),
        lambda: rendering.rows(found.match),
    )
    said_to_be_short(book, takes_of(found.match.proposals))


def _asked(design: str, need: Sequence[str], thickness: str, strands: str) -> NeedAsked:
    from stash.actions.match import NeedAsked

    lengths = by_role(need, "--need")
    if not design and not lengths:
        refuse("nothing_to_match")
    if design and (lengths or thickness or strands):
        refuse("kept_design_has_its_own")
    return NeedAsked(
        design=design,
        lengths=_lengths(lengths),
        thickness=_thickness(thickness),
        strands=_strands(strands),
    )


# each reads its own words only when there are some: pint and the patterns take their time to load


def _lengths(texts: Mapping[str, str]) -> dict[str, Length]:
    if not texts:
        return {}
    from stash.parsing import quantities

    lengths = {role: quantities.length(text) for role, text in texts.items()}
    for role, length in lengths.items():
        if not length:
            refuse("need_option_of_nothing", role=role, typed=texts[role])
    return lengths


def _strands(text: str) -> int:
    if not text:
        return 1
    from stash.parsing.design import design as design_typed

    return design_typed.strands(text)


def _thickness(text: str) -> tuple[int, int] | None:
    if not text:
        return None
    from stash.parsing import facts

    return facts.thickness(text)
