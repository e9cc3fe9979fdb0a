"""A kept plan is worked out with all it was made from, whatever the files beside it say by now."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from halfthou.present.kept_job import job_of
from halfthou.store.keeping import plan_to_keep
from halfthou.store.part_on_disk import look_at_part
from halfthou.store.plan_file import KeptPlan
from halfthou.workshop.default import default_workshop

BUSH = Path(__file__).parents[2] / "data" / "parts" / "bush.toml"
PROJECT = """
first = ["arbor"]

[part.bush]
[part.arbor]

[fit.arbor-in-bush]
hole = "bore of bush"
shaft = "journal of arbor"
as = "runs with 0.04 to 0.06 free"
"""


def kept_in(folder: Path) -> KeptPlan:
    path = folder / "bush.toml"
    shutil.copy(BUSH, path)
    (folder / "project.toml").write_text(PROJECT, "utf-8")
    on_disk = look_at_part(path)
    assert on_disk.part is not None
    return plan_to_keep(
        path,
        part=on_disk.part,
        text=on_disk.text,
        workshop=default_workshop(),
        proof=lambda _: "",
    )


@pytest.mark.derived(by="the bore less 0.05, the middle of 0.04 to 0.06")
def test_a_mate_that_the_project_names_is_waited_for_and_its_reading_asked_for(
    tmp_path: Path,
) -> None:
    kept = kept_in(tmp_path)
    (tmp_path / "project.toml").unlink()
    job = job_of(kept)
    steps = [step for one in job.worked.set_ups for step in one.steps]
    (reading, own) = next(
        (m, step.measures[i + 1])
        for step in steps
        for i, m in enumerate(step.measures)
        if m.surface == "journal of arbor"
    )

    assert [mate.part for mate in job.part.mates] == ["arbor"]
    assert any("the arbor, made first" in reason.text for reason in job.plan.reasons)
    assert reading.aim == pytest.approx(own.aim - 0.05)
    assert own.where == "that reading and 0.04 to 0.06"
