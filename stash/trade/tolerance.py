"""How much less than its label a pack may lawfully hold: by weight (EU) and by length (Germany).

Weight: Directive 76/211/EEC, Annex I 2.4, the same table in FPackV 2020 section 9(3). Length:
FPackV 2020 section 28 and annex 4. A lot's mean must meet the label; single packs may fall short
so far.
"""

from __future__ import annotations

from fractions import Fraction

from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams

#: Up to and including a nominal weight: a share of it, or grams.
_BANDS: tuple[tuple[Mass, Fraction | Mass], ...] = (
    (grams(50), Fraction(9, 100)),
    (grams(100), Mass(4_500)),
    (grams(200), Fraction(45, 1000)),
    (grams(300), grams(9)),
    (grams(500), Fraction(3, 100)),
    (grams(1000), grams(15)),
    (grams(10_000), Fraction(15, 1000)),
)
_TENTH_OF_A_GRAM = 100


def tolerable_shortfall(nominal: Mass) -> Mass:
    """The tolerable negative error of one pack; a share is rounded up to a tenth of a gram.

    The rule covers 5 g to 10 kg; beyond, the nearest band's share is used.
    """
    allowed = next((band for upto, band in _BANDS if nominal <= upto), _BANDS[-1][1])
    if isinstance(allowed, Mass):
        return allowed
    exact = allowed * nominal.mg / _TENTH_OF_A_GRAM
    return Mass(-(-exact.numerator // exact.denominator) * _TENTH_OF_A_GRAM)


def tolerable_length_shortfall(nominal: Length) -> Length:
    """How much shorter than labelled one skein may be: 2 %, or 4 % where it is 100 m or less."""
    percent = 4 if nominal <= metres(100) else 2
    return Length(nominal.um * percent // 100)
