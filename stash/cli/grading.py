"""One piece over a run of sizes and options."""

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
from stash.cli.match_options import Margin
from stash.cli.piece_options import describes_a_piece
from stash.cli.pieces import known_piece, units_typed

if TYPE_CHECKING:
    from stash.parsing.design.piece import PieceWords


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(grade)


@describes_a_piece
def grade(
    words: PieceWords,
    piece: Annotated[str, typer.Argument(help="A kept piece; else say it with options.")] = "",
    sizes: Annotated[
        str, typer.Option("--sizes", help="'child 4 years, woman, 58cm x 24cm', or your own.")
    ] = "",
    brims: Annotated[
        str, typer.Option("--brims", help="'none, 6cm': each is added to the height.")
    ] = "",
    choices: Annotated[
        str, typer.Option("--bands", help="'B 2cm, B 4cm, none'; two at once: 'B 2cm + C 1cm'.")
    ] = "",
    margin: Margin = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """One piece over a run of sizes. A table of needs by colour, rounded as a pattern prints it."""
    from stash.actions.grade import graded
    from stash.parsing.design import runs
    from stash.rendering import grade as rendered

    if not sizes:
        refuse("no_sizes")
    known, settings = known_piece(piece, replace(words, ease=""), margin, file)
    typed = runs.RunWords(sizes, brims, choices, words.ease)
    rows, not_made = graded(known, runs.run(typed, known.piece, settings.size))
    table = rendered.Grading(known.piece, rows, not_made)
    for no in table.not_made:
        note(rendered.not_made(no))
    answer(
        how,
        lambda: rendered.keys(table),
        lambda: rendered.text(table, page(units_typed(settings, words))),
        lambda: list(rendered.rows(table)),
    )
