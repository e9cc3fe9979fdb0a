"""Pieces that steps share: an empty step, passes as the card tells them, cutting conditions."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from halfthou.cutting.passes import Cuts
from halfthou.cutting.times import TOOL_CHANGE, minutes_cutting
from halfthou.drawing.model import Band
from halfthou.planning.model import Operation
from halfthou.planning.worked import (
    CoarseCheck,
    Feed,
    Fluid,
    Mark,
    Measure,
    Move,
    Pass,
    Place,
    Slide,
    Step,
    Touch,
)
from halfthou.units import Kilowatt, Millimetre, Radian, RevPerMinute


@dataclass(kw_only=True)
class Draft:
    """A step being put together; ``step`` makes the finished one."""

    operation: Operation
    tool: str
    fluid: Fluid
    tool_out: Millimetre | None = None
    speed: RevPerMinute | None = None
    feed: Feed | None = None
    passes: tuple[Pass, ...] = ()
    moves: tuple[Move, ...] = ()
    places: tuple[Place, ...] = ()
    measures: tuple[Measure, ...] = ()
    lock: tuple[Slide, ...] = ()
    check: CoarseCheck | None = None
    remarks: list[str] = field(default_factory=list)
    cautions: list[str] = field(default_factory=list)
    minutes: float = 0.0
    set_over: Radian = 0.0
    wheels: tuple[int, int] | None = None
    train: tuple[tuple[int, ...], tuple[int, ...]] | None = None
    leadscrew: Millimetre = 0.0
    faster: tuple[Millimetre, RevPerMinute] | None = None
    length: Millimetre = 0.0
    power: tuple[Kilowatt, Kilowatt] | None = None
    touch: Touch | None = None
    marks: tuple[Mark, ...] = ()
    shoulder_speed: RevPerMinute | None = None
    shift: float = 0.0

    def step(self, number: int) -> Step:
        """Make the step, its own size first among what is aimed at."""
        own = self.measures[0] if self.measures else None
        return Step(
            number=number,
            operations=(self.operation,),
            tool=self.tool,
            tool_out=self.tool_out,
            speed=self.speed,
            feed=self.feed,
            passes=self.passes,
            moves=self.moves,
            places=self.places,
            aim=own.aim if own else None,
            band=_band(self.operation, own),
            measures=self.measures,
            fluid=self.fluid,
            lock=self.lock,
            check=self.check,
            remarks=tuple(dict.fromkeys(self.remarks)),
            cautions=tuple(dict.fromkeys(self.cautions)),
            minutes=self.minutes,
            set_over=self.set_over,
            wheels=self.wheels,
            train=self.train,
            leadscrew=self.leadscrew,
            faster=self.faster,
            length=self.length,
            power=self.power,
            touch=self.touch,
            marks=self.marks,
            shoulder_speed=self.shoulder_speed,
            shift=self.shift,
        )

    def takes(self, *, length: Millimetre, passes: int | None = None) -> None:
        """Reckon the minutes: the cuts, the measuring, and fetching the tool."""
        count = passes if passes is not None else sum(one.count for one in self.passes)
        if self.feed is None or self.speed is None or self.feed.per_turn <= 0:
            self.minutes = self.operation.minutes
            return
        self.minutes = TOOL_CHANGE + minutes_cutting(
            passes=max(1, count),
            length=length,
            feed=self.feed.per_turn,
            speed=self.speed,
            measured=len(self.measures),
        )


def _band(operation: Operation, own: Measure | None) -> Band | None:
    if own is not None and own.band is not None:
        return own.band
    return operation.size


def told(cuts: Sequence[Cuts], *, size: Millimetre, way: float) -> tuple[Pass, ...]:
    """Cuts as passes: ``size`` is what is wanted, ``way`` what a side's metal adds to it.

    ``way`` is +2 for outside diameters, −2 for bores, +1 for faces and floors.
    """
    return tuple(
        Pass(count=cut.count, depth=cut.depth, leaves=size + way * cut.left, purpose=cut.purpose)
        for cut in cuts
    )
