"""What a cover says of the whole plan: price and proof, what cannot be judged, what is meant."""

from __future__ import annotations

from typing import Final

from halfthou.drawing.model import Part, Requirement
from halfthou.planning.model import Plan, SetUp, Unjudged
from halfthou.planning.worked import Worked
from halfthou.present.card_view import MadeView, Paragraph, ServesView, UnjudgedView
from halfthou.present.numbers import (
    Units,
    capital,
    counted,
    doubt,
    joined,
    length,
    limits,
    minutes,
    one_of,
    sentence,
)
from halfthou.present.words_holding import holding_in_short
from halfthou.present.words_measures import size_text
from halfthou.present.words_surfaces import metal_word, surface_words
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
            "Longer ones were not looked at."
        )
    else:
        proof = (
            f"The best found, not proved cheapest: none can cost less than {minutes(plan.bound)}."
        )
    price = (
        f"Price {minutes(plan.minutes)}: machine time, holding and changes, "
        "and a charge wherever work is held anew that must run true."
    )
    accuracy = (
        "The price is no promise of accuracy: how near the sizes will come is forecast separately."
    )
    return price, proof, accuracy


def time_words(worked: Worked) -> str:
    """Say how long the work itself will take."""
    return f"About {minutes(sum(one.minutes for one in worked.set_ups))} at the machines."


def unjudged_words(one: Unjudged, part: Part, units: Units) -> UnjudgedView:
    """Say a size that this workshop has to make and cannot judge, and what would judge it."""
    allowed = limits(one.size.low, one.size.high, units)
    width = length(one.size.width, one_of(units), places=3)
    named = surface_words(one.surface, part, one_of(units))
    return UnjudgedView(
        size=sentence(f"{named}, {size_text(one.size.text)}: {allowed}"),
        why=f"Allowed {width} in all; "
        f"best here is the {one.best_gauge}, good to {doubt(one.doubt, one_of(units))}.",
        remedies=tuple(one.remedies),
    )


def meant_words(part: Part, units: Units) -> tuple[str, ...]:
    """Say what the drawing leaves out and the plan takes as meant."""
    meant = (r for r in part.requirements if r.origin == "taken as meant")
    return tuple(dict.fromkeys(sentence(_meant(one, part, units)) for one in meant))


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


def serves_words(things: tuple[tuple[str, tuple[int, ...]], ...]) -> tuple[ServesView, ...]:
    """List things to lay out with the set-ups they serve."""
    return tuple(
        ServesView(name=name, set_ups=", ".join(map(str, numbers))) for name, numbers in things
    )


def made_words(worked: Worked, part: Part, units: Units) -> tuple[MadeView, ...]:
    """List the sizes with limits of their own, to be written down as they came out."""
    made: dict[str, MadeView] = {}
    for set_up in worked.set_ups:
        for step in set_up.steps:
            for one in step.measures:
                if one.band is not None and one.band.origin == "drawn":
                    name = f"{_size_name(one.surface, one.kind, part)}, {size_text(one.band.text)}"
                    allowed = limits(one.low, one.high, units)
                    made[name] = MadeView(name=name, limits=allowed)
    return tuple(made.values())


def _size_name(surface: str, kind: str, part: Part) -> str:
    found = next((s for s in part.surfaces if s.name == surface), None)
    name = found.feature if found is not None and found.feature else surface
    kinds = ("length", "depth", "width") if part.turned else ("depth", "width")
    return f"{name} {kind}" if kind in kinds else name


def saw_words(worked: Worked, part: Part, units: Units) -> str:
    """Say what metal to saw."""
    if part.blank.form == "casting":
        return "The casting as it came; look it over before the first cut."
    text = part.blank.text.strip()
    if worked.saw <= 0:
        return sentence(text)
    metal = f"{capital(part.material)}, {text or metal_word(part)}"
    return f"{metal}: saw {length(worked.saw, units)} long."


def workshop_words(workshop: Workshop) -> str:
    """Say which workshop the numbers are for."""
    if workshop.built_in:
        return (
            "For the default workshop built into halfthou, usual practice and nobody's own: "
            "check speeds, dials and gauges against yours, or write your own workshop file."
        )
    return f"For {workshop.name}."


def units_words(units: Units) -> str:
    """Say which unit the figures are in."""
    if units == "both":
        return "Sizes in mm, inches in brackets"
    return "Sizes in mm" if units == "mm" else "Sizes in inches"
