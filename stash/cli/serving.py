"""The page: everything of the commands, drawn, in a browser."""

from __future__ import annotations

from typing import Annotated

import typer

from stash.cli.common import File, note, refuse
from stash.cli.which_file import chosen_file


def register(app: typer.Typer) -> None:
    """Put this command on the command line."""
    app.command()(serve)


def serve(
    port: Annotated[
        int | None, typer.Option("--port", help="A port of your choice; else a free one.")
    ] = None,
    browser: Annotated[
        bool, typer.Option("--browser/--no-browser", help="Whether to open your browser.")
    ] = True,
    file: File = None,
) -> None:
    """Open your stash as a page in the browser. On this machine only; Ctrl-C ends it."""
    from stash.web.serve import serve as serve_page

    if port is not None and not 0 < port < 65_536:
        refuse("no_such_port", port=port)

    def ready(address: str) -> None:
        note(f"Your stash is at {address} (Ctrl-C ends it)")
        if browser:
            import webbrowser

            webbrowser.open(address)

    serve_page(chosen_file(file), port or 0, ready)
