"""The lines with which a shell learns to complete the words of `stash`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated, Any

import typer

from stash.cli.command_list import COMMANDS
from stash.cli.common import refuse

_BASH = """\
_stash_words='{words}'
_stash() {{
    local IFS=$'\\n'
    COMPREPLY=($(STASH_WORDS="$_stash_words" \\
        stash --complete bash "${{COMP_WORDS[@]:1:COMP_CWORD}}" 2>/dev/null))
}}
complete -o default -F _stash stash
"""
_ZSH = """\
_stash_words='{words}'
_stash() {{
    local found=$(STASH_WORDS="$_stash_words" \\
        stash --complete zsh "${{(@Q)words[2,CURRENT]}}" 2>/dev/null)
    if [[ -n $found ]]; then compadd -- ${{(f)found}}; else _files; fi
}}
(( $+functions[compdef] )) || {{ autoload -Uz compinit && compinit }}
compdef _stash stash
"""
_FISH = """\
set -g _stash_words '{words}'
function _stash
    set -lx STASH_WORDS $_stash_words
    stash --complete fish (commandline -opc)[2..-1] (commandline -ct) 2>/dev/null
    or __fish_complete_path (commandline -ct)
end
complete -c stash -f -a '(_stash)'
"""
_SCRIPTS = {"bash": _BASH, "zsh": _ZSH, "fish": _FISH}


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(completion)


def completion(
    shell: Annotated[str, typer.Argument(metavar="bash|zsh|fish", help="The shell you use.")],
) -> None:
    """Let your shell complete words with Tab.

    For bash put this line into ~/.bashrc, for zsh into ~/.zshrc:

    eval "$(stash completion bash)"

    For fish, into ~/.config/fish/config.fish:

    stash completion fish | source
    """
    if shell not in _SCRIPTS:
        refuse("no_such_shell", shell=shell, shells=tuple(_SCRIPTS))
    typer.echo(script_for(shell), nl=False)


def script_for(shell: str) -> str:
    """What the shell is to read, with every word it can complete by itself in it."""
    return _SCRIPTS[shell].format(words="\n".join(_lines()))


def _lines() -> Iterator[str]:
    """A line for each command: its name, its arguments, its options with what they take."""
    from stash.cli.main import command_line

    for name in COMMANDS:
        command = command_line(name).commands[name]
        inner = getattr(command, "commands", {})
        for path, one in ((f"{name} {sub}", sub_one) for sub, sub_one in inner.items()):
            yield _line(path, one)
        if name == "settings":
            yield from _settings(command)
        elif not inner:
            yield _line(name, command)


def _settings(command: Any) -> Iterator[str]:
    """A line for the names of the settings, and one for each that has words to choose from."""
    from stash.parsing.settings import choices

    known = {name.replace(" ", "-"): words for name, words in choices().items()}
    yield _line("settings", command, ["|".join(known), "VALUE"])
    for name, words in known.items():
        if words:
            yield _line(f"settings {name}", command, ["|".join([*words, "usual"])])


def _choices() -> dict[str, str]:
    """The words to choose from where the help names their kind; a space is typed as a hyphen."""
    from stash.parsing.design.shapes import PLAIN
    from stash.parsing.settings import choices

    kinds = {"CONTRAST": choices()["contrast"], "SHAPE": PLAIN}
    return {kind: "|".join(words).replace(" ", "-") for kind, words in kinds.items()}


def _line(path: str, command: Any, arguments: Sequence[str] | None = None) -> str:
    words = _choices()
    if arguments is None:
        arguments = [one.metavar for one in command.params if one.param_type_name == "argument"]
    options = [
        f"{name}={words.get(one.metavar, one.metavar)}" if one.metavar else name
        for one in command.params
        if one.param_type_name == "option"
        for name in (*one.opts, *one.secondary_opts)
    ]
    return "\t".join((path, " ".join(arguments), " ".join([*options, "--help"])))
