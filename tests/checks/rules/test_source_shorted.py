"""Plus on minus: by copper, through a fuse, through switches that can be closed together, through settled relays."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

BATTERY = "G1: {is: battery}"


def test_a_feed_on_the_return_bus_is_a_danger(says: Says) -> None:
    (finding,) = says(f"items: {{{BATTERY}}}\nwires: {{W1: {{from: 'G1:+', to: J1}}, W2: {{from: J1, to: 'G1:-'}}}}\n")
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DANGER
    assert finding.text == "G1: its + and its - are joined through wire alone"


def test_a_switch_straight_to_minus(says: Says) -> None:
    harness = f"""items: {{{BATTERY}, S1: {{is: switch, contacts: {{1-2: on}}}}}}
wires: {{W1: {{from: "G1:+", to: S1:1}}, W2: {{from: S1:2, to: "G1:-"}}}}
"""
    (finding,) = says(harness)
    assert finding.text.endswith("through S1:1-2 (on)")


def test_two_contacts_that_no_position_closes_together(says: Says) -> None:
    """A reversing switch: 1-2 in one position, 2-3 in the other; plus on 1, minus on 3."""
    harness = f"""items: {{{BATTERY}, S1: {{is: switch, contacts: {{1-2: up, 2-3: down}}}}}}
wires: {{W1: {{from: "G1:+", to: S1:1}}, W2: {{from: S1:3, to: "G1:-"}}}}
"""
    assert says(harness) == ()
    assert len(says(harness.replace("2-3: down", "2-3: up"))) == 1


RELAY = f"""items:
  {BATTERY}
  K1: {{is: relay, coil: {{volts: 12 V, ohms: 85 ohm}}}}
  S1: {{is: switch, contacts: {{1-2: on}}}}
wires:
  W1: {{from: "G1:+", to: J1}}
  W2: {{from: J1, to: S1:1}}
  W3: {{from: S1:2, to: K1:86}}
  W4: {{from: K1:85, to: J2}}
  W5: {{from: J1, to: K1:30}}
  W6: {{from: K1:87, to: J2}}
  W7: {{from: J2, to: "G1:-"}}
splices: {{J1: {{}}, J2: {{}}}}
"""


def test_a_relay_that_can_pull(says: Says) -> None:
    (finding,) = says(RELAY)
    assert finding.text.endswith("through K1:30-87 (pulled)")


def test_a_relay_that_never_pulls(says: Says) -> None:
    assert says(RELAY.replace("W3: {from: S1:2, to: K1:86}", "W3: {from: unknown, to: K1:86}")) == ()
