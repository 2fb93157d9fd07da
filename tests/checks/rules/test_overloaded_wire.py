"""Wires that carry more than the table allows. Limits by hand from 33 CFR 183.425 Table 5."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]


def one_load(amps: str, wire: str, more: str = "", head: str = "") -> str:
    """A battery with no inner resistance to speak of, a fuse, a load of so many A at 12 V, and W2 as given."""
    title = f"harness: {{title: t, number: N{head}}}\n" if head else ""
    return f"""{title}\
items:
  G1: {{is: battery, volts: 12 V, inner resistance: 0.01 mohm, place: box}}
  F1: {{is: fuse, rating: 60 A, cold resistance: 0.01 mohm, place: box}}
  M1: {{is: load, amps: {amps}, at: 12 V, place: far}}
wires:
  W1: {{from: G1:+, to: F1:1, size: 70 mm2, length: 1 mm, insulation: 105 C}}
  W2: {{from: F1:2, to: M1:1, length: 1 mm, {wire}}}
  W3: {{from: M1:2, to: G1:-, size: 70 mm2, length: 1 mm, insulation: 105 C}}
{more or "places: {box: {}, far: {}}"}
"""


def severities(said: Said) -> list[Severity]:
    return [one.severity for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("amps", "wire", "severity"),
    [
        ("34 A", "size: 14 AWG, insulation: 105 C", None),  # 14 AWG, 105 °C: 35 A
        ("36 A", "size: 14 AWG, insulation: 105 C", Severity.DANGER),
        ("19 A", "size: 14 AWG", None),  # 60 °C: 20 A, whatever its insulation is
        ("22 A", "size: 14 AWG", Severity.DOUBT),  # between 20 A and 35 A
        ("36 A", "size: 14 AWG", Severity.DANGER),
        ("19 A", "size: 2.5 mm2, insulation: 75 C", None),  # counts as 14 AWG: 20 A
        ("21 A", "size: 2.5 mm2, insulation: 75 C", Severity.DANGER),
        ("24 A", "size: 14 AWG, insulation: 85 C", None),  # the column below: 80 °C, 25 A
        ("26 A", "size: 14 AWG, insulation: 85 C", Severity.DANGER),
    ],
)
def test_the_table_decides(says: Says, amps: str, wire: str, severity: Severity | None) -> None:
    assert severities(says(one_load(amps, wire))) == ([severity] if severity else [])


def test_a_finding_says_what_is_allowed_and_what_would_do(says: Says) -> None:
    (finding,) = says(one_load("36 A", "size: 14 AWG, insulation: 105 C"))
    assert isinstance(finding, Finding)
    assert finding.text == "W2 carries 36 A with everything at rest; 14 AWG is good for 35 A (35 A as 14 AWG at 105 °C)"
    assert finding.mend == "lay 4 mm² or thicker"  # counts as 12 AWG: 45 A
    assert "33 CFR 183.425" in finding.source


def test_an_assumed_insulation_is_said(says: Says) -> None:
    (finding,) = says(one_load("22 A", "size: 14 AWG"))
    assert isinstance(finding, Finding)
    assert "insulation not stated: taken for 60 °C" in finding.text
    assert "20 A (20 A as 14 AWG at 60 °C), or 35 A with insulation for 105 °C" in finding.text


def test_the_harness_can_state_the_insulation_of_all(says: Says) -> None:
    assert severities(says(one_load("22 A", "size: 14 AWG", head=", insulation: 105 C"))) == []
    assert severities(says(one_load("22 A", "size: 14 AWG, insulation: 60 C", head=", insulation: 105 C"))) == [
        Severity.DANGER
    ]


@pytest.mark.parametrize(
    ("amps", "places", "severities_"),
    [
        ("29 A", "far: {zone: engine space}", []),  # 35 A x 0.85 = 29.75 A at 50 °C, note 1
        ("31 A", "far: {zone: engine space}", [Severity.DANGER]),
        ("20 A", "far: {warm: 80 C}", []),  # 35 A x sqrt(25/75) = 20.2 A
        ("21 A", "far: {warm: 80 C}", [Severity.DANGER]),
    ],
)
def test_a_warm_place_takes_some_away(says: Says, amps: str, places: str, severities_: list[Severity]) -> None:
    text = one_load(amps, "size: 14 AWG, insulation: 105 C", f"places: {{box: {{}}, {places}}}")
    assert severities(says(text)) == severities_


def test_too_warm_for_an_unknown_insulation_is_said_once_for_all(says: Says) -> None:
    text = one_load("1 A", "size: 14 AWG", "places: {box: {}, far: {warm: 80 C}}").replace(", insulation: 105 C", "")
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DOUBT
    assert finding.text.startswith("W2, W3 lie where it is up to 80 °C warm; insulation not stated")


def test_a_warm_run_counts_too(says: Says) -> None:
    runs = "places: {box: {}, far: {}}\nruns: [{between: [box, far], length: 1 m, warm: 80 C}]"
    assert severities(says(one_load("21 A", "size: 14 AWG, insulation: 105 C", runs))) == [Severity.DANGER]


def test_bundling_below_50_v_is_a_doubt(says: Says) -> None:
    """Three loaded wires in one run: 35 A x 0.70 = 24.5 A by note 2, which is law only from 50 V up."""
    runs = "places: {box: {}, far: {}}\nruns: [{between: [box, far], length: 1 m}]"
    text = one_load("26 A", "size: 14 AWG, insulation: 105 C", runs).replace("size: 70 mm2", "size: 6 AWG")
    text = text.replace("items:\n", "items:\n  M2: {is: load, amps: 60 A, at: 12 V, place: far}\n")
    text = text.replace(
        "wires:\n", "wires:\n  W4: {from: F1:2, to: M2:1, size: 6 AWG, insulation: 105 C, length: 1 mm}\n"
    )
    text = text.replace(
        "wires:\n", "wires:\n  W5: {from: M2:2, to: G1:-, size: 6 AWG, insulation: 105 C, length: 1 mm}\n"
    )
    said = [one for one in says(text) if isinstance(one, Finding) and one.about == "W2"]
    assert [(one.severity, "note 2" in one.source) for one in said] == [(Severity.DOUBT, True)]
    assert "among 3 wires" in said[0].text
    assert "good for 24.5 A there" in said[0].text


def test_iso_10133_by_what_is_printed(says: Says) -> None:
    """Table A.1 as one page repeats it: 2.5 mm² at 105 °C 35 A; the rest is remembered and decides nothing."""
    head = ", ampacity rule: ISO 10133"
    assert severities(says(one_load("34 A", "size: 2.5 mm2, insulation: 105 C", head=head))) == []
    assert severities(says(one_load("36 A", "size: 2.5 mm2, insulation: 105 C", head=head))) == [Severity.DANGER]
    (said,) = (one for one in says(one_load("50 A", "size: 6 mm2, insulation: 105 C", head=head)) if one.about == "W2")
    assert isinstance(said, NotVerified)
    assert "remembered" in said.text


def test_what_is_not_known_is_not_passed(says: Says) -> None:
    (said,) = says(one_load("5 A", "size: unknown"))
    assert isinstance(said, NotVerified)
    assert "its size is not known" in said.text
    (said,) = says(one_load("5 A", "size: 2.5 mm2, insulation: 50 C"))
    assert isinstance(said, NotVerified)
    (said,) = says(one_load("5 A", "size: 2.5 mm2").replace("amps: 5 A, at: 12 V, ", ""))
    assert isinstance(said, NotVerified)
    assert "M1: its draw is not stated" in said.text


def test_a_sum_over_islands_is_a_fault_and_says_so(says: Says) -> None:
    """Two loads behind two switches: 30 A each, 60 A in W2 if both are on."""
    text = """\
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.01 mohm}
  S1: {is: switch, contacts: {1-2: on}}
  S2: {is: switch, contacts: {1-2: on}}
  M1: {is: load, amps: 30 A, at: 12 V}
  M2: {is: load, amps: 30 A, at: 12 V}
splices: {J1: {}}
wires:
  W2: {from: G1:+, to: J1, size: 12 AWG, length: 1 mm, insulation: 105 C}
  W3: {from: J1, to: S1:1, size: 12 AWG, length: 1 mm, insulation: 105 C}
  W4: {from: J1, to: S2:1, size: 12 AWG, length: 1 mm, insulation: 105 C}
  W5: {from: S1:2, to: M1:1, size: 12 AWG, length: 1 mm, insulation: 105 C}
  W6: {from: S2:2, to: M2:1, size: 12 AWG, length: 1 mm, insulation: 105 C}
  W7: {from: M1:2, to: G1:-, size: 12 AWG, length: 1 mm, insulation: 105 C}
  W8: {from: M2:2, to: G1:-, size: 12 AWG, length: 1 mm, insulation: 105 C}
"""
    said = [one for one in says(text) if isinstance(one, Finding)]
    assert [(one.about) for one in said] == ["W2"]
    assert said[0].severity in (Severity.FAULT, Severity.DANGER)


def test_too_many_positions_are_not_verified(says: Says) -> None:
    """Thirteen switches in a row reach one island of 8192 states."""
    count = 13
    switches = "\n".join(f"  S{n}: {{is: switch, contacts: {{1-2: on}}}}" for n in range(1, count + 1))
    wires = "\n".join(f"  W{n}: {{from: S{n}:2, to: S{n + 1}:1, size: 1 mm2, length: 1 m}}" for n in range(1, count))
    text = f"""\
items:
  G1: {{is: battery, volts: 12 V}}
  M1: {{is: load, amps: 90 A, at: 12 V}}
{switches}
wires:
  W90: {{from: G1:+, to: S1:1, size: 1 mm2, length: 1 m}}
  W91: {{from: S{count}:2, to: M1:1, size: 1 mm2, length: 1 m}}
  W92: {{from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}}
{wires}
"""
    said = says(text)
    assert severities(said) == []
    assert any("8192 positions together are too many" in one.text for one in said if isinstance(one, NotVerified))


def test_bundling_does_not_scold_what_was_there_before(says: Says) -> None:
    runs = "places: {box: {}, far: {}}\nruns: [{between: [box, far], length: 1 m}]"
    text = one_load("26 A", "size: 14 AWG, insulation: 105 C, LAID", runs).replace("size: 70 mm2", "size: 10 AWG")
    more = "  W4: {from: F1:2, to: M2:1, size: 6 AWG, insulation: 105 C, length: 1 mm}\n"
    more += "  W5: {from: M2:2, to: G1:-, size: 6 AWG, insulation: 105 C, length: 1 mm}\n"
    text = text.replace("items:\n", "items:\n  M2: {is: load, amps: 60 A, at: 12 V, place: far}\n")
    text = text.replace("wires:\n", f"wires:\n{more}")
    about = [[one.about for one in says(text.replace("LAID", f"laid: {laid}"))] for laid in ("new", "existing")]
    assert "W2" in about[0]
    assert "W2" not in about[1]
