"""Hook and needle sizes: millimetres are what is kept, American and old British labels a display.

Five charts of common practice were compared; they differ on some labels, which is why nothing is
ever derived the other way where they do. Anchors for hooks (B-1 2.25, E-4 3.5, 7 4.5, I-9 5.5,
K-10 1/2 6.5, M-13 9, Q 16) and the needle ranges are the Craft Yarn Council's weight table.
Steel hooks are left out: their numbers mean different millimetres with every maker.
"""

from __future__ import annotations

import re

#: Needle millimetres to the American number; 12.75 is the council's, four charts print 12.
NEEDLES_US: dict[float, str] = {
    1.5: "000", 1.75: "00", 2.0: "0", 2.25: "1", 2.5: "1.5", 2.75: "2", 3.0: "2.5", 3.25: "3",
    3.5: "4", 3.75: "5", 4.0: "6", 4.5: "7", 5.0: "8", 5.5: "9", 6.0: "10", 6.5: "10.5",
    8.0: "11", 9.0: "13", 10.0: "15", 12.75: "17", 15.0: "19", 19.0: "35", 20.0: "36", 25.0: "50",
}  # fmt: skip

#: Needle millimetres to the old British number, which runs the other way.
NEEDLES_OLD_UK: dict[float, str] = {
    2.0: "14", 2.25: "13", 2.75: "12", 3.0: "11", 3.25: "10", 3.75: "9", 4.0: "8", 4.5: "7",
    5.0: "6", 5.5: "5", 6.0: "4", 6.5: "3", 7.0: "2", 7.5: "1", 8.0: "0", 9.0: "00", 10.0: "000",
}  # fmt: skip

#: Hook millimetres to the American label. There is no R.
HOOKS_US: dict[float, str] = {
    2.25: "B-1", 2.75: "C-2", 3.25: "D-3", 3.5: "E-4", 3.75: "F-5", 4.0: "G-6", 4.5: "7",
    5.0: "H-8", 5.5: "I-9", 6.0: "J-10", 6.5: "K-10 1/2", 8.0: "L-11", 9.0: "M/N-13",
    10.0: "N/P-15", 15.0: "P/Q", 16.0: "Q", 19.0: "S",
}  # fmt: skip


def hook_label(mm: float) -> str:
    """A hook as a shop would say it: `5 mm (H-8)`; millimetres alone where there is no label."""
    return _labelled(mm, HOOKS_US.get(mm))


def needle_label(mm: float) -> str:
    """A needle as a shop would say it: `4 mm (US 6)`."""
    number = NEEDLES_US.get(mm)
    return _labelled(mm, f"US {number}" if number else None)


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


def _labelled(mm: float, label: str | None) -> str:
    return f"{mm:g} mm ({label})" if label else f"{mm:g} mm"
