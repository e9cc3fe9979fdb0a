"""Which gauge in hand can judge a size, and what none of them can.

A size read inside its limits may lie outside them. The limits are drawn in by 1.65 standard
deviations of the gauge at each end (the idea of ISO 14253-1 and JCGM 106: one chance in twenty
of taking a bad part for good at the limit). What is left must be a third of the tolerance, or
there is nothing to aim at.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from halfthou.units import Millimetre
from halfthou.workshop.model import Gauge, Workshop

MeasureKind: TypeAlias = Literal[
    "diameter", "bore", "length", "depth", "width", "thread", "run-out", "position"
]
GUARD: Final = 1.65
"""Standard deviations of the gauge kept clear of each limit."""
LEAST_LEFT: Final = 1 / 3
"""Share of the tolerance that must be left to aim at."""
DOUBT: Final = 2.0
"""Standard deviations told as the doubt of a reading."""

_SERVE: Final[dict[MeasureKind, tuple[str, ...]]] = {
    "diameter": ("caliper outside", "micrometer", "ring gauge", "gap gauge"),
    "bore": ("caliper inside", "telescopic gauge", "small-hole gauge", "bore gauge", "plug gauge"),
    "length": ("caliper outside", "micrometer", "rule", "height gauge"),
    "depth": ("caliper depth", "depth micrometer"),
    "width": ("caliper inside", "telescopic gauge", "small-hole gauge", "plug gauge"),
    "thread": ("thread gauge",),
    "run-out": ("clock",),
    "position": ("rule", "caliper depth"),
}
"""Instruments for each kind of size, the handiest first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A gauge for a size: how far it may be doubted and between what readings the size is good."""

    gauge: Gauge
    doubt: Millimetre
    low: Millimetre
    high: Millimetre
    decides: bool

    @property
    def to_make(self) -> bool:
        """Whether the gauge has to be made or borrowed first."""
        return not self.gauge.in_hand


def gauge_spread(gauge: Gauge) -> Millimetre:
    r"""Spread of a reading: the gauge's own error and the scatter together.

    .. math:: u = \sqrt{b^2 + s^2}

    Parameters
    ----------
    gauge :
        Gives :math:`b`, the error it keeps, and :math:`s`, the scatter of readings. [mm]

    Returns
    -------
    :
        :math:`u`, one standard deviation. [mm]

    Notes
    -----
    Holds for one reading; more of them lessen only the scatter.

    Examples
    --------
    >>> from halfthou.workshop.default import default_workshop
    >>> gauge_spread(default_workshop().gauges[0])
    0.0036
    """
    return math.hypot(gauge.bias, gauge.scatter)


def guarded(*, low: Millimetre, high: Millimetre, gauge: Gauge) -> tuple[Millimetre, Millimetre]:
    """Limits drawn in by what the gauge may miss; crossed where it may miss too much."""
    guard = GUARD * gauge_spread(gauge)
    return low + guard, high - guard


def decides(*, low: Millimetre, high: Millimetre, gauge: Gauge) -> bool:
    """Whether enough of the tolerance is left inside the guard."""
    inner_low, inner_high = guarded(low=low, high=high, gauge=gauge)
    return inner_high - inner_low >= LEAST_LEFT * (high - low) - 1e-12


def serving(kind: MeasureKind, size: Millimetre, workshop: Workshop) -> tuple[Gauge, ...]:
    """Gauges that can measure this kind and size: in hand and handiest first, then to make."""
    order = _SERVE[kind]
    able = [
        gauge
        for gauge in workshop.gauges
        if gauge.kind in order and gauge.smallest <= size <= gauge.largest
    ]
    return tuple(sorted(able, key=lambda g: (not g.in_hand, order.index(g.kind))))


def as_proved(gauge: Gauge, size: Millimetre, workshop: Workshop) -> Gauge:
    """Give a gauge with the error it really has: a plug made here is no truer than it is known.

    A plug yet to be made is sized by the best micrometer in hand, and keeps that one's error all
    its life. Without a micrometer it is known no nearer than a tenth.

    Parameters
    ----------
    gauge :
        Any gauge; one in hand is given back as it is.
    size :
        Of the plug. [mm]
    workshop :
        Whose micrometers.
    """
    if gauge.in_hand or gauge.kind != "plug gauge":
        return gauge
    found = [
        gauge_spread(one)
        for one in workshop.gauges
        if one.kind == "micrometer" and one.in_hand and one.smallest <= size <= one.largest
    ]
    return replace(gauge, bias=math.hypot(gauge.bias, min(found, default=_BY_CALIPER)))


_BY_CALIPER: Final[Millimetre] = 0.1
"""What is known of a plug that no micrometer sizes. [mm]"""


def choose_gauge(
    *, kind: MeasureKind, low: Millimetre, high: Millimetre, workshop: Workshop
) -> Judged | None:
    """Give the handiest gauge that decides a size; else the best there is; None for none at all.

    Parameters
    ----------
    kind :
        What is measured.
    low, high :
        Limits of the size. [mm]
    workshop :
        Whose gauges.
    """
    size = (low + high) / 2
    able = tuple(as_proved(gauge, size, workshop) for gauge in serving(kind, size, workshop))
    for gauge in able:
        if kind == "thread" or decides(low=low, high=high, gauge=gauge):
            return _judged(gauge, low, high, good=True)
    in_hand = [gauge for gauge in able if gauge.in_hand]
    if not in_hand:
        return None
    return _judged(min(in_hand, key=gauge_spread), low, high, good=False)


def _judged(gauge: Gauge, low: Millimetre, high: Millimetre, *, good: bool) -> Judged:
    inner_low, inner_high = guarded(low=low, high=high, gauge=gauge)
    if inner_low > inner_high:
        inner_low = inner_high = (low + high) / 2
    return Judged(
        gauge=gauge,
        doubt=DOUBT * gauge_spread(gauge),
        low=inner_low,
        high=inner_high,
        decides=good,
    )


def aim_for(
    *, low: Millimetre, high: Millimetre, nominal: Millimetre, inside: bool, judged: Judged | None
) -> Millimetre:
    """Size to aim at: the nominal where it is safely within, else near the middle.

    The lean is a tenth of the tolerance to the side where metal can still come off: outside
    sizes a little large, bores a little small; then to what the gauge can show, a mark or
    half-way between two, inside the guard if that can be, else inside the limits.
    """
    inner_low, inner_high = (judged.low, judged.high) if judged is not None else (low, high)
    room = (high - low) / 4
    if low + room <= nominal <= high - room and inner_low <= nominal <= inner_high:
        return nominal
    lean = (high - low) / 10
    wanted = (low + high) / 2 + (-lean if inside else lean)
    wanted = min(max(wanted, inner_low), inner_high)
    reads_to = judged.gauge.reads_to if judged is not None else 0.0
    return (
        _readable(wanted, inner_low, inner_high, reads_to)
        or _readable(wanted, inner_low, inner_high, reads_to / 2)
        or _readable(wanted, low, high, reads_to / 2)
        or wanted
    )


def _readable(
    wanted: Millimetre, low: Millimetre, high: Millimetre, reads_to: Millimetre
) -> Millimetre | None:
    """Give the nearest size the gauge can show, where one lies inside the limits."""
    if reads_to <= 0:
        return None
    marks = math.floor(wanted / reads_to + 1e-6)
    near = sorted(
        (round(mark * reads_to, 6) for mark in (marks, marks + 1)), key=lambda m: abs(m - wanted)
    )
    return next((mark for mark in near if low < mark < high), None)
