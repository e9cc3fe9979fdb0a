"""What stands on a sheet: strings formatted, pictures drawn. Renderers only place them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictures:
    """The pictures of one part as SVG: as drawn, the way through, and each set-up."""

    part: str
    way: tuple[str, ...]
    set_ups: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """A heading word and what it says."""

    head: str
    body: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureView:
    """One size to reach: what to aim at, what is allowed, as drawn, and measured with what."""

    aim: str
    limits: str
    drawn: str
    gauge: str
    good: str = ""
    """The readings at which it is surely good."""
    when: str = ""
    """When or where to measure, if not here and now."""
    ticks: tuple[str, ...] = ()
    """What to tick where there is no figure to write."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveView:
    """A slide and which way it goes, and what its dial says."""

    slide: str
    settings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """One thing to do or mind; its letter tells its place in the order, if it has one."""

    letter: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RungView:
    """One setting of the slide and what it leaves; ``boxes`` are what to write in there.

    ``look`` is looked at before this cut.
    """

    cuts: str
    dial: str
    leaves: str
    boxes: tuple[str, ...] = ()
    look: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderView:
    """The cuts of a step in order: what each is set to and what it leaves."""

    letter: str
    heads: tuple[str, str, str]
    rungs: tuple[RungView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One row of the table of steps, in the order of the hands.

    ``check`` is looked at before it, ``warn`` stands by it; then the lines ``before`` the cuts,
    the ``ladder`` of cuts, the lines ``after`` they have begun, and what is measured.
    """

    number: str
    doing: str
    before: tuple[LineView, ...]
    ladder: LadderView | None
    after: tuple[LineView, ...]
    tool: str
    tool_more: tuple[str, ...]
    speed: str
    feed: tuple[str, ...]
    dial: tuple[MoveView, ...]
    measures: tuple[MeasureView, ...]
    check_head: str
    check: str
    warn: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacesView:
    """A table of hole places from the zero of the set-up, for the steps it serves."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    steps: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StripView:
    """One small picture of the way through; ``words`` say it in a line."""

    svg: str
    number: str
    words: str
    now: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUpView:
    """One job card."""

    part: str
    title: str
    at_the_bench: bool
    strip: tuple[StripView, ...]
    picture: str
    paragraphs: tuple[Paragraph, ...]
    cautions: tuple[str, ...]
    dials: str
    """What the column of dials is headed with."""
    steps: tuple[StepView, ...]
    places: tuple[PlacesView, ...]
    closing: tuple[Paragraph, ...]
    rest: str
    again: str
    """What a second sheet of the card repeats: the holding in short, a turn of each dial."""
    foot: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnjudgedView:
    """A size this workshop makes and cannot judge, and what would."""

    size: str
    why: str
    remedies: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ServesView:
    """A thing to lay out and the set-ups that want it."""

    name: str
    set_ups: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeView:
    """A size that matters, to be written down as it came out."""

    name: str
    limits: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverView:
    """The cover sheet of one part."""

    part: str
    subtitle: str
    picture: str
    facts: tuple[Paragraph, ...]
    way: tuple[StripView, ...]
    holding: tuple[ServesView, ...]
    tools: tuple[ServesView, ...]
    gauges: tuple[ServesView, ...]
    findings: tuple[Paragraph, ...]
    unjudged: tuple[UnjudgedView, ...]
    meant: tuple[str, ...]
    made: tuple[MadeView, ...]
    price: str
    rules_off: tuple[str, ...]
    workshop: str
    sources: tuple[str, ...]
    foot: tuple[str, ...]
