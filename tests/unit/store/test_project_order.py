"""What waits for what: by the project's first, by the part files' own mates."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfthou.cli.demo import lay_out
from halfthou.drawing.mates import parse_suits
from halfthou.drawing.model import Mate
from halfthou.errors import Faults, InputFault
from halfthou.quantities import DrawingUnits
from halfthou.store.part_on_disk import look_at_part
from halfthou.store.project_file import Project, read_project_text
from halfthou.store.project_order import in_order, mates_in, project_mates, waitings, with_mates
from halfthou.store.project_parts import making

TEXT = """
name = "winding gear"
first = ["arbor"]

[part.barrel-end]
[part.block]
[part.arbor]
[part.wheel]

[fit.barrel-end-on-arbor]
hole = "bore of barrel-end"
shaft = "seat of arbor"
as = "pushed home by hand"

[fit.wheel-on-barrel]
hole = "bore of wheel"
shaft = "spigot of barrel-end"
"""


def project(text: str = TEXT) -> Project:
    return read_project_text(text, name="project.toml")


def test_what_is_named_first_is_waited_for_by_every_part_it_fits() -> None:
    (one,) = waitings(project(), {})

    assert (one.part, one.mate) == ("barrel-end", "arbor")
    assert one.why == "bore is made to its seat as it measures"


def test_a_mate_named_in_the_part_file_is_waited_for_too() -> None:
    suits = parse_suits("journal of arbor, 0.02 to 0.04 free", surface="bore", units="mm")
    found = {(one.part, one.mate) for one in waitings(project(), {"block": (suits,)})}

    assert found == {("barrel-end", "arbor"), ("block", "arbor")}


def test_parts_come_in_the_order_they_are_made_in() -> None:
    own = project()

    assert [p.name for p in in_order(own, waitings(own, {}))] == [
        "arbor", "barrel-end", "block", "wheel",
    ]  # fmt: skip


def test_of_two_that_come_first_the_one_named_earlier_is_waited_for() -> None:
    both = project(TEXT.replace('["arbor"]', '["barrel-end", "arbor"]'))

    assert {(one.part, one.mate) for one in waitings(both, {})} == {
        ("arbor", "barrel-end"), ("wheel", "barrel-end"),
    }  # fmt: skip


def test_parts_that_wait_for_each_other_are_told_as_a_ring() -> None:
    own = project()
    suits = parse_suits("bore of wheel", surface="journal", units="mm")
    back = parse_suits("bore of arbor", surface="bore", units="mm")
    waiting = waitings(own, {"arbor": (suits,), "wheel": (back,)})

    with pytest.raises(InputFault) as caught:
        in_order(own, waiting)

    assert caught.value.what == "arbor and barrel-end and wheel wait for each other"


def test_the_demo_is_made_reamed_bore_first_and_the_arbor_to_it(tmp_path: Path) -> None:
    lay_out(tmp_path)
    made = making(tmp_path)

    assert [file.name for file in made.files[:2]] == ["barrel-end.toml", "arbor.toml"]
    assert {name for name, _ in made.waiting} >= {"arbor.toml", "plummer-block.toml"}


def test_a_part_is_given_the_fits_of_the_project_beside_it_once(tmp_path: Path) -> None:
    lay_out(tmp_path)
    block, arbor = (tmp_path / f"{name}.toml" for name in ("plummer-block", "arbor"))
    parts = {file: look_at_part(file).part for file in (block, arbor)}
    assert all(parts.values())
    mates = {
        file: [(m.surface, m.part) for m in with_mates(part, project_mates(part, file)).mates]
        for file, part in parts.items()
        if part is not None
    }

    assert mates == {block: [("bore", "arbor")], arbor: [("seat", "barrel-end")]}


def test_a_folder_without_a_project_is_made_by_name(tmp_path: Path) -> None:
    lay_out(tmp_path)
    (tmp_path / "project.toml").unlink()
    part = look_at_part(tmp_path / "barrel-end.toml").part

    assert [file.name for file in making(tmp_path).files][:2] == ["arbor.toml", "barrel-end.toml"]
    assert part is not None
    assert project_mates(part, tmp_path / "barrel-end.toml") == ()


def test_a_faulty_project_is_told_and_no_part_is_taken_as_made_to_nothing(tmp_path: Path) -> None:
    lay_out(tmp_path)
    part = look_at_part(tmp_path / "arbor.toml").part
    (tmp_path / "project.toml").write_text('frist = ["arbor"]\n', "utf-8")

    assert part is not None
    with pytest.raises(Faults, match=r"project\.toml"):
        project_mates(part, tmp_path / "arbor.toml")


def fit_said(how: str, *, units: DrawingUnits = "mm") -> Mate:
    (mate,) = mates_in(
        project(TEXT.replace("pushed home by hand", how)), "barrel-end", units=units
    )
    return mate


@pytest.mark.derived(by="as written")
def test_a_fit_of_the_project_is_read_for_how_freely_it_goes() -> None:
    free = fit_said("0.02 to 0.04 free")
    tight = fit_said("driven, 0.01 to 0.02 tight, oiled")
    within = fit_said("runs with 0.02 to 0.04 free")

    assert (free.free_low, free.free_high) == (0.02, 0.04)
    assert (tight.free_low, tight.free_high) == (-0.02, -0.01)
    assert tight.text == "seat of arbor, 0.01 to 0.02 tight, driven, oiled"
    assert (within.free_low, within.free_high) == (0.02, 0.04)
    assert within.text == "seat of arbor, 0.02 to 0.04 free, runs"


@pytest.mark.derived(by=".001 and .002 times 25.4")
def test_bare_figures_of_a_fit_are_in_the_units_of_the_part() -> None:
    mate = fit_said(".001 to .002 free", units="in")

    assert (mate.free_low, mate.free_high) == pytest.approx((0.0254, 0.0508))


@pytest.mark.parametrize(
    "how", ["pushed home by hand", "pressed up to the shoulder, tight", "", "free to turn"]
)
def test_a_fit_in_words_alone_says_nothing_of_how_freely(how: str) -> None:
    mate = fit_said(how)

    assert (mate.free_low, mate.free_high) == (None, None)
    assert mate.text == ", ".join(filter(None, ("seat of arbor", how)))


def test_figures_of_a_fit_that_cannot_be_read_are_told_with_their_place() -> None:
    with pytest.raises(InputFault) as caught:
        fit_said("1 thou to 2 thou free")

    assert caught.value.where == "project.toml, fit.barrel-end-on-arbor as"
