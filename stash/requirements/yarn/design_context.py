"""A plan with what is known of it, and the same piece made otherwise: larger, or without a brim."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.requirements.design.evidence import OwnArticle
from stash.requirements.design.piece import Piece
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import NOTHING_MADE, Experience
from stash.requirements.yarn.growth import Growth, growth
from stash.requirements.yarn.need import Need


@dataclass(frozen=True, slots=True)
class DesignContext:
    """A plan, the margin asked for (None: nine times in ten), and what she made before."""

    piece: Piece
    margin: float | None = None
    made: Experience = NOTHING_MADE

    def need(self, made: Piece) -> Need:
        """What the piece needs when it is made like this, by all that is known of the plan."""
        own = self.made.own
        if made == self.piece or not (own or self.piece.stated or self.piece.weighed):
            return need_of(made, self.margin, self.made)
        times = growth(self.piece, made)
        carried = replace(
            made,
            stated=times.lengths(self.piece.stated),
            weighed=times.masses(self.piece.weighed),
        )
        return need_of(carried, self.margin, replace(self.made, own=self._carried(times)))

    def _carried(self, times: Growth) -> tuple[OwnArticle, ...]:
        articles = (times.article(one) for one in self.made.own)
        return tuple(one for one in articles if one.by_role or one.total_m)
