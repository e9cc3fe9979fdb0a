"""The few words a picture carries, and what stands at each dimension."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

from halfthou.planning.worked import Step, Wanted
from halfthou.present.figures import Display, length
from halfthou.present.picture.label import Label
from halfthou.units import Millimetre

Drawn: TypeAlias = Literal["mm", "in"]

_OWN_UNIT = re.compile(r"\d\s*(?:mm|in|\")")
_THREADED = re.compile(r"\b(?:BA|BSF|BSW|BSC|BSP|ME|UNC|UNF|UN)\b")
_NOTHING = 1e-6
_FIGURE = re.compile(r"[(Ø±M]?\s*\.?\d")
_PROCESS = re.compile(r"\s+(?:bored|reamed|drilled|turned|ground)\b")
_LIMITS = re.compile(
    r"^(?P<size>.*?)\s*(?P<upper>[+−-]\s*[\d.]+)\s*/\s*(?P<lower>[+−-]?\s*[\d.]+)\s*$"
)

_SHOWN_BY_THE_PICTURE = re.compile(
    r"\s+(?:through\b|to\s+\w|beyond\s|deep\b|at\s+(?:left|right|both)"
    r"|[x×]\s*[\d./ ]+(?:\s*(?:mm|in|deep))?\s*(?:$|at|beyond)).*$"
)
_OFF: Final[Millimetre] = 0.05
"""An aim so near the figure drawn is not told beside it."""
_NEAR: Final[Millimetre] = 1.0
"""An aim further than this off the figure drawn is of another size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureWords:
    """What a picture is called, what it shows in words, and what stands beside its zero."""

    title: str
    description: str
    zero: str = "zero"
    units: Display = "mm"


def final_wants(wanted: Iterable[Wanted]) -> tuple[Wanted, ...]:
    """Leave out a passing size where the same surface gets its last size in this set-up."""
    wanted = tuple(want for want in wanted if abs(want.value) > _NOTHING)
    last = {(want.kind, want.surfaces) for want in wanted if not want.temporary and want.surfaces}
    return tuple(
        want for want in wanted if not want.temporary or (want.kind, want.surfaces) not in last
    )


def label_of(want: Wanted, display: Display = "mm", drawn_in: Drawn = "mm") -> Label:
    """Return what stands at a wanted dimension: the drawing's own text where it has one.

    A drawing in other units than the picture gets both: what the dial shows, and as drawn.
    """
    if want.kind == "grip":
        return Label(main=f"{ruled(want.value, display)} gripped", step=want.step, passing=True)
    sign = {"diameter": "Ø", "radius": "R"}.get(want.kind, "")
    if want.band is None or want.temporary or not _carries_a_size(want):
        main = sign + _passing(want.value, display)
        return Label(main=main, step=want.step, passing=want.temporary)
    if want.kind == "thread" or want.band.text[:1].isalpha():
        sign = ""
    drawn = size_label(want.band.text, sign=sign, step=want.step)
    if display == drawn_in or want.kind == "thread" or _OWN_UNIT.search(want.band.text):
        return drawn
    other: Drawn = "mm" if drawn_in == "in" else "in"
    shown = sign + _fine(want.band.nominal, other)
    return replace(drawn, main=f"{shown} ({drawn.main.removeprefix(sign)} {drawn_in})")


def aimed(
    label: Label, want: Wanted, gap: Millimetre, steps: Iterable[Step], display: Display
) -> Label:
    """Show what a step aims at: beside a drawn size it is clear of, and as a wall's place.

    ``gap`` is how far apart the two lie along the way the dimension runs, as drawn. [mm]
    """
    if want.kind == "position":
        wall = bool(want.surfaces) and abs(abs(want.value) - gap) < _NEAR
        return Label(main=length(abs(want.value) if wall else gap, display), step=want.step)
    aims = [
        one.aim
        for step in steps
        if step.number == want.step and want.band is not None
        for one in step.measures
        if one.band == want.band and one.kind == want.kind
    ]
    off = [aim for aim in aims if _OFF < abs(aim - want.value) < _NEAR]
    return replace(label, note=f"aim {length(off[0], display)}") if off else label


def ruled(value: Millimetre, display: Display) -> str:
    """Write a length that a rule sets: half millimetres, or hundredths of an inch."""
    if display == "in":
        return _short(length(value, display, places=2))
    return length(round(2 * value) / 2, display)


def _passing(value: Millimetre, display: Display) -> str:
    """Write a size on the way, no finer than a dial shows it."""
    return _short(length(value, display, places=3)) if display == "in" else length(value, display)


def _short(text: str) -> str:
    return text.rstrip("0").rstrip(".") if "." in text else text


def _fine(value: Millimetre, units: Drawn) -> str:
    """Write a converted size to a micrometre's reading: 22.225 and not 22.22."""
    text = length(value, units, places=3 if units == "mm" else 4)
    return text.rstrip("0").rstrip(".")


def _carries_a_size(want: Wanted) -> bool:
    """Whether the drawing's text is a figure or a thread; ``level with foot`` is neither."""
    return want.kind == "thread" or (want.band is not None and is_figure(want.band.text))


def is_figure(text: str) -> bool:
    """Tell whether the drawing's text is a figure; ``level with foot`` is none.

    >>> is_figure("(30)"), is_figure(".875 k6"), is_figure("bottom: level with foot")
    (True, True, False)
    """
    return bool(_FIGURE.match(text.strip()))


def size_label(text: str, *, sign: str = "", step: int = 0) -> Label:
    """Return a size as the drawing writes it, without what the picture itself shows.

    >>> size_label("20 H7 through", sign="Ø").main, size_label("40 +0.05/-0").upper
    ('Ø20 H7', '+0.05')
    """
    plain = _PROCESS.sub("", _SHOWN_BY_THE_PICTURE.sub("", text.strip())).strip()
    split = _LIMITS.match(plain)
    if split is None:
        return Label(main=_signed(sign, plain), step=step)
    upper, lower = (_limit(split[name]) for name in ("upper", "lower"))
    return Label(main=_signed(sign, split["size"]), upper=upper, lower=lower, step=step)


def _limit(text: str) -> str:
    plain = text.replace("-", "−").replace(" ", "")
    return "0" if not plain.lstrip("+−").strip("0.") else plain


def _signed(sign: str, text: str) -> str:
    plain = not sign or text[:1].isalpha() or text.startswith("Ø") or _THREADED.search(text)
    return text if plain else sign + text
