"""Feeds with no fuse near their source. Lengths by 33 CFR 183.455: 7 in (177.8 mm), 40 in (1016 mm) sheathed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Said = tuple[Finding | NotVerified, ...]
Says = Callable[[str], Said]

ITEMS = """\
items:
  G1: {is: battery, volts: 12 V, place: box}
  G2: {is: battery, volts: 12 V, place: far}
  G3: {is: source, volts: 12 V, amps: 8 A, place: box}
  F1: {is: fuse, rating: 30 A, place: far}
  S1: {is: switch, contacts: {1-2: on}, place: box}
  M1: {is: load, amps: 5 A, at: 12 V, place: far}
  M2: {is: load, amps: 5 A, at: 12 V, title: Starter motor, place: far}
  A1: {is: module, terminals: [BAT, GND], place: far}
  T1: {is: speed controller, switches: negative, rating: 20 A, own fuse: 20 A, place: far}
  K1: {is: relay, place: far}
  XE1: {is: earth point, place: far}
"""
PLACES = "places: {box: {zone: ZONE}, far: {}}\nruns: [{between: [box, far], length: 1 m, cover: COVER}]\n"


def found(said: Said) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


def places(zone: str = "outside", cover: str = "unknown") -> str:
    return PLACES.replace("ZONE", zone).replace("COVER", cover)


@pytest.mark.parametrize(
    ("length", "cover", "severity"),
    [
        ("150 mm", "unknown", None),
        ("7 in", "none", None),
        ("178 mm", "none", None),
        ("180 mm", "unknown", Severity.DOUBT),
        ("180 mm", "none", Severity.FAULT),
        ("40 in", "split loom", None),
        ("1016 mm", "split loom", None),
        ("1020 mm", "split loom", Severity.FAULT),  # up to 72 in from a battery: remembered
        ("1.8 m", "split loom", Severity.FAULT),
        ("2 m", "split loom", Severity.DANGER),
    ],
)
def test_how_far_a_fuse_may_stand(says: Says, length: str, cover: str, severity: Severity | None) -> None:
    text = f"{ITEMS}{places(cover=cover)}wires:\n  W1: {{from: G1:+, to: F1:1, size: 6 mm2, length: {length}}}\n"
    assert found(says(text)) == ([("F1", severity)] if severity else [])


def test_the_way_through_a_switch_is_added_up(says: Says) -> None:
    text = """\
wires:
  W1: {from: G1:+, to: S1:1, size: 6 mm2, length: 150 mm}
  W2: {from: S1:2, to: F1:1, size: 6 mm2, length: 150 mm}
"""
    (finding,) = says(ITEMS + places() + text)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DOUBT
    assert finding.text.startswith("F1 stands 300 mm from G1:+ along W1, W2; that is allowed only sheathed")


@pytest.mark.parametrize(
    ("zone", "severity"), [("enclosure", None), ("battery box", None), ("outside", Severity.DOUBT)]
)
def test_within_an_enclosure_counts_as_enclosed(says: Says, zone: str, severity: Severity | None) -> None:
    items = ITEMS.replace("F1: {is: fuse, rating: 30 A, place: far}", "F1: {is: fuse, rating: 30 A, place: box}")
    text = f"{items}{places(zone)}wires:\n  W1: {{from: G1:+, to: F1:1, size: 6 mm2, length: 400 mm}}\n"
    assert found(says(text)) == ([("F1", severity)] if severity else [])


def test_the_core_of_a_cable_is_sheathed(says: Says) -> None:
    text = "cables:\n  W1: {size: 6 mm2, length: 900 mm, cores: {red: {from: G1:+, to: F1:1}, black: spare}}\n"
    assert found(says(ITEMS + places() + text)) == []


def test_an_unknown_length_is_not_verified(says: Says) -> None:
    (said,) = says(ITEMS + "wires:\n  W1: {from: G1:+, to: F1:1, size: 6 mm2}\n")
    assert isinstance(said, NotVerified)
    assert "how long is the way from G1:+ along W1" in said.text


@pytest.mark.parametrize("to", ["M1:1", "A1:BAT", "K1:86"])
def test_a_consumer_with_no_fuse_is_a_danger(says: Says, to: str) -> None:
    text = f"{ITEMS}wires:\n  W1: {{from: G1:+, to: S1:1, size: 6 mm2, length: 1 m}}\n"
    text += f"  W2: {{from: S1:2, to: {to}, size: 1 mm2, length: 1 m}}\n"
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert (finding.about, finding.severity) == (to.partition(":")[0], Severity.DANGER)
    assert "is fed from G1:+ along W1, W2 with no fuse or breaker on the way" in finding.text
    assert finding.mend == "put a fuse for W2 of 1 mm² at G1:+"


def test_a_controller_protects_no_wire_unless_it_has_a_fuse(says: Says) -> None:
    text = "wires:\n  W1: {from: G1:+, to: T1:IN+, size: 6 mm2, length: 1 m}\n"
    assert found(says(ITEMS + text)) == []
    assert found(says(ITEMS.replace(", own fuse: 20 A", "") + text)) == [("T1", Severity.DANGER)]


def test_a_starter_is_remembered_to_be_excepted(says: Says) -> None:
    (said,) = says(ITEMS + "wires:\n  W1: {from: G1:+, to: M2:1, size: 35 mm2, length: 1 m}\n")
    assert isinstance(said, NotVerified)


def test_a_source_that_can_not_give_more_than_the_wire_stands(says: Says) -> None:
    text = "wires:\n  W1: {from: G3:+, to: M1:1, size: SIZE, length: 2 m}\n"
    assert found(says(ITEMS + text.replace("SIZE", "1 mm2"))) == []  # 18 AWG at 60 °C: 10 A
    assert found(says(ITEMS + text.replace("SIZE", "0.5 mm2"))) == [("M1", Severity.DANGER)]  # 6.1 A in proportion


def test_ends_that_are_live_and_bare(says: Says) -> None:
    said = says(ITEMS + "wires:\n  W1: {from: G1:+, to: tail, size: 1 mm2}\n")
    assert found(said) == [("W1", Severity.DANGER)]
    (unknown,) = says(ITEMS + "wires:\n  W1: {from: G1:+, to: unknown, size: 1 mm2}\n")
    assert isinstance(unknown, NotVerified)


def test_two_batteries_joined_with_no_fuse(says: Says) -> None:
    text = "wires:\n  W1: {{from: G1:+, to: S1:1, size: 16 mm2, length: 100 mm}}\n"
    text += "  W2: {{from: S1:2, to: G2:+, size: 16 mm2, length: {}}}\n"
    (finding,) = says(ITEMS + text.format("3 m"))
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.DANGER
    assert finding.text.startswith("G1:+ and G2:+ are joined by W1, W2 with no fuse between")
    assert found(says(ITEMS + text.format("50 mm"))) == []


def test_returns_and_earths_need_none(says: Says) -> None:
    text = """\
wires:
  W1: {from: G1:+, to: F1:1, size: 6 mm2, length: 100 mm}
  W2: {from: F1:2, to: M1:1, size: 6 mm2, length: 3 m}
  W3: {from: M1:2, to: XE1, size: 6 mm2, length: 3 m}
  W4: {from: G1:-, to: XE1, size: 6 mm2, length: 3 m}
"""
    assert says(ITEMS + text) == ()
