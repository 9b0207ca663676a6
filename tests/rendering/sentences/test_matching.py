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
    "role": "A", "lot": NAVY, "short": metres(12), "short_g": None, "short_rows": None,
}  # fmt: skip


# 1 yd is 0.9144 m exactly (NIST SP 811): 12 m is 13.1 yd, 120 m 131 yd.
@pytest.mark.parametrize(
    ("note", "words"),
    [
        (Reason("stays_free", 0, left=metres(12)), "12 m (13 yd) of this lot stay free"),
        (
            Reason("thickness_away", 1, thickness=Thickness(4, 5), steps=1),
            "class 4 to 5, 1 step from the class asked for",
        ),
        (
            Reason("thicknesses_differ", 1, classes=(Thickness(4, 4, derived=True), None)),
            "class about 4 beside class not known",
        ),
        (
            Reason("lightness_apart", 0, gap=27.4, contrast=Contrast.CLEAR, colours=3),
            "27 apart in lightness at least: clear",
        ),
        (
            Reason("lightness_apart", 0, gap=2.0, contrast=None, colours=2),
            "2 apart in lightness: close",
        ),
        (Note("hues", hues=Hues.CLOSE, pair=(NAVY, RUST)), "navy and rust: close in hue"),
        (
            Note("colours_by_name", lots=(NAVY, RUST), all=True),
            "colours by screen or name: compare in daylight",
        ),
        (Reason("lot_to_compare", 1, lot=RUST), "L2: lot not known, compare in daylight"),
    ],
)
def test_a_reason_in_words(note: Note, words: str) -> None:
    assert sentence(note) == words


@pytest.mark.parametrize(
    ("note", "words"),
    [
        (Note("lot_short", **SHORT), "A: L1 is short by 12 m (13 yd)"),
        (
            Note("lot_short", **{**SHORT, "short_g": 6.04, "short_rows": 1}),
            "A: L1 is short by 12 m (13 yd), 6 g or 1 row",
        ),
        (
            Note("lot_short", **{**SHORT, "expected": metres(120), "promised": metres(12)}),
            "A: L1 holds the 120 m (131 yd) expected, the margin alone is short by 12 m (13 yd); "
            "12 m (13 yd) more is promised",
        ),
        (
            Note("lot_short", **{**SHORT, "expected": metres(120), "printed": True}),
            "A: L1 holds what the pattern asks for: its own 120 m (131 yd) lies between expected "
            "and set aside, and the margin alone is short by 12 m (13 yd)",
        ),
        (
            Note("lot_without_colour", role="A", lot=NAVY, contrast=Gap(20, 40)),
            "A: L1 has no known colour, and a gap of 20-40 asks for one",
        ),
        (
            Note("lot_of_wrong_colour", role="A", lot=NAVY, wanted=("teal", "rust"),
                 unwanted=("grey", "blue")),
            "A: L1 is navy, and teal or rust is asked for, not grey nor blue",
        ),
        (
            Note("lot_barred", role="A", lot=NAVY, whys=("lies in the attic", "belongs to Nell")),
            "A: L1 lies in the attic and belongs to Nell",
        ),
        (
            Note("limits_keep_out", role="A",
                 lots=((Blocker.WRONG_FIBRE, 1), (Blocker.NOT_FOR_HEAT, 3))),
            "A: 1 lot kept out by --without, 3 lots not for a hot wash",
        ),
        (
            Note("wrong_gap", gap=29.2, contrast=None, least=30.0, most=45.5),
            "they are 29 apart in lightness, 30 to 45.5 is asked for",
        ),
        (
            Note("no_such_proposal", which="7", last=2, blockers=()),
            "there is no proposal 7 on the shelf as it is now: the last is 2; "
            "ask `stash match` again",
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
            "lower the margin to 7 % (enough with a chance of 64 %)",
        ),
        (
            Fix("margin_by_skeins", skeins=(("A", (3, 4)), ("B", (7,)))),
            "set it aside without a margin, by its skeins: --skeins A=3,4 --skeins B=7",
        ),
        (
            Fix("second_lot", role="A", lot=RUST, way=Way.ALTERNATE, place="in turn", beside=NAVY),
            "L2 of the same colour in alternating rows: ask with --with A=L1/L2 "
            "--two-lots A=alternate",
        ),
        (
            Fix("second_lot", role="A", lot=RUST, way=Way.CHANGE, place="under the fold",
                beside=None),
            "L2 of the same colour with a change under the fold: ask with --two-lots A=change",
        ),
        (
            Fix("more_skeins", count=2, lot=NAVY, put_up=put_up(50, 100)),
            "2 more skeins of L1 (50 g / 100 m), lot 7",
        ),
        (
            Fix("give_length", thickness=Thickness(4, 4)),
            "give the band or measure a metre, or assume the usual length of class 4",
        ),
        (
            Fix("narrower_bands", role="B", widths=(cm(2), cm(1.5)), counts=(4, 3),
                planned_widths=(cm(3), cm(2)), planned_counts=(6, 4), unit="rows"),
            "bands of B of 2 and 1.5 cm (4 and 3 rows) instead of 3 and 2 cm (6 and 4)",
        ),
        (
            Fix("narrower_bands", role="B", widths=(cm(0.5),), counts=(1,),
                planned_widths=(cm(1),), planned_counts=(2,), unit="rows"),
            "a band of 0.5 cm (1 row) instead of 1 cm (2)",
        ),
        (Fix("no_brim", brim=cm(6)), "without the fold-up brim of 2.4 in"),  # 6 / 2.54
        (
            Fix("top_in_other_colour", shape=Shape.ROUND_HAT, role="B", count=6, unit="rows",
                above=cm(15), upright=False, lot=RUST),
            "the crown in B from 15 cm up (6 rows), with L2 (rust) as B",
        ),
        (
            Fix("one_colour_more", shape=None, role="C", count=1, unit="stitches", above=cm(8),
                upright=False, lot=RUST, colours=3),
            "a third colour: 1 stitch in each row of C from L2 (rust), 8 cm up",
        ),
        (
            Fix("shorter", side="tall", length=cm(19), planned=cm(21), fewer=5, unit="rows",
            ),
            "19 cm tall instead of 21 cm (5 rows fewer)",
        ),
        (
            Fix("smaller", sides=("around", "tall"), lengths=(cm(51), cm(19)),
                planned=(cm(56), cm(21))),
            "51 cm around and 19 cm tall instead of 56 and 21 cm",
        ),
    ],
)  # fmt: skip
def test_a_fix_in_words(fix: Fix, words: str) -> None:
    assert sentence(fix) == words


def test_of_many_fixes_three_and_what_is_to_be_bought_are_said() -> None:
    bought = Fix("more_skeins", count=1, lot=NAVY, put_up=put_up(50, 100))
    many = [Fix("allow_steps", steps=n) for n in (1, 2, 3, 4)]

    assert fixes_in_words([*many, Fix(EACH_LOT, fixes=(bought, bought))]) == (
        "allow a class tolerance of 1, or allow a class tolerance of 2, or allow a class tolerance "
        "of 3, or 1 more skein of L1 (50 g / 100 m), lot 7 and "
        "1 more skein of L1 (50 g / 100 m), lot 7"
    )


def test_where_each_role_lacks_something_all_of_it_is_said() -> None:
    one = Fix("one_of", fixes=(Fix("any_contrast"), Fix("another_lot")))
    roles = (
        Fix("for_role", role="A", fixes=(one, Fix("give_thickness"))),
        Fix("name_another", role="B"),
    )

    assert sentence(Fix("all_of", fixes=roles)) == (
        "A: ask for any contrast, or another lot; and give the class, the band, or measure a metre"
        "; B: name another"
    )


def test_facts_for_scripts_have_the_unit_in_the_name() -> None:
    fix = Fix("release_promised", promised=metres(120), lot=NAVY)

    assert plain_facts(Note("of", fix=fix, classes=(Thickness(3, 4), None), way=Way.BRIM)) == {
        "kind": "of",
        "words": "of",
        "fix": {
            "kind": "release_promised",
            "words": "release what is promised, 120 m (130 yd) of L1",
            "promised_m": 120.0,
            "lot": "L1",
        },
        "classes": [{"low": 3, "high": 4, "derived": False}, None],
        "way": "brim",
    }
