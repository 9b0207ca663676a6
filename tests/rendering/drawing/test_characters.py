"""A drawing in characters, with and without blocks and colour."""

from __future__ import annotations

from dataclasses import replace

from stash.measures.length import Length, metres
from stash.parsing.design.design import DesignWords, design
from stash.rendering.drawing.characters import Look, drawing
from stash.requirements.design.bands import Band
from stash.requirements.yarn.estimate import need_of, stated_need

SCARF = design(DesignWords(shape="scarf", wide="60cm", long="60cm", gauge="20 sts x 28 rows",
                         fabric="stockinette", thickness="3", bands=("B 15cm",)))  # fmt: skip


def test_it_is_drawn_with_what_its_marks_stand_for() -> None:
    *lines, legend = drawing(need_of(SCARF), "utf-8")

    assert lines == ["░" * 24] * 9 + ["█" * 24] * 3
    assert legend == "░░ A  ██ B"


def test_an_encoding_without_blocks_gets_plain_marks() -> None:
    *lines, legend = drawing(need_of(SCARF), "ascii")

    assert "".join([*lines, legend]).isascii()
    assert {".", "#"} == set("".join(lines))


def test_marks_are_coloured_and_named_as_asked() -> None:
    look = Look({"A": "navy", "B": "oat"}, lambda role, marks: f"<{role}{marks}>")
    *lines, legend = drawing(
        need_of(replace(SCARF, bands=(Band("B", Length(150_000)),))), "utf-8", look
    )

    assert lines[0].startswith("<A░>")
    assert "<B██> oat" in legend


def test_where_no_rows_are_known_nothing_is_drawn() -> None:
    assert drawing(stated_need({"A": metres(100)}), "utf-8") == []
