"""Her settings, and the file proved sound."""

from __future__ import annotations

import sqlite3
from contextlib import closing

import pytest
from commands import Maker, refused_in_one_line


@pytest.mark.parametrize(
    ("name", "typed", "shown"),
    [
        ("units", "us", "us"),
        ("scale-step", "0.1g", "0.1 g"),
        ("Scale Step", "1g", "1 g"),
        ("terms", "uk", "uk"),
        ("humidity", "60 - 40", "40% to 60%"),
        ("humidity", "50%", "45% to 55%"),
        ("rules", "US", "us"),
        ("margin", "15", "15%"),
        ("margin", "15%", "15%"),
        ("margin", "0.15", "15%"),
        ("thickness tolerance", "1", "1"),
        ("useful_end", "3m", "3 m"),
        ("contrast", "Clear", "clear"),
        ("contrast", "20 to 40", "20-40"),
        ("per 100g", "200-260", "200-260"),
        ("per 100g", "15 %", "15%"),
        ("colour-vision", "Deutan", "deutan"),
        ("ranking newness", "0.5", "0.5"),
        ("currency", "eur", "EUR"),
        ("sundries", "0.80", "0.80"),
        ("overhead", "10", "10%"),
        ("fees", "6.5%", "6.5%"),
        ("hours Winter hat", "3h20", "3 h 20 min"),
        ("tare-bowl", "112g", "112 g"),
        ("size market-M", "Around 54cm, tall 22 cm", "around 54 cm tall 22 cm"),
    ],
)
def test_a_setting_is_kept_as_it_is_shown(nobody: Maker, name: str, typed: str, shown: str) -> None:
    nobody.does("settings", name, typed)

    (kept,) = nobody.ask("settings", name).values()

    assert kept == shown
    nobody.does("settings", name, "usual")
    assert list(nobody.ask("settings", name).values()) == [None]


def test_a_setting_that_is_so_already_is_no_entry(nobody: Maker) -> None:
    nobody.does("settings", "units", "us")
    nobody.does("settings", "units", "us")

    assert nobody.entries() == 1


def test_a_setting_can_be_taken_back(nobody: Maker) -> None:
    nobody.does("settings", "units", "us")
    nobody.does("undo")

    assert nobody.ask("settings", "units") == {"units": None}


def test_the_whole_ranking_can_be_seen(nobody: Maker) -> None:
    told = nobody.does("settings", "ranking").out

    assert "ranking opening" in told
    assert " 0.25 " in told
    assert nobody.ask("settings", "ranking").keys() >= {"ranking price", "ranking newness"}


def test_yards_are_shown_to_who_prefers_them(maker: Maker) -> None:
    maker.does("settings", "units", "us")

    assert "120 m" not in maker.does("show", "2").out.splitlines()[0]
    assert "131 yd" in maker.does("show", "2").out  # 120 m / 0.9144 m (NIST HB 44)
    assert maker.skein(2)["held_m"] == 120  # what scripts read never changes its unit


def test_her_usual_margin_is_used_where_none_is_named(maker: Maker) -> None:
    maker.does("settings", "margin", "30%")

    assert maker.ask("need", "hat")["margin"] == 0.3
    assert maker.ask("need", "hat", "--margin", "10%")["margin"] == 0.1


def test_a_sound_file_is_told_so(maker: Maker) -> None:
    assert maker.ask("check") == {"ok": True, "findings": []}
    assert maker.does("check", "--as", "csv").out == ""


def test_books_that_were_meddled_with_are_found(maker: Maker) -> None:
    with closing(sqlite3.connect(maker.file)) as db:
        for (name,) in db.execute(
            "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        ).fetchall():
            db.execute(f'DROP TRIGGER "{name}"')
        db.execute("UPDATE movement SET change_mg = -9 WHERE id = (SELECT min(id) FROM movement)")
        db.commit()

    said = maker("check", "--as", "json")

    assert said.status == 1
    assert said.json["ok"] is False
    assert said.json["findings"]


def test_settings_are_shown_with_their_usual_values(nobody: Maker) -> None:
    told = nobody.does("settings").out

    assert "useful end           2 m" in told
    assert "Until you choose units, your first yarn decides them." in told
    assert not nobody.file.exists()


def test_settings_stand_in_groups_within_80_columns_and_mark_hers(nobody: Maker) -> None:
    nobody.does("settings", "units", "us")
    nobody.does(
        "settings", "address", "The Old Bakery, 1 Mill Lane, Nowhere under the Hill, AB1 2CD"
    )
    told = nobody.does("settings").out.splitlines()

    assert max(map(len, told)) <= 80
    units = told.index("Units")
    assert [line.split()[:2] for line in told[units + 1 : units + 5]] == [
        ["*", "units"], ["*", "length"], ["*", "weight"], ["*", "size"]
    ]  # fmt: skip
    assert next(line for line in told if "scale step" in line).startswith("  scale step")


@pytest.mark.parametrize(
    ("typed", "system"), [((), "us"), (("length", "m"), None), (("units", "metric"), "metric")]
)
def test_units_are_a_system_only_where_all_three_are_of_it(
    nobody: Maker, typed: tuple[str, ...], system: str | None
) -> None:
    nobody.does("settings", "units", "us")
    if typed:
        nobody.does("settings", *typed)

    assert nobody.ask("settings", "units") == {"units": system}


def test_a_sign_that_several_currencies_share_is_asked_about_once(nobody: Maker) -> None:
    refused_in_one_line(nobody("settings", "wage", "$20"), 2, "20 USD", "20 AUD")

    nobody.does("settings", "wage", "20 AUD")

    assert nobody.ask("settings", "currency") == {"currency": "AUD"}
    nobody.does("settings", "wage", "$22")
    refused_in_one_line(nobody("settings", "wage", "£22"), 2, "AUD")
    refused_in_one_line(nobody("settings", "currency", "USD"), 4, "AUD")
