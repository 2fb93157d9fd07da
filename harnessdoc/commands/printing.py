"""`labels`: the label sheets."""

from __future__ import annotations

from pathlib import Path

import click

from harnessdoc.commands.shared import harness_argument, make, out_option


@click.command()
@harness_argument
@out_option
@click.option("--stock", metavar="NAME", help="Label stock, a name from layouts/labels.")
@click.option(
    "--dpi", type=click.IntRange(150, 1200), default=300, show_default=True, help="The printer's dots an inch."
)
@click.option("--start", type=click.IntRange(1), default=1, show_default=True, help="First free label of a used sheet.")
def labels(harness: Path, out: Path | None, stock: str | None, dpi: int, start: int) -> None:
    """Make label sheets: both ends of every wire, and every stub, in working order.

    Print at 100 %, never "fit to page". Example: harnessdoc labels sample_harness --dpi 203
    """
    from harnessdoc.products import label_files

    make(harness, out, label_files, stock=stock, dpi=dpi, start=start)
