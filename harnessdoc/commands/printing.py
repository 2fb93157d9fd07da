"""`labels`: what is tied to wires, stubs, plugs and items, on the stock at hand."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from harnessdoc.commands.shared import fail, harness_argument, make, out_option, read

if TYPE_CHECKING:
    from harnessdoc.model.harness import Harness

stock_option = click.option(
    "--stock",
    "stocks",
    multiple=True,
    metavar="NAME",
    help="Label stock at hand, a name from layouts/labels; may be repeated, the liked best first.",
)
dpi_option = click.option(
    "--dpi", type=click.IntRange(150, 1200), default=300, show_default=True, help="The printer's dots an inch."
)


@click.command()
@harness_argument
@out_option
@stock_option
@dpi_option
@click.option("--start", type=click.IntRange(1), default=1, show_default=True, help="First free label of a used sheet.")
@click.option(
    "--offset",
    type=float,
    nargs=2,
    default=(0.0, 0.0),
    metavar="RIGHT DOWN",
    help="Move the print by so many mm, as found with --calibration.",
)
@click.option("--cut-marks", is_flag=True, help="Outline the labels, for paper that is not cut yet.")
@click.option("--calibration", is_flag=True, help="Make a page with rulers instead, to find the printer's offset.")
@click.option("--before-cut", metavar="PLUG", help="Only what is tied on before this plug is cut, both sides.")
@click.option("--only", multiple=True, metavar="NAME", help="Only this wire, item, plug, circuit or place; repeatable.")
@click.option("--changed-since", metavar="OLD", help="Only labels that say something else than in this file or folder.")
def labels(
    harness: Path,
    out: Path | None,
    stocks: tuple[str, ...],
    dpi: int,
    start: int,
    offset: tuple[float, float],
    cut_marks: bool,
    calibration: bool,
    before_cut: str | None,
    only: tuple[str, ...],
    changed_since: str | None,
) -> None:
    """Make labels: both ends of every wire, stubs, splices, plugs, items and runs, in working order.

    The stock is chosen for each end by what fits the wire and what the place asks; the notes say why.
    Print at 100 %, never "fit to page". Example: harnessdoc labels sample_harness --dpi 203 --stock tape-12
    """
    from harnessdoc.products import LabelsWanted, calibration_files, label_files

    before = _state_before(changed_since) if changed_since else None
    wanted = LabelsWanted(stocks, dpi, start, offset, before_cut, only, before, cut_marks, _progress())
    if calibration:
        make(harness, out, lambda job: calibration_files(job, wanted))
    else:
        make(harness, out, lambda job: label_files(job, wanted))


def _state_before(old: str) -> Harness:
    path = Path(old)
    if not path.exists():
        fail(f"--changed-since: there is no {old}; name a file or folder as it was")
    return read(path)


def _progress() -> Callable[[int, int], None] | None:
    """A bar on a terminal, once the work has taken a while."""
    if not sys.stderr.isatty():
        return None
    import time

    began = time.monotonic()

    def tell(done: int, total: int) -> None:
        if time.monotonic() - began > 2.0 and total:
            full = 30 * done // total
            end = "\n" if done >= total else ""
            click.echo(f"\r[{'#' * full}{'.' * (30 - full)}] {done} of {total}{end}", nl=False, err=True)

    return tell
