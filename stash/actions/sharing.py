"""Two lots in one role, as it is asked: held against the design, and read back from a key."""

from __future__ import annotations

import re
from functools import cache

from stash.errors import Refusal, Unreadable
from stash.matching.question.two_lots_asked import TwoLots, TwoLotsAsked
from stash.requirements.fit.splitting import Way, ways
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need

#: Two lots as they are typed for one role.
TWO_LOTS = re.compile(r"(L[0-9]{1,9})/(L[0-9]{1,9})", re.IGNORECASE)
_KEY = re.compile(TWO_LOTS.pattern + r"(?:-([a-z]+))?", re.IGNORECASE)


def shared_by_two(asked: TwoLots | None, need: Need, known: DesignContext | None) -> TwoLots:
    """Where two lots may share a role; how they could is worked out when it is first needed."""
    roles = {role.role: role for role in need.roles}
    return TwoLots(asked.asked if asked else {}, cache(lambda role: ways(known, roles[role])))


def refuse_unshared(two_lots: TwoLots) -> None:
    """Refused where a design has no place for two lots in a role as it was asked."""
    for role, asked in two_lots.asked.items():
        found = two_lots.ways(role)
        if not any(found.of(way) for way in asked.ways):
            kind = _NO_PLACE[asked.ways[0]] if found.rows_known else "rows_of_role_not_known"
            raise Refusal(kind, role=role, can_alternate=bool(found.alternate))


#: What is missing where a role has no place for two lots in a way.
_NO_PLACE = {
    Way.BRIM: "no_brim_for_two_lots",
    Way.CHANGE: "no_row_for_two_lots",
    Way.ALTERNATE: "too_few_rows_for_two_lots",
}


def from_key(key: str) -> tuple[str, TwoLotsAsked] | None:
    """`L3/L9-brim` as the two lots to fix and the way they share the role; None for one lot."""
    found = _KEY.fullmatch(key.strip())
    if found is None:
        return None
    first, other, typed = found.groups()
    way = (typed or "").lower()
    if way and way not in set(Way):
        raise Unreadable(key, "two_lots_of_role", ways=tuple(Way))
    only = int(first[1:]), int(other[1:])
    ways_asked = (Way(way),) if way else tuple(Way)
    return f"{first}/{other}", TwoLotsAsked(ways_asked, unknown=True, only=only)
