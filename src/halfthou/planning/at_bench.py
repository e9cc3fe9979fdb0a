"""Work at the bench as a set-up: no machine to be set, nothing to be located on."""

from __future__ import annotations

from halfthou.planning.model import Link, Scheme
from halfthou.workshop.model import HoldingDevice


def bench_scheme(
    bench: HoldingDevice,
    *,
    key: str,
    can: frozenset[str],
    pieces: tuple[tuple[str, str], ...] = (("whole", "whole"),),
) -> Scheme:
    """Give a place at the bench for what is done by hand; ``pieces`` as they are there."""
    return Scheme(
        key=key,
        machine="bench",
        links=(Link(holder=bench),),
        faces=(1.0, 0.0, 0.0),
        across=(0.0, 1.0, 0.0),
        grips=(),
        seats=(),
        grip_low=0.0,
        grip_high=0.0,
        grip_size=0.0,
        inside=False,
        centre=False,
        stick_out=0.0,
        true_on=(),
        error=bench.rehold,
        minutes=bench.minutes,
        can=can,
        need=(),
        ban=(),
        piece_state=pieces,
    )
