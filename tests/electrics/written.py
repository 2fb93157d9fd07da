"""Harnesses written in a test as YAML, and their study."""

from __future__ import annotations

import tempfile
from pathlib import Path

from harnessdoc.checks.rule import case_of
from harnessdoc.electrics.study import Study
from harnessdoc.model.harness import Harness
from harnessdoc.reading import read_harness

ROOT = Path(__file__).parents[2]
SAMPLE, SMALL = ROOT / "sample_harness", ROOT / "tests" / "data" / "small"

# A cut-out relay that is energised to stop the pump: K1 pulls when the float S1 says dry, and opens 87a.
TO_STOP = """
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.01 ohm}
  F1: {is: fuse, rating: 10 A, cold resistance: 0.005 ohm}
  S1: {is: switch, contacts: {"1-2": dry}, rest: wet}
  K1: {is: relay, coil: {volts: 12 V, ohms: 80 ohm, pulls at: 8 V, releases at: 2 V}}
  M1: {is: load, ohms: 6 ohm, at: 12 V}
wires:
  W1: {from: "G1:+", to: "F1:1", size: 2.5 mm2, length: 1 m}
  W2: {from: "F1:2", to: "J1", size: 2.5 mm2, length: 1 m}
  W3: {from: "J1", to: "S1:1", size: 1 mm2, length: 1 m}
  W4: {from: "S1:2", to: "K1:86", size: 1 mm2, length: 1 m}
  W5: {from: "K1:85", to: "J2", size: 1 mm2, length: 1 m}
  W6: {from: "J1", to: "K1:30", size: 2.5 mm2, length: 1 m}
  W7: {from: "K1:87a", to: "M1:1", size: 2.5 mm2, length: 1 m}
  W8: {from: "M1:2", to: "J2", size: 2.5 mm2, length: 1 m}
  W9: {from: "J2", to: "G1:-", size: 2.5 mm2, length: 1 m}
splices: {J1: {}, J2: {}}
operation:
  - {when: {S1: wet}, live: [M1], dead: [K1]}
  - {when: {S1: dry}, live: [K1], dead: [M1], fails safe: true}
"""
# The same energised to run: the float closes when wet and holds 87.
TO_RUN = (
    TO_STOP.replace('{"1-2": dry}, rest: wet', '{"1-2": wet}, rest: dry').replace("K1:87a", "K1:87")
    .replace("dead: [K1]", "dead: []").replace("live: [K1]", "live: []")
)  # fmt: skip


def harness_of(text: str) -> Harness:
    """The harness of a text without its `harness:` section."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "harness.yaml"
        path.write_text(text if text.startswith("harness:") else "harness: {title: t, number: N}\n" + text, "utf-8")
        return read_harness(Path(folder))


def study_of(harness: Harness) -> Study:
    """Its study."""
    return case_of(harness).study


def study_from(text: str) -> Study:
    """The study of a text."""
    return study_of(harness_of(text))
