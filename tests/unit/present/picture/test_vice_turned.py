"""The vice drawn as it is turned for each slant of the click."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from halfthou.drawing.solve import solve
from halfthou.planning.make_plan import make_plan
from halfthou.planning.milled.slants import slants
from halfthou.present.picture.mill_axes import mill_axes
from halfthou.present.picture.vice_turned import turned_by
from halfthou.store.part_file import read_part_text
from halfthou.workshop.default import default_workshop

DATA = Path(__file__).parents[3] / "data" / "drawings" / "click.toml"


@pytest.mark.derived(
    by="back up, bottom to the fixed jaw: on a sketch of the click seen from above"
)
def test_the_vice_is_drawn_turned_as_the_step_says_fifteen_one_way_and_twenty_the_other() -> None:
    part = solve(read_part_text(DATA.read_text("utf-8"), name=DATA.name))
    plan = make_plan(part, default_workshop())
    scheme = next(
        one.scheme for one in plan.set_ups for op in one.operations if op.key == "mill nose"
    )
    turned = {f.name: math.degrees(turned_by(f, mill_axes(scheme))) for f in slants(part)}

    assert turned == {"nose": pytest.approx(15.0), "rear": pytest.approx(-20.0)}
