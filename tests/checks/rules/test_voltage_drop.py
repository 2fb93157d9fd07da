"""Voltage lost on the way to a load and back."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ONE = """\
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 0.0001 ohm}}
  S1: {{is: switch, contacts: {{1-2: on}}}}
  M1: {{is: load, amps: {amps}, at: 12 V, draws: constant current}}
circuits: {{pump: {{items: [M1]{limit}}}}}
wires:
  W1: {{from: G1:+, to: S1:1, size: {size}, length: {length}}}
  W2: {{from: S1:2, to: M1:1, size: {size}, length: 1 mm}}
  W3: {{from: M1:2, to: G1:-, size: {size}, length: {length}}}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("amps", "size", "length", "limit", "found"),
    [
        # Printed largest resistances, ohm/km: 1 mm² 19.5, 2.5 mm² 7.98. Two lengths; the contact is assumed.
        # 10 A, 2 x 3.1 m of 1 mm²: 1.209 V, 10.1 % of 12 V; 2 x 3 m: 1.17 V, 9.75 %.
        ("10 A", "1 mm2", "3.1 m", "", [("M1", Severity.FAULT)]),
        ("10 A", "1 mm2", "3 m", "", []),
        # The circuit's own limit: 10 A, 2 x 2.3 m of 2.5 mm² are 0.367 V, 3.06 %; 2 x 2.2 m are 2.93 %.
        ("10 A", "2.5 mm2", "2.3 m", ", drop limit: 3 %", [("M1", Severity.FAULT)]),
        ("10 A", "2.5 mm2", "2.2 m", ", drop limit: 3 %", []),
        ("10 A", "1 mm2", "4 m", ", drop limit: 20 %", []),
    ],
)
def test_limits(says: Says, amps: str, size: str, length: str, limit: str, found: list[tuple[str, Severity]]) -> None:
    assert told(says(ONE.format(amps=amps, size=size, length=length, limit=limit))) == found


def test_what_is_said(says: Says) -> None:
    """10 A through 2 x 4 m of 1 mm² lose 2 x 0.78 V, a contact of 5 mohm 0.05 V. 1.5 mm² (13.3 ohm/km) lose 1.06 V."""
    (finding,) = says(ONE.format(amps="10 A", size="1 mm2", length="4 m", limit=""))
    assert isinstance(finding, Finding)
    assert finding.text == (
        "M1's wiring loses 1.56 V of 12 V with S1 on: 13 %, the limit is 10 %; most in W1 0.78 V, W3 0.78 V;"
        " about 50 mV more in fuses and contacts, as assumed"
    )
    assert finding.mend == "lay 1.5 mm² instead of W1, W3, or take a shorter way"
    assert finding.circuits == ("pump",)


def test_copper_in_heat_loses_more(says: Says) -> None:
    """At 80 °C copper has (234.5 + 80) / 254.5 = 1.236 of its resistance at 20 °C: 2 x 2.9 m, 1.131 V, lose 1.398 V."""
    text = ONE.format(amps="10 A", size="1 mm2", length="2.9 m", limit="")
    assert says(text) == ()
    hot = text.replace("{is: battery,", "{is: battery, place: bay,") + "places: {bay: {warm: 80 C}}\n"
    (finding,) = says(hot)
    assert isinstance(finding, Finding)
    assert "loses 1.4 V of 12 V with S1 on: 11.6 %" in finding.text


BRANCH = """\
  W{n}1: {{from: J1, to: S{n}:1, size: 4 mm2, length: 1 mm}}
  W{n}2: {{from: S{n}:2, to: M{n}:1, size: 4 mm2, length: 1 mm}}
  W{n}3: {{from: M{n}:2, to: G1:-, size: 4 mm2, length: 1 mm}}
"""


def shared(length: str, branches: int) -> str:
    """Switched loads of 1.5 A each behind one wire of 1 mm², all in one island as long as they are few."""
    each = range(1, branches + 1)
    switches = "".join(f"  S{n}: {{is: switch, contacts: {{1-2: on}}}}\n" for n in each)
    loads = "".join(f"  M{n}: {{is: load, amps: 1.5 A, at: 12 V, draws: constant current}}\n" for n in each)
    battery = "  G1: {is: battery, volts: 12 V, inner resistance: 0.0001 ohm}\n"
    trunk = f"  W1: {{from: G1:+, to: J1, size: 1 mm2, length: {length}}}\n"
    wires = trunk + "".join(BRANCH.format(n=n) for n in each)
    return f"items:\n{battery}{switches}{loads}splices: {{J1: {{}}}}\nwires:\n{wires}"


def test_what_others_draw_over_a_shared_wire_counts(says: Says) -> None:
    """15 A through 4.2 m of 1 mm² (19.5 ohm/km) lose 1.23 V, 10.2 % of 12 V; through 4 m 1.17 V, 9.75 %.

    Ten switches are 1,024 states, which are not settled together: the sum is a bound, and a doubt."""
    assert told(says(shared("4.2 m", 10))) == [(f"M{n}", Severity.DOUBT) for n in range(1, 11)]
    assert says(shared("4 m", 10)) == ()


def test_loads_of_one_island_are_known_to_be_on_together(says: Says) -> None:
    """7.5 A through 8.4 m: the same 10.2 %."""
    assert told(says(shared("8.4 m", 5))) == [(f"M{n}", Severity.FAULT) for n in range(1, 6)]


def test_a_wire_of_unknown_length_decides_nothing_for_sure(says: Says) -> None:
    (finding,) = says(ONE.format(amps="60 A", size="1 mm2", length="unknown", limit=""))
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DOUBT
    assert "assumed: W1 length unknown: taken as 1 m" in finding.text


def test_a_load_behind_another_load_is_no_matter_of_wiring(says: Says) -> None:
    text = ONE.format(amps="1 A", size="4 mm2", length="1 m", limit="")
    text = text.replace("W2: {from: S1:2, to: M1:1", "W2: {from: S1:2, to: M2:1").replace("draws: constant current", "")
    text = text.replace("items:\n", "items:\n  M2: {is: load, ohms: 3 ohm}\n")
    assert says(text + "  W4: {from: M2:2, to: M1:1, size: 4 mm2, length: 1 m}\n") == ()


def test_no_size_helps_where_a_fuse_loses_it(says: Says) -> None:
    """300 A through a fuse of a stated 5 mohm lose 1.5 V, 12.5 %."""
    text = ONE.format(amps="300 A", size="120 mm2", length="1 mm", limit="")
    text = text.replace("{is: switch, contacts: {1-2: on}}", "{is: fuse, cold resistance: 5 mohm}")
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert finding.mend.startswith("no size of wire helps")


def test_a_regulators_rail_ends_at_the_regulator(says: Says) -> None:
    """The sensor's 5 mA (1 kohm, assumed) lose nothing to speak of; the motor's 20 A in W5 are not on its way."""
    text = """\
items:
  G1: {is: battery, volts: 12 V}
  T1: {is: regulator, gives: 5 V}
  B1: {is: sensor, supply: 5 V}
  M1: {is: load, amps: 20 A, at: 12 V}
splices: {J1: {}}
wires:
  W1: {from: G1:+, to: T1:IN+, size: 1 mm2, length: 1 m}
  W2: {from: T1:IN-, to: J1, size: 1 mm2, length: 1 mm}
  W3: {from: T1:OUT+, to: B1:+, size: 1 mm2, length: 1 m}
  W4: {from: B1:-, to: T1:OUT-, size: 1 mm2, length: 1 m}
  W5: {from: J1, to: G1:-, size: 2.5 mm2, length: 3 m}
  W6: {from: G1:+, to: M1:1, size: 10 mm2, length: 1 m}
  W7: {from: M1:2, to: J1, size: 10 mm2, length: 1 m}
"""
    assert told(says(text)) == []
