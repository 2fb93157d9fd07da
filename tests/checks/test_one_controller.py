"""Two 7 A motors on 2.5 mm² behind one 20 A controller: common practice, with a fuse that protects the wire."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.checks.run import Report, run_checks
from harnessdoc.model.finding import Severity
from harnessdoc.reading import read_harness

TEXT = """\
harness: {title: t, number: N}
items:
  G1: {is: battery, volts: 12.6 V, place: box}
  F1: {is: fuse, rating: FUSE, style: blade, place: box}
  T1: {is: speed controller, switches: negative, rating: 20 A, place: tank}
  M1: {is: load, amps: 7 A, stall: 30 A, at: 12 V, place: tank}
  M2: {is: load, amps: 7 A, stall: 30 A, at: 12 V, place: tank}
splices: {J1: {}, J2: {}}
wires:
  W1: {from: G1:+, to: F1:1, size: 4 mm2, length: 150 mm}
  W2: {from: F1:2, to: T1:IN+, size: 2.5 mm2, length: 2 m}
  W3: {from: T1:IN-, to: G1:-, size: 2.5 mm2, length: 2 m}
  W4: {from: T1:OUT+, to: J1, size: 2.5 mm2, length: 300 mm}
  W5: {from: J1, to: M1:1, size: 2.5 mm2, length: 900 mm}
  W6: {from: J1, to: M2:1, size: 2.5 mm2, length: 900 mm}
  W7: {from: T1:OUT-, to: J2, size: 2.5 mm2, length: 300 mm}
  W8: {from: J2, to: M1:2, size: 2.5 mm2, length: 900 mm}
  W9: {from: J2, to: M2:2, size: 2.5 mm2, length: 900 mm}
"""
CURRENTS = {
    "overloaded-wire", "fuse-too-small", "fuse-too-large-for-wire", "slow-fuse", "unprotected-feed",
    "overloaded-contact", "stall-against-fuse", "step-down-unprotected", "parallel-fuses", "small-source",
}  # fmt: skip


def report(text: str, folder: Path) -> Report:
    (folder / "harness.yaml").write_text(text, encoding="utf-8")
    return run_checks(read_harness(folder))


def said(text: str, folder: Path) -> list[tuple[str, str, Severity]]:
    findings = report(text, folder).findings
    return [(one.rule, one.about, one.severity) for one in findings if one.rule in CURRENTS]


def test_it_passes_with_a_fuse_that_protects_the_wire(tmp_path: Path) -> None:
    """20 A: 14 A are below 80 % of it, 2.5 mm² is good for 20 A whatever its insulation (33 CFR 183.425 Table 5)."""
    assert said(TEXT.replace("FUSE", "20 A"), tmp_path) == []


def test_it_fails_without_one_for_a_controller_protects_no_wire(tmp_path: Path) -> None:
    lines = [line for line in TEXT.splitlines() if "F1" not in line]
    text = "\n".join(lines).replace("wires:", "wires:\n  W2: {from: G1:+, to: T1:IN+, size: 2.5 mm2, length: 2 m}")
    found = said(text, tmp_path)
    assert ("unprotected-feed", "T1", Severity.DANGER) in found


@pytest.mark.parametrize("fuse", ["60 A", "80 A"])
def test_it_fails_with_one_that_does_not(fuse: str, tmp_path: Path) -> None:
    """150 % of 35 A, the most that Table 5 gives 14 AWG at 105 °C, is 52.5 A."""
    found = said(TEXT.replace("FUSE", fuse), tmp_path)
    assert ("fuse-too-large-for-wire", "F1", Severity.DANGER) in found
    assert ("stall-against-fuse", "T1", Severity.DOUBT) not in found
    assert ("stall-against-fuse", "M1", Severity.DOUBT) in found  # nor does anything stop a stall at the controller
