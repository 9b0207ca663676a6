"""In US units every command and help spells as the US does; what she typed stays as it is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from british import british_left
from commands import Maker

from stash.cli.command_list import COMMANDS
from stash.cli.main import command_line

HAT = "Tidewrack hat"
#: Commands of every kind that answer something of the demo workshop, or say what is wrong.
LINES = f"""
ideas
ideas --all
ideas 12
match "{HAT}" --all
match "{HAT}" --contrast tonal --all
match "{HAT}" --contrast bold --wash hot --all
match "{HAT}" --colour A=purple --all
match "{HAT}" --with A=12 --with B=14
match "{HAT}" --two-lots A=alternate --all
match "{HAT}" --colour A=blu
match "{HAT}" --colour A=blue,B=teal
match "{HAT}" --without wol
match "{HAT}" --per-100g 10-20
items
items --all
shelf
shelf --sort colour
shelf --sort tint
shelf --aside
show 12
show L1
show item 1
design list
design show "{HAT}"
design add spot --shape "round hat" --size woman --from centre --fabric "1 hdc"
need "{HAT}"
need --shape "round hat" --size woman --fabric "1 hdc" --thickness 4 --band "B 4cm bottom"
need --shape "round hat" --size woman --fabric "1 hdc" --thickness 4 --extra "fringe 40"
grade "{HAT}" --sizes "child 5, woman"
reach "{HAT}" --have A=150m --have B=30m
batch --want "{HAT}=3" --all
batch --want "{HAT}=300" --hours 5
batch --want "{HAT}=4" --per-colour 1 --different 9
short --want "{HAT}=30"
short --need A=5000m
cost 1
cost "{HAT}"
tag 1
tag 1 --rules eu
tag 1 --rules uk
tag 1 --rules us
sales
value
log
log --all
log --sum
log --sum --by lot
log --sum --by hue
check
settings
settings contrast
settings ranking
settings "colour vision" protan
settings "ranking colour not known" 1
lasts --readings "0:98g 20:81g 40:63g" --rows-left 36
count basket
add "Fell Wool worsted 100g/200m, navy" --hex green
add "Fell DK 100m/50g blurple-ish lot 5, 60% wool"
change 12 --fibre "60% wool"
change 12 --hex "#12"
change 12 --colour-no 5
change 13 --daylight
change 12 --place
order add "for Jo" "{HAT}" --by 2999-01-01 --colour A=blue
order list
weigh 12 lots
weigh 12 70g
weigh 14 --metre 10m=4.3g
aside "{HAT}" 1
aside "{HAT}" 1 --contrast any
begin 2
unravel 2
undo --yes
undo --yes
log --all
match "{HAT}" --all
"""


CIRCLE = ("need", "--shape", "circle", "--wide", "20cm", "--fabric", "1 dc", "--thickness", "4")


def words_of(line: str) -> list[str]:
    return [plain or quoted for quoted, plain in re.findall(r'"([^"]*)"|([^\s"]+)', joined(line))]


def joined(line: str) -> str:
    """A quoted part in the middle of a word is that word's."""
    return re.sub(r'(\S+=)?"([^"]*)"', lambda m: f'"{m[1] or ""}{m[2]}"', line)


def paths() -> Iterator[str]:
    for name in COMMANDS:
        yield name
        inner = getattr(command_line(name).commands[name], "commands", {})
        yield from (f"{name} {one}" for one in inner)


@pytest.fixture(scope="module")
def american_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("us") / "us.stash"
    maker = Maker(file)
    maker.does("demo", "--keep", str(file))
    maker.does("settings", "units", "us", "--file", str(file))
    maker.does("change", "L36", "--colour", "ash", "--file", str(file))  # she had typed grey
    return file


@pytest.fixture
def american(american_file: Path, nobody: Maker) -> Maker:
    return nobody.copy_of(american_file)


def test_no_answer_has_a_british_form(american: Maker) -> None:
    wrong = {}
    for line in LINES.strip().splitlines():
        words = words_of(line)
        said = american(*words)
        assert "Traceback" not in said.err
        if left := british_left(said.out + said.err):
            wrong[line] = left
    assert wrong == {}


def test_no_help_has_a_british_form_and_all_are_whole_at_80_columns(american: Maker) -> None:
    wrong = {}
    for path in ("", *paths()):
        said = american.does(*path.split(), "--help").out
        assert max(map(len, said.splitlines())) <= 80, path
        if left := british_left(said):
            wrong[path] = left
    assert wrong == {}


def test_a_help_is_british_where_she_is(nobody: Maker) -> None:
    nobody.does("add", "Fell Wool worsted 100g/200m, navy")
    assert "--colour A=COLOUR" in nobody.does("match", "--help").out
    nobody.does("settings", "units", "us")
    assert "--color A=COLOR" in nobody.does("match", "--help").out
    nobody.does("settings", "terms", "uk")
    assert "--colour A=COLOUR" in nobody.does("match", "--help").out


@pytest.mark.parametrize(
    "words",
    [
        ("shelf", "--sort", "color"),
        ("shelf", "--family", "gray"),
        ("match", HAT, "--not-color", "red"),
        ("settings", "color vision", "protan"),
        ("settings", "ranking color not known", "1"),
        ("change", "12", "--color-no", "5"),
        ("change", "12", "--fiber", "80% wool, 20% nylon"),
        ("weigh", "13", "--meter", "10yd=0.2oz"),
        (*CIRCLE, "--from", "center"),
    ],
)
def test_what_is_shown_so_can_be_typed_so(american: Maker, words: tuple[str, ...]) -> None:
    assert american.does(*words)
