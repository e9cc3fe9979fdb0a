"""Drawn distances: each written dimension as the difference of two surfaces, with its limits."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from halfthou.drawing.boss_metal import BossBody
from halfthou.drawing.built import Built, Solved, opposite
from halfthou.drawing.frame import side_of
from halfthou.drawing.metal import RoundBody
from halfthou.drawing.model import Band, Distance, Hole, Joint, Surface
from halfthou.drawing.sheet import Drawn, Key, copies_of
from halfthou.drawing.sizes import band_from, band_of
from halfthou.quantities import parse_size
from halfthou.units import Vec3

_SAME: Final = 1e-7
_LEVEL: Final = 0.1
"""Half width for what is drawn level or centred, where the drawing's rule gives none [mm]."""


def build_distances(solved: Solved, built: Built) -> None:
    """Enter every dimension that runs between two surfaces of the part."""
    for drawn in solved.sheet.drawn:
        found = _distance(solved, built, drawn)
        if found is not None:
            built.distances.append(found)
    for drawn in solved.sheet.in_brackets:
        found = _distance(solved, built, drawn)
        if found is not None:
            built.reference.append(found)
    for feature in tuple(built.features):
        if isinstance(feature, Hole):
            _depths(solved, built, feature)
            _row(solved, built, feature)


def _distance(solved: Solved, built: Built, drawn: Drawn) -> Distance | None:
    a, b = _surface(solved, built, drawn.a), _surface(solved, built, drawn.b)
    if a is None or b is None or a.name == b.name or _is_circle(built, drawn):
        return None
    if a.feature == b.feature and any(
        isinstance(one, Joint) and one.name == a.feature for one in built.features
    ):
        return None  # the two faces of a joint meet: nothing lies between them
    direction, gap = _run(solved, drawn, a, b)
    table = solved.written.feature(drawn.feature)
    place = table.place if table else drawn.feature
    band = _band(solved, drawn, place, abs(gap))
    if drawn.size is not None and abs(gap - band.nominal) > _SAME:
        # it runs from a body's middle, which is held from its low side
        band = _from_side(band, gap, drawn.label)
    if gap < 0:
        direction = opposite(direction)
    return Distance(name=drawn.label, a=a.name, b=b.name, direction=direction, band=band)


def _run(solved: Solved, drawn: Drawn, a: Surface, b: Surface) -> tuple[Vec3, float]:
    """Where a distance runs, and how far."""
    if drawn.straight:
        arrow = [
            solved.places[drawn.b[0], n, "middle"] - solved.places[drawn.a[0], n, "middle"]
            if n != drawn.across
            else 0.0
            for n in range(3)
        ]
        length = math.hypot(*arrow) or 1.0
        return (arrow[0] / length, arrow[1] / length, arrow[2] / length), length
    if drawn.direction is not None:
        return drawn.direction, drawn.size.nominal.value if drawn.size else 0.0
    gap = _place(solved, drawn.b, b) - _place(solved, drawn.a, a)
    along = [0.0, 0.0, 0.0]
    along[drawn.axis] = drawn.sign if drawn.size is not None else math.copysign(1.0, gap)
    return (along[0], along[1], along[2]), along[drawn.axis] * gap


def _from_side(band: Band, gap: float, text: str) -> Band:
    """Return the limits of a size from a middle, as they are from the side that stands for it."""
    over, under = band.high - band.nominal, band.nominal - band.low
    if gap < 0:
        over, under = under, over
    size = abs(gap)
    return replace(band, nominal=size, low=size - under, high=size + over, text=text)


def _is_circle(built: Built, drawn: Drawn) -> bool:
    """Whether the middle of a pattern is placed, where no hole is: position says it instead."""
    return any(
        isinstance(feature, Hole) and feature.ring is not None
        and feature.name in (drawn.a[0], drawn.b[0])
        for feature in built.features
    )  # fmt: skip


def _row(solved: Solved, built: Built, hole: Hole) -> None:
    """Enter the pitch of a row, from its first member to each of the others."""
    table = solved.written.feature(hole.name)
    copies = copies_of(solved.written, table) if table else None
    if copies is None or copies.pitch is None or copies.axis is None:
        return
    for number, entry in enumerate(hole.entries[1:], start=2):
        gap = entry[copies.axis] - hole.entries[0][copies.axis]
        along = [0.0, 0.0, 0.0]
        along[copies.axis] = math.copysign(1.0, gap)
        place = f"hole.{hole.name} copies"
        band = (
            band_of(copies.pitch, rule=solved.rule, place=place)
            if number == 2  # noqa: PLR2004
            else band_from(abs(gap), rule=solved.rule, place=place, text=copies.text,
                           written=solved.written)
        )  # fmt: skip
        built.distances.append(
            Distance(
                name=f"{hole.name} 1 to {number}",
                a=hole.name,
                b=f"{hole.name} {number}",
                direction=(along[0], along[1], along[2]),
                band=band,
            )
        )


def _band(solved: Solved, drawn: Drawn, place: str, gap: float) -> Band:
    if drawn.size is not None:
        return band_of(drawn.size, rule=solved.rule, place=place)
    text = drawn.label.removeprefix(f"{drawn.feature} ")
    if gap > _SAME:
        return band_from(gap, rule=solved.rule, place=place, text=text, written=solved.written)
    return Band(nominal=0.0, low=-_LEVEL, high=_LEVEL, text=text, origin="general", place=place)


def _place(solved: Solved, key: Key, surface: Surface) -> float:
    """Where a distance starts or ends: a block's middle is held from its low side."""
    name, axis, end = key
    if end == "middle" and surface.kind == "plane":
        return surface.point[axis]
    return solved.places.get((name, axis, end), surface.point[axis])


def _surface(solved: Solved, built: Built, key: Key) -> Surface | None:
    """Return the surface at a coordinate; a block's middle is held from its low side."""
    name, axis, end = key
    body = solved.body(name)
    if end == "middle":
        if body is None and name:
            return built.named(name)
        if isinstance(body, RoundBody):
            return built.named(name) if axis else None
        if isinstance(body, BossBody) and axis != body.axis:
            return built.named(name)
        side = side_of(axis, 0)
        return built.named(f"{name} {side}".strip())
    side = side_of(axis, int(end == "high"))
    return built.named(f"{name} {side}".strip())


def _beyond(built: Built, hole: Hole, words: str) -> Surface | None:
    """Return the face a depth beyond something is measured from: at a joint, the far half's."""
    joint = next((f for f in built.features if isinstance(f, Joint) and f.name == words), None)
    if joint is None:
        return built.named(words)
    far = joint.halves[0] if hole.into[joint.axis] > 0 else joint.halves[1]
    return built.named(f"{far} {joint.name}") or built.named(words)


def _depths(solved: Solved, built: Built, hole: Hole) -> None:
    units = solved.written.units
    face = built.named(hole.face)
    if face is None:
        return
    for number, step in enumerate(hole.steps, start=1):
        name = hole.name if number == 1 else f"{hole.name} step {number}"
        floor = built.named(f"{name} floor")
        if floor is None or " x " not in step.text.replace("×", " x "):
            continue
        figure = step.text.replace("×", " x ").rpartition(" x ")[2].split(" beyond ")[0]
        size = parse_size(figure.replace(" flat", "").replace(" deep", ""), units=units)
        inward: Vec3 = hole.into
        start = _beyond(built, hole, step.text.rpartition(" beyond ")[2]) or face
        built.distances.append(
            Distance(
                name=f"{name} deep",
                a=start.name,
                b=floor.name,
                direction=inward,
                band=band_of(size, rule=solved.rule, place=f"hole.{hole.name} size"),
            )
        )
