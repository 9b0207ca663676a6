"""Designs and what they need."""

from __future__ import annotations

import re
import shlex

import pytest
from commands import NONE, NUMBER, WORDS, Maker, keeps_its_keys, refused_in_one_line

from stash.rendering import first_screen
from stash.rendering.wrapped import wrapped
from stash.requirements.design.shapes import Shape

NEED = {"roles": (dict,), "source": WORDS, "margin": (*NUMBER, NONE), "notes": (list,)}
ROLE = {
    "expected_m": NUMBER,
    "spread_m": NUMBER,
    "set_aside_m": NUMBER,
    "expected_g": (*NUMBER, NONE),
    "set_aside_g": (*NUMBER, NONE),
    "strands": (int,),
    "source": WORDS,
    "margin": NUMBER,
}
SOURCES = {"own items", "swatch", "stated", "gauge", "thickness"}
ROUND_HAT = (
    "--shape", "round hat", "--around", "54cm", "--tall", "22cm", "--fabric", "1 hdc",
    "--thickness", "DK", "--band", "B 4cm bottom",
)  # fmt: skip


@pytest.mark.parametrize(
    "typed",
    [
        ("--stated", "A=200yd"),
        ("--weighed", "A=71g,B=9g", "--full", "100g/180m"),
        ("--shape", "scarf", "--wide", "20cm", "--long", "150cm", "--swatch", "12g, 15cm x 14cm",
         "--full", "100g/180m"),
        (*ROUND_HAT, "--gauge", "17 sts x 13 rows"),
        ROUND_HAT,
    ],
    ids=["stated", "weighed", "swatch", "gauge", "thickness"],
)  # fmt: skip
def test_a_need_as_json_has_the_promised_keys(nobody: Maker, typed: tuple[str, ...]) -> None:
    need = nobody.ask("need", *typed)

    keeps_its_keys(need, NEED)
    assert need["source"] in SOURCES
    for role in need["roles"].values():
        keeps_its_keys(role, ROLE)
        assert role["source"] in SOURCES
        assert role["expected_m"] <= role["set_aside_m"]
    assert not nobody.file.exists()  # asking for a need begins no file


def test_the_sources_are_told_apart(nobody: Maker) -> None:
    assert nobody.ask("need", "--stated", "A=200yd")["source"] == "stated"
    assert nobody.ask("need", *ROUND_HAT, "--gauge", "17 sts x 13 rows")["source"] == "gauge"
    assert nobody.ask("need", *ROUND_HAT)["source"] == "thickness"


def test_a_margin_is_added_once_to_each_colour(nobody: Maker) -> None:
    roles = nobody.ask("need", "--stated", "A=200m", "--stated", "B=20m", "--margin", "15%")[
        "roles"
    ]

    assert roles["A"]["set_aside_m"] == pytest.approx(230)
    assert roles["B"]["set_aside_m"] == pytest.approx(23)


def test_a_margin_below_nine_in_ten_says_what_chance_it_leaves(nobody: Maker) -> None:
    # standard normal distribution: 2 % on a spread of 8 % is 0.25 spreads, 0.599 of it below
    said = nobody.does("need", "--stated", "A=200m", "--margin", "2%")

    assert "60%" in said.out
    assert "60%" in " ".join(nobody.ask("need", "--stated", "A=200m", "--margin", "2%")["notes"])


def test_a_need_as_csv_has_one_row_a_role(nobody: Maker) -> None:
    rows = nobody.does("need", "--stated", "A=200m", "--stated", "B=20m", "--as", "csv").rows

    assert [(row["role"], row["expected_m"]) for row in rows] == [("A", "200.0"), ("B", "20.0")]
    assert rows[0]["expected_g"] == ""


def test_a_need_is_shown_in_the_units_it_was_typed_in(nobody: Maker) -> None:
    assert "A about 200 yd (" in nobody.does("need", "--stated", "A=200yd").out
    assert "A about 200 m (" in nobody.does("need", "--stated", "A=200m").out


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("--stated", "A=200yd"), "from the figure you gave"),
        (("--weighed", "A=71g,B=9g", "--full", "100g/180m"), "from your finished ones"),
        (("--shape", "scarf", "--wide", "20cm", "--long", "150cm", "--swatch",
          "12g, 15cm x 14cm", "--full", "100g/180m"), "from a swatch"),
        ((*ROUND_HAT, "--gauge", "17 sts x 13 rows"), "from your gauge"),
        (ROUND_HAT, "rough: from typical "),
    ],
)  # fmt: skip
def test_each_colour_says_how_much_and_from_what(
    nobody: Maker, typed: tuple[str, ...], said: str
) -> None:
    line = nobody.does("need", *typed).out.splitlines()[0]

    assert re.match(r"A about \d+ \w+ \(± \d+\), set aside \d+ (m|yd)( = [\d.]+ (g|oz))?, ", line)
    assert said in line


@pytest.mark.parametrize("across", [80, 120])
def test_an_answer_at_a_terminal_fits_24_lines(
    nobody: Maker, monkeypatch: pytest.MonkeyPatch, across: int
) -> None:
    many = (
        "--extra", "pompom B 6cm", "--extra", "cord A 40cm x 2", "--extra", "flap A 9cm x 10cm x 2",
        "--brim", "5cm", "--size", "child 4 years", "--stated", "A=20m", "--margin", "1%",
        "--from", "crown", "--strands", "2",
    )  # fmt: skip
    hat = (*ROUND_HAT[:2], *ROUND_HAT[6:], *many)
    piped = nobody.does("need", *hat).out
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    monkeypatch.setattr(first_screen, "is_shown", lambda: True)
    monkeypatch.setenv("COLUMNS", str(across))

    shown = nobody.does("need", *hat).out

    assert len(wrapped(shown, across).splitlines()) <= 24 < len(piped.splitlines())
    for role in "AB":
        assert re.search(rf"^{role} about ", shown, re.MULTILINE)


def test_a_saved_design_is_said_first_and_shown_whole(nobody: Maker) -> None:
    said = nobody.does("design", "add", "Winter hat", *ROUND_HAT).out
    shown = nobody.does("design", "show", "Winter hat").out

    assert said.startswith("Saved the design Winter hat.\nA about ")
    assert "░" in shown
    assert said.splitlines()[1:] == shown.splitlines()[1:]
    listed = nobody.does("design", "list").out
    assert "░" not in listed
    assert "stash design show" in listed


def test_an_answer_in_us_units_has_no_metric_figure(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool DK, 50g/120m, navy")
    nobody.does("settings", "units", "us")

    for said in (
        nobody.does("need", *ROUND_HAT, "--full", "50g/120m", "--extra", "pompom B 6cm").out,
        nobody.does("reach", *ROUND_HAT, "--have", "A=100m", "--have", "B=30m").out,
        nobody.does("grade", *ROUND_HAT, "--sizes", "woman", "--brims", "none, 6cm").out,
    ):
        assert re.findall(r"[\d.]+ (?:m|cm|g)\b", said) == []


def test_designs_are_listed_with_their_needs(maker: Maker) -> None:
    (kept,) = maker.ask("design", "list")

    assert kept["design"] == "Hat"
    keeps_its_keys(kept["need"], NEED)
    assert maker.ask("design", "show", "hat") == kept
    assert [r["role"] for r in maker.does("design", "list", "--as", "csv").rows] == ["A", "B"]


def test_no_design_is_an_empty_list(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool 50g/120m")

    assert nobody.ask("design", "list") == []
    assert "stash design add" in nobody.does("design", "list").out


def test_what_is_not_typed_again_stays_in_a_design(maker: Maker) -> None:
    maker.does("design", "change", "hat", "--stated", "A=110m", "--name", "Cap")

    roles = maker.ask("need", "cap")["roles"]

    assert {name: role["expected_m"] for name, role in roles.items()} == {"A": 110, "B": 20}


def test_keeping_a_plan_is_one_entry_that_can_be_taken_back(maker: Maker) -> None:
    maker.does("design", "add", "Cowl", "--stated", "A=150m")
    maker.does("undo")

    assert [kept["design"] for kept in maker.ask("design", "list")] == ["Hat"]


CHILD = (
    "--shape", "round hat", "--size", "child 4 years", "--gauge", "20 sts x 28 rows",
    "--fabric", "stockinette", "--thickness", "4",
)  # fmt: skip


def test_extras_are_lines_of_their_own_and_counted_in(nobody: Maker) -> None:
    plain = nobody.ask("need", *CHILD)
    trimmed = nobody.ask("need", *CHILD, "--extra", "pompom B 6cm", "--extra", "cord A 40cm x 2")

    assert plain["lines"] == []
    for line in trimmed["lines"]:
        keeps_its_keys(line, {"what": WORDS, "role": WORDS, "expected_m": NUMBER, "source": WORDS})
    pompom, cord = trimmed["lines"]
    assert trimmed["roles"]["B"]["expected_m"] == pompom["expected_m"]
    more = trimmed["roles"]["A"]["expected_m"] - plain["roles"]["A"]["expected_m"]
    assert more == pytest.approx(cord["expected_m"])


def test_small_parts_for_a_child_are_cautioned_about(nobody: Maker) -> None:
    told = nobody.does("need", *CHILD, "--extra", "pompom B 6cm").out

    assert "B includes 13 m for pompom 6 cm" in told
    assert "small parts can choke, above all under 3" in told
    assert told.count("Check your local rules") == 1


def test_a_size_of_her_own_chart_gives_the_sides(maker: Maker) -> None:
    """50 sts are 10 in and 56 rows are 8 in at 20 by 28 over 4 in."""
    maker.does("settings", "size market m", "around 10in tall 8in")
    typed = ("--shape", "cowl", "--size", "Market M", *CHILD[4:])

    notes = maker.ask("need", *typed)["notes"]

    assert notes[:2] == [
        "25.5 cm around, 20.5 cm tall: 50 stitches by 56 rows",
        "Fits Market M.",
    ]
    assert "50 stitches by 70 rows" in maker.does("need", *typed, "--tall", "10in").out


def test_a_plan_keeps_its_size_brim_and_extras(maker: Maker) -> None:
    maker.does(
        "design", "add", "Cap", *CHILD, "--brim", "5cm", "--extra", "edging B", "--from", "crown"
    )
    maker.does("design", "change", "cap", "--size", "man")

    kept = maker.ask("design", "show", "cap")

    assert kept["need"]["lines"][0]["what"] == "edging"
    told = " ".join(kept["need"]["notes"])
    assert "Fits a man, head 57.4 cm, made 5% smaller to stretch" in told
    assert "5 cm of it folds up as a brim" in told
    assert "Begins at the crown" in told


@pytest.mark.parametrize(
    ("typed", "status", "way_out"),
    [
        (("--size", "enormous"), 2, "type woman"),
        (("--ease", "5%", "--size", "woman"), 2, "-5% (smaller) or +5% (roomier)"),
        (("--extra", "bobble B 3cm"), 2, "pompom B 6cm"),
        (("--from", "toe"), 4, "type --from brim or --from crown"),
        (("--from", "below"), 2, "type one of"),
        (("--count", "3"), 4, "leave out --count"),
        (("--brim", "40cm", "--tall", "22cm"), 4, "--tall includes the brim"),
    ],
)
def test_what_cannot_be_is_one_line_with_a_way_out(
    nobody: Maker, typed: tuple[str, ...], status: int, way_out: str
) -> None:
    words = CHILD if "--size" not in typed else (*CHILD[:2], *CHILD[4:])
    said = nobody("need", *words, *typed)

    assert (said.status, said.out) == (status, "")
    assert way_out in said.err
    assert len(said.err.splitlines()) == 1


def a_design(maker: Maker, name: str, *options: str) -> None:
    maker.does("design", "add", name, "--fabric", "1 hdc", "--thickness", "DK", *options)


WINTER = ("--shape", "sideways hat", "--around", "54cm", "--tall", "22cm")


@pytest.mark.parametrize(
    "typed",
    [("need",), ("match",), ("grade", "--sizes", "woman"), ("reach", "--have", "A=300m")],
    ids=lambda typed: typed[0],
)
def test_an_everyday_name_takes_the_one_design_that_fits(
    maker: Maker, typed: tuple[str, ...]
) -> None:
    a_design(maker, "Winter", *WINTER)
    a_design(maker, "Long one", "--shape", "scarf", "--wide", "20cm", "--long", "150cm")
    command, *options = typed

    beanie, named = (maker(command, name, *options) for name in ("beanie", "Winter"))

    assert beanie.status == 0, beanie.err
    assert beanie.err.splitlines()[0] == "design: Winter"
    assert beanie.out == named.out


def test_of_several_that_fit_the_one_so_called_is_taken_else_it_is_asked(maker: Maker) -> None:
    a_design(maker, "Winter", *WINTER)
    a_design(maker, "Day", "--shape", "round hat", "--around", "54cm", "--tall", "22cm")
    refused_in_one_line(maker("need", "beanie"), 2, "Day", "Winter")

    a_design(maker, "Slouchy beanie", "--shape", "round hat", "--size", "woman")
    assert "Slouchy beanie" in maker.does("need", "beanie").err


def test_an_everyday_name_of_somebodys_takes_the_design_for_them(maker: Maker) -> None:
    a_design(maker, "Big", "--shape", "round hat", "--size", "woman")
    a_design(maker, "Wee", "--shape", "round hat", "--size", "baby 6 months")

    assert "Wee" in maker.does("need", "baby hat").err
    assert "Big" in maker.does("need", "ladies' hat").err


def test_a_name_that_says_more_than_a_shape_is_not_just_any_such_design(maker: Maker) -> None:
    a_design(maker, "Sun", "--shape", "round hat", "--size", "woman")

    refused_in_one_line(maker("aside", "Winter hat", "1"), 3, "Winter hat", "Hat")
    refused_in_one_line(maker("need", "hooded hat"), 3, "hooded hat")


def test_an_everyday_name_that_no_design_fits_says_what_to_type(maker: Maker) -> None:
    said = maker("need", "gloves")

    refused_in_one_line(said, 3, "gloves", "Hat", "stash design add", '--shape "mitten"')


@pytest.mark.parametrize("shape", Shape)
def test_what_is_to_be_typed_for_a_shape_can_be_typed(nobody: Maker, shape: Shape) -> None:
    said = nobody("need", shape.value)

    refused_in_one_line(said, 3, shape.value)
    (line,) = re.findall("`stash need (.*?)`", said.err)
    nobody.does("need", *shlex.split(line))


def test_a_shape_that_is_only_near_says_why_beside_the_answer(nobody: Maker) -> None:
    gloves = nobody.does(
        "need", "--shape", "gloves", "--size", "woman", "--fabric", "1 sc", "--thickness", "DK"
    )

    assert gloves.err == (
        "note: gloves: a mitten is the nearest; fingers are not counted, so allow a little more\n"
    )
    assert "woman" in gloves.out


def test_a_size_that_may_be_several_is_asked_with_each_as_to_type_it(nobody: Maker) -> None:
    hat = ("need", "--shape", "beanie", "--fabric", "1 hdc", "--thickness", "DK", "--size")

    said = nobody(*hat, "toddler")

    refused_in_one_line(said, 2, "toddler 2 years")
    assert nobody(*hat, "toddler 2 years").status == 0


def test_leg_warmers_are_two_tubes(nobody: Maker) -> None:
    plan = ("--around", "30cm", "--tall", "35cm", "--fabric", "1 hdc", "--thickness", "DK")
    one = nobody.ask("need", "--shape", "leg warmers", *plan)
    pair = nobody.ask("need", "--shape", "leg warmers", *plan, "--count", "2")

    assert pair["roles"]["A"]["expected_m"] == pytest.approx(2 * one["roles"]["A"]["expected_m"])


def test_what_is_worn_elsewhere_takes_no_size_of_a_head(nobody: Maker) -> None:
    said = nobody("need", "--shape", "leg warmers", "--size", "woman", "--fabric", "1 hdc")

    refused_in_one_line(said, 4, "leg warmers", "--around and --tall")
