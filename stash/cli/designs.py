"""Designs and what they need."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import (
    As,
    AsOption,
    File,
    answer,
    begun,
    begun_book,
    design_meant,
    in_her_units,
    open_book,
    page,
    page_of,
    refuse,
    say,
    say_notes,
    settings_of,
)
from stash.cli.design_options import describes_a_design
from stash.cli.match_options import Margin

if TYPE_CHECKING:
    from stash.actions.her_settings import Settings
    from stash.parsing.design.design import DesignWords
    from stash.requirements.yarn.design_context import DesignContext


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(need)
    designs = typer.Typer(
        help="What you make again and again: save it, look at it, change it.", no_args_is_help=True
    )
    for name, command in (
        ("add", add_design),
        ("list", list_designs),
        ("show", show_design),
        ("change", change_design),
        ("copy", copy_design),
        ("drop", drop_design),
    ):
        designs.command(name=name)(command)
    app.add_typer(designs, name="design")


@describes_a_design
def need(
    words: DesignWords,
    design: Annotated[str, typer.Argument(help="A design you saved; or describe one below.")] = "",
    margin: Margin = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """The yarn a design takes. By colour: about how much, and what to set aside."""
    from stash.rendering import need as rendered

    known, settings = known_design(design, words, margin, file)
    asked = known.need(known.design)
    in_units_typed(settings, words)
    answer(
        how,
        lambda: rendered.keys(asked),
        lambda: rendered.text(asked, page(), known.design.name),
        lambda: rendered.rows(asked),
    )


def in_units_typed(settings: Settings, words: DesignWords) -> None:
    """Show amounts in the units she chose; else in those she typed this design in."""
    from stash.parsing import quantities

    typed = (words.around, words.tall, words.wide, words.long, words.put_up, *words.stated)
    in_her_units(settings, quantities.units_typed(typed))


def in_her_words(words: DesignWords, settings: Settings) -> DesignWords:
    """Her names of stitches, and the sides of a size of her own where none is typed beside it."""
    from stash.parsing.design import design as design_typed

    return design_typed.in_her_words(words, settings.terms, settings.scale_step, settings.own_size)


def say_of_shape(words: DesignWords) -> None:
    """What is to be known of a shape that was said by an everyday name."""
    from stash.parsing.design import shapes

    if words.shape:
        say_notes(shapes.meant(words.shape).notes)


def known_design(
    design: str, words: DesignWords, margin: str, file: Path | None
) -> tuple[DesignContext, Settings]:
    """A kept design with what is known of it, or one described with options; and her settings."""
    from stash.actions import designs
    from stash.parsing import names
    from stash.parsing.design import design as design_typed

    share = design_typed.margin(margin) if margin else None
    described = words != design_typed.DesignWords(terms=words.terms)
    if design and described:
        refuse("named_and_described")
    if begun(file) and not described:
        design = design_meant(file, design)
    elif design and names.shapes_named(design)[0]:
        designs.HerDesigns().plan(design)  # refused with how to describe it
    if design:
        kept = designs.show(open_book(file), design, share)
        return kept.known, kept.settings
    hers = designs.her_designs(open_book(file)) if begun(file) else designs.HerDesigns()
    plan = design_typed.design(in_her_words(words, hers.settings))
    say_of_shape(words)
    return hers.known_for(plan, share), hers.settings


@describes_a_design
def add_design(
    words: DesignWords,
    name: Annotated[str, typer.Argument(help="What you call it, as 'Winter hat'.")],
    file: File = None,
) -> None:
    """Save a design under a name."""
    from stash.actions import designs
    from stash.parsing.design import design as design_typed
    from stash.rendering import designs as rendered
    from stash.rendering import figures

    settings = settings_of(file)
    words = replace(in_her_words(words, settings), name=design_typed.design_name(name))
    plan = design_typed.design(words)
    say_of_shape(words)
    with begun_book(file) as book:
        _, asked = designs.add_design(book, plan)
    in_units_typed(settings, words)
    say(figures.settled(lambda: rendered.added_text(plan, asked, page())))


def list_designs(how: AsOption = As.TEXT, file: File = None) -> None:
    """Your designs, and the yarn each takes."""
    from stash.actions import designs
    from stash.rendering import designs as rendered

    kept = designs.listed(open_book(file))
    shown_on = page_of(kept[0].settings) if kept else page()
    answer(
        how,
        lambda: [rendered.keys(one) for one in kept],
        lambda: rendered.text(kept, shown_on),
        lambda: rendered.rows(kept),
    )


def show_design(
    name: Annotated[str, typer.Argument(metavar="DESIGN", help="Its name; part of it will do.")],
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """One design, and the yarn it takes."""
    from stash.actions import designs
    from stash.rendering import designs as rendered
    from stash.rendering import need

    kept = designs.show(open_book(file), design_meant(file, name))
    answer(
        how,
        lambda: rendered.keys(kept),
        lambda: rendered.whole_text(kept, page_of(kept.settings)),
        lambda: need.rows(kept.need),
    )


@describes_a_design
def change_design(
    words: DesignWords,
    name: Annotated[str, typer.Argument(metavar="DESIGN", help="Its name; part of it will do.")],
    new_name: Annotated[str, typer.Option("--name", help="A new name.")] = "",
    file: File = None,
) -> None:
    """Change a design. What you leave out stays the same."""
    from stash.actions import designs
    from stash.parsing.design import design as design_typed
    from stash.rendering import designs as rendered
    from stash.rendering import figures

    book = open_book(file)
    hers = designs.her_designs(book)
    name = design_meant(file, name)
    words = replace(in_her_words(words, hers.settings), name=new_name.strip())
    plan = design_typed.put_right(hers.plan(name), words)
    say_of_shape(words)
    _, asked = designs.change_design(book, name, plan)
    in_units_typed(hers.settings, words)
    say(figures.settled(lambda: rendered.changed_text(plan, asked, page())))


def copy_design(
    name: Annotated[str, typer.Argument(metavar="DESIGN", help="The design to copy.")],
    new_name: Annotated[
        str, typer.Argument(metavar="NAME", help="What to call the copy, as 'Summer hat'.")
    ],
    file: File = None,
) -> None:
    """Copy a design under a new name."""
    from stash.actions import designs
    from stash.parsing.design import design as design_typed
    from stash.rendering import designs as rendered
    from stash.rendering import figures

    new = design_typed.design_name(new_name)
    name = design_meant(file, name)
    asked, plan = designs.copy_design(open_book(file), name, new)
    in_her_units(settings_of(file))
    say(figures.settled(lambda: rendered.added_text(plan, asked, page())))


def drop_design(
    name: Annotated[str, typer.Argument(metavar="DESIGN", help="The design to drop.")],
    file: File = None,
) -> None:
    """Drop a design you no longer make. Its items stay; `stash undo` brings it back."""
    from stash.actions import designs
    from stash.rendering import several as rendered

    say(rendered.design_dropped(*designs.drop_design(open_book(file), name), page()))
