"""What to measure: the size to aim at, its limits, the drawing's own text, and with what."""

from __future__ import annotations

import re
from typing import Final

from halfthou.drawing.model import Band, Part
from halfthou.planning.worked import CoarseCheck, Measure, Step
from halfthou.present.card_view import MeasureView
from halfthou.present.numbers import Units, aim, doubt, fixed, limits, one_of, plain, sentence

_BEFORE: Final[dict[str, str]] = {
    "diameter": "Ø",
    "bore": "Ø",
}
_AFTER: Final[dict[str, str]] = {"length": " long", "depth": " deep", "width": " wide"}
_ACROSS: Final = " across"
"""What an outside size of a block is called: it has no length of its own."""
_REST: Final = re.compile(
    r"\s+(?:through|bored|reamed|drilled|to |beyond |clear |x ).*$|\s+x\s.*$|\s+through$"
)
_SIZE: Final = re.compile(r"[ØR(]?\s*[\d.]|M\d")
_UNIT: Final = re.compile(r"mm|in\b|[\"″]")
_FIRST: Final = re.compile(r"^[Ø]?(?:\d+[ -])?[\d./]*\d")
_LEVEL: Final = 1e-6
_WIDE_OPEN: Final = 1e6


def measures_of(step: Step, part: Part, units: Units) -> tuple[MeasureView, ...]:
    """Say every size of a step; one without a gauge where the step has only an aim."""
    if step.measures:
        return tuple(measure_words(one, step, part, units) for one in step.measures)
    if step.aim is None or step.band is None:
        return ()
    band = step.band
    return (
        MeasureView(
            aim=aim(step.aim, band.low, band.high, units),
            limits=limits(band.low, band.high, units),
            drawn=drawn_words(band, part, units),
            gauge="",
        ),
    )


def measure_words(measure: Measure, step: Step, part: Part, units: Units) -> MeasureView:
    """Say one size: ``Ø19.02``, ``19.009 to 19.030``, ``3/4 f7``, ``micrometer 0-25``."""
    gauge = _gauge(measure, units)
    band = measure.band
    if measure.kind == "thread":
        threads = [op.thread.designation for op in step.operations if op.thread is not None]
        return MeasureView(
            aim=threads[0] if threads else "thread", limits="", drawn="", gauge=gauge
        )
    if measure.kind == "run-out":
        most = fixed(measure.high, units)
        return MeasureView(aim=f"run-out {most} or less", limits="", drawn="", gauge=gauge)
    if "plug" in measure.gauge and band is not None:
        return MeasureView(
            aim=_called(measure, band, part), limits=_plug(measure, units), drawn="", gauge=gauge
        )
    if abs(measure.aim) < _LEVEL and measure.low < 0 < measure.high:
        within = limits(0.0, measure.high, units).partition("–")[2]
        return MeasureView(aim="level", limits=f"within {within}", drawn="", gauge=gauge)
    stated = measure.high - measure.low < _WIDE_OPEN and measure.high > measure.low
    about = "" if stated else "about "
    wanted = (
        aim(measure.aim, measure.low, measure.high, units) if stated else fixed(measure.aim, units)
    )
    return MeasureView(
        aim=about + _BEFORE.get(measure.kind, "") + wanted + _after(measure, part),
        limits=limits(measure.low, measure.high, units) if stated else "",
        drawn=drawn_words(band, part, units) if band else "",
        gauge=gauge,
    )


def drawn_words(band: Band, part: Part, units: Units) -> str:
    """Give the drawing's own text, where it says more than the limits beside it do."""
    text = size_text(band.text)
    if part.units == "in" and units != "in" and not _UNIT.search(text):
        text = _FIRST.sub(r"\g<0> in", text, count=1)
    if not _SIZE.match(text) or text in (plain(band.nominal, units), fixed(band.nominal, units)):
        return ""
    return text


def size_text(text: str) -> str:
    """Give the size alone out of what the drawing writes of a hole.

    >>> size_text("16 H7 through"), size_text("40 bored x 4"), size_text("3/4 f7")
    ('16 H7', '40', '3/4 f7')
    """
    return _REST.sub("", text).strip()


def _called(measure: Measure, band: Band, part: Part) -> str:
    text = size_text(band.text)
    return _BEFORE.get(measure.kind, "") + text + _after(measure, part)


def _after(measure: Measure, part: Part) -> str:
    if measure.kind == "length" and not part.turned and measure.surface != "blank":
        return _ACROSS
    return _AFTER.get(measure.kind, "")


def _plug(measure: Measure, units: Units) -> str:
    low, high = limits(measure.low, measure.high, units).split("–", 1)
    return f"{low} goes, {high} does not"


def _gauge(measure: Measure, units: Units) -> str:
    if not measure.gauge:
        return "no gauge here"
    if measure.to_make:
        return f"{measure.gauge} (make it first)"
    name = measure.gauge
    if measure.kind == "thread" or measure.doubt <= 0:
        return name
    coarse = ": too coarse" if measure.band is not None and not measure.decides else ""
    return f"{name} {doubt(measure.doubt, one_of(units))}{coarse}"


_NO_WAY_BACK: Final = frozenset({"saw", "ream", "tap", "part off", "thread"})


def check_head(step: Step) -> str:
    """Say when to look twice: before a step, or in it before its last cut."""
    if step.check is None:
        return ""
    before = any(op.verb in _NO_WAY_BACK for op in step.operations)
    return f"Look twice {'before' if before else 'in'} step {step.number}."


def check_words(check: CoarseCheck | None, units: Units) -> str:
    """Say what to look at once more, by other means, before a cut that cannot be undone."""
    if check is None:
        return ""
    expected = f"expect {plain(check.expect, units)}, within {plain(check.within, one_of(units))}"
    return sentence(f"{check.what}, by {check.means}: {expected}") + " If not, stop."
