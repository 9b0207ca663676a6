"""Counting, winding off, unravelling and safety copies from the command line."""

from __future__ import annotations

from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line


def test_a_place_is_counted_over_two_sittings(maker: Maker) -> None:
    for number, place in (("5", "cellar"), ("7", "cellar"), ("8", "desk")):
        maker.does("change", number, "--place", place)
    here = {s["number"] for s in maker.ask("count", "cellar")["skeins"]}
    first = maker.does("count", "cellar", "--tick", "5-7")
    maker.does("count", "cellar", "--weigh", "8=48g")
    last = maker.does("count", "cellar", "--close")

    assert here == {5, 7}
    assert 'All 3 found. To finish: stash count "cellar" --close' in first.out
    assert "corrected by the scale: 8" in last.out
    assert "moved here: 6, 8" in last.out
    assert maker.skein(8)["place"] == "cellar"
    assert maker.does("check").status == 0


def test_a_count_under_way_says_what_is_still_to_find_and_how_to_go_on(maker: Maker) -> None:
    for number in ("5", "7", "8"):
        maker.does("change", number, "--place", "cellar")
    said = maker.does("count", "cellar", "--tick", "7").out

    assert "1 of 3 found; still to find: 5, 8\n" in said
    assert 'stash count "cellar" --tick 5 (on the scale: --weigh 5=43g)' in said
    assert "--close" in said


def test_a_count_in_csv_has_a_row_a_skein(maker: Maker) -> None:
    maker.does("change", "1", "--place", "desk")
    rows = maker.does("count", "desk", "--tick", "1", "--as", "csv").rows

    assert [(row["number"], row["seen"]) for row in rows] == [("1", "yes")]


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (("count", "cellar"), 3, "no yarn in"),
        (("count", "cellar", "--drop"), 3, "no open count"),
        (("split", "1", "900g"), 4, "free"),
        (("split", "1", "20"), 2, "20 g"),
        (("unravel", "7"), 3, "no item"),
        (("unravel", "1", "--weighed", "20g", "--loss", "3%"), 2, "not both"),
        (("restore", "nowhere.stash"), 5, "no copy"),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, tuple) else str(given),
)
def test_what_cannot_be_done_is_one_line(
    maker: Maker, words: tuple[str, ...], status: int, says: str
) -> None:
    before = maker.entries()

    refused_in_one_line(maker(*words), status, says)
    assert maker.entries() == before


def test_a_part_is_wound_off_and_told(maker: Maker) -> None:
    said = maker.does("split", "7", "20g", "--place", "tin")

    assert "wound off skein 7" in said.out
    assert maker.skein(7)["held_g"] == 30
    assert maker.does("check").status == 0


def test_what_was_unravelled_is_weighed_or_reckoned(maker: Maker) -> None:
    maker.does("use", "1", "40g", "--for", "1")
    said = maker.does("unravel", "1", "--weighed", "36g")

    assert "36 g back" in said.out
    assert "ends and cuts" not in said.out
    maker.does("undo")
    assert "5% off for ends and cuts; weigh them" in maker.does("unravel", "1").out


def test_a_copy_and_back(maker: Maker, tmp_path: Path) -> None:
    copy = str(tmp_path / "safe.stash")
    maker.does("backup", copy)
    shelf = maker.ask("shelf")
    maker.does("use", "7", "20g")

    refused_in_one_line(maker("restore", copy), 4, "--over")
    maker.does("restore", copy, "--over")
    assert maker.ask("shelf") == shelf


@pytest.fixture
def cellar(maker: Maker) -> Maker:
    """Skeins 5, 7 and 8 lie in the cellar; 7 and 8 were not seen, and the count is closed."""
    for number in ("5", "7", "8"):
        maker.does("change", number, "--place", "cellar")
    maker.does("count", "cellar", "--tick", "5", "--close")
    return maker


@pytest.mark.parametrize(
    ("words", "status", "says"),
    [
        (("--close",), 4, "is closed (entry"),
        (("--close", "--lost", "all-missing"), 4, "stash gone 42 --why lost"),
        (("--close", "--lost", "7"), 4, "is closed"),
        (("--close", "--lost"), 2, "--lost"),
        (("--lost", "7"), 2, "--close --lost 7"),
        (("--lost", "all-missing"), 2, "--close --lost all-missing"),
        (("--lost", "--close"), 2, "42,44, or all-missing"),
        (("--close", "--lost", "all"), 2, "42,44, or all-missing"),
        (("--close", "--lost", ","), 2, "42,44, or all-missing"),
        (("--tick", "5", "--close", "--lost", "5"), 3, "try 7 or 8"),
        (("--tick", "5", "--close", "--lost", "99"), 3, "try 7 or 8"),
        (("--tick", "5", "--close", "--lost", "1"), 3, "try 7 or 8"),
        (("--drop",), 4, "is closed"),
    ],
    ids=lambda given: " ".join(given) if isinstance(given, tuple) else "",
)
def test_a_closed_count_is_closed_and_lost_is_said_beside_what_was_seen(
    cellar: Maker, words: tuple[str, ...], status: int, says: str
) -> None:
    before = cellar.entries()

    refused_in_one_line(cellar("count", "cellar", *words), status, says)

    assert cellar.entries() == before
    assert [cellar.skein(number)["held_g"] for number in (5, 7, 8)] == [100, 50, 50]


def test_a_count_begun_anew_writes_nothing_off_before_something_is_seen(cellar: Maker) -> None:
    cellar.does("count", "cellar")

    refused_in_one_line(
        cellar("count", "cellar", "--close", "--lost", "all-missing"), 4, "nothing is ticked"
    )
    assert cellar.skein(5)["held_g"] == 100


def test_what_is_lost_is_told_apart_from_what_stays(cellar: Maker) -> None:
    said = cellar.does("count", "cellar", "--tick", "5", "--close", "--lost", "7").out

    assert "lost: 7; missing, still listed: 8" in said
    assert (cellar.skein(7)["held_g"], cellar.skein(8)["held_g"]) == (0, 50)


def test_all_that_is_missing_is_lost_beside_what_was_weighed(cellar: Maker) -> None:
    said = cellar.does("count", "cellar", "--weigh", "5=98g", "--close", "--lost", "all-missing")

    assert "lost: 7-8" in said.out
    assert cellar.does("check").status == 0


def test_closing_a_count_that_was_not_begun_says_how_to_begin(maker: Maker) -> None:
    refused_in_one_line(maker("count", "blue box", "--close"), 3, 'stash count "blue box" --tick')
