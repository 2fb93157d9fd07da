"""The worst current of what several islands share: each draw once."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.reading import read_harness
from harnessdoc.routing import route_harness

REGULATOR = """\
harness: {title: t, number: N}
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.0001 ohm}
  T1: {is: regulator, gives: 5 V}
  B1: {is: sensor, supply: 5 V}
  M1: {is: load, amps: 20 A, at: 12 V}
splices: {J1: {}}
wires:
  W1: {from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}
  W2: {from: T1:IN-, to: J1, size: 1 mm2, length: 1 mm}
  W3: {from: T1:OUT+, to: B1:+, size: 1 mm2, length: 1 m}
  W4: {from: B1:-, to: T1:OUT-, size: 1 mm2, length: 1 m}
  W5: {from: J1, to: G1:-, size: 10 mm2, length: 1 m}
  W6: {from: G1:+, to: M1:1, size: 10 mm2, length: 1 m}
  W7: {from: M1:2, to: J1, size: 10 mm2, length: 1 m}
"""


def study(text: str, folder: Path) -> Study:
    (folder / "harness.yaml").write_text(text, encoding="utf-8")
    harness = read_harness(folder)
    return build_study(build_network(harness), route_harness(harness))


def test_an_island_that_is_kept_whole_by_another_counts_once(tmp_path: Path) -> None:
    """The sensor's island keeps the motor's, whose feed moves the regulator: 12 V over 0.6 ohm and 3 m of 10 mm²
    (1.91 ohm/km) are 19.8 A, not twice that."""
    worst = study(REGULATOR, tmp_path).worst_of_part("W5")
    assert worst is not None
    assert worst.amps == pytest.approx(12 / (0.6 + 3 * 1.91e-3 + 1e-4) + 0.005, abs=0.01)
    assert not worst.bound
