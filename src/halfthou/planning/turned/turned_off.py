"""Centres that carry the work and do not stay in it: drilled in spare metal, faced off at last."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import Cone, Cylinder, Region
from halfthou.drawing.model import Centres, Part
from halfthou.planning.turned.shape import TOWARD, End, end_at
from halfthou.units import Millimetre

CONE: Final = math.radians(60.0)
CONE_SHARE: Final = 0.7
"""A centre is drilled until its cone is this share of the drill's body (usual practice)."""
PILOT_DEPTH: Final = 1.3
"""Depth of the pilot in its diameters (usual practice)."""
WHOLE: Final = 0.5
"""Metal left between the bottom of the centre and the finished face, mm (usual practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CentreHole:
    """A centre hole [mm]: its mouth's diameter, the cone's depth, all of its depth."""

    across: Millimetre
    pilot: Millimetre
    cone: Millimetre
    deep: Millimetre


def centre_hole(one: Centres) -> CentreHole:
    """Give the hole that a centre drill leaves."""
    across = CONE_SHARE * one.body
    cone = (across - one.pilot) / 2 / math.tan(CONE / 2)
    return CentreHole(
        across=across, pilot=one.pilot, cone=cone, deep=cone + PILOT_DEPTH * one.pilot
    )


def centres_turned_off(part: Part, end: End) -> Centres | None:
    """Give the centre of an end that carries the work but is not to stay in the part."""
    return next(
        (f for f in part.features if isinstance(f, Centres) and end in f.ends and not f.left_in),
        None,
    )


def spare_for_centre(part: Part, end: End) -> Millimetre:
    """Give the metal to leave beyond a finished end for a centre that is faced off; [mm]."""
    one = centres_turned_off(part, end)
    return 0.0 if one is None else centre_hole(one).deep + WHOLE


def region_turned_off(part: Part, one: Centres, end: End) -> tuple[Region, ...]:
    """Give the space of a centre hole in the spare metal beyond a finished end."""
    hole = centre_hole(one)
    out = TOWARD[end][0]
    mouth = end_at(part, end) + out * spare_for_centre(part, end)
    neck, bottom = mouth - out * hole.cone, mouth - out * hole.deep
    return (
        Cone(
            start=(mouth, 0.0, 0.0),
            end=(neck, 0.0, 0.0),
            start_diameter=hole.across,
            end_diameter=hole.pilot,
        ),
        Cylinder(start=(neck, 0.0, 0.0), end=(bottom, 0.0, 0.0), diameter=hole.pilot),
    )
