"""What is printed for a market: tags to cut apart, and a list of prices."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING
from urllib.parse import urlencode

from markupsafe import Markup
from starlette.responses import Response

from stash.actions.price_list import for_sale
from stash.actions.tag import TagAsked, tags
from stash.exchange.tag_facts import facts_of
from stash.parsing.numbers import listed
from stash.rendering import cards, price_list, printed
from stash.rendering.amounts import colour_name
from stash.web.pages import said

if TYPE_CHECKING:
    from stash.rendering.tag import Gap
    from stash.web.visit import Done, Visit


def printed_tags(visit: Visit) -> Response:
    """The tags of some items on one sheet, to print and cut apart."""
    found = tags(visit.book, listed(str(visit.names["items"])), TagAsked())
    made = [
        cards.Card(facts_of(one), one.size, one.item.asked.price, one.settings.currency)
        for one in found
    ]
    alone = found[0].item.number if len(found) == 1 else None
    return visit.page(
        "paper.html",
        lambda: {
            "title": "Tags",
            "style": "",
            "sheet": Markup(cards.cards_sheet(made)),
            "gaps": [(of, f"{said(gap.what)}.", _where(gap)) for of, gap in cards.cards_gaps(made)],
            "back": ("/market", "Back to the market")
            if alone is None
            else (f"/item/{alone}", f"Back to item {alone}"),
        },
    )


def _where(gap: Gap) -> list[tuple[str, str]]:
    """Where what a tag leaves out is to be written: words and address of each place."""
    if gap.fact == "maker":
        return [("Settings", "/settings")]
    return [
        (colour_name(lot), f"/lot/{lot.id}?{urlencode({'change': gap.fact})}#change")
        for lot in gap.lots
    ]


def price_sheet(visit: Visit) -> Response:
    """What is for sale with its prices, to print."""
    return visit.page(
        "paper.html",
        lambda: {
            "title": "Price list",
            "style": "",
            "gaps": [],
            "sheet": Markup(price_list.prices_sheet(for_sale(visit.book, None))),
            "back": ("/market", "Back to the market"),
        },
    )


def paper_style(_: Visit) -> Response:
    """How a sheet is set, as in the files of the commands."""
    return Response(printed.STYLE, media_type="text/css")


SCREENS: Mapping[str, Callable[[Visit], Response]] = {
    "/tag/{items}": printed_tags,
    "/prices": price_sheet,
    "/paper.css": paper_style,
}
FORMS: Mapping[str, Callable[[Visit], Done]] = {}
