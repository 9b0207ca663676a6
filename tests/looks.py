"""What is looked at on a page that is open in a browser."""

from __future__ import annotations

from typing import Any


def sideways(page: Any) -> int:
    """By how many pixels the page can be scrolled to the side, once it is there in full."""
    page.wait_for_load_state()
    script = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    return int(page.evaluate(script))


def fits(page: Any) -> bool:
    """Whether nothing of it lies beside the window."""
    return sideways(page) <= 0
