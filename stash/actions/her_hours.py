"""How long an item of a design takes her: by what she noted, else as she has set it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from stash.actions.her_settings import Settings
from stash.store import item_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class HerHours:
    """The mean of what her finished items really took, by design; as with her own grams, what she
    measured outranks what she only set."""

    own: Mapping[str, Fraction] = field(default_factory=dict)

    @classmethod
    def read(cls, db: Connection) -> HerHours:
        """From every finished item whose hours were noted."""
        noted = item_rows.own_minutes(db)
        return cls({_plain(n): Fraction(sum(took), 60 * len(took)) for n, took in noted.items()})

    def of(self, design: str, settings: Settings, size: str = "") -> Fraction | None:
        """The hours that one item of a design takes, None where nothing says.

        Another size of a design is kept as one of its own; where she made none of it, those of the
        design itself count.
        """
        own = self.own.get(_plain(f"{design}, {size}"), self.own.get(_plain(design)))
        return settings.hours(design) if own is None else own


def _plain(design: str) -> str:
    return " ".join(design.lower().split())
