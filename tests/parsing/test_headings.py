"""Headings as people write them. What they mean by them is common practice, no source."""

from __future__ import annotations

import pytest

from stash.errors import BadInput, NotFound, Unreadable
from stash.parsing.headings import (
    COLUMNS,
    MORE_COLUMNS,
    NAMED_FROM,
    READ_COLUMNS,
    SYNONYMS,
    TAKEN_FROM,
    KnownHeadings,
    Meaning,
    column_named,
    exact,
    key,
    mapped,
    nearest_column,
    plain,
    remembered,
    says_each,
    setting,
)

ALL_COLUMNS = (*COLUMNS, *MORE_COLUMNS, *READ_COLUMNS)


@pytest.mark.parametrize("column", ALL_COLUMNS)
def test_our_own_columns_are_known_however_they_are_written(column: str) -> None:
    written = f"  {column.replace('_', '  ').upper()} "

    assert exact(written) == Meaning(column)


@pytest.mark.parametrize("column", ALL_COLUMNS)
def test_every_column_can_be_named_after_map(column: str) -> None:
    assert column_named(column) == Meaning(column)


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        ("Color", "colour"),
        ("Dye Lot:", "lot"),
        ("Lot #", "lot"),
        ("QTY.", "count"),
        ("# of skeins", "count"),
        ("No. of skeins", "count"),
        ("weight class", "thickness"),
        ("Location", "place"),
        ("fiber-content", "fibre"),
        ("#", "number"),
        ("Remarks/Notes", "note"),
        ("Maker / Brand", "maker"),
        ("Hand dyed?", "hand_dyed"),
        ("DYED", "dyed"),
        ("How dyed", "dyed"),
        ("Color effect", "dyed"),
        ("Surface", "surface"),
        ("Yarn texture", "surface"),
        ("Dyed by", "maker"),
    ],
)
def test_plain_words_for_a_column_are_known(heading: str, column: str) -> None:
    assert exact(heading) == Meaning(column)


@pytest.mark.parametrize(
    ("heading", "meaning"),
    [
        ("weight (g)", "mass g"),
        ("Yarn weight (oz)", "mass oz"),
        ("grams", "mass g"),
        ("g/skein", "mass g"),
        ("metres", "length m"),
        ("Length [m]", "length m"),
        ("yardage", "length yd"),
        ("YDS per ball", "length yd"),
        ("Yards per skein", "length yd"),
        ("Full skein (g)", "mass g"),
        ("amount left g", "left g"),
        ("Left (yd)", "left yd"),
        ("put-up (g)", "full g"),
        ("put up (g/m)", "full"),
        ("g / m", "full"),
        ("yards / metres", "length"),
        ("Core (g)", "tare g"),
        ("Total grams", "total_mass g"),
        ("yards total", "total_length yd"),
        ("How much is left (g)", "left g"),
        ("How many yards are left?", "left yd"),
    ],
)
def test_a_heading_may_name_the_unit_of_its_figures(heading: str, meaning: str) -> None:
    assert str(exact(heading)) == meaning


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        ("What color", "colour"), ("What colour is it?", "colour"), ("Colour of yarn", "colour"),
        ("How much is left", "left"), ("What's left", "left"), ("How many do I have?", "count"),
        ("How many skeins", "count"), ("Where is it?", "place"), ("Where do I keep it", "place"),
        ("Who made it", "maker"), ("When did I buy it?", "bought"), ("Name of the yarn", "yarn"),
        ("What is the dye lot", "lot"), ("What fiber", "fibre"), ("Which brand?", "maker"),
        ("My notes", "note"), ("How thick?", None), ("Which yarn is it?", "yarn"),
    ],
)  # fmt: skip
def test_a_heading_may_be_a_question(heading: str, column: str | None) -> None:
    assert exact(heading) == (None if column is None else Meaning(column))


@pytest.mark.parametrize(
    ("heading", "meaning"),
    [
        ("Price", "price"), ("Unit price", "price each"), ("price each", "price each"),
        ("Cost per skein", "price each"), ("Price/ball", "price each"),
        ("Price (each)", "price each"),
        ("Price (EUR)", "price EUR"), ("Price in £", "price £"), ("€ each", "price € each"),
        ("Purchase price", "price"), ("Cost", "cost"), ("How much did it cost?", "cost"),
        ("Value", "cost"), ("Cost (USD)", "cost USD"), ("Total", None), ("Total price", "paid"),
        ("Line total", "paid"), ("Paid", "paid"), ("What I paid", "paid"), ("Amount paid", "paid"),
        ("Price paid", "paid"), ("Total (kr)", "paid kr"), ("Total cost €", "paid €"),
        ("Paid per skein", "price each"), ("Spent", "paid"), ("Total weight", "total_mass"),
        ("Cost in pounds", "cost POUNDS"), ("Weight in pounds", "mass lb"),
        ("Paid (euro)", "paid EURO"), ("Order total", "paid"), ("How heavy (g)", "mass g"),
        ("Price (per skein incl. tax)", "price each"), ("Retail price", None),
    ],
)  # fmt: skip
def test_a_heading_of_prices_says_what_they_are_of(heading: str, meaning: str | None) -> None:
    found = exact(heading)

    assert (None if found is None else str(found)) == meaning
    if found is not None:
        assert column_named(str(found)) == found  # so it can be remembered


def test_what_map_offers_is_the_whole_list() -> None:
    with pytest.raises(Unreadable) as refused:
        column_named("zzzzzz")

    assert refused.value.facts["choices"] == ALL_COLUMNS


@pytest.mark.parametrize(
    "heading",
    [
        *("", "weight", "mood", "colour of the label", "quantity (g)"),
        *("price (per m)", "m/100g", "Hook (mm)", "length / colour", "tare (m)"),
    ],
)
def test_a_heading_that_could_mean_something_else_is_not_known(heading: str) -> None:
    assert exact(heading) is None


@pytest.mark.parametrize(
    ("heading", "column"),
    [
        ("Colur", "colour"),
        ("Dye-lott", "lot"),
        ("Colour way", "colour"),
        ("Locaton", "place"),
        ("Fibre Contents", "fibre"),
        ("Manufactuer", "maker"),
        ("Purchace date", "bought"),
        ("name of yarn", "yarn"),
    ],
)
def test_a_misspelt_heading_is_guessed(heading: str, column: str) -> None:
    guess = nearest_column(heading)

    assert guess is not None
    assert (guess.column, guess.guessed) == (column, True)
    assert guess.likeness >= TAKEN_FROM


@pytest.mark.parametrize("heading", ["Color code", "bought from", "date used", "Owned"])
def test_a_doubtful_likeness_is_named_and_not_enough(heading: str) -> None:
    guess = nearest_column(heading)

    assert guess is not None
    assert NAMED_FROM <= guess.likeness < TAKEN_FROM


@pytest.mark.parametrize(
    "heading",
    ["weight", "Weight", "mood", "Hook (mm)", "Price (per m)", "colour 2", "lo", "Gauge", "Needle"],
)
def test_what_is_like_nothing_or_too_short_is_not_guessed(heading: str) -> None:
    assert nearest_column(heading) is None


def test_no_word_stands_for_two_columns() -> None:
    words = [plain(w) for c in ALL_COLUMNS for w in (c, *SYNONYMS[c])]

    assert sorted(words) == sorted(set(words))


@pytest.mark.parametrize("heading", ["metres per skein", "g/ball", "skein weight"])
def test_a_heading_may_say_that_its_amounts_are_those_of_one_skein(heading: str) -> None:
    assert says_each(heading)
    assert not says_each("grams")


def test_map_takes_a_heading_and_a_column_with_a_unit() -> None:
    assert mapped(["Meterage (m)=length m", "A = B=colour", "Mood=", "Shop=ignored"]) == {
        "meterage (m)": "length m",
        "a = b": "colour",
        "mood": "ignored",
        "shop": "ignored",
    }


@pytest.mark.parametrize("typed", ["Colur", "=colour", "  =colour"])
def test_map_without_both_is_refused(typed: str) -> None:
    with pytest.raises(BadInput) as refused:
        mapped([typed])
    assert refused.value.kind == "no_mapping"


def test_map_to_no_column_of_ours_gives_the_nearest() -> None:
    with pytest.raises(NotFound) as refused:
        mapped(["Farbe=coulour"])
    assert refused.value.kind == "column"
    assert refused.value.nearest[0] == "colour"
    with pytest.raises(BadInput) as refused:
        mapped(["Farbe=zzz"])
    assert refused.value.kind == "no_column"


def test_what_she_says_now_goes_before_what_she_said_and_that_before_the_words() -> None:
    known = KnownHeadings(mapped={"shade": "lot"}, kept={"shade": "note", "brand": "ignored"})

    assert known.meaning("Shade") == Meaning("lot")
    assert known.meaning("BRAND") == Meaning("")
    assert known.meaning("Colour") == Meaning("colour")
    assert known.meaning("Mood") is None


def test_headings_are_remembered_among_the_settings_by_their_units_too() -> None:
    names = {setting(key(heading)): "x" for heading in ("Weight (g)", "weight-(oz)")}

    assert remembered({**names, "units": "yards"}) == {"weight (g)": "x", "weight (oz)": "x"}
