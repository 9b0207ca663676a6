"""Balances as they are shown: each part is rounded once, and all else is made from the parts."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.rendering import figures
from stash.rendering.figures import Amount, Figure


@dataclass(frozen=True, slots=True)
class Signed:
    """A figure that is added, or taken away."""

    figure: Figure
    less: bool

    def __str__(self) -> str:
        sign = "-" if self.less else "+"
        return f"{sign}{self.figure}" if self.figure else f"{self.figure}"


def signed(amount: Amount) -> Signed:
    """An amount above or below nothing, to the nearest step."""
    if isinstance(amount, Mass):
        return Signed(figures.near(Mass(abs(amount.mg))), amount.mg < 0)
    return Signed(figures.near(Length(abs(amount.um))), amount.um < 0)


def together(parts: Sequence[Signed]) -> Signed:
    """What they come to; of none there is no unit, so there has to be one."""
    nothing = parts[0].figure - parts[0].figure
    came = sum((one.figure for one in parts if not one.less), nothing)
    went = sum((one.figure for one in parts if one.less), nothing)
    return Signed(went - came, less=True) if went > came else Signed(came - went, less=False)


@dataclass(frozen=True, slots=True)
class Balance:
    """What was there, and what moved, by whatever tells the movements apart."""

    opening: Figure
    moved: Mapping[Hashable, Signed]

    @property
    def closing(self) -> Figure:
        """What is there after all that moved."""
        return together([Signed(self.opening, less=False), *self.moved.values()]).figure


def balance(opening: Amount, moved: Mapping[Hashable, Amount]) -> Balance:
    """A balance of exact amounts."""
    return Balance(figures.near(opening), {key: signed(one) for key, one in moved.items()})


def sum_of(parts: Sequence[Balance]) -> Balance:
    """The balance of several as the sum of what is shown of each; of at least one."""
    first, *others = (part.opening for part in parts)
    keys: Iterable[Hashable] = dict.fromkeys(key for part in parts for key in part.moved)
    return Balance(
        sum(others, first),
        {key: together([p.moved[key] for p in parts if key in p.moved]) for key in keys},
    )
