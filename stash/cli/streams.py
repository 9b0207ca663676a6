"""Standard input, output and error as they may be found: closed, full, or short of letters."""

from __future__ import annotations

import io
import os
import sys
from contextlib import suppress
from typing import TextIO


class _Closed(io.TextIOBase):
    """In place of an output that was closed before the program began."""

    encoding = "utf-8"

    def write(self, text: str, /) -> int:
        """Nothing can be written, and whoever asked is to hear of it."""
        raise OSError("standard output is closed")


def make_ready() -> None:
    """Streams that every command can use.

    The numbers 0 to 2 are taken first: a file that is opened later would get them, and be written
    into by whatever prints. A letter that a terminal lacks is shown as a question mark.
    """
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)
    sys.stdin = sys.stdin or io.StringIO()
    sys.stdout = sys.stdout or _Closed()
    sys.stderr = sys.stderr or io.StringIO()
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def let_go(stream: TextIO) -> None:
    """Nothing more is written to an output that took nothing, also not as the program ends."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
