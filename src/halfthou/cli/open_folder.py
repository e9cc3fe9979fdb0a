"""``halfthou open``: the parts of a folder as pages, served on this machine only."""

from __future__ import annotations

import json
import socket
import sys
import webbrowser
from pathlib import Path
from typing import Final

from halfthou.cli.answer import Answer
from halfthou.errors import HalfthouError, InputFault

HOST: Final = "127.0.0.1"


def show_folder(
    folder: Path, *, port: int, browser: bool = False, as_json: bool = False
) -> Answer:
    """Serve the pages of a folder until Ctrl-C."""
    if not folder.is_dir():
        raise InputFault(
            f"{folder} is no folder",
            where=str(folder),
            why="the pages show all parts of one folder",
            tries=(f"halfthou open {folder.parent}",)
            if folder.is_file()
            else ("see that the name is right",),
        )
    listening = _listen(port)
    address = f"http://{HOST}:{listening.getsockname()[1]}/"
    if as_json:
        told = {"command": "open", "done": True, "faults": []}
        print(json.dumps({**told, "folder": str(folder), "address": address}), flush=True)  # noqa: T201
    else:
        print(f"{folder} is shown at {address} (Ctrl-C ends it)", flush=True)  # noqa: T201
    from halfthou.pages.serve import serve  # noqa: PLC0415  (the address stands before the wait)

    if browser:
        webbrowser.open(address)
    serve(folder.resolve(), listening)
    return Answer(lines=())


def _listen(port: int) -> socket.socket:
    listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    if sys.platform != "win32":  # a port just left can be taken again; on Windows it always can
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((HOST, port))
    except OSError as error:
        listening.close()
        raise HalfthouError(
            f"port {port} cannot be used",
            where=f"{HOST}, port {port}",
            why=(error.strerror or str(error)).lower(),
            tries=("halfthou open FOLDER --port 0 takes a free one", "end what else serves there"),
        ) from error
    listening.listen(64)
    return listening
