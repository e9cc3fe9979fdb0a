"""What to measure: the size to aim at, its limits, the drawing's own text, and with what."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from halfthou.drawing.model import Band, Distance, Part
from halfthou.planning.worked import CoarseCheck, Measure, Step, WorkedSetUp
from halfthou.planning.working import words
from halfthou.present.card_view import MeasureView
from halfthou.present.numbers import (
    Units,
    aim,
    by_eye,
    doubt,
    fixed,
    limits,
    one_of,
    plain,
    sentence,
)
from halfthou.present.words_surfaces import shop_name, surface_words
from halfthou.units import Millimetre

_BEFORE: Final[dict[str, str]] = {
    "diameter": "Ø",
    "bore": "Ø",
}
_REST: Final = re.compile(
    r"\s+(?:through|bored|reamed|drilled|to |beyond |clear |x ).*$|\s+x\s.*$|\s+through$"
)
_SIZE: Final = re.compile(r"[ØR(]?\s*[\d.]|M\d")
_UNIT: Final = re.compile(r"mm|in\b|[\"″]")
_FIRST: Final = re.compile(r"^[Ø]?(?:\d+[ -])?[\d./]*\d")
_HARDLY_LESS: Final = 0.8
"""Share of the limits from which drawing them in by the doubt is not worth a line."""
_LEVEL: Final = 1e-6
_WIDE_OPEN: Final = 1e6


def measures_of(step: Step, part: Part, units: Units) -> tuple[MeasureView, ...]:
    """Say every size of a step; one without a gauge where the step has only an aim."""
    found = tuple(measure_words(one, step, part, units) for one in step.measures)
    spots = [op.cut_size for op in step.operations if op.verb == "spot" and op.cut_size > 0]
    if spots:
        mouth = f"about Ø{plain(spots[0], units, places=1)} at the mouth"
        return (MeasureView(aim=mouth, limits="", drawn="", gauge="by eye"), *found)
    if found:
        return found
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
    """Say one size: ``Ø19.02``, ``19.009–19.030``, ``3/4 f7``, ``micrometer 0-25``."""
    view = _size(measure, step, part, units)
    ticks = view.ticks or (("goes",) if measure.tick else ())
    return replace(view, when=_when(measure, step), ticks=ticks)


_WHEN: Final = {
    "now": "",
    "before gripping": "before gripping",
    "out of the holding": "when it is out",
}


_LIFTED_OUT: Final = (words.LIFT_OUT, words.LIFT_OUT_NUT)
"""What a step says whose work is lifted out of the centres, and goes back as it was."""


def _when(measure: Measure, step: Step) -> str:
    said = _WHEN[measure.when]
    if said == _WHEN["out of the holding"] and any(one in step.remarks for one in _LIFTED_OUT):
        said = "out of the centres"
    return ", ".join(filter(None, (measure.where, said)))


def _size(measure: Measure, step: Step, part: Part, units: Units) -> MeasureView:
    gauge = _gauge(measure, units)
    band = measure.band
    if measure.kind == "thread":
        return _thread(measure, step, part)
    if measure.kind == "run-out":
        most = fixed(measure.high, units)
        return MeasureView(aim=f"run-out {most} or less", limits="", drawn="", gauge=gauge)
    if "plug" in measure.gauge and band is not None:
        called = _BEFORE.get(measure.kind, "") + size_text(band.text)
        return MeasureView(
            aim=called if measure.kind in _BEFORE else called + _after(measure, part, units),
            limits=_plug(measure, units), drawn="", gauge=gauge, ticks=("goes", "does not"),
        )  # fmt: skip
    if abs(measure.aim) < _LEVEL and measure.low < 0 < measure.high:
        within = limits(0.0, measure.high, units).partition("–")[2]
        other = _other(measure, part)
        to = f" with {surface_words(other, part, units)}" if other else ""
        return MeasureView(aim=f"level{to}", limits=f"within {within}", drawn="", gauge=gauge)
    if any(op.verb == "saw" for op in step.operations) and measure.kind == "length":
        return _sawn(measure, gauge, units)
    stated = measure.high - measure.low < _WIDE_OPEN and measure.high > measure.low
    ruled = measure.gauge == _RULE
    about = "" if stated and not ruled else "about "
    wanted = (
        aim(measure.aim, measure.low, measure.high, units)
        if stated and not ruled
        else plain(measure.aim, units, places=1 if ruled and units == "mm" else 2)
    )
    return MeasureView(
        aim=about + _BEFORE.get(measure.kind, "") + wanted + _after(measure, part, units),
        limits=limits(measure.low, measure.high, units) if stated else "",
        drawn=drawn_words(band, part, units) if band else "",
        gauge=gauge,
        good=_good(measure, units),
    )


_RULE: Final = "rule"
"""What reads half millimetres: nothing finer is said of a size it measures."""


def _sawn(measure: Measure, gauge: str, units: Units) -> MeasureView:
    """Say a sawn length one way only, as a rule shows it: between what it may be."""
    low, high = by_eye(measure.low, units, way=1), by_eye(measure.high, units, way=-1)
    wanted = f"{low} to {high}" if measure.high > measure.low else by_eye(measure.aim, units)
    return MeasureView(aim=f"{wanted} long", limits="", drawn="", gauge=gauge.partition(" ±")[0])


def _thread(measure: Measure, step: Step, part: Part) -> MeasureView:
    threads = [op.thread for op in step.operations if op.thread is not None]
    inside = any(
        one.inside and one.kind == "thread" and one.name == measure.surface
        for one in part.surfaces
    )
    name = threads[0].designation if threads else ""
    mate = "screw" if inside else "nut"
    gauge = f"{name} {mate}" if name and _MATE in measure.gauge else measure.gauge
    return MeasureView(aim=name or "thread", limits="", drawn="", gauge=gauge, ticks=("goes",))


_MATE: Final = "nut or screw"


def _good(measure: Measure, units: Units) -> str:
    """Say between which readings the size is surely good, where that is less than its limits."""
    if measure.good is None or not measure.decides:
        return ""
    low, high = measure.good
    kept = (high - low) / (measure.high - measure.low) if measure.high > measure.low else 1.0
    if high < low - _LEVEL or kept > _HARDLY_LESS:
        return ""
    if high - low < _LEVEL:
        return f"sure at {fixed(low, units, places=3)} alone"
    return f"sure at {limits(low, high, units)}"


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


def distance_of(measure: Measure, part: Part) -> Distance | None:
    """Find the drawn distance that a measure is of."""
    if measure.band is None:
        return None
    same = [one for one in part.distances if one.band == measure.band]
    own = [one for one in same if measure.surface in (one.a, one.b)]
    return next(iter(own or same), None)


def _other(measure: Measure, part: Part) -> str:
    """Name the surface at the other end of a distance."""
    distance = distance_of(measure, part)
    if distance is None:
        return ""
    return distance.b if distance.a == measure.surface else distance.a


_DRAWN_AS: Final = re.compile(r"(long|wide|high|thick|deep)\b")


def _after(measure: Measure, part: Part, units: Units) -> str:
    """Say what a length is of: ``long``, ``wide``, ``from the left face``."""
    if measure.kind in _BEFORE:
        return ""
    distance = distance_of(measure, part)
    if distance is None:
        return _of_no_drawn_size(measure, part)
    feature = distance.band.place.rpartition(".")[2].split(" ")[0]
    drawn_as = _DRAWN_AS.match(distance.name.removeprefix(feature).strip())
    if drawn_as:
        return f" {drawn_as[1]}"
    both = {distance.a, distance.b}
    if both == {"left", "right"} and part.turned:
        return " long over all"
    return f" from {surface_words(_other(measure, part), part, units)}"


_PLAIN_WORDS: Final = {"depth": " deep", "width": " wide", "position": ""}


def _of_no_drawn_size(measure: Measure, part: Part) -> str:
    found = next((one for one in part.surfaces if one.name == measure.surface), None)
    if measure.surface.endswith(("far side", "floor")) and measure.kind == "length":
        return " from floor to far side"
    if measure.kind == "depth" and part.turned and found is not None and not found.inside:
        return " from the face"
    if measure.kind != "length":
        return _PLAIN_WORDS.get(measure.kind, "")
    if part.turned:
        return " long over all" if measure.surface in ("left", "right") else " long"
    return {"left": " wide", "right": " wide", "top": " high", "bottom": " high"}.get(
        measure.surface, " thick"
    )


PLUG: Final = "go and no-go plug"
"""A plug made in the shop, its two ends the two limits."""


def plug_limits(measure: Measure, units: Units) -> str:
    """Say the two sizes of a plug: the end that goes in, and the end that must not."""
    low, high = limits(measure.low, measure.high, units).split("–", 1)
    return f"go {low}, no-go {high}"


def _plug(measure: Measure, units: Units) -> str:
    low, high = limits(measure.low, measure.high, units).split("–", 1)
    return f"goes {low}, not {high}"


def plugs_to_make(steps: tuple[Step, ...]) -> tuple[Measure, ...]:
    """Give the sizes of some steps that are tried with a plug still to be made."""
    return tuple(m for step in steps for m in step.measures if m.to_make)


def _gauge(measure: Measure, units: Units) -> str:
    if not measure.gauge:
        return "no gauge here"
    if measure.to_make:
        return f"{PLUG}, made beforehand" if "plug" in measure.gauge else f"{measure.gauge}, made"
    name = measure.gauge
    if measure.kind == "thread" or measure.doubt <= 0:
        return name
    coarse = _COARSE if measure.band is not None and not measure.decides else ""
    return f"{name} {doubt(measure.doubt, one_of(units))}{coarse}"


_COARSE: Final = ": too coarse; three readings alike at the aim"
"""How a size is decided that no gauge in hand can judge."""


_NO_WAY_BACK: Final = frozenset({"saw", "ream", "tap", "part off", "thread"})


def check_head(step: Step) -> str:
    """Say when to look twice: before a step, or in it before its last cut."""
    if step.check is None or before_held(step.check):
        return ""
    before = any(op.verb in _NO_WAY_BACK for op in step.operations)
    return f"Look twice {'before' if before else 'in'} step {step.number}."


def check_words(check: CoarseCheck | None, units: Units) -> str:
    """Say what to look at once more, by other means, before a cut that cannot be undone."""
    if check is None or before_held(check):
        return ""
    return f"{_expected(check, units)} If not, stop."


_GRIPPED_AFTER: Final = " before gripping"
_HELD_AFTER: Final = "the same size as it is now, before it is held"


def before_held(check: CoarseCheck) -> bool:
    """Tell whether something is looked at before the work is held: it is said with the hold."""
    return check.what == _HELD_AFTER or check.what.endswith(_GRIPPED_AFTER)


def length_first_words(worked: WorkedSetUp, units: Units) -> str:
    """Say what size the work must have before it is held; empty where nothing asks."""
    for step in worked.steps:
        check = step.check
        if check is not None and before_held(check):
            called = check.what.removesuffix(_GRIPPED_AFTER)
            what = (
                f"the {shop_name(called)}"
                if called != check.what
                else f"the size of step {step.number} as it is"
            )
            return (
                f"First, before it is gripped, {what} by {check.means}: {_gate(check, units)}; "
                "if not, stop. Write it here: ________."
            )
    return ""


def length_first(worked: WorkedSetUp) -> tuple[Millimetre, Millimetre] | None:
    """Give how much longer the work may be, least and most, than when it is faced."""
    for step in worked.steps:
        check = step.check
        if check is not None and check.what.endswith(_GRIPPED_AFTER) and step.measures:
            aimed = next((m.aim for m in step.measures if m.when == "out of the holding"), None)
            if aimed is not None and check.low is not None and check.high is not None:
                return check.low - aimed, check.high - aimed
    return None


def _expected(check: CoarseCheck, units: Units) -> str:
    """Say what is looked at, by what, and what it should be; a rule is read by its own lines."""
    if check.low is not None or check.high is not None:
        expected = _gate(check, units)
    else:
        within = plain(check.within, one_of(units))
        ruled = check.means == "rule"
        wanted = by_eye(check.expect, units) if ruled else plain(check.expect, units)
        expected = f"expect {'about ' if ruled else ''}{wanted}, within {within}"
    return sentence(f"{check.what}, by {check.means}: {expected}")


def _gate(check: CoarseCheck, units: Units) -> str:
    """Say a gate that is not even-handed: ``24 to 25, never under 24``."""
    if check.low is None:
        return f"never over {plain(check.high or 0.0, units)}"
    if check.high is None:
        return f"never under {plain(check.low, units)}"
    if check.means == "rule" and units != "both":
        return f"{by_eye(check.low, units, way=1)} to {by_eye(check.high, units, way=-1)}"
    return f"{plain(check.low, units)} to {plain(check.high, units)}"
