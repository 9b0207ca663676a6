"""Designs on the page: each takes what `need` says, a new one is what `design add` saves."""

from __future__ import annotations

import math
import re
from unittest.mock import Mock

import pytest
from commands import Maker
from pages import Browser, Page, at_the_page_of

from stash.actions import ideas

HAT = "Tidewrack hat"


def set_aside(maker: Maker, name: str) -> dict[str, int]:
    roles = maker.ask("need", name)["roles"]
    return {role: math.ceil(need["set_aside_m"] - 1e-3) for role, need in roles.items()}


def test_every_design_stands_there_with_what_it_takes(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/designs")
    for kept in lively.ask("design", "list"):
        needs = set_aside(lively, kept["design"])
        words = " and ".join(f"{m} m of {role}" for role, m in needs.items())
        assert kept["design"] in page.text
        assert f"takes {words}" in page.text
    assert page.source.count('<article class="design-card"') == len(lively.ask("design", "list"))


def cards(page: Page) -> dict[str, str]:
    """Each card of the list by its design."""
    parts = page.source.split('<article class="design-card"')[1:]
    return {re.findall(r"data-card-link>(.*?)</a>", one)[0]: one for one in parts}


def colours_of(maker: Maker, refs: list[str]) -> set[str]:
    lots = {lot["lot_ref"]: lot["colours_hex"] for lot in maker.ask("shelf")}
    return {colour for ref in refs for colour in lots[ref]}


def test_every_design_is_drawn_in_the_best_set_of_ideas(
    lively_browser: Browser, lively: Maker
) -> None:
    page = cards(lively_browser.opens("/designs"))
    best = {one["design"]: one["proposal"] for one in lively.ask("ideas")["designs"]}
    assert sum(proposal is not None for proposal in best.values()) > 3
    for design, proposal in best.items():
        if proposal:
            yarns = [role["lot_ref"] for role in proposal["roles"].values()]
            assert all(colour in page[design] for colour in colours_of(lively, yarns))
            names = [role["colour"] for role in proposal["roles"].values()]
            assert f"drawn in {' with '.join(names)}" in page[design]


def test_a_design_that_nothing_covers_is_drawn_as_it_was_last_made_else_undyed(
    yarn_only: Maker,
) -> None:
    yarn_only.does("add", "Fell Wool worsted 100g/200m, rust, lot 2")
    plan = ("--shape", "headband", "--around", "52cm", "--tall", "9cm", "--fabric", "1 hdc")
    yarn_only.does("design", "add", "band", *plan, "--thickness", "4")
    for skein in ("1", "2"):  # the second is the last
        yarn_only.does("aside", "band", "--with", f"A={skein}")
        number = yarn_only.ask("items")[-1]["number"]
        yarn_only.does("done", str(number), "--as-planned")
    navy, rust = (colours_of(yarn_only, [ref]).pop() for ref in ("L1", "L2"))
    for skein in ("1", "2"):
        yarn_only.does("gone", skein, "--why", "given")
    yarn_only.does("design", "copy", "band", "never made")
    for browser in at_the_page_of(yarn_only.file):
        drawn = cards(browser.opens("/designs"))
        assert rust in drawn["band"]
        assert "drawn in rust, as last made" in drawn["band"]
        assert not {navy, rust} & {*re.findall("#[0-9a-f]{6}", drawn["never made"])}
        assert "nothing on your shelf covers it yet" in drawn["never made"]


def test_a_design_without_rows_shows_its_yarns(yarn_only: Maker) -> None:
    yarn_only.does("design", "add", "by figures", "--stated", "A=100m", "--thickness", "4")
    for browser in at_the_page_of(yarn_only.file):
        drawn = cards(browser.opens("/designs"))["by figures"]
        assert colours_of(yarn_only, ["L1"]) <= {*re.findall("#[0-9a-f]{6}", drawn)}


def test_a_design_by_itself_and_in_the_editor_is_drawn_in_the_same_yarns(
    lively_browser: Browser, lively: Maker
) -> None:
    best = {one["design"]: one["proposal"] for one in lively.ask("ideas")["designs"]}
    yarns = [role["lot_ref"] for role in best[HAT]["roles"].values()]
    for address in ("/design/1", "/design/1/edit"):
        source = lively_browser.opens(address).source
        assert all(colour in source for colour in colours_of(lively, yarns))


def test_the_best_sets_are_looked_for_once_until_something_is_written(
    lively_browser: Browser, lively: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = Mock(side_effect=ideas.asked_of)
    monkeypatch.setattr(ideas, "asked_of", asked)
    for address in ("/designs", "/designs", "/", "/design/1", "/design/1/edit"):
        lively_browser.opens(address)
    assert asked.call_count == 1
    lively.does("gone", "1", "--why", "given")
    asked.reset_mock()
    lively_browser.opens("/designs")
    assert asked.call_count == 1


def test_a_design_shows_its_need_and_the_count_of_its_pairs(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/design/1")
    for role in lively.ask("need", HAT)["roles"].values():
        about, spread = (math.floor(role[key] + 0.5) for key in ("expected_m", "spread_m"))
        assert f"{math.ceil(role['set_aside_m'] - 1e-3)} m" in page.text
        assert f"about {about} m (± {spread})" in page.text
    pairs = {tuple(sorted(p["key"].split("+"))) for p in lively.ask("match", HAT)["proposals"]}
    assert f"{len(pairs)} pairs on your shelf" in page.text


def test_other_sizes_are_those_of_grade(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/design/1?sizes=child 5, woman")
    table = lively.ask("grade", HAT, "--sizes", "child 5, woman")
    cells = re.findall(r"<td>(.*?)</td>", page.source)
    for row in table["rows"]:
        assert row["size"] in cells
        for role in row["roles"].values():
            assert f"{role['printed_m']} m" in cells


def test_a_size_that_cannot_be_read_is_said_on_the_page(lively_browser: Browser) -> None:
    page = lively_browser.opens("/design/1?sizes=whale")
    assert page.status == 200
    assert 'role="alert"' in page.source


def test_a_copy_and_a_drop_are_one_press_each(lively_browser: Browser, lively: Maker) -> None:
    page = lively_browser.opens("/design/1")
    copied = lively_browser.presses(page.form("/design/copy"), name="Second hat")
    assert "Saved the design Second hat." in copied.text
    assert set_aside(lively, "Second hat")
    dropped = lively_browser.presses(copied.form("/design/drop"))
    assert "Dropped Second hat" in dropped.text
    assert "Second hat" not in [one["design"] for one in lively.ask("design", "list")]


def test_a_name_that_is_taken_is_refused_in_place_and_stays(
    lively_browser: Browser, lively: Maker
) -> None:
    page = lively_browser.opens("/design/1")
    before = lively.entries()
    refused = lively_browser.presses(page.form("/design/copy"), name="Pebble cowl")
    assert lively.entries() == before
    assert refused.form("/design/copy").fields["name"] == "Pebble cowl"


@pytest.fixture
def yarn_only(nobody: Maker) -> Maker:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy, lot 1")
    return nobody


SHAPES = ("hat", "mittens", "headband", "cowl", "scarf", "blanket")


def test_without_designs_six_shapes_begin_one(yarn_only: Maker) -> None:
    for browser in at_the_page_of(yarn_only.file):
        page = browser.opens("/designs")
        assert [to for to in page.links.values() if to.startswith("/designs/new")] == [
            f"/designs/new?shape={shape}" for shape in SHAPES
        ]


@pytest.mark.parametrize("shape", SHAPES)
def test_each_shape_saves_a_design_as_it_stands_in_its_form(yarn_only: Maker, shape: str) -> None:
    for browser in at_the_page_of(yarn_only.file):
        form = browser.opens(f"/designs/new?shape={shape}").form("/designs/add")
        saved = browser.presses(form, name=f"First {shape}")
        assert f"Saved the design First {shape}." in saved.text
    assert sorted(set_aside(yarn_only, f"First {shape}")) == ["A", "B"]


def test_what_is_typed_is_what_design_add_saves(yarn_only: Maker) -> None:
    for browser in at_the_page_of(yarn_only.file):
        form = browser.opens("/designs/new?shape=hat").form("/designs/add")
        typed = {"size": "child 5", "gauge": "14 sts x 12 rows", "fabric": "1 sc, 1 hdc"}
        browser.presses(form, name="Small hat", band="B 2cm bottom; C 4 rows middle", **typed)
    plan = ("--shape", "round hat", "--size", "child 5", "--gauge", "14 sts x 12 rows")
    more = ("--fabric", "1 sc, 1 hdc", "--thickness", "worsted")
    bands = ("--band", "B 2cm bottom", "--band", "C 4 rows middle")
    yarn_only.does("design", "add", "By command", *plan, *more, *bands)
    saved, typed_in = ({**one, "design": ""} for one in yarn_only.ask("design", "list"))
    saved["plan"]["name"] = typed_in["plan"]["name"] = ""
    assert saved == typed_in


def test_a_gauge_that_cannot_be_read_keeps_what_was_typed(yarn_only: Maker) -> None:
    for browser in at_the_page_of(yarn_only.file):
        form = browser.opens("/designs/new?shape=hat").form("/designs/add")
        wrong = browser.presses(form, name="Odd hat", gauge="quite loose")
        kept = wrong.form("/designs/add").fields
        assert (kept["name"], kept["gauge"]) == ("Odd hat", "quite loose")
        assert 'role="alert"' in wrong.source


def test_a_hostile_name_is_only_a_name(lively_browser: Browser, lively: Maker) -> None:
    lively.does("design", "copy", HAT, "<script>alert(1)</script>" + 40 * "long ")
    for address in ("/designs", "/designs/new"):
        page = lively_browser.opens(address)
        assert "<script>alert" not in page.source
        assert "style=" not in page.source
