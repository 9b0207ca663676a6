"""The words for what was typed and cannot be read; what was read, and what is in doubt."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from stash.errors import BadInput, BadPlan, BadSheet, FileTrouble, NotFound, Refusal, Unreadable
from stash.measures.length import metres
from stash.measures.mass import grams, ounces
from stash.measures.money import Money
from stash.measures.note import Note
from stash.rendering.sentences.say import sentence
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import Shape
from stash.stock.yarn import Condition


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (
            Unreadable("12", "no_weight", units=("g", "oz")),
            "cannot read '12' as a weight: add the unit, g or oz",
        ),
        (
            Unreadable("A=1 B=2", "several_roles", option="--fix", parts=("A=1", "B=2 m")),
            (
                "cannot read 'A=1 B=2' as one colour of the design: name one colour "
                "at a time, as in --fix A=1 --fix 'B=2 m'"
            ),
        ),
        (
            BadInput("no_role_and_value", typed="12m", option="--need"),
            ("cannot read '12m' after --need: write a colour letter and what it takes, as in A=…"),
        ),
        (BadInput("role_named_twice", role="A", option="--need"), "--need names A twice; keep one"),
        (
            BadInput("no_role_of_strands", typed="E"),
            ("cannot read 'E' after --strands-apart: name a colour, as in A"),
        ),
        (
            Unreadable(".99", "sign_taken_by_the_shell", figure=".99"),
            (
                "cannot read '.99' as an amount of money: was there a $ sign? "
                "Put it in single quotes, '$2.99', or write 2.99 USD; for less "
                "than one write 0.99"
            ),
        ),
        (
            Unreadable("hdcc", "no_stitch", stitch="hdcc", nearest=("dc", "hdc")),
            "cannot read 'hdcc' as a fabric: no stitch 'hdcc'; did you mean dc or hdc?",
        ),
        (
            Unreadable("zz", "no_stitch", stitch="zz", nearest=()),
            "cannot read 'zz' as a fabric: no stitch 'zz'; type it like "
            "stockinette, 2x2 rib, 1 hdc, 2 sl st blo, or (sc, ch 1) in one row",
        ),
        (
            Unreadable("sc", "us_name", stitch="sc"),
            "cannot read 'sc' as a fabric in UK terms: 'sc' is a US name; type --terms us",
        ),
        (
            Unreadable("cord A", "extra_of_nothing", extra=Kind.CORD),
            "cannot read 'cord A' as an extra: type it like cord A 40cm x 2, all above 0",
        ),
        (
            Unreadable("A", "no_amount_by_role", measure="weight"),
            "cannot read 'A' as a weight per colour: type it like A=71g,B=9g, for A, B, C or D",
        ),
        (
            Unreadable("woman", "size_in_other_sides", shape=Shape.SCARF),
            "cannot read 'woman' as a size: the sides of a scarf are wide x long, as in "
            "20cm x 150cm",
        ),
        (
            Unreadable("3 + 2", "lots_with_counts", lots=(("3", "4a"), ("2", "5b"))),
            "cannot read '3 + 2' as one line of yarn: write one line for each lot: "
            "`… x3, lot 4a` and `… x2, lot 5b`",
        ),
        (
            Unreadable("shade", "column_mapped_twice", column="colour", heading="hue"),
            ("cannot read 'shade' as colour: 'hue' is mapped to it already; keep one"),
        ),
        (
            Refusal("sides_wanted", shape=Shape.SOCK, missing=("tall", "long")),
            (
                "--tall and --long needed; a sock is measured by --around, --tall "
                "and --long, and nothing else"
            ),
        ),
        (
            BadInput("left_counted_otherwise", in_stitches=True),
            ("your weighings count stitches, so what is left must too: --stitches-left 36"),
        ),
        (
            BadInput(
                "several_wrong",
                errors=(Unreadable("a", "no_number"), Unreadable("b", "no_ease")),
            ),
            "cannot read 'a' as a number: write it like 1.5 or 1 1/2; "
            "cannot read 'b' as ease: type it like -5% or -3cm",
        ),
        (
            BadPlan(
                "m.toml",
                (
                    Note("found_in_plan", place=0, key="", what=Note("not_toml", said="no end")),
                    Note(
                        "found_in_plan",
                        place=7,
                        key="at_most",
                        what=Note("most_below_least", most=2, least=4),
                    ),
                ),
            ),
            ("m.toml: its end: not TOML (no end); line 7: at_most: 2 is less than at_least 4"),
        ),
        (
            BadSheet("s.csv", (Note("one"),)),
            (
                "s.csv: nothing was imported, 1 row cannot be read; fix them, or "
                "import the others with --good-rows"
            ),
        ),
        (
            FileTrouble("s.csv", "sheet_too_large", what=Note("row_too_long", line=3, most=256)),
            (
                "s.csv: too large for a sheet of yarn: row 3 has more than 256 "
                "cells; import a part of it"
            ),
        ),
        (
            Refusal("bought_since", opening=date(2026, 1, 1), rows=(2, 3, 4, 5, 6, 7)),
            (
                "row 2, 3, 4, 5, 6 and more: bought on or after 2026-01-01, so not "
                "on your shelf that morning; put those in a sheet of their own, or "
                "leave --opening out"
            ),
        ),
        (
            NotFound("drawback", "x", ["weight join"]),
            "no ranking called 'x'; try weight join",
        ),
    ],
)
def test_what_cannot_be_read_is_one_line_with_a_way_out(error: BadInput, words: str) -> None:
    assert sentence(error) == words


@pytest.mark.parametrize(
    ("note", "words"),
    [
        (Note("read_weight", amount=grams(50), unit="g", about=True), "weight about 50 g"),
        (
            Note("read_weight", amount=ounces(Fraction(7, 2)), unit="oz", about=False),
            "weight 3.5 oz",
        ),
        (Note("read_length", amount=metres(120), unit="m", about=False), "length 120 m"),
        (Note("read_thickness", classes=(3, 4)), "thickness DK to worsted (3-4)"),
        (Note("read_count", count=3, opened=(), about=True), "count 3"),
        (
            Note("read_count", count=3, opened=(grams(20), grams(10)), about=True),
            "count 3, with about 20 g, about 10 g left of the opened",
        ),
        (Note("read_left", amount=grams(43), about=False), "left 43 g"),
        (Note("read_paid", paid=Money(1200), currency="GBP"), "paid £12.00 in all"),
        (Note("read_bought", day=date(2024, 1, 12)), "bought 2024-01-12"),
        (
            Note("read_condition", condition=Condition.PETS, words="cat hair"),
            "condition pets (cat hair)",
        ),
        (Note("read_kept", field="gauge", words="22 sts"), "gauge 22 sts"),
        (
            Note("rounded_ounces", mass=ounces(Fraction(7, 2)), likely_g=100),
            "3.5 oz may be a rounded 100 g; kept as typed",
        ),
        (
            Note("odd_blend", percent=Fraction(195, 2)),
            "the blend adds up to 97.5%; check the label",
        ),
        (
            Note("gross_weight", gross=grams(27), tool=""),
            ("27 g includes what it was weighed in; weigh that and add it, as --tare 12g"),
        ),
        (
            Note("two_colours", colours=("red", "blue"), numbers=("12", "21")),
            "two colours, red 12 and blue 21: check the label",
        ),
        (
            Note("thickness_in_name_differs", classes=(0, 0)),
            "the name says lace (0); the label's own thickness is kept",
        ),
        (Note("odd_hook", label="H/8", mm=5.0), "H/8 is usually 5 mm (H-8); kept as written"),
    ],
)
def test_what_a_label_says_is_told_field_by_field(note: Note, words: str) -> None:
    assert sentence(note) == words


def test_no_kind_has_two_sentences() -> None:
    from stash.rendering.sentences import labels, sheets, typed
    from stash.rendering.sentences.unreadable import UNREADABLE

    tables = [UNREADABLE, labels.SENTENCES, sheets.SENTENCES, typed.SENTENCES]

    assert len({kind for table in tables for kind in table}) == sum(map(len, tables))
