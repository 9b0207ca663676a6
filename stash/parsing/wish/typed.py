"""What was typed of a wish: kept apart from its reading, which takes longer to load."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.errors import BadInput, Unreadable


@dataclass(frozen=True, slots=True)
class WishWords:
    """What was typed of a wish, by the options it was typed with."""

    margin: str = ""
    contrast: str = ""
    fix: tuple[str, ...] = ()
    colours: tuple[str, ...] = ()
    not_colours: tuple[str, ...] = ()
    fineness: str = ""
    without: tuple[str, ...] = ()
    wash: str = ""
    no_bleeding: bool = False
    owner: str = ""
    not_in: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    assume: bool = False
    two_lots: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()

    @property
    def narrow(self) -> bool:
        """Whether anything was typed that narrows the shelf."""
        asked = replace(self, margin="", contrast="", fix=(), assume=False)
        return replace(asked, two_lots=(), apart=()) != NOTHING


NOTHING = WishWords()

#: What parts one role from the next where several were typed into one option.
_NEXT_ROLE = re.compile(r"(?:\s*[,;/&+]\s*|\s+(?:and\s+)?)(?=[A-Za-z][0-9]?\s*=)")


def one_role(text: str, option: str, kind: str) -> str:
    """What was typed for one role; several in one option are `Unreadable`, of the kind given."""
    parts = [part for part in _NEXT_ROLE.split(text.strip()) if part]
    if len(parts) > 1:
        raise Unreadable(text, kind, option=option, parts=tuple(parts))
    return text


ROLES = ("A", "B", "C", "D")


def by_role(texts: Sequence[str], option: str, *, strands: bool = False) -> dict[str, str]:
    """`A=12`, `B=navy` as typed with a repeatable option, by role, or `A2=12` by strand."""
    found: dict[str, str] = {}
    for text in texts:
        one_role(text, option, "several_roles")
        role, sign, value = text.partition("=")
        role = role.strip().upper()
        strand = strands and role[1:].isdecimal()
        if not sign or not value.strip() or (role[:1] if strand else role) not in ROLES:
            raise BadInput("no_role_and_value", typed=text, option=option)
        if role in found:
            raise BadInput("role_named_twice", role=role, option=option)
        found[role] = value.strip()
    return found


def strands_apart(texts: Sequence[str]) -> tuple[str, ...]:
    """The roles of which each strand may be a yarn of its own."""
    roles = tuple(text.strip().upper() for text in texts)
    for role in roles:
        if role not in ROLES:
            raise BadInput("no_role_of_strands", typed=role)
    return roles
