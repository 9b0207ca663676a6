"""What is taken more where a gauge was counted in plain fabric, and that it is said."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import gauge, plain_scarf

from stash.parsing.design.fabric import fabric
from stash.requirements.design.design import Design
from stash.requirements.design.gauge import Gauge
from stash.requirements.yarn.by_rows import ByRows, by_rows


def worked(words: str, at: Gauge | None) -> ByRows:
    found = by_rows(replace(plain_scarf(), fabric=fabric(words), gauge=at))
    assert found is not None
    return found


def more_taken(found: ByRows) -> dict[str, float]:
    """What fabrics take more than plain ones, by their names."""
    notes = (note.facts for note in found.notes if note.kind == "more_than_plain")
    return {str(facts["row"]): facts["more"] for facts in notes}


@pytest.mark.parametrize(
    ("words", "low", "high"), [("2x2 rib", 1.10, 1.20), ("cables", 1.15, 1.30)]
)
def test_a_textured_fabric_takes_more_where_only_plain_gauge_is_known(
    words: str, low: float, high: float
) -> None:
    """Ranges that makers give (common practice, no source)."""
    own, plain = worked(words, gauge(20, 28)), worked(words, replace(gauge(20, 28), plain=True))

    assert low < plain.said["A"].expected_m / own.said["A"].expected_m < high
    assert words in more_taken(plain)
    assert not more_taken(own)


def test_the_usual_gauge_of_a_thickness_is_counted_in_plain_fabric() -> None:
    assert more_taken(worked("1x1 rib", None)) == {"1x1 rib": pytest.approx(0.15)}
    assert not more_taken(worked("stockinette", None))


def test_a_gauge_in_single_crochet_halves_its_rows_for_double() -> None:
    """16 rows of single against 8 of double (common practice, no source)."""
    found = worked("dc", replace(gauge(14, 16), plain=True))

    assert found.layout.gauge == gauge(14, 8)


def test_a_design_without_a_fabric_is_not_worked() -> None:
    assert by_rows(Design(gauge=gauge(14, 16))) is None
