"""A round cut across its keyway: how wide the key is, and what it leaves below its floor."""

from __future__ import annotations

import math
from typing import Final

from halfthou.drawing.model import Keyway
from halfthou.present.picture.crowding import ground_of
from halfthou.present.picture.dimensions import Linear, ways
from halfthou.present.picture.frame import Frame
from halfthou.present.picture.hatching import hatched
from halfthou.present.picture.label import Label
from halfthou.present.picture.placing import place
from halfthou.present.picture.sheet import SMALL_TEXT, Box, Mark, Path, Words, box_of
from halfthou.present.picture.wording import size_label
from halfthou.shapes.flat import Area, extent_of
from halfthou.shapes.section import section
from halfthou.shapes.solids import Solid

_PAPER: Final = Box(left=-500, top=-500, right=500, bottom=500)


def key_areas(solid: Solid, key: Keyway) -> tuple[Area, ...]:
    """Cut a round open square to its axis, half-way along the key, the key up."""
    middle = ((key.left + key.right) / 2, 0.0, 0.0)
    return section(solid, origin=middle, normal=(1.0, 0.0, 0.0), up=key.out)


def drawn_key(
    areas: tuple[Area, ...], key: Keyway, scale: float, labels: tuple[Label, Label]
) -> tuple[Mark, ...]:
    """Draw the cut face about (0, 0) with the key's width and what it leaves, so labelled."""
    if not areas:
        return ()
    frame = Frame(at=(0.0, 0.0), scale=scale)
    box = frame.box(extent_of([area.outer for area in areas]))
    cross = (
        ((box.left - 2.5, 0.0), (box.right + 2.5, 0.0)),
        ((0.0, box.top - 2.5), (0.0, box.bottom + 2.5)),
    )
    standing: list[Mark] = [
        *hatched(areas, frame, "section", half=False),
        Path(lines=cross, style="centre"),
    ]
    half = key.width.nominal / 2 * scale
    radius = max(abs(y) for area in areas for _, y in area.outer)
    edge = frame.y(math.sqrt(max(radius**2 - (key.width.nominal / 2) ** 2, 0.0)))
    floor = frame.y(key.floor)
    width = Linear(
        a=(-half, edge), b=(half, edge), upright=False, label=labels[0], edges=("above",)
    )
    left = Linear(
        a=(half, floor), b=(0.0, box.bottom), upright=True, label=labels[1], edges=("right",)
    )
    placed = place(
        [ways(width, work=box), ways(left, work=box)], ground_of(standing, paper=_PAPER)
    )
    below = box_of((*standing, *placed)).bottom + 4.6
    name = Words(at=(0.0, below), text="cut across the key", size=SMALL_TEXT, anchor="middle")
    return (*standing, *placed, name)


def key_labels(key: Keyway, *, step: int = 0) -> tuple[Label, Label]:
    """Return the labels of width and of what is left, as the drawing writes them."""
    return (size_label(key.width.text, step=step), size_label(key.leaves.text, step=step))
