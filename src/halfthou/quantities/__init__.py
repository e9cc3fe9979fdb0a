"""Text to quantities and back, in the trade's own forms; no tables here."""

from halfthou.quantities.angle import Angle, parse_angle
from halfthou.quantities.drill import DrillName, parse_drill
from halfthou.quantities.figure import DrawingUnits
from halfthou.quantities.holestep import HoleStep, parse_hole_step
from halfthou.quantities.length import Length, decimal_length, parse_length
from halfthou.quantities.size import (
    FitClass,
    FitWord,
    Limits,
    PlusMinus,
    Size,
    Tolerance,
    parse_size,
)
from halfthou.quantities.thread import ThreadName, parse_thread

__all__ = [
    "Angle",
    "DrawingUnits",
    "DrillName",
    "FitClass",
    "FitWord",
    "HoleStep",
    "Length",
    "Limits",
    "PlusMinus",
    "Size",
    "ThreadName",
    "Tolerance",
    "decimal_length",
    "parse_angle",
    "parse_drill",
    "parse_hole_step",
    "parse_length",
    "parse_size",
    "parse_thread",
]
