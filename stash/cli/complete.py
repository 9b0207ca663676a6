"""What a word may become when Tab is pressed: answered before the command library is loaded.

The shell hands over the words and, in the variable `STASH_WORDS`, what it got from
`stash completion`: a line for each command, its arguments, its options and what each takes. So a
key press needs no command's module, and nothing is listed twice.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple


class _Command(NamedTuple):
    """What one command takes: its arguments in order, and what follows each option, or nothing."""

    arguments: list[str]
    options: dict[str, str]


def answer_tab(shell: str, words: list[str]) -> bool:
    """Print what the last of the words may become, a line each; whether there was anything."""
    try:
        found = "".join(f"{one}\n" for one in _answers(shell, words))
        sys.stdout.write(found)
        sys.stdout.flush()
    except Exception:  # whatever it is, a key press must not write over the line being typed
        return False
    return bool(found)


def _answers(shell: str, words: list[str]) -> Iterator[str]:
    if shell != "bash":  # the others take quotes off and put them on, but for one left open
        yield from _completed([*words[:-1], words[-1].lstrip("\"'")])
        return
    # bash hands quotes over as they were typed, and takes `=` for a border between words
    plain = [re.sub(r"\\(.)|[\"']", r"\1", word) for word in _joined(words)]
    quoted = words[-1][:1] in ("'", '"')
    border = plain[-1].rfind("=") + 1
    for one in _completed(plain):
        rest = one[border:]
        yield rest if quoted else re.sub(r"([^\w@%+=:,./#-])", r"\\\1", rest)


def _joined(words: Sequence[str]) -> list[str]:
    """`A`, `=`, `L4` are one word again."""
    joined: list[str] = []
    for at, word in enumerate(words):
        if joined and (word == "=" or (at and words[at - 1] == "=")):
            joined[-1] += word
        else:
            joined.append(word)
    return joined


def _completed(words: list[str]) -> list[str]:
    *before, typed = words[1:] if words[:1] == ["help"] and words[1:] else words
    commands = _commands()
    name = _named(before, commands)
    if name is None:
        begun = " ".join(before) + " " if before else ""
        known = (one.removeprefix(begun) for one in commands if one.startswith(begun))
        first = dict.fromkeys(one.split()[0] for one in known)
        return _like([*first, *([] if before else ["help"])], typed)
    command, given = commands[name], before[len(name.split()) :]
    if given and command.options.get(given[-1]):
        return _values(command.options[given[-1]], typed, given)
    if typed.startswith("-"):
        option, sign, value = typed.partition("=")
        if sign and command.options.get(option):
            found = _values(command.options[option], value, given)
            return [f"{option}={one}" for one in found]
        return _like(command.options, typed)
    place = len(_arguments_in(given, command))
    return _values((command.arguments[place:] or [""])[0], typed, given)


def _commands() -> dict[str, _Command]:
    commands = {}
    for line in os.environ.get("STASH_WORDS", "").splitlines():
        name, arguments, options = line.split("\t")
        takes = dict(one.partition("=")[::2] for one in options.split())
        commands[name] = _Command(arguments.split(), takes)
    return commands


def _named(words: Sequence[str], commands: Iterable[str]) -> str | None:
    known = set(commands)
    return next((n for n in (" ".join(words[:2]), " ".join(words[:1])) if n in known), None)


def _arguments_in(words: Sequence[str], command: _Command) -> list[str]:
    return [
        word
        for at, word in enumerate(words)
        if not word.startswith("-") and not (at and command.options.get(words[at - 1]))
    ]


def _values(takes: str, typed: str, given: Sequence[str]) -> list[str]:
    """What may stand where `takes` is asked for: `A=SKEIN|LOT`, `SKEINS`, `text|json|csv`."""
    last = re.search(r"[^=,]*\Z", typed) if re.search(r"SKEINS|ITEMS|=", takes) else None
    begun = typed[: last.start()] if last else ""
    if "=" in takes:
        takes = takes.partition("=")[2 if "=" in typed else 0]
    found = [one for kind in takes.split("|") for one in _kind(kind, given)]
    return [begun + one for one in _like(found, typed[len(begun) :])]


def _kind(kind: str, given: Sequence[str]) -> list[str]:
    if kind.islower():
        return [kind]
    from stash.actions.completion import completion
    from stash.cli.which_file import chosen_file

    named = given[given.index("--file") + 1] if "--file" in given[:-1] else ""
    named = named or os.environ.get("STASH_FILE", "")
    return completion(chosen_file(Path(named) if named else None), kind.removesuffix("S"))


def _like(names: Iterable[str], typed: str) -> list[str]:
    return [name for name in names if name.lower().startswith(typed.lower())]
