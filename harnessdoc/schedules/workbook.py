"""Lists as one XLSX workbook, a sheet each, the notes of all on the last. The same lists, the same bytes.

Every text is written as a text, so `=1+1` and `+12V` stay what they are, and are marked so that editing a cell does
not make a formula of it. Numbers are numbers, so that columns add up. Knows no harness."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import Any, Final

from harnessdoc.schedules.csv_text import is_risky
from harnessdoc.schedules.schedule import Schedule, Value, shown
from harnessdoc.sheet.lettering import clean

EPOCH: Final = datetime(1980, 1, 1)
"""The earliest date a ZIP can hold: files carry no clock."""
MOST_LETTERS: Final = 32767  # a cell holds no more (limit of the file format as spreadsheets print it)
WIDEST, NARROWEST = 60, 6
_MODIFIED: Final = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)")


def workbook_bytes(schedules: Sequence[Schedule], title: str = "") -> bytes:
    """The lists as a workbook. Raises ValueError for no lists."""
    from openpyxl import Workbook

    if not schedules:
        raise ValueError("a workbook needs at least one list")
    book = Workbook(write_only=True)
    book.properties.creator = "harnessdoc"
    book.properties.created = EPOCH
    book.properties.title = clean(title)[:255] or None
    for schedule in (*schedules, *notes_of(schedules)):
        _write(book.create_sheet(schedule.name), schedule)
    out = io.BytesIO()
    book.save(out)
    return _without_clock(out.getvalue())


def notes_of(schedules: Iterable[Schedule]) -> Iterator[Schedule]:
    """The notes of all lists as a list of their own; nothing where there are none."""
    rows = tuple((schedule.name, note) for schedule in schedules for note in schedule.notes)
    if rows:
        yield Schedule("notes", "Notes to the lists", ("list", "note"), rows)


def _write(sheet: Any, schedule: Schedule) -> None:
    from openpyxl.cell import WriteOnlyCell
    from openpyxl.styles import Alignment, Font
    from openpyxl.utils import get_column_letter

    rows = [[_plain(value) for value in row] for row in schedule.rows]
    widths = []
    for index, heading in enumerate(schedule.headings):
        longest = max((len(str(row[index] or "")) for row in rows), default=0)
        widths.append(min(WIDEST, max(NARROWEST, longest + 2, *(len(word) + 2 for word in heading.split()))))
        sheet.column_dimensions[get_column_letter(index + 1)].width = widths[-1]
    _set_up(sheet, f"A1:{get_column_letter(len(widths))}{len(rows) + 1}")
    wrapped, bold = Alignment(wrap_text=True, vertical="top"), Font(bold=True)
    head = [WriteOnlyCell(sheet, value=heading) for heading in schedule.headings]
    for cell in head:
        cell.font, cell.alignment, cell.data_type = bold, wrapped, "s"
    sheet.append(head)
    for row in rows:
        sheet.append([_cell(sheet, value, wrapped, width) for value, width in zip(row, widths, strict=True)])


def _set_up(sheet: Any, area: str) -> None:
    """Headings that stay in sight, filters, and how it is printed."""
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = area
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.paperSize = 9  # A4 by ECMA-376, 18.3.1.63
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.oddFooter.center.text = "&A, page &P of &N"


def _plain(value: Value) -> str | int | float | None:
    """A number as it is, anything else as its text on one line; None for a cell with nothing in it."""
    return value if isinstance(value, int | float) else clean(shown(value))[:MOST_LETTERS] or None


def _cell(sheet: Any, value: str | int | float | None, wrapped: Any, width: int) -> Any:
    """The value, or a cell of its own for a text that is long, or that would be taken for a formula or an error."""
    if not isinstance(value, str):
        return value
    risky = is_risky(value)
    if not (risky or value.startswith("#") or len(value) > width - 2):
        return value
    from openpyxl.cell import WriteOnlyCell

    cell = WriteOnlyCell(sheet, value=value)
    cell.alignment, cell.data_type = wrapped, "s"
    if risky:
        cell.quotePrefix = True
    return cell


def _without_clock(data: bytes) -> bytes:
    """The same archive with every date fixed."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _MODIFIED.sub(rb"\g<1>" + EPOCH.strftime("%Y-%m-%dT%H:%M:%SZ").encode() + rb"\g<2>", content)
            entry = zipfile.ZipInfo(name, EPOCH.timetuple()[:6])
            entry.compress_type, entry.external_attr, entry.create_system = zipfile.ZIP_DEFLATED, 0o600 << 16, 3
            new.writestr(entry, content)
    return out.getvalue()
