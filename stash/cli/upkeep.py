"""Her settings, and the file proved sound."""

from __future__ import annotations

from typing import Annotated

import typer

from stash.cli.common import As, AsOption, File, answer, begun_book, open_book, say, settings_of


def register(app: typer.Typer) -> None:
    """Put these commands on the command line."""
    app.command()(prefer)
    app.command()(check)


def prefer(
    name: Annotated[str, typer.Argument(help="The setting; none shows them all.")] = "",
    value: Annotated[str, typer.Argument(help="Its value; `usual` for the usual one.")] = "",
    how: AsOption = As.TEXT,
    file: File = None,
) -> None:
    """Your settings, kept in the file."""
    from stash.actions.prefer import prefer
    from stash.parsing import settings as words
    from stash.rendering import settings as rendered

    kept = settings_of(file).kept or {}
    currency = kept.get("currency", "")
    if value:
        wanted = words.name_of(name)
        text = None if value.strip().lower() == "usual" else words.kept(wanted, value, currency)
        with begun_book(file) as book:
            entry = prefer(book, wanted, text, words.currency_said(wanted, value, currency))
        told = "as usual" if text is None else rendered.shown(wanted, text, currency)
        booked = f" from now on  (entry {entry})" if entry else ""
        say(f"{wanted}: {told}{booked}")
        return
    names = words.named(name) if name else sorted({*words.MEANINGS, *kept})
    shown = {n: rendered.shown(n, kept[n], currency) if n in kept else None for n in names}
    answer(
        how,
        lambda: shown,
        lambda: _text(shown),
        lambda: [{"name": n, "value": v} for n, v in shown.items()],
    )


def _text(shown: dict[str, str | None]) -> str:
    from stash.parsing.settings import meaning
    from stash.rendering.columns import columns

    return columns([[n, v or _as_usual(n), meaning(n)] for n, v in shown.items()])


def _as_usual(name: str) -> str:
    """What a setting is until she sets it, where it is anything."""
    from stash.actions.preferences import Preferences
    from stash.rendering.settings import usual

    preferences = Preferences()
    kind, _, rest = name.partition(" ")
    holder = preferences.weights if kind == "weight" else preferences
    value = usual(getattr(holder, (rest if kind == "weight" else name).replace(" ", "_"), None))
    return f"as usual ({value})" if value else "as usual"


def check(how: AsOption = As.TEXT, file: File = None) -> None:
    """The file proved sound. Exit status 1 where something is found."""
    from stash.actions.check import check
    from stash.rendering.sentences.say import sentence

    findings = [sentence(finding) for finding in check(open_book(file))]
    answer(
        how,
        lambda: {"ok": not findings, "findings": findings},
        lambda: "\n".join(findings) or "sound: the books balance to the milligram",
        lambda: [{"finding": text} for text in findings],
    )
    if findings:
        raise typer.Exit(1)
