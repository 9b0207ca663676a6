"""A plan with what is known of it, and the same design made otherwise: larger, or brimless."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.requirements.design.design import Design
from stash.requirements.design.evidence import OwnItem
from stash.requirements.yarn.estimate import need_of
from stash.requirements.yarn.experience import NOTHING_MADE, Experience
from stash.requirements.yarn.growth import Growth, growth
from stash.requirements.yarn.need import Need


@dataclass(frozen=True, slots=True)
class DesignContext:
    """A plan, the margin asked for (None: nine times in ten), and what she made before."""

    design: Design
    margin: float | None = None
    made: Experience = NOTHING_MADE

    def need(self, made: Design) -> Need:
        """What the design needs when it is made like this, by all that is known of the plan."""
        like = self.resized(made)
        return need_of(like.design, self.margin, like.made)

    def resized(self, made: Design) -> DesignContext:
        """The plan made like this, with the figures and items of its own size brought to this."""
        own = self.made.own
        if made == self.design or not (own or self.design.stated or self.design.weighed):
            return replace(self, design=made)
        times = growth(self.design, made)
        carried = replace(
            made,
            stated=times.lengths(self.design.stated),
            weighed=times.masses(self.design.weighed),
        )
        return replace(self, design=carried, made=replace(self.made, own=self._carried(times)))

    def _carried(self, times: Growth) -> tuple[OwnItem, ...]:
        items = (times.item(one) for one in self.made.own)
        return tuple(one for one in items if one.by_role or one.total_m)
