"""Small parts and plans made by hand, for the tests of working out."""

from __future__ import annotations

import math

from halfthou.drawing.geometry import Box, Cylinder, Tube
from halfthou.drawing.model import (
    Band,
    Blank,
    Distance,
    Hole,
    HoleStep,
    Part,
    Ring,
    Round,
    Surface,
)
from halfthou.planning.model import Link, Operation, Plan, Scheme, SetUp
from halfthou.planning.worked import Step, Worked
from halfthou.planning.working.whole import work_out
from halfthou.workshop.default import default_workshop
from halfthou.workshop.model import Workshop

SHOP = default_workshop()
RIGHT = (1.0, 0.0, 0.0)
LEFT = (-1.0, 0.0, 0.0)


def band(nominal: float, low: float, high: float, text: str = "") -> Band:
    return Band(nominal=nominal, low=low, high=high, text=text, origin="drawn", place="x")


def plane(name: str, x: float, direction: tuple[float, float, float], radius: float) -> Surface:
    return Surface(
        name=name,
        feature=name,
        kind="plane",
        inside=False,
        point=(x, 0.0, 0.0),
        direction=direction,
        low=(x, -radius, -radius),
        high=(x, radius, radius),
    )


def wall(name: str, left: float, right: float, size: Band, *, inside: bool = False) -> Surface:
    r = size.nominal / 2
    return Surface(
        name=name,
        feature=name,
        kind="cylinder",
        inside=inside,
        point=(left, 0.0, 0.0),
        direction=RIGHT,
        low=(left, -r, -r),
        high=(right, r, r),
        size=size,
    )


JOURNAL = band(20.0, 19.959, 19.980, "20 f7")
COLLAR = band(24.0, 23.8, 24.2, "24")
BORE = band(8.0, 8.0, 8.015, "8 H7")
RING = Hole(
    name="ring",
    entries=tuple(
        (0.0, 9 * math.cos(n * math.pi / 2), 9 * math.sin(n * math.pi / 2)) for n in range(4)
    ),
    into=RIGHT,
    face="left",
    on_axis=False,
    steps=(
        HoleStep(
            kind="plain",
            diameter=band(3.0, 2.9, 3.1),
            start=0.0,
            end=10.0,
            breaks_out=True,
            point=False,
        ),
    ),
    ring=Ring(count=4, diameter=18.0, centre=(0.0, 0.0, 0.0), first=0.0),
)
SHAFT = Part(
    name="shaft",
    material="EN8",
    units="mm",
    otherwise="ISO 2768-mK",
    blank=Blank(form="round bar", text="round 25", across=25.0, size=(42.0, 25.0, 25.0)),
    features=(
        Round(name="collar", left=0.0, right=10.0, diameter=COLLAR),
        Round(name="journal", left=10.0, right=40.0, diameter=JOURNAL),
        Hole(
            name="bore",
            entries=((40.0, 0.0, 0.0),),
            into=LEFT,
            face="right",
            on_axis=True,
            steps=(
                HoleStep(
                    kind="plain", diameter=BORE, start=0.0, end=20.0, breaks_out=False, point=True
                ),
            ),
        ),
        RING,
    ),
    surfaces=(
        plane("left", 0.0, LEFT, 12.0),
        plane("right", 40.0, RIGHT, 10.0),
        plane("collar right", 10.0, RIGHT, 12.0),
        wall("collar", 0.0, 10.0, COLLAR),
        wall("journal", 10.0, 40.0, JOURNAL),
        wall("bore", 20.0, 40.0, BORE, inside=True),
    ),
    distances=(
        Distance(
            name="journal long",
            a="collar right",
            b="right",
            direction=RIGHT,
            band=band(30.0, 29.9, 30.1, "30 ±0.1"),
        ),
    ),
    requirements=(),
    metal=(Cylinder(start=(0.0, 0.0, 0.0), end=(40.0, 0.0, 0.0), diameter=24.0),),
    removed=(),
)


def operation(key: str, verb: str, stage: str = "only", **rest: object) -> Operation:
    told: dict[str, object] = {
        "key": key,
        "verb": verb,
        "stage": stage,
        "feature": "journal",
        "machine": "lathe",
        "makes": (),
        "region": (),
        "approach": (RIGHT,),
        "tools": ("knife tool",),
        "minutes": 5.0,
    } | rest
    return Operation(**told)  # type: ignore[arg-type]


FACE = operation(
    "face right", "face", feature="right", makes=("right",), starts=40.0, ends=42.0, from_size=1.0
)
ROUGH = operation(
    "rough",
    "turn",
    "rough",
    starts=10.0,
    ends=43.0,
    from_size=25.0,
    cut_size=20.48,
    region=(Tube(start=(10, 0, 0), end=(43, 0, 0), inside=20.48, outside=29),),
)
FINISH = operation(
    "finish",
    "turn",
    "finish",
    starts=10.0,
    ends=43.0,
    from_size=20.48,
    cut_size=19.97,
    size=JOURNAL,
    makes=("journal", "collar right"),
)


def chucked(*operations: Operation, **rest: object) -> SetUp:
    holder = next(d for d in SHOP.holding if d.device == "three-jaw chuck")
    told: dict[str, object] = {
        "key": "three-jaw",
        "machine": "lathe",
        "links": (Link(holder=holder),),
        "faces": RIGHT,
        "across": (0.0, 1.0, 0.0),
        "grips": ("stock outside",),
        "seats": (),
        "grip_low": -20.0,
        "grip_high": 0.0,
        "grip_size": 25.0,
        "inside": False,
        "centre": False,
        "stick_out": 41.0,
        "true_on": (),
        "error": 0.1,
        "minutes": 5.0,
        "can": frozenset(),
        "need": (),
        "ban": (),
    } | rest
    return SetUp(scheme=Scheme(**told), operations=operations)  # type: ignore[arg-type]


def on_the_mill(*operations: Operation, device: str = "vice", **rest: object) -> SetUp:
    holder = next(d for d in SHOP.holding if d.device == device)
    base: dict[str, object] = {
        "key": device,
        "machine": "mill",
        "links": (Link(holder=holder),),
        "faces": LEFT,
        "across": (0.0, 1.0, 0.0),
        "grips": ("collar",),
        "seats": ("right",),
        "true_on": (("collar", 0.02),),
    }
    return chucked(*operations, **(base | rest))


def worked(*set_ups: SetUp, part: Part = SHAFT, shop: Workshop = SHOP) -> Worked:
    plan = Plan(
        set_ups=set_ups,
        blank_size=(42.0, 25.0, 25.0),
        minutes=60.0,
        bound=60.0,
        proved=True,
        up_to_set_ups=3,
    )
    return work_out(plan, part, shop)


def only_step(*set_ups: SetUp, part: Part = SHAFT, shop: Workshop = SHOP) -> Step:
    return worked(*set_ups, part=part, shop=shop).set_ups[-1].steps[-1]


PLATE = Part(
    name="plate",
    material="aluminium 6082",
    units="mm",
    otherwise="ISO 2768-mK",
    blank=Blank(form="plate", text="plate", across=0.0, size=(60.0, 40.0, 12.0)),
    features=(
        Hole(
            name="tapped",
            entries=((15.0, 10.0, 10.0),),
            into=(0.0, 0.0, -1.0),
            face="front",
            on_axis=False,
            steps=(),
        ),
    ),
    surfaces=tuple(
        Surface(
            name=name,
            feature=name,
            kind="plane",
            inside=False,
            point=point,
            direction=out,
            low=(0.0, 0.0, 0.0),
            high=(60.0, 40.0, 10.0),
        )
        for name, point, out in (
            ("left", (0.0, 0.0, 0.0), LEFT),
            ("right", (60.0, 0.0, 0.0), RIGHT),
            ("bottom", (0.0, 0.0, 0.0), (0.0, -1.0, 0.0)),
            ("top", (0.0, 40.0, 0.0), (0.0, 1.0, 0.0)),
            ("back", (0.0, 0.0, 0.0), (0.0, 0.0, -1.0)),
            ("front", (0.0, 0.0, 10.0), (0.0, 0.0, 1.0)),
        )
    ),
    distances=(),
    requirements=(),
    metal=(Box(low=(0.0, 0.0, 0.0), high=(60.0, 40.0, 10.0)),),
    removed=(),
)
UP = (0.0, 0.0, 1.0)
