from __future__ import annotations

from pathlib import Path

import pytest

from halfthou.errors import InputFault
from halfthou.store.writing import write_whole


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_text_is_written_as_utf_8_with_line_feeds(tmp_path: Path) -> None:
    write_whole(tmp_path / "part.toml", "size = 'Ø 20'\n")

    assert (tmp_path / "part.toml").read_bytes() == "size = 'Ø 20'\n".encode()


def test_a_folder_that_is_not_there_is_made(tmp_path: Path) -> None:
    write_whole(tmp_path / "cards" / "arbor.pdf", b"%PDF")

    assert (tmp_path / "cards" / "arbor.pdf").read_bytes() == b"%PDF"


def test_nothing_is_written_over_unasked(tmp_path: Path) -> None:
    path = tmp_path / "part.toml"
    path.write_text("mine")
    with pytest.raises(InputFault) as caught:
        write_whole(path, "theirs")

    assert str(caught.value) == (
        "part.toml is there already\n"
        f"  where: {path}\n"
        "  why: nothing is written over unasked\n"
        "  try: give another name, or move the file away first"
    )
    assert path.read_text() == "mine"


def test_a_file_is_written_over_when_that_is_asked(tmp_path: Path) -> None:
    path = tmp_path / "cards.pdf"
    path.write_bytes(b"old")
    write_whole(path, b"new", replace=True)

    assert path.read_bytes() == b"new"
    assert names(tmp_path) == ["cards.pdf"]


def test_a_writing_that_fails_leaves_nothing_behind(tmp_path: Path) -> None:
    blocked = tmp_path / "cards.pdf"
    blocked.mkdir()
    (blocked / "something").write_text("kept")
    with pytest.raises(InputFault) as caught:
        write_whole(blocked, b"new", replace=True)

    assert caught.value.what == "cards.pdf cannot be written"
    assert names(tmp_path) == ["cards.pdf"]
    assert names(blocked) == ["something"]
