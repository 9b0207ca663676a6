"""Figures that came and went: shown with their sign, and the closing made from what is shown."""

from __future__ import annotations

from collections.abc import Iterable
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
        return f"{self.sign}{self.figure}"

    @property
    def sign(self) -> str:
        """Nothing has no sign."""
        return ("-" if self.less else "+") if self.figure else ""


def signed(amount: Amount) -> Signed:
    """An amount above or below nothing, to the nearest step."""
    if isinstance(amount, Mass):
        return Signed(figures.near(Mass(abs(amount.mg))), amount.mg < 0)
    return Signed(figures.near(Length(abs(amount.um))), amount.um < 0)


def closing(opening: Figure, moved: Iterable[Signed]) -> Figure:
    """What is there after all that came and went."""
    came, went = opening, opening - opening
    for one in moved:
        if one.less:
            went += one.figure
        else:
            came += one.figure
    return came - went
