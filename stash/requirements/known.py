"""A plan with what is known of it, and the same piece made otherwise: larger, or without a brim.

A finished article and a pattern's figure tell of one size. They are carried over to another by the
ratio that the swatch or the model gives between the two, in which most of its error cancels.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.requirements.evidence import OwnArticle
from stash.requirements.experience import NOTHING_MADE, Experience
from stash.requirements.layout import laid_out_finely
from stash.requirements.need import Need
from stash.requirements.piece import Piece
from stash.requirements.reckon import need_of

#: How far off a figure is when it is carried to e times as much yarn, one standard deviation;
#: less as the logarithm is less. The five sizes of one leaflet at three gauges, each carried to
#: each other, come to 0.147 (rows H1 of the check table, seen while this was settled).
CARRIED_SPREAD = 0.15


@dataclass(frozen=True, slots=True)
class Known:
    """A plan, the margin asked for (None: nine times in ten), and what she made before."""

    piece: Piece
    margin: float | None = None
    made: Experience = NOTHING_MADE

    def need(self, made: Piece) -> Need:
        """What the piece needs when it is made like this, by all that is known of the plan."""
        own = self.made.own
        if made == self.piece or not (own or self.piece.stated or self.piece.weighed):
            return need_of(made, self.margin, self.made)
        times = _Times(_bare(self.piece), _bare(made))
        return need_of(
            replace(
                made,
                stated=tuple(times.lengths(self.piece.stated)),
                weighed=tuple(times.masses(self.piece.weighed)),
            ),
            self.margin,
            replace(self.made, own=self._carried(times)),
        )

    def _carried(self, times: _Times) -> tuple[OwnArticle, ...]:
        articles = (times.article(one) for one in self.made.own)
        return tuple(one for one in articles if one.by_role or one.total_m)


@dataclass(frozen=True, slots=True)
class _Times:
    """How much each role takes before and after, in like measures."""

    before: Mapping[str, float]
    after: Mapping[str, float]

    def of(self, role: str) -> float | None:
        """How many times as much the role takes; None where it is not there on both sides."""
        if role not in self.before or role not in self.after:
            return None
        return self.after[role] / self.before[role]

    @property
    def all(self) -> float:
        """How many times as much all roles take together."""
        return sum(self.after.values()) / sum(self.before.values())

    def lengths(self, stated: tuple[tuple[str, Length], ...]) -> list[tuple[str, Length]]:
        told = [(role, length, self.of(role)) for role, length in stated]
        return [(role, Length(round(length.um * t))) for role, length, t in told if t]

    def masses(self, weighed: tuple[tuple[str, Mass], ...]) -> list[tuple[str, Mass]]:
        told = [(role, mass, self.of(role)) for role, mass in weighed]
        return [(role, Mass(round(mass.mg * t))) for role, mass, t in told if t]

    def article(self, one: OwnArticle) -> OwnArticle:
        """A finished article as if it had been made like this."""
        told = [(role, length_m, self.of(role)) for role, length_m in one.by_role]
        return replace(
            one,
            by_role=tuple((role, length_m * t) for role, length_m, t in told if t),
            total_m=None if one.total_m is None else one.total_m * self.all,
            scale_m=one.scale_m * self.all,
            # like a metre per gram that is off, it is the same for all and does not average
            pair_spread=math.hypot(one.pair_spread, CARRIED_SPREAD * math.log(self.all)),
        )


def _bare(piece: Piece) -> dict[str, float]:
    """What each role takes by swatch or model; by plain area where there is neither."""
    alone = replace(piece, stated=(), weighed=())
    reckoned = piece.swatch or (piece.fabric and (piece.gauge or piece.classes))
    if piece.shape and piece.size and reckoned:
        return {role.role: role.estimate.expected_m for role in need_of(alone).roles}
    if piece.shape and piece.size:
        return laid_out_finely(alone).area_m2
    raise Refusal(
        "how much more or less another size takes cannot be told: "
        "give the piece its shape and size, best with --fabric and --gauge"
    )
