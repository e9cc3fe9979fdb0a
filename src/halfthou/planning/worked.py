"""A plan with its numbers: what the person sets, turns, reads and measures, step by step.

All values in mm, rev/min, s; nothing is rounded for the eye here (``present`` does that), but
what a machine can only do in steps (speeds it has, whole divisions of a dial, drills in the
drawer) is already the step it will be.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from halfthou.drawing.geometry import Region
from halfthou.drawing.model import Band
from halfthou.planning.model import Operation, Reason, SetUp
from halfthou.units import Kilowatt, Millimetre, Radian, RevPerMinute, Second, Vec3

Slide: TypeAlias = Literal[
    "cross-slide", "top-slide", "saddle", "tailstock", "table", "cross-table", "quill", "knee"
]
Fluid: TypeAlias = Literal["dry", "cutting oil", "paraffin", "tapping compound"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """Power feed per turn of the work, or hand feed as seconds for one turn of the handle.

    ``table_goes`` is the way the table itself moves under a milling cut, so that it goes against
    the cutter's turning (spindle clockwise from above); the cutter starts at the end of the work
    that the table moves toward. Empty where either way will do: a slot, a face full width.
    ``turns`` is the part of a handle turn the whole feed is, where that is less than one turn.
    """

    kind: Literal["power", "hand"]
    per_turn: Millimetre
    seconds_a_handle_turn: Second = 0.0
    slide: Slide = "saddle"
    table_goes: Literal["", "left", "right", "toward", "away"] = ""
    turns: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A slide moved to ``to`` from its zero: whole ``turns`` and ``divisions`` of its dial.

    ``to`` is the true travel. ``divisions`` may carry a fraction only where the dial can be read
    between lines (half a division). ``by`` tells what shows it: where that is not the dial,
    turns and divisions are nought and ``to`` is read on a rule, a scale or the readout.
    On the mill ``sense`` and ``last`` are ways of the cutter over the work (the knee comes up
    and so the cutter goes down: "up"); ``last`` is the way it is come to, so that the backlash
    lies always on the same side.
    """

    slide: Slide
    to: Millimetre
    turns: int
    divisions: float
    reads: Literal["radius", "diameter", "travel"]
    sense: Literal["in", "out", "left", "right", "down", "up", "away", "toward"]
    by: Literal["dial", "readout", "rule"] = "dial"
    last: Literal["", "left", "right", "away", "toward", "up"] = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """Some cuts of ``depth`` a side (turning) or downwards (milling); it then measures ``leaves``.

    For slots, steps and keyways ``leaves`` is the depth reached. ``settings`` is where the slide
    stands for each cut, counted on from the step's earlier passes; ``divisions`` what the dial
    goes on for one of them. ``side_by_side``: each cut is the full depth, one beside the other.
    In the lathe depth and ``leaves`` are what those settings come to, and a finishing cut is a
    pass by itself. Where the metal to come off is only known once the work is measured,
    ``leaves`` of the roughing is nought (not known before), its count the most there can be, and
    the last pass has no settings: it goes on to the length measured less ``to_measured``.
    """

    count: int
    depth: Millimetre
    leaves: Millimetre
    purpose: Literal["rough", "finish", "spring", "skin"] = "rough"
    settings: tuple[Move, ...] = ()
    divisions: float = 0.0
    side_by_side: bool = False
    to_measured: Millimetre = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Touch:
    """Where a tool is touched for its height: on ``surface`` (``stock ...`` while it is raw).

    ``above`` is how far the tool then stands above the zero that its moves count from: the
    thickness of the feeler, and the metal that still stands over a face not yet cut.
    """

    surface: str
    means: str
    above: Millimetre


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a cutter goes, from the zero of the set-up, with the dial's turns and divisions."""

    label: str
    at: Vec3
    x: Millimetre
    y: Millimetre
    moves: tuple[Move, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What to measure, with what, and how far the instrument can be doubted (2 sd).

    ``band`` is the drawing's own size, if it is one; ``to_make`` a gauge to be made first.
    ``good`` are the readings between which the size is surely good, the limits drawn in by the
    doubt. ``when`` says that it can only be measured before gripping or after taking out,
    ``where`` at which of several places. ``tick`` is a trial that gives no figure.
    """

    surface: str
    gauge: str
    aim: Millimetre
    low: Millimetre
    high: Millimetre
    doubt: Millimetre
    kind: Literal["diameter", "bore", "length", "depth", "width", "thread", "run-out", "position"]
    decides: bool = True
    band: Band | None = None
    to_make: bool = False
    good: tuple[Millimetre, Millimetre] | None = None
    when: Literal["now", "before gripping", "out of the holding"] = "now"
    where: str = ""
    tick: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CoarseCheck:
    """Before a cut that cannot be undone: look again by other means, expecting this.

    ``low`` and ``high`` are given where the gate is one-sided: never under the one.
    """

    what: str
    means: str
    expect: Millimetre
    within: Millimetre
    low: Millimetre | None = None
    high: Millimetre | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A line scribed, or a centre popped, on a casting: ``height`` from ``datum`` toward ``side``.

    ``what`` is the face or hole it is for. The datum is a face's finished line, a raw face, or
    the middle between two raw faces; a pop lies where a line of its own height crosses.
    """

    kind: Literal["line", "pop"]
    what: str
    side: str
    height: Millimetre
    datum: str
    at: Vec3 | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of a card: one tool, one setting.

    ``set_over`` is the angle of the top-slide from the centre line; ``wheels`` the ratio of the
    change wheels, drivers to driven, and ``train`` the wheels themselves, (drivers, driven), on a
    ``leadscrew`` of that pitch. ``faster`` is (diameter, speed): below the one, go on at the
    other. ``length`` is how far from the zero face the cut truly ends, where the saddle is
    stopped short of it. ``power`` is what the heaviest cut takes by the lowest and the highest of
    the published forces, in kW. ``shoulder_speed`` is that for facing a larger shoulder with the
    last cut; ``shift`` how far the tailstock goes over for each unit two readings of one diameter
    differ. ``touch`` is how a milling cutter's height is found, wherever a
    fresh tool comes to the zero of the set-up. ``marks`` is the sheet of a marking out.
    """

    number: int
    operations: tuple[Operation, ...]
    tool: str
    tool_out: Millimetre | None
    speed: RevPerMinute | None
    feed: Feed | None
    passes: tuple[Pass, ...]
    moves: tuple[Move, ...]
    places: tuple[Place, ...]
    aim: Millimetre | None
    band: Band | None
    measures: tuple[Measure, ...]
    fluid: Fluid
    lock: tuple[Slide, ...]
    check: CoarseCheck | None
    remarks: tuple[str, ...]
    cautions: tuple[str, ...]
    minutes: float
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Zero:
    """Where the dials are set to zero and how it is picked up, part frame.

    ``pick_up`` is one way a direction: ("x", surface name, means, where the middle of the finder
    or the tip of the tool then stands: so far right of, beyond or above zero in mm; negative is
    left of, this side of or below it).
    """

    at: Vec3
    surfaces: tuple[str, ...]
    pick_up: tuple[tuple[str, str, str, Millimetre], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A dimension the picture must show, tied to the step that makes it (0: the holding's own)."""

    step: int
    kind: Literal["diameter", "length", "depth", "width", "position", "radius", "thread", "grip"]
    surfaces: tuple[str, ...]
    a: Vec3
    b: Vec3
    band: Band | None
    value: Millimetre
    temporary: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedSetUp:
    """One set-up with its numbers; ``before`` are the regions already gone, ``off`` those now."""

    number: int
    of: int
    set_up: SetUp
    zero: Zero | None
    steps: tuple[Step, ...]
    before: tuple[Region, ...]
    off: tuple[Region, ...]
    wanted: tuple[Wanted, ...]
    hold_notes: tuple[str, ...]
    true_notes: tuple[str, ...]
    cautions: tuple[str, ...]
    reasons: tuple[Reason, ...]
    mark: str
    next_notes: tuple[str, ...]
    rest_here: bool
    minutes: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """The whole plan with its numbers, and what to lay out before starting."""

    set_ups: tuple[WorkedSetUp, ...]
    saw: Millimetre
    tools: tuple[tuple[str, tuple[int, ...]], ...]
    gauges: tuple[tuple[str, tuple[int, ...]], ...]
    sources: tuple[str, ...]
