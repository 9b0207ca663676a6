"""How many proposals a person wants to read at once."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence

from stash.matching.answer.fix import told as first_told
from stash.matching.answer.proposal import Match, NearMiss, Proposal, Reason
from stash.matching.match import spread_out
from stash.measures.length import NO_LENGTH
from stash.rendering import amounts
from stash.rendering.amounts import Units
from stash.requirements.yarn.need import Need, Source
from stash.stock.yarn import Lot

#: A patch of a lot's colours for in front of its name; nothing where no colour can be shown.
Patch = Callable[[Lot], str]

#: More than this is a list to work through, not an answer; --all and json have them all.
SHOWN = 5
#: A drawback that counts less is left to json: a line holds what decides.
TOLD_FROM = 0.15


def shown_first(match: Match) -> tuple[tuple[Proposal, ...], int]:
    """The proposals worth reading, at most two for one main yarn, and how many more there are."""
    spread, hidden = spread_out(match.proposals)
    return spread[:SHOWN], hidden + max(0, len(spread) - SHOWN)


def told(reasons: Sequence[Reason], said: Collection[str] = ()) -> str:
    """The reasons worth reading: what speaks for a choice, and what counts against it.

    What is `said` for all of them is left out.
    """
    worth = (r.words for r in reasons if not 0 < r.cost < TOLD_FROM)
    return "; ".join(words for words in worth if words not in said)


def said_of_all(proposals: Sequence[Proposal]) -> tuple[str, ...]:
    """What can be said once, because it holds of each of several sets and costs each the same."""
    if len(proposals) < 2:
        return ()
    first, *others = proposals
    return tuple(
        reason.words for reason in first.reasons if all(reason in other.reasons for other in others)
    )


def lot_words(lot: Lot) -> str:
    """A lot as it is looked for on the shelf: its colour first, its number last."""
    return f"{_called(lot)} ({lot.ref})"


def lot_cells(lot: Lot, patch: Patch) -> list[str]:
    """The same in two columns, its number first."""
    return [lot.ref, f"{patch(lot)}{_called(lot)}"]


def _called(lot: Lot) -> str:
    return f"{amounts.colour(lot)}, {lot.yarn}, {amounts.dye_lot(lot)}"


def ways(miss: NearMiss, everything: bool) -> list[str]:
    """The ways out of a near miss: all of them, or the few to choose from."""
    if not miss.ways:
        return [miss.way_out]
    return [way.words for way in (miss.ways if everything else first_told(miss.ways))]


def miss_rows(miss: NearMiss, need: Need, units: Units, patch: Patch) -> list[list[str]]:
    """The lots of a near miss by role: how much of what is to be set aside is there.

    Where she tied a role to some skeins of a lot, or some are too short to join, the lot's free
    yarn would not show what is short; then no amounts are told.
    """
    asked_m = {role.role: role.set_aside_m for role in need.roles}
    rows, parts = [], []
    for role, held in miss.roles:
        length = held.free_length
        part = (length or NO_LENGTH).m / asked_m[role] if asked_m[role] else 1.0
        there = units.yarn(length)
        if length and part < 1:
            there = f"{there} of {units.set_aside(asked_m[role])}"
        parts.append(part)
        rows.append([role, amounts.bar(part), there, *lot_cells(held.lot, patch)])
    if miss.short_m is not None and min(parts, default=1.0) >= 1:
        return [[role, "", "", *lot] for role, _, _, *lot in rows]
    return rows


def nothing(found: Match, *, chosen: bool) -> str:
    """That nothing covers it; never a plain no where only the margin is short.

    `chosen` when she fixed every role, and so asks whether she has enough.
    """
    if not any(miss.within for miss in found.near_misses):
        return "Enough: no." if chosen else "Nothing on the shelf covers it."
    stated = found.need.source is Source.STATED
    has = "what the pattern asks for" if stated else "what is expected"
    if chosen:
        return f"Enough for {has}, but not for the whole margin."
    return f"There is {has}, but not the whole margin."
