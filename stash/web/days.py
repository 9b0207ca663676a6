"""Days as one says them."""

from __future__ import annotations

from datetime import date, timedelta

from stash.actions import clock


def day_words(day: date) -> str:
    """Today, yesterday, 24 November; with its year if it is another."""
    today = clock.today()
    if day == today:
        return "today"
    if day == today - timedelta(days=1):
        return "yesterday"
    year = "" if day.year == today.year else f" {day.year}"
    return f"{day.day} {day:%B}{year}"
