"""`pack`: everything in one folder. `new`: a file to start from."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click

from harnessdoc.commands.printing import dpi_option, stock_option
from harnessdoc.commands.shared import (
    EXIT_FINDINGS,
    fail,
    guarded,
    harness_argument,
    out_folder,
    out_option,
    read_job,
    stage_teller,
    tell_notes,
)


@click.command()
@harness_argument
@out_option
@stock_option
@dpi_option
def pack(harness: Path, out: Path | None, stocks: tuple[str, ...], dpi: int) -> None:
    """Make everything, in one folder with a binder and a manifest. Exit 1 while `danger` findings stand.

    Example: harnessdoc pack sample_harness
    """
    from harnessdoc.checks.report_text import summary
    from harnessdoc.model.finding import Severity
    from harnessdoc.outfolder import OutputError
    from harnessdoc.pack import pack_files, write_pack

    job = read_job(harness, stocks=stocks, dpi=dpi)
    files = guarded(lambda: pack_files(job, stage_teller()))
    target = out_folder(harness, out)
    try:
        folder = write_pack(job, files, target)
    except OutputError as error:
        fail(str(error))
    tell_notes(job)
    for path in files:
        click.echo(folder / path)
    click.echo(target / "manifest.json")
    click.echo(f"content mark {job.mark}: {summary(job.report)}")
    if job.report.count(Severity.DANGER):
        click.echo("danger findings stand: read check.txt before you power up", err=True)
        sys.exit(EXIT_FINDINGS)


@click.command()
@click.argument("folder", type=click.Path(path_type=Path), default=Path())
def new(folder: Path) -> None:
    """Write a starter file, harness.yaml, with comments. Nothing is overwritten.

    Example: harnessdoc new my_machine
    """
    from harnessdoc.outfolder import OutputError, write_files
    from harnessdoc.starter import STARTER

    target = folder / "harness.yaml"
    if os.path.lexists(target):
        fail(f"{target}: is there already; nothing was written")
    try:
        write_files(folder, {"harness.yaml": STARTER.encode()})
    except OutputError as error:
        fail(str(error))
    click.echo(target)
