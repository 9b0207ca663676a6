"""Yarn counts against ASTM D2260-03(2013), table 1, its printed examples and exact constants."""

from __future__ import annotations

import pytest

from stash.errors import Unreadable
from stash.parsing.yarn_counts import yarn_count


@pytest.mark.parametrize(
    ("text", "tex"),
    [
        # D2260: tex x denier = den / 9; tex = 1000 / Nm; 590.541 / Ne; 885.812 / worsted.
        ("250 tex", 250.0), ("2142.9 den", 238.1), ("4000 dtex", 400.0),
        ("Nm 4", 250.0), ("Ne 10", 59.0541), ("NeK 9", 98.4235),
        # D2260, printed example: 30 tex is cotton 19.7.
        ("Ne 19.7", 29.9767),
    ],
)  # fmt: skip
def test_a_count_is_so_many_grams_in_a_kilometre(text: str, tex: float) -> None:
    assert yarn_count(text).tex == pytest.approx(tex, rel=2e-5)


def test_cotton_ten_is_worsted_fifteen() -> None:
    # D2260, printed example.
    assert yarn_count("Ne 10").tex == pytest.approx(yarn_count("NeK 15").tex, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "m_per_100g"),
    # Cones, computed from D2260: Nm 2/28 is Nm 14; Ne 10/2 is 925.9 yd, worsted 2/18 1111 yd.
    [("Nm 2/28", 1400.0), ("Nm 28/2", 1400.0), ("Ne 10/2", 846.7), ("NeK 2/18", 1016.0)],
)
def test_folded_yarn_has_the_single_count_divided_by_its_strands(
    text: str, m_per_100g: float
) -> None:
    assert yarn_count(text).m_per_100g == pytest.approx(m_per_100g, rel=1e-3)


@pytest.mark.parametrize("text", ["Ne 0", "Nm 0/2", "0 tex", "2/28", "8 ply", ""])
def test_what_is_no_count_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        yarn_count(text)
