"""What waits for what: by the project's first, by the part files' own mates."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from halfthou.cli.demo import lay_out
from halfthou.drawing.mates import parse_suits
from halfthou.errors import InputFault
from halfthou.store.part_on_disk import look_at_part
from halfthou.store.project_file import Project, read_project_text
from halfthou.store.project_order import in_order, waitings, with_project
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
        file: [(m.surface, m.part) for m in with_project(part, file).mates]
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
    assert with_project(part, tmp_path / "barrel-end.toml") == replace(part)
