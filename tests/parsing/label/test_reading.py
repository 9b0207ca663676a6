"""A whole label line; the lines are invented in the style makers type (common practice)."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Refusal, Unreadable
from stash.measures.length import metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.money import Money
from stash.measures.note import Note
from stash.parsing.label import NO_NAME, Label, read
from stash.stock.yarn import Condition, LotState
from stash.trade.colour_words import colour_of

PARTS = (
    "Harbour Soft", "DK", "50g/125m", "col 941 brick", "lot 48213/B", "75 wool 25 nylon",
    "3 skeins", "bin 3", "£3.20 ea", "machine wash",
)  # fmt: skip


def _facts(label: Label) -> dict[str, object]:
    read_facts = label.incoming
    return {name: getattr(read_facts, name) for name in read_facts.__dataclass_fields__}


def test_a_full_line_leaves_nothing_unknown() -> None:
    found = read(", ".join(PARTS)).incoming

    assert (found.name, found.thickness_from, found.thickness_to) == ("Harbour Soft", 3, 3)
    assert (found.full_mass, found.full_length) == (grams(50), metres(125))
    assert (found.colour, found.colour_no) == ("brick", "941")
    assert found.colours == colour_of("brick")
    assert (found.lot, found.lot_state) == ("48213/B", LotState.NUMBERED)
    assert found.fibre == "75% wool, 25% nylon"
    assert (found.count, found.place, found.care) == (3, "bin 3", "machine wash")
    assert found.paid == Money(960)


@settings(max_examples=40)
@given(st.permutations(PARTS), st.sampled_from([", ", "; ", "\n", " | "]))
def test_the_order_and_the_separator_do_not_matter(parts: list[str], between: str) -> None:
    plain, shuffled = read(", ".join(PARTS)), read(between.join(parts))
    assert {**_facts(shuffled), "typed": ""} == {**_facts(plain), "typed": ""}


def test_a_label_copied_into_one_cell_is_read() -> None:
    found = read(
        "Harbour Soft DK\n100% merino\n50 g = 125 m\nCol. 941 Brick\nLot 48213/B\n"
        "Machine wash 30°C\nNeedles 4 mm\n22 sts x 30 rows = 10 cm"
    )
    assert found.left_unknown == ()
    assert found.incoming.full_length == metres(125)
    assert found.incoming.note == "Needles 4 mm; 22 sts x 30 rows = 10 cm"


def test_what_is_not_said_is_left_unknown() -> None:
    assert read("Fern, 100g, navy").left_unknown == ("length", "thickness", "fibre", "lot")


def test_a_line_without_a_name_is_an_unnamed_yarn() -> None:
    assert read("2x100g").incoming.name == NO_NAME


@pytest.mark.parametrize("text", ["", " ", "-", "?", ",,;", "…", "x" * 2000])
def test_a_line_that_says_nothing_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        read(text)


@pytest.mark.parametrize("text", ["see above", "Total 12 skeins", "ditto", "Subtotal: 4"])
def test_a_line_that_points_elsewhere_is_no_yarn(text: str) -> None:
    with pytest.raises(Unreadable):
        read(text)


@pytest.mark.parametrize(
    ("text", "name", "colour"),
    [
        ("Fern Soft dark navy, 50g", "Fern Soft", "dark navy"),
        ("2 skeins of Fern in navy", "Fern", "navy"),
        ("Fern DK navy 50g/125m", "Fern DK", "navy"),
        ("navy, Fern, 50g", "Fern", "navy"),
        ("red wool, 50g", NO_NAME, "red"),
        ("white kitchen cotton, 50g", "kitchen cotton", "white"),
        ("Fern Aran 100g, Zorbelline", "Fern Aran", "Zorbelline"),
        ("Fern DK bracken green 50g", "Fern DK", "bracken green"),
        ("Party Tweed Fern, 50g, oddhue, lot 4", "Party Tweed Fern", "oddhue"),
        ("Fern 50g 'Tuesday's Toast'", "Fern", "Tuesday's Toast"),
        ("Fern, colour: stormy sea", "Fern", "stormy sea"),
        ("Fern, #1203 sea foam", "Fern", "sea foam"),
        ("Fern, red 12", "Fern", "red"),
        ("Fern navy acrylic, 50g", "Fern", "navy"),
        ("Fern, cream aran 50g ball", "Fern", "cream"),
        ("Fern tweed, brown w/ flecks", "Fern tweed", "brown w/ flecks"),
    ],
)
def test_name_and_colour_are_told_apart(text: str, name: str, colour: str) -> None:
    found = read(text).incoming
    assert (found.name, found.colour) == (name, colour)


def test_words_with_no_place_go_into_the_note() -> None:
    assert read("Fern, from the market, 50g").incoming.note == "from the market"


def test_a_maker_is_read_behind_by_or_a_colon() -> None:
    assert read("Fern by Old Mill, 50g").incoming.maker == "Old Mill"
    assert read("maker: Old Mill, Fern, 50g").incoming.maker == "Old Mill"


def test_the_line_is_kept_as_it_was_typed() -> None:
    text = " Fern,\u00a050 g “soft” "
    assert read(text).incoming.typed == text


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("Fern ~200", {"about 200 g", "about 200 m", "about 200 yd"}),
        ("Fern, 200", {"200 g", "200 m", "200 yd", "colour 200"}),
        ("Fern, 3", {"3 skeins", "thickness 3", "colour 3"}),
        ("3 Fern 50g", {"3 skeins", "thickness 3", "colour 3"}),
        ("Fern, 1.200 yds", {"1200 yds", "1.2 yds"}),
        ("Fern, 1 200 m", {"1200 m", "1 x 200 m"}),
        ("Fern, bought 12/1/24", {"2024-12-01", "2024-01-12"}),
    ],
)
def test_what_may_mean_two_things_is_asked_with_both(text: str, readings: set[str]) -> None:
    with pytest.raises(Ambiguous) as asked:
        read(text)
    assert set(asked.value.readings) == readings


def test_every_reading_offered_for_a_lone_number_is_understood() -> None:
    for reading in ("about 200 yd", "colour 200", "3 skeins", "thickness 3"):
        assert read(f"Fern, {reading}")


def test_a_thin_space_groups_thousands() -> None:
    assert read("Fern, 1\u2009200 m, 500 g").incoming.full_length == metres(1200)


def test_a_class_far_from_its_weight_and_length_is_doubted() -> None:
    assert (
        Note("thickness_unlike_fineness", classes=(1, 1)) in read("Fern, chunky, 100g/420m").notes
    )


def test_a_day_to_come_is_refused() -> None:
    with pytest.raises(Refusal):
        read("Fern, bought 2025-06-02", today=date(2025, 6, 1))


def test_the_same_line_gives_the_same_answer() -> None:
    line = "Fern, teal/rust/cream, 3 + a bit, 100g"
    assert read(line) == read(line)


#: Lines of the kind makers type that were not at hand while the readers were first written.
LIKE_OTHERS: dict[str, dict[str, object]] = {
    "cotton 4/2 ne 250 g natural": {"full_mass": grams(250), "colour": "natural"},
    "cotton ne 250 g": {"full_mass": grams(250)},
    "duck egg dk 100g/295m, batch 3392 (x2)": {"count": 2, "lot": "3392"},
    "two 50g balls of red double knitting": {"count": 2, "full_mass": grams(50)},
    "8ply cotton, 50 g = 85 m, ecru #002, L:4471": {"lot": "4471", "colour_no": "002"},
    "2 hanks 100g, merino 85 nylon 15, slate": {"fibre": "85% merino wool, 15% nylon"},
    "150 m of grey aran left": {"left": metres(150), "full_length": None},
    "leftover ball, purple, bulky, 31 g": {"left": grams(31), "full_mass": None},
    "bag of 10 balls merino dk 50g/116m": {"count": 10, "name": "merino dk"},
    "5 x 50 grams pure new wool aran, burgundy": {"fibre": "100% wool", "colour": "burgundy"},
    "worsted 4 medium 170g black": {"thickness_from": 4, "count": 1},
    "bulky (5) 100g red": {"thickness_from": 5},
    "cone 1 kg 500 g teal wool": {"full_mass": grams(1500)},
    "4 Stück Wolle 50g/100m Partie 7731": {"count": 4, "lot": "7731"},
    "3/4 of a 100g ball aran moss green": {"left": grams(75), "note": "3/4 of a"},
    "half a ball dk 50g/120m": {"left": grams(25)},
    "acrylic, aran, 212 g total in 3 balls": {"count": 3, "full_mass": Mass(70_667)},
    "Farlow Chunky 100g/120m * 2, col 7": {"count": 2, "colour_no": "7"},
    "50g ball DK, white, opened, weighs 37g": {"left": grams(37), "name": NO_NAME},
    "about 3/4 ball cream aran, 76g on the scale": {"left": grams(76)},
    "100% wool. 115 g / 210 yd. Lot #A77. Color: Bluebell": {"lot": "A77", "colour": "Bluebell"},
    "lace 25g 210m mohair silk 70 30 blush": {"fibre": "70% mohair, 30% silk"},
    "DK 100g/220m grey, smoke smell": {"conditions": (Condition.SMOKE,), "colour": "grey"},
    "DK 100g smoke grey": {"conditions": ()},
}


@pytest.mark.parametrize(("typed", "facts"), LIKE_OTHERS.items(), ids=[*LIKE_OTHERS])
def test_other_lines_of_the_kind_are_read(typed: str, facts: dict[str, object]) -> None:
    found = _facts(read(typed))

    assert {name: found[name] for name in facts} == facts


@pytest.mark.parametrize(
    ("typed", "readings"),
    [
        ("half a skein of mustard dk approx 55g", ["55 g left", "55 g each"]),
        ("teal dk lot 4 or 5", ["lot 4", "lot 5"]),
    ],
)
def test_other_lines_of_the_kind_are_asked_about(typed: str, readings: list[str]) -> None:
    with pytest.raises(Ambiguous) as both:
        read(typed)

    assert list(both.value.readings) == readings


def test_colours_with_a_count_each_are_lines_of_their_own() -> None:
    with pytest.raises(Unreadable) as refused:
        read("4 cakes, 2 red 2 blue, 100g/200m")
    assert refused.value.kind == "colours_with_counts"


def test_one_and_a_half_in_another_tongue_is_not_one() -> None:
    found = read("1,5 Knäuel Wolle blau 50g/125m").incoming
    assert (found.count, found.part_balls) == (1, (grams(25),))


_WORDS = st.sampled_from(
    ["Fern", "DK", "50g", "125 m", "/", "lot", "007", "#4", "navy", "½", "3", "x", "of", "half",
     "left", "£3.20", "ea", "for", "80/20", "wool", "75%", "~", "12/1/24", "H/8", "5mm", "sts", "=",
     "10cm", "by", "bin", "skeins", "incl. needle", "total", "1,200", "oz", "total", "(", ")", ":",
     "dk", "light", "ypp", "Nm 2/28", "@", "+", "ship", "?", "no", "dye", "\x01", "\x02", "”"]
)  # fmt: skip


@settings(max_examples=300)
@given(st.lists(_WORDS, max_size=10), st.sampled_from([" ", ", ", ""]))
def test_any_words_are_a_label_or_bad_input(words: list[str], between: str) -> None:
    _reads_or_refuses(between.join(words))


@given(st.text(max_size=60))
def test_any_text_is_a_label_or_bad_input(text: str) -> None:
    _reads_or_refuses(text)


@pytest.mark.parametrize("word", ["about ", "1 ", "50g ", "half ", "lot ", "~", "1/", "wool "])
def test_a_word_said_over_and_over_is_answered_all_the_same(word: str) -> None:
    _reads_or_refuses((word * 1000)[:1000])


def _reads_or_refuses(text: str) -> None:
    try:
        found = read(text).incoming
    except BadInput:
        return
    assert found.name
    assert found.count >= 1
    assert found.typed == text
    assert found.full_mass is None or found.full_mass > NO_MASS
