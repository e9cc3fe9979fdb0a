"""What every request is asked and every answer carries: this machine only, nothing from afar."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
CARRIED: Final[Mapping[str, str]] = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
}
_READING: Final = frozenset({"GET", "HEAD"})


class Guard:
    """Refuses requests under another name than this machine's, and writes from other pages."""

    def __init__(self, app: ASGIApp, *, hosts: frozenset[str]) -> None:
        self.app = app
        self.hosts = hosts

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                carried = MutableHeaders(scope=message)
                carried.update(CARRIED)
                carried.setdefault("Cache-Control", "no-store")
            await send(message)

        refusal = self._refusal(scope["method"], Headers(scope=scope))
        await (refusal or self.app)(scope, receive, with_headers)

    def _refusal(self, method: str, headers: Headers) -> PlainTextResponse | None:
        host = headers.get("host", "")
        if host not in self.hosts:
            return PlainTextResponse("these pages go by another name\n", status_code=421)
        if method not in _READING and headers.get("origin") != f"http://{host}":
            return PlainTextResponse("sent from another page than these\n", status_code=403)
        return None
