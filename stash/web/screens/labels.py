"""Labels of skeins: which ones, and the sheet to print and cut apart."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING

from markupsafe import Markup
from starlette.responses import Response

from stash.actions import count as counting
from stash.actions.skein_labels import LabelsAsked, skein_labels
from stash.errors import NotFound, StashError
from stash.parsing.numbers import listed
from stash.rendering.amounts import counted
from stash.rendering.skein_labels import ON_A_PAGE, labels_sheet
from stash.web.pages import said
from stash.web.visit import Visit

if TYPE_CHECKING:
    from stash.web.visit import Done


def labels(visit: Visit) -> Response:
    """Which skeins: by their numbers, or all that lie in a place; how many sheets that makes."""
    places = visit.workshop.kept("places", lambda: counting.places(visit.book))
    wrong, found = "", 0
    if _typed(visit):
        try:
            found = len(skein_labels(visit.book, _asked(visit)))
        except StashError as why:
            wrong = said(why)
    return visit.page(
        "labels.html",
        lambda: {
            "typed": visit.query,
            "lying": [(one.name, counted(one.skeins, "skein")) for one in places],
            "wrong": wrong,
            "on_a_page": ON_A_PAGE,
            "count": f"{counted(found, 'label')}, {_sheets(found)}" if found else "",
        },
    )


def _sheets(labels: int) -> str:
    return counted(-(-labels // ON_A_PAGE), "sheet")


def sheet(visit: Visit) -> Response:
    """The sheet itself; for what cannot be found, the question again."""
    asked = _asked(visit)
    found = skein_labels(visit.book, asked)
    return visit.page(
        "paper.html",
        lambda: {
            "title": f"{counted(len(found), 'label')} on {_sheets(len(found))}",
            "sheet": Markup(labels_sheet(found)),
            "style": "/static/skein_labels.css",
            "gaps": [],
            "back": _back(asked),
        },
    )


def _typed(visit: Visit) -> bool:
    return any(visit.query.get(name, "").strip() for name in ("skeins", "place", "lot"))


def _asked(visit: Visit) -> LabelsAsked:
    """What the address asks for. Raises NotFound for what is no number."""
    parts = listed(visit.query.get("skeins", ""))
    for part in parts:
        if not part.isdecimal() or len(part) > 9:
            raise NotFound("skein", part)
    lot = visit.query.get("lot", "")
    number = int(lot) if lot.isdecimal() and len(lot) < 10 else None
    return LabelsAsked([*map(int, parts)], number, visit.query.get("place", "").strip())


def _back(asked: LabelsAsked) -> tuple[str, str]:
    if asked.lot is not None:
        return f"/lot/{asked.lot}", "Back to the lot"
    if len(asked.numbers) == 1:
        return f"/skein/{asked.numbers[0]}", f"Back to no. {asked.numbers[0]}"
    return "/labels", "Other labels"


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/labels": labels, "/labels/sheet": sheet}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
