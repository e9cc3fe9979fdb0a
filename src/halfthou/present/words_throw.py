"""How work is thrown over in the chuck: by how much, which way, and how that is seen."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import OUTWARD, Hole, Part
from halfthou.handbook.off_axis import clock_over_the_turn, packing_for_flat_jaws
from halfthou.planning.model import Operation, Scheme
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, plain
from halfthou.present.words_surfaces import shop_name, surface_words
from halfthou.units import DEGREE, Millimetre, Vec3

_ONE_WAY: Final = 0.999
_ACROSS: Final = 0.1
_NEAR: Final[Millimetre] = 1e-6
_CLOCK_TRAVEL: Final[Millimetre] = 8.0
"""A clock of ten millimetres is trusted with so much (usual practice)."""


def thrown(scheme: Scheme) -> bool:
    """Tell whether the work turns about a line off its own axis."""
    return math.hypot(*scheme.throw) > _NEAR


def throw_words(
    worked: WorkedSetUp, part: Part, units: Units, earlier: tuple[WorkedSetUp, ...], on: str
) -> str:
    """Say how far the work goes over and which way; ``on`` is what the clock runs on."""
    scheme = worked.set_up.scheme
    far = math.hypot(*scheme.throw)
    way = side_words(scheme.throw)
    offset = f"{plain(far, units, places=3)} toward the {way}"
    seen = _which_way(worked, part, earlier, way)
    if scheme.packing > 0:
        flat = packing_for_flat_jaws(far)
        return (
            f"Throw over {offset}: packing {plain(scheme.packing, units)} thick under the jaw at "
            f"the {way} (jaws with flat faces wider than a line: {plain(flat, units)}), "
            f"no packing under the others. {seen}"
        )
    within = plain(max((r for _, r in scheme.true_on), default=0.0), units, places=3)
    called = surface_words(on, part, units) if on else "the work"
    reading = clock_over_the_turn(far)
    if reading > _CLOCK_TRAVEL:
        return f"Set over {offset}. {_by_the_slide(reading, called, way, within, units)} {seen}"
    return (
        f"Set over {offset}: true first, then two jaws. Clock {called}: "
        f"{plain(reading, units, places=3)} over the turn within {within}, least at the {way}, "
        f"the middle of the swing square to it. {seen}"
    )


def _by_the_slide(reading: Millimetre, called: str, way: str, within: str, units: Units) -> str:
    """Say how a throw longer than the clock's own travel is measured: with the cross-slide."""
    over = plain(reading, units, places=3)
    return (
        f"Marked out and popped first, the pop brought near true. Clock on the cross-slide, at "
        f"centre height, on {called}: zero with the {way} toward it; wind out {over} by the dial, "
        f"half a turn of the work: zero again within {within}. Square to that, both sides alike."
    )


def side_words(throw: Vec3) -> str:
    """Name the way a throw goes: a side of the part, or an angle from its top.

    >>> side_words((0.0, 0.8, 0.0))
    'top'
    """
    far = math.hypot(*throw)
    for side, out in OUTWARD.items():
        along = sum(a * b for a, b in zip(throw, out, strict=True))
        if along > _ONE_WAY * far:
            return side
    turned = math.atan2(throw[2], throw[1]) / DEGREE
    return f"place {abs(turned):.1f}° from the top to the {'front' if turned > 0 else 'back'}"


def _which_way(worked: WorkedSetUp, part: Part, earlier: tuple[WorkedSetUp, ...], way: str) -> str:
    """Say what shows which side is which: a cross hole made before, else a line scribed now."""
    made = [op for one in earlier for op in one.set_up.operations]
    shows = next((f for f in _cross_holes(part) if _started(f, made)), None)
    if shows is not None:
        into = shows.into
        side = side_words((0.0, -into[1], -into[2]))
        return (
            f"A rod in the {shop_name(shows.name)} hole points to the {side}: square it off the "
            "bed, that is which way."
        )
    later = worked.number < worked.of
    return f"Scribe a line on the face to the {way}: later holes go by it." if later else ""


def _cross_holes(part: Part) -> tuple[Hole, ...]:
    found = [f for f in part.features if isinstance(f, Hole) and not f.on_axis]
    return tuple(f for f in found if abs(f.into[0]) < _ACROSS)


def _started(hole: Hole, made: list[Operation]) -> bool:
    return any(op.feature == hole.name and op.verb == "drill" for op in made)
