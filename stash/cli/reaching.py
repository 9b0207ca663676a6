"""What so much yarn makes of a design."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    in_her_units,
    open_book,
    page,
    patiently,
    refuse,
)
from stash.cli.design_options import describes_a_design
from stash.cli.designs import in_units_typed, known_design
from stash.cli.match_options import Margin
from stash.cli.ordered import said_to_be_short
from stash.parsing.wish.typed import by_role

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.parsing.design.design import DesignWords


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(reach)
    app.command()(ideas)


@describes_a_design
def reach(
    words: DesignWords,
    design: Annotated[str, typer.Argument(help="A design you saved; or describe one below.")] = "",
    have: Annotated[
        list[str] | None,
        typer.Option(
            "--have",
            help="You have: A=150m, B=43g, B=12 (a skein), A=80m+120m (two lots). Repeat for more.",
        ),
    ] = None,
    done: Annotated[
        int | None,
        typer.Option("--rows-done", help="Rows you have made; the rest is worked out from there."),
    ] = None,
    margin: Margin = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """How far your yarn goes. How large, how wide a band, and where to change lots."""
    from stash.actions import reach as reach_action
    from stash.parsing.at_hand import have as have_typed
    from stash.rendering import reach as rendered
    from stash.rendering import rows_left

    typed = have_typed(by_role(have or [], "--have"))
    if not typed:
        refuse("no_yarn_said")
    known, settings = known_design(design, words, margin, file)
    lots = reach_action.in_metres(known, typed, lambda: open_book(file))
    in_units_typed(settings, words)
    shown_on = page()
    if done is not None:
        left = rows_left.RowsLeft(known, reach_action.rows_left(known, lots, done), done)
        answer(
            how,
            lambda: rows_left.keys(left),
            lambda: rows_left.text(left, shown_on),
            lambda: rows_left.rows(left),
        )
        return
    found = reach_action.reached(known, lots)
    answer(
        how,
        lambda: rendered.keys(found),
        lambda: rendered.text(found, shown_on),
        lambda: list(rendered.rows(found)),
    )


def ideas(
    yarn: Annotated[
        str,
        typer.Argument(help="A skein (12), a lot (L4) or words (navy). Left out: the whole shelf."),
    ] = "",
    everything: Annotated[bool, typer.Option("--all", help="Show all of it.")] = False,
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """What could I make now? From your whole shelf, or from one skein or lot."""
    book = open_book(file)
    if yarn:
        _answer_yarn(book, yarn, how, everything=everything)
    else:
        _answer_shelf(book, how, everything=everything)


def _answer_yarn(book: Book, yarn: str, how: As, *, everything: bool) -> None:
    from stash.actions.ideas import from_yarn
    from stash.actions.order import LOOKED_AT
    from stash.rendering import from_yarn as rendering

    found = from_yarn(book, yarn, patiently("looking at {}"))
    in_her_units(found.settings)
    answer(
        how,
        lambda: rendering.keys(found),
        lambda: rendering.text(found, everything=everything),
        lambda: rendering.rows(found),
    )
    able = [use for use in found.uses if use.takes][:LOOKED_AT]
    said_to_be_short(book, {f"{u.reach.known.design.name}, {u.role}": u.takes for u in able})


def _answer_shelf(book: Book, how: As, *, everything: bool) -> None:
    from stash.actions.ideas import from_shelf
    from stash.actions.order import taken_by
    from stash.rendering import shelf_survey as rendering

    answered = from_shelf(book, patiently("looking at {}"))
    in_her_units(answered.settings)
    answer(
        how,
        lambda: rendering.keys(answered),
        lambda: rendering.text(answered, everything=everything),
        lambda: rendering.rows(answered),
    )
    best = {one.question.name: one.best for one in answered.found.designs}
    said_to_be_short(book, {name: taken_by(one) for name, one in best.items() if one})
