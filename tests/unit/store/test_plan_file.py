from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from halfthou.drawing.geometry import Box, Cone, Cylinder, Obround, Prism, TaperTube, Tube
from halfthou.drawing.model import Band, Mate
from halfthou.errors import Faults, InputFault
from halfthou.handbook.threads import thread
from halfthou.planning.model import Link, Operation, Plan, Reason, Scheme, SetUp, Unjudged
from halfthou.quantities import parse_thread
from halfthou.store.part_on_disk import faults_in
from halfthou.store.plan_file import (
    KeptPlan,
    changes_since,
    kept_plan,
    plan_path,
    plan_text,
    read_plan,
    write_plan,
)
from halfthou.workshop.default import default_workshop

BORE = Band(
    nominal=16.0, low=16.0, high=16.018, text="16 H7", origin="drawn", place="hole.bore size"
)
EVERY_SHAPE = (
    Cylinder(start=(0.0, 0.0, 0.0), end=(0.1, 0.0, 0.0), diameter=1 / 3),
    Cone(start=(0.0, 0.0, 0.0), end=(2.0, 0.0, 0.0), start_diameter=4.0, end_diameter=0.0),
    Box(low=(0.0, 0.0, 0.0), high=(1.0, 2.0, 3.0)),
    Obround(
        start=(0.0, 0.0, 0.0),
        end=(9.0, 0.0, 0.0),
        width=6.0,
        direction=(0.0, -1.0, 0.0),
        depth=3.0,
    ),
    Prism(outline=((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)), along=(0.0, 0.0, 5.0)),
    Tube(start=(0.0, 0.0, 0.0), end=(5.0, 0.0, 0.0), inside=3.0, outside=4.0),
    TaperTube(
        start=(0.0, 0.0, 0.0), end=(5.0, 0.0, 0.0), start_inside=3.0, end_inside=2.0, outside=4.0
    ),
)


def operation() -> Operation:
    return Operation(
        key="bore/finish",
        verb="bore",
        stage="finish",
        feature="bore",
        machine="lathe",
        makes=("bore",),
        region=EVERY_SHAPE,
        approach=((1.0, 0.0, 0.0),),
        tools=("boring tool",),
        minutes=0.1 + 0.2,
        size=BORE,
        thread=thread(parse_thread("1/2 BSF")),
    )


def scheme() -> Scheme:
    chuck = default_workshop().holding[0]
    return Scheme(
        key="three-jaw/right",
        machine="lathe",
        links=(Link(holder=chuck, detail="outside jaws"),),
        faces=(1.0, 0.0, 0.0),
        across=(0.0, 1.0, 0.0),
        grips=("stock outside",),
        seats=(),
        grip_low=0.0,
        grip_high=15.0,
        grip_size=70.0,
        inside=False,
        centre=False,
        stick_out=12.0,
        true_on=(("flange", 0.02),),
        error=0.1,
        minutes=5.0,
        can=frozenset({"zebra", "bore/finish", "alpha"}),
        need=(("face left", "stock outside"),),
        ban=(),
    )


def plan() -> Plan:
    return Plan(
        set_ups=(SetUp(scheme=scheme(), operations=(operation(),)),),
        blank_size=(32.0, 70.0, 70.0),
        minutes=41.5,
        bound=40.0,
        proved=False,
        up_to_set_ups=3,
        reasons=(Reason(set_up=1, text="the bore is cut first"),),
        unjudged=(
            Unjudged(
                surface="bore", size=BORE, best_gauge="caliper", doubt=0.04, remedies=("a plug",)
            ),
        ),
    )


def kept(**changes: Any) -> KeptPlan:
    whole = KeptPlan(
        part_file="barrel-end.toml",
        part_text='[part]\nname = "barrel end"   # Ø\nlong = "14"\n',
        workshop=default_workshop(),
        proof="not proved cheapest",
        plan=plan(),
    )
    return replace(whole, **changes)


def test_what_is_written_is_read_back_the_same() -> None:
    assert kept_plan(plan_text(kept()).encode(), file="barrel-end.plan.json") == kept()


def seat_to(text: str) -> Mate:
    return Mate(
        surface="bore", text=text, part="arbor", mate_surface="seat", free_low=0.02, free_high=0.04
    )


def test_what_the_project_says_of_a_part_is_kept_with_its_plan() -> None:
    whole = kept(mates=(seat_to("seat of arbor, 0.02 to 0.04 free"),))
    told = json.loads(plan_text(whole))["mates"]

    assert kept_plan(plan_text(whole).encode(), file="barrel-end.plan.json") == whole
    assert told[0]["free_low_mm"] == 0.02


def test_a_plan_kept_before_the_project_said_anything_is_read_with_nothing_said() -> None:
    told = json.loads(plan_text(kept()))
    del told["mates"]

    assert kept_plan(json.dumps(told).encode(), file="barrel-end.plan.json").mates == ()


def test_a_changed_fit_of_the_project_is_told_as_a_change() -> None:
    before, now = seat_to("seat of arbor, pushed"), seat_to("seat of arbor, driven")
    old = kept(mates=(before,))
    same = changes_since(
        old, part_text=old.part_text, workshop=default_workshop(), mates=(before,)
    )
    changes = changes_since(
        old, part_text=old.part_text, workshop=default_workshop(), mates=(now,)
    )

    assert not same
    assert changes
    assert changes.project == (
        "− bore made to seat of arbor, pushed",
        "+ bore made to seat of arbor, driven",
    )


def test_the_same_plan_is_written_the_same_to_the_byte() -> None:
    first = plan_text(kept())
    again = plan_text(kept_plan(first.encode(), file="barrel-end.plan.json"))

    assert again == first


def test_lengths_carry_their_unit_and_directions_none() -> None:
    told = json.loads(plan_text(kept()))["plan"]["set_ups"][0]["scheme"]

    assert told["grip_high_mm"] == 15.0
    assert told["faces"] == [1.0, 0.0, 0.0]
    assert told["can"] == ["alpha", "bore/finish", "zebra"]


def test_each_piece_of_space_says_which_shape_it_is() -> None:
    told = json.loads(plan_text(kept()))["plan"]["set_ups"][0]["operations"][0]["region"]

    assert [each["shape"] for each in told] == [
        "cylinder",
        "cone",
        "box",
        "obround",
        "prism",
        "tube",
        "tapertube",
    ]


def test_the_plan_lies_beside_the_part_file() -> None:
    assert plan_path(Path("clock") / "barrel-end.toml") == Path("clock") / "barrel-end.plan.json"


def test_a_kept_plan_gives_way_only_when_that_is_asked(tmp_path: Path) -> None:
    path = tmp_path / "barrel-end.plan.json"
    write_plan(kept(), path)
    with pytest.raises(InputFault):
        write_plan(kept(proof="another"), path)
    write_plan(kept(proof="the third"), path, replace=True)

    assert read_plan(path).proof == "the third"


def test_nothing_has_changed_while_only_remarks_and_spacing_have() -> None:
    text = '# from the 1904 sheet\n[part]\nname="barrel end"\nlong = "14"\n'
    changes = changes_since(kept(), part_text=text, workshop=default_workshop())

    assert not changes


def test_a_changed_part_file_shows_its_lines() -> None:
    text = kept().part_text.replace('"14"', '"15"')
    changes = changes_since(kept(), part_text=text, workshop=default_workshop())

    assert changes.part == ('− long = "14"', '+ long = "15"')
    assert changes.workshop == ()


def test_a_changed_remark_is_not_shown_among_the_changed_lines() -> None:
    text = "# from the sheet of 1904\n" + kept().part_text.replace('"14"', '"15"')
    changes = changes_since(kept(), part_text=text, workshop=default_workshop())

    assert changes.part == ('− long = "14"', '+ long = "15"')


def test_a_changed_workshop_shows_its_figures() -> None:
    changes = changes_since(
        kept(),
        part_text=kept().part_text,
        workshop=replace(default_workshop(), saw_kerf=2.0),
    )

    assert changes.part == ()
    assert changes.workshop == ("saw_kerf_mm: 1.5 → 2.0",)


def test_a_plan_file_that_is_no_json_says_so() -> None:
    with pytest.raises(Faults) as caught:
        kept_plan(b"{", file="arbor.plan.json")

    assert str(caught.value).startswith("arbor.plan.json is not JSON: ")


def test_a_plan_file_of_another_format_says_so() -> None:
    with pytest.raises(Faults) as caught:
        kept_plan(b'{"format": 7}', file="arbor.plan.json")

    assert str(caught.value) == (
        "arbor.plan.json is of plan format 7, and this version reads 1\n"
        "  where: arbor.plan.json\n"
        "  why: it was written by another version of halfthou, or is no plan file\n"
        "  try: plan again: halfthou plan FILE --again"
    )


def test_every_fault_of_a_plan_file_is_named_with_its_place() -> None:
    told = json.loads(plan_text(kept()))
    told["plan"]["minutes"] = "long"
    told["plan"]["set_ups"][0]["scheme"]["machine"] = "planer"
    with pytest.raises(Faults) as caught:
        kept_plan(json.dumps(told).encode(), file="arbor.plan.json")

    assert [fault.where for fault in faults_in(caught.value)] == [
        "arbor.plan.json, plan.set_ups[0].scheme.machine",
        "arbor.plan.json, plan.minutes",
    ]
