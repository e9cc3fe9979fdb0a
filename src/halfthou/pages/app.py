"""The addresses of the pages and what answers at each."""

from __future__ import annotations

import secrets
from importlib.resources import as_file, files
from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.requests import Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from halfthou.cards.cards import Paper
from halfthou.pages import part_page, plan_page, project_page
from halfthou.pages.guard import Guard
from halfthou.pages.planning_run import about, run_work
from halfthou.pages.shelf import Seen, Shelf
from halfthou.present.numbers import Units

_TEMPLATES = Environment(
    loader=PackageLoader("halfthou.pages"),
    autoescape=True,
    undefined=StrictUndefined,
    trim_blocks=True,
    lstrip_blocks=True,
)
_UNITS: dict[str, Units] = {"mm": "mm", "in": "in", "both": "both"}
_PAPERS: dict[str, Paper] = {"a4": "A4", "a5": "A5", "letter": "Letter"}


def app_for(shelf: Shelf, *, hosts: frozenset[str]) -> Starlette:
    """Give the pages of a folder, answering under these names only."""
    answers = _Answers(shelf)
    with as_file(files("halfthou.pages") / "static") as own:
        static = StaticFiles(directory=own)
    with as_file(files("fontpkg_fira_sans") / "files") as fonts:
        letters = StaticFiles(directory=fonts)
    return Starlette(
        routes=[
            Route("/", answers.project),
            Route("/version", answers.version),
            Route("/part/{name}", answers.part),
            Route("/part/{name}/plan", answers.plan, methods=["GET"]),
            Route("/part/{name}/plan", answers.ask, methods=["POST"]),
            Route("/part/{name}/cards.pdf", answers.cards),
            Route("/shaded/{name}.png", answers.shaded),
            Mount("/static", static),
            Mount("/type", letters),
        ],
        middleware=[Middleware(Guard, hosts=hosts)],
        exception_handlers={404: answers.missing, 500: answers.broken},
    )


class _Answers:
    """One function an address; each loads, calls, and hands a finished view to its template."""

    def __init__(self, shelf: Shelf) -> None:
        self.shelf = shelf

    def project(self, request: Request) -> Response:
        """Show the parts of the folder."""
        return _page("project.html", request, view=project_page.view(self.shelf))

    def part(self, request: Request) -> Response:
        """Show one part as drawn, with what the check noticed."""
        seen = self._seen(request)
        return _page("part.html", request, view=part_page.view(self.shelf, seen))

    def plan(self, request: Request) -> Response:
        """Show the plan of a part."""
        seen = self._seen(request)
        units = _UNITS.get(request.query_params.get("units", ""), "mm")
        self.shelf.runs.let_go(seen.name, about=about(self.shelf, seen))
        view = plan_page.view(self.shelf, seen, units=units)
        return _page("plan.html", request, view=view, entry=secrets.token_hex(8))

    async def ask(self, request: Request) -> Response:
        """Take a wish: plan, plan again, or stop."""
        seen = self._seen(request)
        async with request.form(max_files=0, max_fields=4) as form:
            wish, entry = str(form.get("wish", "")), str(form.get("entry", ""))
        if wish == "stop":
            self.shelf.runs.stop(seen.name)
        elif wish == "plan" and seen.on_disk.part is not None:
            work = run_work(self.shelf, seen)
            self.shelf.runs.start(seen.name, entry=entry, work=work, about=about(self.shelf, seen))
        return RedirectResponse(f"/part/{seen.name}/plan", status_code=303)

    def cards(self, request: Request) -> Response:
        """Give the cards of a planned part as PDF."""
        seen = self._seen(request)
        if seen.plan.kept is None:
            raise HTTPException(404)
        units = _UNITS.get(request.query_params.get("units", ""), "mm")
        paper = _PAPERS.get(request.query_params.get("paper", ""), "A4")
        made = plan_page.cards(self.shelf, seen.plan.kept, units=units, paper=paper)
        named = {"Content-Disposition": f'inline; filename="{seen.name}.pdf"'}
        return Response(made, media_type="application/pdf", headers=named)

    def shaded(self, request: Request) -> Response:
        """Give a shaded view that stands in a picture."""
        data = self.shelf.shaded.get(request.path_params["name"])
        if data is None:
            raise HTTPException(404)
        kept = {"Cache-Control": "private, max-age=86400, immutable"}
        return Response(data, media_type="image/png", headers=kept)

    def version(self, request: Request) -> Response:
        """Say whether a page would look different by now."""
        name = request.query_params.get("part") or None
        if name is not None and self.shelf.path(name) is None:
            return JSONResponse({"version": "gone"})
        return JSONResponse({"version": self.shelf.version(name)})

    def missing(self, request: Request, _: Exception) -> Response:
        """Say that nothing is here."""
        return _page("missing.html", request, status=404, names=self.shelf.names())

    def broken(self, request: Request, error: Exception) -> Response:
        """Say that the program has a fault; its traceback stands where it was started."""
        said = f"{type(error).__name__}: {error}"
        return _page("broken.html", request, status=500, said=said)

    def _seen(self, request: Request) -> Seen:
        path = self.shelf.path(request.path_params["name"])
        if path is None:
            raise HTTPException(404)
        return self.shelf.see(path)


def _page(template: str, request: Request, *, status: int = 200, **values: Any) -> Response:  # noqa: ANN401
    text = _TEMPLATES.get_template(template).render(here=request.url.path, **values)
    return HTMLResponse(text, status_code=status)
