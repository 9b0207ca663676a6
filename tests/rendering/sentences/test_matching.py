"""The words for reasons, blockers and fixes of the matcher."""

from __future__ import annotations

import pytest
from requirements.some_designs import cm
from shelves import a_lot, put_up

from stash.matching.answer.fix import EACH_LOT, Fix
from stash.matching.answer.reason import Reason
from stash.matching.lots.lot_view import Thickness
from stash.matching.question.wish import Contrast, Gap
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.colour_pairs import Hues
from stash.measures.length import metres
from stash.measures.note import Note
from stash.rendering.sentences.fixes import fixes_in_words
from stash.rendering.sentences.say import plain_facts, sentence
from stash.requirements.design.shapes import Shape
from stash.requirements.fit.splitting import Way
from stash.stock.yarn import LotState

NAVY = a_lot(1, (100,), colour="navy").lot
RUST = a_lot(2, (100,), colour="rust", lot="", lot_state=LotState.UNKNOWN).lot
SHORT = {
    "role": "A", "lot": NAVY, "has": metres(100), "needs": metres(112), "short": metres(12),
    "short_g": None, "short_rows": None,
}  # fmt: skip


@pytest.mark.parametrize(
    ("note", "words"),
    [
        (Reason("stays_free", 0, left=metres(12)), "12 m left"),
        (
            Reason("thickness_away", 1, thickness=Thickness(4, 5), steps=1),
            "worsted to chunky (4-5), 1 step from what you asked for",
        ),
        (
            Reason("thicknesses_differ", 1, classes=(Thickness(4, 4, derived=True), None)),
            "about worsted (4) with thickness not known",
        ),
        (
            Reason("lightness_apart", 0, gap=27.4, contrast=Contrast.CLEAR, colours=3),
            "clear contrast",
        ),
        (
            Reason("lightness_apart", 0, gap=2.0, contrast=None, colours=2),
            "close in lightness",
        ),
        (Note("hues", hues=Hues.CLOSE, pair=(NAVY, RUST)), "navy and rust: close in colour"),
        (
            Note("colours_by_name", lots=(NAVY, RUST), all=True),
            "Colours here come from names or a screen; compare the yarn in daylight.",
        ),
        (Reason("lot_to_compare", 1, lot=RUST), "L2: lot not known, compare in daylight"),
    ],
)
def test_a_reason_in_words(note: Note, words: str) -> None:
    assert sentence(note) == words


@pytest.mark.parametrize(
    ("note", "words"),
    [
        (Note("lot_short", **SHORT), "A: L1 (navy) has 100 m, 12 m short"),
        (
            Note("lot_short", **{**SHORT, "short_g": 6.04, "short_rows": 1}),
            "A: L1 (navy) has 100 m, 12 m short (6.1 g or 1 row)",
        ),
        (
            Note("lot_short", **{**SHORT, "expected": metres(120), "promised": metres(12)}),
            "A: L1 (navy) has the 120 m expected, but for the whole margin it is 12 m short; "
            "12 m more is set aside for other items",
        ),
        (
            Note("lot_short", **{**SHORT, "expected": metres(120), "printed": True}),
            "A: L1 (navy) has the 120 m you gave, but for the whole margin it is 12 m short",
        ),
        (
            Note("lot_without_colour", role="A", lot=NAVY, contrast=Gap(20, 40)),
            "A: L1 (navy) has no known colour, so a gap of 20-40 in lightness cannot be checked",
        ),
        (
            Note("lot_of_wrong_colour", role="A", lot=NAVY, wanted=("teal", "rust"),
                 unwanted=("grey", "blue")),
            "A: L1 is navy; you asked for teal or rust, not grey or blue",
        ),
        (
            Note("lot_barred", role="A", lot=NAVY, whys=("lies in the attic", "belongs to Nell")),
            "A: L1 (navy) lies in the attic and belongs to Nell",
        ),
        (
            Note("limits_keep_out", role="A",
                 lots=((Blocker.WRONG_FIBRE, 1), (Blocker.NOT_FOR_HEAT, 3))),
            "A: 1 lot left out by --without, 3 lots not for a hot wash",
        ),
        (
            Note("wrong_gap", gap=29.2, is_now=None, contrast=None, least=30.0, most=45.5),
            "they are 29 apart in lightness, you asked for 30 to 45.5",
        ),
        (
            Note("wrong_gap", gap=18.0, is_now=Contrast.SOFT, contrast=Contrast.BOLD, least=40.0,
                 most=None),
            "their contrast is soft, you asked for bold",
        ),
        (
            Note("wrong_gap", gap=2.0, is_now=None, contrast=Contrast.CLEAR, least=25.0, most=None),
            "they are close in lightness, you asked for clear",
        ),
        (
            Note("wrong_gap", gap=20.0, is_now=None, contrast=Contrast.SOFT, least=12.0, most=25.0),
            "some of their colours are further apart than others, you asked for soft",
        ),
        (
            Note("no_such_proposal", which="7", last=2, blockers=()),
            "no set 7 today: the last is 2; "
            "`stash match` shows the sets you have",
        ),
    ],
)  # fmt: skip
def test_a_blocker_in_words(note: Note, words: str) -> None:
    assert sentence(note) == words


@pytest.mark.parametrize(
    ("fix", "words"),
    [
        (
            Fix("lower_margin", margin=0.07, chance=0.6449),
            "use a margin of 7% (64% sure to be enough)",
        ),
        (
            Fix("margin_by_skeins", skeins=(("A", (3, 4)), ("B", (7,)))),
            "set it aside by its skeins, without a margin: --skeins A=3,4 --skeins B=7",
        ),
        (
            Fix("second_lot", role="A", lot=RUST, way=Way.ALTERNATE, place="in turn", beside=NAVY),
            "use L2 of the same colour too, in alternating rows: --with A=L1/L2 "
            "--two-lots A=alternate",
        ),
        (
            Fix("second_lot", role="A", lot=RUST, way=Way.CHANGE, place="under the fold",
                beside=None),
            "use L2 of the same colour too, with the change under the fold: --two-lots A=change",
        ),
        (
            Fix("more_skeins", count=2, lot=NAVY, put_up=put_up(50, 100)),
            "buy 2 more skeins of L1 (50 g / 100 m), lot 7",
        ),
        (
            Fix("give_length", thickness=Thickness(4, 4)),
            "look up its length on the band, or weigh a length you measured, "
            "or --assume the usual length for worsted (4)",
        ),
        (
            Fix("narrower_bands", role="B", widths=(cm(2), cm(1.5)), counts=(4, 3),
                planned_widths=(cm(3), cm(2)), planned_counts=(6, 4), unit="rows"),
            "make the bands of B 2 and 1.5 cm (4 and 3 rows) instead of 3 and 2 cm (6 and 4)",
        ),
        (
            Fix("narrower_bands", role="B", widths=(cm(0.5),), counts=(1,),
                planned_widths=(cm(1),), planned_counts=(2,), unit="rows"),
            "make the band 0.5 cm (1 row) instead of 1 cm (2)",
        ),
        (Fix("no_brim", brim=cm(6)), "leave out the fold-up brim of 6 cm"),
        (
            Fix("top_in_other_colour", shape=Shape.ROUND_HAT, role="B", count=6, unit="rows",
                above=cm(15), upright=False, lot=RUST),
            "work from 15 cm to the top in B (6 rows), with L2 (rust) as B",
        ),
        (
            Fix("one_colour_more", shape=None, role="C", count=1, unit="stitches", above=cm(8),
                upright=False, lot=RUST, colours=3),
            "add a third colour: 1 stitch in each row of C in L2 (rust), 8 cm up",
        ),
        (
            Fix("shorter", side="tall", length=cm(19), planned=cm(21), fewer=5, unit="rows",
            ),
            "make it 19 cm tall instead of 21 cm (5 rows fewer)",
        ),
        (
            Fix("smaller", sides=("around", "tall"), lengths=(cm(51), cm(19)),
                planned=(cm(56), cm(21))),
            "make it 51 cm around and 19 cm tall instead of 56 and 21 cm",
        ),
    ],
)  # fmt: skip
def test_a_fix_in_words(fix: Fix, words: str) -> None:
    assert sentence(fix) == words


def test_of_many_fixes_three_and_what_is_to_be_bought_are_said() -> None:
    bought = Fix("more_skeins", count=1, lot=NAVY, put_up=put_up(50, 100))
    many = [Fix("other_contrast", contrast=one) for one in Contrast][:4]

    assert fixes_in_words([*many, Fix(EACH_LOT, fixes=(bought, bought))]) == (
        "try --contrast bold, or try --contrast clear, or try --contrast soft, "
        "or buy 1 more skein of L1 (50 g / 100 m), lot 7 and "
        "buy 1 more skein of L1 (50 g / 100 m), lot 7"
    )


def test_where_each_role_lacks_something_all_of_it_is_said() -> None:
    one = Fix("one_of", fixes=(Fix("any_contrast"), Fix("another_lot")))
    roles = (
        Fix("for_role", role="A", fixes=(one, Fix("give_thickness"))),
        Fix("name_another", role="B"),
    )

    assert sentence(Fix("all_of", fixes=roles)) == (
        "A: try --contrast any, or use another lot; and add its --thickness or what the band says, "
        "or weigh a length you measured; choose another yarn for B"
    )


def test_facts_for_scripts_have_the_unit_in_the_name() -> None:
    fix = Fix("release_promised", promised=metres(120), lot=NAVY)

    assert plain_facts(Note("of", fix=fix, classes=(Thickness(3, 4), None), way=Way.BRIM)) == {
        "kind": "of",
        "words": "of",
        "fix": {
            "kind": "release_promised",
            "words": "release the 120 m of L1 set aside for other items",
            "promised_m": 120.0,
            "lot": "L1",
        },
        "classes": [{"low": 3, "high": 4, "derived": False}, None],
        "way": "brim",
    }


def test_what_several_lots_are_enough_for_is_said_once() -> None:
    smaller = [
        Fix("covers_part", role=role, covered=metres(m)) for role, m in (("A", 80), ("B", 9))
    ]

    said = sentence(Fix(EACH_LOT, fixes=tuple(smaller)))

    assert said == "make something smaller: there is enough for 80 m of A and 9 m of B"
