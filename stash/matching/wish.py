"""What a maker asks of the matcher, beside the need itself."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum


class Contrast(StrEnum):
    """How far two colours should stand apart."""

    BOLD = "bold"
    CLEAR = "clear"
    SOFT = "soft"
    TONAL = "tonal"
    ANY = "any"


@dataclass(frozen=True, slots=True)
class Weights:
    """What each drawback costs when proposals are put in order; hers to set, all at least 0."""

    opening: float = 1.0  # breaking a whole skein
    sliver: float = 1.0  # ...for less than a sixth of it
    join: float = 0.5
    looseness: float = 1.0  # times the share of the lot's free yarn that stays behind
    useless_end: float = 0.5  # leaving an end too short to use
    lone_skein: float = 0.25  # leaving one whole skein by itself
    lot_not_known: float = 0.75  # two skeins together whose lot is not known
    class_step: float = 0.5  # a class away, or a class only derived
    colour_not_known: float = 0.5


@dataclass(frozen=True, slots=True)
class Wish:
    """Contrast, fixed roles, tolerance and limits.

    `fixed` maps a role to lots and skeins it must be filled from: lot ids, and skein numbers
    (empty: any skein of those lots). `useful_end_m` is the shortest piece worth joining in;
    `join_m` the yarn a join costs. `assume` lets a lot without a length take part by its class's
    usual metres per 100 g.
    """

    contrast: Contrast = Contrast.ANY
    fixed: dict[str, Fixed] = field(default_factory=dict)
    class_tolerance: int = 0
    useful_end_m: float = 2.0
    join_m: float = 0.4
    assume: bool = False
    weights: Weights = Weights()
    top: int | None = 20


@dataclass(frozen=True, slots=True)
class Fixed:
    """What a role was tied to by the person who asked."""

    lots: frozenset[int]
    skeins: frozenset[int] = frozenset()
