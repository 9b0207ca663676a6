"""Yarn that is about to come in: its facts as they can be typed again, and what it will be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stash.measures.colour import Colour
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.note import Note
from stash.measures.written import LENGTH_UNITS, MASS_UNITS, show_money
from stash.rendering import figures
from stash.rendering.amounts import colour_name, counted, dye_lot, numbers
from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import look_of
from stash.rendering.her_words import named_thickness
from stash.rendering.sentences.labels import QUIET
from stash.rendering.sentences.say import sentence
from stash.stock.incoming import NO_NAME, Incoming
from stash.stock.yarn import Dyed, Lot, LotState, Surface
from stash.trade.colour_words import colour_of

if TYPE_CHECKING:
    from stash.actions.arriving import Arrived

#: What a fact that is chosen from a few can be.
CHOICES: Mapping[str, tuple[str, ...]] = {"dyed": tuple(Dyed), "surface": tuple(Surface)}


def typed_facts(line: Incoming, currency: str) -> dict[str, str]:
    """Each fact of a line by its column, in her units and as it is typed; empty if not known."""
    lot = {LotState.NUMBERED: line.lot, LotState.CLAIMED_NONE: "none"}.get(line.lot_state, "")
    low, high = line.thickness_from, line.thickness_to
    return {
        "yarn": "" if line.name == NO_NAME else line.name,
        "maker": line.maker,
        "count": str(line.count),
        "mass": _amount(line.full_mass),
        "length": _amount(line.full_length),
        "thickness": "" if low is None or high is None else named_thickness(low, high),
        "lot": lot,
        "colour": line.colour,
        "hex": "" if line.colours == colour_of(line.colour) else typed_colours(line.colours),
        "colour_no": line.colour_no,
        "fibre": line.fibre,
        "place": line.place,
        "bought": line.bought.isoformat() if line.bought else "",
        "paid": "" if line.paid is None else show_money(line.paid, currency),
        "care": line.care,
        "dyed": line.dyed or "",
        "surface": line.surface or "",
        "owner": line.owner,
        "tare": _amount(line.tare),
        "note": line.note,
    }


def typed_colours(colours: Sequence[Colour]) -> str:
    """Screen colours as they are typed."""
    return "/".join(colour.hex for colour in colours)


def _amount(amount: Mass | Length | None) -> str:
    """In her unit, to a tenth (ounces to a hundredth)."""
    if amount is None:
        return ""
    unit = figures.screen().unit(amount)
    whole = (
        amount.mg / MASS_UNITS[unit] if isinstance(amount, Mass) else amount.um / LENGTH_UNITS[unit]
    )
    return f"{float(round(whole, 2 if unit == 'oz' else 1)):g} {unit}"


def filled_in(own: Incoming, line: Incoming) -> set[str]:
    """The columns of the facts that come from yarn that is known, not from the `own` line."""
    before, after = typed_facts(own, ""), typed_facts(line, "")
    return {column for column in after if after[column] != before[column]}


#: Facts that stand in a field of their own where they were read.
_IN_FIELDS = frozenset(
    f"read_{name}"
    for name in (
        *(
            "name",
            "maker",
            "colour",
            "colour_number",
            "colour_value",
            "lot",
            "no_lot",
            "weight",
            "length",
        ),
        *("weight_by_fineness", "length_by_fineness", "thickness", "fibre", "tare", "paid"),
        *("place", "owner", "bought", "care", "dyed", "surface", "note", "kept", "strange_fibre"),
    )
)


def read_besides(understood: Sequence[Note], line: Incoming) -> list[Note]:
    """What was read in a line and stands in no field of its own."""
    plain = Note("read_count", count=line.count, opened=(), about=False)
    return [note for note in understood if note.kind not in _IN_FIELDS and note != plain]


def worth_a_look(notes: Sequence[Note]) -> list[Note]:
    """What to look at in a line; what was filled in stands beside its field."""
    return [note for note in notes if note.kind not in QUIET and note.kind != "filled_in"]


def look_words(note: Note) -> str:
    """A note on yarn that comes in, without the numbers of lot records, which a page never says."""
    match note.kind:
        case "have_already":
            lots = [", ".join([dye_lot(lot), *places]) for lot, places in note.facts["lots"]]
            return f"you already have {counted(note.facts['skeins'], 'skein')}: {'; '.join(lots)}"
        case "joins_lot":
            return _JOINS
        case "joins_lot_unlike":
            return f"{_JOINS}, which keep what is noted of them"
        case _:
            return sentence(note)


_JOINS = "joins your other skeins of that lot"


@dataclass(frozen=True, slots=True)
class Coming:
    """Skeins as they will lie on the shelf: drawn, in words, in figures."""

    drawn: str
    defs: str
    name: str
    skeins: str
    numbers: str
    length: str
    weight: str
    count: int
    coloured: bool


def coming(arrived: Arrived, *, small: bool = False) -> Coming:
    """What one line will be once it is booked; `small` is drawn as a sample beside its name."""
    look = look_of(arrived.lot)
    opened = len(arrived.line.opened_amounts)
    label = numbers(arrived.skeins)
    left = Left.OPENED if opened == len(arrived.skeins) else Left.WHOLE
    if small:
        drawn = yarn_swatch(look, Left.CHIP, Shown(44, 28, again=label))
    else:
        drawn = yarn_swatch(look, left, Shown(200, 100, label=label, title=_title(arrived)))
    return Coming(
        drawn=drawn,
        defs=page_defs([look]),
        name=_title(arrived),
        skeins=counted(len(arrived.skeins), "skein") + (f", {opened} opened" if opened else ""),
        numbers=label,
        length=str(figures.near(arrived.length)) if arrived.length else "",
        weight=str(figures.near(arrived.held)) if arrived.held else "",
        count=len(arrived.skeins),
        coloured=bool(look.colours),
    )


def defs_of(arrived: Sequence[Arrived]) -> str:
    """What the drawings of several refer to, once a page."""
    return page_defs([look_of(one.lot) for one in arrived])


def yarn_and_lot(lot: Lot) -> str:
    """A lot by its yarn, colour and dye lot."""
    return f"{lot.yarn}, {colour_name(lot)}, {dye_lot(lot)}"


def _title(arrived: Arrived) -> str:
    line = arrived.line
    lot = {LotState.NUMBERED: f"lot {line.lot}", LotState.CLAIMED_NONE: "no dye lot"}
    parts = [f"{line.maker} {line.name}".strip(), line.colour, lot.get(line.lot_state, "")]
    return ", ".join(filter(None, parts))
