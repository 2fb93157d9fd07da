"""Verified before it is written, shown, written file by file, undone only where nothing changed since."""

from __future__ import annotations

import os
import shutil
from dataclasses import replace
from pathlib import Path

import pytest

from harnessdoc.intake import apply
from harnessdoc.intake.edits import Edited, Editor
from harnessdoc.intake.problems import IntakeError
from harnessdoc.model.colours import parse_colour
from harnessdoc.reading import read_harness

SAMPLE = Path(__file__).parents[2] / "sample_harness"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(SAMPLE, tmp_path / "h", ignore=shutil.ignore_patterns("out")))


def two_files(folder: Path) -> list[Edited]:
    """A wire's and a stub's edit, in two files, wires first."""
    editor = Editor(folder)
    editor.set("wires", "W94", ["colour"], "grey")
    editor.set("stubs", "X4:7", ["did"], "fan")
    return editor.finish()


def content(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.glob("*.yaml"))}


def test_the_result_is_read_again_and_compared(folder: Path) -> None:
    editor = Editor(folder)
    editor.set("wires", "W94", ["colour"], "grey")
    edited = editor.finish()
    harness = read_harness(folder)
    wires = {**harness.wires, "W94": replace(harness.wires["W94"], colour=parse_colour("grey"))}
    apply.verify(folder, editor.files, edited, replace(harness, wires=wires))
    with pytest.raises(IntakeError, match="would not say what was meant"):
        apply.verify(folder, editor.files, edited, harness)
    broken = [replace(edited[0], after=edited[0].after.replace(b"colour: grey", b"colour: nocolour"))]
    with pytest.raises(IntakeError, match=r"(?m)^wires\.yaml:\d+:\d+: W94: colour: .*nocolour"):
        apply.verify(folder, editor.files, broken, harness)


def test_the_difference_names_file_and_lines(folder: Path) -> None:
    shown = apply.difference(folder, two_files(folder))
    changed = [line for line in shown.splitlines() if line[:1] in "+-"]
    assert changed[:2] == ["--- wires.yaml", "+++ wires.yaml"]
    assert [line[:40] for line in changed[2:4]] == [
        "-  W94: {from: X4:19, to: unknown, colou",
        "+  W94: {from: X4:19, to: unknown, colou",
    ]
    assert len(changed) == 8


def test_written_and_undone(folder: Path) -> None:
    before = content(folder)
    (folder / "wires.yaml").chmod(0o640)
    edited = two_files(folder)
    apply.write(folder, edited)
    assert content(folder) == {**before, **{one.path.name: one.after for one in edited}}
    assert (folder / "wires.yaml").stat().st_mode & 0o777 == 0o640
    assert {path.name for path in apply.undo(folder)} == {"wires.yaml", "survey.yaml"}
    assert content(folder) == before
    with pytest.raises(IntakeError, match="no intake to undo"):
        apply.undo(folder)


def test_an_undo_touches_nothing_where_one_file_was_changed_since(folder: Path) -> None:
    apply.write(folder, two_files(folder))
    with (folder / "survey.yaml").open("a") as file:
        file.write("# mine\n")
    now = content(folder)
    with pytest.raises(IntakeError, match=r"survey\.yaml: was changed since it was taken in; nothing was undone"):
        apply.undo(folder)
    assert content(folder) == now


def test_a_kill_between_two_files_leaves_a_set_that_reads_and_can_be_undone(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, edited, real, calls = content(folder), two_files(folder), os.replace, []

    def killed(*paths: str) -> None:
        calls.append(paths)
        if len(calls) > 2:  # the undo's .gitignore, the first file; then the power goes
            raise KeyboardInterrupt
        real(*paths)

    monkeypatch.setattr("os.replace", killed)
    with pytest.raises(KeyboardInterrupt):
        apply.write(folder, edited)
    monkeypatch.undo()
    assert content(folder) == {**before, "wires.yaml": edited[0].after}
    assert read_harness(folder).wires["W94"].colour == parse_colour("grey")
    assert not list(folder.glob(".*.part"))
    apply.undo(folder)
    assert content(folder) == before


def test_a_file_changed_meanwhile_is_not_overwritten(folder: Path) -> None:
    edited = two_files(folder)
    (folder / "survey.yaml").write_bytes(b"# mine\n")
    now = content(folder)
    with pytest.raises(IntakeError, match="changed meanwhile"):
        apply.write(folder, edited)
    assert content(folder) == now


def test_an_undo_does_not_leave_the_folder(folder: Path, tmp_path: Path) -> None:
    kept = apply.write(folder, two_files(folder))
    state = kept / "state.json"
    state.write_text(state.read_text().replace("survey.yaml", "../other.yaml"))
    (tmp_path / "other.yaml").write_text("mine")
    with pytest.raises(IntakeError, match="outside the harness's folder"):
        apply.undo(folder)
    assert (tmp_path / "other.yaml").read_text() == "mine"
