"""A design: the plan of an item, with everything that is known about what it takes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.requirements.design.bands import Band, Ends, Stripes
from stash.requirements.design.evidence import Swatch
from stash.requirements.design.extras import Extra
from stash.requirements.design.fabric import Fabric
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.shapes import (
    BUILDS,
    HATS,
    Build,
    Crown,
    Seam,
    Shape,
    Size,
    Start,
)
from stash.requirements.design.sizing import MadeToFit
from stash.requirements.design.stitches import Craft
from stash.requirements.design.whom import Whom, by_fit, by_size
from stash.trade.thickness import thickness_of_m_per_100g, usual_m_per_100g


@dataclass(frozen=True, slots=True)
class Design:
    """The plan of an item. It has no state: items made from it have.

    Any of it may be missing; `estimate.need_of` says what would help. `put_up` is that of one
    strand. `stated` is a pattern's figure per role, all strands counted, and `bought` of how many
    whole skeins, where it is one for buying; `weighed` one finished item by role. `crown`,
    `seam`, `start`, `count` and `ends` left out mean the usual ones. `brim` is how much of its
    height is folded up, `fits` what its size was made from (of her own sizes the name), `whom` whom
    it is said to be for.
    """

    name: str = ""
    shape: Shape | None = None
    size: Size | None = None
    gauge: Gauge | None = None
    fabric: Fabric | None = None
    bands: tuple[Band, ...] = ()
    stripes: tuple[Stripes, ...] = ()
    ends: Ends | None = None
    thickness_from: int | None = None
    thickness_to: int | None = None
    put_up: PutUp | None = None
    strands: int = 1
    crown: Crown | None = None
    seam: Seam | None = None
    swatch: Swatch | None = None
    stated: tuple[tuple[str, Length], ...] = ()
    bought: tuple[tuple[str, int], ...] = ()
    weighed: tuple[tuple[str, Mass], ...] = ()
    start: Start | None = None
    count: int | None = None
    brim: Length | None = None
    extras: tuple[Extra, ...] = ()
    fits: MadeToFit | str = ""
    whom: Whom | None = None

    @property
    def classes(self) -> tuple[int, int] | None:
        """The thickness class from and to: as planned, else what its put-up is usually sold as."""
        if self.thickness_from is not None and self.thickness_to is not None:
            return self.thickness_from, self.thickness_to
        if self.put_up is not None:
            derived = thickness_of_m_per_100g(self.put_up.m_per_100g)
            return derived, derived
        return None

    @property
    def m_per_100g(self) -> float | None:
        """Metres per 100 g of one strand: by the put-up, else what its class usually has."""
        if self.put_up is not None:
            return self.put_up.m_per_100g
        if self.classes is None:
            return None
        return math.fsum(usual_m_per_100g(cls) for cls in self.classes) / 2

    @property
    def build(self) -> Build:
        """How its shape is made; refused where it has none."""
        if self.shape is None:
            raise Refusal("design_has_no_shape")
        return BUILDS[self.shape]

    @property
    def needed_size(self) -> Size:
        """Its size; refused where it has none."""
        if self.size is None:
            raise Refusal("design_has_no_size", shape=self.shape, sides=self.build.words)
        return self.size

    @property
    def beginning(self) -> Start | None:
        """Where the work begins: as chosen, else the usual place; None where there is one way."""
        starts = self.build.starts
        if self.start is not None and self.start not in starts:
            raise Refusal("wrong_start", shape=self.shape, start=self.start, starts=starts)
        return self.start or (starts[0] if starts else None)

    @property
    def made(self) -> int:
        """How many are one item: a pair is two, a patchwork as many squares as are counted."""
        if self.count is not None and not self.build.counted:
            raise Refusal("made_once", shape=self.shape)
        return self.count or self.build.made

    @property
    def folded(self) -> Length | None:
        """How much of its height is folded up; refused where nothing can be."""
        if self.brim is None:
            return None
        if self.shape not in HATS:
            raise Refusal("no_brim_to_fold", shape=self.shape)
        if 2 * self.brim.um >= self.needed_size.up.um:
            raise Refusal("brim_too_high", brim=self.brim)
        return self.brim

    @property
    def wearer(self) -> Whom | None:
        """Whom it is for: as said, else by whom it fits, else by its size; None: not known."""
        return self.whom or by_fit(self.fits) or by_size(self.shape, self.size)

    @property
    def closing(self) -> Crown | None:
        """How its top closes: as chosen, else the usual way; None for an open top.

        Crocheted crowns are usually flat discs, knitted ones decreased more quickly.
        """
        crowns = self.build.crowns
        if self.crown is not None and self.crown not in crowns:
            raise Refusal("wrong_crown", shape=self.shape, crown=self.crown, crowns=crowns)
        if self.crown is not None or not crowns:
            return self.crown
        usual = Crown.FLAT if self._crocheted else Crown.DECREASED
        return usual if usual in crowns else crowns[0]

    @property
    def seaming(self) -> Seam:
        """How its seam is sewn: as chosen, else whipped in crochet and mattress in knitting."""
        if not self.build.seamed:
            return Seam.NONE
        return self.joining

    @property
    def joining(self) -> Seam:
        """How parts of it are sewn together, where there are any."""
        return self.seam or (Seam.WHIP if self._crocheted else Seam.MATTRESS)

    @property
    def _crocheted(self) -> bool:
        return self.fabric is not None and self.fabric.craft is Craft.CROCHET
