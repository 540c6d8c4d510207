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


def run() -> None:
    """Entry point.  No add-ons of pydantic are looked for: that scan takes longer than reading a job."""
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    app()
