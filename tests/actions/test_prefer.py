"""Her settings, kept in the file."""

from __future__ import annotations

from pathlib import Path

from books import a_book, a_piece, add, skein

from stash.actions import log, pieces, prefer, weigh
from stash.actions.preferences import Preferences
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.stock.holding import SkeinState
from stash.stock.weighing import Verdict


def test_what_was_never_set_stands_at_its_usual_value(tmp_path: Path) -> None:
    settings = prefer.settings(a_book(tmp_path))

    assert (settings.scale_step, settings.useful_end) == (grams(1), metres(2))
    assert Preferences.of({}) == settings


def test_a_setting_is_an_entry_of_its_own_and_nothing_new_is_none(tmp_path: Path) -> None:
    book = a_book(tmp_path)

    assert prefer.prefer(book, "units", "yards") == 1
    assert prefer.prefer(book, "units", "yards") is None
    assert prefer.settings(book).units == "yards"
    assert prefer.prefer(book, "units", None) == 2
    assert prefer.settings(book).units == "metres"
    assert len(log.log(book)) == 2


def test_the_scale_step_decides_what_is_in_agreement(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, left=grams(80))
    prefer.prefer(book, "scale step", "5000")

    assert (
        weigh.weigh(book, "1", weigh.ScaleReading(grams(76))).outcome.verdict
        is Verdict.IN_AGREEMENT
    )


def test_the_useful_size_decides_what_is_a_remnant(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, left=metres(18))
    assert skein(book, 1).state is SkeinState.OPENED

    prefer.prefer(book, "useful size", str(metres(20).um))
    with book.entry("look") as writer:
        assert writer.skein(1).state is SkeinState.REMNANT


def test_her_margin_is_used_where_none_is_given(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    a_piece(book, A=60)
    prefer.prefer(book, "margin", "0.3")

    assert pieces.show(book, "hat").need.margin == 0.3
    assert pieces.show(book, "hat", margin=0.2).need.margin == 0.2


def test_tares_have_names(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    prefer.prefer(book, "tare bowl", "12500")

    assert prefer.settings(book).tare("bowl") == Mass(12_500)
    assert prefer.settings(book).tare("cup") is None
