"""How yarn is dyed and what its strand is like, read from a label line.

The lines and keys of `fixtures/checks/strand_lines.csv` were fixed before the reader saw them; that
the words mean what the keys say is common practice, no source.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest
from label_judge import Row, words_alike

from stash.errors import Unreadable
from stash.parsing.label import read, strand_words
from stash.parsing.label.strand import looks_of
from stash.stock.yarn import Dyed, Surface

_TABLE = Path(__file__).parents[3] / "fixtures" / "checks" / "strand_lines.csv"
_ROWS: list[Row] = list(csv.DictReader(_TABLE.open(encoding="utf-8", newline="")))
#: Its box is read as a colour's, as without the word before it.
_NOT_RIGHT = {"67"}


def _faults(row: Row) -> list[str]:
    line = read(row["line"]).incoming
    looks = {"dyed": line.dyed or "", "surface": line.surface or ""}
    faults = [f"{what} {said!r}" for what, said in looks.items() if said != row[what]]
    faults += [words_alike("name", row["yarn_name"], line.name)]
    return [
        fault for fault in [*faults, words_alike("colour", row["colour"], line.colour)] if fault
    ]


@pytest.mark.parametrize("row", _ROWS, ids=lambda row: row["id"])
def test_a_line_says_how_its_yarn_is_dyed_and_made(row: Row) -> None:
    assert bool(faults := _faults(row)) == (row["id"] in _NOT_RIGHT), f"{row['line']}: {faults}"


def test_the_lines_are_many() -> None:
    assert len(_ROWS) >= 60


def test_every_way_and_every_surface_is_among_the_lines() -> None:
    assert {row["dyed"] for row in _ROWS} == {"", *Dyed}
    assert {row["surface"] for row in _ROWS} == {"", *Surface}


def test_words_between_commas_are_no_note_and_no_second_colour() -> None:
    line = read("Fernhope DK, 50g/120m, teal, self-striping, brushed").incoming

    assert (line.colour, line.note) == ("teal", "")
    assert (line.dyed, line.surface) == (Dyed.STRIPING, Surface.BRUSHED)


def test_the_only_word_for_a_colour_stays_its_colour() -> None:
    """Else two lots of one yarn and number would look alike in the record."""
    assert read("Fernhope DK, 50g/120m, variegated, lot 5").incoming.colour == "variegated"


def test_the_colour_outranks_the_name() -> None:
    assert looks_of("Stripy Sock", ["solid teal"]).dyed is Dyed.SOLID


def test_hand_dyed_yarn_is_of_no_way_until_it_says_one() -> None:
    line = read("Fernhope DK, hand dyed, 50g/120m, plum").incoming

    assert (line.hand_dyed, line.dyed) == (True, None)


def test_what_was_read_is_shown() -> None:
    kinds = [note.kind for note in read("Fernhope Tweed DK, 50g, brushed, moss").understood]

    assert kinds[-2:] == ["read_dyed", "read_surface"]


@pytest.mark.parametrize(
    ("typed", "way"),
    [
        *((way.value, way) for way in Dyed),
        *(("Self-Striping", Dyed.STRIPING), ("multicolor", Dyed.VARIEGATED)),
        *(("multi-coloured", Dyed.VARIEGATED), ("marl", Dyed.HEATHERED)),
        *(("hethered", Dyed.HEATHERED), ("varigated", Dyed.VARIEGATED), ("sollid", Dyed.SOLID)),
        *(("kettle dyed", Dyed.HEATHERED), ("rainbow", Dyed.VARIEGATED)),
        *(("unknown", None), ("?", None), ("none", None), ("", None)),
    ],
)
def test_a_way_of_dyeing_is_typed_in_any_spelling(typed: str, way: Dyed | None) -> None:
    assert strand_words.dyed(typed) is way


@pytest.mark.parametrize(
    ("typed", "made"),
    [
        *((made.value, made) for made in Surface),
        *(("boucle", Surface.LOOPED), ("BRUSHD", Surface.BRUSHED), ("fluffy", Surface.BRUSHED)),
        *(("mercerised", Surface.SMOOTH), ("mercerized", Surface.SMOOTH)),
        *(("single-ply", Surface.SINGLE), ("singles", Surface.SINGLE), ("unknown", None)),
    ],
)
def test_a_surface_is_typed_in_any_spelling(typed: str, made: Surface | None) -> None:
    assert strand_words.surface(typed) is made


@pytest.mark.parametrize("typed", ["navy", "hand-dyed", "soft", "not striped"])
def test_what_is_no_way_of_dyeing_is_refused_with_those_there_are(typed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        strand_words.dyed(typed)

    assert refused.value.facts["choices"] == tuple(Dyed)
