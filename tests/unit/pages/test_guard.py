from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from halfthou.pages.app import app_for
from halfthou.pages.guard import POLICY
from halfthou.pages.shelf import Shelf

HOST = "127.0.0.1:8417"
HERE = {"origin": f"http://{HOST}"}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "own"))
    laid = tmp_path / "clock"
    laid.mkdir()
    arbor = files("halfthou.demo").joinpath("arbor.toml").read_bytes()
    (laid / "arbor.toml").write_bytes(arbor)
    return laid


@pytest.fixture
def client(folder: Path) -> TestClient:
    app = app_for(Shelf(folder), hosts=frozenset({HOST}))
    return TestClient(app, base_url=f"http://{HOST}", follow_redirects=False)


def test_every_answer_carries_the_strictest_policy(client: TestClient) -> None:
    for path in ("/", "/nothing", "/static/sheet.css", "/version"):
        answer = client.get(path)
        assert answer.headers["content-security-policy"] == POLICY
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["referrer-policy"] == "same-origin"


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1:1", "127.0.0.1", ""])
def test_a_request_under_another_name_is_refused(client: TestClient, host: str) -> None:
    assert client.get("/", headers={"host": host}).status_code == 421


@pytest.mark.parametrize("origin", [{}, {"origin": "null"}, {"origin": "http://evil.example"}])
def test_a_wish_from_another_page_is_refused(client: TestClient, origin: dict[str, str]) -> None:
    wish = {"wish": "stop", "entry": "1"}
    answer = client.post("/part/arbor/plan", data=wish, headers=origin)

    assert answer.status_code == 403


def test_a_wish_from_these_pages_is_taken(client: TestClient) -> None:
    answer = client.post("/part/arbor/plan", data={"wish": "stop", "entry": "1"}, headers=HERE)

    assert (answer.status_code, answer.headers["location"]) == (303, "/part/arbor/plan")


@pytest.mark.parametrize(
    "path",
    ["/part/nothing", "/part/..%2Fown", "/part/arbor/cards.pdf", "/static/../guard.py", "/docs"],
)
def test_what_is_no_part_of_the_folder_is_not_found(client: TestClient, path: str) -> None:
    assert client.get(path).status_code == 404


def test_a_name_in_a_part_file_cannot_put_script_on_a_page(
    client: TestClient, folder: Path
) -> None:
    path = folder / "arbor.toml"
    text = path.read_text("utf-8").replace("winding arbor", "<script>alert(1)</script>")
    path.write_text(text, "utf-8")
    page = client.get("/part/arbor").text

    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page


def test_the_version_changes_with_the_file_and_stands_while_it_stands(
    client: TestClient, folder: Path
) -> None:
    first = client.get("/version?part=arbor").json()
    second = client.get("/version?part=arbor").json()
    path = folder / "arbor.toml"
    path.write_text(path.read_text("utf-8") + "\n# seen\n", "utf-8")
    third = client.get("/version?part=arbor").json()

    assert first == second
    assert third != first


def test_a_workshop_file_with_faults_is_told_on_the_plan(client: TestClient, folder: Path) -> None:
    (folder / "workshop.toml").write_text("[lathe", "utf-8")
    (folder / "arbor.plan.json").write_text("{}", "utf-8")
    page = client.get("/part/arbor/plan").text

    assert "workshop.toml is not TOML" in page or "plan format" in page
