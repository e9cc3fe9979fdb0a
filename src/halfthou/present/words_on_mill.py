"""Work held on the mill, and in the bench vice, put into words."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import OUTWARD, Part, Side
from halfthou.planning.axes import dot, extents_of_all, side_toward
from halfthou.planning.milled.held_sides import PARALLELS, THICKEST, in_the_set
from halfthou.planning.milled.lump import SIDES
from halfthou.planning.model import Operation, Scheme
from halfthou.planning.treatment import HEARTH
from halfthou.planning.worked import WorkedSetUp
from halfthou.present.numbers import Units, by_eye, capital, joined, length, plain
from halfthou.present.words_faces import called_words, from_the_solid, names_words
from halfthou.present.words_held import ALONG, NOTHING, Held, copper_words, grip_words
from halfthou.present.words_level_round import level_round_words, which_jaw_words
from halfthou.present.words_surfaces import shop_name, surface_words
from halfthou.units import Millimetre

_ROUND_BAR: Final[Millimetre] = 10.0
_HUNG: Final = "hung between the jaws"
_SLIPS: Final = "three slips of packing"
_FREE: Final[Millimetre] = 1.0
"""Room left between the table and what hangs over it."""
_BESIDE_DRILL: Final[Millimetre] = 1.5
"""Room between a drill that comes through and the parallel beside it (usual practice)."""
_NARROWEST: Final[Millimetre] = 6.0
"""A parallel narrower than this carries no clamp (usual practice)."""
_TWO: Final = 2
_STOCK: Final = "stock"
_SAME: Final = 0.02


def vice_words(held: Held) -> str:
    """Say how work is held in the machine vice."""
    detail = held.scheme.links[-1].detail
    grip = held.scheme.grip_high - held.scheme.grip_low
    said = [f"Machine vice, {held.lies}"]
    if held.part.turned:
        said += _turned_in_vice(held, grip)
    else:
        said += _at_the_jaws(held)
        if detail.startswith(_HUNG):
            said.append(detail)
        elif held.seat:
            on = parallels_words(held.scheme, held.units)
            said.append(f"{_seated(held)} down on {on}{_by_the_jaws(held)}")
        if grip > 0:
            said.append(f"{held.in_jaws} in the jaws")
    text = f"{names_words(held)}{', '.join(said)}."
    text += _out_words(held)
    if "round bar" in detail:
        bar = length(_ROUND_BAR, held.units, places=0 if held.units == "mm" else 2)
        text += f" Round bar about {bar}, half-way up, at the moving jaw."
    if _SLIPS in detail and not detail.startswith(_HUNG):
        text += " Three slips of packing under the raw face, so that it cannot rock."
    if "packing of the same" in detail:
        together = "the work and the round bar together" if "round bar" in detail else "the work"
        text += f" Packing as thick as {together} at the other end of the jaws."
    return text + _copper(held)


def _out_words(held: Held) -> str:
    """Say which end stands out past the jaws, so that nothing under it is in the cutter's way."""
    scheme = held.scheme
    if not scheme.out:
        return ""
    x, y, z = scheme.across
    end = side_toward(scheme.across if scheme.out == "right" else (-x, -y, -z))
    stop = "parallels and round bar" if "round bar" in scheme.links[-1].detail else "parallels"
    return (
        f" The {end} end stands {plain(scheme.out_by, held.units)} out past the end of the jaws"
        f"{_when_cut(held)}; {stop} stop short of it."
    )


def _when_cut(held: Held) -> str:
    """Say how far an end stands out when it is cut, where that is less than as it is put in."""
    scheme = held.scheme
    metal = extents_of_all(held.part.metal)
    if scheme.jaws is None or metal is None:
        return ""
    low, high = scheme.jaws
    left = metal.most(scheme.across) - high
    if scheme.out == "left":
        left = low - metal.least(scheme.across)
    if not 0 < left < scheme.out_by - _SAME:
        return ""
    return f" ({plain(left, held.units)} when cut)"


def _at_the_jaws(held: Held) -> list[str]:
    """Name the face at each jaw, and whether it is raw."""
    grips = held.scheme.grips
    said = [f"{called_words(grips[0], held)} to the fixed jaw"] if grips else []
    if len(grips) == _TWO and grips[1].startswith(_STOCK) != grips[0].startswith(_STOCK):
        said.append(f"{called_words(grips[1], held)} to the moving one")
    return said


def _seated(held: Held) -> str:
    return joined(tuple(called_words(name, held) for name in held.scheme.seats))


def _by_the_jaws(held: Held) -> str:
    """Say what the height of the parallels comes from, for jaws of another depth."""
    scheme = held.scheme
    high = scheme.parallels[0] if scheme.parallels is not None else 0.0
    if high < PARALLELS[0] - _SAME or scheme.device.jaw_depth <= 0:
        return ""
    deep = plain(scheme.device.jaw_depth, held.units, places=1)
    return f" (jaw depth less what is in the jaws; jaws {deep} deep here)"


def _copper(held: Held) -> str:
    """Say where soft copper goes: none at the fixed jaw, which is what the work is true to."""
    said = copper_words(held)
    if _level_round(held):
        return which_jaw_words(said.replace("under the jaws", "at the near, moving jaw only"))
    upright_round = held.part.turned and abs(held.scheme.faces[0]) > ALONG
    if upright_round or not said:
        return said
    return said.replace("under the jaws", "at the moving jaw only; the work bare on the fixed jaw")


def _level_round(held: Held) -> bool:
    """Tell whether turned work lies along the jaws, its axis level."""
    scheme = held.scheme
    return held.part.turned and abs(scheme.faces[0]) <= ALONG <= abs(scheme.across[0])


def _turned_in_vice(held: Held, grip: Millimetre) -> list[str]:
    if abs(held.scheme.faces[0]) <= ALONG and abs(held.scheme.across[0]) < ALONG:
        on = parallels_words(held.scheme, held.units, of_turned=True)
        return [f"{held.gripped} between the jaws", f"{held.seat} down on {on}"]
    on = parallels_words(held.scheme, held.units, of_turned=True)
    if abs(held.scheme.faces[0]) <= ALONG:
        return level_round_words(held, on)
    down = f"{resting_words(held)} down on {on}" if resting_words(held) else f"down on {on}"
    said = [down]
    if hanging_words(held):
        said.append(f"the {hanging_words(held)} hanging between them")
    return [*said, f"{held.in_jaws} in the jaws"] if grip > 0 else said


def parallels_words(scheme: Scheme, units: Units, *, of_turned: bool = False) -> str:
    """Say how high the parallels are: what the jaws do not grip of their own depth.

    A pair of the set; under the lowest strips of flat stock, between two of it shim on the
    lower. A round lying level takes one.
    """
    one = of_turned and abs(scheme.faces[0]) <= ALONG
    grip = scheme.grip_high - scheme.grip_low
    high = scheme.device.jaw_depth - grip
    if grip <= 0 or scheme.device.jaw_depth <= 0:
        return "one parallel" if one else "two parallels"
    if high < _FREE:
        return "the bed of the vice"
    said = _of_the_set(high, units, one=one)
    thick = _thickest(scheme, rim=one and abs(scheme.across[0]) < ALONG)
    return f"{said}, no thicker than {plain(thick, units)}" if thick < THICKEST else said


def _of_the_set(high: Millimetre, units: Units, *, one: bool) -> str:
    """Say what lies under work so high: parallels, shim on them, or strips below the lowest."""
    if high < PARALLELS[0]:
        low = math.floor(high + _SAME)
        return f"one strip of flat stock {_high(low, units)} high" if one else (
            f"two strips of flat stock {_high(low, units)} high, alike"
        )  # fmt: skip
    lower = max(each for each in PARALLELS if each <= high + _SAME)
    said = f"{'one parallel' if one else 'two parallels'} {_high(lower, units)} high"
    over = high - lower
    if in_the_set(high) or over < _SAME:
        return said
    return f"{said} and {plain(over, units, places=1 if units != 'in' else 2)} of shim"


def _high(value: Millimetre, units: Units) -> str:
    return f"{by_eye(value, 'in')} in" if units == "in" else plain(value, units, places=1)


def _thickest(scheme: Scheme, *, rim: bool) -> Millimetre:
    """Give the thickest that goes under: clear of drills, and between jaws closed on a rim."""
    if rim:
        return max(0.0, math.floor(2 * (scheme.grip_size - _FREE)) / 2)
    return scheme.parallels[1] if scheme.parallels is not None else THICKEST


_ONE_STRAP: Final = "one strap across"
"""Work that nothing but its strap holds down, which the notes say."""
_BOTH_ENDS: Final = " on both ends of the "


def clamps_words(held: Held) -> str:
    """Say how work is held clamped to the table."""
    detail = held.scheme.links[-1].detail
    if "one by one" in detail:
        return (
            f"{names_words(held)}Clamped to the table, {held.lies}, {_seated(held)} down on clean "
            "parallels, two clamps on the end to your left, straight over them, the other end "
            "clear. Two more at hand: half-way the clamps go one by one over to that end."
        )
    down, hangs = _seated(held), ""
    if held.part.turned and abs(held.scheme.faces[0]) > ALONG:
        down = resting_words(held) or down
        hangs = f", the {hanging_words(held)} hanging between them" if hanging_words(held) else ""
    on = under_clamps_words(held.scheme, held.part, held.units)
    ends = detail.partition("clamps on the ")[2] if from_the_solid(held.part) else ""
    ledge = detail.partition(_BOTH_ENDS)[2].partition(",")[0]
    where = (
        f"clamps on the {ends}," if ends else f"clamps{_BOTH_ENDS}{ledge}," if ledge else "clamps"
    )
    over = "" if _ONE_STRAP in detail else f", {where} straight over them"
    seat = f", {down} on {on}{hangs}{over}" if down else ""
    return f"{names_words(held)}Clamped to the table, {held.lies}{seat}."


def pushed_words(worked: WorkedSetUp) -> str:
    """Say what a cut that pushes asks of clamped work: a stop; parallels in from cut edges."""
    scheme, operations = worked.set_up.scheme, worked.set_up.operations
    if scheme.device.device != "clamps":
        return ""
    said = ["A stop against the push of the cut."] if any(map(_pushes, operations)) else []
    if any(_cuts_an_edge(op, scheme) for op in operations):
        said.append("The parallels set in from the edges that are cut.")
    return " ".join(said)


def _pushes(operation: Operation) -> bool:
    return operation.verb.startswith("mill")


def _cuts_an_edge(operation: Operation, scheme: Scheme) -> bool:
    """Tell whether the side of the cutter goes down an edge, past what the work lies on."""
    way = OUTWARD.get(_last_word(operation.feature))
    return operation.verb == "mill face" and way is not None and abs(dot(way, scheme.faces)) < 1


def _last_word(feature: str) -> Side:
    word = feature.rsplit(" ", maxsplit=1)[-1]
    return next((side for side in SIDES if side == word), "top")


def under_clamps_words(scheme: Scheme, part: Part, units: Units) -> str:
    """Say what lies under clamped work: as high as what hangs below its seat, and more."""
    high = hangs_by(scheme, part)
    if high <= NOTHING:
        return "clean parallels"
    least = math.ceil(high + _FREE)
    return (
        f"two short parallels {length(least, units, places=0 if units == 'mm' else 2)} high "
        "or more, alike, clear of the holes"
    )


def hangs_by(scheme: Scheme, part: Part) -> Millimetre:
    """Give how far turned work stood on end hangs below the face it rests on [mm]."""
    if not part.turned or abs(scheme.faces[0]) <= ALONG or not scheme.seats:
        return 0.0
    seats = [one for one in part.surfaces if one.name in scheme.seats]
    down = -scheme.faces[0]
    ends = [max(one.low[0] * down, one.high[0] * down) for one in part.surfaces]
    return max(ends) - seats[0].point[0] * down if seats else 0.0


def between_words(worked: WorkedSetUp, units: Units) -> str:
    """Say what goes with clamped work: a stop, and between which holes of a ring clamps stand."""
    return " ".join(filter(None, (pushed_words(worked), _between(worked, units))))


def _between(worked: WorkedSetUp, units: Units) -> str:
    """Say between which holes of a ring the clamps of work on the table stand."""
    scheme = worked.set_up.scheme
    places = next((step.places for step in worked.steps if len(step.places) > _TWO), ())
    if scheme.device.device != "clamps" or scheme.grips or not places:
        return ""
    turns = sorted((math.atan2(p.y, p.x) % math.tau, p.label) for p in places)
    pairs: list[tuple[str, str]] = []
    for way in (math.pi / 2, math.pi * 3 / 2):
        after = next((n for n, (turn, _) in enumerate(turns) if turn > way + _SAME), 0)
        if any(abs(turn - way) <= _SAME for turn, _ in turns):
            return ""
        pairs.append((turns[after - 1][1], turns[after][1]))
    one, two = (f"{first} and {second}" for first, second in pairs)
    said = f"One clamp between holes {one}, the other between {two}"
    beside = tuple(dict.fromkeys(label for pair in pairs for label in pair))
    wide = widest_between(worked, beside)
    clear = (
        f"Low clamps: the drill chuck clear of clamp, stud and nut at holes {joined(beside)}, "
        "tried by hand at full depth first."
    )
    if wide < _NARROWEST:
        return f"{said}. {clear}"
    return (
        f"{said}; clamps, and the parallel under each, no wider than "
        f"{by_eye(wide, units)} along the table, their middle in line with the "
        f"middle of the work: no hole is drilled into them. {clear}"
    )


def widest_between(worked: WorkedSetUp, labels: tuple[str, ...]) -> Millimetre:
    """Give how wide a parallel may be that lies in the middle between holes, clear of them all.

    Parameters
    ----------
    labels :
        The holes on both sides of it, away from the person and toward.

    Returns
    -------
    :
        Its width along the table, whole millimetres. [mm]
    """
    found = math.inf
    for step in worked.steps:
        drill = max((op.cut_size for op in step.operations), default=0.0)
        beside = [2 * abs(place.x) - drill for place in step.places if place.label in labels]
        found = min([found, *beside])
    return math.floor(found - 2 * _BESIDE_DRILL + _SAME) if found < math.inf else 0.0


def v_blocks_words(held: Held) -> str:
    """Say how work is held on V-blocks."""
    return f"{capital(held.gripped)} in a pair of V-blocks, {held.lies}. A stop at the end."


def rotary_words(held: Held) -> str:
    """Say how work is held on the rotary table."""
    seat = f", {held.seat} down on packing" if held.seat else ""
    return f"Clamped to the rotary table lying flat, {held.lies}{seat}."


def chuck_on_table_words(held: Held) -> str:
    """Say how work is held in a chuck on the table."""
    where = f"in the three-jaw on the mill table, {held.lies}"
    return grip_words(held, where, "the jaws")


def bench_vice_words(held: Held) -> str:
    """Say how work is held in the bench vice, or where it is heated."""
    if held.scheme.key == HEARTH:
        return "On the hearth, on firebrick; lifted in warmed tongs, or by wire through a hole."
    if not held.scheme.grips:
        detail = held.scheme.links[-1].detail
        return f"In the bench vice{f', {detail}' if detail else ''}."
    return f"{capital(held.gripped)} in the bench vice."


def resting_words(held: Held) -> str:
    """Name the face that rests on the parallels: the widest that looks down."""
    down = -held.scheme.faces[0]
    faces = [
        one
        for one in held.part.surfaces
        if one.kind == "plane" and not one.inside and one.direction[0] * down > ALONG
    ]
    widest = max(faces, key=lambda one: one.high[1], default=None)
    return surface_words(widest.name, held.part, held.units) if widest is not None else ""


def hanging_words(held: Held) -> str:
    """Name what reaches below the face the work rests on."""
    down = -held.scheme.faces[0]
    faces = [
        one
        for one in held.part.surfaces
        if one.kind == "plane" and not one.inside and one.direction[0] * down > ALONG
    ]
    widest = max(faces, key=lambda one: one.high[1], default=None)
    if widest is None:
        return ""
    rounds = [
        one
        for one in held.part.surfaces
        if one.kind in ("cylinder", "thread")
        and not one.inside
        and max(one.low[0] * down, one.high[0] * down) > widest.point[0] * down + NOTHING
    ]
    return joined(tuple(dict.fromkeys(shop_name(one.feature) for one in rounds)))
