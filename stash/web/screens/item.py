"""An item: its picture, its yarn by colour, what comes next, and how it ends."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from stash.actions import clock
from stash.actions.aside import aside, begin
from stash.actions.cautions import cautions_of
from stash.actions.gone_item import item_gone, item_leaving
from stash.actions.ordered import watched
from stash.actions.release import release
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
from stash.rendering.history import happened_to_item
from stash.rendering.items import size_of_line
from stash.rendering.order import short_words
from stash.rendering.sale import went_by
from stash.web.days import day_words
from stash.web.drawn import Drawings
from stash.web.meanwhile import history_rows
from stash.web.pages import lines_said, said
from stash.web.screens.finishing import finishing
from stash.web.screens.lasts import outlook
from stash.web.screens.pick import to_pick
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from datetime import date

    from stash.actions.aside import SetAside
    from stash.actions.show import ItemStory
    from stash.actions.under_way import UnderWay, UsedOf
    from stash.stock.yarn import Lot

_Row = Mapping[str, Any]
#: The room of an item on its page, in pixels: width and height; and of its yarn where it has none.
_ROOM, _CHIP = (280, 220), (110, 80)


def item(visit: Visit) -> Response:
    """All about one item."""
    number = visit.number()
    one = visit.workshop.kept(("item", number), lambda: item_at_hand(visit.book, number))
    told = visit.workshop.kept(("story", number), lambda: item_story(visit.book, str(number)))
    return visit.page("item.html", lambda: _values(visit, one, told))


def _values(visit: Visit, one: UnderWay, told: ItemStory) -> Mapping[str, Any]:
    drawings, made, sale = Drawings(), one.line.item, one.line.sale
    lots = dict(reversed(one.line.colours))
    scale = drawings.together([one.laid], *_ROOM)
    name = made.design or made.note
    rows = [_colour(used, lots.get(used.role), drawings) for used in one.colours]
    cautions = cautions_of(one.line.plan, [lot for _, lot in told.skeins])
    begun, designed = made.state.value == "begun", made.design_id is not None
    balls = sorted(_balls(one, lots, drawings), key=lambda ball: not _is_next(one, ball))
    return {
        "drawings": drawings,
        "item": made,
        "name": name,
        "designed": designed,
        "size": size_of_line(one.line),
        "state": made.state.value,
        "open": made.open,
        "since": day_words(one.line.since),
        "row": _row_reached(one, told),
        "piece": drawings.piece(one.laid, lots, scale, title=name),
        "chips": [drawings.chip(lot, size=_CHIP) for lot in lots.values()],
        "next": said(one.line.next) if one.line.next and not sale else "",
        "rows": rows,
        "totals": _totals(rows),
        "balls": balls,
        "outlook": outlook(visit, one, drawings) if begun and designed else None,
        "finishing": finishing(visit, one) if made.open and designed and balls else None,
        "to_pick": to_pick([told], drawings) if made.open and not begun else None,
        "cautions": [*map(said, cautions)],
        "history": history_rows(visit, happened_to_item(told.history)),
        "sale": sale,
        "went": sale and went_by(sale, day_words(sale.on), visit.settings.currency),
    }


def _is_next(one: UnderWay, ball: _Row) -> bool:
    """Whether what comes next is to weigh it."""
    note = one.line.next
    return note is not None and ball["role"] in note.facts.get("roles", ())


def _row_reached(one: UnderWay, told: ItemStory) -> str:
    """At which row it was when a ball was last weighed: `row 15 of 29 at the last weighing`."""
    if one.line.item.state.value != "begun" or not told.history.rows:
        return ""
    row = told.history.rows[max(told.history.rows)]
    of_all = "" if one.laid is None else f" of {len(one.laid[1].rows)}"
    return f"row {row}{of_all} at the last weighing"


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
        "to_release": bool(one.set_aside),
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


def set_aside(visit: Visit) -> Done:
    """The yarn of one set, by its key; the item's page has the list to pick."""
    design, key = visit.typed.get("design", ""), visit.typed.get("key", "")
    return aside_done(visit, lambda: aside(visit.book, design, key))


def aside_done(visit: Visit, set_aside: Callable[[], SetAside]) -> Done:
    """Yarn is set aside; what to mind is said, and which orders it leaves short."""
    with watched(visit.book, None, order_want) as short:
        made = set_aside()
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
    """Its yarn is free again: all of it, or what the form names a colour of."""
    back = release(visit.book, [_item(visit)], visit.typed.get("role"))
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
