"""A wire list becomes a harness; each bad row is named, nothing is dropped in silence."""

from __future__ import annotations

from pathlib import Path

import pytest
from openpyxl import Workbook

from harnessdoc.intake.problems import IntakeError
from harnessdoc.intake.table import read_sheet
from harnessdoc.intake.wires import harness_text, is_wire_list, wire_list
from harnessdoc.reading import read_harness

GERMAN = (
    "Nr;von;von Pin;nach;Farbe;Querschnitt [mm²];Länge [cm];Preis;Bemerkung\n"
    'W1;G1;+;F1:1;rt;2,5;15;1;"erste; ""rote"""\n'
    ";F1;2;J1;rt/ws;1;;;\n"
    ";J1;;S 1:a b;gn/ge;14 AWG;1.2 m;;=SUM(A1)\n"
    ";?;;chassis;;;;2;\n"
)


def listed(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "wires.csv"
    path.write_bytes(text.encode("utf-8-sig"))
    return path


def test_a_german_list_becomes_a_harness(tmp_path: Path) -> None:
    found = wire_list(listed(tmp_path, GERMAN))
    target = tmp_path / "harness.yaml"
    target.write_bytes(harness_text(found, "Alte: Liste"))
    assert target.read_text("utf-8").split("\n\n", 1)[1] == (
        "items:   # all modules until you say what they are: fuse, relay, switch, load ...\n"
        '  G1: {is: module, terminals: ["+"]}\n'
        "  F1: {is: module, terminals: [1, 2]}\n"
        "  S 1: {is: module, terminals: [a b]}\n"
        "\nsplices:\n  J1: {}\n"
        "\nwires:\n"
        '  W1: {from: "G1:+", to: F1:1, colour: red, size: 2.5 mm2, length: 150 mm, remarks: "erste; \\"rote\\""}\n'
        "  W2: {from: F1:2, to: J1, colour: red/white, size: 1 mm2}\n"
        '  W3: {from: J1, to: S 1:a b, colour: green/yellow, size: 14 AWG, length: 1200 mm, remarks: "=SUM(A1)"}\n'
        "  W4: {from: unknown, to: chassis}\n"
    )
    harness = read_harness(target)
    assert harness.title.title == "Alte: Liste"
    assert found.notes() == [
        "column `Preis` was not taken: 2 cells",
        "taken for modules, since a wire list does not say what they are: G1, F1, S 1",
        "taken for splices, since no terminal is named: J1",
    ]
    assert found.columns.preview(found.sheet)[5:8] == [
        "  `Querschnitt [mm²]` -> size, bare numbers in mm2",
        "  `Länge [cm]` -> length, bare numbers in cm",
        "  `Preis` -> not taken: no heading that is known",
    ]


def test_each_bad_row_is_named_with_its_line_and_value(tmp_path: Path) -> None:
    text = (
        "wire,from,from pin,to,to pin,colour,size,length\n"
        "W1,A:1,2,B,1,red,1 mm2,1 m\n"
        "W1,A,1,B,2,rad,6 mm,5\n"
        'W2,,1,B,3,,"1,5 mm2",\n'
        "W3,B,,C,1,,,\n"
    )
    with pytest.raises(IntakeError) as caught:
        harness_text(wire_list(listed(tmp_path, text)), "T")
    starts = (
        "wires.csv line 2: from: `A:1`: names a terminal itself",
        "wires.csv line 3: wire: `W1`: stands twice; the first is on line 2",
        "wires.csv line 3: colour: `rad`: ",
        "wires.csv line 3: size: `6 mm`: ",
        "wires.csv line 3: length: `5`: `5` needs a unit",
        "wires.csv line 4: from terminal: `1`: a terminal without its item",
        "`B`: stands with a terminal in some rows",
    )
    assert len(caught.value.lines) == len(starts)
    for line, start in zip(caught.value.lines, starts, strict=True):
        assert line.startswith(start)


def test_ten_thousand_rows_of_odd_letters(tmp_path: Path) -> None:
    rows = [f"W{n},Ü{n},1,عربي😀,{n},red/blue,1 mm2,1 m" for n in range(10_000)]
    path = listed(tmp_path, "wire,from,from pin,to,to pin,colour,size,length\n" + "\n".join(rows))
    target = tmp_path / "harness.yaml"
    target.write_bytes(harness_text(wire_list(path), "T"))
    wires = read_harness(target).wires
    assert len(wires) == 10_000
    assert str(wires["W9999"].b.point) == "عربي😀:9999"


def test_a_workbook_whose_numbers_are_text(tmp_path: Path) -> None:
    book = Workbook()
    assert book.active is not None
    for row in (
        ["No", "From", "From pin", "To", "To pin", "AWG", "Length in mm"],
        ["1", "X1", 3, "X2", "03", "14", 250.0],
    ):
        book.active.append(row)
    path = tmp_path / "wires.xlsx"
    book.save(path)
    wire = wire_list(path).wires["1"]
    assert (str(wire.a.point), str(wire.b.point), str(wire.size), wire.length_mm) == ("X1:3", "X2:03", "14 AWG", 250)


def test_lists_are_told_from_surveys(tmp_path: Path) -> None:
    assert is_wire_list(read_sheet(listed(tmp_path, GERMAN)))
    assert not is_wire_list(read_sheet(listed(tmp_path, "plug;cavity;colour\nX;1;rt\n")))
    with pytest.raises(IntakeError, match="no column is to"):
        wire_list(listed(tmp_path, "von;Farbe\nA;rt\n"))


def test_a_name_that_the_file_can_not_hold_is_told(tmp_path: Path) -> None:
    with pytest.raises(IntakeError, match="is a word of the file"):
        harness_text(wire_list(listed(tmp_path, "from,to\nchassis:1,A:1\n")), "T")
