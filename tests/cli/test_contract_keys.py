"""The keys that scripts may rely on, as the contract of the commands names them."""

from __future__ import annotations

import json

from commands import Maker

#: What is known of a lot and its skeins; how it is dyed and its surface are not kept yet.
SHELF = """lot_ref yarn maker colour colour_hex colours_hex lot lot_state thickness thickness_to
    fibre held_g held_m free_g free_m set_aside_g set_aside_m short_g spread_m skeins"""
SKEIN = """number state full_g full_m full_from held_g held_m free_g free_m set_aside_g place"""
MATCH = "need as_of proposals near_misses looked_at"
NEED = "roles source margin notes"
ROLE_NEED = "expected_m spread_m set_aside_m expected_g set_aside_g strands source margin"
PROPOSAL = "rank key cost roles lightness_gap colour_difference reasons"
FILLED = "lot_ref yarn colour lot free_m coverage chance left_m joins reasons skeins"
TAKE = "number lot_ref place strand take_m take_g"
NEAR_MISS = "roles why fixes short_m short_g short_rows"
SAID = "kind words"
PROMISE = "item design role skein lot_ref place set_aside_g set_aside_m"
ASIDE = "entry item design places roles notes cautions"
FETCH = "number place role lot_ref yarn colour lot take_g take_m held_g"


def lacking(promised: str, found: dict[str, object]) -> list[str]:
    return [key for key in promised.split() if key not in found]


def test_the_shelf_has_its_keys(maker: Maker) -> None:
    for lot in maker.ask("shelf"):
        assert lacking(SHELF, lot) == []
        for skein in lot["skeins"]:
            assert lacking(SKEIN, skein) == []


def test_a_match_has_its_keys(maker: Maker) -> None:
    found = maker.ask("match", "Hat")

    assert lacking(MATCH, found) == []
    assert lacking(NEED, found["need"]) == []
    assert all(lacking(ROLE_NEED, role) == [] for role in found["need"]["roles"].values())
    assert found["proposals"]
    for proposal in found["proposals"]:
        assert lacking(PROPOSAL, proposal) == []
        for filled in proposal["roles"].values():
            assert lacking(FILLED, filled) == []
            assert all(lacking(TAKE, take) == [] for take in filled["skeins"])
            assert all(lacking(SAID, reason) == [] for reason in filled["reasons"])
        assert all(lacking(SAID, reason) == [] for reason in proposal["reasons"])


def test_a_near_miss_has_its_keys_and_facts(maker: Maker) -> None:
    (miss,) = maker.ask("match", "Hat", "--with", "A=4", "--with", "B=L1")["near_misses"]

    assert lacking(NEAR_MISS, miss) == []
    assert all(lacking(SAID, fix) == [] for fix in miss["fixes"])
    (blocker,) = miss["blockers"]
    assert blocker["kind"] == "lot_short"
    assert abs(blocker["has_m"] + blocker["short_m"] - blocker["needs_m"]) < 1e-6
    assert miss["short_m"] == blocker["short_m"]


def test_what_is_set_aside_has_its_keys(maker: Maker) -> None:
    made = json.loads(maker.does("aside", "Hat", "L1+L2", "--as", "json").out)
    (promised, *_) = maker.ask("shelf", "--aside")

    assert lacking(ASIDE, made) == []
    assert made["places"]
    for place in made["places"]:
        assert all(lacking(FETCH, fetch) == [] for fetch in place["skeins"])
    assert lacking(PROMISE, promised) == []


def test_lists_are_empty_and_never_null(maker: Maker) -> None:
    found = maker.ask("match", "--need", "A=9000m", "--colour", "A=navy")

    assert found["proposals"] == []
    assert all(isinstance(miss["fixes"], list) for miss in found["near_misses"])
