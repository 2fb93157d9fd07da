"""`check`: what is wrong, unknown or not verified."""

from __future__ import annotations

import gc
import os
import sys
from pathlib import Path

import click

from harnessdoc.commands.shared import EXIT_FINDINGS, harness_argument, read


@click.command()
@harness_argument
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option(
    "--at-least",
    type=click.Choice(["danger", "fault", "doubt"]),
    default="fault",
    show_default=True,
    help="The least severity that makes the exit status 1.",
)
def check(harness: Path, form: str, at_least: str) -> None:
    """Say what is wrong, unknown or not verified, and what is live when.

    Example: harnessdoc check sample_harness --at-least danger
    """
    from harnessdoc.checks.report_text import as_data, as_text
    from harnessdoc.checks.rule import case_of
    from harnessdoc.checks.run import check_case
    from harnessdoc.electrics.operation import live_table
    from harnessdoc.model.finding import Severity

    case = case_of(read(harness))
    report, tables = check_case(case), live_table(case.study)
    if form == "json":
        import json

        click.echo(json.dumps(as_data(report, tables), indent=1))
    else:
        colour = sys.stdout.isatty() and "NO_COLOR" not in os.environ
        click.echo(as_text(report, colour, tables), nl=False)
    gc.freeze()  # the process ends here: nothing is looked through for cycles once more
    if report.at_least(Severity[at_least.upper()]):
        sys.exit(EXIT_FINDINGS)
