"""``halfthou plan FOLDER``: every part planned, what is waited for first."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import jsonschema
import pytest
from typer.testing import CliRunner

from halfthou.cli.app import app

ROOT = Path(__file__).parents[3]
PARTS = ROOT / "tests" / "data" / "parts"
PROJECT = """
first = ["nut"]

[part.a-bush]
file = "bush.toml"

[part.nut]
file = "t-slot-nut.toml"

[fit.nut-in-bush]
hole = "bore of a-bush"
shaft = "top of nut"
"""


def test_a_folder_is_planned_in_the_order_its_parts_are_made_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    folder = tmp_path / "job"
    folder.mkdir()
    for name in ("bush.toml", "t-slot-nut.toml"):
        shutil.copy(PARTS / name, folder / name)
    (folder / "project.toml").write_text(PROJECT, "utf-8")

    result = CliRunner().invoke(app, ["plan", str(folder), "--json"], catch_exceptions=False)
    told = json.loads(result.stdout)
    schema = json.loads((ROOT / "docs" / "json" / "plan.schema.json").read_text("utf-8"))
    jsonschema.validate(told, schema)

    assert result.exit_code == 0
    assert [Path(one["file"]).name for one in told["parts"]] == ["t-slot-nut.toml", "bush.toml"]
    assert told["waits"] == ["a-bush waits for nut: bore is made to its top as it measures"]


def test_a_folder_with_no_part_file_is_told(tmp_path: Path) -> None:
    result = CliRunner().invoke(app, ["plan", str(tmp_path)], catch_exceptions=False)

    assert result.exit_code == 3
    assert "holds no part file" in result.stderr


def test_a_part_that_cannot_be_planned_stops_none_of_the_others(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    folder = tmp_path / "job"
    folder.mkdir()
    shutil.copy(ROOT / "tests" / "data" / "drawings" / "cylinder.toml", folder / "a-cylinder.toml")
    shutil.copy(PARTS / "bush.toml", folder / "bush.toml")

    result = CliRunner().invoke(app, ["plan", str(folder), "--json"], catch_exceptions=False)
    told = json.loads(result.stdout)
    schema = json.loads((ROOT / "docs" / "json" / "plan.schema.json").read_text("utf-8"))
    jsonschema.validate(told, schema)
    first, second = told["parts"]

    assert result.exit_code == 1
    assert not told["done"]
    assert first["faults"][0]["where"] == "a-cylinder.toml"
    assert second["made"]


def test_a_plan_made_before_first_was_changed_is_told_as_old(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    for name in ("bush.toml", "t-slot-nut.toml"):
        shutil.copy(PARTS / name, tmp_path / name)
    (tmp_path / "project.toml").write_text(PROJECT, "utf-8")
    bush = str(tmp_path / "bush.toml")
    CliRunner().invoke(app, ["plan", bush, "--json"], catch_exceptions=False)
    (tmp_path / "project.toml").write_text(PROJECT.replace('["nut"]', "[]"), "utf-8")

    result = CliRunner().invoke(app, ["plan", bush, "--json"], catch_exceptions=False)
    told = json.loads(result.stdout)
    schema = json.loads((ROOT / "docs" / "json" / "plan.schema.json").read_text("utf-8"))
    jsonschema.validate(told, schema)
    said = CliRunner().invoke(app, ["plan", bush], catch_exceptions=False).stdout

    assert result.exit_code == 1
    assert told["stale"]
    assert told["changes"]["project"] == ["− bore made to top of nut"]
    assert "the project has changed since:\n  − bore made to top of nut" in said
