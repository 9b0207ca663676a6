"""An item: its picture, its yarn by colour, what comes next, and how it ends."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions import clock
from stash.actions.aside import aside, begin, release
from stash.actions.cautions import cautions_of
from stash.actions.gone_item import item_gone, item_leaving
from stash.actions.match import AS_SET
from stash.actions.ordered import watched
from stash.actions.show import item_story
from stash.actions.sold import NO_MONEY, Price, sell, take_back
from stash.actions.under_way import item_at_hand
from stash.actions.unravel import USUAL_LOSS, unravel
from stash.parsing import days
from stash.parsing.coins import typed_together
from stash.parsing.order import order_want
from stash.rendering import aside as aside_words
from stash.rendering import figures, gone_item, several
from stash.rendering.amounts import colour_name, numbers
from stash.rendering.figures import Figure
from stash.rendering.order import short_words
from stash.rendering.sentences.say import sentence
from stash.web.days import day_words
from stash.web.drawn import Drawings
from stash.web.pages import lines_said, said
from stash.web.screens.finishing import finishing
from stash.web.screens.lasts import outlook
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from datetime import date

    from stash.actions.show import ItemStory
    from stash.actions.under_way import UnderWay, UsedOf
    from stash.matching.question.wish import Wish
    from stash.stock.yarn import Lot

_Row = Mapping[str, Any]
#: The room of an item on its page, in pixels: width and height.
_ROOM = (280, 220)


def item(visit: Visit) -> Response:
    """All about one item."""
    number = visit.number()
    one = visit.workshop.kept(("item", number), lambda: item_at_hand(visit.book, number))
    told = visit.workshop.kept(("story", number), lambda: item_story(visit.book, str(number)))
    return visit.page("item.html", lambda: _values(visit, one, told))


def _values(visit: Visit, one: UnderWay, told: ItemStory) -> Mapping[str, Any]:
    drawings, made = Drawings(), one.line.item
    lots = dict(reversed(one.line.colours))
    scale = drawings.together([one.laid], *_ROOM)
    name = made.design or made.note
    rows = [_colour(used, lots.get(used.role), drawings) for used in one.colours]
    cautions = cautions_of(one.line.plan, [lot for _, lot in told.skeins])
    begun = made.state.value == "begun" and made.design_id is not None
    lasting = outlook(visit, one, drawings) if begun else None
    balls = [*_balls(one, lots, drawings)]
    return {
        "drawings": drawings,
        "item": made,
        "name": name,
        "state": made.state.value,
        "open": made.open,
        "since": day_words(one.line.since),
        "piece": drawings.piece(one.laid, lots, scale, title=name),
        "next": sentence(one.line.next) if one.line.next else "",
        "rows": rows,
        "totals": _totals(rows),
        "balls": balls,
        "outlook": lasting,
        "finishing": finishing(visit, one) if made.open and balls else None,
        "cautions": [*map(said, cautions)],
        "history": [*_history(told)],
        "sale": one.line.sale,
    }


def _colour(one: UsedOf, lot: Lot | None, drawings: Drawings) -> Mapping[str, Any]:
    return {
        "role": one.role,
        "chip": drawings.chip(lot) if lot else "",
        "colour": colour_name(lot) if lot else "",
        "skeins": f"no. {numbers([skein.number for skein in one.skeins])}" if one.skeins else "",
        "place": ", ".join(dict.fromkeys(s.place for s in one.skeins if s.place)),
        "used": figures.near(one.used),
        "about": None if one.expected is None else figures.near(one.expected),
        "aside": figures.up(one.set_aside),
    }


def _totals(rows: Sequence[Mapping[str, Any]]) -> Mapping[str, Figure | None]:
    """Added up from what is shown."""

    def together(name: str) -> Figure | None:
        shown = [row[name] for row in rows]
        return None if not shown or None in shown else sum(shown[1:], start=shown[0])

    return {name: together(name) for name in ("used", "about", "aside")}


def _balls(one: UnderWay, lots: Mapping[str, Lot], drawings: Drawings) -> Iterator[_Row]:
    """Each ball that is set aside for it or was worked, once, to be weighed at the end."""
    seen: set[int] = set()
    for used in one.colours:
        for skein in used.skeins:
            if skein.number not in seen and skein.held:
                seen.add(skein.number)
                lot = lots.get(used.role)
                yield {
                    "number": skein.number,
                    "role": used.role,
                    "chip": drawings.chip(lot) if lot else "",
                    "colour": colour_name(lot) if lot else "",
                    "holds": figures.near(skein.held) if skein.mass_known else "",
                }


def _history(told: ItemStory) -> Iterator[Mapping[str, Any]]:
    """What happened to it, newest first, each entry once."""
    entries = {entry.number: entry for _, entry in told.moved}
    for number in sorted(entries, reverse=True):
        entry = entries[number]
        yield {"day": day_words(entry.on), "words": said(entry.what)}


def set_aside(visit: Visit) -> Done:
    """The yarn of one set, by its key; the item's page has the list to pick."""
    return aside_done(visit, visit.typed.get("design", ""), visit.typed.get("key", ""), AS_SET)


def aside_done(visit: Visit, design: str, key: str, wish: Wish) -> Done:
    """The same as she wished it; what to mind is said, and which orders it leaves short."""
    with watched(visit.book, None, order_want) as short:
        made = aside(visit.book, design, key, wish)
    lots = [picked.lot for picked in made.picked]
    cautions = cautions_of(made.plan, lots, None)
    head = aside_words.text(made, (), visit.shown_on).split("\n")[0]
    notes = [said(one) for one in (*made.notes, *cautions)]
    orders = (said(words) for one in short for words in short_words(one.orders.all, one.by))
    return Done(f"/item/{made.item.number}", (*lines_said(head), *notes, *orders))


def begin_item(visit: Visit) -> Done:
    """It is begun."""
    began = begin(visit.book, [_item(visit)], on=_day(visit))
    return Done(visit.back(), lines_said(several.items_begun(*began, visit.shown_on)))


def release_item(visit: Visit) -> Done:
    """Its yarn is free again."""
    back = release(visit.book, [_item(visit)])
    return Done(visit.back(), lines_said(several.items_released(*back, visit.shown_on)))


def sell_item(visit: Visit) -> Done:
    """It is sold, for the price typed; with none, for what its order says."""
    amounts = [visit.typed.get("price", "").strip(), visit.typed.get("fee", "").strip()]
    (paid, kept), currency = typed_together(amounts, visit.settings.currency)
    prices = {_item(visit): Price(paid, kept or NO_MONEY)}
    sold = sell(visit.book, prices, currency=currency, on=_day(visit))
    return Done(visit.back(), lines_said(several.items_sold(sold, visit.shown_on)))


def take_item_back(visit: Visit) -> Done:
    """It came back from its buyer."""
    back = take_back(visit.book, [_item(visit)], NO_MONEY, on=_day(visit))
    return Done(visit.back(), lines_said(several.items_returned(back, visit.shown_on)))


def give_item(visit: Visit) -> Done:
    """It was given away, or is lost."""
    how = item_leaving(visit.typed.get("why", ""), _item(visit))
    gone = item_gone(visit.book, _item(visit), how, on=_day(visit))
    return Done(visit.back(), lines_said(gone_item.text(gone, visit.shown_on)))


def unravel_item(visit: Visit) -> Done:
    """It came apart; its yarn lies on the shelf again."""
    apart = unravel(visit.book, [_item(visit)], on=_day(visit))
    return Done(
        visit.back(), lines_said(several.items_unravelled(apart, USUAL_LOSS, visit.shown_on))
    )


def _item(visit: Visit) -> str:
    return visit.typed.get("item", "")


def _day(visit: Visit) -> date | None:
    text = visit.typed.get("on", "").strip()
    return days.day(text, clock.today()) if text else None


SCREENS: Mapping[str, Callable[[Visit], Response]] = {"/item/{number:int}": item}
FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/aside": set_aside,
    "/begin": begin_item,
    "/release": release_item,
    "/sold": sell_item,
    "/returned": take_item_back,
    "/gone-item": give_item,
    "/unravel": unravel_item,
}
