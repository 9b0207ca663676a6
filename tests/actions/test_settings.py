"""Her settings, kept in the file."""

from __future__ import annotations

from pathlib import Path

from books import a_book, a_design, add, skein

from stash.actions import designs, log, weigh
from stash.actions.her_settings import Settings
from stash.actions.settings import change_setting, read_settings
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.stock.holding import SkeinState
from stash.stock.weighing import Verdict


def test_what_was_never_set_stands_at_its_usual_value(tmp_path: Path) -> None:
    settings = read_settings(a_book(tmp_path))

    assert (settings.scale_step, settings.useful_end) == (grams(1), metres(2))
    assert Settings.of({}) == settings


def test_a_setting_is_an_entry_of_its_own_and_nothing_new_is_none(tmp_path: Path) -> None:
    book = a_book(tmp_path)

    assert change_setting(book, "length", "yd") == 1
    assert change_setting(book, "length", "yd") is None
    assert read_settings(book).length == "yd"
    assert change_setting(book, "length", None) == 2
    assert read_settings(book).length == ""
    assert len(log.log(book)) == 2


def test_the_scale_step_decides_what_is_in_agreement(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, left=grams(80))
    change_setting(book, "scale step", "5000")

    assert (
        weigh.weigh(book, "1", weigh.ScaleReading(grams(76))).outcome.verdict
        is Verdict.IN_AGREEMENT
    )


def test_the_useful_size_decides_what_is_a_remnant(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, left=metres(18))
    assert skein(book, 1).state is SkeinState.OPENED

    change_setting(book, "useful size", str(metres(20).um))
    with book.entry("look") as writer:
        assert writer.skein(1).state is SkeinState.REMNANT


def test_her_margin_is_used_where_none_is_given(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    a_design(book, A=60)
    change_setting(book, "margin", "0.3")

    assert designs.show(book, "hat").need.margin == 0.3
    assert designs.show(book, "hat", margin=0.2).need.margin == 0.2


def test_tares_have_names(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    change_setting(book, "tare bowl", "12500")

    assert read_settings(book).tare("bowl") == Mass(12_500)
    assert read_settings(book).tare("cup") is None
