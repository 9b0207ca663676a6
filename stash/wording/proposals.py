"""How many proposals a person wants to read at once."""

from __future__ import annotations

from collections.abc import Sequence

from stash.matching.answer import Match, Proposal, Reason
from stash.matching.propose import spread_out

#: More than this is a list to work through, not an answer; --all and json have them all.
SHOWN = 5
#: A drawback that counts less is left to json: a line holds what decides.
TOLD_FROM = 0.15


def shown_first(match: Match) -> tuple[tuple[Proposal, ...], int]:
    """The proposals worth reading, at most two for one main yarn, and how many more there are."""
    spread, hidden = spread_out(match.proposals)
    return spread[:SHOWN], hidden + max(0, len(spread) - SHOWN)


def told(reasons: Sequence[Reason]) -> str:
    """The reasons worth reading: what speaks for a choice, and what counts against it."""
    return "; ".join(r.words for r in reasons if not 0 < r.cost < TOLD_FROM)
