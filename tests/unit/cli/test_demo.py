from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from typer.testing import CliRunner

from halfthou.cli.app import app
from halfthou.cli.demo import drawn_answer, lay_out
from halfthou.errors import InputFault

ROOT = Path(__file__).parents[3]


def test_the_demo_is_laid_out_again_over_itself(tmp_path: Path) -> None:
    lay_out(tmp_path)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir()}
    lay_out(tmp_path)

    assert {"arbor.toml", "barrel-end.toml"} <= before.keys()
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == before


def test_a_demo_file_that_was_changed_is_never_written_over(tmp_path: Path) -> None:
    lay_out(tmp_path)
    (tmp_path / "arbor.toml").write_text("mine", "utf-8")
    with pytest.raises(InputFault) as caught:
        lay_out(tmp_path)

    assert caught.value.what == "arbor.toml is there already and has been changed"
    assert (tmp_path / "arbor.toml").read_text("utf-8") == "mine"


def test_cards_that_broke_off_are_told_with_the_last_word_and_the_status(
    capsys: pytest.CaptureFixture[str],
) -> None:
    beside = "Traceback (most recent call last):\n  ...\nValueError: no such face\n"
    answer = drawn_answer(Path("arbor.toml"), 70, b"", beside)

    assert answer.status == 70
    assert answer.told["faults"] == [
        {
            "what": "the cards of arbor were not made",
            "where": "arbor.toml",
            "why": "ValueError: no such face",
            "try": ["halfthou cards arbor.toml"],
        }
    ]
    assert capsys.readouterr().err == beside


def test_faults_of_the_cards_are_passed_on_as_they_are() -> None:
    out = {"faults": [{"what": "no plan", "where": "arbor.toml", "why": "", "try": []}]}
    answer = drawn_answer(Path("arbor.toml"), 3, json.dumps(out).encode(), "drawing\n")

    assert answer.status == 3
    assert answer.told["faults"] == out["faults"]


@pytest.mark.slow
def test_the_demo_checks_plans_and_makes_the_cards_of_every_part(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    folder = tmp_path / "clock"
    result = CliRunner().invoke(
        app, ["demo", "--folder", str(folder), "--json"], catch_exceptions=False
    )
    told = json.loads(result.stdout)
    schema = json.loads((ROOT / "docs" / "json" / "demo.schema.json").read_text("utf-8"))
    jsonschema.validate(told, schema)

    assert result.exit_code == 0
    for name in ("arbor", "barrel-end", "click", "depthing-bush", "plummer-block"):
        assert (folder / f"{name}.plan.json").exists()
        assert (folder / "cards" / f"{name}.pdf").read_bytes().startswith(b"%PDF")
