"""What a person sees at once: an answer at a terminal is no taller than this."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from shutil import get_terminal_size

from stash.rendering.wrapped import wrapped

#: As tall as a terminal is at least.
LINES = 24


def is_shown() -> bool:
    """Whether a person looks at a terminal; what goes into a pipe or a file is whole."""
    return sys.stdout.isatty()


def height(lines: Sequence[str]) -> int:
    """How many lines of her terminal these take, broken to its width."""
    text = "\n".join(lines)
    return wrapped(text, get_terminal_size().columns).count("\n") + 1 if lines else 0
