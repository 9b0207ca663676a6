"""Sentences about what an entry has booked, as the log shows them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.rendering import amounts
from stash.rendering.amounts import colour_name, dye_lot
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.weighing import Verdict
from stash.stock.yarn import Lot, LotState, Yarn


def _skeins(count: int) -> str:
    return "1 skein" if count == 1 else f"{count} skeins"


def _yarn_added(skeins: int, maker: str, yarn: str, **facts: str) -> str:
    state = LotState(facts["lot_state"])
    colour, number, lot = facts["colour"], facts["colour_no"], facts["lot_text"]
    what = Lot(0, Yarn(0, maker, yarn), colour, number, lot=lot, lot_state=state)
    return f"{_skeins(skeins)} of {what.yarn} {colour_name(what)}, {dye_lot(what)}"


def _lots_added(skeins: int, lots: int) -> str:
    return f"{_skeins(skeins)} in {lots} lots"


def _sheet_taken_in(skeins: int, lots: int, sheet: str, opening_of: str | None) -> str:
    opening = f", opening stock of {opening_of}" if opening_of else ""
    return f"{_skeins(skeins)} in {lots} lots from {sheet}{opening}"


def _choice_set_aside(
    choice: Sequence[tuple[str, Sequence[int]]], item: int | None, name: str | None
) -> str:
    chosen = ", ".join(f"{role}={','.join(map(str, skeins))}" for role, skeins in choice)
    return f"own choice {chosen} set aside for item {item}, {name}"


def _skein_used(mass: Mass, skein: int, item: int | None, name: str | None) -> str:
    return f"{mass} of skein {skein} used{_for(item, name)}"


def _skein_gone(mass: Mass, skein: int, why: str) -> str:
    said = "taken out, entered by mistake" if why == "mistaken" else why
    return f"{mass} of skein {skein} {said}"


def _skein_weighed(
    skein: int, net: Mass, verdict: Verdict, mass: Mass, item: int | None, name: str | None
) -> str:
    """`use of 22 g`, `correction of -3 g`."""
    return f"skein {skein} weighed {net}, {verdict} of {mass}{_for(item, name)}"


def _for(item: int | None, name: str | None) -> str:
    return "" if item is None else f" for item {item} ({name})"


def _place_counted(place: str, right: int, corrected: int, not_found: int, lost: int) -> str:
    of_them = f", {lost} of them lost" if lost else ""
    return f"{place} counted: {right} right, {corrected} corrected, {not_found} not found{of_them}"


def _changed(done: Sequence[Note], **thing: int) -> str:
    (kind, number) = next(iter(thing.items()))
    ref = f"lot L{number}" if kind == "lot" else f"skein {number}"
    return f"{ref}: {'; '.join(map(sentence, done))}"


#: What a fact is called, where its name is not the word for it.
_CALLED = {"bought_on": "day of purchase", "colours_hex": "hex"}


def _fact_now(fact: str, value: str | None) -> str:
    return f"{_CALLED.get(fact, fact)} is {value or 'nothing'} now"


def _lot_now(lot_text: str, lot_state: LotState, lot: int | None) -> str:
    ref = "" if lot is None else f" (L{lot})"
    return f"lot is {lot_text or lot_state} now{ref}"


def _daylight_now(looked_at: bool) -> str:
    return "looked at in daylight" if looked_at else "not looked at in daylight yet"


def _value_stays(value: str | None, why: str) -> str:
    reason = "it was checked in daylight" if why == "daylight" else "you gave it"
    return f"its value {value} stays, because {reason}; --hex changes it"


def _setting_set(setting: str, value: str | None) -> str:
    return f"{setting} is {'as usual' if value is None else value} from now on"


def _entry_taken_back(entry: int, what: Note | str) -> str:
    return f"takes back {entry}: {sentence(what)}"


def _all_changed(things: str) -> Words:
    def words(numbers: Sequence[int], done: Sequence[Note]) -> str:
        return f"{things} {amounts.numbers(numbers)}: {'; '.join(map(sentence, done))}"

    return words


def _yarn_now(maker: str, yarn: str) -> str:
    return f"yarn is {Yarn(0, maker, yarn)} now"


def _skeins_weighed(numbers: Sequence[int]) -> str:
    return f"skeins {amounts.numbers(numbers)} weighed"


def _several(done: str) -> Words:
    def words(numbers: Sequence[int], **facts: Mass | str) -> str:
        return f"items {amounts.numbers(numbers)} {done.format(**facts)}"

    return words


SENTENCES: Mapping[str, Words] = {
    "yarn_added": _yarn_added,
    "lots_added": _lots_added,
    "sheet_taken_in": _sheet_taken_in,
    "proposal_set_aside": "{key} set aside for item {item}, {name}",
    "choice_set_aside": _choice_set_aside,
    "skein_set_aside": "{mass} of skein {skein} set aside: {note}",
    "batch_set_aside": "a batch of {items} set aside: items {first}-{last}",
    "item_released": "yarn of item {item} ({name}) released",
    "items_released": _several("released"),
    "items_begun": _several("begun"),
    "items_done": _several("done, {mass} used ({how})"),
    "items_unravelled": _several("unravelled, {mass} back on the shelf"),
    "items_sold": _several("sold"),
    "items_returned": _several("returned"),
    "item_begun": "item {item} ({name}) begun",
    "item_done": "item {item} ({name}) done, {mass} used ({how})",
    "item_unravelled": "item {item} ({name}) unravelled, {mass} back on the shelf",
    "item_sold": "item {item} ({name}) sold",
    "item_returned": "item {item} ({name}) returned",
    "skein_used": _skein_used,
    "skein_gone": _skein_gone,
    "skein_split": "{mass} of skein {skein} wound off as skein {part}",
    "skein_agrees": "skein {skein} weighed, in agreement at {held}",
    "skein_weighed": _skein_weighed,
    "skeins_weighed": _skeins_weighed,
    "metre_weighed": "skein {skein}: {length} of it weighed {mass}",
    "place_counted": _place_counted,
    "skein_changed": _changed,
    "lot_changed": _changed,
    "skeins_changed": _all_changed("skeins"),
    "items_changed": _all_changed("items"),
    "design_kept": "design {name!r}",
    "design_dropped": "design {name!r} dropped",
    "design_changed": "design {name!r} put right",
    "setting_set": _setting_set,
    "entry_taken_back": _entry_taken_back,
    "fact_now": _fact_now,
    "tare_now": "tare is {mass} now",
    "put_up_now": "put-up is {mass} / {length} now",
    "lot_now": _lot_now,
    "daylight_now": _daylight_now,
    "value_stays": _value_stays,
    "price_now": "what was paid is put right",
    "left_now": "{mass} left",
    "yarn_now": _yarn_now,
}
