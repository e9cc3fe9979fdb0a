"""The space a hole takes, and the walls and floors it leaves."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, Literal, TypeAlias

from halfthou.drawing.built import Built, along, box_around, opposite
from halfthou.drawing.geometry import Cone, Cylinder
from halfthou.drawing.model import HoleStep, Surface
from halfthou.units import DEGREE, Millimetre, Vec3

POINT_SHARE: Final = 0.3
"""A drill's 118° point reaches 0.3 of its diameter below the full depth."""
SPOT_FACE: Final = 0.5
"""Depth drawn for a spot face that is to clean up; the bench decides the real one [mm]."""
_USUAL_COUNTERSINK: Final = 90 * DEGREE
_SAME: Final = 1e-7
Line: TypeAlias = tuple[Vec3, Vec3]


def _step_name(name: str, number: int) -> str:
    return name if number == 1 else f"{name} step {number}"


def _wall_kind(step: HoleStep) -> Literal["thread", "cone", "cylinder"]:
    if step.thread:
        return "thread"
    return "cone" if step.kind == "countersink" or step.end_diameter is not None else "cylinder"


def hole_walls(
    built: Built, name: str, feature: str, line: Line, steps: Sequence[HoleStep]
) -> None:
    """Enter the walls and floors of one hole."""
    entry, into = line
    for number, step in enumerate(steps, start=1):
        called = _step_name(name, number)
        start, end = along(entry, into, step.start), along(entry, into, step.end)
        if step.end - step.start <= _SAME:
            continue
        low, high = _around((start, end), into, step.diameter.nominal / 2)
        built.add(
            Surface(
                name=called,
                feature=feature,
                kind=_wall_kind(step),
                inside=True,
                point=start,
                direction=into,
                low=low,
                high=high,
                size=step.diameter,
            ),
            f"{name} step {number}",
        )
        if not step.breaks_out and step.kind != "countersink":
            out = opposite(into)
            low, high = _around((end,), into, step.diameter.nominal / 2)
            built.add(
                Surface(
                    name=f"{called} floor",
                    feature=feature,
                    kind="plane",
                    inside=True,
                    point=end,
                    direction=out,
                    low=low,
                    high=high,
                    clean_up="clean up" in step.text,
                )
            )


def _around(points: Sequence[Vec3], into: Vec3, radius: float) -> tuple[Vec3, Vec3]:
    low, high = box_around(points)
    pad = tuple(radius * math.sqrt(max(0.0, 1 - part * part)) for part in into)
    return (
        (low[0] - pad[0], low[1] - pad[1], low[2] - pad[2]),
        (high[0] + pad[0], high[1] + pad[1], high[2] + pad[2]),
    )


def hole_regions(
    built: Built,
    entries: Sequence[Vec3],
    into: Vec3,
    steps: Sequence[HoleStep],
    overruns: Sequence[Millimetre],
    *,
    mouth: Millimetre = 0.0,
) -> None:
    """Enter the space each step takes, the drill's point included.

    ``mouth`` is how far outside its entry a leaning hole begins, to open its whole mouth.
    """
    for entry in entries:
        for number, step in enumerate(steps):
            before = 0.0 if number else mouth
            start, end = along(entry, into, step.start), along(entry, into, step.end)
            if step.end - step.start <= _SAME:
                continue
            wide = step.diameter.nominal
            if step.kind == "countersink":
                narrow = steps[number + 1].diameter.nominal if number + 1 < len(steps) else 0.0
                built.removed.append(
                    Cone(start=start, end=end, start_diameter=wide, end_diameter=narrow)
                )
                if before:
                    out = along(start, into, -before)
                    built.removed.append(Cylinder(start=out, end=start, diameter=wide))
                continue
            if step.end_diameter is not None:
                built.removed.append(_tapered(step, start, end, into, before))
                continue
            further = along(end, into, overruns[number])
            outer = along(start, into, -before)
            built.removed.append(Cylinder(start=outer, end=further, diameter=wide))
            if step.point:
                tip = along(end, into, POINT_SHARE * wide)
                built.removed.append(
                    Cone(start=end, end=tip, start_diameter=wide, end_diameter=0.0)
                )


def _tapered(step: HoleStep, start: Vec3, end: Vec3, into: Vec3, before: Millimetre) -> Cone:
    """Return the space of a tapered step, drawn on outward where it opens on the slant."""
    narrow = step.end_diameter or step.diameter.nominal
    slope = (step.diameter.nominal - narrow) / (step.end - step.start)
    return Cone(
        start=along(start, into, -before),
        end=end,
        start_diameter=step.diameter.nominal + slope * before,
        end_diameter=narrow,
    )
