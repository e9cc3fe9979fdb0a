"""How a holding is said: device, surface, length in the jaws, back against, with what."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from halfthou.drawing.model import Part
from halfthou.planning.model import Scheme
from halfthou.planning.treatment import HEARTH
from halfthou.planning.worked import WorkedSetUp
from halfthou.planning.working import words
from halfthou.present import words_in_lathe as lathe
from halfthou.present import words_on_mill as mill
from halfthou.present.numbers import Units, joined, plain, sentence
from halfthou.present.words_held import Held, angle_plate_words, end_out, three_jaw_words
from halfthou.present.words_level_round import tried_first_words
from halfthou.present.words_measures import length_first, length_first_words
from halfthou.present.words_same_grip import same_grip
from halfthou.present.words_truing import scribe_words
from halfthou.units import Millimetre
from halfthou.workshop.model import Device

_STEADY: Final[Millimetre] = 0.05
_SHORT: Final[dict[Device, str]] = {
    "three-jaw chuck": "three-jaw",
    "soft jaws": "soft jaws",
    "four-jaw chuck": "four-jaw, clocked",
    "collet": "collet",
    "faceplate": "faceplate",
    "centres": "between centres",
    "stub mandrel": "mandrel",
    "cross-slide": "on the cross-slide, bar between centres",
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


def holding_in_short(scheme: Scheme) -> str:
    """Say the holding in a few words, for the way through: ``three-jaw, right end out``."""
    if scheme.key == HEARTH:
        return "hearth"
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
    now, faced = _standing_out(worked)
    over = length_first(worked)
    held = Held(
        scheme=scheme,
        part=part,
        units=units,
        standing=(faced + over[0] if over else now, faced),
        longest=faced + over[1] if over else 0.0,
        against=words.AGAINST_JAWS in worked.hold_notes,
    )
    if before is not None and same_grip(scheme, before.set_up.scheme):
        said = [_left_in(held, before.set_up.scheme)]
    else:
        said = [
            length_first_words(worked, units),
            tried_first_words(worked),
            scribe_words(worked, part, units),
            _SAID.get(scheme.device.device, _otherwise)(held),
            *_supports(scheme, units),
        ]
    said.append(mill.between_words(worked, units))
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


def _otherwise(held: Held) -> str:
    return f"{sentence(held.scheme.device.name)} Grip {held.gripped}."


def _supports(scheme: Scheme, units: Units) -> list[str]:
    said = []
    if scheme.centre and scheme.device.device != "centres":
        said.append("Tailstock centre up to the end.")
    said += [
        f"Fixed steady {link.detail}: tap the bar true there by the clock, "
        f"{plain(_STEADY, units)} or less over the turn, then its jaws just touching, locked, "
        "and oiled."
        for link in scheme.links[:-1]
        if link.holder.device == "fixed steady"
    ]
    return said


_SAID: Final[dict[Device, Callable[[Held], str]]] = {
    "three-jaw chuck": three_jaw_words,
    "soft jaws": lathe.soft_jaws_words,
    "four-jaw chuck": lathe.four_jaw_words,
    "collet": lathe.collet_words,
    "faceplate": lathe.faceplate_words,
    "centres": lathe.centres_words,
    "stub mandrel": lathe.mandrel_words,
    "cross-slide": lathe.cross_slide_words,
    "vice": mill.vice_words,
    "clamps": mill.clamps_words,
    "rotary table": mill.rotary_words,
    "V-blocks": mill.v_blocks_words,
    "angle plate": angle_plate_words,
    "chuck on the mill table": mill.chuck_on_table_words,
    "bench vice": mill.bench_vice_words,
}
