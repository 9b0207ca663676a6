"""In the way: no such page, a file in use, damaged or newer than the program."""

from __future__ import annotations

from starlette.responses import Response

from stash.errors import Damaged, FileTrouble, NewerFile, NotAStash, NotFound, StashError
from stash.web.pages import said
from stash.web.visit import Visit

NO_PAGE = "There is no such page."


def trouble(visit: Visit, why: StashError | str, status: int = 422) -> Response:
    """Why a page cannot be shown, and the way out."""
    if isinstance(why, FileTrouble):
        return visit.without_file("trouble.html", _of_file(why), 503)
    status = 404 if isinstance(why, NotFound) else status
    values = {"head": "Not here", "words": said(why), "safe": ""}
    return visit.page("trouble.html", lambda: values, status)


def _of_file(why: FileTrouble) -> dict[str, str]:
    head, safe = "The file cannot be opened", "Nothing was changed."
    if isinstance(why, Damaged):
        head, safe = "The file is damaged", "Nothing was changed. Restore your newest copy of it."
    elif isinstance(why, NewerFile):
        head, safe = "The file is from a newer stash", "Nothing was changed. Install the newer one."
    elif isinstance(why, NotAStash):
        head = "This is no stash file"
    elif why.kind == "busy":
        head, safe = "The file is in use", "Nothing was lost. Try again in a moment."
    return {"head": head, "words": said(why), "safe": safe}
