"""What skeins hold, in figures that add up: free, set aside, and both together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering import figures
from stash.rendering.figures import Amount, Figure
from stash.rendering.her_words import named_thickness
from stash.stock.holding import HeldSkein, SkeinState
from stash.stock.yarn import Lot


@dataclass(frozen=True, slots=True)
class Yarn:
    """An amount of yarn by its length and its weight, None for one that is not known."""

    length: Figure | None
    weight: Figure | None

    def __add__(self, other: Yarn) -> Yarn:
        return Yarn(_sum(self.length, other.length), _sum(self.weight, other.weight))

    def __bool__(self) -> bool:
        return bool(self.length or self.weight)

    def words(self, what: str = "") -> str:
        """`142 m free, 61.5 g`; what is not known is named."""
        weight = "not weighed" if self.weight is None else str(self.weight)
        tail = f" {what}" if what else ""
        if self.length is None:
            return f"{weight}{tail}, length not known"
        return f"{self.length}{tail}, {weight}"


@dataclass(frozen=True, slots=True)
class Held:
    """What is free and what is set aside; what is held is made of the two."""

    free: Yarn
    aside: Yarn

    @property
    def held(self) -> Yarn:
        """All of it."""
        return self.free + self.aside


#: A length and a weight together, None for one that is not known.
Both = tuple[Length | None, Mass | None]


def held(skeins: Sequence[HeldSkein]) -> Held:
    """What some skeins hold together; the lengths are of those whose length is known."""
    aside = _together(skeins, [skein.set_aside for skein in skeins])
    return Held(free_figures(free_together(skeins)), _figures(aside, figures.up))


#: Behind a sum that leaves out what is not known.
AS_KNOWN = " as far as known"


def lengths_known(skeins: Sequence[HeldSkein]) -> bool:
    """Whether the length of all that is free of some skeins is known."""
    return all(skein.length(skein.free) is not None for skein in skeins if skein.free.mg)


def held_in_rows(skeins: Sequence[HeldSkein]) -> Held:
    """What some skeins hold together where each has its row: the sum of what the rows show.

    As in `held`, one that was not weighed makes the weight not known.
    """
    rows = [held([skein]) for skein in skeins]
    first, *others = rows or [held([])]
    free = sum((row.free for row in others), first.free)
    aside = sum((row.aside for row in others), first.aside)
    if all(skein.mass_known for skein in skeins):
        return Held(free, aside)
    return Held(replace(free, weight=None), replace(aside, weight=None))


def free_together(skeins: Sequence[HeldSkein]) -> Both:
    """What of some skeins is free, before it is rounded."""
    return _together(skeins, [skein.free for skein in skeins])


def free_figures(free: Both) -> Yarn:
    """The same as it is shown."""
    return _figures(free, figures.down)


def _together(skeins: Sequence[HeldSkein], parts: Sequence[Mass]) -> Both:
    """A part of each skein, together; one not weighed makes the weight not known."""
    lengths = [skein.length(part) for skein, part in zip(skeins, parts, strict=True)]
    known = [length.um for length in lengths if length is not None]
    weighed = all(skein.mass_known for skein in skeins)
    return (
        Length(sum(known)) if known else None,
        Mass(sum(part.mg for part in parts)) if weighed else None,
    )


def _figures(both: Both, rounded: Callable[[Amount], Figure]) -> Yarn:
    length, weight = both
    return Yarn(
        None if length is None else rounded(length), None if weight is None else rounded(weight)
    )


def state(skein: HeldSkein) -> str:
    """Whole, opened, a remnant, or used up."""
    return "used up" if skein.state is SkeinState.SPENT else skein.state.value


def thickness(lot: Lot) -> str:
    """A lot's thickness as makers call it: `DK (3)`."""
    if lot.thickness_from is None:
        return "thickness not known"
    return named_thickness(lot.thickness_from, lot.thickness_to or lot.thickness_from)


def _sum(one: Figure | None, other: Figure | None) -> Figure | None:
    """What is known of two together: what is not known adds nothing."""
    if one is None or other is None:
        return one or other
    return one + other
