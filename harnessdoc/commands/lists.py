"""The commands that make lists: `schedules`, and `stubs` with its search."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from harnessdoc.commands.shared import chosen, fail, harness_argument, make, out_option, read_job

if TYPE_CHECKING:
    from harnessdoc.model.quantities import Unit
    from harnessdoc.schedules.asked import Asked, Roll

MOST_BYTES = 1_000_000
"""A file of rolls that is larger is none."""


@click.command()
@harness_argument
@out_option
@click.option(
    "--format",
    "forms",
    multiple=True,
    type=click.Choice(["pdf", "csv", "xlsx"]),
    help="Only this format; may be repeated.  [default: all three]",
)
@click.option("--only", multiple=True, metavar="NAME", help="Only this list, such as cuts; may be repeated.")
@click.option("--paper", metavar="NAME", default="A4", show_default=True, help="A2 to A5, or letter.")
@click.option(
    "--rolls",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Rolls at hand, a CSV with colour, size, length in each line: red, 2.5 mm2, 6.4 m",
)
@click.option("--roll", metavar="LENGTH", default="25 m", show_default=True, help="What a roll to buy holds.")
@click.option("--at-ends", metavar="LENGTH", default="20 mm", show_default=True, help="Cut longer at each end.")
@click.option(
    "--at-places", metavar="LENGTH", default="150 mm", show_default=True, help="From a run to a terminal, at each end."
)
@click.option("--slack", metavar="PERCENT", default="5 %", show_default=True, help="More of a length by runs.")
def schedules(
    harness: Path,
    out: Path | None,
    forms: tuple[str, ...],
    only: tuple[str, ...],
    paper: str,
    rolls: Path | None,
    roll: str,
    at_ends: str,
    at_places: str,
    slack: str,
) -> None:
    """Make lists: wires, cuts, wire to buy, ends, tools, splices, stubs, fuses, relays, plugs, places, bundles, covers.

    Example: harnessdoc schedules sample_harness --format pdf --only cuts --only buy

    Example: harnessdoc schedules sample_harness --rolls rolls.csv --only cutting
    """
    from harnessdoc.schedules.files import FORMS, schedule_files
    from harnessdoc.schedules.lists import LISTS

    asked = _asked(rolls, roll, at_ends, at_places, slack)
    names = chosen(only, LISTS, "list")
    wanted = [form for form in FORMS if not forms or form in forms]
    make(harness, out, lambda job: schedule_files(job.case, job.mark, wanted, names, asked, paper))


@click.command()
@harness_argument
@click.option("--find", "query", metavar="TEXT", help="What a new circuit needs, phrases between commas.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
def stubs(harness: Path, query: str | None, form: str) -> None:
    """List the stubs, tails and splices; or find what can serve a new circuit.

    Example: harnessdoc stubs sample_harness --find "switched 12 V, at least 1.5 mm2, in X4"

    Also: yellow, capped, free, reused, ground, constant, dead, at least 60 mm long, high side, did pump, splice.
    """
    from harnessdoc.registers import told

    job = read_job(harness)
    if query is None:
        said = told.register_data(job.harness) if form == "json" else told.register_text(job.harness)
    else:
        from harnessdoc.registers.find import find
        from harnessdoc.registers.query import QueryError

        try:
            answer = find(job.harness, job.case.study, query)
        except QueryError as error:
            fail(str(error))
        said = told.answer_data(answer) if form == "json" else told.answer_text(answer)
    if isinstance(said, str):
        click.echo(said, nl=False)
    else:
        import json

        click.echo(json.dumps(said, indent=1))


def _asked(rolls: Path | None, roll: str, at_ends: str, at_places: str, slack: str) -> Asked:
    from harnessdoc.model.quantities import Unit
    from harnessdoc.schedules.asked import Allowance, Asked

    allowance = Allowance(
        _quantity("--at-ends", at_ends, Unit.MM),
        _quantity("--at-places", at_places, Unit.MM),
        _quantity("--slack", slack, Unit.PERCENT),
    )
    roll_mm = _quantity("--roll", roll, Unit.MM)
    if not 100 <= roll_mm <= 10_000_000:
        fail("--roll: a roll holds 100 mm to 10 km")
    return Asked(allowance, roll_mm, _rolls(rolls) if rolls is not None else ())


def _quantity(option: str, text: str, unit: Unit) -> float:
    from harnessdoc.model.quantities import QuantityError, parse_quantity

    try:
        return parse_quantity(text, unit, allow_zero=True)
    except QuantityError as error:
        fail(f"{option}: {error}")


def _rolls(path: Path) -> tuple[Roll, ...]:
    from harnessdoc.schedules.asked import RollsError, read_rolls

    try:
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
        if len(data) > MOST_BYTES:
            fail(f"{path}: too large to be a list of rolls")
        return read_rolls(data.decode("utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        fail(f"{path}: can't be read: {getattr(error, 'strerror', None) or 'it is no UTF-8 text'}")
    except RollsError as error:
        fail(f"{path}: {error}")
