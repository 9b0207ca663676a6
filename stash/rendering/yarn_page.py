"""A lot and a skein as a page shows them: each fact with what stands in its field, and history."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from stash.measures.colour import lab
from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.written import show_money
from stash.rendering import figures
from stash.rendering.amounts import dye_lot, lightness_words
from stash.rendering.held import held, thickness
from stash.rendering.her_words import blend, hers
from stash.rendering.sentences.say import sentence
from stash.rendering.show import full_words, was
from stash.stock.holding import HeldSkein
from stash.stock.looks import looks_dyed, looks_surface
from stash.stock.yarn import Condition, Dyed, Lot, LotState, Surface

if TYPE_CHECKING:
    from stash.actions.show import SkeinStory
    from stash.actions.show_lot import YarnStory

#: What is chosen where a fact is not known.
UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class FactLine:
    """A fact of a lot or a skein: what it is called, how it reads, what stands in its field.

    `name` is what `change` calls it. `choices`, where only these can be: value and word. `hint`
    says how it is typed. `known`: whether there is something to read.
    """

    name: str
    called: str
    words: str
    typed: str = ""
    hint: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    known: bool = True


def _line(name: str, called: str, words: str, typed: str | None = None, hint: str = "") -> FactLine:
    shown = words or "not known"
    return FactLine(
        name, hers(called), shown, words if typed is None else typed, hint, (), bool(words)
    )


def _choice(name: str, called: str, words: str, typed: str, choices: Iterable[str]) -> FactLine:
    pairs = ((UNKNOWN, "not known"), *((one, one) for one in choices))
    return FactLine(name, called, words or "not known", typed or UNKNOWN, "", pairs, bool(words))


def lot_lines(lot: Lot, skeins: Sequence[HeldSkein]) -> Iterator[FactLine]:
    """What the band of a lot said; its full skein is that of the first skein here."""
    thick = "" if lot.thickness_from is None else thickness(lot)
    typed = thick.rpartition("(")[2].rstrip(")") if "-" in thick else thick.partition(" (")[0]
    yield _line("thickness", "Thickness", thick, typed, "DK, worsted, 4")
    yield _line("fibre", "Fibre", blend(lot.fibre), hint="75% wool, 25% nylon")
    yield _line("lot", "Dye lot", _lot_words(lot), _lot_typed(lot), "as on the band; none; ?")
    full = skeins[0].pair.put_up
    typed = "" if full is None else f"{figures.near(full.mass)} / {figures.near(full.length)}"
    yield _line("put_up", "Full skein", full_words(skeins[0]), typed, "100g / 230m")
    yield _line("care", "Care", lot.care, hint="machine wash 30, dry flat")
    yield _line("colour", "Colour", lot.colour)
    yield _line("colour_no", "Colour number", lot.colour_no)
    hexes = " / ".join(colour.hex for colour in lot.colours)
    yield _line("hexes", "Colour code", hexes, hint="#1f4e5f; several with slashes")
    seen = "looked at in daylight" if lot.daylight else "not yet looked at in daylight"
    ways = (("yes", "looked at in daylight"), ("no", "not yet"))
    yield FactLine("daylight", "Daylight", seen, "yes" if lot.daylight else "no", "", ways)
    yield _choice("dyed", "How it is dyed", looks_dyed(lot) or "", lot.dyed or "", Dyed)
    yield _choice("surface", "Its strand", looks_surface(lot), lot.surface or "", Surface)
    conditions = ", ".join(condition.value for condition in lot.conditions)
    hint = f"{', '.join(Condition)}; none"
    yield FactLine("condition", "Condition", conditions or "nothing to mind", conditions, hint)
    yield _line("name", "Yarn", lot.yarn.name)
    yield _line("maker", "Maker", lot.yarn.maker)


def _lot_words(lot: Lot) -> str:
    return lot.lot if lot.lot_state is LotState.NUMBERED else dye_lot(lot)


def _lot_typed(lot: Lot) -> str:
    return {LotState.NUMBERED: lot.lot, LotState.CLAIMED_NONE: "none", LotState.UNKNOWN: ""}[
        lot.lot_state
    ]


def skein_lines(story: SkeinStory) -> Iterator[FactLine]:
    """What is known of one skein by itself."""
    skein = story.skein
    currency = story.settings.currency
    yield _line("place", "Place", skein.place)
    yield _line("owner", "Whose", skein.owner)
    paid = "" if story.paid is None else show_money(story.paid, currency)
    yield _line("bought", "Bought", story.bought_on, hint="2026-05-31, yesterday")
    yield _line("paid", "Paid", paid, hint="for this skein, as 9.60")
    yield from _weights(skein)
    yield _line("note", "Note", story.note)


def _weights(skein: HeldSkein) -> Iterator[FactLine]:
    tare = "" if skein.tare is None else str(figures.near(skein.tare))
    yield FactLine("tare", "Core, bag", tare or "not weighed", tare, "12g, or 0g if there is none")
    yield FactLine("left", "What is left", held([skein]).held.words(), "", "43g or 80yd")


def lines_of_all(skeins: Sequence[HeldSkein], currency: str) -> Iterator[FactLine]:
    """What the skeins of a lot have each; changed here, it is changed of all of them."""
    places = list(dict.fromkeys(skein.place for skein in skeins if skein.place))
    yield _line("place", "Place", ", ".join(places), places[0] if len(places) == 1 else "")
    owners = list(dict.fromkeys(skein.owner for skein in skeins if skein.owner))
    yield _line("owner", "Whose", ", ".join(owners), owners[0] if len(owners) == 1 else "")
    prices = [skein.paid.coins for skein in skeins if skein.paid is not None]
    paid = show_money(Money(sum(prices)), currency) if prices else ""
    least = " or more" if paid and len(prices) < len(skeins) else ""
    yield _line("paid", "Paid", f"{paid}{least}", paid, "for all of it, as 9.60")


def light_words(lot: Lot) -> str:
    """How light its colours are: `very dark`."""
    return "/".join(dict.fromkeys(lightness_words(lab(one).lightness) for one in lot.colours))


@dataclass(frozen=True, slots=True)
class Happened:
    """One entry about a skein: what was done, what its weight changed by, what facts were before.

    `words` without the name of what the page is about.
    """

    entry: int
    on: date
    words: str
    change: str
    before: tuple[str, ...]
    cancelled: int | None


def skein_history(found: YarnStory) -> Iterator[Happened]:
    """What was done with a skein and its lot, newest first."""
    story = found.story
    for entry in found.entries:
        moves = [
            booked.movement.change.mg for booked, _ in story.moved if booked.entry == entry.number
        ]
        # what a record is called is of no use here: the entry says which dye lot it is now
        facts = [f for f in story.facts if f.entry == entry.number and f.name != "lot_id"]
        old = [was(fact.name, fact.old, story.settings.currency) for fact in facts]
        yield Happened(
            entry.number,
            entry.on,
            _what(entry.what),
            _signed(sum(moves)) if moves else "",
            tuple(dict.fromkeys(old)),
            entry.taken_back_by,
        )


def _what(what: Note | str) -> str:
    """The entry's sentence; of changed facts what they are now, as the page says of what."""
    if isinstance(what, Note) and what.kind in ("lot_changed", "skein_changed"):
        return "; ".join(map(sentence, what.facts["done"]))
    return sentence(what)


def _signed(change_mg: int) -> str:
    sign = "–" if change_mg < 0 else "+"
    return f"{sign} {figures.near(Mass(abs(change_mg)))}"
