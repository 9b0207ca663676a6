"""The yarns that a design is drawn in: its best set of today, else what it was last made of."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from markupsafe import Markup

from stash.actions.ideas import best_sets, from_shelf
from stash.actions.items import last_made
from stash.rendering.drawing.yarn_look import YarnLook, look_of
from stash.rendering.set_card import lots_by_colour, set_name
from stash.web.drawn import Drawings

if TYPE_CHECKING:
    from stash.actions.designs import Kept
    from stash.actions.ideas import FromShelf
    from stash.matching.answer.proposal import Proposal
    from stash.requirements.yarn.need import Need
    from stash.stock.yarn import Lot
    from stash.web.visit import Visit

#: A design that is no yarn yet: undyed, lighter and darker.
PLAIN_LOOKS = {
    role: YarnLook(colours=(colour,), name="undyed")
    for role, colour in zip("ABCD", ("#d9d4c8", "#a39b8e", "#c0b6a6", "#857d72"), strict=True)
}


@dataclass(frozen=True, slots=True)
class DrawnIn:
    """The yarn of each colour of a design, none where no yarn is known; `words` say whence."""

    lots: Mapping[str, Lot] = field(default_factory=dict)
    words: str = ""

    @property
    def looks(self) -> Mapping[str, YarnLook]:
        """How each colour looks; undyed where it has no yarn."""
        return {**PLAIN_LOOKS, **{role: look_of(lot) for role, lot in self.lots.items()}}

    def piece(self, need: Need, scale: float, drawings: Drawings, title: str = "") -> Markup:
        """The piece in these yarns; nothing where its rows are not known."""
        if need.laid is None:
            return Markup()
        return drawings.in_looks(need.laid, self.looks, scale, title=title)


#: No yarn yet.
UNDYED = DrawnIn()


def ideas_of(visit: Visit) -> FromShelf:
    """What could be made of today's shelf, for every screen that speaks of it."""
    return visit.workshop.kept("ideas", lambda: from_shelf(visit.book, lambda name: None))


def best_of(visit: Visit) -> Mapping[str, Proposal]:
    """The best set of each design from today's shelf, by the design's name."""
    return visit.workshop.kept("best sets", lambda: best_sets(visit.book))


def drawn_in(visit: Visit, one: Kept) -> DrawnIn:
    """The yarns of a design: those of its best set, else of its newest item, else none."""
    best = best_of(visit).get(one.design.name)
    if best is not None:
        lots = lots_by_colour(best)
        return DrawnIn(lots, f"drawn in {set_name([*lots.values()])}")
    made = visit.workshop.kept("last made", lambda: last_made(visit.book)).get(one.id)
    if made:
        lots = dict(reversed(made))
        name = set_name([lots[role] for role in sorted(lots)])
        return DrawnIn(lots, f"drawn in {name}, as last made")
    return DrawnIn(words="nothing on your shelf covers it yet")
