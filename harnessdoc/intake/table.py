"""A spreadsheet as rows of texts, each with its line: CSV in any usual dress, or XLSX. Computes no formula.

Knows nothing of harnesses. A cell with a formula is refused: its result is not what somebody wrote."""

from __future__ import annotations

import codecs
import csv
import datetime
import io
import re
import warnings
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from harnessdoc.intake.problems import IntakeError, told

MAX_BYTES: Final = 20 * 1024 * 1024
MAX_UNPACKED: Final = 200 * 1024 * 1024
MAX_ROWS: Final = 100_000
MAX_COLUMNS: Final = 200
DELIMITERS: Final = ";,\t"
_TOLD: Final = re.compile(r'"?sep=([;,\t|])"?\r?\n', re.IGNORECASE)
_WORKBOOK_FAULTS: Final = (
    OSError, KeyError, ValueError, TypeError, AttributeError, IndexError, SyntaxError, EOFError, NotImplementedError,
    RuntimeError, zipfile.BadZipFile, zlib.error,
)  # fmt: skip


@dataclass(frozen=True)
class Row:
    """One row that is not empty: its line in the file and its cells, stripped."""

    line: int
    cells: tuple[str, ...]


@dataclass(frozen=True)
class Sheet:
    """A table: where it is from, its headings, its rows. `notes`: what was guessed on the way."""

    name: str
    headings: tuple[str, ...]
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()


def read_sheet(path: Path) -> Sheet:
    """The table in a CSV or XLSX file; its first row that is not empty holds the headings.

    Raises IntakeError, naming each cell that can't be taken."""
    try:
        with path.open("rb") as file:
            raw = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise IntakeError([f"{path}: can't be read: {error.strerror or error}"]) from None
    if len(raw) > MAX_BYTES:
        raise IntakeError([f"{path}: is over {MAX_BYTES // 2**20} MiB"])
    notes: list[str] = []
    if raw.startswith(b"PK"):
        rows = list(_workbook_rows(path, raw, notes))
    elif raw.startswith(b"\xd0\xcf\x11\xe0"):
        raise IntakeError([f"{path}: is a workbook of the old kind, or locked by a password; save it as XLSX or CSV"])
    else:
        rows = list(_csv_rows(path, _text(path, raw, notes)))
    if not rows:
        raise IntakeError([f"{path}: holds no rows"])
    head, *rest = rows
    return Sheet(str(path), head.cells, tuple(rest), tuple(notes))


def _text(path: Path, raw: bytes, notes: list[str]) -> str:
    if raw.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        encoding = "utf-16"
    elif b"\0" in raw[:1000]:
        encoding = "utf-16-le" if raw[1:2] == b"\0" else "utf-16-be"
    else:
        encoding = "utf-8-sig"
    try:
        text = raw.decode(encoding)
    except UnicodeDecodeError:
        if encoding != "utf-8-sig":
            raise IntakeError([f"{path}: is no text that can be read; save it as CSV in UTF-8"]) from None
        text = raw.decode("cp1252", "replace")
        notes.append(f"{path}: is not UTF-8; it was read as Windows-1252. Look at letters such as ä and ° below")
    if "\0" in text:
        raise IntakeError([f"{path}: is no text; save it as CSV or XLSX"])
    return text


def _csv_rows(path: Path, text: str) -> Iterator[Row]:
    told_of = _TOLD.match(text)  # a line that some spreadsheets write
    skip = told_of.end() if told_of else 0
    first = text[skip:].lstrip("\r\n").partition("\n")[0]
    delimiter = told_of[1] if told_of else max(DELIMITERS, key=first.count)
    before = text[:skip].count("\n")
    reader = csv.reader(io.StringIO(text[skip:], newline=""), delimiter=delimiter, strict=True)
    line, found = before + 1, 0
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            raise IntakeError([f"{path}: line {line}: is no CSV: {error}"]) from None
        yield from _row(path, line, [cell.strip() for cell in cells])
        found += 1
        _limit(path, found)
        line = before + reader.line_num + 1


def _workbook_rows(path: Path, raw: bytes, notes: list[str]) -> Iterator[Row]:
    try:
        with zipfile.ZipFile(io.BytesIO(raw)) as packed:
            if sum(part.file_size for part in packed.infolist()) > MAX_UNPACKED:
                raise IntakeError([f"{path}: unpacks to more than {MAX_UNPACKED // 2**20} MiB"])
        yield from _cells(path, raw, notes)
    except _WORKBOOK_FAULTS as error:
        raise IntakeError(
            [f"{path}: is no workbook that can be read ({type(error).__name__}); save it as CSV"]
        ) from None


def _cells(path: Path, raw: bytes, notes: list[str]) -> Iterator[Row]:
    from openpyxl import load_workbook

    faults: list[str] = []
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of styles and extensions that do not matter here
        book = load_workbook(io.BytesIO(raw), read_only=True, data_only=False, keep_links=False)
        sheets = [sheet for sheet in book.worksheets if any(any(row) for row in sheet.iter_rows(values_only=True))]
        if len(sheets) > 1:
            others = ", ".join(told(sheet.title) for sheet in sheets[1:])
            notes.append(f"{path}: only the sheet {told(sheets[0].title)} was read; others: {others}")
        for number, row in enumerate(sheets[0].iter_rows() if sheets else (), 1):
            _limit(path, number)
            cells = []
            for cell in row:
                if cell.data_type in ("f", "e"):
                    what = "a formula; put its value in its place" if cell.data_type == "f" else "an error"
                    faults.append(f"{path}: cell {cell.coordinate} holds {what}: {told(str(cell.value))}")
                cells.append(_shown(cell.value))
            yield from _row(path, number, cells)
        book.close()
    if faults:
        raise IntakeError(faults[:50])


def _row(path: Path, line: int, cells: list[str]) -> Iterator[Row]:
    while cells and not cells[-1]:
        cells.pop()
    if len(cells) > MAX_COLUMNS:
        raise IntakeError([f"{path}: line {line}: has {len(cells)} cells; {MAX_COLUMNS} are read"])
    if cells:
        yield Row(line, tuple(cells))


def _limit(path: Path, rows: int) -> None:
    if rows > MAX_ROWS:
        raise IntakeError([f"{path}: has more than {MAX_ROWS} rows"])


def _shown(value: Any) -> str:
    """A cell as text: 3.0 is 3, a day is written as ISO 8601 writes it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.12g}"
    if isinstance(value, datetime.datetime | datetime.date):
        return value.isoformat()[:10]
    return str(value).strip()
