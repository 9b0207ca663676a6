"""What a text that cannot be read was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping

from stash.rendering.sentences.books import BOOKS
from stash.rendering.sentences.words import Words

UNREADABLE: Mapping[str, tuple[Words, Words]] = {**BOOKS}
