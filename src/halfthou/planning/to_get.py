"""Tools a plan calls for that are not in the workshop: said on the card, to be got beforehand."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from halfthou.planning.drills_at_hand import drills_in_hand
from halfthou.planning.model import Reason, SetUp
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

BOUGHT: Final = (
    "drill ", "reamer ", "taps ", "die ", "centre drill", "countersink", "counterbore ",
    "boring tool", "grooving tool", "inside grooving tool", "knife tool", "facing tool",
    "chamfer tool", "parting tool", "screwcutting tool",
)  # fmt: skip
"""How the names of tools begin that come out of a drawer; files and saws are taken as there."""


def in_hand(workshop: Workshop) -> frozenset[str]:
    """Name every tool, drill, reamer, tap and die of a workshop as plans do."""
    drawer = workshop.drills
    return frozenset(
        (
            *(tool.name for tool in workshop.tools),
            *(f"drill {drill.name}" for drill in drills_in_hand(drawer.drills)),
            *(reamer_name(size) for size in drawer.reamers),
            *(f"centre drill {name}" for name in drawer.centre_drills),
            *(f"taps {name}" for name in drawer.taps),
            *(f"die {name}" for name in drawer.dies),
        )
    )


def reamer_name(size: Millimetre) -> str:
    """Give the name of a reamer.

    >>> reamer_name(16.0)
    'reamer 16 mm'
    """
    return f"reamer {size:g} mm"


def to_get(set_ups: tuple[SetUp, ...], workshop: Workshop) -> Iterator[Reason]:
    """Say once what each set-up calls for that the workshop does not have."""
    have = set(in_hand(workshop))
    for number, set_up in enumerate(set_ups, start=1):
        for op in set_up.operations:
            lacking = not have & set(op.tools)
            if op.tools and lacking and op.tools[0].startswith(BOUGHT):
                have.add(op.tools[0])
                yield Reason(
                    set_up=number,
                    text=f"to be got: {op.tools[0]}, for {op.feature}; the workshop has none",
                )
