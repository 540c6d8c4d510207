"""The command line: one module per command, each asks `plan` and computes nothing."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Annotated

import typer

from lapwright import __version__

app = typer.Typer(
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Plans self-adhered SBS-modified-bitumen roofs: what goes where, what to order, which hours are fit, "
    "what each crew does each day.",
)
Job = Annotated[Path, typer.Argument(metavar="JOB.yaml", help="The job file.", show_default=False)]
Quiet = Annotated[bool, typer.Option("--quiet", "-q", help="No progress lines.")]


def show_version(wanted: bool) -> None:
    """Print the version and stop."""
    if wanted:
        typer.echo(f"lapwright {__version__}")
        raise typer.Exit


@app.callback()
def main(
    version: Annotated[
        bool, typer.Option("--version", callback=show_version, is_eager=True, help="Print the version and stop.")
    ] = False,
) -> None:
    """Lapwright."""


@app.command("plan")
def plan_command(
    job: Job,
    out: Annotated[
        Path,
        typer.Option("--out", metavar="DIR", help="Folder to write; whole, or left as it was.", show_default=False),
    ],
    strict: Annotated[bool, typer.Option("--strict", help="Exit 1 on unknown checks as well.")] = False,
    quiet: Quiet = False,
) -> None:
    """Plan the whole job and write the packet and its files to a folder."""
    from lapwright.cli.plan import plan  # each command loads only what it needs

    raise typer.Exit(plan(job, out, strict=strict, quiet=quiet))


@app.command("check")
def check_command(
    job: Job,
    layout: Annotated[
        Path | None,
        typer.Option(
            "--layout", metavar="FILE.json", help="A layout as built, shaped like plan.json.", show_default=False
        ),
    ] = None,
    quiet: Quiet = False,
) -> None:
    """Read and check the job file alone; or check a layout as built against its rules."""
    from lapwright.cli.check import check

    raise typer.Exit(check(job, layout, quiet=quiet))


@app.command("example")
def example_command(
    directory: Annotated[Path, typer.Argument(metavar="DIR", help="Folder to put the example in.", show_default=False)],
) -> None:
    """Put a complete example job into a folder."""
    from lapwright.cli.example import example

    raise typer.Exit(example(directory))


@app.command("morning")
def morning_command(  # its options are the command's
    job: Job,
    forecast: Annotated[
        str | None,
        typer.Option(
            "--forecast",
            metavar="nws|FILE.json",
            help="The US National Weather Service's forecast, or a saved one; without it the job's weather year.",
            show_default=False,
        ),
    ] = None,
    day: Annotated[
        str | None,
        typer.Option(
            "--day",
            metavar="DATE",
            help="The day; else the next of the forecast, or the crew's first.",
            show_default=False,
        ),
    ] = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="FILE.pdf|DIR", help="Where to put morning.pdf.", show_default=False),
    ] = None,
    save: Annotated[
        Path | None,
        typer.Option(
            "--save", metavar="FILE.json", help="Keep the service's replies in this file as well.", show_default=False
        ),
    ] = None,
    proved_speed: Annotated[
        str | None,
        typer.Option("--proved-speed", metavar="SPEED", help="This morning's test weld: 3in/s.", show_default=False),
    ] = None,
    proved_sheet: Annotated[
        str | None,
        typer.Option("--proved-sheet", metavar="TEMP", help="The sheet at the test weld: 25F.", show_default=False),
    ] = None,
    nozzle: Annotated[
        str | None, typer.Option("--nozzle", metavar="TEMP", help="The nozzle's air: 550C.", show_default=False)
    ] = None,
) -> None:
    """The one-page go, wait or stop sheet of a day."""
    from lapwright.cli.morning import morning

    raise typer.Exit(morning(job, forecast, day, out, save, (proved_speed, proved_sheet, nozzle)))


@app.command(
    "figure",
    add_help_option=False,
    context_settings={"ignore_unknown_options": True, "allow_extra_args": True, "help_option_names": []},
)
def figure_command(
    words: Annotated[
        list[str] | None, typer.Argument(metavar="NAME [OPTIONS]", help="The figure and its options.")
    ] = None,
) -> None:
    """One calculation by itself: roll, store, sheet, surface, weld, cord, wind, drain or chill."""
    from lapwright.cli.figure import figure

    raise typer.Exit(figure(words or []))


@app.command("serve")
def serve_command(
    directory: Annotated[
        Path,
        typer.Argument(metavar="[DIR]", help="Folder of the job files; this one if not given.", show_default=False),
    ] = Path(),
    port: Annotated[
        int | None,
        typer.Option("--port", min=0, max=65535, help="Port; else the first free one.", show_default=False),
    ] = None,
    address: Annotated[
        str, typer.Option("--address", help="This machine's own address; no other is served yet.")
    ] = "127.0.0.1",
    browser: Annotated[bool, typer.Option("--browser/--no-browser", help="Open the browser.")] = True,
) -> None:
    """The workspace in a browser, on this machine."""
    from lapwright.cli.serve import serve

    raise typer.Exit(serve(directory, port, address, browser=browser))


def run() -> None:
    """Entry point.  No add-ons of pydantic are looked for: that scan takes longer than reading a job."""
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    app()
