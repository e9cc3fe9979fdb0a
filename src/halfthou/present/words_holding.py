"""How a holding is said: device, surface, length in the jaws, back against, true to what."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, capital, joined, length, plain, sentence
from halfthou.present.words_surfaces import surface_words
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
    return f"{words}, {end_out(scheme)} up" if scheme.machine == "mill" else words


def holding_words(worked: WorkedSetUp, part: Part, units: Units) -> str:
    """Say how the work is held: the holding itself, then the notes that go with it."""
    scheme = worked.set_up.scheme
    held = Held(scheme=scheme, part=part, units=units, standing=_standing_out(worked))
    said = [_SAID.get(scheme.device.device, _otherwise)(held), *_supports(scheme)]
    shown = {scheme.links[-1].detail} if scheme.seats else set[str]()
    said += [sentence(note) for note in worked.hold_notes if note not in shown]
    return " ".join(said)


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


def truing_words(worked: WorkedSetUp, part: Part, units: Units) -> str:
    """Say what to clock and the reading to reach; empty where nothing wants it."""
    scheme = worked.set_up.scheme
    notes = [sentence(note) for note in worked.true_notes]
    if scheme.true_on and scheme.device.device not in _TRUE_BY_THEMSELVES:
        return " ".join([_clocked(scheme, part, units), *notes])
    if notes:
        return " ".join(notes)
    if scheme.machine == "lathe" and all(one.startswith("stock") for one in scheme.grips):
        return "Nothing to clock: what must run true together is cut at this setting."
    return ""


_TRUE_BY_THEMSELVES: Final = frozenset({"centres", "stub mandrel", "collet"})


def _clocked(scheme: Scheme, part: Part, units: Units) -> str:
    names = tuple(surface_words(name, part, units) for name, _ in scheme.true_on)
    most = max(reading for _, reading in scheme.true_on)
    over = " over the turn" if scheme.machine == "lathe" else ""
    both = " on each" if len(names) > 1 else ""
    again = " More than that: bore the jaws again." if scheme.device.device == "soft jaws" else ""
    reading = plain(most, units, places=3)
    return f"Clock {joined(names, 'then')}: {reading} or less{over}{both}.{again}"


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
        end = (
            f"{end_out(self.scheme).capitalize()} end out, {length(now, self.units)} from the jaws"
        )
        then = f" ({plain(faced, self.units, places=1)} when faced)"
        return f"{end}{then if now - faced > _NOTHING else ''}."

    @property
    def size(self) -> str:
        """What the jaws, collet or mandrel measure across."""
        return f"Ø{plain(self.scheme.grip_size, self.units, places=3)}"

    @property
    def lies(self) -> str:
        """Which side is up, and which lies to the right where that matters."""
        up = f"{end_out(self.scheme)} up"
        if self.part.turned and abs(self.scheme.faces[0]) > _ALONG:
            return up
        across = self.scheme.across
        side = max(_TOWARD, key=lambda d: sum(a * b for a, b in zip(d, across, strict=True)))
        return f"{up}, {_TOWARD[side]} end to the right"


# --- lathe ------------------------------------------------------------------------------------


def _back(held: Held, against: str) -> str:
    return f", {held.seat} back against {against}" if held.seat else ""


def _three_jaw(held: Held) -> str:
    where = "from inside in the three-jaw" if held.scheme.inside else "in the three-jaw"
    return f"{_grip(held, where, 'the jaws')} {held.out}"


def _soft_jaws(held: Held) -> str:
    return f"{_grip(held, f'in soft jaws bored {held.size}', 'them')} {held.out}"


def _four_jaw(held: Held) -> str:
    return f"{_grip(held, 'in the four-jaw', 'the jaws')} {held.out}"


def _collet(held: Held) -> str:
    return f"{_grip(held, f'in the {held.size} collet', 'it')} {held.out}"


def _grip(held: Held, where: str, against: str) -> str:
    if len(held.scheme.grips) >= _ALL_ROUND:
        return f"Grip {held.gripped} {where}, {held.in_jaws} in{_back(held, against)}."
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
    said = [f"Machine vice, {held.lies}"]
    grips, seats = held.scheme.grips, held.scheme.seats
    first = surface_words(grips[0], held.part, held.units) if grips else ""
    if first and grips[0] in seats:
        said.append(f"{first} between the jaws, down on parallels")
    else:
        said += [f"{first} to the fixed jaw"] if first else []
        said += [f"{held.seat} down on parallels"] if held.seat else []
    if held.scheme.grip_high > held.scheme.grip_low:
        said.append(f"{held.in_jaws} in the jaws")
    return ", ".join(said) + "."


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
    return f"{capital(held.gripped)} in the bench vice."


def _otherwise(held: Held) -> str:
    return f"{sentence(held.scheme.device.name)} Grip {held.gripped}."


def _supports(scheme: Scheme) -> list[str]:
    said = []
    if scheme.centre and scheme.device.device != "centres":
        said.append("Tailstock centre up to the end.")
    said += [
        f"Set the {link.holder.name} {link.detail} on the bar as it runs, and oil it."
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
