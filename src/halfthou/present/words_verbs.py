"""What each kind of operation is called on a card, one short function a verb."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Band, ChamferCut, Part
from halfthou.planning.model import Operation
from halfthou.planning.worked import Step
from halfthou.planning.working import words
from halfthou.present.numbers import (
    Units,
    by_eye,
    counted,
    joined,
    plain,
    sentence,
    trimmed,
    uncapital,
)
from halfthou.present.words_fixing import FIXED
from halfthou.present.words_surfaces import shop_name
from halfthou.units import DEGREE, Millimetre

_PILOT: Final = 0.7
"""Share of a thread's size below which a drill is the pilot and not the tapping size."""
_THREAD: Final = re.compile(r"\S+(?: (?:BSF|BSW|BSB|BSP|BA|ME|UNF|UNC|UNEF))?")
_SQUARE_ON: Final = 45.0
_LAP_UNDER: Final[Millimetre] = 0.05
"""How much smaller than its hole a split lap is turned (usual practice)."""
_EDGE_BROKEN: Final[Millimetre] = 0.2
_SIDES: Final = ("left", "right", "top", "bottom", "front", "back")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One operation of a step, to be put into words."""

    operation: Operation
    step: Step
    part: Part
    units: Units

    @property
    def named(self) -> str:
        """The feature, by its name on the drawing."""
        return f"the {shop_name(self.operation.feature)}"

    @property
    def holes(self) -> str:
        """The feature, or how many of it there are."""
        count = len(self.operation.at)
        name = self.screwed or shop_name(self.operation.feature)
        if count > 1:
            return f"the {counted(count)} {name} holes"
        return f"the {name} hole" if self.screwed else f"the {name}"

    @property
    def _tapped(self) -> Band | None:
        """The thread of a tapped hole as drawn."""
        for one in self.part.surfaces:
            if one.feature == self.operation.feature and one.kind == "thread" and one.inside:
                return one.size
        return None

    @property
    def screwed(self) -> str:
        """What the thread of a tapped hole is called; empty for any other."""
        size = self._tapped
        found = _THREAD.match(size.text) if size is not None else None
        return found[0] if found else ""

    @property
    def drilled(self) -> str:
        """The size of a drill, by what it is for in a tapped hole."""
        size = self._tapped
        if size is None:
            return self.to
        if self.operation.cut_size > size.nominal:
            return f"clearing {self.to}"
        pilot = self.operation.cut_size < _PILOT * size.nominal
        return f"{'pilot' if pilot else 'tapping size'} {self.to}"

    @property
    def to(self) -> str:
        """The diameter this operation itself makes."""
        return f"Ø{plain(self.operation.cut_size, self.units)}"

    @property
    def was(self) -> str:
        """The diameter this operation is begun from."""
        return f"Ø{plain(self.operation.from_size, self.units)}"

    @property
    def deep(self) -> str:
        """How deep, from the face the hole is entered by."""
        op = self.operation
        if op.through and words.BLIND_IN_BAR in self.step.remarks:
            stops = [abs(move.to) for move in self.step.moves if move.slide == "tailstock"]
            deep = stops[-1] if stops else self.step.length
            return f", {by_eye(deep, self.units)} deep"
        if op.through:
            return " right through"
        if op.starts:
            return f", {plain(abs(op.ends), self.units)} below the face"
        return f", {plain(abs(op.ends), self.units)} deep" if op.ends else ""

    @property
    def along(self) -> str:
        """How far from the face the cut ends, or where the saddle stops."""
        if self.step.length > 0:
            return f", {plain(self.step.length, self.units)} from the face"
        stops = [m.to for m in self.step.moves if m.slide == "saddle" and m.to]
        return f", {plain(abs(stops[-1]), self.units)} from the face" if stops else ""

    @property
    def leg(self) -> Millimetre:
        """The drawn leg of a chamfer."""
        chamfer = self.chamfer
        return chamfer.leg if chamfer is not None else 0.0

    @property
    def chamfer(self) -> ChamferCut | None:
        """The chamfer as drawn, if this cuts one."""
        drawn = (f for f in self.part.features if isinstance(f, ChamferCut))
        return next((f for f in drawn if f.name == self.operation.feature), None)


def doing_words(step: Step, part: Part, units: Units) -> str:
    """Say what the step does; several cuts with one tool are joined."""
    cuts = [Cut(operation=op, step=step, part=part, units=units) for op in step.operations]
    if len(cuts) > 1 and {(c.operation.verb, c.operation.feature) for c in cuts} == {
        ("drill", cuts[0].operation.feature)
    }:
        sizes = joined(tuple(cut.drilled for cut in cuts), "then")
        return sentence(f"Drill {cuts[0].holes} {sizes}{cuts[-1].deep}")
    first, *rest = dict.fromkeys(_SAID[cut.operation.verb](cut) for cut in cuts)
    return sentence("; ".join([first, *map(uncapital, rest)]))


def degrees(value: float) -> str:
    """Write an angle in degrees and minutes.

    >>> degrees(2.3859), degrees(45.0)
    ("2° 23'", '45°')
    """
    whole, rest = divmod(round(value * 60), 60)
    return f"{whole}° {rest}'" if rest else f"{whole}°"


def _face(cut: Cut) -> str:
    if cut.operation.feature not in _SIDES:
        return f"Face {cut.named}"
    to = " to length" if cut.step.band is not None or cut.step.measures else ""
    return f"Face the {cut.operation.feature} end{to}"


def _centre(cut: Cut) -> str:
    return f"Centre the end, {cut.to} at the mouth"


def _turn(cut: Cut) -> str:
    if cut.operation.stage == "rough":
        return f"Rough {cut.named} to {cut.to}{cut.along}"
    if cut.operation.stage == "finish":
        return f"Finish {cut.named} from {cut.was} {_to_size(cut)}{cut.along}"
    return f"Turn {cut.named} to {cut.to}{cut.along}"


def _to_size(cut: Cut) -> str:
    """Say the figure where something else takes the rest to size."""
    return "to size" if cut.operation.size is not None else f"to {cut.to}"


def _lap(cut: Cut) -> str:
    if cut.operation.machine != "lathe":
        return f"Lap {cut.named} to size"
    how = "" if cut.operation.inside else " with fine abrasive"
    verb = "Lap" if cut.operation.inside else "Bring"
    lap = plain(cut.operation.from_size - _LAP_UNDER, cut.units)
    called = f", the lap Ø{lap} and let out to fit" if cut.operation.inside else how
    if cut.step.length > 0 and not cut.operation.inside:
        called += f", no further than {by_eye(cut.step.length, cut.units, way=-1)} from the face"
    elif cut.step.length > 0:
        mark = by_eye(cut.step.length, cut.units, way=-1)
        called += f", marked {mark} from its nose: no deeper"
    return f"{verb} {cut.named} from {cut.was} to size{called}"


def _taper(cut: Cut) -> str:
    over = cut.step.set_over
    how = f": top-slide set over {degrees(over / DEGREE)}" if over else ""
    large = f"Ø{plain(cut.operation.from_size, cut.units)}"
    return f"Turn the taper of {cut.named}, {large} to {cut.to}{how}"


def _groove(cut: Cut) -> str:
    wide = plain(abs(cut.operation.ends - cut.operation.starts), cut.units)
    return f"Cut {cut.named}, {wide} wide to {cut.to}"


def _chamfer(cut: Cut) -> str:
    angle = degrees(cut.operation.angle / DEGREE or _SQUARE_ON)
    size = f" {plain(cut.leg, cut.units)} x {angle}" if cut.leg else ""
    return f"Chamfer {_edge(cut)}{size}"


def _edge(cut: Cut) -> str:
    """Name the edge a chamfer takes off, by what the drawing calls it."""
    edge = cut.chamfer.edge if cut.chamfer is not None else cut.operation.feature
    parts = edge.split()
    if not cut.part.turned:
        sides = [word for word in cut.operation.feature.split() if word in _SIDES]
        return f"the {' '.join(sides)} edge" if sides else cut.named
    if cut.operation.inside:
        return f"the mouth of the {shop_name(edge)}"
    if edge in _SIDES:
        return f"the rim at the {edge} end"
    if parts[-1] in _SIDES:
        return f"the {parts[-1]} rim of the {shop_name(' '.join(parts[:-1]))}"
    return f"the {shop_name(edge)}"


def _thread(cut: Cut) -> str:
    thread = cut.operation.thread
    name = thread.designation if thread else cut.operation.feature
    if "die" in cut.step.tool.split():
        return f"Cut the {name} thread with the die{cut.along}"
    pitch = ""
    if thread and thread.tpi:
        pitch = f", {trimmed(thread.tpi, 1)} to the inch"
    elif thread:
        pitch = f", pitch {trimmed(thread.pitch, 3)} mm"
    wheels = ""
    if cut.step.train is not None:
        above, below = (joined(tuple(map(str, side))) for side in cut.step.train)
        screw = plain(cut.step.leadscrew, "mm")
        wheels = f"; leadscrew {screw} mm: drivers {above}; driven {below}"
    elif cut.step.wheels:
        driver, driven = cut.step.wheels
        wheels = f"; change wheels {driver} driving {driven}"
    return f"Screwcut the {name} thread{pitch}{wheels}"


def _spot(cut: Cut) -> str:
    return f"Spot {cut.holes}"


def _drill(cut: Cut) -> str:
    return f"Drill {cut.holes} {cut.drilled}{cut.deep}"


def _bore(cut: Cut) -> str:
    if cut.operation.stage == "finish":
        if cut.operation.size is None:
            return f"Finish {cut.holes} from {cut.was} to {cut.to}{cut.deep}"
        return f"Finish {cut.holes} from {cut.was} to size, {_reamer(cut)}{cut.deep}"
    return f"Open {cut.holes} to {cut.to}{cut.deep}"


def _ream(cut: Cut) -> str:
    return f"Ream {cut.holes} {_reamer(cut)}{cut.deep}"


def _reamer(cut: Cut) -> str:
    """Call a reamer by the drawn size, not by the middle of its limits."""
    size = cut.operation.size
    return f"Ø{plain(size.nominal, cut.units)}" if size is not None else cut.to


def _tap(cut: Cut) -> str:
    if cut.screwed:
        return f"Tap {cut.holes}{cut.deep}"
    thread = cut.operation.thread
    return f"Tap {cut.holes} {thread.designation if thread else ''}{cut.deep}"


def _countersink(cut: Cut) -> str:
    return f"Countersink {cut.holes} to {cut.to}"


def _counterbore(cut: Cut) -> str:
    return f"Counterbore {cut.holes} {cut.to}{cut.deep}"


def _spot_face(cut: Cut) -> str:
    return f"Spot-face {cut.holes} {cut.to}"


def _mill_face(cut: Cut) -> str:
    feature = cut.operation.feature
    name = f"the {feature} face" if feature in _SIDES else cut.named
    return f"{'Rough' if cut.operation.stage == 'rough' else 'Mill'} {name}"


def _mill_out(cut: Cut) -> str:
    return f"{'Rough out' if cut.operation.stage == 'rough' else 'Mill'} {cut.named}"


def _keyway(cut: Cut) -> str:
    feature = cut.operation.feature
    return "Mill the keyway" if feature in {"key", "keyway"} else f"Mill the keyway {feature}"


def _mill_chamfer(cut: Cut) -> str:
    return f"Chamfer {_edge(cut)}{' ' + plain(cut.leg, cut.units) if cut.leg else ''}"


def _deburr(cut: Cut) -> str:
    return f"Break every edge {plain(_EDGE_BROKEN, cut.units)}, but no corner that works"


def _saw(cut: Cut) -> str:
    if cut.operation.key.startswith("saw through"):
        return f"Saw through at the {cut.operation.feature}"
    on_bar = cut.operation.feature == "blank"
    return "Saw the blank to length" if on_bar else "Saw off the chucking piece"


def _mark_out(cut: Cut) -> str:
    return f"Mark out {cut.named}"


_SAID: Final[dict[str, Callable[[Cut], str]]] = {
    "saw": _saw,
    "part off": lambda _: "Part off",
    "face": _face,
    "centre": _centre,
    "turn": _turn,
    "turn taper": _taper,
    "groove": _groove,
    "chamfer": _chamfer,
    "thread": _thread,
    "spot": _spot,
    "drill": _drill,
    "bore": _bore,
    "ream": _ream,
    "tap": _tap,
    "countersink": _countersink,
    "counterbore": _counterbore,
    "spot-face": _spot_face,
    "mill face": _mill_face,
    "mill step": _mill_out,
    "mill slot": _mill_out,
    "mill pocket": _mill_out,
    "mill keyway": _keyway,
    "mill chamfer": _mill_chamfer,
    "file": lambda cut: f"File {cut.named} to the line",
    "deburr": _deburr,
    "mark out": _mark_out,
    **FIXED,
    "lap": _lap,
    "bolt up": lambda _: "Bolt the halves up",
    "fit dowels": lambda _: "Fit the dowels",
    "take apart": lambda _: "Take the halves apart",
}
