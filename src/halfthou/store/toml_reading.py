"""Files of this program's own: size looked at first, then bytes to text, then TOML to tables."""

from __future__ import annotations

import errno
import re
import stat
from pathlib import Path
from typing import Any, Final, TypeAlias

import tomlkit
from tomlkit.exceptions import KeyAlreadyPresent, ParseError, TOMLKitError

from halfthou.errors import Faults, InputFault

Table: TypeAlias = dict[str, Any]
LARGEST: Final = 1_000_000
"""Bytes; a drawing of one part is some kilobytes."""


def read_text(path: Path) -> str:
    """Read a text file of at most 1 MB.

    Raises
    ------
    Faults
        If it is not there, cannot be read, is too large, or not UTF-8.
    """
    try:
        data = _bytes_of(path)
    except FileNotFoundError:
        raise _alone(
            InputFault(
                f"there is no file {path.name}",
                where=str(path),
                why="the folder is there, the file is not"
                if path.parent.is_dir()
                else f"there is no folder {path.parent}",
                tries=("check the name and the folder",),
            )
        ) from None
    except OSError as error:
        raise _alone(
            InputFault(
                f"{path.name} cannot be read",
                where=str(path),
                why=(error.strerror or str(error)).lower(),
                tries=("see who may read it", "name another file"),
            )
        ) from None
    return text_of(data, name=path.name)


def _bytes_of(path: Path) -> bytes:
    """Bytes of a file on disk; what is none, a pipe say, may never end."""
    found = path.stat()
    if stat.S_ISDIR(found.st_mode):
        raise IsADirectoryError(errno.EISDIR, "it is a folder")
    if not stat.S_ISREG(found.st_mode):
        raise OSError(errno.EINVAL, "it is no file on disk")
    if found.st_size > LARGEST:
        raise _alone(
            InputFault(
                f"{path.name} is too large: {found.st_size / 1e6:.1f} MB against 1 MB",
                where=str(path),
                why="a drawing of one part is some kilobytes; this is something else",
                tries=("name another file",),
            )
        )
    return path.read_bytes()


def text_of(data: bytes, *, name: str) -> str:
    """Bytes of a file as text.

    Raises
    ------
    Faults
        If the bytes are not UTF-8.
    """
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise _alone(
            InputFault(
                f"{name} is not UTF-8 text: byte {data[error.start]:#04x} on line {line}",
                where=f"{name}, line {line}",
                why="the file was saved in another encoding, or is no text at all",
                tries=("save it again as UTF-8",),
            )
        ) from None


def parse_toml(text: str, *, name: str) -> Table:
    """Tables of a TOML text, as plain values.

    Raises
    ------
    Faults
        If the text is empty, too long, or not TOML.
    """
    if len(text.encode()) > LARGEST:
        raise _alone(InputFault(f"{name} is too large: over 1 MB", where=name))
    if not re.sub(r"#.*", "", text).strip():
        raise _alone(
            InputFault(
                f"{name} is empty",
                where=name,
                tries=("begin with [part]", "let halfthou new write a file to start from"),
            )
        )
    try:
        return tomlkit.parse(text).unwrap()
    except ParseError as error:
        raise _alone(_not_toml(text, name, error)) from None
    except (TOMLKitError, ValueError) as error:
        raise _alone(_repeated(text, name, error)) from None


def _not_toml(text: str, name: str, error: ParseError) -> InputFault:
    lines = text.splitlines()
    shown = lines[error.line - 1].strip() if 0 < error.line <= len(lines) else ""
    message = str(error)
    if "already exists" in message or "already present" in message:
        return _repeated(text, name, error)
    why = re.sub(r"\s+at line \d+ col \d+$", "", message)
    if "ontrol characters" in why:
        why = "a text that begins with a quotation mark ends with one on the same line"
    if "nvalid key" in why:
        why = "it is neither a key with its text nor the name of a table in brackets"
    return InputFault(
        f"{name} is not TOML: line {error.line} cannot be read",
        where=f"{name}, line {error.line}: {shown}" if shown else f"{name}, line {error.line}",
        why=why[:1].lower() + why[1:],
        tries=('write keys as key = "text" and tables as [kind.name]',),
    )


def _repeated(text: str, name: str, error: Exception) -> InputFault:
    found = re.search(r'[Kk]ey "?([^"]+?)"? already', str(error))
    key = found[1] if found else ""
    if not key and not isinstance(error, KeyAlreadyPresent):
        return InputFault(f"{name} is not TOML: {error}", where=name)
    line = _second_line(text, key)
    return InputFault(
        f"'{key}' is written twice",
        where=f"{name}, line {line}" if line else name,
        why="names of features, and keys in a table, are written once",
        tries=("give one of the two another name", "take one of the two out"),
    )


def _second_line(text: str, key: str) -> int:
    seen = set()
    heading = re.compile(r"\s*\[([^\]]+)\]")
    table = ""
    for number, line in enumerate(text.splitlines(), start=1):
        if found := heading.match(line):
            table = found[1].strip()
            if table in seen and table.rpartition(".")[2] == key:
                return number
            seen.add(table)
        elif found := re.match(r"\s*([\w-]+)\s*=", line):
            if (table, found[1]) in seen and found[1] == key:
                return number
            seen.add((table, found[1]))
    return 0


def _alone(fault: InputFault) -> Faults:
    return Faults(fault.what, [fault])
