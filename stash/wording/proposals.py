"""How many proposals a person wants to read at once."""

from __future__ import annotations

from stash.matching.answer import Match, Proposal
from stash.matching.propose import spread_out

#: More than this is a list to work through, not an answer; --all and json have them all.
SHOWN = 5


def shown_first(match: Match) -> tuple[tuple[Proposal, ...], int]:
    """The proposals worth reading, at most two for one main yarn, and how many more there are."""
    spread, hidden = spread_out(match.proposals)
    return spread[:SHOWN], hidden + max(0, len(spread) - SHOWN)
