"""What a skein or a lot could become: each design, as which colour, and its pairs with it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.responses import Response

from stash.actions import designs
from stash.actions.ideas import from_yarn
from stash.actions.show_lot import lot_story
from stash.rendering import figures, reach
from stash.rendering.amounts import colour_name
from stash.rendering.yarn_card import Drawn, card
from stash.web.drawn import Drawings
from stash.web.visit import Visit

if TYPE_CHECKING:
    from collections.abc import Sequence

    from stash.actions.ideas import FromYarn, YarnUse
    from stash.stock.holding import HeldSkein

#: More skeins than this are not each named where a colour is tied to their lot.
_NAMED = 8


def of_skein(visit: Visit) -> Response:
    """What the free yarn of a skein could become, the likeliest first."""
    found = _found(visit, str(visit.number()))
    assert found.skein is not None, "a number names a skein"
    named = f"no. {found.skein.number}"
    skeins = (found.skein,)
    return _shown(visit, found, skeins, {"name": named, "at": f"/skein/{found.skein.number}"})


def of_lot(visit: Visit) -> Response:
    """The same of all the free yarn of a lot."""
    number = visit.number()
    found = _found(visit, f"L{number}")
    skeins = lot_story(visit.book, number).there
    name = found.lot.colour or colour_name(found.lot)
    return _shown(visit, found, skeins, {"name": name, "at": f"/lot/{number}"})


def _found(visit: Visit, asked: str) -> FromYarn:
    name = ("yarn ideas", asked)
    return visit.workshop.kept(name, lambda: from_yarn(visit.book, asked, lambda name: None))


def _shown(
    visit: Visit, found: FromYarn, skeins: Sequence[HeldSkein], words: Mapping[str, str]
) -> Response:
    ids = {row.name: row.id for row in designs.her_designs(visit.book).rows}
    tied, drawings = _tied(found, skeins), Drawings()

    def uses() -> Iterator[Mapping[str, Any]]:
        for use in found.uses:
            row = _row(use)
            pairs = urlencode({f"with_{use.role}": tied})
            yield {**row, "pairs": f"/pairs/{ids[row['design']]}?{pairs}"}

    return visit.page(
        "yarn_ideas.html",
        lambda: {
            **words,
            "lot": found.lot,
            "card": card(found.lot, skeins, Drawn(260, 120), drawings.swatch),
            "drawings": drawings,
            "free": figures.down(found.free),
            "uses": [*uses()],
        },
    )


def _tied(found: FromYarn, skeins: Sequence[HeldSkein]) -> str:
    """What ties a colour of a design to this yarn, as it is typed in the field of the pairs."""
    numbers = [str(skein.number) for skein in skeins]
    return found.lot.ref if len(numbers) > _NAMED else f"no. {','.join(numbers)}"


def _row(use: YarnUse) -> Mapping[str, Any]:
    name, role, _, needs, verdict, last = reach.use_row(use.reach, use.role, use.steps)
    return {
        "design": name,
        "role": role,
        "needs": needs,
        "sign": "lacks" if not use.enough else "tight" if use.steps else "enough",
        "verdict": verdict,
        "more": last,
    }


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/yarn-ideas/{number:int}": of_skein,
    "/lot-ideas/{number:int}": of_lot,
}
FORMS: Mapping[str, Callable[[Visit], Any]] = {}
