"""What is wrong between the cells of a row, though each of them can be read."""

from __future__ import annotations

from collections.abc import Iterator

from stash.exchange.row_merge import RowFacts, Said
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering.figures import near
from stash.rendering.her_words import hers
from stash.stock.yarn import FullFrom

#: Columns whose trouble leaves open how much there is.
_AMOUNTS = frozenset(
    ("full", "left", "full_from", "mass", "length", "total_mass", "total_length", "label", "yarn")
)
_GOES_WITH = "band and measured need both, 100g/200m; assumed needs a length; missing has none"


def problems(facts: RowFacts) -> Iterator[Said]:
    """Columns and what is wrong with them, beside what is wrong in each cell."""
    troubled = {column for column, _ in facts.problems}
    if "yarn" not in facts.said and not troubled & {"yarn", "label"}:
        yield "yarn", hers('no name; write one, or words of your own like "grey, no band"')
    if facts.count > 1:
        for column in ("number", "left"):
            if column in facts.said:
                yield column, f"is about one skein, not {facts.count}; give that skein its own row"
    if facts.said.get("opened") and "left" not in facts.said and "left" not in troubled:
        yield "left", "opened, but how much is left? Weigh it, or write about half"
    if not troubled & _AMOUNTS:
        yield from _amounts(facts)


def _amounts(facts: RowFacts) -> Iterator[Said]:
    """Whether the row says how much there is, and says it once."""
    mass, length = facts.full
    left, origin = facts.said.get("left"), facts.said.get("full_from")
    if mass is None and length is None and left is None:
        yield "full", "how much is it? Write it like 100g/200m, or `left` like 43g"
    if origin is not None and not _agrees(origin, mass, length):
        yield "full_from", f"{origin} does not fit `full`; {_GOES_WITH}"
    # a numbered row was given out by us: books may hold more than a band says, and are to come back
    if left is not None and "number" not in facts.said:
        yield from _beside_full(left, mass, length)


def _agrees(origin: FullFrom, mass: Mass | None, length: Length | None) -> bool:
    if origin is FullFrom.MISSING:
        return length is None
    if origin is FullFrom.ASSUMED:
        return length is not None
    return mass is not None and length is not None


def _beside_full(left: Mass | Length, mass: Mass | None, length: Length | None) -> Iterator[Said]:
    full, other = (mass, length) if isinstance(left, Mass) else (length, mass)
    if full is None and other is not None:
        yield "left", f"{near(left)} of a skein of {near(other)}? Write `full` as 100g/200m"
    elif full is not None and left > full:  # type: ignore[operator]  # both of the kind of left
        yield (
            "left",
            f"{near(left)} is more than a full {near(full)}; correct one of the two",
        )


def seen_before(facts: RowFacts, line: int, numbers: dict[int, int]) -> Iterator[Said]:
    """A skein's number that stands in an earlier row; `numbers` remembers where each did."""
    number = facts.said.get("number")
    if number is not None and numbers.setdefault(number, line) != line:
        yield "number", f"skein {number} is in row {numbers[number]} already; leave one blank"
