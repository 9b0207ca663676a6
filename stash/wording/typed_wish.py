"""What was typed of a wish: kept apart from its reading, which takes longer to load."""

from __future__ import annotations

from dataclasses import dataclass, replace


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
