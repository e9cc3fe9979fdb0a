"""Two lathes in one shop: each set-up's figures are those of the lathe that takes its work."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.machines import lathe_for, mill_for, radius_turned
from halfthou.planning.model import SetUp
from halfthou.workshop.default import default_workshop
from tests.unit.planning.working.handmade import chucked, on_the_mill, operation

SHOP = default_workshop()
SMALL = replace(
    SHOP.lathes[0], name="small lathe", centre_height=45.0, between_centres=200.0,
    screwcutting=False, speeds=(300.0, 900.0, 2000.0),
)  # fmt: skip
TWO = replace(SHOP, lathes=(SMALL, SHOP.lathes[0]))


def _turned(across: float) -> SetUp:
    turned = operation(
        "turn", "turn", "rough", feature="seat", starts=0.0, ends=20.0, cut_size=across - 2.0,
        from_size=across, tools=("knife tool",),
    )  # fmt: skip
    return chucked(turned)


@pytest.mark.derived(by="30 across swings 15 and 100 across swings 50; the small lathe swings 45")
@pytest.mark.parametrize(("across", "name"), [(30.0, "small lathe"), (100.0, SHOP.lathes[0].name)])
def test_the_first_lathe_that_swings_the_work_is_taken(across: float, name: str) -> None:
    set_up = _turned(across)
    lathe = lathe_for(set_up, TWO)

    assert radius_turned(set_up) == pytest.approx(across / 2)
    assert lathe is not None
    assert lathe.name == name


def test_a_thread_goes_to_the_lathe_that_cuts_threads() -> None:
    thread = operation("thread", "thread", feature="end", tools=("screwcutting tool 60°",))
    lathe = lathe_for(chucked(thread), TWO)

    assert lathe is not None
    assert lathe.screwcutting


def test_a_shop_without_machines_gives_none() -> None:
    bare = replace(SHOP, lathes=(), mills=())

    assert lathe_for(_turned(30.0), bare) is None
    assert mill_for(_turned(30.0), bare) is None


def test_with_one_mill_its_figures_are_taken_whatever_the_work() -> None:
    drilled = operation("drill", "drill", feature="hole", at=((5.0, 0.0, 0.0),), cut_size=4.0)

    assert mill_for(on_the_mill(drilled), SHOP) is SHOP.mills[0]
