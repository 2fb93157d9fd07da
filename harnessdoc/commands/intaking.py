"""`intake`: a survey or a wire list comes in; the blank table and the phone's form for it go out."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from harnessdoc.commands.shared import (
    EXIT_FINDINGS,
    EXIT_UNREADABLE,
    chosen,
    fail,
    out_folder,
    out_option,
    read,
    refuse,
)

if TYPE_CHECKING:
    from harnessdoc.intake.problems import IntakeError
    from harnessdoc.intake.table import Sheet
    from harnessdoc.model.harness import Harness, State

MOST_TOLD = 60
"""Faults told at once; who mends so many reads the list again anyway."""


@click.command()
@click.argument("file", type=click.Path(path_type=Path), required=False)
@click.option("--into", type=click.Path(path_type=Path), metavar="HARNESS", help="The harness.  [default: this folder]")
@click.option("--date", metavar="DATE", help="Day of the survey's readings, such as 2026-11-25, where a row has none.")
@click.option("--plug", metavar="NAME", help="The plug of rows that name none.")
@click.option("--key", metavar="ITEM=OFF/ON", help='The key switch and its positions, such as "S1=off/on".')
@click.option(
    "--rest", is_flag=True, help="Take the rest where something contradicts the file; the file's word stands."
)
@click.option("--yes", is_flag=True, help="Write without asking.")
@click.option("--undo", is_flag=True, help="Put back the files that the last intake replaced.")
@click.option("--form", "forms", multiple=True, metavar="PLUG", help="Write the phone's form for a plug.")
@click.option("--template", "templates", multiple=True, metavar="PLUG", help="Write the blank table for a plug.")
@out_option
def intake(
    file: Path | None,
    into: Path | None,
    date: str | None,
    plug: str | None,
    key: str | None,
    rest: bool,
    yes: bool,
    undo: bool,
    forms: tuple[str, ...],
    templates: tuple[str, ...],
    out: Path | None,
) -> None:
    """Merge a survey (CSV, XLSX) into a harness, or start one from a wire list.

    Shows the difference first and asks; without a terminal it only shows, unless --yes. Comments, order and all that
    is not touched stay. Exit 1 where the survey contradicts the file: nothing is written then, unless --rest.

    Example: harnessdoc intake --form X4 --into sample_harness

    Example: harnessdoc intake survey-X4.csv --into sample_harness --date 2026-11-25

    Example: harnessdoc intake wires.xlsx --into my_machine
    """
    from harnessdoc.intake.problems import IntakeError
    from harnessdoc.reading import ReadingError

    into = into or Path()
    wanted = sum((file is not None, undo, bool(forms or templates)))
    if wanted != 1:
        raise click.UsageError("name one: a FILE to take in, --undo, or --form and --template")
    try:
        if undo:
            _undo(into)
        elif file is None:
            _blanks(into, forms, templates, out)
        else:
            _take(file, into, date, plug, key, rest, yes)
    except ReadingError as error:
        refuse(error, str(into))
    except IntakeError as error:
        _refuse(error)


def _undo(into: Path) -> None:
    from harnessdoc.intake.apply import undo

    for path in undo(into if os.path.isdir(into) else into.parent):
        click.echo(f"put back {path}")


def _blanks(into: Path, forms: tuple[str, ...], templates: tuple[str, ...], out: Path | None) -> None:
    """Write forms and blank tables into the output folder."""
    from harnessdoc.filenames import safe_stems
    from harnessdoc.intake.form import form_page
    from harnessdoc.intake.survey import survey_csv
    from harnessdoc.outfolder import OutputError, write_files

    harness = read(into)
    chosen((*forms, *templates), harness.plugs, "plug")
    stems = safe_stems(harness.plugs)
    files = {f"survey/form-{stems[p]}.html": form_page(harness, p, f"survey-{stems[p]}.csv") for p in forms}
    files |= {f"survey/survey-{stems[p]}.csv": survey_csv(harness, p) for p in templates}
    try:
        written = write_files(out_folder(into, out), files)
    except OutputError as error:
        fail(str(error))
    for path in written:
        click.echo(path)


def _take(file: Path, into: Path, date: str | None, plug: str | None, key: str | None, rest: bool, yes: bool) -> None:
    from harnessdoc.intake.table import read_sheet
    from harnessdoc.intake.wires import is_wire_list

    if date is not None:
        date = _date(date)
    if is_wire_list(read_sheet(file)):
        _start(file, into, yes)
    else:
        _merge(file, into, date, plug, key, rest, yes)


def _merge(file: Path, into: Path, date: str | None, plug: str | None, key: str | None, rest: bool, yes: bool) -> None:
    """Merge a survey: preview of the columns, contradictions, difference, question, writing."""
    from harnessdoc.intake import apply
    from harnessdoc.intake.merge import merge_survey
    from harnessdoc.intake.survey import survey_rows

    harness = read(into)
    sheet, columns, rows = survey_rows(file, plug)
    _preview(sheet, columns.preview(sheet))
    found = merge_survey(into, rows, date, _key_states(harness, key))
    for note in found.notes:
        _tell(f"note: {note}")
    for conflict in found.conflicts:
        _tell(f"contradicts: {conflict}")
    if found.edited:
        apply.verify(found.folder, found.files, found.edited, found.intended)
        click.echo(apply.difference(found.folder, found.edited), nl=False)
    if found.conflicts and not rest:
        _tell(f"{len(found.conflicts)} contradictions: nothing was written. Mend the file or the survey, or add --rest")
        sys.exit(EXIT_FINDINGS)
    if not found.edited:
        _tell("the file says all of this already; nothing to write")
    elif _agreed(yes):
        kept = apply.write(found.folder, found.edited)
        for one in found.edited:
            click.echo(f"wrote {one.path}")
        _tell(f"the former text is kept in {kept}; `harnessdoc intake --undo` puts it back")
    if found.conflicts:
        sys.exit(EXIT_FINDINGS)


def _start(file: Path, into: Path, yes: bool) -> None:
    """Start a harness from a wire list; nothing is overwritten."""
    from harnessdoc.intake.wires import harness_text, wire_list
    from harnessdoc.outfolder import OutputError, write_files

    target = into if into.suffix in (".yaml", ".yml") else into / "harness.yaml"
    if os.path.lexists(target):
        fail(f"{target}: is there already; a wire list starts a new harness: name another folder with --into")
    found = wire_list(file)
    _preview(found.sheet, found.columns.preview(found.sheet))
    for note in found.notes():
        _tell(f"note: {note}")
    raw = harness_text(found, file.stem)
    click.echo(raw.decode(), nl=False)
    if _agreed(yes):
        try:
            write_files(target.parent, {target.name: raw})
        except OutputError as error:
            fail(str(error))
        click.echo(f"wrote {target}: {len(found.wires)} wires")


def _preview(sheet: Sheet, lines: list[str]) -> None:
    _tell(f"{sheet.name}: {len(sheet.rows)} rows; columns:")
    for line in (*lines, *(f"note: {note}" for note in sheet.notes)):
        _tell(line)


def _agreed(yes: bool) -> bool:
    """Whether to write: by --yes, or by an answer on a terminal."""
    if yes:
        return True
    if sys.stdin.isatty() and sys.stderr.isatty():
        return click.confirm("Write this?", err=True)
    _tell("nothing was written; --yes writes it")
    return False


def _key_states(harness: Harness, key: str | None) -> tuple[State, State] | None:
    """States for key off and key on, from `S1=off/on`."""
    if key is None:
        return None
    name, equals, positions = (part.strip() for part in key.partition("="))
    off, slash, on = (part.strip() for part in positions.partition("/"))
    if not (equals and slash and off and on):
        raise click.BadParameter(f"{key!r} is no key; write it as S1=off/on", param_hint="--key")
    chosen((name,), harness.items, "item")
    return {name: off}, {name: on}


def _date(text: str) -> str:
    from harnessdoc.reading import texts

    try:
        return str(texts.date(text))
    except ValueError as error:
        raise click.BadParameter(str(error), param_hint="--date") from None


def _tell(text: str) -> None:
    """One line on stderr; what stands in a spreadsheet steers no terminal."""
    click.echo("".join(letter if letter.isprintable() else "?" for letter in text), err=True)


def _refuse(error: IntakeError) -> NoReturn:
    for line in error.lines[:MOST_TOLD]:
        for part in line.splitlines():
            _tell(part)
    if len(error.lines) > MOST_TOLD:
        _tell(f"and {len(error.lines) - MOST_TOLD} more")
    sys.exit(EXIT_UNREADABLE)
