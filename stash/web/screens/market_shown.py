"""A plan for a market as it is shown: its items as pictures, its lists, its sentences."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from stash.rendering import batch_page, batch_prices
from stash.rendering import order as order_words
from stash.rendering import short as short_words
from stash.rendering.amounts import Page, colour_name, numbers
from stash.rendering.batch import nothing_made
from stash.rendering.batch_cuts import skeins_shown
from stash.rendering.match import called
from stash.rendering.pick_list import NOWHERE, natural
from stash.web.drawn import Drawings
from stash.web.pages import said

if TYPE_CHECKING:
    from stash.actions.batch import PlannedBatch
    from stash.actions.batch_prices import WantPriced
    from stash.actions.her_settings import Settings
    from stash.actions.order import Orders
    from stash.actions.ordered import Ordered
    from stash.actions.short import ToBuy
    from stash.planning.model.batch import Batch, Made, SoFar
    from stash.rendering.batch_cuts import SkeinShown

#: The room of an item on the board, in pixels; how long the bar of a skein is.
_ITEM, _BAR, _HOURS = (104, 92), 150, 340
_CHIP = (28, 20)
#: More items than this stand together by what they are made of.
_EACH = 24
#: So many pictures stand on the board before the rest is asked for.
_BOARD = 40
#: So many skeins are listed before the rest is asked for.
_SKEINS = 8


def so_far(plan: SoFar | None, currency: str, drawings: Drawings) -> dict[str, Any]:
    """The best plan by now: its count, its worth, its items."""
    if plan is None or not plan.items:
        return {"count": "", "worth": "", "items": [], "others": 0, "drawings": drawings}
    count, worth = batch_page.count_and_worth(plan, currency)
    items = _items(plan, drawings, currency, _BOARD)
    others = plan.items - sum(one["count"] for one in items)
    shown = {"count": count, "worth": worth, "items": items, "others": others}
    return {**shown, "drawings": drawings}


def _items(
    plan: Batch | SoFar, drawings: Drawings, currency: str, most: int
) -> list[Mapping[str, Any]]:
    """Each item as its piece, to one scale; what is far larger than the rest by itself."""
    laid = [plan.wants[made.want].need.laid for made in plan.made]
    scale = drawings.mostly_together(laid, *_ITEM)
    shown = [one for made in plan.made for one in _stood(plan, made)]
    shown.sort(key=lambda one: one[1])
    return [_item(plan, made, of, scale, drawings, currency) for made, of in shown[:most]]


def _stood(plan: Batch | SoFar, made: Made) -> Iterator[tuple[Made, tuple[int, ...]]]:
    """Each item by itself, or all of a kind together where there are many."""
    if plan.items > _EACH:
        yield made, made.items
    else:
        yield from ((made, (number,)) for number in made.items)


def _item(
    plan: Batch | SoFar,
    made: Made,
    of: tuple[int, ...],
    scale: float,
    drawings: Drawings,
    currency: str,
) -> Mapping[str, Any]:
    want = plan.wants[made.want]
    lots = {role.role: lot.lot for role, lot in zip(want.need.roles, made.lots, strict=True)}
    own = drawings.together([want.need.laid], *_ITEM)
    return {
        "numbers": numbers(of),
        "count": len(of),
        "name": want.name,
        "order": want.order,
        "price": batch_page.price_of(want, currency),
        "smaller": own < scale,
        "piece": drawings.piece(want.need.laid, lots, min(scale, own), title=_title(plan, made)),
        "chips": [] if want.need.laid else [drawings.chip(lot) for lot in lots.values()],
    }


def _title(plan: Batch | SoFar, made: Made) -> str:
    return f"{plan.wants[made.want].name} in {batch_page.made_of(made)}"


def plan_values(found: PlannedBatch, drawings: Drawings, *, everything: bool) -> dict[str, Any]:
    """The plan whole: in a sentence, its items, its hours, its cutting list, what it leaves out."""
    batch, currency = found.batch, found.settings.currency
    count, worth = batch_page.count_and_worth(batch, currency)
    skeins = [*skeins_shown(batch)]
    shown = skeins if everything else skeins[:_SKEINS]
    items = _items(batch, drawings, currency, batch.items if everything else _BOARD)
    return {
        "drawings": drawings,
        "count": count if batch.made else "",
        "worth": "" if batch_page.says_worth(batch) else worth,
        "nothing": "" if batch.made else _nothing(batch),
        "proofs": [said(one) for one in batch_page.proofs(batch, currency)],
        "items": items,
        "others": batch.items - sum(one["count"] for one in items),
        **_hours(batch, currency, drawings),
        "skeins": [_skein(one, drawings) for one in shown],
        "out_of": len(skeins),
        "unmet": batch_page.unmet_lines(batch),
        "unmade": batch_page.unmade_lines(batch),
        "warnings": batch_page.warnings(batch),
        "finished": batch.finished,
    }


def _nothing(batch: Batch) -> str:
    """Why nothing is made; a plan that was stopped too soon can be looked for on."""
    return said(nothing_made(batch)) if batch.finished else "No plan yet; keep looking"


def _hours(batch: Batch, currency: str, drawings: Drawings) -> dict[str, Any]:
    shown = batch_page.hours(batch, currency)
    share = shown.share if shown else 0.0
    return {"hours": shown, "hour_bar": drawings.bar(share, 0.0, 1.0 - share, _HOURS)}


def _skein(one: SkeinShown, drawings: Drawings) -> Mapping[str, Any]:
    skein, lot = one.skein, one.skein.lot.lot
    return {
        "number": skein.number,
        "place": skein.place,
        "colour": colour_name(lot),
        "lot": called(lot),
        "chip": drawings.chip(lot, size=_CHIP),
        "chip_again": drawings.chip(lot, size=_CHIP),
        "bar": drawings.cuts([cut.length.m for cut in skein.cuts], skein.left.m, _BAR),
        "cuts": one.cuts,
        "of": numbers([*{cut.item for cut in skein.cuts}]),
        "take": f"{one.free - one.left} of {one.free}" if one.left else f"all {one.free}",
        "left": str(one.left) if one.left else "",
        "too_short": one.too_short,
    }


def lacks_yarn(batch: Batch) -> bool:
    """Whether more yarn would let her make more of what she asked for."""
    unmade = any(one.short or one.nowhere for one in batch.not_made)
    return unmade or any(one.short or not one.minutes for one in batch.unmet)


def side_lists(
    prices: Sequence[WantPriced], to_buy: ToBuy | None, settings: Settings
) -> dict[str, Any]:
    """The price list, and what to buy."""
    return {
        "prices": batch_prices.prices_shown(prices, settings),
        "wage": batch_prices.wage_words(prices, settings),
        "unpriced": [*batch_prices.unpriced_words(prices)],
        **_to_buy(to_buy),
    }


def _to_buy(found: ToBuy | None) -> dict[str, Any]:
    if found is None or not found.shortfall.lacks:
        return {"to_buy": [], "for_all": "", "or_buy": []}
    basket, currency = found.basket, found.settings.currency
    nowhere = [said(one.strip()) for one in short_words.nowhere_lines(basket.nowhere)]
    lines = short_words.completing_lines(found.shortfall.lacks, Page(currency))
    head, *more = [said(one.strip()) for one in lines if one] or [""]
    completing = [f"{head}: {'; '.join(more)}"] if more else []
    if not basket.least:
        completing.append(short_words.NOT_PROVED.removeprefix("note: "))
    return {
        "to_buy": short_words.bought_shown(basket, currency),
        "for_all": short_words.headline(basket, currency).rstrip(":") if basket.bought else "",
        "or_buy": [*nowhere, *completing],
    }


def orders(batch: Batch, known: Orders | None, read: Ordered) -> dict[str, Any]:
    """The orders of a plan, which cannot be met, and which are late or left out of it."""
    late = order_words.late_words(known.open, known.today) if known else []
    out = order_words.left_out_words(known.open, read.faults) if known else []
    return {
        "orders_noted": [*late, *out],
        "ordered": order_words.orders_planned(batch, known),
        "orders_unmet": order_words.orders_unmet(batch, known) if known else [],
    }


def lists_to_print(found: PlannedBatch, drawings: Drawings) -> dict[str, Any]:
    """The skeins to pick and to cut, place by place, in the order in which one walks past them."""
    skeins = sorted(skeins_shown(found.batch), key=lambda one: _turn(one.skein.place))
    stops = groupby(skeins, key=lambda one: one.skein.place)
    return {
        "drawings": drawings,
        "count": batch_page.count_and_worth(found.batch, found.settings.currency)[0],
        "stops": [(place or NOWHERE, [_skein(one, drawings) for one in of]) for place, of in stops],
        "items": [
            {"numbers": numbers(made.items), "name": found.batch.wants[made.want].name,
             "colours": batch_page.made_of(made)}
            for made in found.batch.made
        ],
    }  # fmt: skip


def _turn(place: str) -> tuple[bool, tuple[tuple[bool, int, str], ...], str]:
    return (not place, natural(place), place)
