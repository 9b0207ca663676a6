"""What one yarn could become: each design, as which colour, enough or how large."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions.ideas import from_yarn
from stash.rendering import figures, reach
from stash.rendering.yarn_card import Drawn, card
from stash.web.drawn import Drawings
from stash.web.visit import Visit

if TYPE_CHECKING:
    from stash.actions.ideas import YarnUse


def yarn_ideas(visit: Visit) -> Response:
    """What the free yarn of a skein could become, the likeliest first."""
    found = from_yarn(visit.book, str(visit.names["number"]), lambda name: None)
    skein = found.skein
    assert skein is not None, "a number names a skein"
    drawings = Drawings()
    return visit.page(
        "yarn_ideas.html",
        lambda: {
            "number": skein.number,
            "lot": found.lot,
            "card": card(found.lot, [skein], Drawn(260, 120), drawings.swatch),
            "drawings": drawings,
            "free": figures.down(found.free),
            "uses": [_row(use) for use in found.uses],
        },
    )


def _row(use: YarnUse) -> Mapping[str, Any]:
    name, role, _, needs, verdict, last = reach.use_row(use.reach, use.role, use.steps)
    return {
        "design": name,
        "role": role,
        "needs": needs,
        "enough": use.enough and not use.steps,
        "verdict": verdict,
        "more": last,
    }


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/yarn-ideas/{number:int}": yarn_ideas}
FORMS: Mapping[str, Callable[[Visit], Any]] = {}
