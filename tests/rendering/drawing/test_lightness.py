"""What is drawn is as light as the yarn: the mean within 4 L*, for every kind of yarn.

Looked at on a grid of places by our own small reader of SVG, and, where there is a Chromium, on its
own screenshot (tests marked `browser`). The edge is left out: it is drawn in the room's ink.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from png import pixels
from rendering.drawing.some_looks import LOOKS, grid, laid, mean_lightness
from rendering.drawing.svg_sampler import Sampler

from stash.rendering.drawing.defs import page_defs
from stash.rendering.drawing.piece import PieceShown, piece
from stash.rendering.drawing.swatch import Left, Shown, yarn_swatch
from stash.rendering.drawing.yarn_look import YarnLook

#: The most by which a drawing may be lighter or darker than its yarn, in L*.
MOST = 4.0

CLOTH = laid("blanket", wide="20cm", long="12cm", stripes=())
KNITTED = laid("blanket", wide="20cm", long="12cm", stripes=(), fabric="stockinette",
               gauge="22 sts x 30 rows")  # fmt: skip
GARTER = laid("blanket", wide="20cm", long="12cm", stripes=(), fabric="garter",
              gauge="20 sts x 40 rows")  # fmt: skip
RIB = laid("blanket", wide="20cm", long="12cm", stripes=(), fabric="2x2 rib",
           gauge="22 sts x 30 rows")  # fmt: skip
ROUNDS = laid("square", wide="14cm", bands=())

Draw = Callable[[YarnLook], str]
#: Each form, and where inside its edge it is looked at.
FORMS: dict[str, tuple[Draw, tuple[float, float, float, float]]] = {
    "card": (lambda look: yarn_swatch(look, Left.CHIP, Shown()), (2, 2, 182, 90)),
    "chip": (lambda look: yarn_swatch(look, Left.CHIP, Shown(28, 20)), (2, 2, 26, 18)),
    "crochet": (lambda look: piece(CLOTH, {"A": look}, PieceShown(7.6)), (3, 3, 148, 88)),
    "stockinette": (lambda look: piece(KNITTED, {"A": look}, PieceShown(12)), (3, 3, 230, 140)),
    "garter": (lambda look: piece(GARTER, {"A": look}, PieceShown(7.6)), (3, 3, 148, 88)),
    "rib": (lambda look: piece(RIB, {"A": look}, PieceShown(7.6)), (3, 3, 148, 88)),
    "large": (lambda look: piece(CLOTH, {"A": look}, PieceShown(14)), (3, 3, 276, 165)),
    "rounds": (lambda look: piece(ROUNDS, {"A": look}, PieceShown(9)), (3, 3, 120, 120)),
    "small": (lambda look: piece(CLOTH, {"A": look}, PieceShown(3)), (3, 3, 58, 34)),
}


def off(look: YarnLook, drawn: float) -> float:
    assert look.lightness is not None
    return drawn - look.lightness


@pytest.mark.parametrize("form", FORMS)
def test_the_mean_of_what_is_drawn_is_as_light_as_the_yarn(form: str) -> None:
    draw, box = FORMS[form]
    places = grid(*box, step=max(0.6, (box[2] - box[0]) / 110))
    found = {}
    for look in LOOKS:
        colours, shows = Sampler(draw(look), page_defs([look])).colours(places)
        assert shows.min() > 0.999
        found[look] = off(look, mean_lightness(colours))

    assert {look: gap for look, gap in found.items() if abs(gap) > MOST} == {}
    assert np.mean(np.abs([*found.values()])) < 2.2


def test_in_grey_it_is_as_light_too() -> None:
    places = grid(2, 2, 182, 90, step=1.7)
    for look in LOOKS[::2]:
        drawn = yarn_swatch(look, Left.CHIP, Shown(grey=True))
        colours, _ = Sampler(drawn, page_defs([look])).colours(places)

        assert np.ptp(colours, axis=1).max() < 0.01
        assert abs(off(look, mean_lightness(colours))) <= MOST


def test_the_reader_of_svg_sees_that_a_texture_of_one_strength_is_too_much() -> None:
    """The check can fail: the black of a dark yarn's texture on a light yarn darkens it."""
    look = YarnLook(("#f4efe4",))
    wrong = page_defs([YarnLook(("#15171a",))]).replace("-8-d", "-8-l")
    colours, _ = Sampler(yarn_swatch(look, Left.CHIP, Shown()), wrong).colours(grid(2, 2, 182, 90))

    assert off(look, mean_lightness(colours)) < -MOST


@pytest.mark.browser
@pytest.mark.parametrize("form", ["card", "chip", "crochet", "stockinette", "large", "rounds"])
def test_in_a_browser_too_it_is_as_light_as_the_yarn(form: str, tmp_path: Path) -> None:
    draw, box = FORMS[form]
    chromium = shutil.which("chromium")
    if chromium is None:
        assert not os.environ.get("STASH_BROWSER"), "STASH_BROWSER is set and there is no chromium"
        pytest.skip("no chromium")
    across, wide, tall = 10, int(box[2]) + 8, int(box[3]) + 8
    placed = "".join(
        f'<div style="position:absolute;left:{at % across * wide}px;'
        f'top:{at // across * tall}px">{draw(look)}</div>'
        for at, look in enumerate(LOOKS)
    )
    page = tmp_path / "page.html"
    page.write_text(f'<meta charset="utf-8"><body style="margin:0">{page_defs(LOOKS)}{placed}')
    size = (across * wide, -(-len(LOOKS) // across) * tall)
    subprocess.run(
        [chromium, "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
         "--force-color-profile=srgb", f"--window-size={size[0]},{size[1]}",
         f"--screenshot={tmp_path / 'shot.png'}", page.as_uri()],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    shot = pixels((tmp_path / "shot.png").read_bytes())
    found = {}
    for at, look in enumerate(LOOKS):
        x, y = at % across * wide, at // across * tall
        left, top, right, bottom = (int(edge) for edge in box)
        seen = shot[y + top : y + bottom, x + left : x + right].reshape(-1, 3)
        found[look] = off(look, mean_lightness(seen.astype(float)))

    assert {look: gap for look, gap in found.items() if abs(gap) > MOST} == {}
