"""What a design needs of each colour: expected, spread, to set aside, and where that comes from."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from stash.measures.estimate import Estimate
from stash.measures.note import Note
from stash.requirements.design.extras import Extra
from stash.requirements.design.layout import Layout
from stash.requirements.design.shapes import Shape


class Source(StrEnum):
    """Where a figure comes from, most trusted first."""

    OWN_ITEMS = "own items"
    SWATCH = "swatch"
    STATED = "stated"
    GAUGE = "gauge"
    THICKNESS = "thickness"


#: Most trusted first; a lower place is trusted more.
TRUST = tuple(Source)


@dataclass(frozen=True, slots=True)
class Figure:
    """One estimate for one role and its source; several may stand side by side."""

    source: Source
    estimate: Estimate


@dataclass(frozen=True, slots=True)
class ExtraYarn:
    """What something beside the fabric takes of one role, in metres over all strands.

    `what` is the extra, or a note of squares that are joined.
    """

    what: Extra | Note
    role: str
    expected_m: float


@dataclass(frozen=True, slots=True)
class RoleNeed:
    """The need of one role (a colour), over all its strands.

    Lengths in metres, masses in grams. `set_aside_m` = expected x (1 + margin), once, here only.
    `row_m` is what one row takes of this role, where the design is known by its rows; it turns a
    shortage into rows. `others` are less trusted figures for the same role, shown beside it.
    """

    role: str
    estimate: Estimate
    margin: float
    source: Source
    strands: int = 1
    m_per_100g: float | None = None
    row_m: float | None = None
    others: tuple[Figure, ...] = ()

    @property
    def set_aside_m(self) -> float:
        """The amount to set aside, all strands together."""
        return self.estimate.expected_m * (1 + self.margin)

    @property
    def expected_g(self) -> float | None:
        """Expected grams at the design's own put-up or class, where there is one."""
        return self._g(self.estimate.expected_m)

    @property
    def set_aside_g(self) -> float | None:
        """Grams to set aside, likewise."""
        return self._g(self.set_aside_m)

    def _g(self, length_m: float) -> float | None:
        return None if self.m_per_100g is None else 100 * length_m / self.m_per_100g


@dataclass(frozen=True, slots=True)
class Need:
    """The needs of all roles, A first, with what a person should know about them.

    `thickness_from`..`thickness_to`: the thickness it is planned in, None where any will do.
    `extras` are held in what their roles are expected to take. `laid` is the shape with its rows,
    where they are known, for whoever draws it.
    """

    roles: tuple[RoleNeed, ...]
    thickness_from: int | None = None
    thickness_to: int | None = None
    notes: tuple[Note, ...] = ()
    extras: tuple[ExtraYarn, ...] = ()
    laid: tuple[Shape, Layout] | None = field(default=None, compare=False, repr=False)

    @property
    def source(self) -> Source:
        """The least trusted source among the roles."""
        return max((r.source for r in self.roles), key=TRUST.index)

    @property
    def margin(self) -> float:
        """The largest margin among the roles."""
        return max(r.margin for r in self.roles)
