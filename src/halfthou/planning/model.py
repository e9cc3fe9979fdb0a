"""Operations, ways of holding, and the plan: the words of planning.

An operation takes off metal or changes a joint. A scheme is one way of holding the work, with
what it can cut, what must be there before and what must not be gone yet. A plan is set-ups in
order, each a scheme and its operations in order.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from halfthou.drawing.geometry import Region
from halfthou.drawing.model import Band, Lump
from halfthou.handbook.threads import Thread
from halfthou.units import Millimetre, Radian, Vec3
from halfthou.workshop.model import HoldingDevice

Machine: TypeAlias = Literal["lathe", "mill", "bench"]
Verb: TypeAlias = Literal[
    "saw",
    "face",
    "centre",
    "turn",
    "turn taper",
    "groove",
    "chamfer",
    "thread",
    "spot",
    "drill",
    "bore",
    "ream",
    "tap",
    "countersink",
    "counterbore",
    "spot-face",
    "mill face",
    "mill step",
    "mill slot",
    "mill pocket",
    "mill keyway",
    "mill chamfer",
    "file",
    "deburr",
    "part off",
    "mark out",
    "press",
    "retain",
    "solder",
    "pin",
    "harden",
    "temper",
    "lap",
    "screw in",
    "bolt up",
    "fit dowels",
    "take apart",
]
Stage: TypeAlias = Literal["rough", "finish", "only"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One thing done with one tool.

    ``key`` is stable over runs. ``makes`` are the surfaces it leaves finished. ``region`` is the
    space that holds no metal afterwards. ``approach`` are the directions from the work toward the
    tool. ``starts`` and ``ends`` are where it works along the approach axis (part frame, mm):
    for turning x from, x to; for holes depth from the entry face. ``follows`` is the feature
    that must be there first: the hole whose edge a chamfer breaks, the hole a recess is opened
    from. ``size`` is what it must leave; ``cut_size`` what this operation itself makes (a rough
    size, a drill's diameter). ``piece`` is what it cuts: one piece, or all of them ``together``
    or ``whole``.
    """

    key: str
    verb: Verb
    stage: Stage
    feature: str
    machine: Machine
    makes: tuple[str, ...]
    region: tuple[Region, ...]
    approach: tuple[Vec3, ...]
    tools: tuple[str, ...]
    minutes: float
    at: tuple[Vec3, ...] = ()
    starts: Millimetre = 0.0
    ends: Millimetre = 0.0
    size: Band | None = None
    cut_size: Millimetre = 0.0
    from_size: Millimetre = 0.0
    thread: Thread | None = None
    angle: Radian = 0.0
    inside: bool = False
    through: bool = False
    piece: str = "whole"
    follows: str = ""
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """``before`` must come before ``after``: by which rule and why. Soft ones cost minutes."""

    before: str
    after: str
    rule: str
    reason: str
    hard: bool = True
    cost: float = 0.0
    other_set_up: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """One link of a holding, outermost first: work on mandrel in collet in block in vice."""

    holder: HoldingDevice
    detail: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """One way of holding the work.

    ``faces`` is the direction (part frame) that looks at the tool: toward the tailstock on the
    lathe, up on the mill. ``across`` is the direction along the vice jaws (mill: the part's own
    that lies along +x of the table). ``error`` is the run-out over the turn that the holding
    leaves, ``rock`` how far a face may lean in 100. ``grips`` and ``seats`` name surfaces
    (``stock ...`` for raw ones).
    ``grip_low``/``grip_high`` are where the jaws bear along the axis (lathe) or up from the
    seat (mill), part frame. ``true_on`` are the surfaces clocked, with the reading to reach.
    ``jaws`` is from where to where vice jaws reach along ``across``, part frame; ``out`` the end
    of the jaws beyond which an end of the work stands out to be milled with the side of the
    cutter, by ``out_by`` (packing as thick as the work goes at the other end). ``parallels`` are
    height and greatest thickness of what the work lies on: (0, 0) on the bed itself.
    ``throw`` goes from the middle of what is clocked to the line that turns true, part frame:
    the clock then reads twice its length over the turn, least on the side it points to.
    ``packing`` is what lies under one jaw of a self-centring chuck to throw the work over.
    """

    key: str
    machine: Machine
    links: tuple[Link, ...]
    faces: Vec3
    across: Vec3
    grips: tuple[str, ...]
    seats: tuple[str, ...]
    grip_low: Millimetre
    grip_high: Millimetre
    grip_size: Millimetre
    inside: bool
    centre: bool
    stick_out: Millimetre
    true_on: tuple[tuple[str, Millimetre], ...]
    error: Millimetre
    rock: Millimetre = 0.0
    minutes: float
    can: frozenset[str]
    need: tuple[tuple[str, str], ...]
    ban: tuple[tuple[str, str], ...]
    piece_state: tuple[tuple[str, str], ...] = (("whole", "whole"),)
    reason: str = ""
    jaws: tuple[Millimetre, Millimetre] | None = None
    out: Literal["", "left", "right"] = ""
    out_by: Millimetre = 0.0
    parallels: tuple[Millimetre, Millimetre] | None = None
    throw: Vec3 = (0.0, 0.0, 0.0)
    packing: Millimetre = 0.0

    @property
    def device(self) -> HoldingDevice:
        """The innermost device: the one that touches the work."""
        return self.links[-1].holder


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A way of holding that was looked at and cannot be: what stopped it, what would help."""

    scheme: str
    operation: str
    reason: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """One holding of the work in the plan and what is done at it, in order."""

    scheme: Scheme
    operations: tuple[Operation, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why something in the plan is as it is, for the card of ``set_up`` (0: the whole plan)."""

    set_up: int
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Unjudged:
    """A size this workshop has to make and cannot judge, and what would."""

    surface: str
    size: Band
    best_gauge: str
    doubt: Millimetre
    remedies: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Set-ups in order, the price by the plan's price list, and how far it is proved.

    ``lumps`` are what the pieces of a casting start as, in the frame of the part together;
    empty where the blank is one piece of plain stock. ``uncut`` is the one casting that is sawn
    into them, the half that moves a kerf and two skims further out. ``beside`` are the blanks of
    pieces of a metal of their own, each in its own frame, its axis that of turned work.
    """

    set_ups: tuple[SetUp, ...]
    blank_size: Vec3
    blank: tuple[Region, ...] = ()
    lumps: tuple[Lump, ...] = ()
    uncut: tuple[Lump, ...] = ()
    beside: tuple[Lump, ...] = ()
    minutes: float
    bound: float
    proved: bool
    up_to_set_ups: int
    reasons: tuple[Reason, ...] = ()
    unjudged: tuple[Unjudged, ...] = ()
    rules_off: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Ways of making one thing: exactly one bundle of operation keys is done."""

    name: str
    bundles: tuple[tuple[str, ...], ...]
