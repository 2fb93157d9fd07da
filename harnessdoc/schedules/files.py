"""The lists as files in memory: CSV a list, one workbook, one PDF. The same harness, the same bytes."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.facts import Facts
from harnessdoc.schedules.lists import LISTS
from harnessdoc.schedules.schedule import Schedule

Form = Literal["pdf", "csv", "xlsx"]
FORMS: tuple[Form, ...] = ("pdf", "csv", "xlsx")


def schedules(facts: Facts, asked: Asked | None = None, only: Sequence[str] | None = None) -> list[Schedule]:
    """The lists asked for by their names in LISTS, all if None, in their own order; without those that have no rows."""
    asked = asked or Asked()
    made = (make(facts, asked) for name, make in LISTS.items() if only is None or name in only)
    return [schedule for schedule in made if schedule.rows]


def schedule_files(
    facts: Facts,
    mark: str,
    forms: Sequence[Form] = FORMS,
    only: Sequence[str] | None = None,
    asked: Asked | None = None,
    paper: str = "A4",
) -> dict[str, bytes]:
    """Relative path to bytes: `schedules.pdf`, `schedules.xlsx`, `schedules/NAME.csv` and `schedules/notes.csv`.

    `mark`: the content mark that sheets print. Nothing where no list has rows.
    Raises layouts.LayoutError for an unknown paper."""
    made = schedules(facts, asked, only)
    files: dict[str, bytes] = {}
    if not made:
        return files
    title = f"{facts.harness.title.number} schedules"
    if "pdf" in forms:
        files["schedules.pdf"] = _pdf(facts, made, mark, title, paper)
    if "xlsx" in forms:
        from harnessdoc.schedules.workbook import workbook_bytes

        files["schedules.xlsx"] = workbook_bytes(made, title)
    if "csv" in forms:
        from harnessdoc.schedules.csv_text import csv_bytes
        from harnessdoc.schedules.workbook import notes_of

        files |= {f"schedules/{one.name}.csv": csv_bytes(one) for one in (*made, *notes_of(made))}
    return files


def _pdf(facts: Facts, made: Sequence[Schedule], mark: str, title: str, paper: str) -> bytes:
    from harnessdoc.schedules.printed import schedule_sheets
    from harnessdoc.sheet.output import pdf_bytes

    return pdf_bytes([page for one in made for page in schedule_sheets(facts.harness, one, mark, paper)], title)
