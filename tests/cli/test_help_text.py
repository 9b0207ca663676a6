"""Help as a maker reads it: commands by group, options in her words, whole at 80 columns."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from commands import Maker, refused_in_one_line

from stash.cli.command_list import COMMANDS, GROUPS
from stash.cli.main import command_line
from stash.cli.metavars import FEW, HEADINGS, OF_OPTIONS


def every_command() -> Iterator[tuple[str, Any]]:
    """Each command, those of a group by both words, as it is put together."""
    for name in COMMANDS:
        command = command_line(name).commands[name]
        yield name, command
        for inner, one in getattr(command, "commands", {}).items():
            yield f"{name} {inner}", one


PATHS = [path for path, _ in every_command()]
#: A type's name, as a programmer reads it.
TYPES = re.compile(r"<\w+|list\[|<path>|int range|\bSTR\b|\[default")


@pytest.mark.parametrize("path", ["", *PATHS])
def test_a_help_is_whole_at_80_columns_and_names_no_type(nobody: Maker, path: str) -> None:
    said = nobody.does(*path.split(), "--help").out

    assert max(map(len, said.splitlines())) <= 80
    assert "..." not in said.replace("...\n", "").replace("... [options]", "")
    assert not TYPES.search(said)
    assert "Show this help." in said


@pytest.mark.parametrize("path", ["", "match", "design", "design add"])
def test_a_help_is_asked_for_in_three_ways(nobody: Maker, path: str) -> None:
    words = path.split()

    assert nobody.does(*words, "-h").out == nobody.does(*words, "--help").out
    assert nobody.does("help", *words).out == nobody.does(*words, "--help").out


def test_the_help_lists_every_command_under_its_group_on_one_line(nobody: Maker) -> None:
    lines = nobody.does("--help").out.splitlines()

    begins = [lines.index(f"{heading}:") for heading in GROUPS]
    assert begins == sorted(begins)
    for begin, group in zip(begins, GROUPS.values(), strict=True):
        listed = lines[begin + 1 : begin + 1 + len(group)]
        assert [line.split(maxsplit=1) for line in listed] == [[o.name, o.line] for o in group]


def test_a_module_has_exactly_the_commands_that_the_table_says() -> None:
    """`command_line` finds a command by the table alone, so none may be missing there."""
    from importlib import import_module

    import typer

    found = set()
    for module in {one.module for one in COMMANDS.values()}:
        app = typer.Typer()
        import_module(f"stash.cli.{module}").register(app)
        found |= {
            one.name or getattr(one.callback, "__name__", "") for one in app.registered_commands
        }
        found |= {str(one.name) for one in app.registered_groups}

    assert found == set(COMMANDS)


def test_every_option_in_the_tables_is_one_that_a_command_has() -> None:
    has = {name for _, one in every_command() for p in one.params for name in p.opts}

    assert set(OF_OPTIONS) - has == set()
    assert {name for names in HEADINGS.values() for name in names} - has == set()


@pytest.mark.parametrize("name", ["need", "match", "batch"])
def test_the_options_of_a_long_command_stand_under_headings(nobody: Maker, name: str) -> None:
    said = nobody.does(name, "--help").out

    count = sum(
        param.param_type_name == "option" for param in command_line(name).commands[name].params
    )
    assert count > FEW
    assert sum(f"\n{heading}:\n" in said for heading in HEADINGS) >= 2 - (name == "match")
    assert said.rindex("--file FILE") > said.index("\nOptions:\n")


def test_the_version_is_that_of_the_package(nobody: Maker) -> None:
    from importlib.metadata import version

    assert nobody.does("--version").out == f"stash {version('stash')}\n"


@pytest.mark.parametrize(
    ("ours", "other"),
    [
        (("shelf", "--colour", "navy"), ("shelf", "--color", "navy")),
        (("shelf", "--fibre", "wool"), ("shelf", "--fiber", "wool")),
        (("match", "Hat", "--not-colour", "red"), ("match", "Hat", "--not-color=red")),
    ],
)
def test_both_spellings_of_an_option_are_understood(
    maker: Maker, ours: tuple[str, ...], other: tuple[str, ...]
) -> None:
    assert maker.does(*other).out == maker.does(*ours).out


def test_a_value_is_never_respelt(maker: Maker) -> None:
    maker.does("change", "1", "--note", "--color")
    maker.does("change", "2", "--place", "gray fiber")

    assert maker.skein(1)["note"] == "--color"
    assert maker.skein(2)["place"] == "gray fiber"


def test_one_spelling_is_shown(nobody: Maker) -> None:
    assert "--color " not in nobody.does("match", "--help").out


def test_a_metre_weighed_may_be_a_meter(maker: Maker) -> None:
    refused_in_one_line(maker("weigh", "1", "--meter", "nonsense"), 2, "nonsense")
