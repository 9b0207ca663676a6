"""What a sentence may be in a table."""

from __future__ import annotations

from collections.abc import Callable

#: A text with names of facts in braces, or a function of the facts by name.
Words = str | Callable[..., str]
