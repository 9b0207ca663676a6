"""What each source says a piece takes, role by role: own articles, swatch, stated figure, model."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from statistics import fmean

from stash.errors import Refusal
from stash.measures.estimate import Estimate
from stash.measures.length import Length, inches
from stash.measures.mass import Mass
from stash.requirements.bands import MAIN
from stash.requirements.evidence import GRAM, OwnArticle, Swatch
from stash.requirements.fabric import PLAIN
from stash.requirements.layout import laid_out, laid_out_finely
from stash.requirements.lines import Ground, lines_of, with_lines
from stash.requirements.model import finishing, summed
from stash.requirements.piece import Piece
from stash.requirements.swatched import swatched_areas
from stash.requirements.usual import in_fabric

#: What one source says: an estimate for each role it knows.
Said = Mapping[str, Estimate]

#: How far a pattern's printed figure is off, one standard deviation (a measured figure of
#: somebody else's, 8 %).
STATED_SPREAD = 0.08

#: One maker's articles of one piece differ by about so much. No study was found: an assumption
#: worth four articles, which the maker's own log replaces as it grows.
WITHIN_MAKER = 0.04
_PRIOR_WORTH = 4

#: A reading to the nearest step is off by step/sqrt(12); a difference of two by sqrt(2) times that.
_DIFFERENCE_OF_TWO = math.sqrt(2 / 12)
#: A side measured to the nearest sixteenth of an inch, taken as one standard deviation.
_SIDE = inches(1).m / 16
#: Metres per gram of one ball against its band: balls run +-6 %, taken as two standard deviations.
_BAND_PAIR = 0.03
#: The same by class alone: class 4 runs from 130 to 200 m per 100 g, an even spread of 12 %.
_CLASS_PAIR = 0.12


def from_stated(stated: Iterable[tuple[str, Length]]) -> Said:
    """A pattern's figures, taken as what is expected."""
    return {role: Estimate(length.m, STATED_SPREAD * length.m) for role, length in sorted(stated)}


def from_swatch(piece: Piece, swatch: Swatch) -> Said:
    """The swatch's yarn enlarged by area, and what goes round the fabric.

    The relative spreads of the weighing, the two sides and the metres per gram add as squares
    (error of a product), with what an article differs from its swatch.
    """
    relative = math.hypot(
        _DIFFERENCE_OF_TWO * swatch.step.mg / swatch.mass.mg,
        _SIDE / swatch.wide.m,
        _SIDE / swatch.tall.m,
        _pair_spread(piece),
        WITHIN_MAKER,
    )
    per_m2 = per_square_metre(piece, swatch)
    layout = (
        laid_out(piece, in_fabric(piece.fabric or PLAIN, piece.gauge), piece.fabric or PLAIN)
        if piece.gauge
        else laid_out_finely(piece)
    )
    around = summed(finishing(piece, layout))
    expected = {
        role: per_m2 * area + piece.strands * around[role]
        for role, area in swatched_areas(piece, layout, swatch).items()
    }
    fabric = {role: Estimate(m, relative * m) for role, m in expected.items()}
    return with_lines(fabric, lines_of(piece, Ground(per_m2, piece.m_per_100g)))


def per_square_metre(piece: Piece, swatch: Swatch) -> float:
    """How many metres the swatch has in a square metre."""
    return _metres(piece, swatch.mass) / (swatch.wide.m * swatch.tall.m)


def weighed_article(piece: Piece) -> OwnArticle | None:
    """The article whose colours were weighed, in metres; None where there is none."""
    if not piece.weighed:
        return None
    return OwnArticle(
        by_role=tuple((role, _metres(piece, mass)) for role, mass in piece.weighed),
        scale_m=_DIFFERENCE_OF_TWO * _metres(piece, GRAM),
        pair_spread=0.0 if piece.put_up else _CLASS_PAIR,
    )


def from_own(piece: Piece, articles: Sequence[OwnArticle], next_best: Said) -> Said:
    """The mean of finished articles.

    An article whose colours were not told apart is shared out by those that were, else by the
    next best source. The spread is what a further article may differ: the maker's own, taken as
    4 % and corrected by how these articles differ among themselves, and the scale's step. One
    article alone comes to under 7 %, five that agree to under 5 %.
    """
    shares = _shares(piece, articles, next_best)
    by_role = [_split(article, shares) for article in articles]
    return {
        role: _further([used[role] for used in by_role if role in used])
        for role in sorted({role for used in by_role for role in used})
    }


@dataclass(frozen=True, slots=True)
class _Used:
    length_m: float
    scale_m: float
    pair_spread: float


def _further(used: Sequence[_Used]) -> Estimate:
    """What one more article is expected to take, from those made."""
    count = len(used)
    mean = fmean(one.length_m for one in used)
    scatter = sum((one.length_m - mean) ** 2 for one in used)
    within = (_PRIOR_WORTH * (WITHIN_MAKER * mean) ** 2 + scatter) / (_PRIOR_WORTH + count - 1)
    scale = fmean(one.scale_m**2 for one in used) / count
    pair = max(one.pair_spread for one in used) * mean  # the same for all, so it does not average
    return Estimate(mean, math.sqrt(within * (1 + 1 / count) + scale + pair**2))


def _split(article: OwnArticle, shares: Mapping[str, float]) -> dict[str, _Used]:
    if article.by_role:
        return {
            role: _Used(length_m, article.scale_m, article.pair_spread)
            for role, length_m in article.by_role
        }
    total = article.total_m or 0.0
    return {
        role: _Used(total * share, article.scale_m * share, article.pair_spread)
        for role, share in shares.items()
    }


def _shares(piece: Piece, articles: Sequence[OwnArticle], next_best: Said) -> dict[str, float]:
    """How a total is split over the roles; all of it is A where there are no bands."""
    told_apart = summed(part for article in articles for part in article.by_role)
    lengths = told_apart or {role: said.expected_m for role, said in next_best.items()}
    if not lengths and piece.bands:
        raise Refusal(
            "nothing says how a finished article's yarn is shared by its colours: "
            "give --fabric and --gauge, or weigh by colour, as in --weighed A=71g,B=9g"
        )
    whole = sum(lengths.values())
    return {role: length_m / whole for role, length_m in lengths.items()} if whole else {MAIN: 1.0}


def _metres(piece: Piece, mass: Mass) -> float:
    if piece.m_per_100g is None:
        raise Refusal(
            f"{mass} of this yarn cannot be told in metres: "
            'give its put-up, as in --put-up "100g/180m", or at least --class'
        )
    return mass.g * piece.m_per_100g / 100


def _pair_spread(piece: Piece) -> float:
    return _BAND_PAIR if piece.put_up else _CLASS_PAIR
