"""The part as drawn, solved: every surface in its place, every size with its limits.

Frame of a part: x left to right, y bottom to top, z back to front. Turned work lies with its
axis on x, the right end toward the tailstock. A surface is a thing; a dimension is a name for
the difference of two surfaces. Nothing here knows of files: ``store`` makes these values.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from halfthou.drawing.geometry import Region, RegionSet
from halfthou.handbook.threads import Thread
from halfthou.units import Millimetre, Radian, Vec3

Side: TypeAlias = Literal["left", "right", "top", "bottom", "front", "back"]
BossSide: TypeAlias = Literal[
    "left", "right", "top", "bottom", "front", "back", "outside", "inside"
]
Origin: TypeAlias = Literal["drawn", "general", "taken as meant"]

OUTWARD: dict[Side, Vec3] = {
    "left": (-1.0, 0.0, 0.0),
    "right": (1.0, 0.0, 0.0),
    "bottom": (0.0, -1.0, 0.0),
    "top": (0.0, 1.0, 0.0),
    "back": (0.0, 0.0, -1.0),
    "front": (0.0, 0.0, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A size with its limits and where they come from."""

    nominal: Millimetre
    low: Millimetre
    high: Millimetre
    text: str
    origin: Origin
    place: str
    decimals: int = 2

    @property
    def width(self) -> Millimetre:
        """The tolerance."""
        return self.high - self.low

    @property
    def middle(self) -> Millimetre:
        """Half-way between the limits."""
        return (self.high + self.low) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """One named surface of the finished part.

    ``point`` lies on the plane or on the axis; ``direction`` is the outward normal of a plane
    or the direction of an axis. ``low`` and ``high`` are the corners of its bounding box.
    """

    name: str
    feature: str
    kind: Literal["plane", "cylinder", "cone", "thread"]
    inside: bool
    point: Vec3
    direction: Vec3
    low: Vec3
    high: Vec3
    size: Band | None = None
    raw: bool = False
    clean_up: bool = False
    """Cut only until no skin is left: its place is free."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """A drawn distance from surface ``a`` to surface ``b`` along ``direction``."""

    name: str
    a: str
    b: str
    direction: Vec3
    band: Band


RequirementKind: TypeAlias = Literal[
    "run-out", "parallel", "square", "position", "concentric", "symmetrical", "wall", "distance"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Requirement:
    """What must hold between two surfaces, stated or taken as meant."""

    kind: RequirementKind
    surface: str
    to: str
    within: Millimetre
    text: str
    origin: Origin
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A cylinder or taper of turned metal between two shoulders on the x axis."""

    name: str
    left: Millimetre
    right: Millimetre
    diameter: Band
    right_diameter: Band | None = None
    thread: Thread | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A six-sided body of metal (block or plate)."""

    name: str
    low: Vec3
    high: Vec3
    machined: frozenset[Side]
    clean_up: frozenset[Side] = frozenset()
    fillet: Millimetre = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Boss:
    """A round body on an axis of its own; hollow if it is a ring.

    It runs from ``start`` to ``end`` along ``axis`` (0, 1, 2); ``centre`` is a point of its axis.
    With draft its two ends differ: ``diameter`` is that of its free end, ``root_diameter`` the
    other; it ``rises`` if its free end is the right, top or front one. ``machined`` names its
    two ends by their sides, and ``outside`` and ``inside``. ``fillet`` is a radius on the
    drawing that is left out of the solid.
    """

    name: str
    axis: int
    start: Millimetre
    end: Millimetre
    centre: Vec3
    diameter: Band
    root_diameter: Millimetre
    rises: bool = True
    inside: Band | None = None
    on: str = ""
    machined: frozenset[BossSide] = frozenset()
    clean_up: frozenset[BossSide] = frozenset()
    fillet: Millimetre = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """A flat arm between two bosses on parallel axes, its edges tangent to both.

    ``covered`` says of each boss whether it fills the arm's end over its whole thickness.
    """

    name: str
    axis: int
    start: Millimetre
    end: Millimetre
    joins: tuple[str, str]
    centres: tuple[Vec3, Vec3]
    diameters: tuple[Millimetre, Millimetre]
    covered: tuple[bool, bool] = (True, True)
    machined: frozenset[Side] = frozenset()
    clean_up: frozenset[Side] = frozenset()
    fillet: Millimetre = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleStep:
    """One diameter of a hole, from ``start`` to ``end`` below the entry face.

    ``end`` is the full depth of that diameter; a drill's point goes deeper when ``point``.
    A tapered hole has ``diameter`` where the step starts and ``end_diameter`` where it ends.
    ``breaks_out`` says that the step runs out of the metal at its far end.
    """

    kind: Literal["plain", "countersink", "counterbore", "spotface"]
    diameter: Band
    start: Millimetre
    end: Millimetre
    breaks_out: bool
    point: bool
    angle: Radian | None = None
    thread: Thread | None = None
    clears: Thread | None = None
    process: Literal["drilled", "bored", "reamed"] | None = None
    end_diameter: Millimetre | None = None
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A pattern on a circle; the first place at ``first`` from the pattern's own zero."""

    count: int
    diameter: Millimetre
    centre: Vec3
    first: Radian


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole of one or more steps, and its copies; ``into`` points into the metal.

    ``leans`` is the angle between ``into`` and the line square to its face; ``cored`` is the
    diameter of a hole that the casting has there already.
    """

    name: str
    entries: tuple[Vec3, ...]
    into: Vec3
    steps: tuple[HoleStep, ...]
    face: str
    on_axis: bool
    ring: Ring | None = None
    suits: str = ""
    leans: Radian = 0.0
    cored: Band | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutout:
    """A step, slot or pocket with flat walls; ``open_sides`` are where it leaves the metal."""

    name: str
    kind: Literal["step", "slot", "pocket"]
    low: Vec3
    high: Vec3
    open_sides: frozenset[Side]
    floor: Side
    corner_radius: Millimetre
    wide: Band | None
    deep: Band | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyway:
    """A keyway along x in a round; ``out`` points from its floor out of the metal."""

    name: str
    on: str
    left: Millimetre
    right: Millimetre
    width: Band
    floor: Millimetre
    leaves: Band
    ends: Literal["round", "square"]
    out: Vec3


@dataclass(frozen=True, slots=True, kw_only=True)
class Groove:
    """A turned groove or undercut in a round (or inside a hole)."""

    name: str
    on: str
    left: Millimetre
    right: Millimetre
    diameter: Band
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ChamferCut:
    """One edge taken off: a turned cone or a straight edge."""

    name: str
    leg: Millimetre
    angle: Radian
    region: Region
    edge: str
    facing: Vec3
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class AngledFace:
    """A flat face through ``point``, ``leans`` from square: all metal beyond it is cut off.

    ``normal`` points out of the metal: from ``facing`` it leans toward ``toward``.
    """

    name: str
    facing: Side
    toward: Side
    leans: Radian
    point: Vec3
    normal: Vec3
    region: Region


@dataclass(frozen=True, slots=True, kw_only=True)
class Centres:
    """Centre holes in the ends of turned work."""

    ends: frozenset[Side]
    size: str
    pilot: Millimetre
    body: Millimetre
    left_in: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Where one piece of metal becomes two, or two are put together.

    ``kerf`` is the saw's; ``halves`` names the piece above (right, front) and the one below.
    ``skim`` is what each sawn face then loses. Before the cut the half that ``moves`` stands
    ``over`` further out; all dimensions hold with the joint together.
    """

    name: str
    surface: str
    kind: Literal["sawn", "two castings", "pressed", "retained", "bolted"]
    kerf: Millimetre
    halves: tuple[str, str]
    bolts: str = ""
    located_by: str = ""
    locators: tuple[str, ...] = ()
    """Features that bring the halves back to place, as far as ``located_by`` names any."""
    moves: str = ""
    skim: Millimetre = 0.0
    axis: int = 1
    at: Millimetre = 0.0

    @property
    def over(self) -> Millimetre:
        """How much longer the lump is before the cut: the kerf, and a skim of each face."""
        return self.kerf + 2 * self.skim if self.kind == "sawn" else 0.0


Feature: TypeAlias = (
    Round
    | Block
    | Boss
    | Arm
    | Hole
    | Cutout
    | Keyway
    | Groove
    | ChamferCut
    | AngledFace
    | Centres
    | Joint
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """The lump as bought. Sizes in mm; ``across`` by ``high`` by ``length``.

    ``round``/``hexagon``: ``across`` only. ``flat``/``plate``: three sizes matched to the part
    (x, y, z of the part frame after matching). A casting has ``stock`` on each machined side;
    its ``draft`` is kept as a note, the raw shape goes without.
    """

    form: Literal["round bar", "hexagon bar", "square bar", "flat bar", "plate", "casting"]
    text: str
    across: Millimetre
    size: Vec3
    bright: bool = True
    stock: Millimetre = 0.0
    draft: Radian = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Lump:
    """Metal as some bodies less some cuts; several lumps together may make one workpiece."""

    name: str
    metal: RegionSet
    removed: RegionSet = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One of the pieces of a part: a half beside a joint, or one of a metal of its own.

    ``features`` are the bodies and cuts it shows; a bore across a joint shows in both halves.
    ``fixed`` says how a piece is put in (pressed, retained, soldered, pinned, screwed) and
    ``into`` where; both are empty for the piece everything else is put into.
    """

    name: str
    material: str
    features: tuple[str, ...]
    metal: RegionSet
    removed: RegionSet
    fixed: str = ""
    into: str = ""
    blank: Blank | None = None

    @property
    def lump(self) -> Lump:
        """The piece as finished."""
        return Lump(name=self.name, metal=self.metal, removed=self.removed)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mate:
    """A fit made to another part: ``suits`` of the part file."""

    surface: str
    text: str
    part: str
    mate_surface: str
    free_low: Millimetre | None
    free_high: Millimetre | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """Something the drawing check noticed, by the feature's own name."""

    what: str
    feature: str
    why: str
    tries: tuple[str, ...]
    grave: bool
    at: Vec3 | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part, solved. ``metal`` less ``removed`` is the part in its own material, together.

    ``pieces`` has one entry, ``whole``, for a part in one piece. Pieces of another metal, such
    as a pressed bush, are only there.

    ``aliases`` pairs the other words for a surface with its preferred name: ``journal left`` of
    the first round is ``left``.
    """

    name: str
    material: str
    units: Literal["mm", "in"]
    otherwise: str
    blank: Blank
    features: tuple[Feature, ...]
    surfaces: tuple[Surface, ...]
    distances: tuple[Distance, ...]
    requirements: tuple[Requirement, ...]
    metal: tuple[Region, ...]
    removed: tuple[Region, ...]
    findings: tuple[Finding, ...] = ()
    pieces: tuple[Piece, ...] = ()
    mates: tuple[Mate, ...] = ()
    wall: Millimetre | None = None
    quantity: int = 1
    notes: tuple[str, ...] = field(default=())
    aliases: tuple[tuple[str, str], ...] = ()
    treatment: str = ""
    comes_off: tuple[Feature, ...] = ()
    """Bodies of the raw casting alone, such as a chucking piece: they have no surfaces here."""
    reference: tuple[Distance, ...] = ()
    """Dimensions in brackets, which follow from the others: to be shown, never worked to."""

    def pieces_of(self, feature: str) -> tuple[str, ...]:
        """Return the names of the pieces a feature belongs to."""
        return tuple(piece.name for piece in self.pieces if feature in piece.features)

    @property
    def turned(self) -> bool:
        """Whether the part's own metal is rounds on one axis."""
        apart = {name for piece in self.pieces if piece.fixed for name in piece.features}
        bodies = [
            feature
            for feature in self.features
            if isinstance(feature, Round | Block | Boss | Arm) and feature.name not in apart
        ]
        return bool(bodies) and all(isinstance(f, Round) for f in bodies)

    def surface(self, name: str) -> Surface:
        """Return the surface of that name, or that goes by it.

        Raises
        ------
        KeyError
            If the part has no such surface (a fault of the program, not of the file).
        """
        wanted = dict(self.aliases).get(name, name)
        for surface in self.surfaces:
            if surface.name == wanted:
                return surface
        raise KeyError(name)
