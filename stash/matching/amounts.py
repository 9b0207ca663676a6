"""Lengths and counts as reasons and ways out name them."""

from __future__ import annotations

from stash.measures.length import Length
from stash.measures.rounding import two_figures


def m_and_yd(um: int) -> str:
    """A length in metres with yards beside it, two figures each: `12 m (13 yd)`."""
    length = Length(um)
    return f"{two_figures(length.m):g} m ({two_figures(length.yd):g} yd)"


def counted(count: int, thing: str) -> str:
    """So many things: `1 row`, `2 rows`."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"
