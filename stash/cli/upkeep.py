"""Her settings, and the file proved sound."""

from __future__ import annotations

from typing import Annotated

import typer

from stash.cli.common import As, AsOption, File, answer, begun_book, open_book, say, settings_of


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(settings)
    app.command()(check)


def settings(
    name: Annotated[str, typer.Argument(help="Which one, as units. Left out: all of them.")] = "",
    value: Annotated[str, typer.Argument(help="Its new value, as us; usual sets it back.")] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Your settings. See them all, or change one."""
    from stash.actions.her_settings import system_of, usual_of
    from stash.actions.settings import change_setting
    from stash.parsing import settings as words
    from stash.rendering import settings as rendered

    kept: dict[str, str | None] = {**(settings_of(file).kept or {})}
    currency = kept.get("currency") or ""
    if value:
        wanted = words.name_of(name)
        text = None if value.strip().lower() == "usual" else words.kept(wanted, value, currency)
        with begun_book(file) as book:
            entry = change_setting(book, wanted, text, words.currency_said(wanted, value, currency))
        say(rendered.setting_text(wanted, text, currency, entry))
        return
    names = words.named(name) if name else rendered.in_order({*words.NAMES, *kept})
    kept = {**kept, "units": system_of(kept)}
    shown = [rendered.Setting(n, kept.get(n), usual_of(n), currency) for n in names]
    answer(
        how,
        lambda: rendered.keys(shown),
        lambda: rendered.text(shown),
        lambda: rendered.rows(shown),
    )


def check(how: AsOption = As.TEXT, file: File = None) -> None:
    """Check your file. Does every gram add up, and is anything damaged?"""
    from stash.actions.check import check
    from stash.rendering import check as rendered

    findings = check(open_book(file))
    answer(
        how,
        lambda: rendered.keys(findings),
        lambda: rendered.text(findings),
        lambda: rendered.rows(findings),
    )
    if findings:
        raise typer.Exit(1)
