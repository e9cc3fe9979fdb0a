"""How work is thrown over in the chuck: by how much, which way, and how that is seen."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import OUTWARD, Hole, Part
from halfthou.handbook.off_axis import clock_over_the_turn, packing_for_flat_jaws
from halfthou.planning.model import Scheme
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working.thrown import hour_of_line, outward, rod_hole
from halfthou.present.numbers import Units, plain
from halfthou.present.words_surfaces import shop_name, surface_words
from halfthou.units import DEGREE, Millimetre, Vec3

_ONE_WAY: Final = 0.999
_NEAR: Final[Millimetre] = 1e-6
_WHOLE: Final = 0.01
_SQUARE: Final = {
    0: ("straight above", "down"),
    3: ("level with, on the far side of,", "toward you"),
    6: ("straight below", "up"),
    9: ("level with, on your side of,", "away from you"),
}
"""Where a line lies from the work's middle and which way the work goes for it, by the hour."""
_POINTS: Final = {
    0: "straight up",
    3: "level away from you",
    6: "straight down",
    9: "level toward you",
}
_ROD_OUT: Final = " Rod out before the spindle turns under power, after every look with it."
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
    rod = rod_in(worked, part, earlier)
    over = plain(far, units, places=3)
    whole = _where_it_lies(scheme, rod, over)
    if scheme.packing > 0:
        flat = packing_for_flat_jaws(far)
        return (
            f"{whole} Packing {plain(scheme.packing, units)} thick under one jaw, none under the "
            f"others (jaws with flat faces wider than a line: {plain(flat, units)}); that jaw "
            f"turned to the top, {_least_where(scheme, rod)}.{_scribed(worked, scheme, rod)}"
        )
    within = plain(max((r for _, r in scheme.true_on), default=0.0), units, places=3)
    called = surface_words(on, part, units) if on else "the work"
    out = "" if rod is None else _ROD_OUT
    reading = clock_over_the_turn(far)
    told = f"{whole} True first, then two jaws until the work is moved over."
    if reading > _CLOCK_TRAVEL:
        read = _by_the_slide(reading, called, _toward_you(scheme, rod), within, units)
    else:
        read = (
            f"Clock on top of {called}: {_least_where(scheme, rod)}, "
            f"{plain(reading, units, places=3)} more half a turn on, within {within}; alike at "
            "the two quarter turns between."
        )
    return f"{told} {read}{out}{_scribed(worked, scheme, rod)}"


def _where_it_lies(scheme: Scheme, rod: Hole | None, over: str) -> str:
    """Say where the line wanted lies on the work, as it is seen from the tailstock."""
    if rod is None:
        way = side_words(scheme.throw)
        return f"The line wanted lies {over} toward the work's {way} from its middle."
    hour = throw_on_the_clock(scheme, rod)
    there, moved = _SQUARE.get(
        _on_the_hour(hour), (f"at {hour:.1f} o'clock from", "the other way")
    )
    return (
        f"Rod in the {shop_name(rod.name)} hole, level toward you: seen from the tailstock it "
        f"points to 9 o'clock and the line wanted lies {over} {there} the work's middle, so the "
        f"work is moved {over} {moved}."
    )


def _least_where(scheme: Scheme, rod: Hole | None) -> str:
    """Say how the work is turned when the side the line lies on is uppermost."""
    if rod is None:
        return f"least with the {side_words(scheme.throw)} of the work up"
    return f"least with the rod {rod_points(throw_on_the_clock(scheme, rod), up=True)}"


def _toward_you(scheme: Scheme, rod: Hole | None) -> str:
    if rod is None:
        return f"the {side_words(scheme.throw)} of the work toward it"
    return f"the rod {rod_points(throw_on_the_clock(scheme, rod), up=False)}"


def _scribed(worked: WorkedSetUp, scheme: Scheme, rod: Hole | None) -> str:
    """Mark on the face which way the line lies, where no hole shows it and work follows."""
    if rod is not None or worked.number >= worked.of:
        return ""
    return f" Scribe a line on the face to the {side_words(scheme.throw)}: later holes go by it."


def throw_on_the_clock(scheme: Scheme, rod: Hole) -> float:
    """Give the hour at which the line wanted lies, seen from the tailstock, the rod at nine."""
    return hour_of_line(out=scheme.faces[0], throw=scheme.throw, rod=outward(rod))


def rod_points(hour: float, *, up: bool) -> str:
    """Say where a rod points once the line at ``hour`` is turned up, or toward the person.

    >>> rod_points(6.0, up=True), rod_points(6.0, up=False)
    ('pointing level away from you', 'pointing straight up')
    """
    at = (9.0 - hour + (0.0 if up else 9.0)) % 12.0
    points = _POINTS.get(_on_the_hour(at))
    return f"pointing {points}" if points else f"at {at:.1f} o'clock seen from the tailstock"


def _on_the_hour(hour: float) -> int:
    """Give a whole hour from 0 to 11; -1 for one that is not whole."""
    return round(hour) % 12 if abs(hour - round(hour)) < _WHOLE else -1


def _by_the_slide(reading: Millimetre, called: str, turned: str, within: str, units: Units) -> str:
    """Say how a throw longer than the clock's own travel is measured: with the cross-slide."""
    over = plain(reading, units, places=3)
    return (
        f"Marked out and popped first, the pop brought near true. Clock on the cross-slide, at "
        f"centre height, on your side, on {called}: zero with {turned}; wind out {over} by the "
        f"dial, half a turn of the work: zero again within {within}. Square to that, both sides "
        "alike."
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


def rod_in(worked: WorkedSetUp, part: Part, earlier: tuple[WorkedSetUp, ...]) -> Hole | None:
    """Give the cross hole made before that shows which side of thrown work is which."""
    if not thrown(worked.set_up.scheme):
        return None
    return rod_hole(part, tuple(op for one in earlier for op in one.set_up.operations))
