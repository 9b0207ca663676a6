"""The sentences of the log, and that there is one for every kind an entry may have."""

from __future__ import annotations

import pytest

from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.rendering.sentences.entries import SENTENCES
from stash.rendering.sentences.say import sentence
from stash.stock.entry import KINDS, from_json
from stash.stock.weighing import Verdict
from stash.stock.yarn import LotState


def test_every_kind_of_entry_has_its_sentence_and_no_other() -> None:
    assert SENTENCES.keys() == KINDS.keys()


HAT = {"item": 1, "name": "hat"}
NOBODY = {"item": None, "name": None}
ADDED = {"maker": "", "yarn": "Fellside", "colour": "navy", "colour_no": ""}


@pytest.mark.parametrize(
    ("what", "words"),
    [
        (
            Note("yarn_added", skeins=1, **ADDED, lot_text="7", lot_state=LotState.NUMBERED),
            "1 skein of Fellside navy, lot 7",
        ),
        (
            Note(
                "yarn_added",
                skeins=3,
                maker="Ottermeade",
                yarn="Brook",
                colour="",
                colour_no="104",
                lot_text="",
                lot_state=LotState.UNKNOWN,
            ),
            "3 skeins of Ottermeade Brook no. 104, lot not known",
        ),
        (
            Note("sheet_taken_in", skeins=1, lots=1, sheet="a.csv", opening_of="2024-06-01"),
            "1 skein in 1 lots from a.csv, opening stock of 2024-06-01",
        ),
        (
            Note("choice_set_aside", choice=(("A", (1, 2)), ("B", (3,))), **HAT),
            "own choice A=1,2, B=3 set aside for item 1, hat",
        ),
        (Note("skein_used", mass=grams(22), skein=2, **NOBODY), "22 g of skein 2 used"),
        (
            Note("skein_used", mass=Mass(5_540), skein=2, **HAT),
            "5.5 g of skein 2 used for item 1 (hat)",
        ),
        (
            Note(
                "skein_weighed",
                skein=1,
                net=grams(80),
                verdict=Verdict.USE,
                mass=grams(20),
                **HAT,
            ),
            "skein 1 weighed 80 g, use of 20 g for item 1 (hat)",
        ),
        (
            Note(
                "skein_weighed",
                skein=1,
                net=grams(77),
                verdict=Verdict.CORRECTION,
                mass=grams(-3),
                **NOBODY,
            ),
            "skein 1 weighed 77 g, correction of -3 g",
        ),
        (
            Note("place_counted", place="box", right=3, corrected=1, not_found=2, lost=0),
            "box counted: 3 right, 1 corrected, 2 not found",
        ),
        (
            Note("place_counted", place="box", right=3, corrected=1, not_found=2, lost=1),
            "box counted: 3 right, 1 corrected, 2 not found, 1 of them lost",
        ),
        (
            Note(
                "lot_changed",
                lot=2,
                done=(
                    Note("fact_now", fact="bought_on", value=None),
                    Note("tare_now", mass=grams(12)),
                    Note("put_up_now", mass=grams(50), length=metres(105)),
                    Note("lot_now", lot_text="", lot_state=LotState.CLAIMED_NONE, lot=4),
                    Note("daylight_now", looked_at=False),
                    Note("value_stays", value="#203050", why="daylight"),
                ),
            ),
            "lot L2: day of purchase is nothing now; tare is 12 g now; put-up is 50 g / 105 m now; "
            "lot is claimed none now (L4); not looked at in daylight yet; "
            "its value #203050 stays, because it was checked in daylight; --hex changes it",
        ),
        (Note("setting_set", setting="units", value=None), "units is as usual from now on"),
        (
            Note("entry_taken_back", entry=4, what="30 g of skein 2 given"),
            "takes back 4: 30 g of skein 2 given",
        ),
        (
            Note("entry_taken_back", entry=4, what=Note("design_changed", name="hat")),
            "takes back 4: design 'hat' put right",
        ),
    ],
    ids=lambda value: getattr(value, "kind", None),
)
def test_an_entry_is_said(what: Note, words: str) -> None:
    assert sentence(what) == words


def test_an_entry_read_from_a_file_is_said_the_same() -> None:
    kept = '{"kind": "lot_now", "lot_text": "7", "lot_state": "numbered"}'

    assert sentence(from_json(kept)) == "lot is 7 now"
