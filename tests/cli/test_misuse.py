"""A line typed in a way that there is none is answered with the nearest that there is."""

from __future__ import annotations

import shlex

import pytest
from commands import Maker, refused_in_one_line

from stash.cli.command_list import COMMANDS, OF_GROUPS, OTHER_DESIGN_WORDS, OTHER_WORDS
from stash.cli.loose_words import put_together
from stash.cli.main import command_line

#: Words that are no command, and the command that is meant.
MEANT = [
    ("list", "stash shelf"), ("find", "stash shelf"), ("search", "stash shelf"),
    ("stock", "stash shelf"), ("inventory", "stash shelf"), ("yarn", "stash shelf"),
    ("edit", "stash change"), ("rename", "stash change"), ("move", "stash change"),
    ("delete", "stash gone"), ("remove", "stash gone"), ("rm", "stash gone"),
    ("projects", "stash items"), ("project", "stash items"),
    ("pattern", "stash design list"), ("patterns", "stash design list"),
    ("plan", "stash batch"), ("what", "stash ideas"), ("new", "stash add"), ("buy", "stash add"),
    ("finish", "stash done"), ("finished", "stash done"), ("start", "stash begin"),
    ("cancel", "stash undo"), ("revert", "stash undo"), ("history", "stash log"),
    ("stats", "stash log"), ("size", "stash grade"), ("sell", "stash sold"),
    ("price", "stash cost"), ("label", "stash tag"), ("print", "stash tag"),
    ("frog", "stash unravel"), ("rip", "stash unravel"), ("wind", "stash split"),
    ("put", "stash change"), ("config", "stash settings"), ("options", "stash settings"),
    ("prefer", "stash settings"), ("xlsx", "stash export"), ("save", "stash export"),
    ("load", "stash import"), ("version", "stash --version"),
]  # fmt: skip
MISSPELT = [
    ("wiegh", "weigh"), ("shlef", "shelf"), ("mach", "match"), ("asid", "aside"), ("ned", "need"),
    ("udno", "undo"), ("Shelf", "shelf"), ("MATCH", "match"), ("exprot", "export"),
    ("serach", "shelf"), ("patern", "design list"), ("delet", "gone"),
]  # fmt: skip


@pytest.mark.parametrize(("word", "command"), MEANT)
def test_a_word_that_means_a_command_is_answered_with_it(
    nobody: Maker, word: str, command: str
) -> None:
    refused_in_one_line(nobody(word, "12", "anything"), 2, f"no command {word!r}", f"`{command}")


@pytest.mark.parametrize(("word", "command"), MISSPELT)
def test_a_misspelt_command_is_answered_with_the_nearest(
    nobody: Maker, word: str, command: str
) -> None:
    refused_in_one_line(nobody(word), 2, f"`stash {command}")


@pytest.mark.parametrize("one", [*OTHER_WORDS, *OTHER_DESIGN_WORDS], ids=lambda one: one.example)
def test_every_example_is_a_command_that_there_is(nobody: Maker, one: object) -> None:
    _, command, *rest = shlex.split(str(getattr(one, "example")))  # noqa: B009

    if not command.startswith("--"):
        options = [word for word in rest if word.startswith("--")]
        path = [command, *rest[:1]] if command == "design" else [command]
        assert [o for o in options if o not in nobody.does(*path, "--help").out] == []


@pytest.mark.parametrize("name", COMMANDS)
def test_the_example_of_a_command_is_of_that_command(name: str) -> None:
    assert shlex.split(COMMANDS[name].example)[:2] == ["stash", name]


def test_no_word_means_two_commands_nor_is_one() -> None:
    words = [word for one in OTHER_WORDS for word in one.words.split()]

    assert len(words) == len(set(words))
    assert {*words} & {*COMMANDS, "help"} == set()


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        (("shelf", "--plase", "box"), "--place"),
        (("shelf", "--json"), "--as json"),
        (("shelf", "--where", "box"), "--place"),
        (("match", "Hat", "--colr", "A=blue"), "--colour"),
        (("match", "Hat", "--weight", "4"), "--thickness"),
        (("match", "Hat", "--yarn", "A=L1"), "--with"),
        (("need", "--tension", "14 sts x 22 rows"), "--gauge"),
        (("need", "--circumference", "54cm"), "--around"),
        (("gone", "1", "--reason", "lost"), "--why"),
        (("done", "Hat", "--date", "2026-01-01"), "--on"),
        (("design", "add", "Hat", "--colour", "A=blue"), "match, aside, release, lasts, add"),
        (("match", "Hat", "--place", "box"), "shelf"),
        (("weigh", "1", "43g", "--hours", "2"), "batch and cost have it"),
        (("weigh", "1", "-5g"), "above nothing"),
        (("--file", "x", "shelf"), "after the command"),
        (("shelf", "--place"), "--place needs something"),
        (("use", "1"), "AMOUNT is missing"),
        (("settings", "colour", "vision", "protan"), "quotes"),
        (("match", "Hat", "--top", "many"), "--top: give a whole number"),
        (("weigh", "1", "43g", "--row", "-3"), "from 0"),
        (("weigh", "1", "43g", "--row", "1.5"), "--row: give a whole number"),
        (("shelf", "--as", "xml"), "choose text, json, csv"),
        (("undo", "last"), "ENTRY: give a whole number"),
        (("design", "new", "Hat"), "stash design add"),
        (("design", "chnge", "Hat"), "stash design change"),
    ],
)
def test_a_line_typed_wrongly_is_answered_with_what_there_is(
    nobody: Maker, typed: tuple[str, ...], offered: str
) -> None:
    refused_in_one_line(nobody(*typed), 2, offered)


#: What the arguments of each command could be at `commands.SHELF`.
GIVEN = {
    "design": "Hat", "item": "1", "skein": "1", "what": "1", "place": "blue box",
    "amount": "5g", "reading": "40g", "name": "Hat", "source": "no.csv", "target": "no/out.csv",
}  # fmt: skip
ODD = ("", "=", "A=", "A=x", "1-99999999", "\u00b2", "9" * 25, "2026-13-45", "17=", "{x}", "A=1=2")


def options_that_take_words() -> list[tuple[tuple[str, ...], str]]:
    found = []
    for name in COMMANDS:
        command = command_line(name).commands[name]
        inner = getattr(command, "commands", None) or {"": command}
        for sub, one in inner.items():
            given = [GIVEN.get(p.name, "") for p in one.params if p.param_type_name == "argument"]
            typed = tuple(word for word in (name, sub, *given) if word)
            found += [
                (typed, p.opts[0])
                for p in one.params
                if p.param_type_name == "option" and not p.is_flag and name != "demo"
                # any file can be served, until somebody stops it
                if (name, p.opts[0]) != ("serve", "--file")
            ]
    return found


@pytest.mark.parametrize(("typed", "option"), options_that_take_words(), ids=str)
def test_odd_words_after_an_option_are_an_answer_or_one_line(
    maker: Maker, monkeypatch: pytest.MonkeyPatch, typed: tuple[str, ...], option: str
) -> None:
    """Each option of each command; a traceback would come through as the exception itself."""
    monkeypatch.chdir(maker.file.parent)  # some of the words name a file to be written
    for odd in ODD:
        said = maker(*typed, f"{option}={odd}")

        assert said.status in (0, 2, 3, 4, 5)
        assert said.status == 0 or "stash: " in said.err


@pytest.mark.parametrize(
    ("takes", "words", "texts"),
    [
        (["SKEIN", "WEIGHT"], ["4", "3", "1/4", "oz"], ["4", "3 1/4 oz"]),
        (["SKEIN", "AMOUNT"], ["lot", "48213", "43", "g"], ["lot 48213", "43 g"]),
        (["SKEIN", "AMOUNT"], ["navy", "fell", "wool"], None),
        (["DESIGN", "SET"], ["winter", "hat", "L1+L2"], ["winter hat", "L1+L2"]),
        (["SKEIN|LOT", "ITEM"], ["item", "winter", "hat"], ["item", "winter hat"]),
        (["DESIGN"], ["wintr", "hat"], ["wintr hat"]),
        (["ITEMS"], ["12", "14-17"], ["12,14-17"]),
        (["NAME", "VALUE"], ["colour", "vision", "protan"], None),
        ([], ["more"], None),
    ],
)
def test_words_without_quotes_are_put_together_where_that_is_plain(
    takes: list[str], words: list[str], texts: list[str] | None
) -> None:
    assert put_together(takes, words) == texts


def test_a_name_and_an_amount_need_no_quotes(maker: Maker) -> None:
    assert maker.does("need", "hat").out == maker.does("need", "Hat").out
    maker.does("change", "1", "--place", "the blue box")
    assert maker.does("count", "the", "blue", "box").out.startswith("the blue box")
    maker.does("weigh", "1", "1", "1/2", "oz", "--opened")
    assert maker.skein(1)["held_g"] == pytest.approx(42.524, abs=0.001)
    refused_in_one_line(maker("undo", "3", "4"), 2, "stash undo")


@pytest.mark.parametrize("command", OF_GROUPS)
def test_a_command_of_a_group_is_shown_by_its_own_example(nobody: Maker, command: str) -> None:
    words = command.split()[1:]

    assert OF_GROUPS[command].startswith(command)
    assert nobody(*words, "--help").status == 0
    said = nobody(*words)
    assert said.status == 0 or OF_GROUPS[command] in said.err or "no stash there yet" in said.err


def test_what_only_looks_at_several_items_saves_nothing_to_speak_of(maker: Maker) -> None:
    said = refused_in_one_line
    maker.does("aside", "Hat")
    said(maker("tag", "1-2"), 4, "or leave it out")
    said(maker("sold", "1-2", "--for", "3"), 4, "nothing was saved")
