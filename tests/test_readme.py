"""README tells the truth: every kind with its keys, every command, every section; the counts of the sample's check."""

from __future__ import annotations

import dataclasses
from pathlib import Path

from harnessdoc.checks.run import run_checks
from harnessdoc.cli import main
from harnessdoc.model.finding import Severity
from harnessdoc.model.hardware import FORMS
from harnessdoc.model.kinds import KINDS
from harnessdoc.reading import read_harness
from harnessdoc.reading.shapes import SECTIONS

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_every_kind_stands_in_the_table_with_its_keys() -> None:
    for name, kind in KINDS.items():
        (row,) = [line for line in README.splitlines() if line.startswith(f"| `{name}` |")]
        for field in dataclasses.fields(kind):
            assert field.metadata["key"] == "*" or f"`{field.metadata['key']}`" in row


def test_every_command_section_and_hardware_is_named() -> None:
    for word in (*main.commands, *SECTIONS, *FORMS):
        assert word in README


def test_the_walk_through_names_what_the_check_finds() -> None:
    report = run_checks(read_harness(ROOT / "sample_harness"))
    assert report.count(Severity.DANGER) == 0
    for finding in report.findings:
        assert f"{finding.severity.word}, {finding.rule}" in README
