"""How a finding is told."""

from __future__ import annotations

from stash.exchange.findings import Finding, of_row


def test_a_finding_names_row_and_column() -> None:
    assert str(Finding(7, "full", "no unit")) == "row 7, full: no unit"


def test_a_finding_of_the_whole_row_names_no_column() -> None:
    assert str(Finding(7, "", "too many cells")) == "row 7: too many cells"


def test_a_finding_of_the_whole_file_stands_alone() -> None:
    assert str(Finding(0, "", "read as Windows text")) == "read as Windows text"


def test_all_troubles_of_a_row_make_one_finding() -> None:
    found = of_row(7, [("hex", "no colour"), ("left", "no unit"), ("left", "too much")])

    assert found == Finding(
        7, "hex, left", "hex: no colour; left: no unit; too much", called="hex, left"
    )
