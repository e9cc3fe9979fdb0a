"""Where the dials are set to zero and how it is picked up; what each dial reads."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Machine
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import THIN, Units, joined, plain, sentence
from halfthou.present.words_mill_zero import mill_zero_words
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Millimetre
from halfthou.workshop.model import Dial, Workshop

_SLIDES: Final[dict[Machine, dict[str, str]]] = {
    "lathe": {"x": "saddle", "y": "cross-slide", "z": "cross-slide", "diameter": "cross-slide"},
    "mill": {},
    "bench": {},
}
_READ: Final = {"radius": " off the radius", "diameter": " off the diameter", "travel": ""}
_FACING: Final = frozenset({"face"})
_TRIAL: Final = "touch the tool on the work, dial to 0; put right by the first cut, measured"


def zero_words(worked: WorkedSetUp, part: Part, workshop: Workshop, units: Units) -> str:
    """Say the zero of each direction and how to find it, then what the dials read."""
    zero = worked.zero
    if zero is None:
        return ""
    machine = worked.set_up.scheme.machine
    if machine == "mill":
        picked = mill_zero_words(worked, part, workshop, units)
        return " ".join([*picked, dials_words(worked, workshop)]).strip()
    faced = any(op.verb in _FACING for op in worked.set_up.operations)
    found: dict[tuple[str, str, Millimetre], list[str]] = {}
    for direction, surface, means, allow in zero.pick_up:
        slide = _SLIDES[machine].get(direction, direction)
        on = _picked_up(direction, surface, part, units, faced=faced)
        found.setdefault((on, means, abs(allow)), []).append(slide)
    said = [_pick_up(tuple(slides), *how, units=units) for how, slides in found.items()]
    return " ".join([*said, dials_words(worked, workshop)]).strip()


def _picked_up(direction: str, surface: str, part: Part, units: Units, *, faced: bool) -> str:
    if direction == "x" and faced:
        return _NEW_FACE
    return surface_words(surface, part, units) if surface else ""


def _pick_up(
    slides: tuple[str, ...], on: str, means: str, allow: Millimetre, *, units: Units
) -> str:
    far = f"{plain(allow, units, places=3)} short of zero"
    if not on:
        how = _TRIAL
    elif on == _NEW_FACE:
        how = f"dial to 0 on the face as it is finished; each new tool then by {means}, {far}"
    elif "feeler" in means:
        how = f"{means} on {on}, {far}, with each tool"
    else:
        how = (
            f"{means} on {on}; its middle is then {far}"
            if allow
            else f"{means} on {on}, dial to 0"
        )
    return sentence(f"{joined(slides)}: {how}")


_NEW_FACE: Final = "the face, once it is cut"


def dials_words(worked: WorkedSetUp, workshop: Workshop) -> str:
    """Say what one turn and one division of each dial used is, in the dials' own unit."""
    machine = worked.set_up.scheme.machine
    used = {move.slide for step in worked.steps for move in step.moves}
    used |= {m.slide for step in worked.steps for place in step.places for m in place.moves}
    if machine == "lathe" and workshop.lathes:
        lathe = workshop.lathes[0]
        if lathe.readout:
            return "Figures are for the readout."
        lathe_dials = (
            ("cross-slide", lathe.cross_slide),
            ("saddle", lathe.saddle),
            ("top-slide", lathe.top_slide),
        )
        own = [_dial(name, dial) for name, dial in lathe_dials if dial and name in used]
        over = any(step.set_over for step in worked.steps)
        level = "top-slide" in used and not over
        return _turns(own) + (" Top-slide set parallel to the bed." if level else "")
    if machine == "mill" and workshop.mills:
        mill = workshop.mills[0]
        if mill.readout:
            return "Figures are for the readout."
        mill_dials = (("table", mill.x), ("cross-table", mill.y), ("knee", mill.z))
        return _turns([_dial(name, dial) for name, dial in mill_dials if name in used])
    return ""


def _turns(dials: list[str]) -> str:
    """Say several dials once where they are alike."""
    return f"One turn: {'; '.join(dials)}." if dials else ""


def _dial(slide: str, dial: Dial) -> str:
    own: Units = dial.units
    count = round(dial.lead / dial.division)
    lead = plain(dial.lead, own, places=3)
    return f"{slide} {count} div, {lead}{THIN}{own}{_READ[dial.reads]}"
