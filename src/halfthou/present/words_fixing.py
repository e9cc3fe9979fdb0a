"""What putting pieces together and changing the metal are called on a card."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Protocol

from halfthou.planning.model import Operation
from halfthou.present.numbers import Units, plain
from halfthou.present.words_surfaces import shop_name


class Said(Protocol):
    """An operation to be put into words, and the units to do it in."""

    @property
    def operation(self) -> Operation:
        """What is done."""

    @property
    def units(self) -> Units:
        """The units of its figures."""


def _into(verb: str) -> Callable[[Said], str]:
    def words(cut: Said) -> str:
        op = cut.operation
        seat = f" into the {shop_name(op.follows)}" if op.follows else ""
        return f"{verb} the {shop_name(op.feature)}{seat}"

    return words


def _press(cut: Said) -> str:
    op = cut.operation
    said = _into("Press")(cut)
    if op.cut_size <= 0:
        return said
    least, most = (
        plain(max(0.0, size), cut.units, places=3) for size in (op.from_size, op.cut_size)
    )
    return f"{said}: larger than its hole by {least} to {most}"


FIXED: Final[dict[str, Callable[[Said], str]]] = {
    "press": _press,
    "retain": lambda cut: f"{_into('Fix')(cut)} with retaining compound",
    "solder": _into("Solder"),
    "pin": lambda cut: f"{_into('Pin')(cut)}, drilled across both",
    "screw in": _into("Screw"),
    "harden": lambda cut: f"Harden the {shop_name(cut.operation.feature)}",
    "temper": lambda cut: f"Temper the {shop_name(cut.operation.feature)}",
    "lap": lambda cut: f"Lap the {shop_name(cut.operation.feature)} to size",
}
"""The verbs of the bench that take off no metal, or next to none."""
