"""Ranges of a signal against thresholds, and against each other."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

HARNESS = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  B1: {{is: sensor, wires: 2, signal: {{{signal}}}}}
  K5: {{is: relay board, supply: 12 V, input: {{{input}}}}}
wires:
  W1: {{from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}}
  W2: {{from: B1:-, to: G1:-, size: 1 mm2, length: 1 m}}
  W3: {{from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}}
  W4: {{from: K5:+, to: G1:+, size: 1 mm2, length: 1 m}}
"""
SAFE = "operation:\n  - {when: {B1: dry}, dead: [K5], fails safe: true}\n"
WATCH = "pulls at: 4.6 V, releases at: 4.3 V, ohms: 1 Mohm"


def told(said: tuple[Finding | NotVerified, ...]) -> list[Severity]:
    return [one.severity for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("signal", "thresholds", "findings"),
    [
        # 3.8 V when normal and 5 V in the cut-out: a board that pulls at 4.6 V knows them apart.
        ("normal: 3.8 V, dry: 5 V", WATCH, 0),
        # The range touches the other one; and the upper one may or may not pull.
        ("normal: 3.8..4.5 V, dry: 4.5..5 V", WATCH, 3),
        # 4.4 V is between release and pull: as it was.
        ("normal: 3.8..4.4 V, dry: 5 V", WATCH, 1),
        # Both pull, both release.
        ("normal: 4.8 V, dry: 5 V", WATCH, 1),
        ("normal: 1 V, dry: 2 V", WATCH, 1),
        # 0 V unplugged is released, like 3.8 V.
        ("normal: 3.8 V, dry: 5 V, unplugged: 0 V", WATCH, 1),
        # Healthy pulls, dry and unplugged release.
        ("normal: 5 V, dry: 3.8 V, unplugged: 0 V", WATCH, 0),
        # 5 V shorted is pulled, like a healthy 5 V.
        ("normal: 5 V, dry: 3.8 V, shorted: 5 V", WATCH, 2),
        # Two faults may well read the same.
        ("normal: 5 V, dry: 3.8 V, unplugged: 0 V, shorted to ground: 0 V", WATCH, 0),
        # Unplugged reads like dry, which is as it should be.
        ("normal: 5 V, dry: 0..0.5 V, unplugged: 0 V", WATCH, 0),
        # Only 0.05 V from the threshold.
        ("normal: 4.25 V, dry: 5 V", WATCH, 1),
        # A board that pulls when its input is low.
        ("normal: 3.8 V, dry: 0.5 V", "pulls at: 1 V, releases at: 1.5 V, ohms: 1 Mohm, active: low", 0),
        ("normal: 0.2 V, dry: 0.5 V", "pulls at: 1 V, releases at: 1.5 V, ohms: 1 Mohm, active: low", 1),
    ],
)
def test_ranges_and_thresholds(says: Says, signal: str, thresholds: str, findings: int) -> None:
    assert len(told(says(HARNESS.format(signal=signal, input=thresholds)))) == findings


def test_an_unplugged_sensor_that_reads_healthy_is_a_danger_where_it_must_fail_safe(says: Says) -> None:
    text = HARNESS.format(signal="normal: 3.8 V, dry: 5 V, unplugged: 0 V", input=WATCH)
    assert told(says(text)) == [Severity.DOUBT]
    (finding,) = says(text + SAFE)
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.about, finding.mark.line) == (Severity.DANGER, "B1", 4)
    assert finding.text == (
        "K5 is released with B1 unplugged (0 V) as with it normal (3.8 V), pulling at 4.6 V and releasing at 4.3 V"
    )
    assert told(says(text + SAFE.replace(", fails safe: true", ""))) == [Severity.DOUBT]


def test_touching_ranges_are_a_danger_where_it_must_fail_safe(says: Says) -> None:
    """The touch, and the dry range that may or may not pull."""
    text = HARNESS.format(signal="normal: 3.8..4.2 V, dry: 4.2..5 V, unplugged: 4.9 V", input=WATCH)
    assert set(told(says(text + SAFE))) == {Severity.DANGER}


def test_where_the_threshold_belongs_is_said_with_its_margin(says: Says) -> None:
    """Between 1 V and 2 V: 1.5 V, half a volt from either."""
    (finding,) = says(HARNESS.format(signal="normal: 1 V, dry: 2 V", input=WATCH))
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert finding.mend == "set the threshold at 1.5 V, 0.5 V from either range"


def test_nobody_knows_what_it_reads_unplugged(says: Says) -> None:
    said = says(HARNESS.format(signal="normal: 3.8 V, dry: 5 V", input=WATCH) + SAFE)
    assert [type(one) for one in said] == [NotVerified]


def test_the_inputs_own_load_is_in_the_range(says: Says) -> None:
    """A source of 10 ohm, as assumed, into 10 ohm: half arrives, so 5 V does not reach 4.6 V."""
    low = "pulls at: 4.6 V, releases at: 4.3 V, ohms: 10 ohm"
    said = says(HARNESS.format(signal="normal: 3.8 V, dry: 5 V", input=low))
    assert [one.severity for one in said if isinstance(one, Finding)] == [Severity.FAULT]


def test_a_sensor_that_nothing_reads(says: Says) -> None:
    assert told(says("items: {B1: {is: sensor, signal: {normal: 1..2 V, dry: 1.5..3 V}}}\n")) == [Severity.DOUBT]
    assert told(says("items: {B1: {is: sensor, signal: {normal: 1..2 V, dry: 2.5..3 V}}}\n")) == []


def test_a_signal_wire_on_the_supply_is_taken_as_it_is(says: Says) -> None:
    """12.6 V on the signal: the board is pulled whatever the sensor says, at no more than 12.6 V."""
    text = HARNESS.format(signal="normal: 1 V, dry: 5 V", input=WATCH)
    (finding,) = says(text + "  W5: {from: G1:+, to: K5:IN, size: 1 mm2, length: 1 m}\n")
    assert isinstance(finding, Finding)
    assert finding.text.startswith("K5 is pulled whatever B1 says (12.")


THREE_WIRES = HARNESS.replace("wires: 2,", "wires: 3, supply: 5 V,")
LOW = "pulls at: 1 V, releases at: 0.8 V, ohms: 1 Mohm"


@pytest.mark.parametrize(
    ("signal", "thresholds", "asked"),
    [
        # Healthy is high: a sensor without its ground, at 5 V, would pass for healthy.
        ("normal: 2..4 V, dry: 0.5 V, unplugged: 0 V", LOW, True),
        ("normal: 2..4 V, dry: 0.5 V, unplugged: 0 V, ground broken: 0.3 V", LOW, False),
        ("normal: 2..4 V, dry: 0.5 V, unplugged: 0 V, shorted to ground: 0 V", LOW, True),
        # Healthy is low and released, 5 V is not.
        ("normal: 3 V, dry: 5 V, unplugged: 5 V", WATCH, False),
    ],
)
def test_a_broken_ground_is_asked_for(says: Says, signal: str, thresholds: str, asked: bool) -> None:
    said = says(THREE_WIRES.format(signal=signal, input=thresholds) + SAFE)
    assert ["ground wire broken" in one.text for one in said] == [True] * asked
    assert all(isinstance(one, NotVerified) for one in said)


def test_a_signal_that_never_arrives_is_a_fault_and_no_danger(says: Says) -> None:
    """With the sensor's ground wire missing nothing comes: the board rests, which is safe, and nothing works."""
    text = HARNESS.format(signal="normal: 3.8 V, dry: 5 V, unplugged: 0 V", input=WATCH).replace(
        "to: G1:-", "to: tail", 1
    )
    (finding,) = says(text + SAFE)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert finding.text == "K5 never sees B1's signal: no more than 0 V arrives"
