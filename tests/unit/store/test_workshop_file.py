"""The person's workshop file goes over the default one."""

from dataclasses import replace
from pathlib import Path

import pytest

from halfthou.errors import Faults, InputFault
from halfthou.store.workshop_file import read_workshop, workshop_for, write_workshop
from halfthou.workshop.default import default_workshop


def test_without_a_file_the_default_workshop_is_used_and_says_so(tmp_path: Path) -> None:
    shop = workshop_for(tmp_path, own=tmp_path / "none.toml")

    assert shop.built_in


def test_the_projects_file_goes_over_the_persons(tmp_path: Path) -> None:
    own = tmp_path / "mine.toml"
    own.write_text('saw_kerf_mm = 2\n[mill."big mill"]\nreadout = true\n', encoding="utf-8")
    (tmp_path / "workshop.toml").write_text("saw_kerf_mm = 1.2\n", encoding="utf-8")
    shop = workshop_for(tmp_path, own=own)

    assert not shop.built_in
    assert shop.saw_kerf == 1.2
    assert [mill.name for mill in shop.mills] == ["big mill"]
    assert shop.mills[0].readout


def test_what_is_written_is_read_back_the_same(tmp_path: Path) -> None:
    default = default_workshop()
    shop = replace(
        default,
        name="the shed",
        built_in=False,
        saw_kerf=1.1,
        gauges=default.gauges[1:],
        mills=(replace(default.mills[0], readout=True, usual=False),),
    )
    path = tmp_path / "deep" / "workshop.toml"
    write_workshop(shop, path)

    assert read_workshop(path) == shop


def test_a_file_of_the_persons_is_not_written_over_unasked(tmp_path: Path) -> None:
    path = tmp_path / "workshop.toml"
    path.write_text("# mine\n", encoding="utf-8")
    with pytest.raises(InputFault, match=r"workshop\.toml is there already"):
        write_workshop(default_workshop(), path)

    assert path.read_text(encoding="utf-8") == "# mine\n"


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"name = \xff", "is not UTF-8 text"),
        (b"name = = 2", "is not TOML"),
        (b"#" * 1_000_001, "is too large"),
    ],
)
def test_a_file_that_cannot_be_read_says_why(tmp_path: Path, content: bytes, says: str) -> None:
    path = tmp_path / "workshop.toml"
    path.write_bytes(content)
    with pytest.raises(Faults) as caught:
        read_workshop(path)

    assert says in str(caught.value)


def test_a_folder_in_the_place_of_a_workshop_file_is_not_passed_over(tmp_path: Path) -> None:
    (tmp_path / "workshop.toml").mkdir()
    with pytest.raises(Faults, match=r"workshop\.toml cannot be read"):
        workshop_for(tmp_path, own=tmp_path / "none.toml")
