"""The pages served on this machine, until Ctrl-C."""

from __future__ import annotations

import socket
from pathlib import Path

import uvicorn

from halfthou.pages.app import app_for
from halfthou.pages.shelf import Shelf


def serve(folder: Path, listening: socket.socket) -> None:
    """Serve the pages of a folder on a socket that listens already."""
    host, port = listening.getsockname()[:2]
    shelf = Shelf(folder)
    app = app_for(shelf, hosts=frozenset({f"{host}:{port}", f"localhost:{port}"}))
    config = uvicorn.Config(
        app, log_level="warning", access_log=False, lifespan="off", timeout_graceful_shutdown=2
    )
    try:
        uvicorn.Server(config).run(sockets=[listening])
    except KeyboardInterrupt:
        pass
    finally:
        shelf.runs.stop_all()
        listening.close()
