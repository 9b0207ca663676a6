"""What a phone sees that is not paired: a field for the code and one for its name, nothing else.

Nothing of the workshop is read for it, and nothing is kept of what is typed wrong.
"""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import HTMLResponse, RedirectResponse, Response
from starlette.routing import Route

from stash.errors import Refusal
from stash.web.pages import alone, said
from stash.web.sharing import LONGEST_NAME, Sharing


def pairing_routes(sharing: Sharing) -> list[Route]:
    """The page at which a phone is paired."""

    async def pair(request: Request) -> Response:
        if request.state.device is not None:
            return RedirectResponse("/", 303)
        if request.method != "POST":
            return _page("", {})
        async with request.form(max_fields=4, max_files=0) as form:
            typed = {name: value for name, value in form.items() if isinstance(value, str)}
        try:
            cookie = sharing.pair(typed.get("code", ""), typed.get("name", ""))
        except Refusal as why:
            return _page(said(why), typed, 403)
        answer = RedirectResponse("/", 303)
        answer.set_cookie(sharing.cookie, cookie, httponly=True, samesite="strict")
        return answer

    return [Route("/pair", pair, methods=["GET", "POST"])]


def _page(wrong: str, typed: dict[str, Any], status: int = 200) -> Response:
    values = {"wrong": wrong, "name": typed.get("name", ""), "longest": LONGEST_NAME}
    return HTMLResponse(alone("pair.html", values), status_code=status)
