"""How a holding is said: device, surface, length in the jaws, back against, true to what."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, capital, joined, length, plain, sentence
from halfthou.present.words_same_grip import same_grip
from halfthou.present.words_surfaces import shop_name, surface_words
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Device

_TOWARD: Final[dict[Vec3, str]] = {
    (-1.0, 0.0, 0.0): "left",
    (1.0, 0.0, 0.0): "right",
    (0.0, -1.0, 0.0): "bottom",
    (0.0, 1.0, 0.0): "top",
    (0.0, 0.0, -1.0): "back",
    (0.0, 0.0, 1.0): "front",
}
_ALONG: Final = 0.9
_ALL_ROUND: Final = 3
"""Gripped faces from which work is held all round."""
_NOTHING: Final = 0.05
"""Metal too little to mention beside how far work stands out. [mm]"""
_RULED: Final[Millimetre] = 20.0
"""From this length how far work stands out is set by rule."""
_LARGE: Final = 0.4
"""Share of a chuck's size beyond which its jaws are reversed."""
_COPPER: Final[Millimetre] = 0.5
_ROUND_BAR: Final[Millimetre] = 10.0
_STEADY: Final[Millimetre] = 0.05
_THIN_PARALLEL: Final[Millimetre] = 3.0
_SHORT: Final[dict[Device, str]] = {
    "three-jaw chuck": "three-jaw",
    "soft jaws": "soft jaws",
    "four-jaw chuck": "four-jaw, clocked",
    "collet": "collet",
    "faceplate": "faceplate",
    "centres": "between centres",
    "stub mandrel": "mandrel",
    "vice": "vice",
    "clamps": "clamped to the table",
    "rotary table": "rotary table",
    "dividing head": "dividing head",
    "V-blocks": "V-blocks",
    "angle plate": "angle plate",
    "chuck on the mill table": "chuck on the table",
    "bench vice": "bench vice",
    "fixed steady": "fixed steady",
}


def end_out(scheme: Scheme) -> str:
    """Name the side of the part that looks at the tool."""
    nearest = max(_TOWARD, key=lambda d: sum(a * b for a, b in zip(d, scheme.faces, strict=True)))
    return _TOWARD[nearest]


def holding_in_short(scheme: Scheme) -> str:
    """Say the holding in a few words, for the way through: ``three-jaw, right end out``."""
    words = _SHORT[scheme.device.device]
    if scheme.centre and scheme.device.device != "centres":
        words += " and centre"
    if scheme.machine == "lathe":
        return f"{words}, {end_out(scheme)} end out"
    return f"{words}, {end_out(scheme)} face up" if scheme.machine == "mill" else words


def holding_words(
    worked: WorkedSetUp, part: Part, units: Units, before: WorkedSetUp | None = None
) -> str:
    """Say how the work is held, with what goes with it; ``before`` is the set-up before this."""
    scheme = worked.set_up.scheme
    held = Held(scheme=scheme, part=part, units=units, standing=_standing_out(worked))
    if before is not None and same_grip(scheme, before.set_up.scheme):
        said = [_left_in(held, before.set_up.scheme)]
    else:
        said = [_SAID.get(scheme.device.device, _otherwise)(held), *_supports(scheme, units)]
    known = {_plainly(scheme.links[-1].detail)}
    for note in worked.hold_notes:
        if _plainly(note) not in known:
            said.append(sentence(_NOTES.get(note, note)))
    return " ".join(dict.fromkeys(one for one in said if one and one != "."))


def _plainly(note: str) -> str:
    return note.strip().lower()


_NOTES: Final = {
    "soft metal under the jaws: what they hold is finished": "",
    "jaws bored in place to the size they hold, a ring gripped behind meanwhile": (
        "bore the jaws in place, a ring gripped behind meanwhile"
    ),
    "work hard back on its seat; tap it home as the jaws are tightened": (
        "tap it home as the jaws are tightened"
    ),
    "wipe jaws and parallels; knock the work down, and see that no parallel moves": (
        "wipe all, knock the work down: no parallel to move"
    ),
    "best face to the fixed jaw, a round bar between work and moving jaw": "",
    "right and away are ways of the cutter over the work; the table goes the other way": "",
}
"""Notes of planning that are said here with the holding itself, or shorter."""


def _left_in(held: Held, before: Scheme) -> str:
    """Say what is changed about work that stays in the chuck."""
    scheme = held.scheme
    said = ["Leave it in the chuck as it is"]
    steady = _has_steady(scheme)
    if _has_steady(before) and not steady:
        said.append("take the steady off")
    if scheme.centre and not before.centre:
        said.append("bring the tailstock centre up")
    if before.centre and not scheme.centre:
        said.append("draw the tailstock back")
    if steady and not _has_steady(before):
        said += [sentence(one).rstrip(".") for one in _supports(scheme, held.units)]
    return f"{joined(tuple(said))}. {held.out}"


def _has_steady(scheme: Scheme) -> bool:
    return any(link.holder.device == "fixed steady" for link in scheme.links[:-1])


def _standing_out(worked: WorkedSetUp) -> tuple[Millimetre, Millimetre]:
    """Tell how far the work stands out: as it is put in, and when its end is faced."""
    scheme = worked.set_up.scheme
    faced = [op for op in worked.set_up.operations if op.verb == "face"]
    if not faced or scheme.machine != "lathe":
        return scheme.stick_out, scheme.stick_out
    sense = 1.0 if scheme.faces[0] > 0 else -1.0
    jaws = sense * (scheme.grip_high if sense > 0 else scheme.grip_low)
    raw = max(sense * op.starts + op.from_size for op in faced)
    return raw - jaws, min(sense * op.starts for op in faced) - jaws


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A holding to be put into words."""

    scheme: Scheme
    part: Part
    units: Units
    standing: tuple[Millimetre, Millimetre]
    """How far it stands out, as put in and when faced."""

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
        end = f"{end_out(self.scheme).capitalize()} end out, {by_rule(now, self.units)} from the jaws"
        then = f" ({plain(faced, self.units, places=1)} when faced)"
        return f"{end}{then if now - faced > _NOTHING else ''}."

    @property
    def size(self) -> str:
        """What the jaws, collet or mandrel measure across."""
        return f"Ø{plain(self.scheme.grip_size, self.units, places=3)}"

    @property
    def lies(self) -> str:
        """Which side is up, and which lies to the right where that matters."""
        up = f"{end_out(self.scheme)} face up"
        if self.part.turned:
            return up if abs(self.scheme.faces[0]) > _ALONG else self._axis_level
        across = self.scheme.across
        side = max(_TOWARD, key=lambda d: sum(a * b for a, b in zip(d, across, strict=True)))
        return f"{up}, {_TOWARD[side]} face to the right"

    @property
    def _axis_level(self) -> str:
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
            if one.kind != "plane" or one.inside or abs(one.point[0] - at) > _NOTHING:
                continue
            if one.name not in ("left", "right") and one.high[1] > scheme.grip_size / 2:
                return one.feature
        return ""


def by_rule(value: Millimetre, units: Units) -> str:
    """Write what a rule sets: half millimetres once it is long.

    >>> by_rule(154.8, "mm").replace("\u00a0", " "), by_rule(9.25, "mm").replace("\u00a0", " ")
    ('155 mm', '9.25 mm')
    """
    if value < _RULED or units == "in":
        return length(value, units, places=2)
    return length(round(value * 2) / 2, units, places=1)


# --- lathe ------------------------------------------------------------------------------------


def _back(held: Held, against: str) -> str:
    return f", {held.seat} hard back on {against}" if held.seat else ""


def jaws_words(scheme: Scheme) -> str:
    """Say which jaws go in a three-jaw: the reversed ones for work beyond half its size."""
    if scheme.inside:
        return "inside jaws, opening in the bore"
    large = scheme.device.overall > 0 and scheme.grip_size > _LARGE * scheme.device.overall
    return "outside jaws" if large else "inside jaws"


def _copper(held: Held) -> str:
    """Say what saves a finished surface from the jaws."""
    scheme = held.scheme
    soft = scheme.device.device == "soft jaws"
    raw = any("stock" in name or "as roughed" in name for name in scheme.grips)
    if soft or raw or not scheme.grips:
        return ""
    return f" Soft copper {plain(_COPPER, held.units)} under the jaws."


def _three_jaw(held: Held) -> str:
    jaws = f"in the three-jaw, {jaws_words(held.scheme)}"
    seat = "the jaw steps" if jaws_words(held.scheme) == "outside jaws" else "equal packing"
    return f"{_grip(held, jaws, seat)} {held.out}{_copper(held)}"


def _soft_jaws(held: Held) -> str:
    return f"{_grip(held, f'in soft jaws bored {held.size}', 'their step')} {held.out}"


def _four_jaw(held: Held) -> str:
    against = "the jaw steps or equal packing"
    return f"{_grip(held, 'in the four-jaw', against)} {held.out}{_copper(held)}"


def _collet(held: Held) -> str:
    return f"{_grip(held, f'in the {held.size} collet', 'its stop')} {held.out}"


def _grip(held: Held, where: str, against: str) -> str:
    if len(held.scheme.grips) >= _ALL_ROUND:
        return f"Grip {held.gripped} {where}, {held.in_jaws} in{_back(held, against)}."
    if held.shoulder:
        return f"Grip {held.gripped} {where}, jaws hard against the {held.shoulder}."
    return f"Grip {held.in_jaws} of {held.gripped} {where}{_back(held, against)}."


def _centres(held: Held) -> str:
    tail = end_out(held.scheme)
    driven = "left" if tail == "right" else "right"
    where = f"driver on the {driven} end, {tail} end at the tailstock"
    return f"Between centres, {where}: no shake, no bind."


def _mandrel(held: Held) -> str:
    return (
        f"On a stub mandrel turned to a light push fit in {held.gripped}"
        f"{_back(held, 'its shoulder')}; nut and washer. "
        f"{end_out(held.scheme).capitalize()} end out."
    )


def _faceplate(held: Held) -> str:
    seat = f"{held.seat} flat on it, " if held.seat else ""
    return f"On the faceplate, {seat}{end_out(held.scheme)} end out. Paper between."


# --- mill -------------------------------------------------------------------------------------


def _vice(held: Held) -> str:
    detail = held.scheme.links[-1].detail
    grip = held.scheme.grip_high - held.scheme.grip_low
    said = [f"Machine vice, {held.lies}"]
    if held.part.turned:
        said += _turned_in_vice(held, grip)
    else:
        first = held.scheme.grips[0] if held.scheme.grips else ""
        said += (
            [f"{surface_words(first, held.part, held.units)} to the fixed jaw"] if first else []
        )
        if held.seat:
            said.append(f"{held.seat} down on {parallels_words(held.scheme, held.units)}")
        if grip > 0:
            said.append(f"{held.in_jaws} in the jaws")
    text = ", ".join(said) + "."
    if "round bar" in detail:
        bar = length(_ROUND_BAR, held.units, places=0 if held.units == "mm" else 2)
        text += f" Round bar about {bar}, half-way up, at the moving jaw."
    if "packing" in detail:
        text += " Packing as thick as the work at the other end of the jaws."
    return text + _copper(held)


def _turned_in_vice(held: Held, grip: Millimetre) -> list[str]:
    if abs(held.scheme.faces[0]) <= _ALONG:
        return [f"{held.gripped} between the jaws, down on one parallel, a stop at its end"]
    on = parallels_words(held.scheme, held.units)
    down = f"{_resting(held)} down on {on}" if _resting(held) else f"down on {on}"
    said = [down]
    if _hangs(held):
        said.append(f"the {_hangs(held)} hanging between them")
    return [*said, f"{held.in_jaws} in the jaws"] if grip > 0 else said


def _resting(held: Held) -> str:
    """Name the face that rests on the parallels: the widest that looks down."""
    down = -held.scheme.faces[0]
    faces = [
        one
        for one in held.part.surfaces
        if one.kind == "plane" and not one.inside and one.direction[0] * down > _ALONG
    ]
    widest = max(faces, key=lambda one: one.high[1], default=None)
    return surface_words(widest.name, held.part, held.units) if widest is not None else ""


def _hangs(held: Held) -> str:
    """Name what reaches below the face the work rests on."""
    down = -held.scheme.faces[0]
    faces = [
        one
        for one in held.part.surfaces
        if one.kind == "plane" and not one.inside and one.direction[0] * down > _ALONG
    ]
    widest = max(faces, key=lambda one: one.high[1], default=None)
    if widest is None:
        return ""
    rounds = [
        one
        for one in held.part.surfaces
        if one.kind in ("cylinder", "thread")
        and not one.inside
        and max(one.low[0] * down, one.high[0] * down) > widest.point[0] * down + _NOTHING
    ]
    return joined(tuple(dict.fromkeys(shop_name(one.feature) for one in rounds)))


def parallels_words(scheme: Scheme, units: Units) -> str:
    """Say how high the parallels are: what the jaws do not grip of their own depth."""
    grip = scheme.grip_high - scheme.grip_low
    high = scheme.device.jaw_depth - grip
    if grip <= 0 or scheme.device.jaw_depth <= 0:
        return "two parallels"
    if high < _THIN_PARALLEL:
        return "the bed of the vice"
    return f"two parallels {plain(high, units, places=0 if units == 'mm' else 1)} high"


def _clamps(held: Held) -> str:
    seat = f", {held.seat} on clean parallels, clamps straight over them" if held.seat else ""
    return f"Clamped to the table, {held.lies}{seat}. A stop against the push of the cut."


def _v_blocks(held: Held) -> str:
    return f"{capital(held.gripped)} in a pair of V-blocks, {held.lies}. A stop at the end."


def _angle_plate(held: Held) -> str:
    seat = f", {held.seat} against it" if held.seat else ""
    return f"Clamped to the angle plate on the table, {held.lies}{seat}."


def _rotary(held: Held) -> str:
    seat = f", {held.seat} down on packing" if held.seat else ""
    return f"Clamped to the rotary table lying flat, {held.lies}{seat}."


def _chuck_on_table(held: Held) -> str:
    where = f"in the three-jaw on the mill table, {held.lies}"
    return _grip(held, where, "the jaws")


def _bench_vice(held: Held) -> str:
    if not held.scheme.grips:
        return "In the bench vice."
    return f"{capital(held.gripped)} in the bench vice."


def _otherwise(held: Held) -> str:
    return f"{sentence(held.scheme.device.name)} Grip {held.gripped}."


def _supports(scheme: Scheme, units: Units) -> list[str]:
    said = []
    if scheme.centre and scheme.device.device != "centres":
        said.append("Tailstock centre up to the end.")
    said += [
        f"Fixed steady {link.detail}: tap the bar true there within {plain(_STEADY, units)}, "
        "then its jaws just touching; oil them."
        for link in scheme.links[:-1]
        if link.holder.device == "fixed steady"
    ]
    return said


_SAID: Final[dict[Device, Callable[[Held], str]]] = {
    "three-jaw chuck": _three_jaw,
    "soft jaws": _soft_jaws,
    "four-jaw chuck": _four_jaw,
    "collet": _collet,
    "faceplate": _faceplate,
    "centres": _centres,
    "stub mandrel": _mandrel,
    "vice": _vice,
    "clamps": _clamps,
    "rotary table": _rotary,
    "V-blocks": _v_blocks,
    "angle plate": _angle_plate,
    "chuck on the mill table": _chuck_on_table,
    "bench vice": _bench_vice,
}
