"""`records`: the record book."""

from __future__ import annotations

from pathlib import Path

import click

from harnessdoc.commands.shared import harness_argument, make, out_option


@click.command()
@harness_argument
@out_option
def records(harness: Path, out: Path | None) -> None:
    """Make the record book: static pages at the addresses that the labels hold.

    Example: harnessdoc records sample_harness, then open out/records/index.html
    """
    from harnessdoc.products import record_files

    make(harness, out, record_files)
