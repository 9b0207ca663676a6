"""What the lines of a plan mean."""

from __future__ import annotations

from datetime import date

import pytest

from stash.errors import BadInput, BadPlan, Unreadable
from stash.matching.question.wish import Contrast
from stash.parsing.batch.lines import beside, plan_lines, want_typed
from stash.parsing.batch.plan import PlanRead, Surroundings, aims, item_count, percent, plan_read
from stash.parsing.design.design import DesignWords, design
from stash.planning.model.batch import MixWanted
from stash.planning.model.problem import Aim
from stash.requirements.design.design import Design

TODAY = date(2026, 3, 1)


def a_hat(name: str) -> Design:
    words = {"shape": "round hat", "around": "54cm", "tall": "22cm"}
    return design(
        DesignWords(name=name, gauge="17 sts x 13 rows", fabric="1 hdc", thickness="3", **words)
    )


AROUND = Surroundings(a_hat, lambda name: None, "EUR", TODAY)


def read(text: str, aim: str = "") -> PlanRead:
    return plan_read(plan_lines("m.toml", text.encode()), aim, AROUND)


def test_a_want_with_everything() -> None:
    (want,) = read(
        "[[want]]\npiece='Hat'\nsize='woman'\nbrim='5cm'\nat_least=2\nat_most=6\nprice='€24.50'\n"
        "hours=2.25\ncolour='A=blue, teal, B=cream'\nnot_colour='red'\ncontrast='bold'"
    ).wants

    assert (want.design, want.size, want.at_least, want.at_most) == ("Hat", "woman, 5cm", 2, 6)
    assert (want.coins, want.minutes, want.contrast) == (2450, 135, Contrast.BOLD)
    assert {role: [n.word for n in named] for role, named in want.wanted.items()} == {
        "A": ["blue", "teal"],
        "B": ["cream"],
    }
    assert [n.word for n in want.unwanted[""]] == ["red"]
    assert want.run is not None
    assert [size.words for size in want.run.sizes] == ["woman"]
    assert [brim and brim.m for brim in want.run.brims] == [0.05]


def test_without_size_or_option_it_stays_as_planned() -> None:
    (want,) = read("[[want]]\npiece='Hat'").wants

    assert (want.run, want.size, want.at_least, want.at_most, want.coins) == (None, "", 0, None, 0)


def test_an_option_alone_keeps_the_planned_size() -> None:
    (want,) = read("[[want]]\npiece='Hat'\nbrim='none'").wants

    assert want.run is not None
    assert [(size.whom, dict(size.sides)) for size in want.run.sizes] == [(None, {})]
    assert want.run.brims == (None,)


def test_limits_and_mixes() -> None:
    found = read(
        "[[want]]\npiece='Hat'\nvalue=20\n[[mix]]\nfamily='blue'\nat_least='20%'\nat_most='50%'\n"
        "[[mix]]\npiece='hat'\nat_most=4\n"
        "[limits]\nhours=20\nper_pair=2\nhold_back='10%'\nkeep_out=['L3','12']\ndate=2026-05-30"
    )

    terms = found.terms
    assert (terms.minutes, terms.per_pair, terms.hold_back) == (1200, 2, 10)
    assert terms.mixes == (
        MixWanted(family="blue", at_least=20, at_most=50, share=True),
        MixWanted(design="hat", at_most=4),
    )
    assert (terms.by, found.kept_out) == (date(2026, 5, 30), ("L3", "12"))


def test_hours_a_week_until_the_day() -> None:
    """Two weeks from the first to the fifteenth of March."""
    text = "[[want]]\npiece='Hat'\n[limits]\nhours_a_week=7.5\ndate='2026-03-15'"

    assert read(text).terms.minutes == 900


@pytest.mark.parametrize(
    ("text", "valued", "found"),
    [
        ("", True, (Aim.VALUE,)),
        ("", False, (Aim.ITEMS,)),
        ("leftovers, Value", True, (Aim.LEFTOVERS, Aim.VALUE)),
        ("buying,buying", False, (Aim.BUYING,)),
        ("profit, leftovers", True, (Aim.PROFIT, Aim.LEFTOVERS)),
    ],
)
def test_aims_in_their_order(text: str, valued: bool, found: tuple[Aim, ...]) -> None:
    assert aims(text, valued) == found


def test_an_aim_that_is_none_or_lacks_its_figures() -> None:
    with pytest.raises(Unreadable) as refused:
        aims("glory", True)
    assert refused.value.kind == "no_aim"
    assert refused.value.facts["choices"] == tuple(Aim)
    for without in ("value", "items, profit"):
        with pytest.raises(BadInput) as refused:
            aims(without, False)
        assert refused.value.kind == "aim_without_values"


def test_everything_that_cannot_be_read_is_named_by_its_line() -> None:
    with pytest.raises(BadPlan) as refused:
        read(
            "[[want]]\npiece='Hat'\nat_least='many'\nvalue='dear'\n[[want]]\nat_most=3\n"
            "[[want]]\npiece='Cap'\nsize='huge'\nat_least=4\nat_most=2\n[[mix]]\nfamily='beige'\n"
            "[limits]\nhours='long'\nper_pair=1.5\ndate='soon'"
        )

    lines = [found.facts["place"] for found in refused.value.findings]
    assert lines == [3, 4, 5, 9, 11, 12, 13, 15, 16, 17]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("[[want]]\npiece='Hat'\nsize='woman, man'", "several_choices"),
        ("[[want]]\npiece='Hat'\n[[mix]]\npiece='Sock'\nat_most=1", "mix_of_nothing_wanted"),
        (
            "[[want]]\npiece='Hat'\n[[mix]]\npiece='Hat'\nat_least=1\nat_most='9%'",
            "counts_and_shares",
        ),
        ("[[want]]\npiece='Hat'\n[limits]\nhours_a_week=3", "hours_until_when"),
        ("[[want]]\npiece='Hat'\n[limits]\ndate=2026-02-01", "day_gone_by"),
        ("[[want]]\npiece='Hat'\nat_most=99999", "no_count_of_items"),
    ],
)
def test_what_does_not_go_together_is_found(text: str, kind: str) -> None:
    with pytest.raises(BadPlan) as refused:
        read(text)

    assert kind in [found.facts["what"].kind for found in refused.value.findings]


def test_a_plan_wants_something() -> None:
    with pytest.raises(BadInput) as refused:
        read("[limits]\nhours=3")

    assert refused.value.kind == "nothing_wanted"


def test_wants_typed_as_options() -> None:
    lines = beside(plan_lines("m.csv", b"design\nHat"), [want_typed("Cap=2-3 at 12 in 1h")], {})

    _, cap = plan_read(lines, "items", AROUND).wants

    assert (cap.design, cap.at_least, cap.at_most, cap.coins, cap.minutes) == (
        "Cap",
        2,
        3,
        1200,
        60,
    )


@pytest.mark.parametrize("text", ["-1", "2.5", "10001"])
def test_a_count_is_whole(text: str) -> None:
    with pytest.raises(Unreadable):
        item_count(text)


def test_a_share_is_whole_percent() -> None:
    assert percent("20%") == percent("20") == 20
    with pytest.raises(Unreadable):
        percent("120%")


def test_contrast_of_a_plan_is_for_all_its_wants() -> None:
    assert read('[[want]]\npiece = "hat"\n[limits]\ncontrast = "clear"').contrast is Contrast.CLEAR
    assert read('[[want]]\npiece = "hat"').contrast is None
