"""One hole on the axis, seen from the end it is entered from: depths, regions, operations."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.geometry import Cone, Cylinder, Region
from halfthou.drawing.model import Hole, HoleStep, Part
from halfthou.handbook.limits_fits import it_grade
from halfthou.planning.model import Operation, Stage, Verb
from halfthou.planning.turned.minutes import minutes_for
from halfthou.planning.turned.shape import BEYOND, TOWARD, End, end_at
from halfthou.planning.turned.stock import Stock, far_from
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

DRILLED_GRADE: Final = 12
"""A drilled hole holds this grade or coarser (published capability: drilling IT11 to IT13)."""
POINT: Final = math.radians(118.0)
"""Usual point of a drill."""
_LEAST_TABLED: Final = 0.5
_LEAST_DEPTH: Final = 0.1
_LEAST_ACROSS: Final = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """A hole on the axis, the end it is entered from, and what ends its operations' keys.

    ``begins`` is where it starts along x, if not at the end itself; ``placed`` says that its
    place is asked for closer than a drill keeps it.
    """

    part: Part
    workshop: Workshop
    stock: Stock
    hole: Hole
    end: End
    tag: str = ""
    begins: Millimetre | None = None
    placed: bool = False

    @property
    def mouth(self) -> Millimetre:
        """Where the hole begins along x."""
        if self.begins is not None:
            return self.begins
        plain = len(self.hole.steps) == 1 and self.hole.steps[0].breaks_out
        return end_at(self.part, self.end) if plain else self.hole.entries[0][0]

    def x(self, depth: Millimetre) -> Millimetre:
        """Place along x of a depth below the mouth."""
        return self.mouth - TOWARD[self.end][0] * depth

    def depth_of(self, step: HoleStep) -> Millimetre:
        """Depth to cut a step to: right out of the metal where it breaks out."""
        if not step.breaks_out:
            return step.end
        return abs(far_from(self.part, self.stock, self.end) - self.mouth) + BEYOND

    def cylinder(self, diameter: Millimetre, start: Millimetre, end: Millimetre) -> Cylinder:
        """Give the space of a plain hole between two depths, and of what is before its mouth."""
        over = abs(self.stock.end(self.end) - self.mouth) + BEYOND
        front = -over if start == 0 else start
        return Cylinder(
            start=(self.x(front), 0.0, 0.0), end=(self.x(end), 0.0, 0.0), diameter=diameter
        )

    def point(self, diameter: Millimetre, end: Millimetre) -> Cone:
        """Give the space that a drill's point leaves below the full diameter."""
        tip = diameter / 2 / math.tan(POINT / 2)
        return Cone(
            start=(self.x(end), 0.0, 0.0),
            end=(self.x(end + tip), 0.0, 0.0),
            start_diameter=diameter,
            end_diameter=0.0,
        )

    def makes(self, step: HoleStep) -> tuple[str, ...]:
        """Name the wall and the floor of a step."""
        number = self.hole.steps.index(step)
        name = self.hole.name
        floor = f"{name} floor" if number == 0 else f"{name} step {number + 1} floor"
        return tuple(
            s.name
            for s in self.part.surfaces
            if (s.feature == name and s.size == step.diameter) or s.name == floor
        )

    @property
    def tied(self) -> bool:
        """Whether the drawing ties this hole's place to something: a drill will not do."""
        names = {s.name for s in self.part.surfaces if s.feature == self.hole.name}
        return self.placed or any(
            (r.surface in names or r.to in names) and r.origin == "drawn"
            for r in self.part.requirements
        )

    def operation(
        self,
        words: str,
        verb: Verb,
        step: HoleStep,
        *,
        stage: Stage,
        cut: Millimetre,
        come_from: Millimetre,
        depth: Millimetre,
        tools: tuple[str, ...],
        region: tuple[Region, ...],
        makes: tuple[str, ...] = (),
        start: Millimetre | None = None,
    ) -> Operation:
        """One cut on this hole, from ``start`` (the step's own) to ``depth`` below its mouth."""
        begin = step.start if start is None else start
        return Operation(
            key=f"{self.hole.name} {words}{self.tag}",
            verb=verb,
            stage=stage,
            feature=self.hole.name,
            machine="lathe",
            makes=makes,
            region=region,
            approach=(TOWARD[self.end],),
            tools=tools,
            minutes=_minutes(verb, depth - begin, cut, come_from),
            at=((self.mouth, 0.0, 0.0),),
            starts=begin,
            ends=depth,
            size=step.diameter if makes and step.thread is None else None,
            cut_size=cut,
            from_size=come_from,
            thread=step.thread if verb == "tap" else None,
            inside=True,
            through=step.breaks_out,
        )


def coarse(step: HoleStep) -> bool:
    """Tell whether a drill leaves this step within its limits."""
    nominal = max(step.diameter.nominal, _LEAST_TABLED)
    return step.diameter.width >= it_grade(nominal, DRILLED_GRADE) * 0.99


def _minutes(verb: Verb, length: Millimetre, cut: Millimetre, come_from: Millimetre) -> float:
    depth = max(_LEAST_DEPTH, (cut - come_from) / 2)
    return minutes_for(verb, length=length, across=max(cut, _LEAST_ACROSS), depth=depth)
