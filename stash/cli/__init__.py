"""The commands: parse, call one action, show. One file per subject.

May import: exchange, wording, actions, errors. What is heavy is imported inside the command that
needs it, so that `stash --help` costs no more than typer.
"""

from __future__ import annotations

import sys

from stash.errors import StashError


def run() -> None:
    """The `stash` command: a mistake is one line and its exit status, never a traceback."""
    from stash.cli.main import app

    try:
        app()
    except StashError as refused:
        sys.stderr.write(f"stash: {refused}\n")
        sys.exit(refused.exit_status)
    except KeyboardInterrupt:
        sys.stderr.write("stash: stopped, nothing was booked\n")
        sys.exit(130)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(0)
