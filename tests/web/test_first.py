"""The first run: units and the first skein; nothing is begun by looking."""

from __future__ import annotations

from commands import Maker
from pages import Browser


def test_looking_begins_nothing(nobody_browses: Browser, nobody: Maker) -> None:
    page = nobody_browses.opens("/record")
    assert "Nothing on the shelf yet" in page.text
    assert not nobody.file.exists()


def test_units_and_the_first_skein_are_one_entry(nobody_browses: Browser, nobody: Maker) -> None:
    form = nobody_browses.opens("/first").form("/first")
    typed = "Greycairn DK 100g/230m, pine, lot 4821, blue box"
    done = nobody_browses.presses(form, units="us", line=typed)
    assert "Added 1 skein, number 1" in done.text
    assert nobody.entries() == 1
    assert nobody.ask("settings")["length"] == "yd"
    assert nobody.skein(1)["place"] == "blue box"


def test_a_first_line_with_a_question_is_asked_about(
    nobody_browses: Browser, nobody: Maker
) -> None:
    form = nobody_browses.opens("/first").form("/first")
    asked = nobody_browses.presses(form, units="metric", line="Otter Fen 50g/112m, sage, 12")
    assert "can be read in more than one way" in asked.text
    assert nobody.ask("shelf") == []
    assert nobody.ask("settings")["length"] == "m"


def test_a_sheet_is_the_other_way(nobody_browses: Browser) -> None:
    form = nobody_browses.opens("/first").form("/first")
    assert "Bring in a sheet" in nobody_browses.presses(form, sheet="yes", units="metric").text


def test_a_shelf_with_yarn_is_past_its_first_run(browser: Browser) -> None:
    assert browser.opens("/first").address.endswith("/add")


def test_made_up_yarn_is_looked_at_and_leaves_nothing(
    nobody_browses: Browser, nobody: Maker
) -> None:
    form = nobody_browses.opens("/first").form("/first/look")
    nobody_browses.presses(form)
    page = nobody_browses.opens("/record")
    assert "All of this is made-up yarn" in page.text
    assert "129 skeins" in page.text
    assert not nobody.file.exists()
    nobody_browses.presses(page.form("/first/back"))
    assert "Nothing on the shelf yet" in nobody_browses.opens("/record").text
    assert not nobody.file.exists()
