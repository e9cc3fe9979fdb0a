"""The one door to OpenCascade: every name of it that is used, or one line on what is missing.

The bindings say nothing of their types, so what comes through here is of any type; the modules
beside this one give it one.
"""

from __future__ import annotations

from typing import Any, TypeAlias

from halfthou.errors import HalfthouError

Occ: TypeAlias = Any
"""Something of the solid kernel's: a shape, a point, an operation."""


def kernel_missing(fault: ImportError) -> HalfthouError:
    """Say in one line what the solid kernel lacks, and how to get it."""
    if isinstance(fault, ModuleNotFoundError):
        return HalfthouError(
            "no solids or views can be made: the package cadquery-ocp-novtk is not there",
            why="it holds the solid kernel that all shapes are cut with",
            tries=("pip install cadquery-ocp-novtk",),
        )
    return HalfthouError(
        "no solids or views can be made: the solid kernel did not load: "
        + str(fault).partition("\n")[0],
        why="it needs three small system libraries that a bare machine leaves out",
        tries=("apt-get install libgl1 libx11-6 libexpat1",),
    )


try:
    from OCP.Bnd import Bnd_Box
    from OCP.BRep import BRep_Builder, BRep_Tool
    from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
    from OCP.BRepBndLib import BRepBndLib
    from OCP.BRepBuilderAPI import (
        BRepBuilderAPI_MakeEdge,
        BRepBuilderAPI_MakeFace,
        BRepBuilderAPI_MakePolygon,
        BRepBuilderAPI_MakeWire,
    )
    from OCP.BRepCheck import BRepCheck_Analyzer
    from OCP.BRepExtrema import BRepExtrema_DistShapeShape
    from OCP.BRepGProp import BRepGProp
    from OCP.BRepLib import BRepLib, BRepLib_ToolTriangulatedShape
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.BRepPrimAPI import (
        BRepPrimAPI_MakeBox,
        BRepPrimAPI_MakeCone,
        BRepPrimAPI_MakeCylinder,
        BRepPrimAPI_MakePrism,
    )
    from OCP.BRepTools import BRepTools, BRepTools_WireExplorer
    from OCP.collections import List_TopoDS_Shape
    from OCP.GC import GC_MakeArcOfCircle
    from OCP.GCPnts import GCPnts_TangentialDeflection
    from OCP.GeomAbs import (
        GeomAbs_Cone,
        GeomAbs_Cylinder,
        GeomAbs_Line,
        GeomAbs_Plane,
    )
    from OCP.gp import gp_Ax2, gp_Ax3, gp_Dir, gp_Pln, gp_Pnt, gp_Vec
    from OCP.GProp import GProp_GProps
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
    from OCP.ShapeUpgrade import ShapeUpgrade_UnifySameDomain
    from OCP.TopAbs import (
        TopAbs_EDGE,
        TopAbs_FACE,
        TopAbs_REVERSED,
        TopAbs_SOLID,
        TopAbs_WIRE,
    )
    from OCP.TopExp import TopExp_Explorer
    from OCP.TopLoc import TopLoc_Location
    from OCP.TopoDS import TopoDS, TopoDS_Compound, TopoDS_Shape
except ImportError as fault:
    raise kernel_missing(fault) from None

__all__ = [
    "BRepAdaptor_Curve",
    "BRepAdaptor_Surface",
    "BRepAlgoAPI_Common",
    "BRepAlgoAPI_Cut",
    "BRepAlgoAPI_Fuse",
    "BRepBndLib",
    "BRepBuilderAPI_MakeEdge",
    "BRepBuilderAPI_MakeFace",
    "BRepBuilderAPI_MakePolygon",
    "BRepBuilderAPI_MakeWire",
    "BRepCheck_Analyzer",
    "BRepExtrema_DistShapeShape",
    "BRepGProp",
    "BRepLib",
    "BRepLib_ToolTriangulatedShape",
    "BRepMesh_IncrementalMesh",
    "BRepPrimAPI_MakeBox",
    "BRepPrimAPI_MakeCone",
    "BRepPrimAPI_MakeCylinder",
    "BRepPrimAPI_MakePrism",
    "BRepTools",
    "BRepTools_WireExplorer",
    "BRep_Builder",
    "BRep_Tool",
    "Bnd_Box",
    "GCPnts_TangentialDeflection",
    "GC_MakeArcOfCircle",
    "GProp_GProps",
    "GeomAbs_Cone",
    "GeomAbs_Cylinder",
    "GeomAbs_Line",
    "GeomAbs_Plane",
    "HLRAlgo_Projector",
    "HLRBRep_Algo",
    "HLRBRep_HLRToShape",
    "List_TopoDS_Shape",
    "Occ",
    "ShapeUpgrade_UnifySameDomain",
    "TopAbs_EDGE",
    "TopAbs_FACE",
    "TopAbs_REVERSED",
    "TopAbs_SOLID",
    "TopAbs_WIRE",
    "TopExp_Explorer",
    "TopLoc_Location",
    "TopoDS",
    "TopoDS_Compound",
    "TopoDS_Shape",
    "gp_Ax2",
    "gp_Ax3",
    "gp_Dir",
    "gp_Pln",
    "gp_Pnt",
    "gp_Vec",
]
