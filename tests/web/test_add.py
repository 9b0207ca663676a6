"""Adding on the page: what it understands is what the command understands, and what it saves."""

from __future__ import annotations

import csv
import re
import time
from pathlib import Path
from typing import Any

import pytest
from commands import Maker
from pages import Browser, Form, Page, unescaped

_LINES = Path(__file__).parents[2] / "fixtures" / "checks" / "label_lines.csv"
GREYCAIRN = "Greycairn DK, 2 x 100g/230m, pine, lot 5201"


def reads(browser: Browser, line: str, **facts: str) -> Page:
    """The page as it understands this line, with facts that she has changed."""
    return _get(browser, "/add", line=line, **facts)


def _get(browser: Browser, address: str, **query: str) -> Page:
    return browser.presses(Form(address, "get", {}), None, **query)


def adds(browser: Browser, page: Page, **typed: str) -> Page:
    """Press the button that adds."""
    form = page.form("/add")
    token = next(one for one in form.buttons if one.startswith("token=")).removeprefix("token=")
    return browser.presses(form, None, token=token, **typed)


def facts_of(page: Page) -> dict[str, str]:
    """What stands in the fields of the facts."""
    fields = page.form("/add").fields
    return {name: fields[name] for name in fields if f"was-{name}" in fields}


def ordinary_lines() -> list[str]:
    """Every twentieth line of the table: people wrote them who had not seen the program."""
    with _LINES.open(encoding="utf-8") as file:
        return [row["line"] for row in csv.DictReader(file)][::20]


def as_shown(read: dict[str, Any]) -> dict[str, str]:
    """The JSON of the command as the fields show it."""
    low, high = read.get("thickness"), read.get("thickness_to")
    number = "" if low is None else f"({low})" if low == high else f"({low}-{high})"
    unnamed = read["yarn"] == "unnamed yarn"
    return {
        "yarn": "" if unnamed else read["yarn"],
        "count": f"{read['count']}",
        "mass": f"{round(read['full_g'], 1):g} g" if "full_g" in read else "",
        "length": f"{round(read['full_m'], 1):g} m" if "full_m" in read else "",
        "thickness": number,
        "lot": "none" if read["lot_state"] == "claimed_none" else read.get("lot", ""),
        "colour": read.get("colour", ""),
        "fibre": read.get("fibre", ""),
        "bought": read.get("bought", ""),
        "care": read.get("care", ""),
        "dyed": read.get("dyed", ""),
        "surface": read.get("surface", ""),
        "paid": f"{read['paid']:.2f}" if "paid" in read else "",
    }


def in_fields(facts: dict[str, str]) -> dict[str, str]:
    """The fields, a thickness by its number and a price by its figure."""
    number = re.search(r"\([0-7](?:-[0-7])?\)", facts["thickness"])
    price = re.search(r"[0-9]+(?:\.[0-9]{2})?", facts["paid"])
    return {
        **facts,
        "thickness": number[0] if number else "",
        "paid": f"{float(price[0]):.2f}" if price else "",
    }


@pytest.mark.parametrize("line", ordinary_lines())
def test_the_page_understands_a_line_as_the_command_does(
    browser: Browser, demo: Maker, line: str
) -> None:
    page = reads(browser, line)
    said = demo("add", line, "--as", "json")
    if said.status:
        assert "Add</button>" in page.source, "it cannot be added as it is"
        assert "disabled" in page.source
        return
    read = said.json["read"]
    shown, wanted = in_fields(facts_of(page)), as_shown(read)
    assert {name: shown[name] for name in wanted} == wanted
    assert shown["place"] == read.get("place", shown["place"])
    count, numbers = len(said.json["numbers"]), said.json["numbers"]
    assert f"Add {count} skein" in page.text
    assert f"no. {numbers[0]}" in page.text


def test_what_is_added_is_what_was_shown(browser: Browser, demo: Maker) -> None:
    done = adds(browser, reads(browser, GREYCAIRN))

    assert "Added 2 skeins, number 130-131" in done.text
    assert demo.skein(130)["place"] == "basket by the window", "where the last one was put"
    assert demo.ask("log")[0]["words"] == "added 2 skeins of Greycairn DK, pine, lot 5201"


def test_a_fact_changed_in_its_field_wins_over_the_line(browser: Browser, demo: Maker) -> None:
    adds(
        browser, reads(browser, GREYCAIRN), lot="7 B", count="3", mass="50", length="115",
        thickness="aran", fibre="75% wool, 25% nylon", place="red bin", paid="3.20 each",
        colour="rust", dyed="tweed", surface="single", care="hand wash",
    )  # fmt: skip

    found = demo.skein(132)
    lot = demo.ask("show", "L{}".format(found["lot_ref"].removeprefix("L")))
    assert (lot["lot"], lot["colour"], lot["thickness"]) == ("7 B", "rust", 4)
    assert lot["fibre"] == "75% wool, 25% nylon"
    assert (lot["dyed"], lot["surface"]) == ("tweed", "single")
    assert (found["held_g"], found["held_m"], found["place"]) == (50, 115, "red bin")


def test_an_emptied_field_is_a_fact_not_known(browser: Browser, demo: Maker) -> None:
    adds(browser, reads(browser, GREYCAIRN), colour="", lot="", place="")

    found = demo.skein(130)
    assert (found["place"], demo.ask("show", found["lot_ref"])["lot_state"]) == (None, "unknown")


def test_what_comes_from_her_other_yarn_says_so(browser: Browser, demo: Maker) -> None:
    demo.does("add", f"{GREYCAIRN}, 75% wool 25% nylon", "--place", "red bin")
    page = reads(browser, "Greycairn DK 100g/230m rust lot 9")

    assert "Fibre, as your other Greycairn DK" in page.text
    assert facts_of(page)["fibre"] == "75% wool, 25% nylon"
    assert "Place, as last time" in page.text


def test_a_question_has_its_answers_as_buttons_and_nothing_can_be_added(
    browser: Browser, demo: Maker
) -> None:
    page = reads(browser, "Otter Fen 50g/112m, sage, lot 407, 12")
    assert "can be read in more than one way" in page.text
    assert "One question first" in page.text
    assert not [one for one in page.form("/add").buttons if one.startswith("token=")]
    answer = "Otter Fen 50g/112m, sage, lot 407, 12 skeins"
    assert f"line={answer}" in page.form("/add").buttons
    assert facts_of(reads(browser, answer))["count"] == "12"


def test_a_fact_that_cannot_be_read_is_marked_in_its_field(browser: Browser) -> None:
    page = reads(browser, GREYCAIRN, thickness="banana", **{"was-thickness": "DK (3)"})
    assert 'aria-invalid="true"' in page.source
    assert facts_of(page)["thickness"] == "banana"
    assert "disabled" in page.source


def test_the_same_yarn_with_another_word_for_it_is_asked_about(
    browser: Browser, demo: Maker
) -> None:
    demo.does("add", GREYCAIRN)
    page = reads(browser, "Greycairn, 100g/230m, rust, lot 9")
    assert "is Greycairn the same yarn as Greycairn DK" in unescaped(page.text).replace("Is", "is")
    ways = [one for one in page.form("/add").buttons if one.startswith("line=--")]
    assert len(ways) == 2
    led = reads(browser, ways[0].removeprefix("line="))
    assert "The same yarn as your Greycairn DK" in led.text
    adds(browser, led)
    assert demo.ask("show", "132")["yarn"] == "Greycairn DK"


def test_a_lot_number_of_another_yarn_is_asked_about_before_it_is_saved(
    browser: Browser, demo: Maker
) -> None:
    demo.does("add", GREYCAIRN)
    page = reads(browser, "Greycairn DK, thickness 5, 100g/230m, pine, lot 5201")
    assert "if it is another yarn, change its name" in page.text
    assert "disabled" in page.source
    ways = [one for one in page.form("/add").buttons if one.startswith("line=--like")]
    adds(browser, reads(browser, ways[0].removeprefix("line=")))
    assert demo.skein(132)["lot_ref"] == demo.skein(130)["lot_ref"]


@pytest.mark.parametrize(
    "line",
    [
        "<script>alert(1)</script> DK 100g/200m",
        "x" * 500,
        "‮שלום DK 100g/200m, 🧶",
        "Otter\nFen DK\n100g/230m",
        '"><img src=x onerror=alert(1)> 50g',
    ],
)
def test_hostile_lines_are_harmless(browser: Browser, line: str) -> None:
    page = reads(browser, line)
    assert page.status == 200
    assert "<script>alert" not in page.source
    assert "<img" not in page.source.replace('<img src="/static/mark.svg"', "")


def test_amounts_stand_in_her_units(browser: Browser, demo: Maker) -> None:
    demo.does("settings", "units", "us")
    page = reads(browser, "Greycairn DK, 2 x 3.5oz/250yd, pine")
    assert (facts_of(page)["mass"], facts_of(page)["length"]) == ("3.5 oz", "250 yd")
    assert "500 yd" in page.text
    adds(browser, page, length="200")
    assert demo.ask("show", "130")["held_m"] == pytest.approx(200 * 0.9144, abs=0.01)


def test_the_same_again_asks_for_colour_lot_and_count_alone(browser: Browser, demo: Maker) -> None:
    page = _get(browser, "/add/like", like="L1", colour="rust", count="3", lot="77")
    form = page.form("/add/like", like="L1")
    token = next(one for one in form.buttons if one.startswith("token=")).removeprefix("token=")
    browser.presses(form, None, token=token)
    old, new = demo.ask("show", "L1"), demo.ask("show", demo.skein(130)["lot_ref"])
    same = ("yarn", "thickness", "fibre")
    assert [new[key] for key in same] == [old[key] for key in same]
    assert (new["colour"], new["lot"]) == ("rust", "77")
    assert demo.skein(132)["lot_ref"] == demo.skein(130)["lot_ref"]


def test_many_lines_come_in_together_or_not_at_all(browser: Browser, demo: Maker) -> None:
    before = demo.entries()
    lines = "Greycairn DK, 2 x 100g/230m, pine, lot 4821\n# a remark\nBanana"
    page = _get(browser, "/add/many", lines=lines, place="red bin")
    assert "1 of 2 lines need a look first" in page.text
    form = page.form("/add/many")
    assert not [one for one in form.buttons if one.startswith("token=")]
    page = _get(browser, "/add/many", lines=lines.replace("Banana", "Otter 50g"), place="red bin")
    form = page.form("/add/many")
    assert "Add 3 skeins" in page.text
    token = next(one for one in form.buttons if one.startswith("token=")).removeprefix("token=")
    browser.presses(form, None, token=token)
    assert [demo.skein(n)["place"] for n in (130, 131, 132)] == ["red bin"] * 3
    assert demo.entries() == before + 1


def test_a_key_in_the_label_line_is_answered_fast(browser: Browser) -> None:
    reads(browser, GREYCAIRN)
    took = []
    for end in range(10, len(GREYCAIRN)):
        begun = time.process_time()
        reads(browser, GREYCAIRN[:end])
        took.append(time.process_time() - begun)
    # 50 ms is the aim on a machine of its own; this one may be shared by a test run
    assert sorted(took)[len(took) // 2] < 0.25
