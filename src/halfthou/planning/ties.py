"""What it costs to cut two related surfaces in different set-ups.

Surfaces cut at one setting are true to each other. Cut in two, the second is only as true as the
work was held again. The price is the chance of losing the part by it, a smooth and honest guess
from the holding's own error, not a forecast of the whole chain.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Part, Requirement
from halfthou.planning.model import Operation, Scheme
from halfthou.units import Millimetre

_LEANS: Final = {"square", "parallel"}
CENTRE_OFF: Final = 0.05
"""Run-out of a chucked diameter against the centres drilled there, mm (usual practice)."""
CARRIED: Final = 0.02
"""Run-out when the far end is carried on a centre that was drilled in another chucking: the axis
then runs from the jaws to that centre, and not along the surface gripped, mm (usual practice)."""
BY_ANOTHER: Final = 1.4
"""How much more is lost when the work is trued by some third surface: two errors, not one."""
LOST_PART: Final = 180.0
"""Minutes lost with a part that does not hold (usual practice: the day's work so far)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """A requirement between two operations, with its price [min] by the later one's scheme.

    Where both are cut in schemes of ``one_datum`` (the same two centres) it is ``datum_cost``.
    """

    name: str
    a: str
    b: str
    worst: float
    by_scheme: tuple[tuple[str, float], ...]
    one_datum: tuple[str, ...] = ()
    datum_cost: float = 0.0


def price_apart(*, within: Millimetre, error: Millimetre) -> float:
    r"""Give the expected loss when a surface is cut at another setting.

    .. math:: P = P_0\, e^{-2 (w/e)^2}

    Parameters
    ----------
    within :
        :math:`w`, what the drawing allows over the turn. [mm]
    error :
        :math:`e`, run-out that the holding leaves over the turn, one in seven beyond it. [mm]

    Returns
    -------
    :
        Expected loss. [min]

    Notes
    -----
    Run-out from an eccentric of two equal normal components is Rayleigh distributed, so the
    chance of passing ``w`` falls as the square in the exponent; derived, not published. At
    ``w = e`` one part in seven is lost, at ``2 e`` one in three thousand.

    Examples
    --------
    >>> round(price_apart(within=0.1, error=0.1), 1)
    24.4
    """
    if error <= 0:
        return 0.0
    return LOST_PART * math.exp(-2.0 * (within / error) ** 2)


def _finishing(operations: tuple[Operation, ...], surface: str) -> tuple[Operation, ...]:
    return tuple(op for op in operations if surface in op.makes and op.verb != "centre")


def _error(part: Part, requirement: Requirement, scheme: Scheme) -> Millimetre:
    """Give what the holding leaves of this error against a surface of another set-up."""
    if requirement.kind in _LEANS and scheme.rock > 0:
        return scheme.rock * _extent(part, requirement) / 100.0
    located = {*scheme.grips, *(name for name, _ in scheme.true_on)}
    if {requirement.surface, requirement.to} & located:
        return math.hypot(scheme.error, CARRIED if scheme.centre else 0.0)
    if _on_centres(scheme):
        return CENTRE_OFF
    return BY_ANOTHER * scheme.error


def _on_centres(scheme: Scheme) -> bool:
    return scheme.device.device == "centres"


def _extent(part: Part, requirement: Requirement) -> Millimetre:
    surface = part.surface(requirement.surface)
    return max(b - a for a, b in zip(surface.low, surface.high, strict=True))


def _one(
    part: Part, requirement: Requirement, a: Operation, b: Operation, schemes: tuple[Scheme, ...]
) -> Apart:
    by_scheme = tuple(
        (s.key, price_apart(within=requirement.within, error=_error(part, requirement, s)))
        for s in schemes
        if a.key in s.can or b.key in s.can
    )
    centres = [s for s in schemes if _on_centres(s) and (a.key in s.can or b.key in s.can)]
    twice = math.hypot(1.0, 1.0) * max((s.error for s in centres), default=0.0)
    return Apart(
        name=requirement.text,
        a=a.key,
        b=b.key,
        worst=max((cost for _, cost in by_scheme), default=LOST_PART),
        by_scheme=by_scheme,
        one_datum=tuple(s.key for s in centres),
        datum_cost=price_apart(within=requirement.within, error=twice),
    )


def ties_of(
    part: Part, operations: tuple[Operation, ...], schemes: tuple[Scheme, ...]
) -> tuple[Apart, ...]:
    """Every requirement of the part as a price between the operations that finish its surfaces."""
    found: dict[tuple[str, str], Apart] = {}
    for requirement in part.requirements:
        for a in _finishing(operations, requirement.surface):
            for b in _finishing(operations, requirement.to):
                if a.key == b.key:
                    continue
                pair = (min(a.key, b.key), max(a.key, b.key))
                tie = _one(part, requirement, a, b, schemes)
                if pair not in found or tie.worst > found[pair].worst:
                    found[pair] = tie
    return tuple(found.values())
