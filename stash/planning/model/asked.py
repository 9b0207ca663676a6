"""A want as it was asked for, before the shelf and the design are looked at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from stash.matching.question.wish import Named, Wished
from stash.requirements.fit.grading import Run


@dataclass(frozen=True, slots=True)
class WantAsked:
    """A kept design, perhaps at another size or with another option (`run`, of one row).

    Colours are by role, as the matcher knows them; a contrast of None is the usual one, and so are
    minutes of None: those she has set for the design. `order` is the one it is for,
    `different` how many different sets of yarns there must be at least.
    """

    design: str
    run: Run | None = None
    size: str = ""
    at_least: int = 0
    at_most: int | None = None
    coins: int = 0
    minutes: int | None = None
    wanted: Mapping[str, tuple[Named, ...]] = field(default_factory=dict)
    unwanted: Mapping[str, tuple[Named, ...]] = field(default_factory=dict)
    contrast: Wished | None = None
    order: int | None = None
    different: int = 0
