"""Hook sizes: millimetres are what is kept, American labels are only shown.

Five charts of common practice were compared; they differ on some labels, which is why nothing is
ever derived the other way where they do. Anchors for hooks (B-1 2.25, E-4 3.5, 7 4.5, I-9 5.5,
K-10 1/2 6.5, M-13 9, Q 16) are the Craft Yarn Council's weight table.
Steel hooks are left out: their numbers mean different millimetres with every maker.
"""

from __future__ import annotations

import re

#: Hook millimetres to the American label. There is no R.
HOOKS_US: dict[float, str] = {
    2.25: "B-1", 2.75: "C-2", 3.25: "D-3", 3.5: "E-4", 3.75: "F-5", 4.0: "G-6", 4.5: "7",
    5.0: "H-8", 5.5: "I-9", 6.0: "J-10", 6.5: "K-10 1/2", 8.0: "L-11", 9.0: "M/N-13",
    10.0: "N/P-15", 15.0: "P/Q", 16.0: "Q", 19.0: "S",
}  # fmt: skip


def hook_label(mm: float) -> str:
    """A hook as a shop would say it: `5 mm (H-8)`; millimetres alone where there is no label."""
    label = HOOKS_US.get(mm)
    return f"{mm:g} mm ({label})" if label else f"{mm:g} mm"


def hook_mm(label: str) -> float | None:
    """The millimetres of an American hook label (`H/8`, `h-8`, `K 10.5`); None if not certain.

    Letter and number must belong together; a number alone is not enough, for needles use it too.
    """
    found = re.fullmatch(r"\s*([A-Za-z])\s*[-/ ]?\s*(\d+(?:\.5|\s*½|\s*1/2)?)\s*", label)
    if not found:
        return None
    number = re.sub(r"\s*(?:½|\.5|1/2)$", " 1/2", found[2]) if len(found[2]) > 2 else found[2]
    return _hooks_by_label().get(f"{found[1].upper()}-{number}")


def _hooks_by_label() -> dict[str, float]:
    """Every single label; `M/N-13` is both M-13 and N-13."""
    return {
        f"{letter}-{number}": mm
        for mm, label in HOOKS_US.items()
        for letters, _, number in [label.partition("-")]
        for letter in letters.split("/")
        if number
    }
