"""Rounds: their surfaces, shoulders and undercuts.

A shoulder between two rounds is one plane. It bears the name of the larger round, whose metal
ends there (``collar right``); the smaller one's words for it mean the same plane. The two ends
of the part are ``left`` and ``right``.
"""

from __future__ import annotations

from collections.abc import Sequence

from halfthou.drawing.built import Built, Solved, stays_raw
from halfthou.drawing.edges import parse_undercut
from halfthou.drawing.geometry import Tube
from halfthou.drawing.metal import RoundBody
from halfthou.drawing.model import OUTWARD, Band, Groove, Round, Side, Surface
from halfthou.drawing.sizes import (
    band_from,
    band_of,
    named_thread,
    outside_thread_band,
    written_diameters,
)
from halfthou.drawing.written import WrittenTable
from halfthou.handbook.threads import Thread

_SAME = 1e-7


def build_rounds(solved: Solved, built: Built) -> None:
    """Enter all rounds with their surfaces."""
    bodies = [body for body in solved.bodies if isinstance(body, RoundBody)]
    for body in bodies:
        table = solved.written.feature(body.name)
        if table is not None:
            _build(solved, built, table, body)
    _planes(solved, built, bodies)
    for body in bodies:
        table = solved.written.feature(body.name)
        if table is not None and table.has("undercut"):
            _undercut(solved, built, table, body)
            built.claim(body.name)


def _build(solved: Solved, built: Built, table: WrittenTable, body: RoundBody) -> None:
    thread = named_thread(table.text("thread")) if table.has("thread") else None
    left, right = _bands(solved, table, body, thread)
    built.features.append(
        Round(
            name=body.name,
            left=body.left,
            right=body.right,
            diameter=left,
            right_diameter=right,
            thread=thread,
        )
    )
    built.add(
        Surface(
            name=body.name,
            feature=body.name,
            kind="thread" if thread else "cone" if right else "cylinder",
            inside=False,
            point=(body.left, 0.0, 0.0),
            direction=(1.0, 0.0, 0.0),
            low=body.low,
            high=body.high,
            size=left,
            raw=stays_raw(solved.written, table, "outside"),
        ),
        f"{body.name} outside",
    )


def _bands(
    solved: Solved, table: WrittenTable, body: RoundBody, thread: Thread | None
) -> tuple[Band, Band | None]:
    place = f"{table.place} diameter"
    sizes = written_diameters(solved.written, table)
    if not sizes and thread:
        return outside_thread_band(thread, place=f"{table.place} thread"), None
    left = band_of(sizes[0], rule=solved.rule, place=place)
    if body.left_diameter == body.right_diameter:
        return left, None
    if len(sizes) > 1:
        return left, band_of(sizes[1], rule=solved.rule, place=place)
    text = f"{sizes[0].text} tapered {table.text('taper')}"
    right = band_from(
        body.right_diameter, rule=solved.rule, place=place, text=text, written=solved.written
    )
    return left, right


def _planes(solved: Solved, built: Built, bodies: Sequence[RoundBody]) -> None:
    before: RoundBody | None = None
    for body in bodies:
        touching = before is not None and abs(before.right - body.left) < _SAME
        if before is not None and touching:
            _shoulder(solved, built, before, body)
        else:
            if before is not None:
                _end(solved, built, before, "right", f"{before.name} right")
            first = before is None and solved.outermost(body, "left")
            _end(solved, built, body, "left", "left" if first else f"{body.name} left")
        before = body
    if before is not None:
        last = solved.outermost(before, "right")
        _end(solved, built, before, "right", "right" if last else f"{before.name} right")


def _shoulder(solved: Solved, built: Built, left: RoundBody, right: RoundBody) -> None:
    if left.right_diameter >= right.left_diameter:
        _end(solved, built, left, "right", f"{left.name} right", f"{right.name} left")
    else:
        _end(solved, built, right, "left", f"{right.name} left", f"{left.name} right")


def _end(
    solved: Solved, built: Built, body: RoundBody, side: str, name: str, *aliases: str
) -> None:
    right = side == "right"
    x = body.right if right else body.left
    radius = (body.right_diameter if right else body.left_diameter) / 2
    table = solved.written.feature(body.name)
    built.add(
        Surface(
            name=name,
            feature=body.name,
            kind="plane",
            inside=False,
            point=(x, 0.0, 0.0),
            direction=OUTWARD["right" if right else "left"],
            low=(x, -radius, -radius),
            high=(x, radius, radius),
            raw=table is not None and stays_raw(solved.written, table, side),
        ),
        f"{body.name} {side}",
        *aliases,
    )


def _undercut(solved: Solved, built: Built, table: WrittenTable, body: RoundBody) -> None:
    cut = parse_undercut(table.text("undercut"), units=solved.written.units)
    wide = cut.wide.nominal.value
    left = body.left if cut.at == "left" else body.right - wide
    band = band_of(cut.diameter, rule=solved.rule, place=f"{table.place} undercut", text=cut.text)
    build_groove(
        built, name=f"{body.name} undercut", body=body, ends=(left, left + wide), band=band
    )


def build_groove(
    built: Built, *, name: str, body: RoundBody, ends: tuple[float, float], band: Band
) -> None:
    """Enter an outside groove with its floor and its two walls."""
    left, right = ends
    built.features.append(
        Groove(name=name, on=body.name, left=left, right=right, diameter=band, inside=False)
    )
    radius, outer = band.nominal / 2, body.largest / 2
    start, end = (left, 0.0, 0.0), (right, 0.0, 0.0)
    if band.nominal < body.largest:
        built.removed.append(Tube(start=start, end=end, inside=band.nominal, outside=body.largest))
    built.add(
        Surface(
            name=name,
            feature=name,
            kind="cylinder",
            inside=False,
            point=start,
            direction=(1.0, 0.0, 0.0),
            low=(left, -radius, -radius),
            high=(right, radius, radius),
            size=band,
        ),
        f"{name} floor",
    )
    if abs(left - body.left) > _SAME:
        built.add(_wall(name, "left", left, outer))
    if abs(right - body.right) > _SAME:
        built.add(_wall(name, "right", right, outer))


def _wall(name: str, side: Side, x: float, radius: float) -> Surface:
    return Surface(
        name=f"{name} {side}",
        feature=name,
        kind="plane",
        inside=False,
        point=(x, 0.0, 0.0),
        direction=OUTWARD["right" if side == "left" else "left"],
        low=(x, -radius, -radius),
        high=(x, radius, radius),
    )
