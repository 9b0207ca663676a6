"""What the cells of a row say together: halves joined, shares measured, labels taken apart."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from stash.errors import Ambiguous, BadInput, Refusal
from stash.exchange import cells
from stash.exchange.findings import Asked
from stash.exchange.tables import SheetRow
from stash.measures import written
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.parsing import label
from stash.parsing.choices import replaced
from stash.parsing.facts import Of
from stash.parsing.label.lots import LotSaid
from stash.rendering.figures import near
from stash.rendering.sentences.labels import QUIET
from stash.rendering.sentences.say import sentence
from stash.stock.incoming import Incoming
from stash.stock.yarn import LotState

#: Reads the text of a cell as one of a column.
Reader = Callable[[str, str], Any]
#: A column and what is wrong in it, or worth a look.
Said = tuple[str, str]

#: Two figures for one thing may differ by what printers round away.
_SAME_WITHIN = 0.03


@dataclass(slots=True)
class RowFacts:
    """What a row says once its cells are read and joined, by our own columns.

    `problems` keep the row out, `notes` only point at it; `asked` are the cells of these that may
    mean several things. `about` marks a rough amount,
    `thickness_in_name` that the class stands in nothing but the yarn's name, `shared_price` that a
    part ball got its share of a full skein's price, `open_price` that nobody knows what it is of.
    """

    said: dict[str, Any] = field(default_factory=dict)
    problems: list[Said] = field(default_factory=list)
    asked: list[Asked] = field(default_factory=list)
    notes: list[Said] = field(default_factory=list)
    about: bool = False
    thickness_in_name: bool = False
    shared_price: bool = False
    open_price: bool = False

    @property
    def count(self) -> int:
        """How many skeins the row speaks of."""
        count: int = self.said.get("count", 1)
        return count

    @property
    def full(self) -> tuple[Mass | None, Length | None]:
        """What a full skein weighs and measures, as far as it is said."""
        mass, length = self.said.get("full", (None, None))
        return mass, length


def row_facts(row: SheetRow, read: Reader) -> RowFacts:
    """All that a row says, in terms of our own columns."""
    facts = RowFacts()
    for column, text in row.cells.items():
        if column not in ("label", "yarn") and (row.given_out or not cells.not_known(column, text)):
            _read_into(facts, column, text, read)
    facts.about = any(cells.rough(row.cells[column]) for column in _ROUGH if column in row.cells)
    for kind in ("mass", "length"):
        _take_half(facts, kind)
    _take_names(facts, row, read)
    _take_share(facts, row)
    if not row.given_out and "opened" not in facts.said and facts.said.get("left") in facts.full:
        facts.said.pop("left", None)  # all of it is left: the skein is whole
    return facts


def _answers(text: str, asked: Ambiguous) -> list[str]:
    """The cell as it would be for each reading."""
    return [replaced(text, asked.text, one) for one in asked.readings]


_ROUGH = ("full", "left", "mass", "length", "total_mass", "total_length")


def _read_into(facts: RowFacts, column: str, text: str, read: Reader) -> None:
    try:
        value = read(column, text)
    except (BadInput, Refusal) as bad:
        facts.problems.append((column, sentence(bad)))
        if isinstance(bad, Ambiguous):
            facts.asked.append(Asked(column, text, tuple(_answers(text, bad))))
        return
    if value is not cells.NOTHING:
        facts.said[column] = value


def _take_half(facts: RowFacts, kind: str) -> None:
    """A column of grams or of metres is one half of what a full skein holds."""
    each = facts.said.pop(kind, None)
    total = facts.said.pop(f"total_{kind}", None)
    if total is not None and each is None:
        each = _shared(total, facts.count)
    elif total is not None and not _alike(size(total), facts.count * size(each)):
        facts.notes.append(
            (kind, f"{near(total)} in all is not {facts.count} x {near(each)}; is one opened?")
        )
    if each is None:
        return
    mass, length = facts.full
    known = mass if kind == "mass" else length
    if known is None:
        facts.said["full"] = (each, length) if kind == "mass" else (mass, each)
    elif not any(_alike(size(each), n * size(known)) for n in (1, facts.count)):
        facts.problems.append(
            (kind, f"{near(each)} is not the {near(known)} of `full`; keep one of the two, or if "
                   "it is what is left add --map HEADING=left")
        )  # fmt: skip


def size(amount: Mass | Length) -> int:
    """An amount as a whole number of milligrams or micrometres."""
    return amount.mg if isinstance(amount, Mass) else amount.um


def _alike(one: int, other: int) -> bool:
    return abs(one - other) <= _SAME_WITHIN * max(one, other)


def _shared(total: Mass | Length, count: int) -> Mass | Length:
    part = round(size(total) / count)
    return Mass(part) if isinstance(total, Mass) else Length(part)


def _take_names(facts: RowFacts, row: SheetRow, read: Reader) -> None:
    """The yarn's name; a cell that holds a whole label is taken apart."""
    yarn, label = row.cells.get("yarn", ""), row.cells.get("label", "")
    if yarn and not row.given_out and cells.holds_amounts(yarn):
        _take_label(facts, "yarn", yarn, read)
    elif yarn:
        _read_into(facts, "yarn", yarn, read)
    if label and (not yarn or cells.holds_amounts(label)):
        _take_label(facts, "label", label, read)
    elif label:
        facts.said["note"] = "; ".join(filter(None, [facts.said.get("note", ""), label]))
    if not row.given_out:
        _take_looks(facts)
    if yarn and not row.given_out and "thickness" not in {*facts.said, *dict(facts.problems)}:
        _take_thickness_in_name(facts, yarn)


def _take_looks(facts: RowFacts) -> None:
    """How it is dyed and made, by the words for the yarn and its colour; a column outranks them."""
    name, colour = facts.said.get("yarn", ""), facts.said.get("colour", "")
    looks = cells.looks_in_words(name, colour)
    for column, said in (("dyed", looks.dyed), ("surface", looks.surface)):
        if said and column not in dict(facts.problems):
            facts.said.setdefault(column, said)


def _take_thickness_in_name(facts: RowFacts, yarn: str) -> None:
    classes = cells.thickness_in_name(yarn)
    if classes is not None:
        facts.said["thickness"] = classes
        facts.thickness_in_name = True


def _take_label(facts: RowFacts, column: str, text: str, read: Reader) -> None:
    """A whole label in one cell; what stands in columns of their own overrules it."""
    try:
        found = _label(facts, text, read)
    except (BadInput, Refusal) as bad:
        facts.problems.append((column, sentence(bad)))
        return
    line, said = found.incoming, _said_by(found.incoming)
    if "paid" in said and "count" in facts.said and facts.count != line.count:
        facts.problems.append((column, "its price is for another count than this row; give the "
                                       "price its own column"))  # fmt: skip
    if "price" in facts.said or "cost" in facts.said:
        said.pop("paid", None)
    own = facts.said.get("full")
    notes = [facts.said.pop("note", ""), said.pop("note", "")]
    facts.said = {**said, **facts.said, "note": "; ".join(filter(None, notes))}
    if own is not None:
        facts.said["full"] = _filled_up(own, (line.full_mass, line.full_length))
    facts.about = facts.about or (line.about and own is None)
    facts.notes += [(column, sentence(note)) for note in found.notes if note.kind not in QUIET]


def _label(facts: RowFacts, text: str, read: Reader) -> label.Label:
    """The label; where it speaks of a share of a skein, with what a full one holds in this row."""
    try:
        found: label.Label = read("label", text)
    except label.ShareOfWhat:
        full = next((half for half in facts.full if half is not None), None)
        if full is None:
            raise
        unit = "g" if isinstance(full, Mass) else "m"
        found = read("label", f"{text}; {written.show(full, unit)} each")
    return found


_Halves = tuple[Mass | None, Length | None]


def _filled_up(own: _Halves, label: _Halves) -> _Halves:
    """Halves of columns of their own, with the label's other half where it speaks of the same."""
    (mass, length), (label_mass, label_length) = own, label
    if length is None and mass == label_mass:
        return mass, label_length
    if mass is None and length == label_length:
        return label_mass, length
    return own


def _said_by(line: Incoming) -> dict[str, Any]:
    """A label's facts by our columns, without what it does not say."""
    put_up = (line.full_mass, line.full_length)
    facts = {
        "yarn": line.name if line.name != label.NO_NAME else "",
        "maker": line.maker,
        "colour": line.colour,
        "colour_no": line.colour_no,
        "hex": line.colours,
        "lot": LotSaid(line.lot_state, line.lot) if line.lot_state != LotState.UNKNOWN else None,
        "thickness": None
        if line.thickness_from is None
        else (line.thickness_from, line.thickness_to),
        "fibre": line.fibre,
        "full": put_up if put_up != (None, None) else None,
        "count": line.count if line.count > 1 else None,
        "left": line.left,
        "part_balls": line.part_balls,
        "tare": line.tare,
        "place": line.place,
        "owner": line.owner,
        "bought": line.bought,
        "paid": None if line.paid is None else (line.paid, Of.LINE),
        "care": line.care,
        "note": line.note,
        "hand_dyed": line.hand_dyed or None,
        "measured": line.measured or None,
        "dyed": line.dyed,
        "surface": line.surface,
    }
    return {column: value for column, value in facts.items() if value not in (None, "", ())}


def _take_share(facts: RowFacts, row: SheetRow) -> None:
    """`half a skein` is an amount once it is known what a full one holds; and is a guess."""
    share = facts.said.get("left")
    if not isinstance(share, Fraction):
        return
    typed = row.cells.get("left", str(share))
    full = next((half for half in facts.full if half is not None), None)
    if full is None:
        del facts.said["left"]
        facts.problems.append(
            ("left", f"{typed!r} of how much? Say what a full skein holds, or weigh what is left")
        )
        return
    part = round(size(full) * share)
    facts.said["left"] = Mass(part) if isinstance(full, Mass) else Length(part)
    facts.about = True
    facts.notes.append(
        ("left", f"{typed!r} is read as about {near(facts.said['left'])}; weigh it to be sure")
    )
