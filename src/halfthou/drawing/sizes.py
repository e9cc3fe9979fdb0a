"""Sizes of the drawing with their limits: their own tolerance, else the general one."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from halfthou.drawing.model import Band
from halfthou.drawing.written import Written, WrittenTable
from halfthou.errors import HalfthouError, InputFault
from halfthou.handbook.general_tolerance import GeneralRule, general_edge, parse_otherwise
from halfthou.handbook.size_limits import size_limits
from halfthou.handbook.tapping import clearance_diameter, tapping_diameter
from halfthou.handbook.threads import Thread, thread
from halfthou.quantities import (
    HoleStep,
    Length,
    Size,
    decimal_length,
    parse_hole_step,
    parse_length,
    parse_size,
    parse_thread,
)
from halfthou.units import MM_PER_INCH, Millimetre

ROUGH_SHARE: Final = 0.01
"""Half width taken, as a share, where neither the size nor the drawing gives a tolerance."""
_LEAST_HALF: Final = 0.1
_THREAD_CREST: Final = 0.1
_FRACTION_PLACES: Final = 3


def general_rule(written: Written) -> GeneralRule:
    """Return the drawing's rule for sizes that give no tolerance."""
    return parse_otherwise(written.part.text("otherwise"), units=written.units)


def band_of(
    size: Size, *, rule: GeneralRule, place: str, inside: bool = False, text: str = ""
) -> Band:
    """Limits of a size: its own, else the rule's, else one in a hundred and at least 0.1 mm."""
    nominal = size.nominal.value
    found = size_limits(size, otherwise=rule, inside=inside)
    half = max(_LEAST_HALF, ROUGH_SHARE * nominal)
    return Band(
        nominal=nominal,
        low=found.lower if found else nominal - half,
        high=found.upper if found else nominal + half,
        text=text or size.text,
        origin="drawn" if size.tolerance is not None else "general",
        place=place,
        decimals=size.nominal.places if size.nominal.form == "decimal" else _FRACTION_PLACES,
    )


def band_from(
    nominal: Millimetre, *, rule: GeneralRule, place: str, text: str, written: Written
) -> Band:
    """Limits of a size that no figure states, such as one that follows from 'centred'."""
    places = 3 if written.units == "in" else 1
    length = decimal_length(nominal, unit=written.units, places=places)
    return band_of(Size(text=text, nominal=length), rule=rule, place=place, text=text)


def edge_band(length: Length, *, rule: GeneralRule, place: str, text: str) -> Band:
    """Limits of a chamfer or corner."""
    half = general_edge(rule, length.value) or max(_LEAST_HALF, length.value / 4)
    return Band(
        nominal=length.value,
        low=max(0.0, length.value - half),
        high=length.value + half,
        text=text,
        origin="general",
        place=place,
        decimals=length.places,
    )


def named_thread(text: str) -> Thread:
    """Thread from the handbook by the name on the drawing."""
    return thread(parse_thread(text))


def outside_thread_band(found: Thread, *, place: str) -> Band:
    """Outside diameter of a screw: full size to a tenth of a pitch under."""
    return Band(
        nominal=found.major,
        low=found.major - _THREAD_CREST * found.pitch,
        high=found.major,
        text=found.designation,
        origin="general",
        place=place,
        decimals=2,
    )


def step_band(step: HoleStep, *, rule: GeneralRule, place: str) -> Band:
    """Diameter of one step of a hole: as written, or what its thread needs."""
    if step.diameter is not None:
        return band_of(step.diameter, rule=rule, place=place, inside=True, text=step.text)
    if step.thread is None:
        raise InputFault(f"'{step.text}' has no diameter")
    found = thread(step.thread)
    if step.clear:
        nominal = clearance_diameter(found)
        low, high = found.major, nominal + max(0.1, 0.05 * nominal)
    else:
        nominal = tapping_diameter(found)
        least, most = found.minor_limits or (
            nominal - 0.05 * found.pitch,
            nominal + 0.15 * found.pitch,
        )
        low, high = min(least, nominal), max(most, nominal)
    return Band(nominal=nominal, low=low, high=high, text=step.text, origin="general", place=place)


def steps_of(written: Written, table: WrittenTable) -> tuple[HoleStep, ...]:
    """Read the steps of a hole, entry first."""
    return tuple(parse_hole_step(text, units=written.units) for text in table.texts("size"))


def first_diameter(written: Written, table: WrittenTable) -> Millimetre:
    """Diameter of a hole at its entry [mm]."""
    step = steps_of(written, table)[0]
    return step_band(step, rule=general_rule(written), place=table.place).nominal


@dataclass(frozen=True, slots=True, kw_only=True)
class Taper:
    """A taper on diameter: so much in so much."""

    text: str
    rate: float


_TAPER: Final = re.compile(r"(?:(.+?)\s+in\s+(.+)|(.+?)\s+per\s+(?:ft|foot))")


def parse_taper(text: str) -> Taper:
    """Read ``1 in 12`` (on diameter) or ``3/8 per foot``.

    >>> parse_taper("1 in 12").rate * 12
    1.0
    """
    found = _TAPER.fullmatch(text.strip())
    if found is None:
        raise InputFault(
            f"'{text}' cannot be read as a taper", tries=("write it like 1 in 12, on diameter",)
        )
    if found[3]:
        rise, run = parse_length(found[3], units="in").value, 12 * MM_PER_INCH
    else:
        rise, run = (
            parse_length(found[1], units="in").value,
            parse_length(found[2], units="in").value,
        )
    if not run or not rise:
        raise InputFault(f"'{text}' is no taper", why="one of its two figures is nothing")
    return Taper(text=text, rate=rise / run)


def written_diameters(written: Written, table: WrittenTable) -> tuple[Size, ...]:
    """Diameters written in a round: none under a thread, one, or two for a taper."""
    text = table.text("diameter")
    if not text:
        return ()
    return tuple(parse_size(part, units=written.units) for part in text.split(" to "))


def round_diameters(written: Written, table: WrittenTable) -> tuple[Millimetre, Millimetre]:
    """Diameter of a round at its left and at its right end [mm].

    Raises
    ------
    InputFault
        If it has neither a diameter nor a thread, or both ask for different metal.
    """
    sizes = written_diameters(written, table)
    if len(sizes) == 2:  # noqa: PLR2004
        return sizes[0].nominal.value, sizes[1].nominal.value
    if sizes and table.has("taper"):
        return sizes[0].nominal.value, _tapered(written, table, sizes[0].nominal.value)
    if sizes:
        return sizes[0].nominal.value, sizes[0].nominal.value
    if table.has("thread"):
        major = named_thread(table.text("thread")).major
        return major, major
    raise InputFault(
        f"{table.name} has no diameter",
        why="a round is metal of some diameter, or a thread that gives one",
        tries=('write diameter = "20"', 'write thread = "1/2 BSF"'),
    )


def largest_diameter(written: Written, table: WrittenTable) -> Millimetre:
    """Outside diameter of a round, boss or ring, the larger of a taper's two [mm]."""
    if table.kind == "round":
        return max(round_diameters(written, table))
    return parse_size(table.text("diameter"), units=written.units).nominal.value


def _tapered(written: Written, table: WrittenTable, left: Millimetre) -> Millimetre:
    if not table.has("long"):
        raise InputFault(
            f"{table.name} has one diameter and a taper, and no length",
            why="three of the four make a taper: two diameters, the length, the taper",
            tries=("give it long", "give both diameters: .750 to .625"),
        )
    length = parse_size(table.text("long"), units=written.units).nominal.value
    right = left - parse_taper(table.text("taper")).rate * length
    if right <= 0:
        raise InputFault(
            f"{table.name} tapers away to nothing before its right end",
            tries=("check the taper", "check the length"),
        )
    return right


def counted(number: int, what: str) -> str:
    """Return ``1 fault``, ``2 faults``."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def as_fault(error: HalfthouError, *, where: str) -> InputFault:
    """Put any error raised on a text of the file at its place in the file."""
    return InputFault(error.what, where=error.where or where, why=error.why, tries=error.tries)
