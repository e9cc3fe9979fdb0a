"""A plan that cannot be made says in which file; one that was stopped says only that."""

from __future__ import annotations

from pathlib import Path

import pytest

from halfthou.errors import HalfthouError
from halfthou.store.keeping import Stopped, plan_and_keep, plan_to_keep
from halfthou.store.part_on_disk import look_at_part
from halfthou.workshop.default import default_workshop

BUSH = Path(__file__).parents[2] / "data" / "parts" / "bush.toml"
CYLINDER = Path(__file__).parents[2] / "data" / "drawings" / "cylinder.toml"


def refused(folder: Path, *, stopped: bool) -> HalfthouError:
    path = folder / "cylinder.toml"
    path.write_bytes(CYLINDER.read_bytes())
    on_disk = look_at_part(path)
    assert on_disk.part is not None
    with pytest.raises(HalfthouError) as caught:
        plan_and_keep(
            path,
            part=on_disk.part,
            text=on_disk.text,
            workshop=default_workshop(),
            proof=lambda _: "",
            should_stop=lambda: stopped,
        )
    assert [each.name for each in folder.iterdir()] == ["cylinder.toml"]
    return caught.value


def test_a_part_that_cannot_be_planned_is_told_with_its_file(tmp_path: Path) -> None:
    error = refused(tmp_path, stopped=False)

    assert error.what.startswith("the cylinder has work that is not planned on a casting")
    assert error.where == "cylinder.toml"


def test_planning_that_was_stopped_gives_no_reason_why_there_is_no_plan(tmp_path: Path) -> None:
    error = refused(tmp_path, stopped=True)

    assert isinstance(error, Stopped)
    assert error.what == "the planning of cylinder was stopped"


def test_planning_by_itself_writes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "bush.toml"
    path.write_bytes(BUSH.read_bytes())
    on_disk = look_at_part(path)
    assert on_disk.part is not None
    kept = plan_to_keep(
        path,
        part=on_disk.part,
        text=on_disk.text,
        workshop=default_workshop(),
        proof=lambda _: "",
    )

    assert kept.plan.set_ups
    assert [each.name for each in tmp_path.iterdir()] == ["bush.toml"]
