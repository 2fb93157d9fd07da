"""Spreadsheets as people save them: semicolons, marks, UTF-16, quotes, line breaks; workbooks."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from openpyxl import Workbook

from harnessdoc.intake.columns import Column, match, normal
from harnessdoc.intake.problems import IntakeError
from harnessdoc.intake.table import Row, read_sheet

ROWS = (Row(2, ("X4", "3", "ge/sw")), Row(4, ("X4", "4", 'a "b"\n; c')))
TEXT = 'plug;cavity;colour\nX4;3;" ge/sw "\n;;\nX4;4;"a ""b""\n; c"\n'


def table(tmp_path: Path, raw: bytes, name: str = "t.csv") -> Path:
    path = tmp_path / name
    path.write_bytes(raw)
    return path


@pytest.mark.parametrize(
    "raw",
    [
        TEXT.encode(),
        TEXT.encode("utf-8-sig"),
        TEXT.encode("utf-16"),
        TEXT.encode("utf-16-le"),
        b"\xfe\xff" + TEXT.encode("utf-16-be"),
        TEXT.replace("\n", "\r\n").encode("utf-8-sig"),
    ],
)
def test_csv_in_its_usual_dresses(tmp_path: Path, raw: bytes) -> None:
    sheet = read_sheet(table(tmp_path, raw))
    assert sheet.headings == ("plug", "cavity", "colour")
    assert [Row(row.line, tuple(c.replace("\r\n", "\n") for c in row.cells)) for row in sheet.rows] == list(ROWS)


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
def test_a_line_that_names_the_delimiter(tmp_path: Path, delimiter: str) -> None:
    sheet = read_sheet(table(tmp_path, f"sep={delimiter}\r\na{delimiter}b\r\n1{delimiter}2\r\n".encode()))
    assert (sheet.headings, sheet.rows) == (("a", "b"), (Row(3, ("1", "2")),))


def test_a_guard_before_a_formula_is_stripped(tmp_path: Path) -> None:
    assert read_sheet(table(tmp_path, "a\n\u00a0+12V\n".encode())).rows[0].cells == ("+12V",)


def test_odd_letters_and_windows_text(tmp_path: Path) -> None:
    odd = "عربي 😀 \u202e e\u0301"
    assert read_sheet(table(tmp_path, f"a\n{odd}\n".encode())).rows[0].cells == (odd,)
    sheet = read_sheet(table(tmp_path, "a\n5 °C ä\n".encode("cp1252")))
    assert sheet.rows[0].cells == ("5 °C ä",)
    assert "read as Windows-1252" in sheet.notes[0]


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"", "holds no rows"),
        (b"\n ; \n", "holds no rows"),
        (b'a;b\n1;2\n"x;y\n', "line 3: is no CSV: unexpected end of data"),
        (b"a;b\n" + b"x" * 140_000, "line 2: is no CSV: field larger"),
        (b"\xd0\xcf\x11\xe0rest", "old kind, or locked"),
        (b"PK\x03\x04rest", "no workbook that can be read"),
        (b"a" * 1500 + b"\0", "is no text"),
        (b"\xff\xfe\x00", "is no text"),
        (b"," * 300 + b"x", "has 301 cells"),
    ],
)
def test_what_is_no_table_is_one_line(tmp_path: Path, raw: bytes, words: str) -> None:
    with pytest.raises(IntakeError, match=words) as caught:
        read_sheet(table(tmp_path, raw))
    assert len(caught.value.lines) == 1


def workbook(tmp_path: Path, *rows: tuple[object, ...]) -> Path:
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    for row in rows:
        sheet.append(list(row))
    book.create_sheet("empty")
    path = tmp_path / "t.xlsx"
    book.save(path)
    return path


def test_a_workbook_gives_texts(tmp_path: Path) -> None:
    """Numbers as numbers or as text, whole ones without a point; days as ISO 8601; nothing dropped."""
    day = datetime.datetime(2026, 11, 25)
    path = workbook(
        tmp_path, ("a", "b", "c", "d", "e"), (3, 2.5, "3", day, True), (None,), (0.1 + 0.2, " x ", "08", None, "")
    )
    sheet = read_sheet(path)
    assert sheet.rows == (Row(2, ("3", "2.5", "3", "2026-11-25", "yes")), Row(4, ("0.3", "x", "08")))
    assert sheet.notes == ()


def test_formulas_are_named_and_never_computed(tmp_path: Path) -> None:
    with pytest.raises(IntakeError) as caught:
        read_sheet(workbook(tmp_path, ("a", "b"), ("=1+1", "x"), ("y", '=HYPERLINK("http://x")')))
    assert [line.split(": ", 1)[1] for line in caught.value.lines] == [
        "cell A2 holds a formula; put its value in its place: `=1+1`",
        'cell B3 holds a formula; put its value in its place: `=HYPERLINK("http://x")`',
    ]


def test_other_sheets_are_told(tmp_path: Path) -> None:
    book = Workbook()
    assert book.active is not None
    book.active.append(("a",))
    book.create_sheet("second").append(("b",))
    path = tmp_path / "t.xlsx"
    book.save(path)
    assert "others: `second`" in read_sheet(path).notes[0]


@pytest.mark.parametrize(
    ("heading", "words", "unit"),
    [
        ("Länge [mm]", "länge", "mm"),
        ("Länge in mm", "länge", "mm"),
        ("Querschnitt (mm²)", "querschnitt", "mm2"),
        ("size mm2", "size", "mm2"),
        ("stub, mm", "stub", "mm"),
        ("ohms to ground, no supply", "ohms to ground no supply", ""),
        ("Widerstand [Ω]", "widerstand", "ohm"),
        ("From", "from", ""),
    ],
)
def test_headings(heading: str, words: str, unit: str) -> None:
    assert normal(heading) == (words, unit)


def test_columns_are_matched_listed_and_units_given(tmp_path: Path) -> None:
    columns = (Column("length", ("Länge",), number=True), Column("colour", ("Farbe",)))
    sheet = read_sheet(table(tmp_path, "Länge [cm];FARBE;Preis\n12,5;rt;1\n1,500;;\n3 m;;\n".encode()))
    found = match(sheet, columns, ("length",))
    assert found.unmatched == ((2, "Preis"),)
    assert [found.cell(row, "length") for row in sheet.rows] == [
        "12.5 cm",
        "1,500 cm",
        "3 m",
    ]  # the second is refused later
    assert found.preview(sheet)[2] == "  `Preis` -> not taken: no heading that is known"
    with pytest.raises(IntakeError, match="no column is length"):
        match(read_sheet(table(tmp_path, b"Farbe\nrt\n")), columns, ("length",))
    with pytest.raises(IntakeError, match="two columns are colour: `Farbe` and `colour`"):
        match(read_sheet(table(tmp_path, b"Farbe;colour\nrt;rt\n")), columns, ())
