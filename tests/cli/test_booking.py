"""Weighing, using, facts put right; the log and taking back."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

from stash import actions
from stash.actions import use
from stash.actions.book import open_book
from stash.measures.mass import grams
from stash.stock.entry import WRITING


@pytest.mark.parametrize(
    ("amount", "left"),
    [
        ("20g", 30),
        ("60m", 25),
        ("109,36 yd", 8.333),  # 100.0 m of 120 m: 8.333 g stay (0.9144 m a yard, NIST HB 44)
        ("1 1/2 oz", 7.476),  # 42.524 g (28.349523125 g an ounce, NIST HB 44)
        ("½ oz", 35.825),
        ("1,5 oz", 7.476),
        ("2x20g", 10),
        ("50g", 0),
        ("120m", 0),
    ],
)
def test_yarn_is_used_in_any_unit(maker: Maker, amount: str, left: float) -> None:
    maker.does("use", "2", amount)

    assert maker.skein(2)["held_g"] == pytest.approx(left, abs=0.003)


def test_yarn_set_aside_is_used_for_its_item_and_begins_it(maker: Maker) -> None:
    said = maker.does("use", "1", "100m", "--for", "hat")

    assert "item 1 (Hat) is now begun" in said.out
    assert maker.skein(1)["held_g"] == pytest.approx(50 - 41.667, abs=0.001)
    assert maker.ask("show", "item", "1")["state"] == "begun"


@pytest.mark.parametrize("why", ["given", "sold", "lost", "spoilt"])
def test_yarn_leaves_otherwise(maker: Maker, why: str) -> None:
    maker.does("gone", "2", "10g", "--why", why)
    maker.does("gone", "3", "--why", why)

    assert (maker.skein(2)["held_g"], maker.skein(3)["held_g"]) == (40, 0)
    assert maker.skein(2)["movements"][-1]["kind"] == why


def test_the_scale_in_agreement_books_nothing(maker: Maker) -> None:
    said = maker.does("weigh", "2", "49.5g")

    assert "49.5 g on the scale, close enough to 50 g noted" in said.out
    assert maker.skein(2)["held_g"] == 50


def test_a_fall_of_a_ball_in_work_is_use(maker: Maker) -> None:
    maker.does("begin", "hat")

    assert (
        "30 g on the scale, so 20 g went into item 1 (Hat)" in maker.does("weigh", "1", "30g").out
    )
    assert maker.skein(1)["movements"][-1]["item"] == 1


def test_a_fall_of_any_other_ball_is_a_correction(maker: Maker) -> None:
    assert (
        "20 g less than noted: corrected, not counted as used"
        in maker.does("weigh", "2", "30g", "--opened").out
    )


def test_a_recount_is_a_correction_even_of_a_ball_in_work(maker: Maker) -> None:
    maker.does("begin", "hat")

    assert "less than noted: corrected" in maker.does("weigh", "1", "30g", "--recount").out


def test_a_tare_comes_off_the_reading(maker: Maker) -> None:
    maker.does("settings", "tare-bowl", "100g")
    maker.does("weigh", "2", "130g", "--tare", "bowl", "--opened")
    maker.does("weigh", "3", "42g", "--tare", "12g", "--opened")

    assert (maker.skein(2)["held_g"], maker.skein(3)["held_g"]) == (30, 30)


def test_more_than_a_full_skein_on_the_scale_is_asked_about(maker: Maker) -> None:
    maker.does("weigh", "2", "30g", "--opened")

    refused_in_one_line(maker("weigh", "2", "300g"), 4, "a full one holds 50 g", "--tare 270g")
    assert maker.skein(2)["held_g"] == 30
    maker.does("weigh", "2", "300g", "--tare", "270g")


def test_yarn_that_is_missing_from_a_promise_is_told_with_its_item(maker: Maker) -> None:
    said = maker.does("weigh", "1", "20g", "--recount")

    assert "Short: skein 1" in said.err
    assert "item 1 (Hat)" in said.err


@pytest.mark.parametrize(
    ("typed", "key", "value"),
    [
        (("--place", "tin"), "place", "tin"),
        (("--owner", "Aunt"), "owner", "Aunt"),
        (("--tare", "4g"), "tare_g", 4),
        (("--note", "a moth?"), "note", "a moth?"),
        (("--lot", "77"), "lot", "77"),
        (("--lot", "none"), "lot_state", "claimed none"),
        (("--colour", "ink"), "colour", "ink"),
        (("--hex", "#112233"), "colour_hex", "#112233"),
        (("--thickness", "worsted"), "thickness", 4),
        (("--fibre", "linen"), "fibre", "linen"),
        (("--full", "50g/110m"), "full_m", 110),
    ],
    ids=lambda value: value[0] if isinstance(value, tuple) else "",
)
def test_facts_of_a_skein_are_put_right(
    maker: Maker, typed: tuple[str, ...], key: str, value: object
) -> None:
    maker.does("change", "3", *typed)

    assert maker.skein(3)[key] == value


def test_a_thickness_put_right_is_told_once(maker: Maker) -> None:
    assert "lot L1: thickness set to 4  (" in maker.does("change", "L1", "--thickness", "4").out
    assert "lot L1: thickness set to 4-5  (" in maker.does("change", "L1", "--thickness", "4-5").out


def test_facts_of_a_lot_are_put_right_for_all_its_skeins(maker: Maker) -> None:
    maker.does("change", "L1", "--full", "50g/100m", "--colour", "ink")

    assert {maker.skein(n)["held_m"] for n in (1, 2, 3)} == {100}
    assert {maker.skein(n)["colour"] for n in (1, 2, 3)} == {"ink"}


def test_the_log_has_a_line_for_each_command_that_wrote(maker: Maker) -> None:
    maker.does("use", "2", "5g")

    lines = maker.ask("log")

    assert [line["number"] for line in lines] == list(range(9, 0, -1))
    assert lines[0].keys() >= {"number", "on", "kind", "words", "takes_back", "taken_back_by"}
    assert (lines[0]["takes_back"], lines[0]["taken_back_by"]) == (None, None)
    assert len(maker.does("log", "--newest", "3", "--as", "csv").rows) == 3


def test_an_entry_is_taken_back_whole_and_only_once(maker: Maker) -> None:
    before = maker.ask("shelf")
    maker.does("use", "2", "5g")
    maker.does("undo")

    assert maker.ask("shelf") == before
    newest = maker.ask("log")[0]
    assert (newest["kind"], newest["takes_back"]) == ("undo", 9)
    refused_in_one_line(maker("undo", "9"), 4, "10")


def test_an_entry_that_later_ones_rest_on_names_them(maker: Maker) -> None:
    maker.does("use", "2", "5g")

    refused_in_one_line(maker("undo", "1"), 4, "9", "8")


def test_numbers_of_skeins_taken_back_are_not_used_again(maker: Maker) -> None:
    maker.does("add", "Skerry DK 50g/120m")
    maker.does("undo")
    maker.does("add", "Skerry DK 50g/120m")

    assert maker.ask("shelf", "--lot", "", "skerry")[-1]["skeins"][0]["number"] == 11


def test_a_length_weighed_by_itself_is_the_skeins_own_pair(maker: Maker) -> None:
    """4.3 g of 10 m: 232.6 m to 100 g, so 50 g are 116.3 m and no more 120."""
    said = maker.does("weigh", "2", "--metre", "10m=4.3g")

    assert "233 m per 100 g by your own weighing" in said.out
    skein = maker.skein(2)
    assert (skein["held_g"], skein["full_from"]) == (50, "measured")
    assert skein["held_m"] == pytest.approx(50 / 4.3 * 10, abs=1e-4)
    assert maker.does("check").out.startswith("All good")


def test_what_is_set_aside_keeps_its_metres_when_a_length_is_weighed(maker: Maker) -> None:
    before = maker.ask("shelf", "--aside")[0]
    maker.does("weigh", str(before["skein"]), "--metre", "10m = 4g")

    after = maker.ask("shelf", "--aside")[0]
    assert after["set_aside_m"] == before["set_aside_m"]
    assert after["set_aside_g"] == pytest.approx(after["set_aside_m"] * 0.4, abs=0.001)


def test_a_weight_alone_gets_its_length_by_a_weighed_metre(maker: Maker) -> None:
    maker.does("weigh", "6", "--metre", "1 yd = 0.4 g")

    assert maker.skein(6)["held_m"] == pytest.approx(50 / 0.4 * 0.9144, abs=1e-4)


def test_a_length_alone_keeps_it_when_a_metre_is_weighed(maker: Maker) -> None:
    maker.does("weigh", "9", "--metre", "10m=4g")

    skein = maker.skein(9)
    assert (skein["held_m"], skein["held_g"]) == (300, 120)


def test_a_pair_far_from_the_band_is_pointed_out(maker: Maker) -> None:
    said = maker.does("weigh", "2", "--metre", "10m=6g")

    assert "until now it counted as 240 m per 100 g; measure once more" in said.err


@pytest.mark.parametrize("typed", ["10m", "10m=43", "0m=4g", "ten"])
def test_a_weighed_length_that_cannot_be_read(maker: Maker, typed: str) -> None:
    refused_in_one_line(maker("weigh", "2", "--metre", typed), 2)
    refused_in_one_line(maker("weigh", "2"), 2, "--metre 10m=4.3g")


def test_how_sure_a_length_is_can_be_asked_reason_by_reason(maker: Maker) -> None:
    """Half of what 76/211/EEC and FPackV tolerate, and a step of 1 g, for 40 g of 50 g / 120 m."""
    told = maker.ask("show", "4")
    shares = {one["why"]: one["share"] for one in told["spread"]}
    assert shares == {
        "length on the band": pytest.approx(0.01),
        "weight of a full skein": pytest.approx(0.045),
        "step of the scale": pytest.approx(1 / 12**0.5 / 40),
    }
    whole = sum(share**2 for share in shares.values()) ** 0.5
    assert told["spread_m"] == pytest.approx(96 * whole)
    (shelf,) = maker.ask("shelf", "oatmeal")
    assert shelf["spread_m"] == pytest.approx(told["spread_m"])
    text = maker.does("show", "4", "--spread").out
    assert "96 m ± 4 m" in text
    # Packs of 50 g to 100 g may be 4.5 g light: Directive 76/211/EEC, Annex I 2.4
    assert "a skein of 50 g may lawfully be 4.5 g light; half of that counts" in text


def test_a_core_that_was_not_weighed_widens_what_is_left_open(maker: Maker) -> None:
    maker.does("weigh", "4", "30g")
    bare = {one["why"] for one in maker.ask("show", "4")["spread"]}
    maker.does("change", "4", "--tare", "0g")
    known = {one["why"] for one in maker.ask("show", "4")["spread"]}

    assert bare - known == {"core or bag not weighed"}


def test_a_weighing_taken_back_counts_no_more(maker: Maker) -> None:
    before = maker.ask("show", "4")["spread_m"]
    maker.does("weigh", "4", "30g")
    maker.does("undo")

    assert maker.ask("show", "4")["spread_m"] == before


def test_a_skein_without_a_length_says_how_to_get_one(maker: Maker) -> None:
    assert "--metre" in maker.does("show", "6", "--spread").out


def test_half_a_ball_is_a_guess_until_it_is_weighed(maker: Maker) -> None:
    maker.does("add", "Hedgebell DK 50g/120m, lilac, about 20g left")
    guess = {one["why"] for one in maker.ask("show", "10")["spread"]}
    maker.does("weigh", "10", "23g", "--tare", "1g")

    assert guess - {one["why"] for one in maker.ask("show", "10")["spread"]} == {"a rough figure"}


def test_a_ball_is_not_a_length_to_weigh_by_itself(maker: Maker) -> None:
    refused_in_one_line(maker("weigh", "2", "--metre", "120m=50g"), 4, "weigh 25 m or less")


def test_a_tare_comes_off_what_the_scale_showed(maker: Maker) -> None:
    said = maker.does("weigh", "4", "38g", "--tare", "8g").out

    assert "38 g on the scale less 8 g tare is 30 g, 10 g less than noted" in said


def test_the_log_says_what_was_set_aside_in_her_units(maker: Maker) -> None:
    metric = maker.does("log", "--all").out
    maker.does("settings", "units", "us")
    us = maker.does("log", "--all").out

    (before,) = re.findall(
        r"(\d+) m of navy and \d+ m of oatmeal set aside for item 1, Hat", metric
    )
    (after,) = re.findall(r"(\d+) yd of navy and \d+ yd of oatmeal set aside for item 1, Hat", us)
    assert int(after) == pytest.approx(int(before) / 0.9144, abs=2)


def test_a_cancelled_entry_is_called_so(maker: Maker) -> None:
    maker.does("use", "2", "10g")
    said = maker.does("undo").out

    assert said.startswith("Entry 9 is cancelled: 10 g of skein 2 used")
    log = maker.does("log").out
    assert "Cancelled entry 9: 10 g of skein 2 used" in log
    assert "cancelled by entry 10" in log


def test_undo_shows_only_and_writes_nothing_where_that_is_asked(maker: Maker) -> None:
    said = maker.does("undo", "--show")

    assert re.match(r"Entry 8, \d{4}-\d\d-\d\d \d\d:\d\d, this computer: \S", said.out)
    assert maker.entries() == 8
    refused_in_one_line(maker("undo", "99", "--show"), 3, "stash log")


def test_the_log_and_undo_name_the_device_an_entry_was_written_on(maker: Maker) -> None:
    """Its name is kept with the entry, by whatever wrote it; here as a phone would."""
    assert {entry["device"] for entry in maker.ask("log")} == {""}
    assert "this computer" not in maker.does("log").out
    phone = replace(open_book(maker.file), device="kitchen phone")
    use.gone(phone, "2", use.Amount("3g", grams(3)), use.Kind.GIVEN)

    assert [entry["device"] for entry in maker.ask("log", "--newest", "2")] == ["kitchen phone", ""]
    newest, before, *_ = maker.does("log").out.splitlines()
    assert newest.endswith("  on kitchen phone")
    assert before.endswith("  on this computer")
    assert ", kitchen phone: 3 g of skein 2 given" in maker.does("undo", "--show").out


def test_undo_in_a_pipe_acts(maker: Maker) -> None:
    maker.does("undo")

    assert maker.entries() == 9


def test_the_log_is_narrowed_to_what_some_commands_did(maker: Maker) -> None:
    every = maker.ask("log", "--all")
    for kinds in (("aside",), ("add", "design add"), ("undo",)):
        found = maker.ask("log", "--all", "--kind", ",".join(kinds))
        assert found == [one for one in every if one["kind"] in kinds]
    designs = maker.ask("log", "--kind", "design")
    assert designs == [one for one in every if one["kind"].startswith("design ")]
    assert maker.does("log", "--kind", "undo").out == "No entries.\n"


def test_a_kind_or_a_device_that_no_entry_is_of_is_refused(maker: Maker) -> None:
    refused_in_one_line(maker("log", "--kind", "wiegh"), 2, "did you mean weigh?", "aside")
    refused_in_one_line(maker("log", "--device", "kitchen phone"), 3, "no device 'kitchen phone'")
    refused_in_one_line(maker("log", "--sum", "--kind", "weigh"), 2, "leave out --kind")
    assert maker.ask("log", "--device", "This computer") == maker.ask("log")


def test_every_command_that_writes_can_be_asked_for_in_the_log() -> None:
    source = "".join(one.read_text() for one in Path(*actions.__path__).glob("*.py"))
    written = {*re.findall(r'book\.entry\("([a-z ]+)"', source)}
    assert written | {"add", "import", "opening"} == {*WRITING}
