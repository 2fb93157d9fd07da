"""The commands that make sheets: `draw`, `strips`, `faces`, `survey`, `cabinet`, `meter`."""

from __future__ import annotations

from pathlib import Path

import click

from harnessdoc.commands.shared import (
    asked_state,
    chosen,
    harness_argument,
    make,
    out_option,
    paper_option,
    plugs_option,
    state_option,
    upright_option,
)


@click.command()
@harness_argument
@out_option
@click.option("--paper", metavar="NAME", help="A2 to A5, or letter.  [default: A3; A4 at full size]")
@upright_option
@click.option("--full-size", is_flag=True, help="Print trunk and breakouts 1:1 on tiles, to lay and tie wires on.")
@click.option(
    "--longest-straight",
    metavar="LENGTH",
    help='With --full-size: leave the middle of longer runs out, such as "800 mm"; the tiles say how much.',
)
def draw(
    harness: Path, out: Path | None, paper: str | None, upright: bool, full_size: bool, longest_straight: str | None
) -> None:
    """Draw the harness: trunk, breakouts, items, plugs, every wire. SVG sheets and one PDF.

    Example: harnessdoc draw sample_harness --out sheets

    Example: harnessdoc draw sample_harness --full-size --paper A3
    """
    from harnessdoc.products import board_files, drawing_files

    if full_size:
        longest_mm = _length_mm(longest_straight) if longest_straight else None
        make(harness, out, lambda job: board_files(job, paper or "A4", longest_mm))
    elif longest_straight:
        raise click.UsageError("--longest-straight goes with --full-size")
    else:
        make(harness, out, lambda job: drawing_files(job, paper or "A3", upright))


@click.command()
@harness_argument
@out_option
@click.option("--circuit", "circuits", multiple=True, metavar="NAME", help="Only this circuit; may be repeated.")
@state_option
@paper_option("A3")
@upright_option
def strips(
    harness: Path, out: Path | None, circuits: tuple[str, ...], state: str | None, paper: str, upright: bool
) -> None:
    """Draw each circuit from source to return, with volts and amps in a state.

    Without --state each circuit is drawn in the first state of `operation` in which it is live.
    Example: harnessdoc strips sample_harness --circuit pump --state "S1=on, S3=on"
    """
    from harnessdoc.products import strip_files

    make(
        harness,
        out,
        lambda job: strip_files(
            job, chosen(circuits, job.harness.by_circuit, "circuit"), asked_state(job, state), paper, upright
        ),
    )


@click.command()
@harness_argument
@out_option
@plugs_option
@paper_option("A4")
def faces(harness: Path, out: Path | None, plugs: tuple[str, ...], paper: str) -> None:
    """Make a pin-out sheet for each plug, or for those named.

    Example: harnessdoc faces sample_harness --plug X4
    """
    from harnessdoc.products import face_files

    make(harness, out, lambda job: face_files(job, chosen(plugs, job.harness.plugs, "plug"), paper))


@click.command()
@harness_argument
@out_option
@plugs_option
@paper_option("A4")
def survey(harness: Path, out: Path | None, plugs: tuple[str, ...], paper: str) -> None:
    """Make survey sheets, to fill in with the meter before a plug is cut; what is known is printed in.

    Example: harnessdoc survey sample_harness --plug X4
    """
    from harnessdoc.products import survey_files

    make(harness, out, lambda job: survey_files(job, chosen(plugs, job.harness.plugs, "plug"), paper))


@click.command()
@harness_argument
@out_option
@click.option("--place", "places", multiple=True, metavar="NAME", help="Only this place; may be repeated.")
@click.option("--paper", type=click.Choice(["A4", "A5", "letter"]), default="A4", show_default=True)
@click.option("--fold", is_flag=True, help="Both sides of a sheet, to print turned on the short edge and fold.")
def cabinet(harness: Path, out: Path | None, places: tuple[str, ...], paper: str, fold: bool) -> None:
    """Make a sheet to laminate for each place with fuses, relays or plugs: what isolates it, and what is live when.

    Example: harnessdoc cabinet sample_harness --place cab --fold
    """
    from harnessdoc.products import cabinet_files

    make(harness, out, lambda job: cabinet_files(job, chosen(places, job.harness.places, "place"), paper, fold))


@click.command()
@harness_argument
@out_option
def meter(harness: Path, out: Path | None) -> None:
    """Make the meter sheet: what to measure, in which order, and what the meter should read; and what is live when.

    Example: harnessdoc meter sample_harness
    """
    from harnessdoc.products import meter_files

    make(harness, out, meter_files)


def _length_mm(text: str) -> float:
    from harnessdoc.model.quantities import QuantityError, Unit, parse_quantity

    try:
        return parse_quantity(text, Unit.MM)
    except QuantityError as error:
        raise click.BadParameter(str(error), param_hint="--longest-straight") from None
