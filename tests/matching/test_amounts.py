"""Lengths in reasons."""

from stash.matching.amounts import counted, m_and_yd


# 1 yd is 0.9144 m exactly (NIST SP 811): 12 m is 13.1 yd.
def test_metres_come_with_yards() -> None:
    assert m_and_yd(12_000_000) == "12 m (13 yd)"


def test_one_row_and_two_rows() -> None:
    assert [counted(n, "row") for n in (1, 2)] == ["1 row", "2 rows"]
