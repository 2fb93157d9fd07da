"""Lists as CSV that a spreadsheet opens as it was written. Knows no harness.

A text that a spreadsheet could take for a formula (it begins with = + - @, or their full-width forms, also behind
blanks) gets one no-break space in front: a person still reads `+12V`, nothing runs, and whatever trims blanks gets
the very text back (`str.strip` does). A quote sign in front would be read as part of the text, and quoting alone
keeps no spreadsheet from computing. The same behind a semicolon, which some spreadsheets part cells at. Numbers stay
numbers. What CSV can't keep: a text such as `08` or `1e3` is opened as a number; the workbook keeps it."""

from __future__ import annotations

import csv
import io
import re
from typing import Final

from harnessdoc.schedules.schedule import Schedule, Value, shown
from harnessdoc.sheet.lettering import clean

GUARD: Final = "\N{NO-BREAK SPACE}"
STARTS: Final = "=+-@＝＋－＠"
_RISKY: Final = re.compile(rf"""(^\s*|;[\s"']*)(?=[{re.escape(STARTS)}])""")
BYTE_ORDER_MARK: Final = "\ufeff"


def is_risky(text: str) -> bool:
    """Whether a spreadsheet could compute the text instead of showing it."""
    return text.lstrip()[:1] in tuple(STARTS)


def safe(text: str) -> str:
    """The text on one line without control characters, guarded where a spreadsheet could compute it."""
    return _RISKY.sub(rf"\g<1>{GUARD}", clean(text))


def csv_bytes(schedule: Schedule) -> bytes:
    """The list as UTF-8 with a byte order mark (without it spreadsheets guess the letters wrong), lines by RFC 4180."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow([safe(heading) for heading in schedule.headings])
    writer.writerows([_cell(value) for value in row] for row in schedule.rows)
    return (BYTE_ORDER_MARK + out.getvalue()).encode("utf-8", "replace")


def _cell(value: Value) -> str:
    return shown(value) if isinstance(value, int | float) else safe(shown(value))
