"""A plan as it is written; what cannot be read is named by its line."""

from __future__ import annotations

import pytest

from stash.errors import BadPlan, Unreadable
from stash.measures.note import Note
from stash.parsing.batch.lines import Line, beside, plan_lines, want_typed

MARKET = b"""
aim = ["value", "leftovers"]

[[want]]
design = "Winter hat"
at_least = 2
at_most = 6
value = 24.50
hours = 2.5
colour = ["A=blue", "B=cream"]

[[want]]
design = "Cowl"

[[mix]]
family = "blue"
at_most = "50%"

[limits]
hours = 20
keep_out = ["L3", "12"]
"""


def place(line: Line, key: str = "") -> tuple[int | str, str]:
    facts = line.found(key, Note("wrong")).facts
    return facts["place"], facts["key"]


def test_a_plan_in_toml() -> None:
    plan = plan_lines("market.toml", MARKET)

    hat, cowl = plan.wants
    assert hat.get("design") == "Winter hat"
    assert [hat.get(k) for k in ("at_least", "value", "hours")] == ["2", "24.5", "2.5"]
    assert hat.get("colour") == "A=blue, B=cream"
    assert cowl.typed == {"design": "Cowl"}
    assert plan.mixes[0].get("at_most") == "50%"
    assert plan.limits.get("keep_out") == "L3, 12"
    assert plan.aim == "value, leftovers"
    assert place(hat, "at_most") == (7, "at_most")
    assert place(cowl) == (12, "")
    assert place(plan.limits, "hours") == (20, "hours")


@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_a_plan_in_csv(separator: str) -> None:
    text = "Design,At least,Price\nHat,2,24\n\nCowl,,18\n".replace(",", separator)

    plan = plan_lines("market.csv", text.encode("utf-8-sig"))

    assert [want.typed for want in plan.wants] == [
        {"design": "Hat", "at_least": "2", "price": "24"},
        {"design": "Cowl", "price": "18"},
    ]
    assert place(plan.wants[1], "price") == (4, "price")


@pytest.mark.parametrize(
    ("name", "text", "place", "kind", "fact"),
    [
        ("m.toml", b"[[want]\npiece=1", 1, "not_toml", None),
        ("m.toml", b"aim = ", 0, "not_toml", None),
        ("m.toml", b"[[want]]\npiece = 'Hat'\natleast = 2", 3, "no_plan_key", "atleast"),
        ("m.toml", b"\n[wants]\npiece = 'Hat'", 2, "no_part_of_a_plan", "wants"),
        ("m.toml", b"want = ['Hat']", 1, "no_table", "want"),
        ("m.toml", "design = 'Hät'".encode("latin-1"), "", "plan_not_utf8", None),
        ("m.csv", b"Design,Colour of hair\nHat,red", 1, "no_plan_heading", "colour_of_hair"),
        ("m.csv", b"Size\nsmall", 1, "no_plan_heading", ""),
        ("m.csv", b"", 1, "no_plan_heading", ""),
    ],
)
def test_what_is_no_plan_says_where(
    name: str, text: bytes, place: int | str, kind: str, fact: str | None
) -> None:
    with pytest.raises(BadPlan) as refused:
        plan_lines(name, text)

    (found,) = refused.value.findings
    assert refused.value.name == name
    assert (found.facts["place"], found.facts["what"].kind) == (place, kind)
    assert fact is None or fact in found.facts["what"].facts.values()


@pytest.mark.parametrize(
    ("text", "typed"),
    [
        ("Winter hat", {"design": "Winter hat"}),
        ("Winter hat=6", {"design": "Winter hat", "at_least": "6", "at_most": "6"}),
        ("Hat=2-6", {"design": "Hat", "at_least": "2", "at_most": "6"}),
        (
            "Hat=0-6 at £24 in 2.5h",
            {"design": "Hat", "at_least": "0", "at_most": "6", "value": "£24", "hours": "2.5h"},
        ),
        ("Hat= at 24", {"design": "Hat", "value": "24"}),
        (
            "Hat=3 in 1 1/2 hours",
            {"design": "Hat", "at_least": "3", "at_most": "3", "hours": "1 1/2 hours"},
        ),
    ],
)
def test_a_want_in_one_option(text: str, typed: dict[str, str]) -> None:
    assert want_typed(text).typed == typed


@pytest.mark.parametrize("text", ["Hat=many", "Hat=", "=6", "Hat=6-", "Hat=6 for 24"])
def test_a_want_that_cannot_be_read(text: str) -> None:
    with pytest.raises(Unreadable) as refused:
        want_typed(text)
    assert refused.value.kind == "no_want"


def test_options_stand_beside_the_file_and_outweigh_it() -> None:
    plan = beside(
        plan_lines("m.toml", MARKET), [want_typed("Scarf=1")], {"hours": "9", "per_pair": "2"}
    )

    assert [want.get("design") for want in plan.wants] == ["Winter hat", "Cowl", "Scarf"]
    assert plan.limits.get("hours") == "9"
    assert place(plan.limits, "hours") == ("--hours", "hours")
    assert plan.limits.get("keep_out") == "L3, 12"
    assert place(Line({}, {}), "hours") == ("", "hours")
