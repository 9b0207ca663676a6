"""Two lots in one role, as it is typed: `A`, `A=brim`, `A=alternate`, `A=change`, `A=unknown`."""

from __future__ import annotations

import re
from collections.abc import Sequence

from stash.errors import Unreadable
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.requirements.fit.splitting import Way

_ROLE = re.compile(r"\s*([a-d])\s*(?:=(.*))?", re.IGNORECASE | re.DOTALL)
#: What people type for the ways.
_WAYS = {
    "brim": Way.BRIM,
    "band": Way.BRIM,
    "change": Way.CHANGE,
    "alternate": Way.ALTERNATE,
    "alternating": Way.ALTERNATE,
}
_UNKNOWN = "unknown"


def two_lots(texts: Sequence[str]) -> dict[str, TwoLotsAsked]:
    """What was asked by role, several words with commas; a role alone means whichever way works."""
    asked: dict[str, set[str]] = {}
    for text in texts:
        found = _ROLE.fullmatch(text)
        words = [w.strip().lower() for w in found[2].split(",")] if found and found[2] else []
        known = {_UNKNOWN, *_WAYS}
        if not found or (found[2] is not None and not words) or not known.issuperset(words):
            raise Unreadable(text, "no_two_lots")
        asked.setdefault(found[1].upper(), set()).update(words)
    return {role: _asked(words) for role, words in asked.items()}


def _asked(words: set[str]) -> TwoLotsAsked:
    named = {way for word, way in _WAYS.items() if word in words}
    ways = tuple(way for way in Way if way in named or not named)
    return TwoLotsAsked(ways, unknown=_UNKNOWN in words)
