"""What a text that cannot be read was to be, and what to write instead, by kind."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.rendering.sentences.words import Words


def _way_of_two_lots(ways: Sequence[str]) -> str:
    return f"end it with {', '.join(ways)}, as in L3/L9-brim"


UNREADABLE: Mapping[str, tuple[Words, Words]] = {
    "two_lots_of_role": ("two lots for a role", _way_of_two_lots),
}
