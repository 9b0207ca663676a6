"""One design over a run of sizes and options."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    note,
    page,
    refuse,
)
from stash.cli.design_options import describes_a_design
from stash.cli.designs import in_units_typed, known_design
from stash.cli.match_options import Margin

if TYPE_CHECKING:
    from stash.parsing.design.design import DesignWords


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(grade)


@describes_a_design
def grade(
    words: DesignWords,
    design: Annotated[str, typer.Argument(help="A design you saved; or describe one below.")] = "",
    sizes: Annotated[
        str, typer.Option("--sizes", help="'child 5, ladies, 58cm x 24cm', or sizes of your own.")
    ] = "",
    brims: Annotated[
        str, typer.Option("--brims", help="Brims to try: 'none, 6cm'. Each adds to the height.")
    ] = "",
    choices: Annotated[
        str,
        typer.Option(
            "--bands", help="Bands to try: 'B 2cm, B 4cm, none'; two at once: 'B 2cm + C 1cm'."
        ),
    ] = "",
    margin: Margin = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """One design in several sizes. The yarn for each, rounded as in a printed pattern."""
    from stash.actions.grade import graded
    from stash.parsing.design import runs
    from stash.rendering import grade as rendered

    if not sizes:
        refuse("no_sizes")
    known, settings = known_design(design, replace(words, ease=""), margin, file)
    typed = runs.RunWords(sizes, brims, choices, words.ease)
    rows, not_made = graded(known, runs.run(typed, known.design, settings.own_size))
    table = rendered.Grading(known.design, rows, not_made)
    for no in table.not_made:
        note(rendered.not_made(no))
    in_units_typed(settings, words)
    answer(
        how,
        lambda: rendered.keys(table),
        lambda: rendered.text(table, page()),
        lambda: list(rendered.rows(table)),
    )
