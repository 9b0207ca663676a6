"""Colours out of a photograph: for a lot on the shelf, or for yarn that is being added.

The picture is opened and shrunk in her browser; only the pixels of the rings she puts on the yarn
and on white paper are sent, and nothing of them is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import urlencode

from starlette.datastructures import UploadFile
from starlette.responses import Response

from stash.actions.change import Changes, change
from stash.actions.shelf import lot as lot_of
from stash.errors import BadInput, NotFound
from stash.parsing import facts
from stash.parsing.photo import MOST_PIXELS, yarn_colours
from stash.rendering.amounts import dye_lot
from stash.rendering.arriving import typed_colours
from stash.rendering.photo import colour_patches, drawn_in, words_for
from stash.web.pages import said
from stash.web.screens.add import Typed, reading_of
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.measures.colour_clusters import ColourShare
    from stash.stock.yarn import Lot


@dataclass(frozen=True, slots=True)
class For:
    """What the colours are for: a lot on the shelf, or a label that is being added."""

    lot: Lot | None
    adding: Typed
    to_be: Lot | None

    @classmethod
    def of(cls, visit: Visit) -> For:
        """By the address: `lot`, or the fields of adding."""
        adding = Typed.of(visit.query)
        if "lot" in visit.query and "line" not in visit.query:  # else it is what a band says
            return cls(lot_of(visit.book, _number(visit.query["lot"])), adding, None)
        came = reading_of(visit, adding).came
        return cls(None, adding, came.lot if came else None)

    @property
    def yarn(self) -> Lot | None:
        """The lot, or what it would become."""
        return self.lot or self.to_be


def photo(visit: Visit) -> Response:
    """The picture to choose, and the fields for its colours."""
    return _page(visit, (), "", 200)


def colours(visit: Visit) -> Response:
    """The same with what was found in the pixels that were sent: `yarn`, and `paper` if there is
    any, RGBA a byte each."""
    try:
        found, wrong = yarn_colours(_pixels(visit, "yarn"), _pixels(visit, "paper")), ""
    except BadInput as why:
        found, wrong = [], said(why)
    return _page(visit, found, wrong, 422 if wrong else 200)


def _pixels(visit: Visit, name: str) -> bytes:
    """At most one byte more than may be sent of them, which is then refused."""
    sent = visit.files.get(name)
    return sent.file.read(4 * MOST_PIXELS + 4) if isinstance(sent, UploadFile) else b""


def _page(visit: Visit, found: Sequence[ColourShare], wrong: str, status: int) -> Response:
    for_what = For.of(visit)
    return visit.page("photo.html", lambda: _values(visit, for_what, found, wrong), status)


def _values(
    visit: Visit, for_what: For, found: Sequence[ColourShare], wrong: str
) -> Mapping[str, Any]:
    lot, yarn = for_what.lot, for_what.yarn
    fields = {} if lot else for_what.adding.fields()
    named = yarn.colour if yarn else fields.get("colour", "")
    hexes = typed_colours([one.colour for one in found]) or _hexes_before(visit, lot)
    return {
        "lot": lot,
        "lot_words": f"{lot.yarn}, {dye_lot(lot)}" if lot else "",
        "fields": {k: v for k, v in fields.items() if k not in ("colour", "hex")},
        "was": {c: visit.query[c] for c in ("was-colour", "was-hex") if c in visit.query},
        "found": colour_patches(found),
        "wrong": wrong,
        "hexes": hexes,
        "words": visit.field("/photo/save", "colour", visit.query.get("colour", "") or named)
        or words_for(found),
        "suggested": bool(found) and not named,
        "drawn": drawn_in(_readable(hexes) or (yarn.colours if yarn else ()), yarn),
        "daylight": lot is not None and lot.daylight and not found,
        "without": "/add?" + urlencode(for_what.adding.fields()),
    }


def _hexes_before(visit: Visit, lot: Lot | None) -> str:
    """What stands in the field of colours as long as no picture was looked at."""
    known = typed_colours(lot.colours) if lot else ""
    return visit.field("/photo/save", "hex", visit.query.get("hex", known))


def _readable(hexes: str) -> tuple[Any, ...]:
    """The colours as far as they can be drawn already."""
    with suppress(BadInput):
        return facts.hexes(hexes)
    return ()


def _number(text: str) -> int:
    if not text.isdecimal() or len(text) > 15:
        raise NotFound("lot", text)
    return int(text)


def save(visit: Visit) -> Done:
    """The colours are those of the lot; only on a screen, unless she says she compared them."""
    typed = {name: visit.typed.get(name, "").strip() for name in ("lot", "hex", "colour")}
    lot = lot_of(visit.book, _number(typed["lot"]))
    by_word = typed["colour"] and not typed["hex"]
    changes = Changes(
        colours=facts.named_colour(typed["colour"]) if by_word else facts.hexes(typed["hex"]),
        colour=typed["colour"] if typed["colour"] not in ("", lot.colour) else None,
        daylight="daylight" in visit.typed,
    )
    changed = change(visit.book, [lot.ref], changes)
    now = "; ".join(map(said, changed.done))
    return Done(f"/photo?lot={lot.id}", (f"Saved: {now}",))


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/photo": photo}
ANSWERS: Mapping[str, Callable[[Visit], Response]] = {"/photo": colours}
FORMS: Mapping[str, Callable[[Visit], Done]] = {"/photo/save": save}
