"""Words that several sentences share."""

from __future__ import annotations

from collections.abc import Iterable

from stash.matching.lots.lot_view import Thickness


def thickness_words(thickness: Thickness) -> str:
    """A class or a range of them: `class 4`, `class 4 to 5`, `class about 4` where derived."""
    low, high = thickness.low, thickness.high
    if thickness.derived:
        return f"class about {low}"
    return f"class {low}" if low == high else f"class {low} to {high}"


def joined(parts: Iterable[str]) -> str:
    """Several things one after the other: `a and b`."""
    return " and ".join(parts)
