"""The command line put together from its subjects."""

from __future__ import annotations

from copy import copy
from functools import cache
from typing import Any

import typer

from stash.cli import (
    adding,
    batching,
    booking,
    demo,
    designs,
    grading,
    items,
    lasting,
    matching,
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
    help="Which yarns on your shelf can become the next design, and books that stay true.",
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
    designs,
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


def _name(info: Any) -> str:
    return str(info.name or info.callback.__name__)


def command_line(word: str) -> Any:
    """The command of that name alone, else all: putting all together takes 40 ms of each start."""
    return _put_together(word if word in map(_name, app.registered_commands) else "")


@cache
def _put_together(word: str) -> Any:
    if not word:
        return typer.main.get_command(app)
    alone = copy(app)
    alone.registered_groups = []
    alone.registered_commands = [one for one in app.registered_commands if _name(one) == word]
    return typer.main.get_group(alone)
