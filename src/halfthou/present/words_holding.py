"""How a way of holding is said: device, surface, length in the jaws, back against, true to what."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, joined, length, plain, sentence
from halfthou.present.words_surfaces import metal_word, surface_words
from halfthou.units import Vec3
from halfthou.workshop.model import Device

_TOWARD: Final[dict[Vec3, str]] = {
    (-1.0, 0.0, 0.0): "left",
    (1.0, 0.0, 0.0): "right",
    (0.0, -1.0, 0.0): "bottom",
    (0.0, 1.0, 0.0): "top",
    (0.0, 0.0, -1.0): "back",
    (0.0, 0.0, 1.0): "front",
}
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
    """Name the side of the part that looks at the tool.

    >>> end_out.__name__
    'end_out'
    """
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
    """Say how the work is held, in sentences."""
    scheme = worked.set_up.scheme
    say = _SAID.get(scheme.device.device, _otherwise)
    said = [say(scheme, part, units), *_supports(scheme)]
    said += [sentence(note) for note in worked.hold_notes]
    return " ".join(said)


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
    return f"Clock {joined(names, 'then')}: {plain(most, units, places=3)} or less{over}{both}.{again}"


# --- lathe ------------------------------------------------------------------------------------


def _gripped(scheme: Scheme, part: Part, units: Units) -> str:
    return joined(tuple(surface_words(name, part, units) for name in scheme.grips)) or "the work"


def _in_jaws(scheme: Scheme, units: Units) -> str:
    return length(scheme.grip_high - scheme.grip_low, units, places=1)


def _out(scheme: Scheme, units: Units) -> str:
    out = length(scheme.stick_out, units, places=1)
    return f"{end_out(scheme).capitalize()} end out, finished end {out} from the jaws."


def _seated(scheme: Scheme, part: Part, units: Units, against: str) -> str:
    if not scheme.seats:
        return ""
    seat = joined(tuple(surface_words(name, part, units) for name in scheme.seats))
    return f" Push {seat} hard back on {against} while you tighten."


def _three_jaw(scheme: Scheme, part: Part, units: Units) -> str:
    where = "from inside, jaws opening," if scheme.inside else "in the three-jaw,"
    raw = all(name.startswith("stock") for name in scheme.grips)
    guard = "" if raw else " Copper strip under the jaws."
    return (
        f"Grip {_gripped(scheme, part, units)} {where} {_in_jaws(scheme, units)} in the jaws."
        f"{_seated(scheme, part, units, 'the jaws')}{guard} {_out(scheme, units)}"
    )


def _soft_jaws(scheme: Scheme, part: Part, units: Units) -> str:
    bored = plain(scheme.grip_size, units, places=3)
    return (
        f"Soft jaws, bored Ø{bored} in place under load. "
        f"Grip {_gripped(scheme, part, units)}, {_in_jaws(scheme, units)} in the jaws."
        f"{_seated(scheme, part, units, 'the jaws')} {_out(scheme, units)}"
    )


def _four_jaw(scheme: Scheme, part: Part, units: Units) -> str:
    raw = all(name.startswith("stock") for name in scheme.grips)
    guard = "" if raw else " Copper strip under the jaws."
    return (
        f"Grip {_gripped(scheme, part, units)} in the four-jaw, {_in_jaws(scheme, units)} in the jaws."
        f"{_seated(scheme, part, units, 'the jaws')}{guard} {_out(scheme, units)}"
    )


def _collet(scheme: Scheme, part: Part, units: Units) -> str:
    bore = plain(scheme.grip_size, units, places=3)
    return (
        f"Collet Ø{bore}, wiped clean. Grip {_gripped(scheme, part, units)}, {_in_jaws(scheme, units)} in."
        f"{_seated(scheme, part, units, 'the collet')} {_out(scheme, units)}"
    )


def _centres(scheme: Scheme, part: Part, units: Units) -> str:
    driven = "left" if end_out(scheme) == "right" else "right"
    return (
        "Between centres. Wipe both tapers and skim the headstock centre if it runs out. "
        f"Driver on the {driven} end, copper under its screw; {end_out(scheme)} end at the tailstock, "
        "a spot of grease on the centre, no shake and no bind."
    )


def _mandrel(scheme: Scheme, part: Part, units: Units) -> str:
    return (
        f"Turn a stub mandrel in the chuck to a light push fit in {_gripped(scheme, part, units)}, "
        f"its shoulder faced. Do not take it out of the chuck again."
        f"{_seated(scheme, part, units, 'its shoulder')} Nut and washer, no tighter than it needs. "
        f"{end_out(scheme).capitalize()} end out."
    )


def _faceplate(scheme: Scheme, part: Part, units: Units) -> str:
    seat = joined(tuple(surface_words(name, part, units) for name in scheme.seats)) or "the work"
    return (
        f"Faceplate, skimmed. {sentence(seat + ' flat on it')} Three clamps and a stop, paper between. "
        "Balance it: it should rest anywhere. Swing it once by hand."
    )


# --- mill -------------------------------------------------------------------------------------


def _vice(scheme: Scheme, part: Part, units: Units) -> str:
    seat = joined(tuple(surface_words(name, part, units) for name in scheme.seats))
    down = f" {sentence(seat + ' down on parallels')}" if seat else " Down on parallels."
    jaw = ""
    if scheme.grips:
        first = surface_words(scheme.grips[0], part, units)
        raw = " Round bar at the moving jaw." if not part.turned else ""
        jaw = f" {sentence(first + ' to the fixed jaw')}{raw}"
    held = scheme.grip_high - scheme.grip_low
    deep = f" {sentence(length(held, units, places=1) + ' in the jaws')}" if held > 0 else ""
    return f"Machine vice, {_along(scheme)}.{jaw}{down} Knock down until no parallel moves.{deep}"


def _along(scheme: Scheme) -> str:
    side = max(_TOWARD, key=lambda d: sum(a * b for a, b in zip(d, scheme.across, strict=True)))
    return f"{end_out(scheme)} up, {_TOWARD[side]} side to the right"


def _clamps(scheme: Scheme, part: Part, units: Units) -> str:
    seat = joined(tuple(surface_words(name, part, units) for name in scheme.seats)) or "the work"
    return (
        f"Clamp to the table, {_along(scheme)}. {sentence(seat + ' on clean parallels')} Clamps straight over "
        "them, stud nearer the work than the heel. Stop it against the push of the cut."
    )


def _v_blocks(scheme: Scheme, part: Part, units: Units) -> str:
    return (
        f"Lay {_gripped(scheme, part, units)} in a pair of V-blocks, {_along(scheme)}. "
        "Clamp over each block, not between. A stop at the end."
    )


def _angle_plate(scheme: Scheme, part: Part, units: Units) -> str:
    seat = joined(tuple(surface_words(name, part, units) for name in scheme.seats)) or "the work"
    return f"Angle plate on the table, {_along(scheme)}. {sentence(seat + ' against it, clamped')}"


def _rotary(scheme: Scheme, part: Part, units: Units) -> str:
    seat = joined(tuple(surface_words(name, part, units) for name in scheme.seats)) or "the work"
    return (
        f"Rotary table, lying flat. {sentence(seat + ' down, clamped on packing')} {_up(scheme)}"
    )


def _chuck_on_table(scheme: Scheme, part: Part, units: Units) -> str:
    return (
        f"Three-jaw chuck on the mill table. Grip {_gripped(scheme, part, units)}, "
        f"{_in_jaws(scheme, units)} in the jaws.{_seated(scheme, part, units, 'the jaws')} {_up(scheme)}"
    )


def _up(scheme: Scheme) -> str:
    return f"{end_out(scheme).capitalize()} up."


def _bench_vice(scheme: Scheme, part: Part, units: Units) -> str:
    return f"Bench vice, soft clams. Grip the {metal_word(part)}."


def _otherwise(scheme: Scheme, part: Part, units: Units) -> str:
    return f"{sentence(scheme.device.name)} Grip {_gripped(scheme, part, units)}."


def _supports(scheme: Scheme) -> list[str]:
    said = []
    if scheme.centre and scheme.device.device != "centres":
        said.append("Bring up the tailstock centre; ease it as the work warms.")
    said += [
        f"Set the {link.holder.name}{' ' + link.detail if link.detail else ''} on the bar as it runs; oil it."
        for link in scheme.links[:-1]
        if link.holder.device == "fixed steady"
    ]
    return said


_SAID: Final[dict[Device, Callable[[Scheme, Part, Units], str]]] = {
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
