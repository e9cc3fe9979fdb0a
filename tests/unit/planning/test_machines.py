"""Two lathes in one shop: each set-up's figures are those of the lathe that takes its work."""

from __future__ import annotations

from dataclasses import replace

import pytest

from halfthou.planning.machines import lathe_for, mill_for, mill_over, radius_turned
from halfthou.planning.model import SetUp
from halfthou.present.words_zero import dials_words
from halfthou.workshop.default import default_workshop
from tests.unit.planning.working.handmade import band, chucked, on_the_mill, operation, worked

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


@pytest.mark.derived(by="work that swings 50 goes to the second lathe, and so do its dials")
def test_roughing_lands_on_the_dials_of_the_lathe_the_work_is_on() -> None:
    coarse = replace(
        SMALL, cross_slide=replace(SMALL.cross_slide, division=0.05, lead=2.5, reads="diameter")
    )
    both = replace(SHOP, lathes=(coarse, SHOP.lathes[0]))
    finish = operation(
        "finish", "turn", "finish", feature="seat", starts=0.0, ends=20.0, cut_size=97.97,
        from_size=98.4, size=band(98.0, 97.94, 98.0),
    )  # fmt: skip
    rough = replace(_turned(100.0).operations[0], cut_size=98.4)
    held = chucked(rough, finish)
    told = worked(held, shop=both).set_ups[0]
    alone = worked(held).set_ups[0]

    assert [step.passes for step in told.steps] == [step.passes for step in alone.steps]
    assert dials_words(told, both) == dials_words(alone, SHOP)


@pytest.mark.derived(by="one mill reaches 100 by 60, the other 300 by 150")
def test_the_first_mill_that_reaches_is_taken_for_a_cut_of_some_size() -> None:
    little = replace(SHOP.mills[0], name="little mill", travels=(100.0, 60.0))
    shop = replace(SHOP, mills=(little, replace(SHOP.mills[0], travels=(300.0, 150.0))))

    assert mill_over(shop, 90.0, 50.0) is shop.mills[0]
    assert mill_over(shop, 90.0, 80.0) is shop.mills[1]
    assert mill_over(shop, 900.0, 80.0) is shop.mills[1]
    assert mill_over(replace(SHOP, mills=()), 1.0, 1.0) is None
