"""What the cells of a row say together."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from stash.exchange import cells
from stash.exchange.row_merge import RowFacts, row_facts
from stash.exchange.tables import SheetRow
from stash.measures.length import Length, metres, yards
from stash.measures.mass import Mass, grams
from stash.measures.money import Money
from stash.parsing.facts import Of
from stash.parsing.label.lots import LotSaid
from stash.stock.yarn import LotState

LABEL = "Fell Wool DK 50g/125m navy lot 7"


def row(**of: str) -> RowFacts:
    texts = {name: text for name, text in of.items() if text}
    today = date(2025, 3, 1)
    return row_facts(
        SheetRow(2, texts), lambda column, text: cells.read_cell(column, text, today, "")
    )


def good(**of: str) -> RowFacts:
    facts = row(**of)
    assert facts.problems == []
    return facts


def wrong(**of: str) -> str:
    ((_, text),) = row(**of).problems
    return text


@pytest.mark.parametrize(
    ("columns", "full"),
    [
        ({"mass": "50 g", "length": "125 m"}, (grams(50), metres(125))),
        ({"full": "50g", "length": "137 yd"}, (grams(50), yards(137))),
        ({"mass": "50 g", "full": "125m"}, (grams(50), metres(125))),
        ({"full": "50g/125m", "mass": "50 g"}, (grams(50), metres(125))),
        ({"full": "50g/125m", "mass": "1¾ oz"}, (grams(50), metres(125))),
        ({"length": "125 m"}, (None, metres(125))),
        ({"total_mass": "150 g", "total_length": "375 m", "count": "3"}, (grams(50), metres(125))),
        ({"mass": "50 g", "total_mass": "150 g", "count": "3"}, (grams(50), None)),
        ({"full": "50g/125m", "mass": "150 g", "count": "3"}, (grams(50), metres(125))),
    ],
)
def test_halves_in_columns_of_their_own_make_one_put_up(
    columns: dict[str, str], full: tuple[Mass | None, Length | None]
) -> None:
    facts = good(yarn="Dunmarle", **columns)

    assert facts.full == full
    assert facts.notes == []


def test_halves_that_disagree_are_not_chosen_between() -> None:
    assert "keep one of the two" in wrong(yarn="Dunmarle", full="50g/125m", mass="43 g")


def test_a_sum_that_does_not_add_up_is_a_note() -> None:
    facts = good(yarn="Dunmarle", mass="50 g", total_mass="130 g", count="3")

    assert facts.full == (grams(50), None)
    assert [column for column, _ in facts.notes] == ["mass"]


def test_a_whole_label_in_the_name_is_taken_apart() -> None:
    said = good(yarn=LABEL).said

    assert said["yarn"] == "Fell Wool DK"
    assert said["full"] == (grams(50), metres(125))
    assert said["thickness"] == (3, 3)
    assert said["colour"] == "navy"
    assert said["lot"] == LotSaid(LotState.NUMBERED, "7")


@pytest.mark.parametrize("column", ["yarn", "label"])
def test_columns_of_their_own_overrule_the_label(column: str) -> None:
    facts = good(**{column: LABEL, "lot": "8", "thickness": "4", "colour": "ink", "count": "2"})

    assert facts.said["lot"] == LotSaid(LotState.NUMBERED, "8")
    assert (facts.said["thickness"], facts.said["colour"], facts.count) == ((4, 4), "ink", 2)
    assert facts.full == (grams(50), metres(125))


def test_the_label_fills_up_a_half_only_where_it_speaks_of_the_same_skein() -> None:
    assert good(yarn=LABEL, mass="50 g").full == (grams(50), metres(125))
    assert good(yarn=LABEL, mass="100 g").full == (grams(100), None)
    assert good(yarn=LABEL, length="125 m").full == (grams(50), metres(125))


def test_a_label_beside_a_name_keeps_the_name() -> None:
    assert good(yarn="Harrow", label=LABEL).said["yarn"] == "Harrow"


def test_a_description_without_amounts_beside_a_name_is_a_note() -> None:
    facts = good(yarn="Dunmarle", full="50g", label="from the market", note="soft")

    assert (facts.said["yarn"], facts.said["note"]) == ("Dunmarle", "soft; from the market")


def test_a_label_that_cannot_be_read_is_told_by_its_column() -> None:
    facts = row(label="Fell Wool 1.200 yds")

    assert [column for column, _ in facts.problems] == ["label"]
    assert "1200 yds or 1.2 yds" in facts.problems[0][1]


def test_the_price_of_a_label_is_not_stretched_over_other_skeins() -> None:
    assert "price" in wrong(label=f"{LABEL}, 4.95 each", count="3")
    assert good(label=f"{LABEL}, 4.95 each").said["paid"] == (Money(495), Of.LINE)


def test_a_thickness_in_the_name_counts_and_is_marked() -> None:
    facts = good(yarn="Fell Wool DK", full="50g/125m")

    assert (facts.said["yarn"], facts.said["thickness"]) == ("Fell Wool DK", (3, 3))
    assert facts.thickness_in_name


@pytest.mark.parametrize("columns", [{"thickness": "4"}, {"thickness": "lumpy"}])
def test_a_thickness_column_goes_before_the_name(columns: dict[str, str]) -> None:
    facts = row(yarn="Fell Wool DK", full="50g/125m", **columns)

    assert facts.said.get("thickness") in ((4, 4), None)
    assert not facts.thickness_in_name


def test_a_row_we_gave_out_is_taken_word_for_word() -> None:
    facts = good(yarn=LABEL, full="100g/200m", full_from="band", maker="-", owner="?")

    assert (facts.said["yarn"], facts.said["maker"], facts.said["owner"]) == (LABEL, "-", "?")
    assert "thickness" not in facts.said


@pytest.mark.parametrize("text", ["-", "?", "n/a", "unknown", "N/A"])
@pytest.mark.parametrize("column", ["paid", "bought", "tare", "thickness", "hex", "mass", "maker"])
def test_a_mark_for_not_known_says_no_more_than_a_blank(column: str, text: str) -> None:
    assert column not in good(yarn="Dunmarle", full="50g", **{column: text}).said


@pytest.mark.parametrize(
    ("typed", "left"),
    [
        ("half", grams(25)),
        ("half a skein", grams(25)),
        ("½", grams(25)),
        ("1/4 ball", Mass(12_500)),
        ("about 2/3", Mass(round(50_000 * Fraction(2, 3)))),
        ("60%", grams(30)),
        ("a third left", Mass(round(50_000 * Fraction(1, 3)))),
    ],
)
def test_a_share_left_is_an_estimate_of_the_full_skein(typed: str, left: Mass) -> None:
    facts = good(yarn="Dunmarle", full="50g/125m", left=typed)

    assert facts.said["left"] == left
    assert facts.about
    assert [column for column, _ in facts.notes] == ["left"]


def test_a_share_of_a_length_is_a_length() -> None:
    assert good(yarn="Dunmarle", length="125 m", left="half").said["left"] == Length(62_500_000)


def test_a_share_of_nobody_knows_what_is_a_finding() -> None:
    assert "weigh what is left" in wrong(yarn="Dunmarle", left="half")


def test_a_share_on_the_label_is_of_the_row_s_full_skein() -> None:
    assert good(label="Fell Wool DK navy, half a skein", full="50g/125m").said["left"] == grams(25)


@pytest.mark.parametrize("typed", ["whole", "Full", "unused", "new"])
def test_a_whole_skein_has_nothing_left_over(typed: str) -> None:
    facts = good(yarn="Dunmarle", full="50g/125m", left=typed)

    assert "left" not in facts.said
    assert not facts.about


def test_what_is_left_in_words_is_the_amount_in_them() -> None:
    facts = good(yarn="Dunmarle", full="50g/125m", left="43g left")

    assert facts.said["left"] == grams(43)
    assert not facts.about


def test_a_skein_of_which_all_is_left_is_whole() -> None:
    assert "left" not in good(full="50g/125m", left="50 g").said
    assert "left" not in good(full="50g/125m", left="125m", count="3").said
    assert good(full="50g/125m", left="50 g", opened="yes").said["left"] == grams(50)
