"""Solids: made from regions, joined, cut, measured.

A `Solid` may be in several pieces (a bar sawn through) or in none (all of it cut away).
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Final, assert_never

from halfthou.drawing.geometry import (
    Box,
    Cone,
    Cylinder,
    Obround,
    Prism,
    Region,
    RegionSet,
    TaperTube,
    Tube,
)
from halfthou.errors import HalfthouError
from halfthou.shapes import kernel as k
from halfthou.units import Millimetre, Vec3

SEAM_GUIDE: Final[Vec3] = (0.2973, 0.8119, -0.5024)
"""Round faces open on this side, off every plane a part is likely to be cut or viewed in."""
_ALONG_GUIDE: Final = 0.95
_OTHER_GUIDE: Final[Vec3] = (0.0, 0.3, 0.95)
_TOUCHING: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solid:
    """Some metal, as one shape of the solid kernel. Never changed once made."""

    shape: k.Occ = field(repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """The smallest box square to the frame that holds a solid."""

    low: Vec3
    high: Vec3

    @property
    def size(self) -> Vec3:
        """Length along x, y and z [mm]."""
        return (
            self.high[0] - self.low[0],
            self.high[1] - self.low[1],
            self.high[2] - self.low[2],
        )

    @property
    def middle(self) -> Vec3:
        """The box's centre [mm]."""
        return (
            (self.high[0] + self.low[0]) / 2,
            (self.high[1] + self.low[1]) / 2,
            (self.high[2] + self.low[2]) / 2,
        )


def solid_of(region: Region | RegionSet) -> Solid:
    """Fill a region, or the union of several, with metal."""
    if isinstance(region, tuple):
        return fuse([solid_of(one) for one in region])
    return Solid(shape=_shape_of(region))


def fuse(solids: Sequence[Solid]) -> Solid:
    """Join solids into one: their union."""
    some = [solid for solid in solids if not is_empty(solid)]
    if not some:
        return _nothing()
    if len(some) == 1:
        return some[0]
    return _combined(k.BRepAlgoAPI_Fuse(), some[:1], some[1:], "join")


def together(solids: Sequence[Solid]) -> Solid:
    """Lay solids side by side as one, without joining them: work and the jaws that hold it."""
    gathered = _nothing()
    builder = k.BRep_Builder()
    for solid in solids:
        builder.Add(gathered.shape, solid.shape)
    return gathered


def cut(solid: Solid, tools: Sequence[Solid]) -> Solid:
    """Take all the tools away from a solid, in one go."""
    some = [tool for tool in tools if not is_empty(tool)]
    if not some or is_empty(solid):
        return solid
    return _combined(k.BRepAlgoAPI_Cut(), [solid], some, "cut")


def common(a: Solid, b: Solid) -> Solid:
    """Return what two solids share."""
    if is_empty(a) or is_empty(b):
        return _nothing()
    return _combined(k.BRepAlgoAPI_Common(), [a], [b], "overlap")


def volume(solid: Solid) -> float:
    """Measure how much metal there is [mm³]."""
    if is_empty(solid):
        return 0.0
    properties = k.GProp_GProps()
    k.BRepGProp.VolumeProperties_s(solid.shape, properties)
    return float(properties.Mass())


def centre_of_mass(solid: Solid) -> Vec3:
    """Return the point at which the solid balances [mm]."""
    properties = k.GProp_GProps()
    k.BRepGProp.VolumeProperties_s(solid.shape, properties)
    return _vec(properties.CentreOfMass())


def mass(solid: Solid, *, density: float) -> float:
    """Weigh a solid. Density in kg/m³, answer in kilograms."""
    cubic_metre = 1e9
    return volume(solid) / cubic_metre * density


def is_valid(solid: Solid) -> bool:
    """Tell whether the kernel finds the solid sound: closed, no face through another."""
    return bool(k.BRepCheck_Analyzer(solid.shape).IsValid())


def is_empty(solid: Solid) -> bool:
    """Tell whether no metal is left."""
    return not k.TopExp_Explorer(solid.shape, k.TopAbs_FACE).More()


def pieces(solid: Solid) -> tuple[Solid, ...]:
    """Return the separate lumps of a solid, largest first."""
    lumps = [Solid(shape=one) for one in shapes_in(solid.shape, k.TopAbs_SOLID)]
    return tuple(sorted(lumps, key=volume, reverse=True))


def bounding_box(solid: Solid) -> Extent:
    """Return the smallest box that holds the solid, exact on round faces too."""
    if is_empty(solid):
        raise HalfthouError(
            "nothing is left to measure",
            why="all of the metal has been cut away",
            tries=("look at the cut before this one",),
        )
    box = k.Bnd_Box()
    k.BRepBndLib.AddOptimal_s(solid.shape, box, False, False)  # noqa: FBT003
    box.SetGap(0.0)
    return Extent(low=_vec(box.CornerMin()), high=_vec(box.CornerMax()))


def distance(a: Solid, b: Solid) -> Millimetre:
    """Return the gap between two solids; 0 when they touch or overlap [mm]."""
    if is_empty(a) or is_empty(b):
        return math.inf
    return float(k.BRepExtrema_DistShapeShape(a.shape, b.shape).Value())


def shapes_in(shape: k.Occ, kind: k.Occ) -> Iterable[k.Occ]:
    """Walk the kernel's parts of one kind in a shape: faces, edges, solids."""
    explorer = k.TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def _vec(point: k.Occ) -> Vec3:
    return (point.X(), point.Y(), point.Z())


def _nothing() -> Solid:
    compound = k.TopoDS_Compound()
    k.BRep_Builder().MakeCompound(compound)
    return Solid(shape=compound)


def _shape_list(solids: Iterable[Solid]) -> k.Occ:
    listed = k.List_TopoDS_Shape()
    for solid in solids:
        listed.Append(solid.shape)
    return listed


def _combined(
    operation: k.Occ, first: Sequence[Solid], second: Sequence[Solid], word: str
) -> Solid:
    operation.SetArguments(_shape_list(first))
    operation.SetTools(_shape_list(second))
    operation.SetNonDestructive(True)  # noqa: FBT003
    operation.Build()
    if not operation.IsDone() or operation.Shape().IsNull():
        raise HalfthouError(
            f"the solid kernel could not {word} {len(first) + len(second)} solids",
            why="faces that all but touch leave it undecided which side is metal",
            tries=("let the cut overlap the metal by 0.01 mm or more", "make the cuts one by one"),
        )
    # Faces split by the operation but still one face on the part are drawn as one.
    unify = k.ShapeUpgrade_UnifySameDomain(operation.Shape(), True, True, False)  # noqa: FBT003
    unify.Build()
    return Solid(shape=_smooth(unify.Shape()))


def _ax2(start: Vec3, end: Vec3) -> tuple[k.Occ, float]:
    along = tuple(b - a for a, b in zip(start, end, strict=True))
    length = math.hypot(*along)
    axis = k.gp_Dir(*along)
    guide = SEAM_GUIDE if abs(axis.Dot(k.gp_Dir(*SEAM_GUIDE))) < _ALONG_GUIDE else _OTHER_GUIDE
    return k.gp_Ax2(k.gp_Pnt(*start), axis, k.gp_Dir(*guide)), length


def _cylinder(start: Vec3, end: Vec3, diameter: Millimetre) -> k.Occ:
    frame, length = _ax2(start, end)
    return k.BRepPrimAPI_MakeCylinder(frame, diameter / 2, length).Solid()


def _cone(start: Vec3, end: Vec3, start_diameter: Millimetre, end_diameter: Millimetre) -> k.Occ:
    if math.isclose(start_diameter, end_diameter, rel_tol=_TOUCHING):
        return _cylinder(start, end, start_diameter)
    frame, length = _ax2(start, end)
    maker = k.BRepPrimAPI_MakeCone(frame, start_diameter / 2, end_diameter / 2, length)
    return maker.Solid()


def _prism(region: Prism) -> k.Occ:
    polygon = k.BRepBuilderAPI_MakePolygon()
    for corner in region.outline:
        polygon.Add(k.gp_Pnt(*corner))
    polygon.Close()
    face = k.BRepBuilderAPI_MakeFace(polygon.Wire(), True).Face()  # noqa: FBT003
    return _swept(face, k.gp_Vec(*region.along))


def _swept(face: k.Occ, along: k.Occ) -> k.Occ:
    solid = k.TopoDS.Solid(k.BRepPrimAPI_MakePrism(face, along).Shape())
    k.BRepLib.OrientClosedSolid_s(solid)
    return _smooth(solid)


def _smooth(shape: k.Occ) -> k.Occ:
    """Mark the edges where one face runs into the next without a corner: they are not drawn."""
    k.BRepLib.EncodeRegularity_s(shape)
    return shape


def _shape_of(region: Region) -> k.Occ:
    shape: k.Occ
    match region:
        case Cylinder():
            shape = _cylinder(region.start, region.end, region.diameter)
        case Cone():
            ends = (region.start_diameter, region.end_diameter)
            shape = _cone(region.start, region.end, *ends)
        case Box():
            maker = k.BRepPrimAPI_MakeBox(k.gp_Pnt(*region.low), k.gp_Pnt(*region.high))
            shape = maker.Solid()
        case Obround():
            shape = _obround(region)
        case Prism():
            shape = _prism(region)
        case Tube():
            shape = _ring(region, _cylinder(region.start, region.end, region.inside))
        case TaperTube():
            ends = (region.start_inside, region.end_inside)
            shape = _ring(region, _cone(region.start, region.end, *ends))
        case _:
            assert_never(region)
    return shape


def _ring(region: Tube | TaperTube, bore: k.Occ) -> k.Occ:
    outer = Solid(shape=_cylinder(region.start, region.end, region.outside))
    return cut(outer, [Solid(shape=bore)]).shape


def _obround(slot: Obround) -> k.Occ:
    depth = k.gp_Vec(k.gp_Dir(*slot.direction)).Multiplied(slot.depth)
    start, end = k.gp_Pnt(*slot.start), k.gp_Pnt(*slot.end)
    if start.Distance(end) < _TOUCHING:
        return _cylinder(slot.start, _vec(start.Translated(depth)), slot.width)
    along = k.gp_Vec(k.gp_Dir(k.gp_Vec(start, end))).Multiplied(slot.width / 2)
    side = k.gp_Vec(k.gp_Dir(k.gp_Vec(*slot.direction).Crossed(along))).Multiplied(slot.width / 2)
    a, b = start.Translated(side.Reversed()), end.Translated(side.Reversed())
    c, d = end.Translated(side), start.Translated(side)
    far, near = end.Translated(along), start.Translated(along.Reversed())
    edge = k.BRepBuilderAPI_MakeEdge
    wire = k.BRepBuilderAPI_MakeWire(
        edge(a, b).Edge(),
        edge(k.GC_MakeArcOfCircle(b, far, c).Value()).Edge(),
        edge(c, d).Edge(),
        edge(k.GC_MakeArcOfCircle(d, near, a).Value()).Edge(),
    ).Wire()
    return _swept(k.BRepBuilderAPI_MakeFace(wire, True).Face(), depth)  # noqa: FBT003
