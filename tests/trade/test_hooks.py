"""Sizes against the Craft Yarn Council's anchors and the trade charts that agree with them."""

from __future__ import annotations

import pytest

from stash.trade.hooks import (
    HOOKS_US,
    hook_label,
    hook_mm,
)


@pytest.mark.parametrize(
    ("mm", "label"),
    # Council weight table: B-1, E-4, 7, I-9, K-10 1/2, Q; M-13 is half of the shared label.
    [(2.25, "B-1"), (3.5, "E-4"), (4.5, "7"), (5.5, "I-9"), (6.5, "K-10 1/2"), (16.0, "Q")],
)
def test_the_council_anchors_stand(mm: float, label: str) -> None:
    assert HOOKS_US[mm] == label


@pytest.mark.parametrize(
    ("typed", "mm"),
    [("H/8", 5.0), ("h-8", 5.0), ("H 8", 5.0), ("K-10½", 6.5), ("K 10.5", 6.5), ("K10 1/2", 6.5),
     ("M-13", 9.0), ("N/13", 9.0), ("J-10", 6.0)],
)  # fmt: skip
def test_a_hook_label_says_its_millimetres(typed: str, mm: float) -> None:
    assert hook_mm(typed) == mm


@pytest.mark.parametrize("typed", ["H/9", "8", "R-12", "", "H"])
def test_a_label_that_is_not_certain_says_nothing(typed: str) -> None:
    assert hook_mm(typed) is None


def test_sizes_are_shown_with_millimetres_first() -> None:
    assert hook_label(5.0) == "5 mm (H-8)"
    assert hook_label(7.0) == "7 mm"
