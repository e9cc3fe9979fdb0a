"""The cases worth solving for a part: one for each blank it can be made from."""

from __future__ import annotations

from halfthou.drawing.model import Part
from halfthou.planning.assemble import Case
from halfthou.planning.cast.able import check_held
from halfthou.planning.cast.case import case_cast
from halfthou.planning.milled.case import case_milled
from halfthou.planning.turned.case import cases_turned
from halfthou.workshop.model import Workshop


def cases(part: Part, workshop: Workshop) -> tuple[Case, ...]:
    """Give every blank for the part, each with its operations, holdings and orders.

    Raises
    ------
    NoPlan
        If the blank is too small for the part.
    """
    if part.turned:
        return cases_turned(part, workshop)
    if part.blank.form == "casting":
        return (case_cast(part, workshop),)
    check_held(part)
    return (case_milled(part, workshop),)
