"""A design as plain values for storing, and back, exactly: whole micrometres and milligrams."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from stash.measures.length import Length
from stash.measures.mass import Mass
from stash.measures.put_up import PutUp
from stash.requirements.design.bands import Band, Ends, Extent, Place, Rows, Stitches, Stripes
from stash.requirements.design.design import Design
from stash.requirements.design.evidence import Swatch
from stash.requirements.design.extras import Extra, Kind
from stash.requirements.design.fabric import Fabric, FabricRow, Loop
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.shapes import Crown, Seam, Shape, Size, Start
from stash.requirements.design.sizing import BodyPart, MadeToFit
from stash.requirements.design.stitches import named
from stash.requirements.design.whom import Whom
from stash.trade.bodies import Person, Sex, Survey

Plain = dict[str, Any]


def serialise(design: Design) -> Plain:
    """The design as words, whole numbers, lists and dictionaries, as JSON holds them."""
    return {
        "name": design.name,
        "shape": design.shape and design.shape.value,
        "size": design.size and _size_out(design.size),
        "gauge": design.gauge and _gauge_out(design.gauge),
        "fabric": design.fabric
        and [[row.stitch.name, row.loop.value] for row in design.fabric.rows],
        "bands": [_band_out(band) for band in design.bands],
        "thickness_from": design.thickness_from,
        "thickness_to": design.thickness_to,
        "put_up": design.put_up
        and {"mass_mg": design.put_up.mass.mg, "length_um": design.put_up.length.um},
        "strands": design.strands,
        "crown": design.crown and design.crown.value,
        "seam": design.seam and design.seam.value,
        "swatch": design.swatch and _swatch_out(design.swatch),
        "stated_um": {role: length.um for role, length in design.stated},
        "bought": dict(design.bought),
        "weighed_mg": {role: mass.mg for role, mass in design.weighed},
        "start": design.start and design.start.value,
        "count": design.count,
        "brim_um": design.brim and design.brim.um,
        "extras": [_extra_out(extra) for extra in design.extras],
        "fits": design.fits if isinstance(design.fits, str) else "",
        "made_to_fit": None if isinstance(design.fits, str) else _fits_out(design.fits),
        "whom": design.whom and design.whom.value,
        "stripes": [_stripes_out(stripes) for stripes in design.stripes],
        "ends": design.ends and design.ends.value,
    }


#: Keys of plans as older versions kept them.
_BEFORE = {"class_from": "thickness_from", "class_to": "thickness_to"}


def under_keys_of_today(plain: Plain) -> Plain:
    """A plan that an older version kept, its keys as they are today."""
    return {_BEFORE.get(key, key): value for key, value in plain.items()}


def deserialise(plain: Plain) -> Design:
    """The design that `serialise` was given; a plan kept by an older version lacks some keys."""
    plain = under_keys_of_today(plain)
    size, fabric, put_up = plain["size"], plain["fabric"], plain["put_up"]
    return Design(
        name=plain["name"],
        shape=plain["shape"] and Shape(plain["shape"]),
        size=size and _size_in(size),
        gauge=plain["gauge"] and _gauge_in(plain["gauge"]),
        fabric=fabric
        and Fabric(tuple(FabricRow(named(name), Loop(loop)) for name, loop in fabric)),
        bands=tuple(_band_in(band) for band in plain["bands"]),
        thickness_from=plain["thickness_from"],
        thickness_to=plain["thickness_to"],
        put_up=put_up and PutUp(Mass(put_up["mass_mg"]), Length(put_up["length_um"])),
        strands=plain["strands"],
        crown=plain["crown"] and Crown(plain["crown"]),
        seam=plain["seam"] and Seam(plain["seam"]),
        swatch=plain["swatch"] and _swatch_in(plain["swatch"]),
        stated=tuple((role, Length(um)) for role, um in plain["stated_um"].items()),
        bought=tuple(plain.get("bought", {}).items()),
        weighed=tuple((role, Mass(mg)) for role, mg in plain["weighed_mg"].items()),
        start=Start(plain["start"]) if plain.get("start") else None,
        count=plain.get("count"),
        brim=_length_in(plain.get("brim_um")),
        extras=tuple(_extra_in(extra) for extra in plain.get("extras", ())),
        fits=_fits_in(plain["made_to_fit"]) if plain.get("made_to_fit") else plain.get("fits", ""),
        whom=Whom(plain["whom"]) if plain.get("whom") else None,
        stripes=tuple(_stripes_in(stripes) for stripes in plain.get("stripes", ())),
        ends=Ends(plain["ends"]) if plain.get("ends") else None,
    )


_SIDES = ("across_um", "up_um", "along_um")


def _size_out(size: Size) -> Plain:
    return dict(zip(_SIDES, (side.um for side in size.sides), strict=False))


def _size_in(plain: Plain) -> Size:
    return Size(*(Length(plain[side]) for side in _SIDES if side in plain))


def _length_in(um: int | None) -> Length | None:
    return None if um is None else Length(um)


def _extra_out(extra: Extra) -> Plain:
    return {
        "kind": extra.kind.value,
        "role": extra.role,
        "lengths_um": [length.um for length in extra.lengths],
        "count": extra.count,
    }


def _extra_in(plain: Plain) -> Extra:
    lengths = tuple(Length(um) for um in plain["lengths_um"])
    return Extra(Kind(plain["kind"]), plain["role"], lengths, plain["count"])


def _fits_out(fits: MadeToFit) -> Plain:
    ease, person = fits.ease, fits.person
    return {
        "part": fits.part.value,
        "around_um": fits.around.um,
        "ease": _extent_out(ease),
        "person": person and _person_out(person),
        "surveys": [survey.value for survey in fits.surveys],
        "other_mm": fits.other_mm,
    }


def _fits_in(plain: Plain) -> MadeToFit:
    ease, person = plain["ease"], plain["person"]
    return MadeToFit(
        part=BodyPart(plain["part"]),
        around=Length(plain["around_um"]),
        ease=Length(ease["um"]) if "um" in ease else Fraction(ease["share"]),
        person=person and _person_in(person),
        surveys=tuple(Survey(name) for name in plain["surveys"]),
        other_mm=plain["other_mm"],
    )


def _person_out(person: Person) -> Plain:
    sex = person.sex and person.sex.value
    return {"months": person.months, "sex": sex, "weeks": person.weeks}


def _person_in(plain: Plain) -> Person:
    return Person(plain["months"], plain["sex"] and Sex(plain["sex"]), plain.get("weeks"))


def _gauge_out(gauge: Gauge) -> Plain:
    return {
        "stitches": str(gauge.stitches),
        "rows": str(gauge.rows),
        "over_um": gauge.over.um,
        "plain": gauge.plain,
    }


def _gauge_in(plain: Plain) -> Gauge:
    stitches, rows = Fraction(plain["stitches"]), Fraction(plain["rows"])
    return Gauge(stitches, rows, Length(plain["over_um"]), plain.get("plain", False))


def _swatch_out(swatch: Swatch) -> Plain:
    return {
        "mass_mg": swatch.mass.mg,
        "wide_um": swatch.wide.um,
        "tall_um": swatch.tall.um,
        "step_mg": swatch.step.mg,
    }


def _swatch_in(plain: Plain) -> Swatch:
    return Swatch(
        Mass(plain["mass_mg"]),
        Length(plain["wide_um"]),
        Length(plain["tall_um"]),
        Mass(plain["step_mg"]),
    )


def _band_out(band: Band) -> Plain:
    return {
        "role": band.role,
        "extent": _extent_out(band.extent),
        "place": band.place.value if isinstance(band.place, Place) else {"um": band.place.um},
        "upright": band.upright,
        "share": None if band.share is None else str(band.share),
    }


def _band_in(plain: Plain) -> Band:
    place, share = plain["place"], plain.get("share")
    return Band(
        plain["role"],
        _extent_in(plain["extent"]),
        Place(place) if isinstance(place, str) else Length(place["um"]),
        upright=plain.get("upright", False),
        share=None if share is None else Fraction(share),
    )


def _stripes_out(stripes: Stripes) -> Plain:
    return {
        "runs": [[role, _extent_out(extent)] for role, extent in stripes.runs],
        "start_um": stripes.start and stripes.start.um,
        "end_um": stripes.end and stripes.end.um,
        "upright": stripes.upright,
    }


def _stripes_in(plain: Plain) -> Stripes:
    return Stripes(
        tuple((role, _extent_in(extent)) for role, extent in plain["runs"]),
        _length_in(plain["start_um"]),
        _length_in(plain["end_um"]),
        plain["upright"],
    )


def _extent_out(extent: Extent) -> Plain:
    match extent:
        case Stitches(count):
            return {"stitches": count}
        case Rows(count):
            return {"rows": count}
        case Length(um):
            return {"um": um}
        case _:
            return {"share": str(extent)}


def _extent_in(plain: Plain) -> Extent:
    match plain:
        case {"stitches": int(count)}:
            return Stitches(count)
        case {"rows": int(count)}:
            return Rows(count)
        case {"share": str(share)}:
            return Fraction(share)
    return Length(plain["um"])
