"""The drawing checked against itself and the trade: what cannot be, and what is unusual."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from halfthou.drawing.built import Solved, along
from halfthou.drawing.check_castings import casting_findings
from halfthou.drawing.frame import ALONG, cross_axes, main_axis
from halfthou.drawing.metal import crossings, grid, in_metal, reach, round_across
from halfthou.drawing.model import Cutout, Finding, Groove, Hole, HoleStep, Keyway, Part, Round
from halfthou.drawing.series import series_findings
from halfthou.drawing.told import told
from halfthou.drawing.walls import wall_findings
from halfthou.units import Vec3

_SAME: Final = 1e-6
_JUST: Final = 1e-3
_AROUND: Final = 16


def checked(part: Part, solved: Solved, *, loose: frozenset[str]) -> Part:
    """Return the part with the findings of the check, gravest first.

    What lies wrong only because ``loose`` features have no place yet is not told.
    """
    if loose & {body.name for body in solved.bodies}:
        found = [*part.findings, *_thread_depths(part)]
        return replace(part, findings=tuple(found))
    outside = [one for one in _outside(part, solved) if one.feature not in loose]
    told = (
        loose
        | {one.feature for one in outside}
        | {one.feature for one in part.findings if one.grave}
    )
    walls = [one for one in wall_findings(part, solved) if one.feature not in told]
    found = [
        *part.findings,
        *outside,
        *_thread_depths(part),
        *_cores(part),
        *(one for one in casting_findings(part, solved) if one.feature not in loose),
        *walls,
        *([] if loose else _blank(part, solved)),
        *series_findings(part),
    ]
    found.sort(key=lambda finding: not finding.grave)
    return replace(part, findings=tuple(found))


def _outside(part: Part, solved: Solved) -> Iterator[Finding]:
    for feature in part.features:
        match feature:
            case Hole():
                yield from _hole_outside(feature, solved)
            case Cutout():
                yield from _cutout_outside(feature, part, solved)
            case Keyway() | Groove():
                yield from _beyond_round(feature, part)
            case _:
                pass


def _hole_outside(hole: Hole, solved: Solved) -> Iterator[Finding]:
    """Find a hole whose mouth hangs over the edge of its face."""
    axis = main_axis(hole.into)
    bodies = solved.around(hole.name)
    if abs(hole.into[axis]) < 1 - _SAME:
        return  # a leaning hole opens into an ellipse, often past an edge on purpose
    curved = any(round_across(body, hole.into) for body in bodies)
    first = next((step for step in hole.steps if step.kind == "plain"), hole.steps[0])
    for number, entry in enumerate(hole.entries):
        if not crossings(bodies, entry, axis):
            if number and not curved and crossings(bodies, hole.entries[0], axis):
                yield _copy_in_no_metal(hole, number, entry)
            continue
        if curved:
            continue
        start = along(entry, hole.into, first.start + min(_JUST, first.end / 2))
        rim = [_on_rim(start, axis, first.diameter.nominal / 2 - _JUST, n) for n in range(_AROUND)]
        out = [point for point in rim if not in_metal(bodies, point)]
        if out:
            yield Finding(
                what=f"{hole.name} breaks out of the side of its face",
                feature=hole.name,
                why=f"{100 * len(out) / len(rim):.0f} % of its edge lies over no metal",
                tries=("check its at", "check its diameter"),
                grave=True,
                at=entry,
            )
            return


def _copy_in_no_metal(hole: Hole, number: int, entry: Vec3) -> Finding:
    """Say that a copy of a hole lies beside the metal; the first is told where it is built."""
    return Finding(
        what=f"{hole.name} {number + 1} goes into no metal",
        feature=hole.name,
        why="nothing lies below the place where this copy starts",
        tries=("check its copies", "check its at"),
        grave=True,
        at=entry,
    )


def _on_rim(centre: Vec3, axis: int, radius: float, number: int) -> Vec3:
    first, second = cross_axes(axis)
    turn = 2 * math.pi * number / _AROUND
    point = list(centre)
    point[first] += radius * math.cos(turn)
    point[second] += radius * math.sin(turn)
    return (point[0], point[1], point[2])


def _cutout_outside(cutout: Cutout, part: Part, solved: Solved) -> Iterator[Finding]:
    middle = tuple((a + b) / 2 for a, b in zip(cutout.low, cutout.high, strict=True))
    points = [
        point
        for share in (0.05, 0.5, 0.95)
        for point in grid(
            cutout.low, cutout.high, 2, cutout.low[2] + share * (cutout.high[2] - cutout.low[2])
        )
    ]
    if not any(in_metal(solved.bodies, point) for point in points):
        yield Finding(
            what=f"{cutout.name} cuts nothing: it lies outside the metal",
            feature=cutout.name,
            why="no metal stands where it is placed",
            tries=("check its at", "check the face it goes in"),
            grave=True,
            at=(middle[0], middle[1], middle[2]),
        )
        return
    low, high = reach(solved.own)
    for axis in range(3):
        over = max(low[axis] - cutout.low[axis], cutout.high[axis] - high[axis])
        if over > _SAME:
            yield Finding(
                what=f"{cutout.name} reaches {told(over, part.units)} past the metal "
                f"{ALONG[axis]}",
                feature=cutout.name,
                why="a cut ends in the metal or at its side",
                tries=("check its size and its at",),
                grave=False,
                at=(middle[0], middle[1], middle[2]),
            )


def _beyond_round(cut: Keyway | Groove, part: Part) -> Iterator[Finding]:
    body = next((f for f in part.features if isinstance(f, Round) and f.name == cut.on), None)
    if body is None:
        return
    over = max(body.left - cut.left, cut.right - body.right)
    if over <= _SAME:
        return
    yield Finding(
        what=f"{cut.name} reaches {told(over, part.units)} past the end of {body.name}",
        feature=cut.name,
        why=f"{body.name} is {told(body.right - body.left, part.units)} long, "
        f"and {cut.name} {told(cut.right - cut.left, part.units)}",
        tries=("check its long and its at",),
        grave=True,
        at=((cut.left + cut.right) / 2, body.diameter.nominal / 2, 0.0),
    )


def _thread_depths(part: Part) -> Iterator[Finding]:
    for feature in part.features:
        if not isinstance(feature, Hole):
            continue
        for number, step in enumerate(feature.steps):
            later = feature.steps[number + 1 :]
            shallow = next((one for one in later if one.end <= step.end + _SAME), None)
            if shallow is not None and not (step.breaks_out and shallow.breaks_out):
                yield _too_deep(part, feature, step, shallow)


def _cores(part: Part) -> Iterator[Finding]:
    """Find cast holes as wide as what is to be bored: no metal is left to bore."""
    for hole in part.features:
        if not isinstance(hole, Hole) or hole.cored is None:
            continue
        least = min(hole.steps, key=lambda step: step.diameter.nominal).diameter
        if hole.cored.nominal < least.nominal - _SAME:
            continue
        core, bore = told(hole.cored.nominal, part.units), told(least.nominal, part.units)
        yield Finding(
            what=f"the casting's hole at {hole.name} is {core} across, and {hole.name} {bore}",
            feature=hole.name,
            why="the cast hole is bored out to size, so it has to be smaller",
            tries=("check its cored", "check its size"),
            grave=True,
            at=hole.entries[0],
        )


def _too_deep(part: Part, hole: Hole, step: HoleStep, shallow: HoleStep) -> Finding:
    if step.thread is not None:
        what = f"the thread of {hole.name} is deeper than its hole"
        tries = ("drill deeper: three pitches past the thread", "make the thread shorter")
    else:
        what = f"'{shallow.text}' of {hole.name} ends before '{step.text}' does"
        tries = ("write the steps from the entry inwards", "check the two depths")
    return Finding(
        what=what,
        feature=hole.name,
        why=f"'{step.text}' goes {told(step.end, part.units)} deep "
        f"and '{shallow.text}' {told(shallow.end, part.units)}",
        tries=tries,
        grave=True,
        at=hole.entries[0],
    )


def _blank(part: Part, solved: Solved) -> Iterator[Finding]:
    if part.blank.form == "casting":
        return
    low, high = reach(solved.own)
    where = ((low[0] + high[0]) / 2, high[1], 0.0)
    words = ("long", "high", "thick") if not part.turned else ("long", "across", "across")
    for axis in (0, 1) if part.turned else (0, 1, 2):
        need, have = high[axis] - low[axis], part.blank.size[axis]
        as_long_as_need_be = part.turned and axis == 0 and have == 0
        if need > have + _SAME and not as_long_as_need_be:
            yield Finding(
                what=f"the blank is smaller than the part: {told(have, part.units)} {words[axis]} "
                f"against {told(need, part.units)}",
                feature="blank",
                why=f"{part.blank.form} '{part.blank.text}' holds no metal there",
                tries=("take a larger blank", "check the sizes of the part"),
                grave=True,
                at=where,
            )
