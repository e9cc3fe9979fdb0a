"""One set-up to be worked out, with what was done before it and what comes after."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from halfthou.cutting.metals import Metal, metal_of
from halfthou.drawing.model import Part, Surface
from halfthou.planning.axes import cross, dot, extents_of_all
from halfthou.planning.machines import lathe_for, mill_for
from halfthou.planning.model import Operation, Plan, Scheme, SetUp
from halfthou.units import Millimetre, Vec3
from halfthou.workshop.model import Gauge, Lathe, Mill, Tool, Workshop


@dataclass(frozen=True, kw_only=True)
class Task:
    """A set-up, the part and the workshop; ``number`` counts from 1."""

    part: Part
    workshop: Workshop
    plan: Plan
    number: int

    @property
    def set_up(self) -> SetUp:
        """The set-up itself."""
        return self.plan.set_ups[self.number - 1]

    @property
    def scheme(self) -> Scheme:
        """How the work is held."""
        return self.set_up.scheme

    @property
    def operations(self) -> tuple[Operation, ...]:
        """What is done, in order."""
        return self.set_up.operations

    @cached_property
    def metal(self) -> Metal:
        """What is cut."""
        return metal_of(self.part.material)

    @cached_property
    def lathe(self) -> Lathe | None:
        """The lathe used, if there is one: the first that takes the work."""
        return lathe_for(self.set_up, self.workshop)

    @cached_property
    def mill(self) -> Mill | None:
        """The mill used, if there is one: the first that reaches over the work."""
        return mill_for(self.set_up, self.workshop)

    @cached_property
    def done_before(self) -> tuple[Operation, ...]:
        """Operations of the set-ups before this one."""
        earlier = self.plan.set_ups[: self.number - 1]
        return tuple(op for set_up in earlier for op in set_up.operations)

    @cached_property
    def later(self) -> tuple[Operation, ...]:
        """Operations of the set-ups after this one."""
        after = self.plan.set_ups[self.number :]
        return tuple(op for set_up in after for op in set_up.operations)

    @cached_property
    def never_cut(self) -> frozenset[str]:
        """Surfaces that no operation of the plan makes: the blank's own."""
        made = {
            name for set_up in self.plan.set_ups for op in set_up.operations for name in op.makes
        }
        return frozenset(s.name for s in self.part.surfaces if s.name not in made)

    def there_before(self, operation: Operation | None = None) -> frozenset[str]:
        """Name the finished surfaces that are there before an operation of this set-up."""
        done = list(self.done_before)
        for op in self.operations:
            if op is operation:
                break
            if operation is not None:
                done.append(op)
        return frozenset(name for op in done for name in op.makes) | self.never_cut

    def tool(self, name: str) -> Tool | None:
        """Give the workshop's tool of that name."""
        return next((tool for tool in self.workshop.tools if tool.name == name), None)

    def gauge(self, *kinds: str) -> Gauge | None:
        """Give the first gauge in hand of these kinds, in the order asked."""
        for kind in kinds:
            for gauge in self.workshop.gauges:
                if gauge.kind == kind and gauge.in_hand:
                    return gauge
        return None

    def surface(self, name: str) -> Surface | None:
        """Give the part's surface of that name, if it is one of the part's."""
        return next((s for s in self.part.surfaces if s.name == name), None)

    # --- the lathe ---

    @property
    def sense(self) -> float:
        """Which way along the part's x the tailstock lies."""
        return 1.0 if self.scheme.faces[0] > 0 else -1.0

    @cached_property
    def face_reading(self) -> Millimetre:
        """Where the finished face toward the tailstock lies, reckoned toward the tailstock."""
        faced = [self.sense * op.starts for op in self.operations if op.verb == "face"]
        if faced:
            return faced[0]
        toward = self.scheme.faces
        return max(
            (max(dot(s.low, toward), dot(s.high, toward)) for s in self.part.surfaces), default=0.0
        )

    @property
    def face_x(self) -> Millimetre:
        """Where that face lies along the part's x, for work turned about x."""
        return self.sense * self.face_reading

    def from_face(self, x: Millimetre) -> Millimetre:
        """How far a place along x lies from the face toward the chuck."""
        return (self.face_x - x) * self.sense

    def depth_of(self, point: Vec3) -> Millimetre:
        """How far a point lies from the face toward the chuck, whatever the axis."""
        return self.face_reading - dot(point, self.scheme.faces)

    def room_under(self, point: Vec3, into: Vec3) -> Millimetre:
        """How much metal the part has below a point, to its far side."""
        metal = extents_of_all(self.part.metal)
        return metal.most(into) - dot(point, into) if metal is not None else math.inf

    def diameter_now(self, operation: Operation) -> Millimetre:
        """Give the largest outside there is along an operation's length, as turned so far."""
        low, high = self._clipped(operation)
        spots = [low + (high - low) * part / 20 for part in range(1, 20)]
        sizes = [self.outside_at(x, before=operation) for x in spots]
        return min(operation.from_size, max(sizes, default=math.inf))

    def outside_at(self, x: Millimetre, *, before: Operation) -> Millimetre:
        """Give the outside at a place along x as turned before an operation; infinite if raw."""
        turned = [*self.done_before]
        for op in self.operations:
            if op is before:
                break
            turned.append(op)
        return min(
            (op.cut_size for op in turned if op.verb == "turn" and op.starts < x < op.ends),
            default=math.inf,
        )

    def _clipped(self, operation: Operation) -> tuple[Millimetre, Millimetre]:
        """Give the stretch of an operation that lies on the finished part."""
        low = min((s.low[0] for s in self.part.surfaces), default=operation.starts)
        high = max((s.high[0] for s in self.part.surfaces), default=operation.ends)
        first, last = sorted((operation.starts, operation.ends))
        return max(first, low), min(last, high)

    # --- the mill ---

    @property
    def up(self) -> Vec3:
        """The part's direction that looks up."""
        return self.scheme.faces

    @property
    def along(self) -> Vec3:
        """The part's direction that lies along the table, to the right."""
        return self.scheme.across

    @property
    def away(self) -> Vec3:
        """The part's direction that looks away from the person at the mill."""
        return cross(self.scheme.faces, self.scheme.across)

    def on_table(self, point: Vec3, zero: Vec3) -> tuple[Millimetre, Millimetre]:
        """Where a point of the part lies on the table from a zero: to the right, and away."""
        gone = (point[0] - zero[0], point[1] - zero[1], point[2] - zero[2])
        return dot(gone, self.along), dot(gone, self.away)
