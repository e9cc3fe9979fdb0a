"""How each zero of the mill is picked up: what is touched, what is allowed for, what is set."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.machines import mill_for
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working.cast_zero import STILL_OVER
from halfthou.planning.working.dials import turns_and_divisions
from halfthou.planning.working.zero import AS_CUT, BOTH_SIDES, RAW
from halfthou.planning.working.zero_at_jaw import AT_THE_JAW
from halfthou.present.figures import dial_setting
from halfthou.present.numbers import THIN, Units, plain, sentence
from halfthou.present.words_held import unit_of
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Millimetre, RevPerMinute
from halfthou.workshop.model import Dial, Mill, Workshop

_SWEPT: Final = "swept"
_FINDER: Final[RevPerMinute] = 700.0
"""An edge finder is run no faster than this (usual practice)."""
_SLIDES: Final = {"x": "table", "y": "cross-table"}
_ON: Final = {"x": ("right", "left"), "y": ("away", "toward you")}
"""The way every figure is come to, and the way back."""
_OUT: Final = "backlash out"
_SIDES_OF: Final = {"x": ("left", "right"), "y": ("near", "far")}
"""The side of a round that is met going that way, and the one opposite."""


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
        for one in ways:
            said.append(sentence(_pick_up(one, part, workshop, mill, units, tuple(said))))
        if any(_is_finder(means) for _, _, means, _ in ways):
            said.insert(0, _spun(mill))
    heights = [one for one in zero.pick_up if one[0] == "z"]
    touched = any(step.touch is not None for step in worked.steps)
    if heights and ways:
        said.append("The height last, at the step that touches it.")
    elif heights and not touched:
        said.append(sentence(_height(heights[0], part, units)))
    return tuple(said)


def _is_finder(means: str) -> bool:
    return means.startswith(("edge finder", "wobbler"))


def _spun(mill: Mill | None) -> str:
    """Say what holds a finder, and how fast it is run: the speed in hand not over the usual."""
    slow = [speed for speed in (mill.speeds if mill is not None else ()) if speed <= _FINDER]
    speed = max(slow, default=min(mill.speeds, default=_FINDER) if mill is not None else _FINDER)
    return f"Finder in the drill chuck, {plain(speed, 'mm', places=0)} rev/min."


def _height(one: tuple[str, str, str, Millimetre], part: Part, units: Units) -> str:
    _, surface, means, _ = one
    return f"height: {means} on {surface_words(surface, part, units)}, knee dial to 0"


def _pick_up(  # noqa: PLR0917  (one line of a card)
    one: tuple[str, str, str, Millimetre],
    part: Part,
    workshop: Workshop,
    mill: Mill | None,
    units: Units,
    before: tuple[str, ...],
) -> str:
    way, surface, means, stands = one
    over = means.endswith(STILL_OVER)
    means = means.removesuffix(STILL_OVER)
    one = (way, surface, means, stands)
    slide = f"{'then ' if before else ''}{_SLIDES[way]}"
    face = surface_words(surface, part, units)
    if means.endswith(BOTH_SIDES):
        finder = means.removesuffix(BOTH_SIDES)
        there = _both_sides(way, finder, face)
        return f"{slide}: {there}{_to_expect(one, part, workshop, units)}"
    touch = _touch(means, f"{face}, raw" if over else face)
    if not stands:
        return f"{slide}: {touch}, dial to 0"
    far = plain(abs(stands), units, places=3)
    dial = None if mill is None or mill.readout else (mill.x if way == "x" else mill.y)
    if dial is None:
        sign = "" if stands > 0 else "\N{MINUS SIGN}"
        allowed = _allowed(means, part, surface, over=over)
        return f"{slide}: {touch}; set the readout to {sign}{far} ({allowed})"
    why = f"({far}{unit_of(units)}: {_allowed(means, part, surface, over=over)})"
    return f"{slide}: {touch}; {_set(one, dial)} {why}"


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
    return means if means.endswith(AT_THE_JAW) else f"{means} on {face}"


def _set(one: tuple[str, str, str, Millimetre], dial: Dial) -> str:
    """Say how the dial comes to nought at the zero, its backlash always taken up one way.

    Finder or cutter is lifted off before the slide goes on: past it there is the work.
    """
    way, _, means, stands = one
    on, back = _ON[way]
    turns = dial_setting(*turns_and_divisions(abs(stands), dial)).replace(" ", THIN)
    up = "finder up clear" if "cutter" not in means else "knee down clear"
    if stands < 0:
        return f"{up}, on {on} {turns}: dial to 0"
    zero = "dial to 0"
    if not means.endswith(AT_THE_JAW):
        zero = f"{_backlash_out(way)}, dial to 0, unlock"
    return f"{zero}; {up}, {back} past and back {on} to {turns} short of that: dial to 0"


def _backlash_out(way: str) -> str:
    """Say how a slide touched from the wrong way is read by its dial as from the right one."""
    turned = f"turn its handle as for going {_ON[way][0]} until it is hard"
    return f"lock the {_SLIDES[way]}, {turned} ({_OUT})"


def _both_sides(way: str, finder: str, face: str) -> str:
    """Say how the middle between two sides is found, both read with the backlash out."""
    on, back = _ON[way]
    first, second = _SIDES_OF[way]
    out = f"{_backlash_out(way)}, unlock"
    return (
        f"{finder} on the {first} side of {face}, dial to 0; up and over; on the {second} side, "
        f"{out}: half of what the dial has gone is the middle; up, {back} past it, {on} to it, "
        "dial to 0"
    )


def _to_expect(
    one: tuple[str, str, str, Millimetre], part: Part, workshop: Workshop, units: Units
) -> str:
    """Say what the dial is to show between two sides of a round: its diameter and the finder's."""
    way, surface, means, _ = one
    name = means.removesuffix(BOTH_SIDES)
    finder = next((gauge for gauge in workshop.gauges if gauge.name == name), None)
    face = next((s for s in part.surfaces if s.name == surface), None)
    dial = next((mill.x if way == "x" else mill.y for mill in workshop.mills), None)
    if finder is None or face is None or face.size is None or face.kind != "cylinder":
        return ""
    wide = face.size.middle
    far = wide + finder.tip
    said = f"{plain(wide, units)} + {plain(finder.tip, units)} = {plain(far, units)}"
    if dial is None or workshop.mills[0].readout:
        return f" (expect {said})"
    whole, half = (
        dial_setting(*turns_and_divisions(each, dial)).replace(" ", THIN)
        for each in (far, far / 2)
    )
    return f" (expect {said}: {whole}; half {half})"


def _allowed(means: str, part: Part, surface: str, *, over: bool) -> str:
    """Say what the middle of the finder or cutter stands off the zero by."""
    face = next((s for s in part.surfaces if s.name == surface), None)
    tool = "the finder" if "cutter" not in means else "the cutter"
    if means.endswith(RAW):
        return "half the cutter and the metal still to come off"
    if over:
        joins = "less" if means.endswith(AT_THE_JAW) else "and"
        return f"half {tool} {joins} the metal still over the face: by what was measured"
    if face is None or face.kind != "cylinder":
        return f"half {tool}"
    joins = "less" if means.endswith(AT_THE_JAW) else "and"
    return f"half the {face.feature} {joins} half {tool}"
