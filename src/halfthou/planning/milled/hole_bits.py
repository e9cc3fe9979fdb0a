"""What the operations of one hole share, and how one of them is put together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import Cylinder, Region
from halfthou.drawing.model import Hole, HoleStep, Part, Surface
from halfthou.planning.axes import dot, moved, opposite
from halfthou.planning.model import Operation, Verb
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Workshop

_SAME: Final = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Bit:
    """One hole, its part and workshop; how deep, and what stands over its face."""

    hole: Hole
    part: Part
    workshop: Workshop
    over: Millimetre
    depth: Millimetre
    suffix: str

    @property
    def toward(self) -> Vec3:
        """From the work to the drill."""
        return opposite(self.hole.into)

    def key(self, words: str) -> str:
        """Name an operation on the hole."""
        return f"{self.hole.name} {words}{self.suffix}"

    def cylinder(self, *, diameter: float, start: float, end: float) -> tuple[Region, ...]:
        """Space of that diameter from above the entry (or a step's start) to a depth."""
        top = start if start > 0 else -self.over
        return tuple(
            Cylinder(
                start=moved(entry, self.hole.into, top),
                end=moved(entry, self.hole.into, end),
                diameter=diameter,
            )
            for entry in self.hole.entries
        )


def label_of(bit: Bit, number: int) -> str:
    """Give what tells one plain step from another in a hole of several."""
    plain = [s for s in bit.hole.steps if s.kind == bit.hole.steps[number].kind]
    return f" step {number + 1}" if len(plain) > 1 else ""


def surfaces_of(bit: Bit, step: HoleStep) -> tuple[str, ...]:
    """Name the surfaces a step leaves."""
    own = [s for s in bit.part.surfaces if s.feature == bit.hole.name]
    if len(bit.hole.steps) == 1:
        return tuple(s.name for s in own)
    found = [s for s in own if _is_of(s, step, bit)]
    return tuple(s.name for s in found)


def _is_of(surface: Surface, step: HoleStep, bit: Bit) -> bool:
    if surface.kind == "cone":
        return step.kind == "countersink"
    if surface.kind == "plane":
        at = dot(surface.point, bit.hole.into) - dot(bit.hole.entries[0], bit.hole.into)
        return abs(at - step.end) < _SAME
    threaded = surface.kind == "thread"
    return threaded == (step.thread is not None) and surface.size == step.diameter


def operation_of(
    bit: Bit,
    *,
    words: str,
    verb: Verb,
    tools: tuple[str, ...],
    region: tuple[Region, ...],
    takes: float,
    makes: tuple[str, ...] = (),
    step: HoleStep | None = None,
    cut_size: float = 0.0,
    from_size: float = 0.0,
    ends: float = 0.0,
    remark: str = "",
) -> Operation:
    """Put one operation on a hole together, at all its copies."""
    return Operation(
        key=bit.key(words),
        verb=verb,
        stage="finish" if makes else "rough",
        feature=bit.hole.name,
        machine="mill",
        makes=makes,
        region=region,
        approach=(bit.toward,),
        tools=tools,
        minutes=takes,
        at=bit.hole.entries,
        starts=step.start if step is not None else 0.0,
        ends=ends,
        size=step.diameter if step is not None and makes else None,
        cut_size=cut_size,
        from_size=from_size,
        thread=step.thread if step is not None and verb == "tap" else None,
        angle=(step.angle or 0.0) if step is not None and verb == "countersink" else 0.0,
        inside=True,
        through=step is not None and step.breaks_out,
        remark=remark,
    )
