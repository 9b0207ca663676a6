"""Rounding and sharing out, each in a function that says which way it goes."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction


def shared_out(whole: int, weights: Sequence[int]) -> list[int]:
    """A whole number split by weight so that the parts add up to it exactly.

    Largest remainder: every part gets its floor, and what is left goes one by one to the largest
    remainders; equal remainders go to the earlier part. Weights must not all be nothing.
    """
    total = sum(weights)
    if total <= 0 or min(weights) < 0:
        raise ValueError("no weights")
    floors = [whole * weight // total for weight in weights]
    remainders = [whole * weight % total for weight in weights]
    order = sorted(range(len(weights)), key=lambda i: (-remainders[i], i))
    for i in order[: whole - sum(floors)]:
        floors[i] += 1
    return floors


def two_figures(value: float) -> float:
    """Two significant figures, for showing an estimate; whole numbers from 100 up keep tens."""
    return _figures(value, round)


def _figures(value: float, to_whole: Callable[[float], int]) -> float:
    if value == 0 or not math.isfinite(value):
        return value
    step = 10.0 ** (math.floor(math.log10(abs(value))) - 1)
    return float(f"{to_whole(value / step) * step:.12g}")


def printed_up(value: float) -> int:
    """An amount as a pattern prints it, never less: up to the next 5 until 100, then the next 10.

    Common practice, no source; the leaflets among the check rows print in such steps.
    """
    step = 5 if value <= 100 else 10
    return math.ceil(round(value / step, 9)) * step


def nearest(count: Fraction) -> int:
    """A count to the nearest whole one, a half upwards: stitches and rows are laid out so."""
    return math.floor(count + Fraction(1, 2))
