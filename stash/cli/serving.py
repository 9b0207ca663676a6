"""The page: everything of the commands, drawn, in a browser; and on the phones in the room."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Annotated

import typer

from stash.cli.common import File, note, refuse
from stash.cli.which_file import chosen_file

if TYPE_CHECKING:
    from stash.web.sharing import Sharing

#: What sharing means, before anybody scans anything.
_SHARED = (
    "Shared until you end it, with the phones you pair: they see this stash, and may change it if "
    "you say so. Anyone on this wifi could read what passes: share at home, not in a café. "
    "The stash file itself must lie on this computer, not on a network drive."
)


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
    share: Annotated[
        bool, typer.Option("--share", help="Share it with the phones in this room, each paired.")
    ] = False,
    file: File = None,
) -> None:
    """Open your stash as a page in the browser. On this machine only; Ctrl-C ends it."""
    from stash.web.serve import serve as serve_page

    if port is not None and not 0 < port < 65_536:
        refuse("no_such_port", port=port)

    def ready(address: str, sharing: Sharing | None) -> None:
        note(f"Your stash is at {address} (Ctrl-C ends it)")
        if sharing:
            address += "share"
            _say_how_to_pair(address, sharing)
        if browser:
            import webbrowser

            webbrowser.open(address)

    serve_page(chosen_file(file), port or 0, ready, shared=share)


def _say_how_to_pair(page: str, sharing: Sharing) -> None:
    note(_SHARED)
    note(f"On a phone open {sharing.address} and type the code that stands at {page}")
    if sys.stderr.isatty():
        from stash.rendering.paint import paints
        from stash.web.qr import qr_text

        note(qr_text(sharing.address, paint=paints()))
