"""Where the dials are set to zero and how it is picked up; what each dial reads."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Machine
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, plain, sentence
from halfthou.present.words_surfaces import surface_words
from halfthou.workshop.model import Dial, Workshop

_LATHE_SLIDES: Final = {"x": "saddle", "y": "cross-slide", "z": "cross-slide"}


def zero_words(worked: WorkedSetUp, part: Part, workshop: Workshop, units: Units) -> str:
    """Say the zero of each direction and how to find it, then what the dials read."""
    zero = worked.zero
    if zero is None:
        return ""
    machine = worked.set_up.scheme.machine
    said = [
        _pick_up(direction, surface_words(surface, part, units), means, allow, machine, units)
        for direction, surface, means, allow in zero.pick_up
    ]
    if not said and zero.surfaces:
        first = surface_words(zero.surfaces[0], part, units)
        said = [f"{sentence('zero on ' + first)}"]
    return " ".join([*said, dials_words(machine, workshop, units)]).strip()


def _pick_up(
    direction: str, surface: str, means: str, allow: float, machine: Machine, units: Units
) -> str:
    slide = _LATHE_SLIDES.get(direction, direction) if machine == "lathe" else direction
    with_ = f" with the {means}" if means else ""
    set_to = f"set it to {plain(abs(allow), units, places=3)}" if allow else "set it to 0"
    return sentence(f"{slide}: pick up {surface}{with_}; {set_to}")


def dials_words(machine: Machine, workshop: Workshop, units: Units) -> str:
    """Say what one division of the dials is, in the dials' own unit."""
    if machine == "lathe" and workshop.lathes:
        lathe = workshop.lathes[0]
        if lathe.readout:
            return "Figures are for the readout."
        said = [_dial("cross-slide", lathe.cross_slide)]
        if lathe.saddle is not None:
            said.append(_dial("saddle", lathe.saddle))
        return "Dials: " + ", ".join(said) + "."
    if machine == "mill" and workshop.mills:
        mill = workshop.mills[0]
        if mill.readout:
            return "Figures are for the readout."
        return f"Dials: {_dial('table', mill.x)}. Come up to every place from the same side."
    return ""


def _dial(slide: str, dial: Dial) -> str:
    own: Units = dial.units
    read = {"radius": "on radius", "diameter": "on diameter", "travel": ""}[dial.reads]
    return f"{slide} 1 div = {plain(dial.division, own, places=3)} {own} {read}".strip()
