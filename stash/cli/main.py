"""The command line put together from its subjects."""

from __future__ import annotations

import typer

from stash.cli import (
    adding,
    batching,
    booking,
    demo,
    grading,
    items,
    lasting,
    matching,
    pieces,
    reaching,
    selling,
    sheets,
    shelf,
    shopping,
    stocktaking,
    tagging,
    upkeep,
)

app = typer.Typer(
    name="stash",
    help="Which yarns on your shelf can become the next piece, and books that stay true.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

for subject in (
    demo,
    adding,
    shelf,
    sheets,
    pieces,
    grading,
    reaching,
    matching,
    items,
    batching,
    shopping,
    lasting,
    booking,
    stocktaking,
    selling,
    tagging,
    upkeep,
):
    subject.register(app)
