"""Strands of different yarns held together: each is a role of its own, in one colour of the design.

A1 and A2 are worked at once wherever A is. Each takes its share of the length; between them no
contrast is asked for, only between one colour of the design and another.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from stash.errors import Refusal
from stash.measures.colour import Lab
from stash.measures.estimate import Estimate
from stash.requirements.yarn.need import Need, RoleNeed


def apart(need: Need, roles: Collection[str]) -> Need:
    """The need with every strand of these roles by itself: A of two strands becomes A1 and A2.

    Refused for a role of a single strand.
    """
    return replace(need, roles=tuple(_strands(need.roles, roles))) if roles else need


def _strands(needs: Sequence[RoleNeed], roles: Collection[str]) -> Iterator[RoleNeed]:
    for need in needs:
        if need.role not in roles:
            yield need
        elif need.strands == 1:
            raise Refusal("one_strand_only", role=need.role)
        else:
            for strand in range(1, need.strands + 1):
                yield _strand(need, strand)


def _strand(need: RoleNeed, strand: int) -> RoleNeed:
    share = 1 / need.strands
    whole = need.estimate
    return replace(
        need,
        role=f"{need.role}{strand}",
        estimate=Estimate(whole.expected_m * share, whole.spread_m * share),
        strands=1,
        row_m=None if need.row_m is None else need.row_m * share,
        others=(),
    )


def colour_of(role: str) -> str:
    """The colour of the design that a role is of: A for A, A1 and A2."""
    return role[0]


def strand_of(role: str) -> int:
    """Which strand of its colour a role is; 0 where it is all of them."""
    return int(role[1:] or 0)


def colours_of(need: Need) -> tuple[int, ...]:
    """The colour of each role by number; empty where every role is a colour of its own."""
    names = [colour_of(role.role) for role in need.roles]
    known = [*dict.fromkeys(names)]
    return tuple(known.index(name) for name in names) if len(known) < len(names) else ()


def by_colour(shades: Sequence[Sequence[Lab]], colours: Sequence[int]) -> list[list[Lab]]:
    """The shades of the roles of each colour together; empty for one of which a lot has none."""
    if not colours:
        return [[*one] for one in shades]
    found: list[list[Lab]] = []
    for colour in range(max(colours) + 1):
        strands = [one for one, at in zip(shades, colours, strict=True) if at == colour]
        found.append([lab for one in strands for lab in one] if all(strands) else [])
    return found
