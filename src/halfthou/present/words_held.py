"""Held work, as its holding is put into words: gripped by, seated on, how far out."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.present.numbers import THIN, Units, by_eye, joined, length, plain
from halfthou.present.words_surfaces import surface_words
from halfthou.units import Millimetre, Vec3

_TOWARD: Final[dict[Vec3, str]] = {
    (-1.0, 0.0, 0.0): "left",
    (1.0, 0.0, 0.0): "right",
    (0.0, -1.0, 0.0): "bottom",
    (0.0, 1.0, 0.0): "top",
    (0.0, 0.0, -1.0): "back",
    (0.0, 0.0, 1.0): "front",
}
ALONG: Final = 0.9
"""Share of a direction along an axis from which it is that axis."""
NOTHING: Final = 0.05
"""Metal too little to mention beside how far work stands out. [mm]"""
_ALL_ROUND: Final = 3
"""Gripped faces from which work is held all round."""
_SHORT_GRIP: Final[Millimetre] = 12.0
"""A grip shorter than this does not set work square by itself (usual practice)."""
_RULED: Final[Millimetre] = 20.0
"""From this length how far work stands out is set by rule."""
_COPPER: Final[Millimetre] = 0.5


def end_out(scheme: Scheme) -> str:
    """Name the side of the part that looks at the tool."""
    nearest = max(_TOWARD, key=lambda d: sum(a * b for a, b in zip(d, scheme.faces, strict=True)))
    return _TOWARD[nearest]


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A holding to be put into words."""

    scheme: Scheme
    part: Part
    units: Units
    standing: tuple[Millimetre, Millimetre]
    """How far it stands out, as put in and when faced."""
    longest: Millimetre = 0.0
    """How far it may stand out as put in at most, where its length is only known by then."""
    against: bool = False
    """Whether a shoulder lies against the jaws, so that nothing is left to set."""

    @property
    def gripped(self) -> str:
        """What the device bears on."""
        names = tuple(surface_words(name, self.part, self.units) for name in self.scheme.grips)
        if len(names) >= _ALL_ROUND:
            return "the work by its four sides"
        return joined(names) or "the work"

    @property
    def seat(self) -> str:
        """What it stands on or backs against; empty if nothing."""
        return joined(tuple(surface_words(n, self.part, self.units) for n in self.scheme.seats))

    @property
    def in_jaws(self) -> str:
        """How far it goes in."""
        return length(self.scheme.grip_high - self.scheme.grip_low, self.units)

    @property
    def out(self) -> str:
        """Which end looks at the tool and how far it stands out, now and when it is faced."""
        now, faced = self.standing
        side = end_out(self.scheme).capitalize()
        how = "by rule " if self._free else ""
        if self.longest - now > NOTHING and not self._free:
            most = plain(self.longest, self.units, places=1)
            shown = f"{plain(now, self.units, places=1)} to {most}{unit_of(self.units)}"
        else:
            shown = by_rule(now, self.units)
        end = f"{side} end out, {shown} {how}from the jaws"
        then = f" ({plain(faced, self.units, places=1)} when faced)"
        return f"{end}{then if now - faced > NOTHING else ''}."

    @property
    def _free(self) -> bool:
        """Whether it is set how far the work stands out: nothing it is hard back against says."""
        return not (self.scheme.seats or self.shoulder or self.backed or self.against)

    @property
    def backed(self) -> bool:
        """Whether the grip is so short that the work is set square by what is behind it."""
        grip = self.scheme.grip_high - self.scheme.grip_low
        return self.raw and 0 < grip < _SHORT_GRIP

    @property
    def raw(self) -> bool:
        """Whether the jaws hold the lump as bought and nothing else."""
        return bool(self.scheme.grips) and all("stock" in one for one in self.scheme.grips)

    @property
    def size(self) -> str:
        """What the jaws, collet or mandrel measure across."""
        return f"Ø{plain(self.scheme.grip_size, self.units, places=3)}"

    @property
    def lies(self) -> str:
        """Which side is up, and which lies to the right where that matters."""
        up = f"{end_out(self.scheme)} face up"
        if self.part.turned:
            return up if abs(self.scheme.faces[0]) > ALONG else self._axis_level
        across = self.scheme.across
        side = max(_TOWARD, key=lambda d: sum(a * b for a, b in zip(d, across, strict=True)))
        return f"{up}, {_TOWARD[side]} face to the right"

    @property
    def _axis_level(self) -> str:
        if abs(self.scheme.across[0]) < ALONG:
            return "on its rim, the left face to the fixed jaw"
        right = "right" if self.scheme.across[0] > 0 else "left"
        return f"axis level along the table, {right} end to the right"

    @property
    def shoulder(self) -> str:
        """The face that lies against the jaws because the grip begins at it; empty if none."""
        scheme = self.scheme
        if scheme.machine != "lathe" or scheme.seats or scheme.inside:
            return ""
        at = scheme.grip_high if scheme.faces[0] > 0 else scheme.grip_low
        for one in self.part.surfaces:
            if one.kind != "plane" or one.inside or abs(one.point[0] - at) > NOTHING:
                continue
            if one.name not in ("left", "right") and one.high[1] > scheme.grip_size / 2:
                return one.feature
        return ""


def unit_of(units: Units) -> str:
    """Give the unit after a figure; none where both are given and brackets say which."""
    return "" if units == "both" else f"{THIN}{units}"


def by_rule(value: Millimetre, units: Units) -> str:
    """Write what a rule sets: half millimetres once it is long.

    >>> by_rule(154.8, "mm").replace("\u00a0", " "), by_rule(9.25, "mm").replace("\u00a0", " ")
    ('155 mm', '9.2 mm')
    """
    if value < _RULED:
        return length(value, units, places=1 if units == "mm" else 2)
    return f"{by_eye(value, units)}{unit_of(units)}"


def back_words(held: Held, against: str) -> str:
    """Say what the work is hard back on."""
    return f", {held.seat} hard back on {against}" if held.seat else ""


def jaws_called(scheme: Scheme) -> str:
    """Say which jaws go in a three-jaw: the reversed ones for work beyond half its size.

    By what one sees: "inside" and "outside" jaws mean the contrary to half the trade.
    """
    if scheme.inside:
        return "ordinary jaws, opening in the bore"
    large = scheme.device.overall > 0 and scheme.grip_size > _LARGE * scheme.device.overall
    return "reversed jaws" if large else "ordinary jaws"


_IN_THE_CHUCK: Final[Millimetre] = 40.0
"""Work longer than this behind its grip comes through the chuck into the spindle."""
_CLEAR_BORE: Final[Millimetre] = 1.0
"""How much larger than the work the spindle's bore is at least."""
_LARGE: Final = 0.4
"""Share of a chuck's size beyond which its jaws are reversed."""


def three_jaw_words(held: Held) -> str:
    """Say how work is held in the three-jaw."""
    jaws = jaws_called(held.scheme)
    seat = "the jaw steps" if jaws == "reversed jaws" else "equal packing"
    held_by = grip_words(held, f"in the three-jaw, {jaws}", seat)
    packed = packing_out(held) if seat == "equal packing" else ""
    return f"{held_by} {held.out}{through_words(held)}{copper_words(held)}{packed}"


def packing_out(held: Held) -> str:
    """Say that loose packing behind the work is not left there to fly."""
    loose = held.scheme.machine == "lathe" and held.seat and not held.shoulder
    return " Packing stays until clocked and tight; then out, before power." if loose else ""


def through_words(held: Held) -> str:
    """Say what goes back through chuck and spindle, and the bore that asks for."""
    scheme = held.scheme
    if scheme.machine != "lathe" or scheme.inside or held.raw or not held.part.turned:
        return ""
    ends = [x for one in held.part.surfaces for x in (one.low[0], one.high[0])]
    right = scheme.faces[0] > 0
    behind = scheme.grip_low - min(ends) if right else max(ends) - scheme.grip_high
    if behind < _IN_THE_CHUCK:
        return ""
    bore = math.ceil(scheme.grip_size + _CLEAR_BORE)
    through = length(behind, held.units, places=0 if held.units == "mm" else 1)
    return (
        f" {through} of it goes back through chuck and spindle: their bore "
        f"{length(bore, held.units)} or more."
    )


def angle_plate_words(held: Held) -> str:
    """Say how work is held on the angle plate, on the mill's table or on the lathe's faceplate."""
    seat = f", {held.seat} against it" if held.seat else ""
    if held.scheme.machine == "lathe":
        return (
            f"Clamped to the angle plate on the faceplate, {end_out(held.scheme)} end out{seat}."
        )
    return f"Clamped to the angle plate on the table, {held.lies}{seat}."


def copper_words(held: Held) -> str:
    """Say what saves a finished surface from the jaws; drawn skin that stays is one."""
    scheme = held.scheme
    soft = scheme.device.device == "soft jaws"
    rough = any("stock" in name or "as roughed" in name for name in scheme.grips)
    cast = {one.name for one in held.part.surfaces if one.raw}
    if soft or rough or cast.issuperset(scheme.grips):
        return ""
    return f" Soft copper {plain(_COPPER, held.units)} under the jaws."


def grip_words(held: Held, where: str, against: str) -> str:
    """Say how much is gripped, where and against what."""
    if len(held.scheme.grips) >= _ALL_ROUND:
        return f"Grip {held.gripped} {where}, {held.in_jaws} in{back_words(held, against)}."
    if held.shoulder:
        return f"Grip {held.gripped} {where}, jaws hard against the {held.shoulder}."
    about = "about " if held.raw else ""
    return f"Grip {about}{held.in_jaws} of {held.gripped} {where}{back_words(held, against)}."
