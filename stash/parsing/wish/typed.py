"""What was typed of a wish: kept apart from its reading, which takes longer to load."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from stash.errors import Unreadable


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
