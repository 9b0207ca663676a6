"""The sentences of the log, and that there is one for every kind an entry may have."""

from __future__ import annotations

from contextvars import copy_context

import pytest

from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.figures import Units
from stash.rendering.sentences.entries import SENTENCES
from stash.rendering.sentences.say import sentence
from stash.stock.entry import KINDS, from_json
from stash.stock.weighing import Verdict
from stash.stock.yarn import LotState


def test_every_kind_of_entry_has_its_sentence_and_no_other() -> None:
    assert SENTENCES.keys() == KINDS.keys()


HAT = {"item": 1, "name": "hat"}
#: What one setting of a size is kept as, and what a person typed.
SIZE = "around 540000 tall 220000"
NOBODY = {"item": None, "name": None}


def take(skein: int, length_m: float, colour: str = "navy") -> Note:
    length, mass = metres(length_m), grams(length_m / 2)
    return Note("yarn_taken", skein=skein, length=length, mass=mass, colour=colour, yarn="Fellside")


ADDED = {"maker": "", "yarn": "Fellside", "colour": "navy", "colour_no": ""}


@pytest.mark.parametrize(
    ("what", "words"),
    [
        (
            Note("yarn_added", skeins=1, **ADDED, lot_text="7", lot_state=LotState.NUMBERED),
            "added 1 skein of Fellside, navy, lot 7",
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
            "added 3 skeins of Ottermeade Brook, no. 104, lot not known",
        ),
        (
            Note("sheet_taken_in", skeins=1, lots=1, sheet="a.csv", opening_of="2024-06-01"),
            "imported 1 skein of 1 lot from a.csv, opening stock of 2024-06-01",
        ),
        (
            Note("choice_set_aside", choice=(("A", (1, 2)), ("B", (3,))), **HAT),
            "skeins 1-2 (A) and skein 3 (B) set aside for item 1, hat, as you chose",
        ),
        (
            Note("choice_set_aside", choice=(("A", (1,)),), **HAT, takes=(take(1, 143),)),
            "143 m of navy set aside for item 1, hat, as you chose",
        ),
        (
            Note("proposal_set_aside", key="L1+L2", **HAT),
            "L1+L2 set aside for item 1, hat",
        ),
        (
            Note(
                "proposal_set_aside",
                key="L1+L2",
                **HAT,
                takes=(take(1, 100.2), take(2, 41.5), take(4, 63, colour="")),
            ),
            "143 m of navy and 63 m of Fellside set aside for item 1, hat",
        ),
        (
            Note("colour_released", role="B", **HAT),
            "item 1, hat, no longer has yarn set aside for colour B",
        ),
        (
            Note("colours_released", role="B", numbers=(1, 2, 4)),
            "items 1-2, 4 no longer have yarn set aside for colour B",
        ),
        (Note("skein_used", mass=grams(22), skein=2, **NOBODY), "22 g of skein 2 used"),
        (
            Note("skein_used", mass=Mass(5_540), skein=2, **HAT),
            "5.5 g of skein 2 used for item 1, hat",
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
            "skein 1 weighed: 80 g left, 20 g used for item 1, hat",
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
            "skein 1 weighed: 77 g left, 3 g less than noted",
        ),
        (
            Note("place_counted", place="box", right=3, corrected=1, not_found=2, lost=0),
            "box counted: 3 as noted, 1 corrected, 2 missing",
        ),
        (
            Note("place_counted", place="box", right=3, corrected=1, not_found=2, lost=1),
            "box counted: 3 as noted, 1 corrected, 1 missing, 1 lost",
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
            "lot L2: bought cleared; tare set to 12 g; full skein set to 50 g / 105 m; "
            "dye lot set to none claimed (L4); not checked in daylight yet; "
            "hex stays #203050, because you checked it in daylight; change it with --hex",
        ),
        (
            Note("setting_set", setting="size mo", value=SIZE),
            "size mo set to around 54 cm tall 22 cm",
        ),
        (
            Note("item_done", **HAT, mass=grams(69), how="balls"),
            "item 1, hat, is done: 69 g used (balls weighed)",
        ),
        (Note("skein_gone", mass=grams(30), skein=2, why="given"), "30 g of skein 2 given away"),
        (Note("setting_set", setting="units", value=None), "units set back to usual"),
        (
            Note("entry_taken_back", entry=4, what="30 g of skein 2 given"),
            "cancelled entry 4: 30 g of skein 2 given",
        ),
        (
            Note("entry_taken_back", entry=4, what=Note("design_changed", name="hat")),
            "cancelled entry 4: changed the design hat",
        ),
    ],
    ids=lambda value: getattr(value, "kind", None),
)
def test_an_entry_is_said(what: Note, words: str) -> None:
    assert sentence(what) == words


def test_an_entry_is_shown_in_her_units() -> None:
    used = Note("skein_used", mass=Mass(28_350), skein=2, **NOBODY)
    aside = Note("proposal_set_aside", key="L1", **HAT, takes=(take(1, 130.5),))

    def in_her_units(what: Note) -> str:
        figures.use(Units("yd", "oz", "in"))
        return sentence(what)

    assert copy_context().run(in_her_units, used) == "1 oz of skein 2 used"
    assert copy_context().run(in_her_units, aside) == "143 yd of navy set aside for item 1, hat"


def test_an_entry_read_from_a_file_is_said_the_same() -> None:
    kept = '{"kind": "lot_now", "lot_text": "7", "lot_state": "numbered"}'

    assert sentence(from_json(kept)) == "dye lot set to 7"
