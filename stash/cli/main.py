"""The command line, put together as far as it was asked for."""

from __future__ import annotations

from functools import cache
from importlib import import_module
from typing import Any

import typer

from stash.cli.command_list import COMMANDS
from stash.cli.help_text import SETTINGS, Command, Group, Stash


@cache
def command_line(word: str) -> Any:
    """`stash` with the command of that name alone, or with none: its help knows them all.

    Importing and putting together all of them takes 80 ms of each start.
    """
    app = typer.Typer(
        name="stash",
        cls=Stash,
        help="See what your yarn can become, and keep track of every skein.",
        no_args_is_help=True,
        add_completion=False,
        rich_markup_mode=None,
        pretty_exceptions_enable=False,
        context_settings=SETTINGS,
    )
    if word in COMMANDS:
        import_module(f"stash.cli.{COMMANDS[word].module}").register(app)
        app.registered_commands = [one for one in app.registered_commands if _name(one) == word]
        app.registered_groups = [one for one in app.registered_groups if one.name == word]
    for group in app.registered_groups:
        group.cls = Group
    for one in (*app.registered_commands, *_of_groups(app)):
        one.cls = Command
    return typer.main.get_group(app)


def _of_groups(app: typer.Typer) -> list[Any]:
    return [
        one
        for group in app.registered_groups
        if group.typer_instance
        for one in group.typer_instance.registered_commands
    ]


def _name(info: Any) -> str:
    return str(info.name or info.callback.__name__)
