"""All that is known of one skein or one item: facts, history, and the trace both ways."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.written import show_money
from stash.rendering import amounts, figures, keys
from stash.rendering.amounts import Page, numbers
from stash.rendering.columns import columns
from stash.rendering.cost import known_coins, yarn_cost
from stash.rendering.figures import by_themselves, near, of_metres
from stash.rendering.held import held, held_in_rows, state, thickness
from stash.rendering.her_words import blend, hers, named_thickness
from stash.rendering.history import history_lines, moved_rows, promised_rows
from stash.rendering.match import lot_words
from stash.rendering.sentences.say import plain_facts, sentence
from stash.rendering.sentences.stock import OPEN_BY
from stash.rendering.work import asked_words, hours_keys
from stash.stock.holding import HeldSkein
from stash.stock.promise import Promised
from stash.stock.spread import Contribution
from stash.stock.yarn import FullFrom, Lot

if TYPE_CHECKING:
    from stash.actions.history import History
    from stash.actions.show import ItemStory, LotStory, SkeinStory


def skein_keys(story: SkeinStory) -> dict[str, Any]:
    """A skein's story with stable keys."""
    return {
        **keys.lot_facts(story.lot),
        **keys.held_skein(story.skein),
        "short_g": story.skein.short.g,
        "tare_g": story.skein.tare.g if story.skein.tare else None,
        "owner": story.skein.owner or None,
        "bought": story.bought_on or None,
        "paid_coins": None if story.paid is None else story.paid.coins,
        "note": story.note or None,
        "about": story.skein.about,
        "spread_m": story.spread_m,
        "spread": [
            {
                "why": OPEN_BY[one.why],
                "share": one.share,
                "because": sentence(one.because),
                "because_facts": plain_facts(one.because),
            }
            for one in story.spread
        ],
        "parent": story.parent,
        "children": list(story.children),
        "movements": moved_rows(story.history),
        "promises": promised_rows(story.history),
        "set_aside_for": [item.number for _, item in story.promises],
        "went_into": [item.number for item in story.items],
        "put_right": _put_right(story.history, _OF_SKEIN),
    }


def skein_text(story: SkeinStory, page: Page) -> str:
    """A skein's story for reading."""
    skein, lot = story.skein, story.lot
    holds = held([skein])
    head = f"Skein {skein.number}, {state(skein)}: {holds.held.words()}"
    lines = [page.strong(head), f"  {page.patch(lot)}{lot_words(lot)}"]
    if holds.aside:
        lines.append(f"  {holds.free.words('free')}; {holds.aside.words('set aside')}")
    known = [
        ("full skein", full_words(skein)),
        *_lot_known(lot),
        ("place", skein.place),
        ("owner", skein.owner),
        ("tare", str(figures.near(skein.tare)) if skein.tare else ""),
        ("bought", story.bought_on),
        ("note", story.note),
    ]
    lines += [f"  {name}: {value}" for name, value in known if value]
    lines += _kin_lines(story)
    for promise, item in story.promises:
        lines.append(f"  for item {item}: {promised_words(promise, skein)}")
    lines += history_lines(story.history)
    lines += _changed_lines(story.history, _OF_SKEIN, story.settings.currency)
    if story.items:
        lines.append("  went into: " + ", ".join(f"item {a}" for a in story.items))
    return "\n".join(lines)


def lot_keys(story: LotStory) -> dict[str, Any]:
    """A lot's story: the lot as on the shelf, what it is set aside for, and facts put right."""
    return {
        **keys.held_lot(story.held, story.settings.scale),
        "set_aside_for": sorted({item.number for _, item in story.promises}),
        "movements": moved_rows(story.history),
        "promises": promised_rows(story.history),
        "put_right": _put_right(story.history, _OF_LOT),
    }


def lot_rows(story: LotStory) -> list[dict[str, Any]]:
    """One row for each of its skeins."""
    lot = keys.lot_facts(story.held.lot)
    return [{**lot, **keys.held_skein(skein)} for skein in story.held.skeins]


def lot_text(story: LotStory, page: Page) -> str:
    """A lot's story for reading: what it is, then its skeins one by one."""
    lot, skeins = story.held.lot, story.held.skeins
    left = [skein for skein in skeins if skein.held]
    holds = held_in_rows(left)
    said = f"{amounts.counted(len(left), 'skein')}, {holds.held.words()}" if left else "all used up"
    lines = [page.strong(f"{lot.ref}: {said}"), f"  {page.patch(lot)}{lot_words(lot)}"]
    if holds.aside:
        lines.append(f"  {holds.free.words('free')}; {holds.aside.words('set aside')}")
    fulls = [full_words(skein) for skein in skeins]
    alike = len({*fulls}) == 1
    known = [("full skein", fulls[0] if alike else ""), *_lot_known(lot)]
    lines += [f"  {name}: {value}" for name, value in known if value]
    rows = zip(skeins, fulls, strict=True)
    lines.append(columns([_skein_row(one, "" if alike else full) for one, full in rows], "  "))
    by_number = {skein.number: skein for skein in skeins}
    lines += [
        f"  for item {item}: {promised_words(promise, by_number[promise.skein])} of skein "
        f"{promise.skein}"
        for promise, item in story.promises
    ]
    lines += history_lines(story.history, several=True)
    lines += _changed_lines(story.history, _OF_LOT, story.settings.currency)
    return "\n".join(lines)


def _skein_row(skein: HeldSkein, full: str) -> list[str]:
    holds = held([skein])
    there = holds.held.words() if skein.held else ""
    return [f"skein {skein.number}", state(skein), there, full, skein.place, skein.owner]


def _lot_known(lot: Lot) -> Iterator[tuple[str, str]]:
    """What is known of a lot beyond its name, empty where it is not."""
    yield "thickness", "not known" if lot.thickness_from is None else thickness(lot)
    yield hers("fibre"), blend(lot.fibre)
    yield "dyed", lot.dyed or ""
    yield "surface", lot.surface or ""
    yield "condition", ", ".join(condition.value for condition in lot.conditions)
    yield "daylight", hers("colour checked") if lot.daylight else ""


#: Whose facts are put right in the story of a skein, and in that of its lot.
_OF_SKEIN, _OF_LOT = ("skein", "lot"), ("lot",)


def _put_right(history: History, things: Sequence[str]) -> list[dict[str, Any]]:
    return [
        {"entry": fact.entry, "what": fact.name, "old": fact.old, "new": fact.new}
        for fact in history.facts
        if fact.thing in things
    ]


def _changed_lines(history: History, things: Sequence[str], currency: str) -> list[str]:
    return [
        f"  changed in entry {fact.entry}: {was(fact.name, fact.old, currency)}"
        for fact in history.facts
        if fact.thing in things
    ]


#: By what a full skein's weight and length are known.
_FULL_FROM = {
    FullFrom.BAND: "from the band",
    FullFrom.MEASURED: "measured by you",
    FullFrom.ASSUMED: "assumed from its thickness",
}


def full_words(skein: HeldSkein) -> str:
    """`100 g / 200 m, from the band`."""
    full = skein.pair.put_up
    if full is None:
        return "length not known"
    pair = f"{figures.near(full.mass)} / {figures.near(full.length)}"
    return f"{pair}, {_FULL_FROM[skein.pair.origin]}"


def promised_words(promise: Promised, skein: HeldSkein) -> str:
    """`42 m, 17.4 g set aside`."""
    weight = figures.up(promise.mass)
    length = skein.length(promise.mass)
    return f"{weight} set aside" if length is None else f"{figures.up(length)}, {weight} set aside"


#: What the file calls a fact, and what a person calls it.
_CALLED = {
    "lot_id": "lot",
    "lot_text": "dye lot",
    "lot_state": "dye lot",
    "tare_mg": "tare",
    "own_mg": "weight of a full skein",
    "own_um": "length of a full skein",
    "own_from": "full skein",
    "colours_hex": "colour value",
    "colour_no": "colour number",
    "dyed": "dyeing",
    "thickness_from": "thickness",
    "thickness_to": "thickness",
    "bought_on": "day it was bought",
    "paid_coins": "price",
}


def was(name: str, old: str | None, currency: str) -> str:
    """A fact as it was before it was changed, in words rather than as the file keeps it."""
    if name == "daylight":
        return f"{hers('colour')} was {'not ' if old == '0' else ''}checked in daylight"
    called = hers(_CALLED.get(name, name.replace("_", " ")))
    return f"{called} was {_old(name, old, currency) if old else 'not known'}"


def _old(name: str, old: str, currency: str) -> str:
    if name.endswith("_mg"):
        return str(figures.near(Mass(int(old))))
    if name.endswith("_um"):
        return str(figures.near(Length(int(old))))
    if name == "paid_coins":
        return show_money(Money(int(old)), currency)
    if name.startswith("thickness"):
        return named_thickness(int(old), int(old))
    if name == "own_from":
        return _FULL_FROM.get(FullFrom(old), "not known")
    return f"L{old}" if name == "lot_id" else old


def spread_text(story: SkeinStory, page: Page) -> str:
    """How sure a skein's length is: one standard deviation, and each reason behind it."""
    skein, spread_m = story.skein, story.spread_m
    if spread_m is None or skein.held_length is None:
        return (
            f"Skein {skein.number} has no length: its band did not say. Weigh a length of it, as "
            + hers('in `stash weigh {skein} --metre "10m=4.3g"`').format(skein=skein.number)
        )
    length_m = skein.held_length.m
    head = f"Skein {skein.number}: {amounts.yarn(skein.held_length)} ± {near(of_metres(spread_m))}"
    rows = [[why, off, because] for why, off, because, _ in spread_rows(story, length_m)]
    return "\n".join([page.strong(head), columns(rows, "  "), SPREAD_MEANS])


#: What a spread and its reasons mean.
SPREAD_MEANS = (
    "Two times in three the real length is within this. The reasons rarely all go the same way, "
    "so together they come to less than their sum."
)


def spread_rows(story: SkeinStory, length_m: float) -> list[tuple[str, str, str, Contribution]]:
    """Each reason, how much it leaves open, and what that rests on; the largest first.

    They have a step of their own: reasons that differ are never all `± 0 m`.
    """
    largest = sorted(story.spread, key=lambda one: (-one.share, OPEN_BY[one.why]))
    offs = by_themselves([of_metres(length_m * one.share) for one in largest])
    return [
        (OPEN_BY[one.why], f"± {off}", sentence(one.because), one)
        for one, off in zip(largest, offs, strict=True)
    ]


def _kin_lines(story: SkeinStory) -> list[str]:
    """The skein it came from and those that came from it."""
    lines = []
    if story.parent is not None:
        came = story.history.moved[0].movement.kind
        how = hers("unravelled, once part of") if came == "unravelled" else came
        lines.append(f"  {how} skein {story.parent}")
    if story.children:
        lines.append(f"  came from it: skein {numbers(story.children)}")
    return lines


def item_keys(story: ItemStory) -> dict[str, Any]:
    """An item's story with stable keys."""
    item = story.item
    return {
        "item": item.number,
        "state": item.state.value,
        "design": item.design or None,
        "note": item.note or None,
        "asked_coins": item.asked.price and item.asked.price.coins,
        **hours_keys(item),
        "order": item.asked.order,
        "roles": {
            planned.role: {
                "expected_m": planned.expected.m,
                "set_aside_m": planned.set_aside.m,
                "source": planned.source,
            }
            for planned in story.planned
        },
        "set_aside": [
            {"skein": p.skein, "role": p.role or None, "set_aside_g": p.mass.g}
            for p in story.promises
        ],
        "movements": moved_rows(story.history),
        "promises": promised_rows(story.history),
        "skeins": [{"number": skein.number, **keys.lot_facts(lot)} for skein, lot in story.skeins],
        "yarn_coins": known_coins(story.yarn) if story.yarn else None,
        "at_least": not all(line.known for line in story.yarn),
        "sales": [
            {
                "entry": sale.entry,
                "on": sale.on.isoformat(),
                "kind": sale.kind.value,
                "price_coins": sale.price.coins,
                "fee_coins": sale.fee.coins,
            }
            for sale in story.sales
        ],
    }


#: Where the estimate an item was planned with came from.
_SOURCES = {
    "own items": "from your finished ones",
    "swatch": "from your swatch",
    "stated": "from the figure you gave",
    "gauge": "from your gauge",
    "thickness": "rough: from its thickness",
}


def item_text(story: ItemStory, page: Page) -> str:
    """An item's story for reading."""
    item = story.item
    lines = [page.strong(f"Item {item}, {item.state}"), *_asked_lines(story)]
    for planned in story.planned:
        lines.append(
            f"  {planned.role}: about {figures.near(planned.expected)}, "
            f"set aside {figures.up(planned.set_aside)}, {_SOURCES[planned.source]}"
        )
    for p in story.promises:
        colour = f" for {p.role}" if p.role else ""
        lines.append(f"  {figures.up(p.mass)} of skein {p.skein} set aside{colour}")
    for skein, lot in story.skeins:
        lines.append(f"  skein {skein.number}: {page.patch(lot)}{lot_words(lot)}")
    history = history_lines(story.history, several=True)
    return "\n".join([*lines, *_money_lines(story), *history])


def _asked_lines(story: ItemStory) -> list[str]:
    """What is asked for it, how long it was to take and took, and the order it is for."""
    lines = [f"  {said}"] if (said := asked_words(story.item, story.currency)) else []
    if story.order:
        lines.append(f"  for order {story.order.number} ({story.order.who}), by {story.order.by}")
    return lines


def _money_lines(story: ItemStory) -> list[str]:
    """What its yarn cost, and what became of it at the market."""
    lines = []
    if story.yarn:
        cost = yarn_cost(story.yarn, story.currency)
        lines.append(f"  yarn in it: {cost} (more: `stash cost {story.item.number}`)")
    for sale in story.sales:
        fee = f", fee {show_money(sale.fee, story.currency)}" if sale.fee.coins else ""
        price = show_money(sale.price, story.currency)
        lines.append(f"  {sale.kind} on {sale.on}: {price}{fee}  (entry {sale.entry})")
    return lines
