"""Options that several commands share, written into the signature of each."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from inspect import Parameter, Signature, signature
from typing import Annotated, Any, get_args, get_type_hints

import typer


def text(*names: str, words: str) -> Any:
    """An option with one text, empty where it is not given."""
    return Annotated[str, typer.Option(*names, help=words)]


def texts(name: str, words: str, metavar: str | None = None) -> Any:
    """An option that may be repeated."""
    return Annotated[list[str] | None, typer.Option(name, help=words, metavar=metavar)]


def optional(*names: str, words: str) -> Any:
    """An option with one text, None where it is not given: an empty text clears a fact."""
    return Annotated[str | None, typer.Option(*names, help=words)]


def flag(name: str, words: str) -> Any:
    """An option that is given or not."""
    return Annotated[bool, typer.Option(name, help=words)]


def written_in(
    command: Callable[..., None], options: Mapping[str, Any], gathered: Callable[..., Any]
) -> Callable[..., None]:
    """The command with an option for each of these in place of its parameter `words`.

    Typer reads options off a command's signature; this writes them there, behind the command's
    first parameter, and hands them over as the one thing that `gathered` makes of them by name,
    those that may be repeated as tuples.
    """
    hints = get_type_hints(
        command, localns={command.__annotations__["words"]: object}, include_extras=True
    )
    first, *rest = (
        parameter.replace(annotation=hints[name], kind=Parameter.KEYWORD_ONLY)
        for name, parameter in signature(command).parameters.items()
        if name != "words"
    )
    usual = {name: _usual(option) for name, option in options.items()}
    written = [
        Parameter(name, Parameter.KEYWORD_ONLY, default=usual[name], annotation=option)
        for name, option in options.items()
    ]

    def run(**given: Any) -> None:
        typed = {name: given.pop(name) for name in options}
        lists = {name: tuple(typed.pop(name) or ()) for name in options if _repeats(options[name])}
        command(words=gathered(**typed, **lists), **given)

    made = Signature([first, *written, *rest])
    run.__name__, run.__doc__ = command.__name__, command.__doc__
    run.__annotations__ = {name: p.annotation for name, p in made.parameters.items()}
    run.__signature__ = made  # type: ignore[attr-defined]
    return run


def _repeats(option: Any) -> bool:
    return bool(get_args(option)[0] == list[str] | None)


def _usual(option: Any) -> str | bool | None:
    """What an option is where it is not given; None for one that may be repeated or cleared."""
    kind = get_args(option)[0]
    if kind is bool:
        return False
    return "" if kind is str else None
