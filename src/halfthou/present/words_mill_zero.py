"""How each zero of the mill is picked up: what is touched, what is allowed for, what is set."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.machines import mill_for
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working.dials import turns_and_divisions
from halfthou.planning.working.zero import AS_CUT, BOTH_SIDES, FIXED_JAW, RAW
from halfthou.present.figures import dial_setting
from halfthou.present.numbers import THIN, Units, plain, sentence
from halfthou.present.words_held import unit_of
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Millimetre
from halfthou.workshop.model import Dial, Mill, Workshop

_SWEPT: Final = "swept"
_SLIDES: Final = {"x": "table", "y": "cross-table"}
_ON: Final = {"x": ("right", "left"), "y": ("away", "toward you")}
"""The way every figure is come to, and the way back."""


def mill_zero_words(
    worked: WorkedSetUp, part: Part, workshop: Workshop, units: Units
) -> tuple[str, ...]:
    """Say every pick-up in its order, down to the number that is set on the dial."""
    zero = worked.zero
    if zero is None:
        return ()
    mill = mill_for(worked.set_up, workshop)
    ways = [one for one in zero.pick_up if one[0] in _SLIDES]
    said = []
    if ways and all(_SWEPT in means for _, _, means, _ in ways):
        on = surface_words(ways[0][1], part, units)
        said.append(
            f"Table and cross-table: clock in the spindle, swept round {on}; the last move of "
            "each right and away; dials to 0."
        )
    else:
        said += [
            sentence(_pick_up(one, part, mill, units, order)) for order, one in enumerate(ways)
        ]
    heights = [one for one in zero.pick_up if one[0] == "z"]
    touched = any(step.touch is not None for step in worked.steps)
    if heights and ways:
        said.append("The height last, at the step that touches it.")
    elif heights and not touched:
        said.append(sentence(_height(heights[0], part, units)))
    return tuple(said)


def _height(one: tuple[str, str, str, Millimetre], part: Part, units: Units) -> str:
    _, surface, means, _ = one
    return f"height: {means} on {surface_words(surface, part, units)}, knee dial to 0"


def _pick_up(
    one: tuple[str, str, str, Millimetre],
    part: Part,
    mill: Mill | None,
    units: Units,
    order: int,
) -> str:
    way, surface, means, stands = one
    on, back = _ON[way]
    slide = f"{'then ' if order else ''}{_SLIDES[way]}"
    face = surface_words(surface, part, units)
    if means.endswith(BOTH_SIDES):
        finder = means.removesuffix(BOTH_SIDES)
        return (
            f"{slide}: {finder} on one side of {face}, dial to 0; on the other, half of what the "
            f"dial has gone is the middle: past it, back to it going {on}, dial to 0"
        )
    touch = _touch(means, face)
    if not stands:
        return f"{slide}: {touch}, dial to 0"
    far = plain(abs(stands), units, places=3)
    dial = None if mill is None or mill.readout else (mill.x if way == "x" else mill.y)
    if dial is None:
        sign = "" if stands > 0 else "\N{MINUS SIGN}"
        return (
            f"{slide}: {touch}; set the readout to {sign}{far} ({_allowed(means, part, surface)})"
        )
    return f"{slide}: {touch}; {_set(means, stands, dial, on, back)} {_why(far, units, one, part)}"


def _why(far: str, units: Units, one: tuple[str, str, str, Millimetre], part: Part) -> str:
    return f"({far}{unit_of(units)}: {_allowed(one[2], part, one[1])})"


def _touch(means: str, face: str) -> str:
    """Say what is brought up to what, and how it is felt."""
    if means.endswith(RAW):
        tool = means.removesuffix(RAW)
        return (
            f"{tool} on the raw edge where {face} will be: spindle stopped, cutter turned back by "
            "hand until the paper just drags"
        )
    if means == AS_CUT:
        return f"the cutter as it cleans {face} up"
    return means if means.endswith(FIXED_JAW) else f"{means} on {face}"


def _set(means: str, stands: Millimetre, dial: Dial, on: str, back: str) -> str:
    """Say how the dial comes to nought at the zero, its backlash always taken up one way."""
    turns = dial_setting(*turns_and_divisions(abs(stands), dial)).replace(" ", THIN)
    at_jaw = means.endswith(FIXED_JAW)
    bite = "" if at_jaw or stands < 0 else f"lock it, the handle {on} until it bites, dial to 0; "
    if stands < 0:
        return f"clear of it, on {on} {turns}: dial to 0"
    first = bite or "dial to 0; "
    return f"{first}clear of it, {back} past and back {on} to {turns} short of that: dial to 0"


def _allowed(means: str, part: Part, surface: str) -> str:
    """Say what the middle of the finder or cutter stands off the zero by."""
    face = next((s for s in part.surfaces if s.name == surface), None)
    tool = "the finder" if "cutter" not in means else "the cutter"
    if means.endswith(RAW):
        return "half the cutter and the metal still to come off"
    if face is None or face.kind != "cylinder":
        return f"half {tool}"
    joins = "less" if means.endswith(FIXED_JAW) else "and"
    return f"half the {face.feature} {joins} half {tool}"
