"""What is printed: a page by itself, which has its own style and nothing else."""

from __future__ import annotations

from collections.abc import Callable

from starlette.responses import HTMLResponse, Response

from stash.rendering import figures, printed
from stash.web.visit import Visit


def paper(visit: Visit, text: Callable[[], str], style: str = "") -> Response:
    """A paper in her units; `style` is what it has beside what all papers have."""
    policy = printed.policy(style)
    return HTMLResponse(figures.settled(text), headers={"content-security-policy": policy})
