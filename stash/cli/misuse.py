"""A line typed in a way that there is none: what is wrong, and the nearest that there is."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from difflib import get_close_matches
from typing import Any

from stash.cli.command_list import (
    COMMANDS,
    OF_GROUPS,
    OTHER_DESIGN_WORDS,
    OTHER_ORDER_WORDS,
    OTHER_WORDS,
    SAME_OPTIONS,
)

#: What else people call the commands of a group.
_OTHERS = {"stash": OTHER_WORDS, "stash order": OTHER_ORDER_WORDS}


def command_for(typed: str, group: str, commands: Iterable[str]) -> str:
    """The line for a word that is none of the commands of a group (`stash`, `stash design`)."""
    others = _OTHERS.get(group, OTHER_DESIGN_WORDS)
    known = [*commands, *(word for one in others for word in one.words.split())]
    for word in (typed.lower(), *get_close_matches(typed.lower(), known, 1, _LIKELY)):
        if meant := next((one for one in others if word in one.words.split()), None):
            return f"no command {typed!r}; {meant.aim}: `{meant.example}`"
        if word in known:
            return f"no command {typed!r}; did you mean {word}? {_example(f'{group} {word}')}"
    return f"no command {typed!r}; see `{group} --help`"


def misuse(error: Any, words: Sequence[str]) -> str:
    """The line for a command typed in a way that there is none, with the way out."""
    message = " ".join(str(error.message).replace("Value error, ", "").split()).rstrip(".")
    if message.startswith("no command "):
        return message
    path = error.ctx.command_path if error.ctx else _path(words)
    wrong = _wrong(error, message, path)
    return f"{wrong} See `{path} --help`" if wrong[-1] == "?" else f"{wrong}; see `{path} --help`"


def _path(words: Sequence[str]) -> str:
    return f"stash {words[0]}" if words and words[0] in COMMANDS else "stash"


def _wrong(error: Any, message: str, path: str) -> str:
    kind, param = type(error).__name__, getattr(error, "param", None)
    if kind == "NoSuchOption":
        return _no_option(error.option_name, error.ctx.command if error.ctx else None, path)
    if kind == "BadOptionUsage" and "requires" in message:
        return f"{error.option_name} needs something after it"
    if kind == "MissingParameter" and param is not None:
        return f"{_missing(param)} is missing, as in {_example(path)}"
    if param is not None and (number := _NUMBER.search(message)):
        least = f" from {number[1]}" if number[1] else ""
        return f"{_named(param)}: give a whole number{least}"
    if param is not None and (choices := _CHOICE.fullmatch(message)):
        return f"{_named(param)} {choices[1]}: choose {choices[2].replace(chr(39), '')}"
    if extra := _EXTRA.search(message):
        return f"{extra[1]!r} is too much (put a name of several words in quotes)"
    said = str(error.format_message()).replace("Value error, ", "")
    said = " ".join(said.split()).rstrip(".")
    return f"{said[:1].lower()}{said[1:]}"


_EXTRA = re.compile(r"unexpected extra argument(?:s|\(s\))? \((.*)\)")
_NUMBER = re.compile(
    r"valid (?:integer|number)|greater than or equal to (\d+)|in the range (\d+)<="
)
_CHOICE = re.compile(r"'(.*)' is not one of (.*)")
#: From this likeness on a word is taken for a mistyped one.
_LIKELY = 0.7


def _named(param: Any) -> str:
    return str(param.opts[0] if param.param_type_name == "option" else param.metavar)


def _missing(param: Any) -> str:
    return (
        param.metavar if param.param_type_name == "argument" else f"{param.opts[0]} {param.metavar}"
    )


def _example(path: str) -> str:
    listed = COMMANDS.get(path.removeprefix("stash "))
    return f"`{OF_GROUPS.get(path, listed.example if listed else path)}`"


def _no_option(typed: str, command: Any, path: str) -> str:
    """The option of this command that is nearest; else the commands that do have it."""
    if re.match(r"-\d", typed):
        return f"{typed}… begins with a minus: give an amount above nothing"
    if path == "stash" or command is None:
        return f"{typed}: options come after the command, as in `stash shelf --as json`"
    name, own = path.removeprefix("stash "), _options(command)
    if nearest := _nearest_option(typed.lower(), own):
        return f"{name} has no {typed}; did you mean {nearest}?"
    others = _having(typed)
    return f"{name} has no {typed}; {others}" if others else f"{name} has no {typed}"


def _options(command: Any) -> list[str]:
    return [
        name
        for param in getattr(command, "params", ())
        if param.param_type_name == "option"
        for name in (*param.opts, *param.secondary_opts)
    ]


def _nearest_option(typed: str, own: Sequence[str]) -> str:
    if typed in _FORMS and "--as" in own:
        return f"--as {typed[2:]}"
    same = (name for names in SAME_OPTIONS if typed in names for name in names)
    bare = [name.lstrip("-") for name in own]
    near = get_close_matches(typed.lstrip("-"), bare, 1, 0.6)
    return next((name for name in (*same, *(f"--{one}" for one in near)) if name in own), "")


_FORMS = ("--json", "--csv", "--text")


def _having(typed: str) -> str:
    """`shelf, add and change have it`: this puts all of them together, for a mistake alone."""
    from stash.cli.main import command_line

    having = [
        name
        for name in COMMANDS
        if (one := command_line(name).commands.get(name)) and typed in _options(one)
    ]
    if not having:
        return ""
    *but_last, last = having
    shown = f"{', '.join(but_last)} and {last} have" if but_last else f"{last} has"
    return f"{shown} it"
