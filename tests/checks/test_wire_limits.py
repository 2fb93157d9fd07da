"""What wires may carry where they lie. By hand from 33 CFR 183.425 Table 5 and its note 1."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc.checks.rule import case_of
from harnessdoc.checks.wire_limits import WireLimits, grouped_a, loaded_beside
from harnessdoc.reading import read_harness

TEXT = """\
harness: {title: t, number: NMORE}
places:
  cab: {zone: cabin}
  bay: {zone: Engine space}
  hot: {zone: engine space, warm: 70 C}
  mild: {warm: 40 C}
runs:
  - {between: [cab, bay], length: 1 m}
  - {between: [bay, mild], length: 1 m}
  - {between: [cab, hot], length: 1 m, warm: 60 C}
items:
  XE1: {is: earth point, place: cab}
  XE2: {is: earth point, place: bay}
  XE3: {is: earth point, place: mild}
  XE4: {is: earth point, place: hot}
  X5: {is: terminal strip, ways: 4, place: cab}
wires:
  W1: {from: XE1, to: X5:1, size: 14 AWG, insulation: 105 C}
  W2: {from: XE1, to: XE2, size: 14 AWG, insulation: 105 C}
  W3: {from: XE1, to: XE3, size: 14 AWG, insulation: 105 C}
  W4: {from: XE1, to: XE4, size: 14 AWG, insulation: 105 C}
  W5: {from: XE1, to: X5:2, size: 14 AWG}
  W6: {from: XE1, to: X5:3}
  W7: {from: XE1, to: XE4, size: 14 AWG}
"""


def limits(folder: Path, more: str = "") -> WireLimits:
    (folder / "harness.yaml").write_text(TEXT.replace("MORE", more), encoding="utf-8")
    return case_of(read_harness(folder)).limits


@pytest.mark.parametrize(
    ("wire", "ambient_c", "amps"),
    [
        ("W1", 30, 35),
        ("W2", 50, 29.75),  # x 0.85, note 1
        ("W3", 50, 29.75),  # passes the bay on its way
        ("W4", 70, 23.91),  # sqrt(35/75)
    ],
)
def test_the_warmest_place_on_the_way(wire: str, ambient_c: float, amps: float, tmp_path: Path) -> None:
    found = limits(tmp_path)
    limit = found.of(found.harness.wires[wire])
    assert limit is not None
    assert found.ambient_c(found.harness.wires[wire]) == ambient_c
    assert (limit.least_a, limit.most_a) == pytest.approx((amps, amps), abs=0.01)
    assert limit.assumed == ""


def test_an_unknown_insulation_gives_two_limits(tmp_path: Path) -> None:
    found = limits(tmp_path)
    limit = found.of(found.harness.wires["W5"])
    assert limit is not None
    assert (limit.least_a, limit.most_a) == (20, 35)
    assert limit.assumed == "insulation not stated: taken for 60 °C"
    warm = found.of(found.harness.wires["W7"])
    assert warm is not None
    assert warm.too_warm
    assert not limit.too_warm


def test_the_harness_states_it_for_all(tmp_path: Path) -> None:
    found = limits(tmp_path, ", insulation: 75 C")
    limit = found.of(found.harness.wires["W5"])
    assert limit is not None
    assert (limit.least_a, limit.most_a, limit.assumed) == (20, 20, "")
    assert found.insulation_c(found.harness.wires["W1"]) == 105


def test_an_unknown_size_has_no_limit(tmp_path: Path) -> None:
    found = limits(tmp_path)
    assert found.of(found.harness.wires["W6"]) is None


def test_the_size_that_would_do(tmp_path: Path) -> None:
    found = limits(tmp_path)
    wire = found.harness.wires["W1"]
    assert found.size_for(wire, 35) == "2.5 mm²"
    assert found.size_for(wire, 36) == "4 mm²"
    assert found.size_for(wire, 1000) == ""


def test_wires_that_carry_current_beside_each_other(tmp_path: Path) -> None:
    """W2 and W3 share the run from cab to bay; what carries less than 30 % of its limit does not count."""
    found = limits(tmp_path)
    assert loaded_beside(found, {"W2": 20, "W3": 20}) == {"W2": 2, "W3": 2}
    assert loaded_beside(found, {"W2": 20, "W3": 5}) == {"W2": 1}
    assert grouped_a(35, 3) == pytest.approx(24.5)
