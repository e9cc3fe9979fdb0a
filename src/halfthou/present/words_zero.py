"""Where the dials are set to zero and how it is picked up; what each dial reads."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Machine
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, joined, plain, sentence
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Millimetre
from halfthou.workshop.model import Dial, Workshop

_SLIDES: Final[dict[Machine, dict[str, str]]] = {
    "lathe": {"x": "saddle", "y": "cross-slide", "z": "cross-slide", "diameter": "cross-slide"},
    "mill": {"x": "table", "y": "cross-table", "z": "height"},
    "bench": {},
}
_READ: Final = {"radius": " on radius", "diameter": " on diameter", "travel": ""}
_FACING: Final = frozenset({"face"})
_TRIAL: Final = "0 where the tool touches; put it right by the first cut, measured"


def zero_words(worked: WorkedSetUp, part: Part, workshop: Workshop, units: Units) -> str:
    """Say the zero of each direction and how to find it, then what the dials read."""
    zero = worked.zero
    if zero is None:
        return ""
    machine = worked.set_up.scheme.machine
    faced = any(op.verb in _FACING for op in worked.set_up.operations)
    found: dict[tuple[str, str, str, Millimetre], list[str]] = {}
    for direction, surface, means, allow in zero.pick_up:
        slide = _SLIDES[machine].get(direction, direction)
        on = _picked_up(direction, surface, part, units, faced=faced and machine == "lathe")
        side = _side(machine, direction, allow) if allow else ""
        found.setdefault((on, means, side, abs(allow)), []).append(slide)
    said = [_pick_up(tuple(slides), *how, units=units) for how, slides in found.items()]
    return " ".join([*said, dials_words(machine, workshop)]).strip()


def _picked_up(direction: str, surface: str, part: Part, units: Units, *, faced: bool) -> str:
    if direction == "x" and faced:
        return "the face, once it is cut"
    return surface_words(surface, part, units) if surface else ""


def _side(machine: Machine, direction: str, allow: Millimetre) -> str:
    """Say on which side of zero one stands when the finder or feeler tells."""
    if machine == "lathe":
        return "short of zero"
    ways = {"x": ("right of zero", "left of zero"), "y": ("beyond zero", "this side of zero")}
    further, nearer = ways.get(direction, ("above zero", "below zero"))
    return further if allow > 0 else nearer


def _pick_up(
    slides: tuple[str, ...], on: str, means: str, side: str, allow: Millimetre, *, units: Units
) -> str:
    who = joined(slides)
    if not on:
        return sentence(f"{who}: {_TRIAL}")
    there = f"that is {plain(allow, units, places=3)} {side}" if side else "that is zero"
    return sentence(f"{who}: {on}, by {means}; {there}")


def dials_words(machine: Machine, workshop: Workshop) -> str:
    """Say what one division of the dials is, in the dials' own unit."""
    if machine == "lathe" and workshop.lathes:
        lathe = workshop.lathes[0]
        if lathe.readout:
            return "Figures are for the readout."
        dials = (
            ("cross-slide", lathe.cross_slide),
            ("saddle", lathe.saddle),
            ("top-slide", lathe.top_slide),
        )
        return f"One division: {', '.join(_dial(name, dial) for name, dial in dials if dial)}."
    if machine == "mill" and workshop.mills:
        mill = workshop.mills[0]
        if mill.readout:
            return "Figures are for the readout."
        return f"One division: {_dial('table', mill.x)}, {_dial('cross-table', mill.y)}."
    return ""


def _dial(slide: str, dial: Dial) -> str:
    own: Units = dial.units
    return f"{slide} {plain(dial.division, own, places=3)} {own}{_READ[dial.reads]}"
