"""The commands: what was typed is gathered, one action called, its answer rendered.

One file for each group of commands, each with `register`; `command_list` names them all, `main`
puts together the one that was asked for, and `run` is the one way in. A command makes no words of
an answer itself: it gives `answer` the `keys`, `text` and `rows` of a module of `rendering`, or
`say` one of its short texts. What was typed wrongly is refused by its kind and facts;
`rendering.sentences` has the line.

Decisions:
- What is heavy (pint, sqlalchemy, openpyxl, rapidfuzz, highspy) is imported inside the command that
  needs it, as is whatever imports it: `stash --help` costs no more than typer, 0.25 s against 1.5 s
  with everything.
- The list of commands is a table of plain data: `stash --help` needs no command's module and costs
  no more than `import typer`; the library's own panels cost 1.9 times that.
- Tab is answered by `complete` before typer is loaded (40 ms, Python's start among it): the shell
  keeps what the commands take, as `stash completion` wrote it, and hands it back; her own names
  are read by `store.names_kept`. A second table of options would go stale.
- Options that several commands share (of a design, of a question to the shelf) are written once, in
  `design_options` and `match_options`, and `shared_options` puts them into each signature: there
  are two dozen of each.
- A question is asked at a terminal only, by `asking`; in a pipe the same question is the refusal.
- An answer that cannot be written says which entry is booked, by looking into the file: the command
  may have broken off before its entry was kept, or after.
- Lines are broken to a person's terminal only; into a pipe they stay whole, to be searched.
"""

from __future__ import annotations

import gc
import sys
from importlib import import_module
from types import ModuleType
from typing import Any, NoReturn, cast

from stash.cli import streams
from stash.errors import BadInput, FileTrouble, StashError

#: What a process leaves with that was stopped from the keyboard (128 + SIGINT, POSIX shells).
_STOPPED = 130
#: A command makes many objects that it needs to its end, and is soon over: Python looks for garbage
#: after so many new ones, and not after 700 (measured: a tenth of the time of `stash match`).
_SELDOM = 100_000


def run() -> None:
    """The `stash` command: a mistake is one line and its exit status, never a traceback."""
    gc.set_threshold(_SELDOM)
    if sys.argv[1:2] == ["--complete"] and sys.argv[3:]:
        from stash.cli.complete import answer_tab

        sys.exit(0 if answer_tab(sys.argv[2], sys.argv[3:]) else 1)
    if sys.argv[1:2] == ["--version"]:
        _say_version()
        sys.exit(0)
    import typer

    from stash.cli.main import command_line
    from stash.rendering.printable import plain

    usage_error = cast(type[Exception], typer.BadParameter.__base__)
    streams.make_ready()
    _nothing_booked_yet()
    try:
        _refuse_unreadable_letters(sys.argv[1:])
        sys.argv[1:] = _without_help([*map(plain, sys.argv[1:])])
        stash = command_line(sys.argv[1] if sys.argv[1:] else "")
        status = stash.main(prog_name="stash", standalone_mode=False, obj=command_line)
        sys.stdout.flush()
        _say_currency()
    except StashError as refused:
        _refused(refused, refused.exit_status)
    except usage_error as misused:
        _misused(misused)
    except (KeyboardInterrupt, typer.Abort):
        _stopped()
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
    except OSError as trouble:
        if trouble.filename is None:
            _unanswered(trouble)
        known = FileTrouble(
            trouble.filename or "the file", "system_trouble", why=trouble.strerror or str(trouble)
        )
        _refused(known, known.exit_status)
    if status == _STOPPED:  # typer's own way of passing on Ctrl-C
        _stopped()
    sys.exit(status if isinstance(status, int) else 0)


def _refused(why: StashError | str, status: int) -> NoReturn:
    from stash.cli.common import note
    from stash.rendering.sentences.say import sentence

    try:
        note(f"stash: {sentence(why)}")
    except OSError:  # where nobody can be told, the status still says it
        streams.let_go(sys.stderr)
    sys.exit(status)


def _stopped() -> NoReturn:
    entry = _booked()
    done = "nothing was saved" if entry is None else f"but entry {entry} is saved already"
    _refused(f"stopped, {done}", _STOPPED)


def _unanswered(trouble: OSError) -> NoReturn:
    """The answer could not be written; what was booked before it stays booked, and is said so."""
    streams.let_go(sys.stdout)
    entry, why = _booked(), trouble.strerror or str(trouble)
    done = "" if entry is None else f"entry {entry} is saved, but "
    _refused(f"{done}the answer could not be written ({why})", FileTrouble.exit_status)


def _books() -> ModuleType | None:
    """What books, if this command came so far as to load it."""
    if "stash.actions.book" not in sys.modules:
        return None
    return import_module("stash.actions.book")  # waits where another thread still loads it


def _nothing_booked_yet() -> None:
    book = _books()
    if book is not None:  # another command of this process may have booked
        book.none_booked()


def _say_currency() -> None:
    """Where the first price has decided the currency of her file, whichever command it came by."""
    book = _books()
    if book is not None and (currency := book.currency_learned()):
        from stash.cli.common import note
        from stash.rendering.settings import currency_learned

        note(currency_learned(currency))


def _booked() -> int | None:
    """The entry that this command has booked, if it came so far as to open a book."""
    book = _books()
    entry: int | None = book.booked() if book is not None else None
    return entry


def _misused(error: Any) -> NoReturn:
    """A command typed in a way that there is none; without any words, its help."""
    from stash.cli.misuse import misuse

    if type(error).__name__ == "NoArgsIsHelpError":
        try:
            sys.stdout.write(f"{error.ctx.get_help()}\n")
            sys.stdout.flush()
        except OSError as trouble:
            _unanswered(trouble)
        sys.exit(2)
    _refused(misuse(error, sys.argv[1:]), 2)


def _say_version() -> None:
    from importlib.metadata import version

    sys.stdout.write(f"stash {version('stash')}\n")


def _without_help(words: list[str]) -> list[str]:
    """`help match` is `match --help`, and `help help` the help of all."""
    if words[:1] != ["help"]:
        return words
    return [*([] if words[1:2] == ["help"] else words[1:]), "--help"]


def _refuse_unreadable_letters(words: list[str]) -> None:
    try:
        "".join(words).encode()
    except UnicodeEncodeError:
        raise BadInput("letters_unreadable") from None
