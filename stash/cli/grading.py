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
    refuse,
    settings_of,
    strong,
)
from stash.cli.match_options import Margin
from stash.cli.piece_options import describes_a_piece
from stash.cli.pieces import known_piece, units_typed

if TYPE_CHECKING:
    from stash.wording.gradings import Grading
    from stash.wording.piece_words import PieceWords
    from stash.wording.show import Units


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
    from stash.actions.grading import graded
    from stash.wording import grade_words, gradings

    settings = settings_of(file)
    if not sizes:
        refuse("say which sizes: --sizes 'child 4 years, woman, 58cm x 24cm'")
    known = known_piece(piece, replace(words, ease=""), margin, file)
    typed = grade_words.RunWords(sizes, brims, choices, words.ease)
    rows, not_made = graded(known, grade_words.run(typed, known.piece, settings.size))
    table = gradings.Grading(known.piece, rows, not_made)
    for no in table.not_made:
        note(f"not made: {gradings.not_made(no)}")
    answer(
        how,
        lambda: gradings.keys(table),
        lambda: _text(table, units_typed(settings, words)),
        lambda: list(gradings.flat(table)),
    )


def _text(table: Grading, units: Units) -> str:
    from stash.wording import gradings
    from stash.wording.columns import columns

    name = strong(table.plan.name or f"{table.plan.shape}")
    rows = columns(list(gradings.words(table, units)), "  ")
    notes = [f"   {text}" for text in (*gradings.rules(table), *table.notes)]
    return "\n".join([f"{name}, by {gradings.source(table)}", rows, *notes])
