"""What a cover says of the whole plan: price and proof, what cannot be judged, what is meant."""

from __future__ import annotations

import math
from typing import Final

from halfthou.cutting.metals import metal_of
from halfthou.drawing.model import Part, Requirement
from halfthou.planning.model import Plan, SetUp, Unjudged
from halfthou.planning.worked import Measure, Worked
from halfthou.present.card_view import MadeView, Paragraph, UnjudgedView
from halfthou.present.numbers import (
    THIN,
    Units,
    by_eye,
    capital,
    counted,
    doubt,
    joined,
    length,
    limits,
    minutes,
    one_of,
    plain,
    sentence,
)
from halfthou.present.words_held import by_rule, unit_of
from halfthou.present.words_holding import holding_in_short
from halfthou.present.words_measures import (
    PLUG,
    distance_of,
    plug_limits,
    plugs_to_make,
    size_text,
)
from halfthou.present.words_surfaces import metal_word, shop_name, surface_words
from halfthou.units import Millimetre
from halfthou.workshop.model import Workshop

_DOING: Final[dict[str, str]] = {
    "mill face": "face",
    "mill step": "step",
    "mill slot": "slot",
    "mill pocket": "pocket",
    "mill keyway": "keyway",
    "mill chamfer": "chamfer",
    "turn taper": "taper",
    "spot": "drill",
}


_TIED: Final[dict[str, str]] = {
    "concentric": "concentric with",
    "square": "square to",
    "parallel": "parallel to",
}


def price_words(plan: Plan) -> tuple[str, ...]:
    """Say what the plan costs by the price list, how far that is proved, and what it is not."""
    set_ups = f"{counted(plan.up_to_set_ups)} set-up{'' if plan.up_to_set_ups == 1 else 's'}"
    if plan.proved:
        proof = "Proved: no plan costs less by this price list."
    elif plan.up_to_set_ups >= len(plan.set_ups):
        proof = (
            f"Proved: no plan of up to {set_ups} costs less by this price list. "
            f"A longer one cannot cost less than {_least(plan)}."
        )
    else:
        proof = f"The best found, not proved cheapest: none can cost less than {_least(plan)}."
    price = (
        f"Price {minutes(plan.minutes)}: machine time, holding and changes, "
        "and a charge wherever work is held anew that must run true."
    )
    accuracy = "The price is no promise of accuracy: it does not say how near the sizes will come."
    return price, proof, accuracy


def _least(plan: Plan) -> str:
    """Say what no plan costs less than, rounded down: it is a bound."""
    return minutes(math.floor(plan.bound + _EVEN))


_EVEN: Final = 1e-6


def price_line(plan: Plan) -> str:
    """Say the price in one line that cannot be taken for the time of the work."""
    set_ups = f"{counted(plan.up_to_set_ups)} set-up{'' if plan.up_to_set_ups == 1 else 's'}"
    if plan.proved:
        proof = "no plan is cheaper"
    elif plan.up_to_set_ups >= len(plan.set_ups):
        proof = f"no plan of up to {set_ups} is cheaper"
    else:
        proof = f"the best found, none can be under {_least(plan)}"
    return (
        f"For choosing between plans, not for the clock: this one counts {minutes(plan.minutes)} "
        f"with its risks; {proof}."
    )


def time_words(worked: Worked) -> str:
    """Say how long the work will take, in all and at each place."""
    at: dict[str, float] = {}
    for one in worked.set_ups:
        machine = one.set_up.scheme.machine
        at[machine] = at.get(machine, 0.0) + one.minutes
    total = minutes(sum(at.values()))
    plugs = sum(len(plugs_to_make(one.steps)) for one in worked.set_ups)
    more = f" And {minutes(plugs * PLUG_MINUTES)} for the plug." if plugs else ""
    if len(at) < 2:  # noqa: PLR2004
        return f"About {total}.{more}"
    places = joined(tuple(f"{name} {minutes(some)}" for name, some in at.items()))
    return f"About {total}: {places}.{more}"


def unjudged_words(one: Unjudged, part: Part, units: Units) -> UnjudgedView:
    """Say a size that this workshop has to make and cannot judge, and what would judge it."""
    allowed = limits(one.size.low, one.size.high, units)
    width = length(one.size.width, one_of(units), places=3)
    named = surface_words(one.surface, part, one_of(units))
    return UnjudgedView(
        size=sentence(f"{named}, {size_text(one.size.text)}: {allowed}"),
        why=f"Allowed {width} in all; "
        f"best here is the {one.best_gauge}, good to {doubt(one.doubt, one_of(units))}.",
        remedies=one.remedies,
    )


def meant_words(part: Part, units: Units, set_ups: tuple[SetUp, ...] = ()) -> tuple[str, ...]:
    """Say what the drawing leaves out and the plan takes as meant, and what sees to it."""
    meant = (r for r in part.requirements if r.origin == "taken as meant")
    said = (f"{_meant(one, part, units)}{_seen_to(one, set_ups)}" for one in meant)
    return tuple(dict.fromkeys(map(sentence, said)))


def _seen_to(one: Requirement, set_ups: tuple[SetUp, ...]) -> str:
    """Say what measures it, where it is not made at one setting."""
    made = {
        name: number
        for number, set_up in enumerate(set_ups)
        for op in set_up.operations
        for name in op.makes
    }
    a, b = made.get(one.surface), made.get(one.to)
    if a is None or b is None or a == b:
        return ""
    before = one.surface if a < b else one.to
    true_on = {name for name, _ in set_ups[max(a, b)].scheme.true_on}
    if before in true_on:
        return f": clocked in set-up {max(a, b) + 1}"
    return ": not at one setting, so clock it when all is done"


def _meant(one: Requirement, part: Part, units: Units) -> str:
    if one.kind not in _TIED:
        return one.text
    _, comma, how_far = one.text.partition(",")
    surface, to = (surface_words(name, part, units) for name in (one.surface, one.to))
    return f"{surface} {_TIED[one.kind]} {to}{comma}{how_far}"


def finding_words(part: Part) -> tuple[Paragraph, ...]:
    """Say what the drawing check noticed, the grave first."""
    ranked = sorted(part.findings, key=lambda one: not one.grave)
    return tuple(
        Paragraph(
            head=sentence(one.what),
            body=" ".join(filter(None, (sentence(one.why), _try(one.tries)))),
        )
        for one in ranked
    )


def _try(tries: tuple[str, ...]) -> str:
    return sentence(f"try: {joined(tries, 'or')}") if tries else ""


def way_words(set_up: SetUp) -> str:
    """Say one set-up in a line: held how, and what is done."""
    verbs = [_DOING.get(op.verb, op.verb) for op in set_up.operations]
    done = tuple(dict.fromkeys(verbs))
    return f"{sentence(holding_in_short(set_up.scheme))[:-1]}: {joined(done)}"


def made_words(worked: Worked, part: Part, units: Units) -> tuple[MadeView, ...]:
    """List the sizes with limits of their own, to be written down as they came out."""
    made: dict[str, MadeView] = {}
    for set_up in worked.set_ups:
        for step in set_up.steps:
            for one in step.measures:
                if one.band is not None and one.band.origin == "drawn":
                    name = _size_name(one, part, units)
                    made[name] = MadeView(name=name, limits=limits(one.low, one.high, units))
    return tuple(made.values())


_KIND_WORDS: Final = {"width": "wide", "length": "long", "depth": "deep"}


def _size_name(measure: Measure, part: Part, units: Units) -> str:
    """Name a size by what is measured: ``journal Ø, .750 f7``, ``key long, 1``."""
    found = next((s for s in part.surfaces if s.name == measure.surface), None)
    feature = shop_name(found.feature if found is not None and found.feature else measure.surface)
    text = size_text(measure.band.text) if measure.band is not None else ""
    if measure.kind in ("diameter", "bore", "thread"):
        return f"{feature}, {text}"
    distance = distance_of(measure, part)
    if distance is None and measure.surface.endswith(("far side", "floor")):
        return f"{feature}, floor to far side, {text}"
    if distance is None:
        return f"{feature} {_KIND_WORDS.get(measure.kind, measure.kind)}, {text}"
    a, b = (surface_words(name, part, one_of(units)) for name in (distance.a, distance.b))
    return f"{a.removeprefix('the ')} to {b.removeprefix('the ')}, {text}"


def names_words(part: Part) -> str:
    """Tie the names used on the cards to the sizes of the drawing, in its order."""
    said: dict[str, list[str]] = {}
    for surface in part.surfaces:
        if surface.size is not None and surface.feature:
            sizes = said.setdefault(shop_name(surface.feature), [])
            text = size_text(surface.size.text)
            shown = text if surface.kind != "cylinder" or text.startswith("Ø") else f"Ø{text}"
            if shown not in sizes:
                sizes.append(shown)
    for each in part.distances:
        name = shop_name(each.band.place.partition(".")[2].split(" ")[0])
        text = size_text(each.band.text)
        if not part.turned and name and text[:1].isdigit():
            said.setdefault(name, []).append(text)
    return "; ".join(f"{name} {', '.join(sizes)}" for name, sizes in said.items()) + "."


def saw_words(worked: Worked, part: Part, units: Units) -> str:
    """Say what metal to saw."""
    if part.blank.form == "casting":
        return "The casting as it came; look it over before the first cut."
    text = part.blank.text.strip()
    if part.blank.form.endswith("bar") and " x " in text:
        across, _, long = text.rpartition(" x ")
        text = f"{across} bar, {long} long"
    metal = f"{capital(part.material)}, {text or metal_word(part)}{_skin(part, worked)}"
    sawn = any(op.verb == "saw" for one in worked.set_ups for op in one.set_up.operations)
    if worked.saw <= 0 or (part.blank.form == "plate" and not sawn):
        return " ".join((sentence(metal), *_for_plugs(worked, units)))
    long = f"{_sawn(worked, units)} long{_to_hold_by(worked, part, units)}"
    return " ".join((f"{metal}: saw {long}.", *_for_plugs(worked, units)))


def _to_hold_by(worked: Worked, part: Part, units: Units) -> str:
    """Say why a bar is sawn so much longer than the work, where an end of it is cut off again."""
    ends = ("left", "right")
    off = [
        op.verb
        for one in worked.set_ups
        for op in one.set_up.operations
        if op.verb in {"part off", "saw"} and op.feature in ends and not op.makes
    ]
    faces = [s.point[0] for s in part.surfaces if s.kind == "plane" and s.name in ends]
    if not off or len(faces) < len(ends):
        return ""
    own = plain(max(faces) - min(faces), one_of(units))
    cut = "sawing" if off[0] == "saw" else "parting"
    return f": {own} for the work, the rest for the jaws, the facing and the {cut} off"


_BOUGHT_EITHER_WAY: Final = ("free-cutting steel", "mild steel", "medium carbon steel")
_BLACK_OVER: Final[Millimetre] = 3.0
"""Metal over the finished diameter that clears the skin of black bar (usual practice)."""


def _skin(part: Part, worked: Worked) -> str:
    """Say whether a steel bar is bought bright or black, and what else would do."""
    blank = part.blank
    if metal_of(part.material).group not in _BOUGHT_EITHER_WAY or not blank.form.endswith("bar"):
        return ""
    if any(word in blank.text.lower() for word in ("bright", "black")):
        return ""
    if not blank.bright:
        return ", black"
    widest = max(
        (abs(x) for s in part.surfaces for p in (s.low, s.high) for x in p[1:]), default=0
    )
    over = blank.across - 2 * widest
    ran_on = ("fixed steady", "collet")
    skin_runs = any(
        link.holder.device in ran_on for one in worked.set_ups for link in one.set_up.scheme.links
    )
    if part.turned and over >= _BLACK_OVER and not skin_runs:
        return f", bright or black{_LARGER}"
    return ", bright" if not part.turned or over < _TURNED_DOWN else f", bright{_LARGER}"


_LARGER: Final = " (a larger bar is first turned to this)"
_TURNED_DOWN: Final[Millimetre] = 0.5
"""Less metal than this over the finished diameter is the bar's own skin kept."""
PLUG_MINUTES: Final = 45.0
"""Time to turn and ease a plug of two ends to the micrometer (usual practice)."""


def _for_plugs(worked: Worked, units: Units) -> tuple[str, ...]:
    """Say what plugs are made before their set-up, and of what metal."""
    said = []
    for one in worked.set_ups:
        for made in plugs_to_make(one.steps):
            across = f"{math.ceil(made.high + 0.5)}{THIN}mm"
            shown = plug_limits(made, one_of(units))
            said.append(
                f"Before set-up {one.number} make its {PLUG}, {shown}, each end proved by "
                f"micrometer: silver steel, round {across}, 60{THIN}mm long."
            )
    return tuple(dict.fromkeys(said))


def _sawn(worked: Worked, units: Units) -> str:
    """Say between what lengths the metal is sawn."""
    for one in worked.set_ups:
        for step in one.steps:
            if any(op.verb == "saw" for op in step.operations):
                for measure in step.measures:
                    if measure.high > measure.low:
                        low = by_eye(measure.low, units, way=1)
                        high = by_eye(measure.high, units, way=-1)
                        return f"{low} to {high}{unit_of(units)}"
    return by_rule(worked.saw, units)


def workshop_words(workshop: Workshop) -> str:
    """Say which workshop the numbers are for."""
    if workshop.built_in:
        return (
            "Figures are for a usual small workshop: check speeds, dials and gauges against "
            "yours, or write your own workshop file."
        )
    return f"For {workshop.name}."


def units_words(units: Units, part: Part | None = None) -> str:
    """Say which unit the figures are in, and which the drawing's, if that is another."""
    if units == "both":
        return "Figures in mm, inches in brackets"
    figures = f"Figures in {_UNITS[units]}"
    if part is None or part.units == units:
        return figures
    return f"{figures}; the drawing is in {_UNITS[part.units]}"


_UNITS: Final = {"mm": "mm", "in": "inches"}
