"""How every command ends: an answer, or one line with a way out and nothing written."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from commands import Maker, refused_in_one_line

#: Words that cannot be read, by command: what is typed, and what the line must offer.
UNREADABLE = [
    (("add", ""), "needs a name"),
    (("add", "200"), "200 g"),
    (("add", "Fell Wool 50g/120m", "--count", "0"), "from 1"),
    (("add", "Fell Wool 50g/120m", "--count", "99999999999999999999999"), "from 1"),
    (("add", "Fell Wool 50g/120m", "--hex", "green"), "#rrggbb"),
    (("add", "Fell Wool 50g/120m", "--lot", "mixed"), "for each lot"),
    (("add", "Fell Wool 50g/120m", "--tare", "1 mile"), "43g"),
    (("add", "Fell Wool DK 50g/120m", "--on", "soon"), "2024-01-12"),
    (("add", "Fell Wool 50g/99999999999999999999999m"), "far too much"),
    (("shelf", "--free", "100"), "100 m"),
    (("shelf", "--thickness", "lumpy"), "DK"),
    (("show", "hedgebell"), "L2"),
    (("weigh", "1", "40"), "40 g"),
    (("weigh", "hedgebell", "40g"), "L5"),
    (("use", "1", "20"), "20 m"),
    (("use", "1", "lots"), "43g"),
    (("gone", "1"), "--why given"),
    (("gone", "1", "--why", "eaten"), "given"),
    (("change", "1"), "--place"),
    (("change", "1", "--full", "nonsense"), "100g/200m"),
    (("change", "L1", "--thickness", "9"), "0 to 7"),
    (("undo", "99999999999999999999999"), "from 1"),
    (("log", "--newest", "0"), "from 1"),
    (("log", "--newest", "99999999999999999999999"), "from 1"),
    (("need", "--shape", "hat", "--around", "54cm", "--tall", "22cm"), "round hat"),
    (("need", "--stated", "A=200"), "200 yd"),
    (("need", "--stated", "200yd"), "A=200yd"),
    (("need", "--stated", "E=200yd"), "A, B, C or D"),
    (("need", "--shape", "cowl", "--around", "60cm", "--tall", "20cm", "--band", "E 2cm"), "B 2cm"),
    (("need", "--stated", "A=200yd", "--margin", "much"), "15%"),
    (("need", "Hat", "--stated", "A=20m"), "not both"),
    (("design", "add", "12", "--stated", "A=100m"), "add a word"),
    (("match", "--need", "A=165"), "165 m"),
    (("match", "--need", "A=0m"), "more than 0"),
    (("match", "--need", "E=3m"), "A=…"),
    (("match", "Hat", "--contrast", "loud"), "bold"),
    (("match", "Hat", "--top", "0"), "from 1"),
    (("match", "Hat", "--need", "A=3m"), "leave out"),
    (("aside",), "Name a design"),
    (("aside", "Hat", "99999999999999999999999"), "as one of the sets: type its number"),
    (("aside", "Hat", "0"), "as one of the sets: type its number"),
    (("aside", "Hat", "--skeins", "A=x"), "A=12,13"),
    (("aside", "Hat", "--skeins", "A=²"), "A=12,13"),
    (("aside", "--note", "for the class"), "--skein"),
    (("done", "Hat", "--left", "1"), "17=43g"),
    (("done", "Hat", "--weighed", "80"), "80 g"),
    (("settings", "contrast", "loud"), "bold"),
    (("settings", "thickness tolerance", "²"), "use 0 to 7"),
    (("settings", "currency", "euro"), "EUR"),
    (("export", "shelf.pdf"), ".csv"),
    # and commands typed in a way that there is none
    (("frobnicate",), "--help"),
    (("weigh",), "Type 12 43g"),
    (("weigh", "1", "-5g"), "stash weigh --help"),
    (("shelf", "--sideways"), "stash shelf --help"),
    (("shelf", "--as", "xml"), "text"),
    (("add", "Fell Wool 50g/120m", "--count", "x"), "--count"),
    (("design", "frob"), "stash design --help"),
]
#: Things that are not there, and what the line must offer.
MISSING = [
    (("show", "77"), "stash shelf"),
    (("show", "99999999999999999999999"), "stash shelf"),
    (("show", "fell vool naffy"), "did you mean L1"),
    (("show", "item", "9"), "stash items"),
    (("weigh", "L99", "40g"), "stash shelf"),
    (("weigh", "2", "130g", "--tare", "bowl"), "stash settings"),
    (("use", "2", "5g", "--for", "Mitten"), "1 (Hat)"),
    (("gone", "purple", "--why", "lost"), "stash shelf"),
    (("change", "L99", "--lot", "3"), "stash shelf"),
    (("undo", "99"), "stash log"),
    (("need", "Hta"), "did you mean Hat"),
    (("design", "show", "Hta"), "did you mean Hat"),
    (("design", "change", "Hta", "--thickness", "4"), "did you mean Hat"),
    (("match", "Hat", "--with", "A=77"), "stash shelf"),
    (("match", "Hat", "--with", "C=1"), "try A"),
    (("aside", "Hta", "1"), "did you mean Hat"),
    (("aside", "Hat", "L1+L99"), "stash shelf"),
    (("release", "9"), "stash items"),
    (("begin", "9"), "stash items"),
    (("done", "9", "--as-planned"), "stash items"),
    (("done", "1", "--left", "99999999999999999999999=3g"), "stash shelf"),
    (("settings", "unit", "yards"), "did you mean units"),
]
#: Things that are understood and refused by the rules, and the way out.
REFUSED = [
    (("add", "blue"), "Weigh it"),
    (("weigh", "2", "30g"), "--opened"),
    (("use", "2", "51g"), "stash weigh"),
    (("use", "1", "50m"), "Hat"),
    (("use", "2", "2x50g", "--for", "Hat"), "stash weigh"),
    (("use", "2", "0g"), "type an amount"),
    (("use", "6", "10m"), "--full"),
    (("gone", "1", "50g", "--why", "sold"), "Hat"),
    (("change", "1", "--place", "blue box"), "nothing changed"),
    (("need", "--shape", "round hat"), "--around"),
    (("design", "add", "Hat", "--stated", "A=10m"), "another name"),
    (("aside", "Hat", "999"), "stash match"),
    (("aside", "Hat", "--skeins", "A=2"), "--skeins B"),
    (("done", "Hat"), "--left"),
    (("done", "Hat", "--weighed", "20g", "--as-planned"), "--weighed"),
    (("undo", "1"), "first"),
    (("add", "Fell Wool DK 50g/120m", "--on", "2999-01-01"), "in the future"),
    (("weigh", "1", "40g", "--on", "2999-01-01"), "in the future"),
]


@pytest.mark.parametrize(
    ("typed", "way_out", "status"),
    [
        (typed, way_out, status)
        for status, cases in ((2, UNREADABLE), (3, MISSING), (4, REFUSED))
        for typed, way_out in cases
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else str(value),
)
def test_a_refused_command_says_one_line_and_writes_nothing(
    maker: Maker, typed: tuple[str, ...], way_out: str, status: int
) -> None:
    before = maker.file.read_bytes()

    refused_in_one_line(maker(*typed), status, way_out)

    assert maker.file.read_bytes() == before


READING = [
    ("shelf",),
    ("shelf", "--aside"),
    ("show", "1"),
    ("log",),
    ("check",),
    ("need", "Hat"),
    ("match", "Hat"),
    ("match", "--need", "A=10m"),
    ("design", "list"),
    ("design", "show", "Hat"),
    ("export", "shelf.csv"),
]


@pytest.mark.parametrize("typed", [*READING, ("need", "Tern")], ids=" ".join)
def test_reading_where_there_is_no_file_makes_none(nobody: Maker, typed: tuple[str, ...]) -> None:
    # the need of a thing can be asked without a file: it is said how
    status, way_out = (3, "stash need") if typed == ("need", "Hat") else (5, "stash add")
    refused_in_one_line(nobody(*typed), status, way_out)

    assert not nobody.file.exists()


@pytest.mark.parametrize("typed", READING[:-1], ids=" ".join)
def test_reading_changes_no_byte_of_the_file(maker: Maker, typed: tuple[str, ...]) -> None:
    before = maker.file.read_bytes()

    assert maker(*typed).err == ""

    assert maker.file.read_bytes() == before


def test_stopping_a_command_says_that_nothing_was_booked(
    maker: Maker, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("stash.actions.use.book_use", stopped)

    said = maker("use", "2", "5g")

    assert (said.status, said.err) == (130, "stash: stopped, nothing was saved\n")
    assert maker.entries() == 8


def test_a_label_cannot_give_orders_to_the_terminal(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool \x1b]owned\x07 50g/120m", "--place", "a\x1b[2Jb\x9bc")

    shown = nobody.does("show", "1").out + nobody.does("shelf").out + nobody.does("log").out

    assert not {"\x1b", "\x07", "\x9b"} & set(shown)


def run_alone(
    *words: str, file: Path, encoding: str = "utf-8"
) -> subprocess.CompletedProcess[bytes]:
    """A process of its own, as a terminal that knows only so many letters starts it."""
    return subprocess.run(
        [sys.executable, "-c", "from stash.cli import run; run()", *words],
        env={"PYTHONPATH": _above(), "STASH_FILE": str(file), "PYTHONIOENCODING": encoding},
        capture_output=True,
        check=False,
    )


def _above() -> str:
    return str(Path(__file__).resolve().parents[2])


def test_a_terminal_without_the_letters_still_gets_its_answer(maker: Maker) -> None:
    plain = run_alone("match", "Hat", file=maker.file, encoding="ascii")

    assert plain.returncode == 0
    assert b"take 111 m of skein 2" in plain.stdout
    assert plain.stderr == b""


def test_a_process_of_its_own_leaves_with_the_status_of_its_mistake(maker: Maker) -> None:
    missing = run_alone("show", "77", file=maker.file)

    assert missing.returncode == 3
    assert missing.stderr == b"stash: no skein 77; `stash shelf` lists yours\n"


def test_letters_that_are_none_are_refused_in_one_line(maker: Maker) -> None:
    torn = run_alone("add", "Fell \udcff Wool 50g/120m", file=maker.file)

    assert torn.returncode == 2
    assert torn.stderr.startswith(b"stash: ")
    assert torn.stderr.count(b"\n") == 1
