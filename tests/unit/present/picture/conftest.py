"""Small jobs of the turret clock, worked by hand, for the pictures to draw."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any, Final

import pytest

from halfthou.drawing.geometry import Box, Cylinder, Region, TaperTube, Tube
from halfthou.drawing.model import Band, Blank, Part, Surface
from halfthou.planning.model import Link, Operation, Scheme, SetUp, Verb
from halfthou.planning.worked import Place, Step, Wanted, WorkedSetUp, Zero
from halfthou.shapes.solids import Solid, cut, solid_of
from halfthou.units import Vec3
from halfthou.workshop.model import HoldingDevice

RIGHT: Final[Vec3] = (1.0, 0.0, 0.0)
LEFT: Final[Vec3] = (-1.0, 0.0, 0.0)
UP: Final[Vec3] = (0.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    part: Part
    worked: WorkedSetUp
    before: Solid
    after: Solid


def band(nominal: float, text: str, low: float = -0.1, high: float = 0.1) -> Band:
    return Band(
        nominal=nominal,
        low=nominal + low,
        high=nominal + high,
        text=text,
        origin="drawn",
        place="test",
    )


def device(kind: Any, machine: Any = "lathe", **sizes: float) -> HoldingDevice:
    plain: dict[str, Any] = dict.fromkeys(
        (
            "smallest",
            "largest",
            "inside_smallest",
            "inside_largest",
            "jaw_depth",
            "jaw_width",
            "overall",
            "rehold",
            "trued",
            "face",
            "minutes",
            "most_rev_min",
        ),
        0.0,
    )
    return HoldingDevice(device=kind, name=kind, machine=machine, **{**plain, **sizes})


def scheme(kind: Any, **changes: Any) -> Scheme:
    machine = changes.get("machine", "lathe")
    sizes = changes.pop("sizes", {})
    plain: dict[str, Any] = {
        "key": "k",
        "machine": machine,
        "links": (Link(holder=device(kind, machine, **sizes)),),
        "faces": RIGHT,
        "across": RIGHT,
        "grips": (),
        "seats": (),
        "grip_low": 0.0,
        "grip_high": 0.0,
        "grip_size": 0.0,
        "inside": False,
        "centre": False,
        "stick_out": 0.0,
        "true_on": (),
        "error": 0.1,
        "minutes": 5.0,
        "can": frozenset[str](),
        "need": (),
        "ban": (),
    }
    return Scheme(**{**plain, **changes})


def operation(verb: Verb, region: tuple[Region, ...] = (), **changes: Any) -> Operation:
    plain: dict[str, Any] = {
        "key": verb,
        "verb": verb,
        "stage": "only",
        "feature": "body",
        "machine": "lathe",
        "makes": (),
        "region": region,
        "approach": (RIGHT,),
        "tools": (),
        "minutes": 5.0,
    }
    return Operation(**{**plain, **changes})


def worked(
    held: Scheme,
    operations: tuple[Operation, ...],
    wanted: tuple[Wanted, ...],
    zero: Zero | None,
) -> WorkedSetUp:
    return WorkedSetUp(
        number=1,
        of=2,
        set_up=SetUp(scheme=held, operations=operations),
        zero=zero,
        steps=(),
        before=(),
        off=tuple(region for one in operations for region in one.region),
        wanted=wanted,
        hold_notes=(),
        true_notes=(),
        cautions=(),
        reasons=(),
        mark="",
        next_notes=(),
        rest_here=False,
        minutes=10.0,
    )


def part(name: str, surfaces: tuple[Surface, ...], units: Any = "mm") -> Part:
    return Part(
        name=name,
        material="gunmetal",
        units=units,
        otherwise="ISO 2768-mK",
        blank=Blank(form="round bar", text="", across=25.0, size=(26.0, 25.0, 25.0)),
        features=(),
        surfaces=surfaces,
        distances=(),
        requirements=(),
        metal=(),
        removed=(),
    )


def round_surface(name: str, left: float, right: float, diameter: float, **more: Any) -> Surface:
    r = diameter / 2
    return Surface(
        name=name,
        feature=name,
        kind="cylinder",
        inside=more.get("inside", False),
        point=(left, 0.0, 0.0),
        direction=RIGHT,
        low=(left, -r, -r),
        high=(right, r, r),
    )


def across(step: int, surface: str, size: Band | float, x: float, **more: Any) -> Wanted:
    given = size if isinstance(size, Band) else None
    value = given.nominal if given else float(size)  # type: ignore[arg-type]
    return Wanted(
        step=step,
        kind=more.get("kind", "diameter"),
        surfaces=(surface,),
        a=(x, value / 2, 0.0),
        b=(x, -value / 2, 0.0),
        band=given,
        value=value,
        temporary=given is None,
    )


def along(step: int, kind: Any, size: Band | float, left: float, right: float) -> Wanted:
    given = size if isinstance(size, Band) else None
    return Wanted(
        step=step,
        kind=kind,
        surfaces=(),
        a=(left, 0.0, 0.0),
        b=(right, 0.0, 0.0),
        band=given,
        value=abs(right - left),
        temporary=given is None,
    )


def rod(left: float, right: float, diameter: float) -> Cylinder:
    return Cylinder(start=(left, 0.0, 0.0), end=(right, 0.0, 0.0), diameter=diameter)


def ring(left: float, right: float, inside: float, outside: float) -> Tube:
    return Tube(start=(left, 0.0, 0.0), end=(right, 0.0, 0.0), inside=inside, outside=outside)


def _job(what: Part, job: WorkedSetUp, metal: Region, gone: tuple[Region, ...] = ()) -> Job:
    before = cut(solid_of(metal), [solid_of(region) for region in gone])
    after = cut(before, [solid_of(region) for region in job.off])
    return Job(part=what, worked=job, before=before, after=after)


def bush() -> Job:
    """Make a depthing bush: 20 bore, 24 outside, 20 long, in a three-jaw, bored and faced."""
    operations = (
        operation("face", (rod(20.0, 21.5, 40.0),), minutes=1.0, starts=21.5, ends=20.0),
        operation(
            "drill", (rod(-5.0, 21.5, 14.0),), cut_size=14.0, minutes=2.0, starts=20, ends=0
        ),
        operation(
            "bore",
            (rod(-5.0, 21.5, 19.8),),
            cut_size=19.8,
            minutes=6.0,
            starts=20.0,
            ends=0.0,
            inside=True,
        ),
        operation("ream", (rod(-5.0, 21.5, 20.0),), cut_size=20.0, minutes=2.0, starts=20, ends=0),
        operation(
            "turn", (ring(8.0, 21.5, 24.2, 40.0),), cut_size=24.2, minutes=3.0, starts=20, ends=8
        ),
        operation(
            "chamfer",
            (
                TaperTube(
                    start=(19.5, 0, 0),
                    end=(20.5, 0, 0),
                    start_inside=24.2,
                    end_inside=22.2,
                    outside=40.0,
                ),
            ),
            minutes=0.5,
            cut_size=23.0,
            starts=20.0,
            ends=19.5,
        ),
    )
    held = scheme("three-jaw chuck", grip_low=-2.0, grip_high=6.0, grip_size=28.0)
    wanted = (
        across(4, "bore", band(20.0, "20 H7", 0.0, 0.021), 20.0),
        across(5, "outside", 24.2, 20.0),
        along(1, "length", band(20.0, "20", -0.2, 0.2), 0.0, 20.0),
        along(0, "grip", 8.0, -2.0, 6.0),
        across(3, "bore", 19.8, 20.0),
    )
    surfaces = (
        round_surface("bore", 0.0, 20.0, 20.0, inside=True),
        round_surface("outside", 0.0, 20.0, 24.0),
    )
    zero = Zero(at=(20.0, 0.0, 0.0), surfaces=("right",), pick_up=())
    return _job(
        part("depthing bush", surfaces),
        worked(held, operations, wanted, zero),
        rod(-2.0, 21.5, 28.0),
    )


def arbor() -> Job:
    """Make a stepped arbor between centres: journals, collar and seat."""
    operations = (
        operation(
            "turn",
            (ring(60.0, 121.0, 16.0, 40.0),),
            cut_size=16.0,
            starts=120,
            ends=60,
            minutes=9.0,
        ),
        operation(
            "turn",
            (ring(90.0, 121.0, 12.0, 40.0),),
            cut_size=12.0,
            starts=120,
            ends=90,
            minutes=6.0,
        ),
        operation(
            "turn",
            (ring(105.0, 121.0, 9.0, 40.0),),
            cut_size=9.0,
            starts=120,
            ends=105,
            minutes=3.0,
        ),
        operation(
            "groove",
            (ring(87.5, 90.0, 11.0, 40.0),),
            cut_size=11.0,
            starts=90,
            ends=87.5,
            minutes=2.0,
        ),
    )
    held = scheme("centres", grip_low=1.0, grip_high=9.0, grip_size=20.0, centre=True)
    wanted = (
        across(1, "seat", band(16.0, "16 k6"), 60.0),
        across(2, "journal", band(12.0, "12 f7"), 90.0),
        across(3, "end", band(9.0, "9"), 105.0),
        across(4, "groove", band(11.0, "11"), 88.0),
        along(1, "length", band(15.0, "15"), 105.0, 120.0),
        along(2, "length", band(30.0, "30 +0/-0.1"), 90.0, 120.0),
        along(1, "length", band(60.0, "60"), 60.0, 120.0),
        along(4, "width", band(2.5, "2.5"), 87.5, 90.0),
    )
    surfaces = (
        round_surface("seat", 60.0, 87.5, 16.0),
        round_surface("journal", 90.0, 105.0, 12.0),
        round_surface("end", 105.0, 120.0, 9.0),
        round_surface("groove", 87.5, 90.0, 11.0),
    )
    zero = Zero(at=(120.0, 0.0, 0.0), surfaces=("right",), pick_up=())
    gone = (ring(-1.0, 50.0, 20.0, 40.0), ring(-1.0, 20.0, 14.0, 40.0))
    job = worked(held, operations, wanted, zero)
    return _job(part("winding arbor", surfaces), job, rod(0.0, 120.0, 24.0), gone[:1])


def barrel_end() -> Job:
    """Make the barrel end: spigot in soft jaws, recess and reamed bore at one setting."""
    operations = (
        operation(
            "drill", (rod(-1.0, 31.0, 13.0),), cut_size=13.0, minutes=2.0, starts=30, ends=0
        ),
        operation(
            "bore",
            (rod(24.0, 31.0, 40.0),),
            cut_size=40.0,
            minutes=9.0,
            inside=True,
            starts=30,
            ends=24,
        ),
        operation("ream", (rod(-1.0, 31.0, 16.0),), cut_size=16.0, minutes=1.0, starts=30, ends=0),
    )
    held = scheme("soft jaws", grip_low=2.0, grip_high=18.0, grip_size=32.0)
    wanted = (
        across(5, "recess", band(40.0, "40 +0.05/0"), 30.0),
        across(6, "bore", band(16.0, "16 H7"), 30.0),
        along(3, "depth", band(6.0, "6.00"), 24.0, 30.0),
        along(0, "grip", 16.0, 2.0, 18.0),
    )
    surfaces = (
        round_surface("bore", 0.0, 24.0, 16.0, inside=True),
        round_surface("recess", 24.0, 30.0, 40.0, inside=True),
    )
    zero = Zero(at=(30.0, 0.0, 0.0), surfaces=("right",), pick_up=())
    gone = (ring(-1.0, 18.0, 32.0, 80.0),)
    job = worked(held, operations, wanted, zero)
    return _job(part("barrel end", surfaces), job, rod(0.0, 30.0, 64.0), gone)


JOBS: Final[dict[str, Callable[[], Job]]] = {
    "bush": bush,
    "arbor": arbor,
    "barrel end": barrel_end,
}


@pytest.fixture(scope="session", params=tuple(JOBS))
def turned_job(request: pytest.FixtureRequest) -> Job:
    return JOBS[request.param]()


def t_slot_nut() -> Job:
    """Make a T-slot nut in the vice: its shoulders milled away, tapped in the middle."""
    deep = 10.0
    operations = (
        operation(
            "mill step",
            (
                Box(low=(-1.0, -1.0, 8.0), high=(26.0, 5.5, 30.0)),
                Box(low=(-1.0, 16.5, 8.0), high=(26.0, 30.0, 30.0)),
            ),
            machine="mill",
            minutes=8.0,
        ),
        operation(
            "drill",
            (Cylinder(start=(12.5, 11.0, -1.0), end=(12.5, 11.0, 30.0), diameter=8.5),),
            machine="mill",
            at=((12.5, 11.0, 16.0),),
            cut_size=8.5,
            minutes=3.0,
            makes=("thread",),
        ),
    )
    held = scheme(
        "vice",
        machine="mill",
        faces=UP,
        across=RIGHT,
        seats=("bottom", "left"),
        grip_low=0.0,
        grip_high=7.0,
        sizes={"jaw_depth": 25.0, "jaw_width": 80.0},
    )
    wanted = (
        Wanted(
            step=1,
            kind="width",
            surfaces=("neck",),
            a=(0, 5.5, 16),
            b=(0, 16.5, 16),
            band=band(11.0, "11 −0.1/−0.3"),
            value=11.0,
        ),
        Wanted(
            step=1,
            kind="depth",
            surfaces=("shoulder",),
            a=(25, 0, 8.0),
            b=(25, 0, 0.0),
            band=band(8.0, "8"),
            value=8.0,
        ),
        Wanted(
            step=2,
            kind="thread",
            surfaces=("thread",),
            a=(12.5 - 4.25, 11, 16),
            b=(12.5 + 4.25, 11, 16),
            band=band(8.5, "M10"),
            value=8.5,
        ),
        Wanted(
            step=2,
            kind="position",
            surfaces=("thread",),
            a=(0, 0, 16),
            b=(12.5, 11, 16),
            band=None,
            value=16.6,
        ),
    )
    del deep
    zero = Zero(at=(0.0, 0.0, 16.0), surfaces=("left", "front", "top"), pick_up=())
    job = worked(held, operations, wanted, zero)
    return _job(part("T-slot nut", ()), job, Box(low=(0.0, 0.0, 0.0), high=(25.0, 22.0, 16.0)))


def hole_circle() -> Job:
    """Make the hole circle of the barrel end, in a chuck on the mill table."""
    places = tuple(
        (24.0 * math.sin(n * math.pi / 3), 24.0 * math.cos(n * math.pi / 3), 12.0)
        for n in range(6)
    )
    drilled = operation(
        "drill",
        tuple(Cylinder(start=(x, y, -1.0), end=(x, y, 13.0), diameter=5.5) for x, y, _ in places),
        machine="mill",
        at=places,
        cut_size=5.5,
        minutes=6.0,
        makes=("ring",),
    )
    held = scheme(
        "chuck on the mill table",
        machine="mill",
        faces=UP,
        grip_size=32.0,
        grip_low=-18.0,
        grip_high=-4.0,
        seats=("bottom",),
    )
    wanted = (
        Wanted(
            step=1,
            kind="diameter",
            surfaces=("ring",),
            a=(-2.75, 24, 12),
            b=(2.75, 24, 12),
            band=band(5.5, "5.5"),
            value=5.5,
        ),
    )
    zero = Zero(at=(0.0, 0.0, 12.0), surfaces=("bore",), pick_up=())
    step = Step(
        number=1,
        operations=(drilled,),
        tool="drill",
        tool_out=None,
        speed=None,
        feed=None,
        passes=(),
        moves=(),
        places=tuple(
            Place(label="ABCDEF"[n], at=at, x=at[0], y=at[1], moves=())
            for n, at in enumerate(places)
        ),
        aim=None,
        band=None,
        measures=(),
        fluid="dry",
        lock=(),
        check=None,
        remarks=(),
        cautions=(),
        minutes=5.0,
    )
    job = replace(worked(held, (drilled,), wanted, zero), steps=(step,))
    metal = cut(
        solid_of(
            (
                Cylinder(start=(0, 0, 0), end=(0, 0, 12.0), diameter=64.0),
                Cylinder(start=(0, 0, -18.0), end=(0, 0, 0.0), diameter=32.0),
            )
        ),
        [
            solid_of(Cylinder(start=(0, 0, -20.0), end=(0, 0, 13.0), diameter=16.0)),
            solid_of(Cylinder(start=(0, 0, 6.0), end=(0, 0, 13.0), diameter=40.0)),
        ],
    )
    after = cut(metal, [solid_of(region) for region in job.off])
    return Job(part=part("barrel end", ()), worked=job, before=metal, after=after)


MILLED: Final[dict[str, Callable[[], Job]]] = {
    "T-slot nut": t_slot_nut,
    "hole circle": hole_circle,
}


@pytest.fixture(scope="session", params=tuple(MILLED))
def milled_job(request: pytest.FixtureRequest) -> Job:
    return MILLED[request.param]()


@pytest.fixture(scope="session", name="hole_circle")
def hole_circle_job() -> Job:
    return hole_circle()


@pytest.fixture(scope="session", name="t_slot_nut")
def t_slot_nut_job() -> Job:
    return t_slot_nut()
