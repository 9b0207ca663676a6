"""What is done with yarn from its page: facts changed, set aside, released, gone, wound off."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any

from stash.actions import aside as setting_aside
from stash.actions import use as using
from stash.actions.change import change
from stash.actions.log import log
from stash.actions.show_lot import story_of_skein
from stash.actions.split import split
from stash.actions.use import Amount
from stash.actions.weigh_metre import weigh_metre
from stash.errors import BadInput, NotFound
from stash.exchange.typed_facts import ChangeWords, yarn_changes, yarn_price
from stash.parsing import quantities
from stash.web.pages import said
from stash.web.visit import Done, Visit

if TYPE_CHECKING:
    from stash.measures.note import Note

#: What can be changed here, as `change` calls it.
_FACTS = frozenset(
    ("thickness", "fibre", "lot", "put_up", "care", "colour", "colour_no", "hexes", "daylight",
     "dyed", "surface", "condition", "name", "maker", "place", "owner", "bought", "paid", "tare",
     "left", "note")
)  # fmt: skip


def change_fact(visit: Visit) -> Done:
    """One fact of a lot (`L4`) or a skein (its number)."""
    what, fact, value = (visit.typed.get(name, "").strip() for name in ("what", "fact", "value"))
    if fact not in _FACTS:
        raise NotFound("fact", fact)
    typed: dict[str, Any] = {fact: _typed(fact, value)}
    if fact == "paid":
        typed["postage"] = visit.typed.get("postage", "").strip()
    words = yarn_changes(ChangeWords(**typed), visit.settings.currency)
    changed = change(visit.book, [what], words)
    number = changed.numbers[0]
    to = f"/skein/{number}"
    if what.startswith("L"):
        to = f"/lot/{story_of_skein(visit.book, number).held.lot.id}"
    now = "; ".join(map(said, changed.done))
    return Done(to, (f"Saved: {now}", *_shorts(changed.shorts)))


def _typed(fact: str, value: str) -> Any:
    """A field as `change` takes it: an empty dye lot is one that is not known."""
    if fact == "daylight":
        return value == "yes"
    if fact == "condition":
        return tuple(part.strip() for part in value.split(",") if part.strip()) or ("none",)
    return value or "?" if fact == "lot" else value


def set_some_aside(visit: Visit) -> Done:
    """An amount of a skein, or all that is free, for something that is no design of hers."""
    skein, amount = _skein_and_amount(visit)
    note = visit.typed.get("note", "").strip()
    if not note:
        raise BadInput("aside_without_note")
    setting_aside.aside_note(visit.book, note, skein, amount)
    return _done(visit, skein)


def gone(visit: Visit) -> Done:
    """An amount of a skein, or all that is free, has left the shelf."""
    skein, amount = _skein_and_amount(visit)
    why = using.leaving(visit.typed.get("why", ""))
    price, fee = (visit.typed.get(name, "").strip() for name in ("price", "fee"))
    paid = yarn_price(price, fee, visit.settings.currency)
    left = using.gone(visit.book, skein, amount, why, paid=paid)
    return _done(visit, skein, left.shorts)


def wind_off(visit: Visit) -> Done:
    """An amount of a skein becomes a skein of its own."""
    skein, text = (visit.typed.get(name, "").strip() for name in ("skein", "amount"))
    place = visit.typed.get("place", "").strip() or None
    made = split(visit.book, skein, Amount(text, quantities.amount(text)), place=place)
    return _done(visit, str(made.made.number))


def weigh_length(visit: Visit) -> Done:
    """A length of a skein that was measured and weighed."""
    skein = visit.typed.get("skein", "")
    pair = f"{visit.typed.get('length', '')} / {visit.typed.get('weight', '')}"
    measured = weigh_metre(visit.book, skein, quantities.put_up(pair))
    return _done(visit, skein, measured.shorts)


def _skein_and_amount(visit: Visit) -> tuple[str, Amount | None]:
    text = visit.typed.get("amount", "").strip()
    amount = Amount(text, quantities.amount(text)) if text else None
    return visit.typed.get("skein", ""), amount


def _done(visit: Visit, skein: str, shorts: Iterable[Note] = ()) -> Done:
    return Done(f"/skein/{int(skein)}", (_last(visit), *_shorts(shorts)))


def _last(visit: Visit) -> str:
    """What was done, as the record says it."""
    return said(log(visit.book, 1)[0].what)


def _shorts(shorts: Iterable[Note]) -> list[str]:
    return [said(short) for short in shorts]


FORMS: Mapping[str, Callable[[Visit], Done]] = {
    "/yarn/change": change_fact,
    "/yarn/aside": set_some_aside,
    "/yarn/gone": gone,
    "/yarn/split": wind_off,
    "/yarn/metre": weigh_length,
}
SCREENS: Mapping[str, Callable[[Visit], Any]] = {}
