"""Returns that are missing, and returns thinner than the feed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

ONE = """\
items:
  G1: {{is: battery, volts: 12.6 V}}
  F1: {{is: fuse, rating: 20 A}}
  M1: {{is: load, amps: {amps}, at: 12 V}}
wires:
  W1: {{from: G1:+, to: F1:1, size: 10 mm2, length: 1 m}}
  W2: {{from: F1:2, to: M1:1, size: {feed}, length: 1 m}}
  W3: {{from: M1:2, to: G1:-, size: {back}, length: 1 m{laid}}}
"""
FED = """\
items:
  G1: {is: battery, volts: 12.6 V}
  S1: {is: switch, contacts: {1-2: on}}
  M1: {is: load, amps: 5 A, at: 12 V}
  M2: {is: load, amps: 5 A, at: 12 V}
  K1: {is: relay, coil: {volts: 12 V}}
  XE1: {is: earth point}
wires:
  W1: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
  W9: {from: G1:-, to: XE1, size: 1 mm2, length: 1 m}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


@pytest.mark.parametrize(
    ("amps", "feed", "back", "found"),
    [
        ("5 A", "2.5 mm2", "1.5 mm2", 1),
        ("5 A", "2.5 mm2", "2.5 mm2", 0),
        ("5 A", "2.5 mm2", "4 mm2", 0),
        # 14 AWG is 2.08 mm² (ASTM B258): no step after 2 mm², one after 2.5 mm².
        ("5 A", "2 mm2", "14 AWG", 0),
        ("5 A", "2.5 mm2", "14 AWG", 1),
        # A coil or a signal lamp.
        ("0.2 A", "2.5 mm2", "0.75 mm2", 0),
        ("5 A", "unknown", "0.75 mm2", 0),
    ],
)
def test_sizes(says: Says, amps: str, feed: str, back: str, found: int) -> None:
    said = says(ONE.format(amps=amps, feed=feed, back=back, laid=""))
    assert told(said) == [("M1", Severity.DOUBT)] * found


def test_both_are_named(says: Says) -> None:
    """5 A at 12 V is 2.4 ohm: 12.6 V drive 5.2 A."""
    (finding,) = says(ONE.format(amps="5 A", feed="2.5 mm2", back="1.5 mm2", laid=""))
    assert isinstance(finding, Finding)
    assert finding.text == ("M1 returns 5.2 A through W3 of 1.5 mm²; its feed is nowhere thinner than 2.5 mm² (W2)")


def test_old_behind_old_is_not_scolded(says: Says) -> None:
    text = ONE.format(amps="5 A", feed="2.5 mm2", back="1.5 mm2", laid=", laid: existing")
    assert told(says(text)) == [("M1", Severity.DOUBT)]
    assert told(says(text.replace("size: 2.5 mm2, length: 1 m", "size: 2.5 mm2, length: 1 m, laid: existing"))) == []


@pytest.mark.parametrize(
    ("wires", "found"),
    [
        ("", [("M1", Severity.FAULT)]),
        # To a cut end; to a switch that leads nowhere.
        ("  W2: {from: M1:2, to: tail, size: 1 mm2, length: 1 m}\n", [("M1", Severity.FAULT)]),
        ("  W2: {from: M1:2, to: S1:1, size: 1 mm2, length: 1 m}\n", [("M1", Severity.FAULT)]),
        # Nobody knows where yet; through another load; through a switch; to the chassis.
        ("  W2: {from: M1:2, to: unknown, size: 1 mm2, length: 1 m}\n", []),
        ("  W2: {from: M1:2, to: M2:1, size: 1 mm2, length: 1 m}\n", []),
        (
            "  W2: {from: M1:2, to: S1:1, size: 1 mm2, length: 1 m}\n"
            "  W3: {from: S1:2, to: XE1, size: 1 mm2, length: 1 m}\n",
            [],
        ),
        ("  W2: {from: M1:2, to: chassis, size: 1 mm2, length: 1 m}\n", []),
    ],
)
def test_missing(says: Says, wires: str, found: list[tuple[str, Severity]]) -> None:
    assert told(says(FED + wires)) == found


def test_a_coil_without_a_return(says: Says) -> None:
    text = FED + "  W2: {from: M1:2, to: XE1, size: 1 mm2, length: 1 m}\n  W3: {from: G1:+, to: K1:86, size: 1 mm2}\n"
    assert told(says(text)) == [("K1", Severity.FAULT)]


def test_what_is_not_fed_lacks_nothing(says: Says) -> None:
    assert says("items: {G1: {is: battery}, M1: {is: load, amps: 5 A}}\n") == ()


def test_its_case_is_its_return(says: Says) -> None:
    assert (
        says(FED.replace("M1: {is: load, amps: 5 A, at: 12 V", "M1: {is: load, amps: 5 A, case on chassis: true")) == ()
    )
