"""How the help reads: commands by group, options in her words, whole at 80 columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import Any

from typer.core import TyperCommand, TyperGroup

from stash.cli.command_list import COMMANDS, GROUPS
from stash.cli.metavars import FEW, HEADINGS, OF_ARGUMENTS, OF_OPTIONS

#: Of every command and group: both names of the help, and either spelling of an option.
SETTINGS = {
    "help_option_names": ["-h", "--help"],
    "token_normalize_func": lambda word: _spelt(word),
}
#: Spellings of one word: the option's own on the right.
_SPELLINGS = (("color", "colour"), ("gray", "grey"), ("fiber", "fibre"), ("meter", "metre"))
_HELP = ("-h, --help", "Show this help.")
_VERSION = ("--version", "Show the version.")
#: Every command has these; they stand last.
_EVERYWHERE = ("--on", "--as", "--file")


def _spelt(word: str) -> str:
    for other, ours in _SPELLINGS:
        word = word.replace(other, ours)
    return word


def _in_her_words(formatter: Any) -> None:
    """What a help is written with spells and measures as her file says, where there is one."""
    from stash.cli.common import ask_units_at_once
    from stash.rendering.her_words import hers

    ask_units_at_once()
    text, table, usage = formatter.write_text, formatter.write_dl, formatter.write_usage
    heading = formatter.write_heading
    formatter.write_text = lambda words: text(hers(words))
    formatter.write_dl = lambda rows: table([(hers(name), hers(words)) for name, words in rows])
    formatter.write_heading = lambda words: heading(hers(words))
    formatter.write_usage = lambda prog, args="": usage(prog, hers(args))


class Command(TyperCommand):
    """One command, its help in her words."""

    def __init__(self, *args: Any, **named: Any) -> None:
        super().__init__(*args, **named)
        for param in self.params:
            param.metavar = param.metavar or _metavar(param)

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """The words of the line; more than it takes are put together where that is plain."""
        ctx.allow_extra_args = True
        super().parse_args(ctx, args)
        if ctx.args:
            self._put_together(ctx)
        return []

    def _put_together(self, ctx: Any) -> None:
        from stash.cli.loose_words import put_together

        taken = [one for one in _arguments(self) if one.nargs == 1]
        values = [ctx.params[one.name] for one in taken]
        kinds = [one.metavar.strip("[]") for one in taken]
        texts = put_together(kinds, [*map(str, values), *ctx.args])
        if texts is None or any(isinstance(value, int) for value in values):
            many = "s" if len(ctx.args) > 1 else ""
            ctx.fail(f"Got unexpected extra argument{many} ({' '.join(ctx.args)})")
        for one, value, text in zip(taken, values, texts or (), strict=True):
            ctx.params[one.name] = type(value)(text)  # a text, or the path of a file
        ctx.args = []

    def invoke(self, ctx: Any) -> Any:
        """The command; what is unclear in its words is asked, and it is begun again."""
        from stash.cli.asking import until_decided

        first = {one.name: ctx.params[one.name] for one in _arguments(self)}
        ctx.params = first | ctx.params  # what was left out is an argument before it is an option
        return until_decided(ctx.params, partial(super().invoke, ctx))

    def collect_usage_pieces(self, ctx: Any) -> list[str]:
        """`SKEIN [AMOUNT] [options]`."""
        return [*map(_in_usage, _arguments(self)), "[options]"]

    def format_help(self, ctx: Any, formatter: Any) -> None:
        """The help as she spells it."""
        _in_her_words(formatter)
        super().format_help(ctx, formatter)

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """The arguments, then the options, those of a long command under headings."""
        if arguments := [(one.metavar, one.help or "") for one in _arguments(self)]:
            with formatter.section("What to type"):
                formatter.write_dl(arguments)
        options = [one for one in self.params if one.param_type_name == "option"]
        for heading, some in _under_headings(options):
            with formatter.section(heading):
                rows = [(_typed(one), one.help or "") for one in some]
                formatter.write_dl(rows if heading != "Options" else [*rows, _HELP])


class Group(TyperGroup):
    """Commands under a word of their own, such as those for designs."""

    def resolve_command(self, ctx: Any, args: list[str]) -> Any:
        """The command; of a word that is none, the one that it means."""
        if args[0] not in self.commands and not args[0].startswith("-"):
            from stash.cli.misuse import command_for

            known = COMMANDS if isinstance(self, Stash) else self.commands
            ctx.fail(command_for(args[0], ctx.command_path, known))
        return super().resolve_command(ctx, args)

    def collect_usage_pieces(self, ctx: Any) -> list[str]:
        """`COMMAND [options]`."""
        return ["COMMAND [options]"]

    def format_help(self, ctx: Any, formatter: Any) -> None:
        """The help as she spells it."""
        _in_her_words(formatter)
        super().format_help(ctx, formatter)

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """The commands, then how to read more."""
        self.format_commands(ctx, formatter)
        with formatter.section("Options"):
            formatter.write_dl([_HELP])


class Stash(Group):
    """The whole command line: every command in its group, whether it is put together or not."""

    def format_options(self, ctx: Any, formatter: Any) -> None:
        """The groups of the one table, then what `stash` itself takes."""
        width = max(len(one.name) for group in GROUPS.values() for one in group)
        for heading, group in GROUPS.items():
            with formatter.section(heading):
                formatter.write_dl([(one.name.ljust(width), one.line) for one in group])
        with formatter.section("Options"):
            formatter.write_dl([(words.ljust(width), line) for words, line in (_HELP, _VERSION)])


def _metavar(param: Any) -> str:
    if param.param_type_name == "argument":
        return OF_ARGUMENTS.get(param.name, param.name.upper())
    if param.is_flag:
        return ""
    number = "int" in str(getattr(param, "type_descriptor", None) or param.type).lower()
    return OF_OPTIONS.get(param.opts[0], "NUMBER" if number else "TEXT")


def _arguments(command: Any) -> list[Any]:
    return [one for one in command.params if one.param_type_name == "argument"]


def _in_usage(argument: Any) -> str:
    more = "..." if argument.nargs != 1 else ""
    return f"{argument.metavar}{more}" if argument.required else f"[{argument.metavar}]{more}"


def _typed(option: Any) -> str:
    names = ", ".join([*option.opts, *option.secondary_opts])
    return names if option.is_flag else f"{names} {option.metavar}"


def _under_headings(options: list[Any]) -> Iterator[tuple[str, list[Any]]]:
    """The options by heading, in the order of the table; the rest, and few of them, as they are."""
    usual = [one for one in options if one.opts[0] in _EVERYWHERE]
    rest = [one for one in options if one not in usual]
    if len(rest) > FEW:
        for heading, names in HEADINGS.items():
            some = [one for name in names for one in _called(rest, name)]
            if len(some) > 1:
                rest = [one for one in rest if one not in some]
                yield heading, some
    yield "Options", [*rest, *usual]


def _called(options: Iterable[Any], name: str) -> list[Any]:
    return [one for one in options if name in one.opts]
