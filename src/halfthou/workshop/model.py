"""What a workshop has: machines, holding devices, tools, gauges, each with its errors.

Lengths in mm, speeds in rev/min, power in kW. Errors are one standard deviation unless the
name says otherwise. ``usual`` marks a figure that is usual practice and not this shop's own.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from halfthou.units import Kilowatt, Millimetre, RevPerMinute


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """A feed-screw dial: travel of one division as engraved, what it reads, its backlash."""

    name: str
    lead: Millimetre
    division: Millimetre
    reads: Literal["radius", "diameter", "travel"]
    backlash: Millimetre
    units: Literal["mm", "in"] = "mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lathe:
    """An engine lathe.

    ``spindle_power`` is what reaches the tool, ``tailstock_taper`` what it turns out of parallel
    in 150 mm on the diameter, ``loop_stiffness`` the range between tool and work in N/µm.
    """

    name: str
    centre_height: Millimetre
    between_centres: Millimetre
    spindle_bore: Millimetre
    swing_over_cross_slide: Millimetre
    screwed_nose: bool
    speeds: tuple[RevPerMinute, ...]
    back_gear: tuple[RevPerMinute, ...]
    power: Kilowatt
    feeds: tuple[Millimetre, ...]
    cross_slide: Dial
    top_slide: Dial
    saddle: Dial | None
    leadscrew_pitch: Millimetre
    screwcutting: bool
    tailstock_travel: Millimetre
    drill_chuck: Millimetre
    readout: bool
    spindle_power: Kilowatt = 0.0
    tailstock_taper: Millimetre = 0.0
    tailstock_lead: Millimetre = 0.0
    loop_stiffness: tuple[float, ...] = ()
    usual: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Mill:
    """A vertical milling machine; x along the table, y across, z up.

    ``tram`` is the spindle's lean to the table in 150 mm, ``quill_error`` what its dial may miss.
    """

    name: str
    table: tuple[Millimetre, Millimetre]
    travels: tuple[Millimetre, Millimetre]
    nose_to_table: Millimetre
    quill: Millimetre
    round_column: bool
    speeds: tuple[RevPerMinute, ...]
    power: Kilowatt
    x: Dial
    y: Dial
    z: Dial
    readout: bool
    drill_chuck: Millimetre
    spindle_power: Kilowatt = 0.0
    tram: Millimetre = 0.0
    quill_error: Millimetre = 0.0
    usual: bool = True


Device: TypeAlias = Literal[
    "three-jaw chuck",
    "soft jaws",
    "four-jaw chuck",
    "collet",
    "faceplate",
    "centres",
    "stub mandrel",
    "vice",
    "clamps",
    "rotary table",
    "dividing head",
    "V-blocks",
    "angle plate",
    "chuck on the mill table",
    "cross-slide",
    "bench vice",
    "fixed steady",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldingDevice:
    """Something that holds work. Unused sizes are 0.

    ``rehold`` is the run-out over the turn (lathe) or shift (mill) after gripping finished work
    anew; ``trued`` the same after clocking. ``face`` is rock of a face, in 100 mm.
    """

    device: Device
    name: str
    machine: Literal["lathe", "mill", "bench"]
    smallest: Millimetre
    largest: Millimetre
    inside_smallest: Millimetre
    inside_largest: Millimetre
    jaw_depth: Millimetre
    jaw_width: Millimetre
    overall: Millimetre
    rehold: Millimetre
    trued: Millimetre
    face: Millimetre
    minutes: float
    most_rev_min: RevPerMinute
    usual: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A lathe tool or mill cutter by its shop name; a boring tool's ``shank`` is its bar.

    ``width`` is a cutter's diameter or a parting/grooving tool's width; ``reach`` how deep it can
    go; ``least_bore`` the smallest hole a boring tool enters.
    """

    name: str
    kind: Literal[
        "knife tool",
        "left-hand knife tool",
        "facing tool",
        "round-nosed tool",
        "boring tool",
        "parting tool",
        "grooving tool",
        "chamfer tool",
        "screwcutting tool",
        "inside screwcutting tool",
        "slot drill",
        "end mill",
        "face mill",
        "slitting saw",
        "countersink",
        "side and face cutter",
    ]
    machine: Literal["lathe", "mill"]
    width: Millimetre
    reach: Millimetre
    shank: Millimetre = 0.0
    teeth: int = 1
    least_bore: Millimetre = 0.0
    material: Literal["HSS", "carbide"] = "HSS"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gauge:
    """A measuring instrument: ``bias`` kept all through, ``scatter`` of each reading (both 1 sd).

    ``tip`` is an edge finder's diameter or a feeler's thickness. One not ``in_hand`` can be made
    in the shop or borrowed.
    """

    name: str
    kind: Literal[
        "micrometer",
        "caliper outside",
        "caliper inside",
        "caliper depth",
        "telescopic gauge",
        "small-hole gauge",
        "depth micrometer",
        "clock",
        "plug gauge",
        "rule",
        "height gauge",
        "thread gauge",
        "bore gauge",
        "ring gauge",
        "gap gauge",
        "edge finder",
        "wobbler",
        "feeler",
        "square",
    ]
    smallest: Millimetre
    largest: Millimetre
    bias: Millimetre
    scatter: Millimetre
    reads_to: Millimetre
    in_hand: bool = True
    tip: Millimetre = 0.0
    usual: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillSet:
    """Drills and reamers in hand: by series, or by the size."""

    drills: tuple[str, ...]
    reamers: tuple[Millimetre, ...]
    centre_drills: tuple[str, ...]
    taps: tuple[str, ...]
    dies: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Workshop:
    """A workshop. ``built_in`` is true for the default one, and every card says so.

    ``cutting_speeds`` are metres a minute by kind of metal; ``parallels`` what a pair may differ.
    """

    name: str
    built_in: bool
    lathes: tuple[Lathe, ...]
    mills: tuple[Mill, ...]
    holding: tuple[HoldingDevice, ...]
    tools: tuple[Tool, ...]
    gauges: tuple[Gauge, ...]
    drills: DrillSet
    saw_kerf: Millimetre = 1.5
    cutting_speeds: tuple[tuple[str, float], ...] = ()
    parallels: Millimetre = 0.0
    balance_weights: bool = False
