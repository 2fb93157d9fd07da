"""A survey merged into the sample: filled in, same, contradicted; comments kept byte for byte outside the edits."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path

import pytest

from harnessdoc.intake import apply
from harnessdoc.intake.merge import Merged, merge_survey
from harnessdoc.intake.problems import IntakeError
from harnessdoc.intake.survey import TEMPLATE, survey_csv, survey_rows
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.reading import read_harness

SAMPLE = Path(__file__).parents[2] / "sample_harness"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SAMPLE, tmp_path / "h", ignore=shutil.ignore_patterns("out")))


def merged(folder: Path, *rows: dict[str, str], date: str = "2026-11-25") -> Merged:
    """Rows of the template's columns, by heading, merged and verified."""
    out = io.StringIO()
    writer = csv.DictWriter(out, [*TEMPLATE, "wire"])
    writer.writeheader()
    writer.writerows({"plug": "X4", **row} for row in rows)
    path = folder.parent / "survey.csv"
    path.write_text(out.getvalue(), "utf-8")
    found = merge_survey(folder, survey_rows(path)[2], date or None)
    apply.verify(found.folder, found.files, found.edited, found.intended)
    return found


def changed(found: Merged) -> list[str]:
    lines = apply.difference(found.folder, found.edited).splitlines()
    return [line for line in lines if line[:1] in "+-" and line[:3] not in ("+++", "---")]


def test_unknowns_are_filled_and_all_else_stays(folder: Path) -> None:
    row = {"cavity": "19", "colour": "grey", "size [mm2]": "0,5", "drives": "sensor", "ohms to ground": "OL"}
    found = merged(folder, row)
    assert not found.conflicts
    assert changed(found) == [
        "-  W94: {from: X4:19, to: unknown, colour: unknown, size: unknown, circuit: old box, laid: existing, "
        'ends: [pin, unknown], remarks: "Colour gone; faded or painted over."}',
        "+  W94: {from: X4:19, to: unknown, colour: grey, size: 0.5 mm2, circuit: old box, laid: existing, "
        'ends: [pin, unknown], remarks: "Colour gone; faded or painted over.", role: signal}',
        "+  - {on: 2026-11-25, between: [X4:19, chassis], continuity: false, remarks: Supply isolated.}",
    ]
    assert [one.path.name for one in found.edited] == ["wires.yaml", "survey.yaml"], "wires before what names them"
    wires = found.edited[0]
    start = wires.before.index(b"  W94:")
    assert wires.after[:start] == wires.before[:start]
    assert wires.after.endswith(wires.before[wires.before.index(b"\n", start) :])


def test_what_the_file_says_already_changes_nothing(folder: Path) -> None:
    """Cavity 3 as the sample states it, the size in another unit, the colour in another word, the legend in small."""
    row = {
        "cavity": "3",
        "colour": "YE",
        "size [mm2]": "1 mm²",
        "drives": "+",
        "legend": "pmp",
        "stub length [mm]": "80",
    }
    assert not merged(folder, row | {"what the machine does": "Pump relay drive"}).edited
    assert not merged(folder, {"cavity": "20", "size [mm2]": "1.31"}).edited  # 16 AWG is 1.309 mm²


def test_contradictions_are_named_with_both_values_and_left_out(folder: Path) -> None:
    rows = (
        {"cavity": "9", "colour": "red", "stub length [mm]": "40"},
        {"cavity": "11", "colour": "red"},
        {"cavity": "18", "wire in it": "no"},
        {"cavity": "1", "legend": "GND"},
    )
    found = merged(folder, *rows)
    assert not found.edited
    assert found.conflicts == (
        "survey.csv line 2: X4:9: W74: colour: the file says brown, the survey red",
        "survey.csv line 2: X4:9: stub: colour: the file says brown, the survey red",
        "survey.csv line 2: X4:9: stub: length: the file says 60 mm, the survey 40 mm",
        "survey.csv line 3: X4:11: the file says it is empty, the survey found a wire in it",
        "survey.csv line 4: X4:18: said to be empty, but holds W93 by the file",
        "survey.csv line 5: X4:1: legend: the file says BAT, the survey GND",
    )


def test_a_reading_of_the_same_day_and_points_is_told_once_and_not_contradicted(folder: Path) -> None:
    row = {"cavity": "18", "volts key on": "4.9", "loaded with": "5 W lamp"}
    found = merged(folder, row)
    apply.write(found.folder, found.edited)
    reading = read_harness(folder).readings[-1]
    assert (reading.on, reading.between, reading.volts) == ("2026-11-25", (Point("X4", "18"), CHASSIS), 4.9)
    assert (reading.loaded_with, reading.remarks) == ("5 W lamp", "Key on.")
    assert not merged(folder, row).edited
    (conflict,) = merged(folder, row | {"volts key on": "12"}).conflicts
    assert conflict.endswith("X4:18: volts key on: the file says 4.9 V, the survey 12 V")
    assert len(merged(folder, row | {"volts key on": "12", "date": "2026-12-01"}).edited) == 1


def test_a_plug_that_nobody_wrote_of_before_the_cut(tmp_path: Path) -> None:
    """Wires are made from what was found; nothing is called a stub before it is cut; cut cavities get theirs."""
    path = tmp_path / "h" / "harness.yaml"
    path.parent.mkdir()
    text = (
        "harness: {title: T, number: N}   # mine\nitems:\n  G1: {is: battery, volts: 12 V}\nplugs:\n"
        "  X4: {face: rect-2x2, cut: {2: 2026-11-01}} # the plug\n# the end\n"
    )
    path.write_text(text)
    found = merged(
        path.parent,
        {"cavity": "1", "colour": "rt/sw", "size [mm2]": "14 AWG", "volts key off": "12.5", "ohms to supply": "0.2",
         "legend": "=BAT", "stub length [mm]": "60", "what the machine does": "feeds", "remarks": "under load: fine"},
        {"cavity": "2", "colour": "yellow", "stub length [mm]": "55", "what the machine does": "pump relay"},
        {"cavity": "3", "wire in it": "x"},
        {"cavity": "4", "wire in it": "no"},
    )  # fmt: skip
    assert not found.conflicts
    assert found.edited[0].after.decode() == text.replace(
        "2026-11-01}}", '2026-11-01}, legend: {1: "=BAT"}, empty: [4]}'
    ) + (
        "\nwires:\n"
        "  W1: {from: X4:1, to: unknown, laid: existing, colour: red/black, size: 14 AWG, "
        'remarks: "When worked: feeds. under load: fine Stub to leave: 60 mm."}\n'
        "  W2: {from: tail, to: unknown, laid: existing, was at: X4:2, colour: yellow}\n"
        "  W3: {from: X4:3, to: unknown, laid: existing}\n"
        "\nreadings:\n"
        "  - {on: 2026-11-25, between: [X4:1, chassis], volts: 12.5 V, remarks: Key off.}\n"
        '  - {on: 2026-11-25, between: [X4:1, "G1:+"], ohms: 0.2 ohm, remarks: Supply isolated.}\n'
        "\nstubs:\n"
        "  X4:2: {from: W2, colour: yellow, length: 55 mm, did: pump relay}\n"
    )


@pytest.mark.parametrize(
    ("row", "words"),
    [
        ({"cavity": "25"}, "X4 has no cavity '25'"),
        ({"plug": "X9", "cavity": "1"}, "no plug is called 'X9'"),
        ({"cavity": "1", "colour": "rad"}, "colour: `rad`: .*did you mean"),
        ({"cavity": "1", "stub length [mm]": "1,500"}, "the decimal mark is a point"),
        ({"cavity": "1", "size [mm2]": "6 mm"}, "can mean two sizes"),
        ({"cavity": "1", "drives": "both"}, r"expected \+, -, sensor or unknown"),
        ({"plug": "", "cavity": "1"}, "names no plug"),
    ],
)
def test_a_bad_row_is_named(folder: Path, row: dict[str, str], words: str) -> None:
    with pytest.raises(IntakeError, match=f"survey.csv line 2: .*{words}"):
        merged(folder, row)


def test_a_row_twice_and_readings_without_a_day_are_refused(folder: Path) -> None:
    with pytest.raises(IntakeError, match=r"line 3: X4:18 stands twice; the first is survey\.csv line 2"):
        merged(folder, {"cavity": "18"}, {"cavity": "18"})
    with pytest.raises(IntakeError, match="volts key off wants a date"):
        merged(folder, {"cavity": "18", "volts key off": "1"}, date="")


def test_the_blank_table_is_read_back_and_changes_nothing(folder: Path, tmp_path: Path) -> None:
    blank = tmp_path / "blank.csv"
    blank.write_bytes(survey_csv(read_harness(folder), "X4"))
    sheet, columns, rows = survey_rows(blank)
    assert not columns.unmatched
    assert [row.cavity for row in rows][:3] == ["1", "2", "3"]
    assert len(rows) == 24
    found = merge_survey(folder, rows)
    assert (found.edited, found.conflicts) == ((), ())
    assert sheet.notes == ()
