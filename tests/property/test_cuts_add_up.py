"""Whatever the sizes, the cuts told take off the metal there is, and never too much at once."""

from hypothesis import given
from hypothesis import strategies as st

from halfthou.cutting.gauging import aim_for, choose_gauge
from halfthou.cutting.passes import facing, finishing, roughing, screwcutting
from halfthou.workshop.default import default_workshop

METAL = st.floats(min_value=0.05, max_value=40.0)
DEEPEST = st.floats(min_value=0.2, max_value=2.0)
STEP = st.sampled_from([0.01, 0.02, 0.0254, 0.05])


@given(METAL, DEEPEST, STEP)
def test_roughing_never_cuts_into_what_is_left_for_finishing(
    metal: float, deepest: float, step: float
) -> None:
    cuts = roughing(metal_off=metal, deepest=deepest, leave=0.25, step=step)
    off = sum(cut.count * cut.depth for cut in cuts)

    assert metal - off >= 0.25 - 1e-9 or not cuts
    assert all(cut.depth <= deepest + step for cut in cuts)
    if cuts:
        assert cuts[-1].left < 0.25 + 0.02 + step


@given(METAL, DEEPEST, STEP)
def test_roughing_and_finishing_take_off_all_there_is(
    metal: float, deepest: float, step: float
) -> None:
    rough = roughing(metal_off=metal, deepest=deepest, leave=0.25, step=step)
    left = rough[-1].left if rough else metal
    for close in (True, False):
        last = finishing(metal_off=left, close=close)

        assert abs(sum(cut.count * cut.depth for cut in last) - left) < 1e-9


@given(METAL, STEP)
def test_facing_and_screwcutting_end_at_their_depth(metal: float, step: float) -> None:
    for cuts in (
        facing(metal_off=metal, deepest=0.75, step=step),
        screwcutting(depth=metal, step=step),
    ):
        assert abs(sum(cut.count * cut.depth for cut in cuts) - metal) < 1e-9


@given(
    st.floats(min_value=11.0, max_value=49.0),
    st.floats(min_value=0.002, max_value=1.0),
    st.booleans(),
)
def test_the_aim_always_lies_between_the_limits(low: float, width: float, inside: bool) -> None:  # noqa: FBT001
    judged = choose_gauge(
        kind="bore" if inside else "diameter",
        low=low,
        high=low + width,
        workshop=default_workshop(),
    )
    aim = aim_for(low=low, high=low + width, nominal=low, inside=inside, judged=judged)

    assert low <= aim <= low + width
    if judged is not None and judged.decides:
        marks = 2 * aim / judged.gauge.reads_to if judged.gauge.reads_to else 0.25
        readable = abs(marks - round(marks)) < 1e-6
        assert readable or judged.low - 1e-12 <= aim <= judged.high + 1e-12
