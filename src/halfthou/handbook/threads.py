"""Threads by name: sizes in mm of BA, Whitworth-form, cycle, metric and unified threads."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache
from typing import Final, Literal, TypeAlias

from halfthou.errors import InputFault
from halfthou.handbook.tables import Row, number, rows
from halfthou.quantities import ThreadName, parse_length
from halfthou.quantities.thread import ThreadSeries
from halfthou.units import DEGREE, MM_PER_INCH, Millimetre, Radian

ThreadForm: TypeAlias = Literal["BA", "Whitworth", "60°"]

# Depth of the form in pitches (full depth of an external thread), and its included angle.
BA_DEPTH: Final = 0.6
WHITWORTH_DEPTH: Final = 0.640327
CYCLE_DEPTH: Final = 0.5327
SIXTY_HEIGHT: Final = math.sqrt(3) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """A thread's basic sizes [mm].

    ``depth`` is that of the full profile on one side, in the sense in which the trade speaks
    of a share of full thread: Whitworth 0.640p, BA 0.6p, cycle 0.533p, and for 60° threads
    0.650p, twice the distance from the outside to the effective diameter.
    ``minor`` is the root of a screw, ``minor_internal`` the basic bore of a nut;
    ``minor_limits`` the smallest and largest bore of a nut, ``screw_major`` and
    ``screw_effective`` the limits of a screw of the usual class (6g, 2A, BA normal), each where
    the standard's are at hand.
    """

    designation: str
    series: ThreadSeries
    size: str
    hand: Literal["right", "left"] = "right"
    form: ThreadForm
    angle: Radian
    major: Millimetre
    pitch: Millimetre
    tpi: float | None = None
    effective: Millimetre
    depth: Millimetre
    minor: Millimetre
    minor_internal: Millimetre
    minor_limits: tuple[Millimetre, Millimetre] | None = None
    screw_major: tuple[Millimetre, Millimetre] | None = None
    screw_effective: tuple[Millimetre, Millimetre] | None = None
    across_flats: Millimetre | None = None
    table: str


def thread(name: ThreadName) -> Thread:
    """Thread that a name means; an unknown size is a fault that names its neighbours.

    >>> from halfthou.quantities import parse_thread
    >>> thread(parse_thread("4 BA")).major
    3.6
    """
    listed = [each for each in threads() if each.series == name.series]
    same = [each for each in listed if _size_key(each.size) == _size_key(name.size)]
    pitched = [each for each in same if _pitch_fits(each, name)]
    if pitched:
        found = pitched[0]
        return replace(found, hand=name.hand)
    raise _unknown(name, listed, same)


def _pitch_fits(listed: Thread, name: ThreadName) -> bool:
    if name.pitch is not None:
        return math.isclose(listed.pitch, float(name.pitch), abs_tol=1e-6)
    if name.tpi is not None:
        return listed.tpi is not None and math.isclose(listed.tpi, name.tpi, abs_tol=1e-6)
    return True  # the first of a size is its usual pitch: coarse before fine


def _unknown(name: ThreadName, listed: list[Thread], same: list[Thread]) -> InputFault:
    text = name.text.strip()
    if same:
        pitches = ", ".join(each.designation for each in same)
        return InputFault(
            f"'{text}' has a pitch that its series does not list",
            why=f"at this size the series has {pitches}",
            tries=tuple(f"write {each.designation}" for each in same[:3]),
        )
    wanted = _size_value(name)
    near = sorted(listed, key=lambda each: (abs(each.major - wanted), each.designation))
    return InputFault(
        f"no thread is called '{text}'",
        why=f"the {name.series} series here has no size {name.size}",
        tries=tuple(f"write {each.designation}" for each in near[:2]),
    )


def _size_key(size: str) -> str:
    if size.startswith("#"):
        return size
    return f"{parse_length(size, units='in').value:.6f}"


def _size_value(name: ThreadName) -> Millimetre:
    if name.series == "BA":
        return 6 * float(0.9 ** (1.2 * int(name.size)))
    if name.size.startswith("#"):
        return (0.060 + 0.013 * int(name.size[1:])) * MM_PER_INCH
    return parse_length(name.size, units="mm" if name.series == "M" else "in").value


@cache
def threads() -> tuple[Thread, ...]:
    """Every thread the handbook lists, the usual pitch of a size first."""
    return (
        *map(_ba, rows("threads_ba"), rows("threads_ba_limits")),
        *(_whitworth(row, "threads_whitworth") for row in rows("threads_whitworth")),
        *(_whitworth(row, "threads_model_engineer") for row in rows("threads_model_engineer")),
        *map(_pipe, rows("threads_bsp")),
        *map(_cycle, rows("threads_cycle")),
        *map(_metric, rows("threads_metric")),
        *map(_unified, rows("threads_unified")),
    )


def _ba(row: Row, limits: Row) -> Thread:
    pitch, major = float(row["pitch_mm"]), float(row["major_mm"])
    return Thread(
        designation=f"{row['size']} BA",
        series="BA",
        size=row["size"],
        form="BA",
        angle=47.5 * DEGREE,
        major=major,
        pitch=pitch,
        effective=float(row["effective_mm"]),
        depth=BA_DEPTH * pitch,
        minor=float(row["minor_mm"]),
        minor_internal=float(row["minor_mm"]),
        minor_limits=_pair(limits, "nut_min_min", "nut_min_max"),
        screw_major=_pair(limits, "normal_maj_min", "normal_maj_max"),
        screw_effective=_pair(limits, "normal_eff_min", "normal_eff_max"),
        across_flats=1.75 * major,
        table="threads_ba",
    )


def _whitworth(row: Row, table: str) -> Thread:
    major = parse_length(row["size"], units="in").value
    pitch = MM_PER_INCH / float(row["tpi"])
    depth = WHITWORTH_DEPTH * pitch
    series = _series(row["series"])
    with_pitch = table == "threads_model_engineer"
    size = f"{row['size']} x {row['tpi']}" if with_pitch else row["size"]
    return Thread(
        designation=f"{size} {row['series']}",
        series=series,
        size=row["size"],
        form="Whitworth",
        angle=55 * DEGREE,
        major=major,
        pitch=pitch,
        tpi=float(row["tpi"]),
        effective=major - depth,
        depth=depth,
        minor=major - 2 * depth,
        minor_internal=major - 2 * depth,
        across_flats=None if with_pitch else _hexagon(row["size"]),
        table=table,
    )


def _pipe(row: Row) -> Thread:
    pitch = float(row["pitch_mm"])
    return Thread(
        designation=f"{row['size']} BSP",
        series="BSP",
        size=row["size"],
        form="Whitworth",
        angle=55 * DEGREE,
        major=float(row["major_mm"]),
        pitch=pitch,
        tpi=float(row["tpi"]),
        effective=float(row["pitch_dia_mm"]),
        depth=WHITWORTH_DEPTH * pitch,
        minor=float(row["minor_mm"]),
        minor_internal=float(row["minor_mm"]),
        table="threads_bsp",
    )


def _cycle(row: Row) -> Thread:
    major = parse_length(row["size"], units="in").value
    pitch = MM_PER_INCH / float(row["tpi"])
    depth = CYCLE_DEPTH * pitch
    return Thread(
        designation=f"{row['size']} x {row['tpi']} BSC",
        series="BSC",
        size=row["size"],
        form="60°",
        angle=60 * DEGREE,
        major=major,
        pitch=pitch,
        tpi=float(row["tpi"]),
        effective=major - depth,
        depth=depth,
        minor=major - 2 * depth,
        minor_internal=major - 2 * depth,
        table="threads_cycle",
    )


def _metric(row: Row) -> Thread:
    coarse = row["series"] == "coarse"
    pitch = float(row["P"])
    return Thread(
        designation=f"M{row['d']}" if coarse else f"M{row['d']} x {row['P']}",
        series="M",
        size=row["d"],
        form="60°",
        angle=60 * DEGREE,
        major=float(row["d"]),
        pitch=pitch,
        effective=float(row["d2"]),
        depth=0.75 * SIXTY_HEIGHT * pitch,
        minor=float(row["d3"]),
        minor_internal=float(row["d1"]),
        minor_limits=_pair(row, "int_D1_min", "int_D1_max"),
        screw_major=_pair(row, "ext_d_min", "ext_d_max"),
        screw_effective=_pair(row, "ext_d2_min", "ext_d2_max"),
        table="threads_metric",
    )


def _unified(row: Row) -> Thread:
    size, tpi = row["size"], row["tpi"]
    pitch = MM_PER_INCH / float(tpi)
    major = float(row["major_in"]) * MM_PER_INCH
    height = SIXTY_HEIGHT * pitch
    return Thread(
        designation=f"{size.removeprefix('#')}-{tpi} {row['series']}",
        series=_series(row["series"]),
        size=size,
        form="60°",
        angle=60 * DEGREE,
        major=major,
        pitch=pitch,
        tpi=float(tpi),
        effective=major - 0.75 * height,
        depth=0.75 * height,
        minor=major - 17 / 12 * height,
        minor_internal=major - 1.25 * height,
        minor_limits=_pair(row, "D1_min_2B", "D1_max_2B", scale=MM_PER_INCH),
        screw_major=_pair(row, "d_min_2A", "d_max_2A", scale=MM_PER_INCH),
        screw_effective=_pair(row, "d2_min_2A", "d2_max_2A", scale=MM_PER_INCH),
        table="threads_unified",
    )


def _pair(
    row: Row, least: str, most: str, *, scale: float = 1.0
) -> tuple[Millimetre, Millimetre] | None:
    low, high = number(row[least]), number(row[most])
    return None if low is None or high is None else (low * scale, high * scale)


def _series(text: str) -> ThreadSeries:
    known: dict[str, ThreadSeries] = {
        "BSW": "BSW",
        "BSF": "BSF",
        "BSB": "BSB",
        "ME": "ME",
        "UNC": "UNC",
        "UNF": "UNF",
        "UNEF": "UNEF",
    }
    return known[text]


def _hexagon(size: str) -> Millimetre | None:
    for row in rows("hexagons"):
        if row["size"] == size:
            return float(row["af_max"]) * MM_PER_INCH
    return None
