from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Callable
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from typer.testing import CliRunner, Result

from halfthou.cli.app import app
from halfthou.cli.patience import left_behind, with_progress

ROOT = Path(__file__).parents[3]
SPACER = """
[part]
name = "spacer"
material = "mild steel"
units = "mm"
otherwise = "ISO 2768-mK"

[blank]
bar = "round 25 x 60"

[round.body]
diameter = "20"
long = "12"
"""
FAULTY = SPACER.replace('diameter = "20"', 'diametre = "20"').replace("mild steel", "cheese")
Run = Callable[..., Result]


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Type a command in an empty folder, as someone who has no workshop file of their own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    runner = CliRunner()

    def typed(*words: str) -> Result:
        return runner.invoke(app, list(words), catch_exceptions=False)

    return typed


def told(result: Result) -> dict[str, Any]:
    answer: dict[str, Any] = json.loads(result.stdout)
    path = ROOT / "docs" / "json" / f"{answer['command']}.schema.json"
    jsonschema.validate(answer, json.loads(path.read_text("utf-8")))
    return answer


def write(text: str, name: str = "spacer.toml") -> str:
    Path(name).write_text(text, "utf-8")
    return name


@pytest.mark.parametrize("kind", [[], ["--milled"]])
def test_a_new_part_file_passes_its_own_check(run: Run, kind: list[str]) -> None:
    made = run("new", "end-plate", *kind, "--json")
    checked = run("check", "end-plate.toml", "--json")

    assert told(made)["file"] == "end-plate.toml"
    assert told(checked)["part"]["name"] == "end plate"
    assert (made.exit_code, checked.exit_code) == (0, 0)


def test_a_new_part_file_is_never_written_over_another(run: Run) -> None:
    write("mine")
    refused = run("new", "spacer")

    assert refused.exit_code == 3
    assert refused.stderr == (
        "spacer.toml is there already\n"
        "  where: spacer.toml\n"
        "  why: nothing is written over unasked\n"
        "  try: give another name, or move the file away first\n"
    )
    assert Path("spacer.toml").read_text("utf-8") == "mine"


def test_a_name_that_no_file_should_have_is_refused(run: Run) -> None:
    assert run("new", "..").exit_code == 3


def test_all_faults_of_a_file_are_told_together_with_status_3(run: Run) -> None:
    refused = run("check", write(FAULTY), "--json")

    places = [fault["where"] for fault in told(refused)["faults"]]
    assert places == ["spacer.toml, round.body diametre", "spacer.toml, part material"]
    assert refused.exit_code == 3


def test_a_file_that_is_not_there_is_a_fault_and_no_traceback(run: Run) -> None:
    refused = run("check", "nothing.toml")

    assert refused.exit_code == 3
    assert "nothing.toml" in refused.output
    assert "Traceback" not in refused.output


def test_words_that_make_no_command_are_status_2(run: Run) -> None:
    assert run("check").exit_code == 2
    assert run("cards", "spacer.toml", "--paper", "a3").exit_code == 2


def test_a_port_that_is_taken_is_told(run: Run) -> None:
    refused = run("open", "nowhere")

    assert refused.exit_code == 3
    assert refused.stderr.startswith("nowhere is no folder\n")


@pytest.mark.slow
def test_a_plan_once_made_is_kept_until_it_is_asked_for_again(run: Run) -> None:
    file = write(SPACER)
    first = told(run("plan", file, "--json"))
    kept = Path("spacer.plan.json").read_bytes()
    second = told(run("plan", file, "--json"))
    again = told(run("plan", file, "--again", "--json"))

    assert (first["made"], second["made"], again["made"]) == (True, False, True)
    assert again["difference"] == []
    assert Path("spacer.plan.json").read_bytes() == kept


@pytest.mark.slow
def test_a_plan_of_an_older_drawing_says_what_has_changed(run: Run) -> None:
    file = write(SPACER)
    run("plan", file)
    write(SPACER.replace('long = "12"', 'long = "14"'))
    stale = run("plan", file)

    assert stale.exit_code == 1
    assert stale.stdout == (
        "spacer.toml: the plan kept in spacer.plan.json is from before the last change\n"
        "the part file has changed since:\n"
        '  − long = "12"\n'
        '  + long = "14"\n'
        "  try: halfthou plan spacer.toml --again, or take the change back\n"
    )


@pytest.mark.slow
def test_cards_of_a_part_are_the_same_to_the_byte_each_time(run: Run) -> None:
    file = write(SPACER)
    first = told(run("cards", file, "--json"))
    before = Path(first["cards_file"]).read_bytes()
    told(run("cards", file, "--json"))

    assert first["cards_file"] == str(Path("cards") / "spacer.pdf")
    assert Path(first["cards_file"]).read_bytes() == before
    assert before.startswith(b"%PDF")


@pytest.mark.slow
def test_cards_asked_for_again_are_of_the_file_as_it_is_now(run: Run) -> None:
    name = write(SPACER)
    run("plan", name)
    write(SPACER.replace('long = "12"', 'long = "14"'))
    old = told(run("cards", name, "--json"))
    answer = run("cards", name, "--again")
    now = told(run("cards", name, "--json"))

    assert old["stale"]
    assert answer.exit_code == 0
    assert answer.stdout.splitlines()[0] == "spacer.toml: planned; kept in spacer.plan.json"
    assert not now["stale"]
    assert told(run("plan", name, "--json"))["stale"] is False


def test_cards_of_a_drawing_with_two_things_to_mend_name_both(run: Run) -> None:
    hole = '[hole.{0}]\nin = "right"\nsize = "4 x 6"\nat = ["20 off body", "0° from top"]\n'
    result = run("cards", write(SPACER + hole.format("a") + hole.format("b")))

    assert result.exit_code == 1
    assert result.stderr == (
        "spacer.toml cannot be planned: the drawing has 2 things to mend\n"
        "  where: spacer.toml\n"
        "  why: a goes into no metal; b goes into no metal\n"
        "  try: halfthou check spacer.toml says of each what to try\n"
    )


def test_work_that_does_not_end_is_left_behind(monkeypatch: pytest.MonkeyPatch) -> None:
    may_end = threading.Event()

    def interrupt(*_: object) -> bool:
        raise KeyboardInterrupt

    def work(**_: object) -> None:
        may_end.wait()

    monkeypatch.setattr("halfthou.cli.patience._show", interrupt)
    monkeypatch.setattr("halfthou.cli.patience._QUIET_SECONDS", 0.0)
    monkeypatch.setattr("halfthou.cli.patience._GRACE_SECONDS", 0.0)
    with pytest.raises(KeyboardInterrupt):
        with_progress("drawing", work)
    stuck = left_behind()
    may_end.set()
    for thread in threading.enumerate():
        if thread.name == "halfthou at work":
            thread.join()

    assert stuck
    assert not left_behind()


def test_work_that_fails_raises_in_the_main_thread() -> None:
    def work(**_: object) -> int:
        raise ValueError("broken")

    with pytest.raises(ValueError, match="broken"):
        with_progress("working", work)


def test_ctrl_c_stops_the_work_and_waits_for_its_end(monkeypatch: pytest.MonkeyPatch) -> None:
    ended = threading.Event()

    def interrupt(*_: object) -> bool:
        raise KeyboardInterrupt

    def work(*, on_progress: object, should_stop: Callable[[], bool]) -> None:
        del on_progress
        pause = threading.Event()
        while not should_stop():
            pause.wait(0.01)
        ended.set()

    monkeypatch.setattr("halfthou.cli.patience._show", interrupt)
    monkeypatch.setattr("halfthou.cli.patience._QUIET_SECONDS", 0.05)
    with pytest.raises(KeyboardInterrupt):
        with_progress("working", work)

    assert ended.is_set()


def test_every_command_stands_in_the_documentation_with_its_schema() -> None:
    text = (ROOT / "docs" / "commands.md").read_text("utf-8")
    for command in app.registered_commands:
        name = command.name or getattr(command.callback, "__name__", "")
        assert f"\n## {name}\n" in text
        schema = json.loads((ROOT / "docs" / "json" / f"{name}.schema.json").read_text("utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="a console's Ctrl-C cannot be sent to one process")
def test_ctrl_c_while_planning_leaves_nothing_behind(tmp_path: Path) -> None:
    arbor = files("halfthou.demo").joinpath("arbor.toml").read_bytes()
    (tmp_path / "arbor.toml").write_bytes(arbor)
    words = [sys.executable, "-m", "halfthou", "plan", "arbor.toml"]
    # a run in a shell's background starts deaf to Ctrl-C, and would hand that down
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        planning = subprocess.Popen(words, cwd=tmp_path, stderr=subprocess.PIPE, text=True)
    finally:
        signal.signal(signal.SIGINT, before)
    assert planning.stderr is not None
    first = planning.stderr.readline()
    planning.send_signal(signal.SIGINT)
    rest = planning.communicate(timeout=60)[1]

    assert first == "planning winding arbor (Ctrl-C stops it)\n"
    assert rest == "stopped; nothing is left half-written\n"
    assert planning.returncode == 130
    assert [path.name for path in tmp_path.iterdir()] == ["arbor.toml"]
