"""Sentences about what an entry has done, as the log shows them: one plain sentence each."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.length import Length
from stash.measures.mass import NO_MASS, Mass
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.amounts import colour_name, counted, dye_lot, numbers
from stash.rendering.figures import Figure
from stash.rendering.her_words import hers
from stash.rendering.sentences import orders
from stash.rendering.sentences.phrases import joined
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.item import Weighed
from stash.stock.weighing import Verdict
from stash.stock.yarn import Lot, LotState, Yarn


def _yarn_added(skeins: int, maker: str, yarn: str, **facts: str) -> str:
    state = LotState(facts["lot_state"])
    colour, number, lot = facts["colour"], facts["colour_no"], facts["lot_text"]
    what = Lot(0, Yarn(0, maker, yarn), colour, number, lot=lot, lot_state=state)
    return f"added {counted(skeins, 'skein')} of {what.yarn}, {colour_name(what)}, {dye_lot(what)}"


def _lots_added(skeins: int, lots: int) -> str:
    return f"added {counted(skeins, 'skein')} of {counted(lots, 'lot')}"


def _sheet_taken_in(skeins: int, lots: int, sheet: str, opening_of: str | None) -> str:
    opening = f", opening stock of {opening_of}" if opening_of else ""
    return f"imported {counted(skeins, 'skein')} of {counted(lots, 'lot')} from {sheet}{opening}"


def _proposal_set_aside(
    key: str, item: int | None, name: str | None, takes: Sequence[Note] | None = None
) -> str:
    """`143 m of navy set aside for item 1, Winter hat`; by its key where no more was kept."""
    return f"{_taken(takes) if takes else key} set aside{_for(item, name)}"


def _choice_set_aside(
    choice: Sequence[tuple[str, Sequence[int]]],
    item: int | None,
    name: str | None,
    takes: Sequence[Note] | None = None,
) -> str:
    chosen = joined(f"{_skeins(skeins)} ({role})" for role, skeins in choice)
    return f"{_taken(takes) if takes else chosen} set aside{_for(item, name)}, as you chose"


def _taken(takes: Sequence[Note]) -> str:
    """What was taken of each yarn, as the list to pick by added up."""
    lengths: dict[str, Figure] = {}
    for take in takes:
        yarn, length = take.facts["colour"] or take.facts["yarn"], figures.up(take.facts["length"])
        lengths[yarn] = lengths[yarn] + length if yarn in lengths else length
    return joined(f"{length} of {yarn}" for yarn, length in lengths.items())


def _yarn_taken(skein: int, length: Length, mass: Mass, colour: str, yarn: str) -> str:
    return f"{figures.up(length)}, {figures.up(mass)} of skein {skein} ({colour or yarn})"


def _skeins(skeins: Sequence[int]) -> str:
    return f"skein{'s' if len(skeins) > 1 else ''} {numbers(skeins)}"


def _skein_set_aside(mass: Mass, skein: int, note: str) -> str:
    return f"{figures.up(mass)} of skein {skein} set aside: {note}"


def _item_done(item: int | None, name: str | None, mass: Mass, how: str) -> str:
    return f"{_item(item, name)} is done: {figures.near(mass)} used ({hers(_HOW.get(how, how))})"


def _items_done(numbers: Sequence[int], mass: Mass, how: str) -> str:
    return f"{_items(numbers)} are done: {figures.near(mass)} used ({hers(_HOW.get(how, how))})"


#: How the yarn of a finished item became known.
_HOW: Mapping[str, str] = {
    Weighed.BALLS: "balls weighed",
    Weighed.ROLES: "weighed by colour",
    Weighed.ITEM: "item weighed",
    Weighed.AS_PLANNED: "as planned, not weighed",
}


def _of_items(what: str) -> Words:
    def words(numbers: Sequence[int]) -> str:
        return f"{_items(numbers)} {what}"

    return words


def _of_item(what: str) -> Words:
    def words(item: int | None, name: str | None) -> str:
        return f"{_item(item, name)} {what}"

    return words


def _colour_released(role: str, item: int | None, name: str | None) -> str:
    return f"{_item(item, name)} no longer has yarn set aside for {hers('colour')} {role}"


def _colours_released(role: str, numbers: Sequence[int]) -> str:
    return f"{_items(numbers)} no longer have yarn set aside for {hers('colour')} {role}"


def _item_gone(item: int | None, name: str | None, why: str) -> str:
    return f"{_item(item, name)} {'was given away' if why == 'given' else 'is lost'}"


def _item_unravelled(item: int | None, name: str | None, mass: Mass) -> str:
    return f"{_item(item, name)} {hers('is unravelled')}: {figures.near(mass)} back on the shelf"


def _items_unravelled(numbers: Sequence[int], mass: Mass) -> str:
    return f"{_items(numbers)} {hers('are unravelled')}: {figures.near(mass)} back on the shelf"


def _items(items: Sequence[int]) -> str:
    return f"item{'s' if len(items) > 1 else ''} {numbers(items)}"


def _item(item: int | None, name: str | None) -> str:
    return f"item {item}, {name}," if name else f"item {item}"


def _for(item: int | None, name: str | None) -> str:
    if item is None:
        return ""
    return f" for item {item}, {name}" if name else f" for item {item}"


def _skein_used(mass: Mass, skein: int, item: int | None, name: str | None) -> str:
    return f"{figures.near(mass)} of skein {skein} used{_for(item, name)}"


def left_by(why: str) -> str:
    """How yarn left the shelf: `given away`, `sold`."""
    said = {"given": "given away", "mistaken": "taken out, noted by mistake"}
    return said.get(why, why)


def _skein_gone(mass: Mass, skein: int, why: str) -> str:
    return f"{figures.near(mass)} of skein {skein} {left_by(why)}"


def _skein_weighed(
    skein: int, net: Mass, verdict: Verdict, mass: Mass, item: int | None, name: str | None
) -> str:
    """`skein 1 weighed: 63 g left, 37 g used for item 1, hat`, `3 g less than noted`."""
    head = f"skein {skein} weighed: {figures.near(net)} left"
    if verdict is Verdict.USE:
        return f"{head}, {figures.near(mass)} used{_for(item, name)}"
    less = mass < NO_MASS
    change = figures.near(-mass if less else mass)
    return f"{head}, {change} {'less' if less else 'more'} than noted"


def _place_counted(place: str, right: int, corrected: int, not_found: int, lost: int) -> str:
    parts = ((corrected, "corrected"), (not_found - lost, "missing"), (lost, "lost"))
    more = "".join(f", {count} {what}" for count, what in parts if count)
    return f"{place} counted: {right} as noted{more}"


def _changed(done: Sequence[Note], **thing: int) -> str:
    (kind, number) = next(iter(thing.items()))
    ref = f"lot L{number}" if kind == "lot" else f"skein {number}"
    return f"{ref}: {_all(done)}"


def _all(done: Sequence[Note]) -> str:
    return "; ".join(map(sentence, done))


#: What a fact is called, where its name is not the word for it.
_CALLED = {
    "bought_on": "bought",
    "colours_hex": "hex",
    "conditions": "condition",
    "colour_no": "colour number",
    "dyed": "dyeing",
}


def _fact_now(fact: str, value: str | None) -> str:
    called = hers(_CALLED.get(fact, fact.replace("_", " ")))
    return f"{called} set to {value}" if value else f"{called} cleared"


def _lot_now(lot_text: str, lot_state: LotState, lot: int | None) -> str:
    ref = "" if lot is None else f" (L{lot})"
    named = {LotState.CLAIMED_NONE: "none claimed", LotState.UNKNOWN: "not known"}
    return f"dye lot set to {named.get(lot_state, lot_text)}{ref}"


def _daylight_now(looked_at: bool) -> str:
    return "checked in daylight" if looked_at else "not checked in daylight yet"


def _value_stays(value: str | None, why: str) -> str:
    reason = "you checked it in daylight" if why == "daylight" else "you set it yourself"
    return f"hex stays {value}, because {reason}; change it with --hex"


def _setting_set(setting: str, value: str | None) -> str:
    from stash.rendering.settings import shown, spelled

    now = "back to usual" if value is None else f"to {shown(setting, value)}"
    return f"{spelled(setting)} set {now}"


def _entry_taken_back(entry: int, what: Note | str) -> str:
    return f"{hers('cancelled')} entry {entry}: {sentence(what)}"


def _yarn_now(maker: str, yarn: str) -> str:
    return f"yarn set to {Yarn(0, maker, yarn)}"


SENTENCES: Mapping[str, Words] = {
    **orders.BOOKED,
    "yarn_added": _yarn_added,
    "lots_added": _lots_added,
    "sheet_taken_in": _sheet_taken_in,
    "proposal_set_aside": _proposal_set_aside,
    "saved_and_set_aside": _all,
    "choice_set_aside": _choice_set_aside,
    "yarn_taken": _yarn_taken,
    "skein_set_aside": _skein_set_aside,
    "batch_set_aside": "yarn set aside for {items} items, {first} to {last}",
    "item_released": _of_item("no longer has yarn set aside"),
    "items_released": _of_items("no longer have yarn set aside"),
    "colour_released": _colour_released,
    "colours_released": _colours_released,
    "item_begun": _of_item("is begun"),
    "items_begun": _of_items("are begun"),
    "item_done": _item_done,
    "items_done": _items_done,
    "item_unravelled": _item_unravelled,
    "items_unravelled": _items_unravelled,
    "item_sold": _of_item("is sold"),
    "items_sold": _of_items("are sold"),
    "item_returned": _of_item("was returned"),
    "items_returned": _of_items("were returned"),
    "item_gone": _item_gone,
    "skein_used": _skein_used,
    "skein_gone": _skein_gone,
    "skein_split": lambda mass, skein, part: (
        f"{figures.near(mass)} wound off skein {skein} as skein {part}"
    ),
    "skein_agrees": lambda skein, held: (
        f"skein {skein} weighed: agrees with the {figures.near(held)} noted"
    ),
    "skein_weighed": _skein_weighed,
    "skeins_weighed": lambda numbers: f"{_skeins(numbers)} weighed",
    "metre_weighed": lambda skein, length, mass: (
        f"{figures.near(length)} of skein {skein} weighed: {figures.near(mass)}"
    ),
    "place_counted": _place_counted,
    "skein_changed": _changed,
    "lot_changed": _changed,
    "skeins_changed": lambda numbers, done: f"{_skeins(numbers)}: {_all(done)}",
    "items_changed": lambda numbers, done: f"{_items(numbers)}: {_all(done)}",
    "design_kept": "saved the design {name}",
    "design_dropped": "dropped the design {name}",
    "design_changed": "changed the design {name}",
    "setting_set": _setting_set,
    "entry_taken_back": _entry_taken_back,
    "fact_now": _fact_now,
    "tare_now": lambda mass: f"tare set to {figures.near(mass)}",
    "put_up_now": lambda mass, length: (
        f"full skein set to {figures.near(mass)} / {figures.near(length)}"
    ),
    "lot_now": _lot_now,
    "daylight_now": _daylight_now,
    "value_stays": _value_stays,
    "price_now": "price changed",
    "left_now": lambda mass: f"{figures.near(mass)} left",
    "yarn_now": _yarn_now,
}
