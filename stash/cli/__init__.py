"""The commands: parse, call one action, show. One file per subject.

May import: exchange, wording, actions, errors. What is heavy is imported inside the command that
needs it, so that `stash --help` costs no more than typer.
"""

from __future__ import annotations

import gc
import io
import sys
from typing import Any, NoReturn, cast

from stash.errors import BadInput, FileTrouble, StashError

#: What a process leaves with that was stopped from the keyboard (128 + SIGINT, POSIX shells).
_STOPPED = 130
#: A command makes many objects that it needs to its end, and is soon over: Python looks for garbage
#: after so many new ones, and not after 700 (measured: a tenth of the time of `stash match`).
_SELDOM = 100_000


def run() -> None:
    """The `stash` command: a mistake is one line and its exit status, never a traceback."""
    gc.set_threshold(_SELDOM)
    import typer

    from stash.cli.main import app
    from stash.wording.printable import plain

    usage_error = cast(type[Exception], typer.BadParameter.__base__)
    _let_every_letter_through()
    try:
        _refuse_unreadable_letters(sys.argv[1:])
        sys.argv[1:] = map(plain, sys.argv[1:])
        status = app(prog_name="stash", standalone_mode=False)
    except StashError as refused:
        _refused(str(refused), refused.exit_status)
    except usage_error as misused:
        _misused(misused)
    except (KeyboardInterrupt, typer.Abort):
        _refused("stopped, nothing was booked", _STOPPED)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as trouble:
        known = FileTrouble(trouble.filename or "the file", trouble.strerror or str(trouble))
        _refused(str(known), known.exit_status)
    if status == _STOPPED:  # typer's own way of passing on Ctrl-C
        _refused("stopped, nothing was booked", _STOPPED)
    sys.exit(status if isinstance(status, int) else 0)


def _refused(line: str, status: int) -> NoReturn:
    from stash.cli.common import note

    note(f"stash: {line}")
    sys.exit(status)


def _misused(error: Any) -> NoReturn:
    """A command typed in a way that there is none; without any words, its help."""
    path = error.ctx.command_path if error.ctx else "stash"
    if type(error).__name__ == "NoArgsIsHelpError":
        sys.stdout.write(f"{error.ctx.get_help()}\n")
        sys.exit(2)
    said = " ".join(error.format_message().replace("Value error, ", "").split()).rstrip(".")
    _refused(f"{said[:1].lower()}{said[1:]}; see `{path} --help`", 2)


def _let_every_letter_through() -> None:
    """A terminal that lacks a letter shows a question mark for it, rather than failing."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def _refuse_unreadable_letters(words: list[str]) -> None:
    try:
        "".join(words).encode()
    except UnicodeEncodeError:
        raise BadInput("some letters typed cannot be read; type them as UTF-8") from None
