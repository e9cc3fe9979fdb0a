"""Every command with its arguments; the work of each is in a file of its own, loaded on demand."""

# ruff: noqa: PLC0415  (imports stand in the commands, so that --help need not wait for a solver)
from __future__ import annotations

import os
import sys
import traceback
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Final, TypeAlias

import typer

app: Final = typer.Typer(
    help="From a drawing and a lump of metal to job cards, for one part at a time.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
)

BUG: Final = 70
"""Status after a fault of the program itself."""

Json: TypeAlias = Annotated[
    bool, typer.Option("--json", help="Print the answer as JSON, for programs.")
]
PartFile: TypeAlias = Annotated[
    Path, typer.Argument(metavar="FILE", help="A part file, such as arbor.toml.")
]

PartOrFolder: TypeAlias = Annotated[
    Path,
    typer.Argument(
        metavar="FILE|FOLDER", help="A part file, or the folder of a project's part files."
    ),
]


def _tell_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        typer.echo(f"halfthou {version('halfthou')}")
        raise typer.Exit


@app.callback()
def halfthou(
    version: Annotated[
        bool,
        typer.Option(
            "--version", is_eager=True, callback=_tell_version, help="Print the version, and end."
        ),
    ] = False,
) -> None:
    """From a drawing and a lump of metal to job cards, for one part at a time."""
    del version


class Shown(StrEnum):
    """Units of the figures on the cards."""

    mm = "mm"
    inch = "in"
    both = "both"


class Sheet(StrEnum):
    """Paper the cards are printed on."""

    a4 = "a4"
    a5 = "a5"
    letter = "letter"


@app.command()
def new(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What the part is called.")],
    milled: Annotated[
        bool, typer.Option("--milled", help="Start from a block instead of a round bar.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Write a part file to start from, with remarks.

    halfthou new spacer
    """
    from halfthou.cli.answer import give
    from halfthou.cli.new import start_part

    raise typer.Exit(give("new", lambda: start_part(name, milled=milled), as_json=as_json))


@app.command()
def check(file: PartFile, as_json: Json = False) -> None:
    """Read a part file and check its drawing.

    halfthou check arbor.toml
    """
    from halfthou.cli.answer import give
    from halfthou.cli.check import check_part

    raise typer.Exit(give("check", lambda: check_part(file), as_json=as_json))


@app.command()
def plan(
    file: PartOrFolder,
    again: Annotated[
        bool, typer.Option("--again", help="Plan anew and show what is different.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Plan how to make a part, or every part of a folder; a plan once made is kept.

    halfthou plan arbor.toml
    """
    from halfthou.cli.answer import give
    from halfthou.cli.plan import plan_part
    from halfthou.cli.plan_folder import plan_folder

    work = plan_folder if file.is_dir() else plan_part
    raise typer.Exit(give("plan", lambda: work(file, again=again), as_json=as_json))


@app.command()
def cards(
    file: PartFile,
    units: Annotated[Shown, typer.Option(help="Units of the figures.")] = Shown.mm,
    paper: Annotated[Sheet, typer.Option(help="Size of the paper.")] = Sheet.a4,
    again: Annotated[
        bool, typer.Option("--again", help="Plan anew first, as plan --again does.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Make the job cards of a planned part as PDF, in the folder cards beside it.

    halfthou cards arbor.toml --units both
    """
    from halfthou.cli.answer import give
    from halfthou.cli.cards import make_cards

    raise typer.Exit(
        give(
            "cards",
            lambda: make_cards(file, units=units.value, paper=paper.value, again=again),
            as_json=as_json,
        )
    )


@app.command(name="open")
def open_folder(
    folder: Annotated[
        Path, typer.Argument(metavar="FOLDER", help="The folder of the part files.")
    ] = Path(),
    port: Annotated[
        int, typer.Option(min=0, max=65535, help="Port of the pages; 0 takes a free one.")
    ] = 8417,
    browser: Annotated[
        bool, typer.Option("--browser", help="Open the web browser there too.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Show the parts of a folder in the web browser, redrawn as their files are saved.

    halfthou open halfthou-demo
    """
    from halfthou.cli.answer import give
    from halfthou.cli.open_folder import show_folder

    raise typer.Exit(
        give(
            "open",
            lambda: show_folder(folder, port=port, browser=browser, as_json=as_json),
            as_json=False,
        )
    )


@app.command()
def demo(
    folder: Annotated[Path, typer.Option(help="Where to put the demo project.")] = Path(
        "halfthou-demo"
    ),
    then_open: Annotated[
        bool, typer.Option("--open", help="Show it in the web browser afterwards.")
    ] = False,
    as_json: Json = False,
) -> None:
    """Lay out the demo project, check and plan its parts, and make their cards.

    halfthou demo
    """
    from halfthou.cli.answer import give, remark, say
    from halfthou.cli.demo import run_demo

    tell = remark if as_json else say
    status = give("demo", lambda: run_demo(folder, tell=tell), as_json=as_json)
    if then_open and status == 0:
        open_folder(folder, browser=True)
    raise typer.Exit(status)


def run() -> None:
    """Run the command that was typed."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    try:
        app()
    except SystemExit as end:
        from halfthou.cli.answer import STOPPED

        if end.code == STOPPED:
            _leave_at_once(STOPPED)
        raise
    except Exception:  # noqa: BLE001  (a fault of the program: shown whole, with a status of its own)
        traceback.print_exc()
        sys.exit(BUG)


def _leave_at_once(status: int) -> None:
    """Leave without waiting for work that was stopped and does not end by itself."""
    from halfthou.cli.patience import left_behind

    if left_behind():
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(status)
