"""`intake` as a person types it: shown first, written only when told, undone; exits 0, 1 and 2."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from harnessdoc.commands.intaking import intake
from harnessdoc.reading import read_harness

SAMPLE = Path(__file__).parents[2] / "sample_harness"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SAMPLE, tmp_path / "h", ignore=shutil.ignore_patterns("out")))


def run(folder: Path, *arguments: object) -> Result:
    return CliRunner().invoke(intake, [*map(str, arguments), "--into", str(folder)], catch_exceptions=False)


def content(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.yaml"))}


def survey(folder: Path, text: str) -> Path:
    path = folder.parent / "survey.csv"
    path.write_text(text, "utf-8")
    return path


def test_shown_first_written_when_told_and_undone(folder: Path) -> None:
    path = survey(folder, "cavity;colour;volts key on;odd\n19;grey;4,9;x\n")
    before = content(folder)
    arguments = (path, "--plug", "X4", "--date", "2026-11-25", "--key", "S1=off/on")
    shown = run(folder, *arguments)
    assert shown.exit_code == 0
    assert "+++ wires.yaml" in shown.stdout
    assert "`odd` -> not taken" in shown.stderr
    assert "nothing was written; --yes writes it" in shown.stderr
    assert content(folder) == before
    written = run(folder, *arguments, "--yes")
    assert written.exit_code == 0
    assert f"wrote {folder / 'wires.yaml'}" in written.stdout
    reading = read_harness(folder).readings[-1]
    assert (reading.volts, reading.when, reading.remarks) == (4.9, {"S1": "on"}, "")
    again = run(folder, *arguments, "--yes")
    assert "nothing to write" in again.stderr
    undone = run(folder, "--undo")
    assert (undone.exit_code, content(folder)) == (0, before)
    assert run(folder, "--undo").exit_code == 2


def test_a_contradiction_writes_nothing_but_the_rest_when_told(folder: Path) -> None:
    path = survey(folder, "plug,cavity,colour\nX4,19,grey\nX4,9,red\n")
    before = content(folder)
    refused = run(folder, path, "--yes")
    assert refused.exit_code == 1
    assert "contradicts: survey.csv line 3: X4:9: W74: colour: the file says brown, the survey red" in refused.stderr
    assert content(folder) == before
    rest = run(folder, path, "--yes", "--rest")
    assert rest.exit_code == 1
    harness = read_harness(folder)
    assert [str(harness.wires[name].colour) for name in ("W94", "W74")] == ["GY", "BN"]


def test_forms_and_blank_tables_are_written(folder: Path) -> None:
    made = run(folder, "--form", "X4", "--template", "X4", "--template", "X5")
    assert made.exit_code == 0
    names = [Path(line).relative_to(folder / "out/survey").name for line in made.stdout.splitlines()]
    assert names == ["form-X4.html", "survey-X4.csv", "survey-X5.csv"]
    none = run(folder, "--form", "X44")
    assert (none.exit_code, "did you mean 'X4'" in none.stderr) == (2, True)


def test_a_wire_list_starts_a_harness_and_overwrites_none(folder: Path) -> None:
    path = survey(folder, "from,to,colour\nG1:+,S1:1,red\n")
    target = folder.parent / "new"
    assert run(target, path).exit_code == 0
    assert not target.exists()
    written = run(target, path, "--yes")
    assert (written.exit_code, len(read_harness(target).wires)) == (0, 1)
    assert run(folder, path, "--yes").exit_code == 2


@pytest.mark.parametrize(
    ("text", "arguments", "words"),
    [
        ("plug,cavity,colour\nX4,99,red\n", (), "line 2: X4 has no cavity '99'"),
        ("plug,cavity,colour\nX4,9,\x1b[31mred\n", (), "line 2: colour: `"),
        ("colour\nred\n", (), "no column is plug"),
        ("cavity,colour\n9,red\n", ("--date", "yesterday"), "is no date"),
        ("plug,cavity\nX4,1\n", ("--key", "S1"), "write it as S1=off/on"),
        ("plug,cavity\nX4,1\n", ("--undo",), "name one"),
    ],
)
def test_what_is_wrong_is_told_in_a_line(folder: Path, text: str, arguments: tuple[str, ...], words: str) -> None:
    before = content(folder)
    found = run(folder, survey(folder, text), "--yes", *arguments)
    assert found.exit_code == 2
    assert words in found.stderr
    assert "\x1b" not in found.stderr
    assert content(folder) == before


def test_ten_thousand_rows_for_cavities_that_are_not_there(folder: Path) -> None:
    rows = "".join(f"X4,{number},red,1 mm2,عربي😀\n" for number in range(100, 10_100))
    found = run(folder, survey(folder, "plug,cavity,colour,size,remarks\n" + rows), "--yes")
    assert found.exit_code == 2
    assert "line 2: X4 has no cavity '100'" in found.stderr
    assert found.stderr.endswith("and 9940 more\n")
