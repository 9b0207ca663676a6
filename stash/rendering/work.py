"""Hours of work and shares of a price as a person reads them."""

from __future__ import annotations

from fractions import Fraction


def show_hours(value: Fraction) -> str:
    """`3 h 20 min`, to the minute."""
    whole, minutes = divmod(round(value * 60), 60)
    parts = [f"{whole} h" if whole else "", f"{minutes} min" if minutes or not whole else ""]
    return " ".join(part for part in parts if part)


def show_share(value: Fraction) -> str:
    """`6.5%`."""
    return f"{float(100 * value):g}%"
