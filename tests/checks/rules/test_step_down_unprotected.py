"""A feed that goes on thinner than its fuse was chosen for."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


ITEMS = """\
items:
  G1: {is: battery}
  F1: {is: fuse, rating: 30 A}
  F2: {is: fuse, rating: 10 A}
  S1: {is: switch, contacts: {1-2: on}}
  K1: {is: relay}
  M1: {is: load}
  XE1: {is: earth point}
  X9: {is: terminal strip, ways: 3, joined: all}
  T1: {is: speed controller, switches: negative}
splices: {J1: {}}
plugs: {X1: {face: rect-1x2, mates with: X2}, X2: {face: rect-1x2}}
wires:
"""
FUSED = ITEMS + "  W0: {from: G1:+, to: F1:1, size: 6 mm2}\n"


def findings(said: tuple[Finding | NotVerified, ...]) -> list[tuple[str, Severity]]:
    return [(one.about, one.severity) for one in said if isinstance(one, Finding)]


def test_thinner_behind_a_splice(says: Says) -> None:
    said = says(FUSED + "  W1: {from: F1:2, to: J1, size: 6 mm2}\n  W2: {from: J1, to: M1:1, size: 1 mm2}\n")
    (finding,) = said
    assert isinstance(finding, Finding)
    assert finding.text == (
        "W2 carries a feed on in 1 mm² behind W1 of 6 mm² with no fuse between, both behind F1, which passes 30 A;"
        " 1 mm² takes 15 A at most; insulation not stated: taken for 60 °C"
    )
    assert (finding.severity, finding.mark.line) == (Severity.DOUBT, 17)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("F1:2, to: S1:1", "S1:2, to: M1:1"),
        ("F1:2, to: K1:30", "K1:87, to: M1:1"),
        ("F1:2, to: K1:30", "K1:87a, to: M1:1"),
        ("F1:2, to: X9:1", "X9:3, to: M1:1"),
        ("F1:2, to: X1:1", "X2:1, to: M1:1"),
        ("F1:2, to: X2:1", "X1:1, to: M1:1"),
        ("F1:2, to: T1:IN+", "T1:OUT+, to: M1:1"),
    ],
)
def test_thinner_behind_contacts_strips_and_plugs(says: Says, first: str, second: str) -> None:
    text = f"  W1: {{from: {first}, size: 6 mm2}}\n  W2: {{from: {second}, size: 1 mm2}}\n"
    assert findings(says(FUSED + text)) == [("W2", Severity.DOUBT)]


@pytest.mark.parametrize(
    ("first", "second"),
    [("F1:2, to: F2:1", "F2:2, to: M1:1"), ("F1:2, to: M1:1", "M1:2, to: XE1"), ("F1:2, to: K1:85", "K1:86, to: XE1")],
)
def test_a_fuse_or_a_load_between_ends_the_feed(says: Says, first: str, second: str) -> None:
    text = f"  W1: {{from: {first}, size: 6 mm2}}\n  W2: {{from: {second}, size: 1 mm2}}\n"
    assert findings(says(FUSED + text)) == []


def test_the_earth_side_of_a_changeover_is_no_feed(says: Says) -> None:
    """30 to a motor that is shorted to earth at rest: no feed goes out of 87 and in at 87a."""
    text = """\
  W1: {from: F1:2, to: K1:87, size: 6 mm2}
  W2: {from: K1:30, to: M1:1, size: 6 mm2}
  W3: {from: K1:87a, to: XE1, size: 1 mm2}
  W4: {from: M1:2, to: XE1, size: 1 mm2}
"""
    assert findings(says(FUSED + text)) == []


def test_a_thin_stub_that_a_feed_goes_on_through(says: Says) -> None:
    text = "  W1: {from: F1:2, to: J1, size: 2.5 mm2}\nstubs: {X1:1: {size: 0.5 mm2, joined at: J1}}\n"
    assert findings(says(FUSED + text)) == [("stub X1:1", Severity.DOUBT)]


def test_thicker_again_does_not_hide_the_thickest_before(says: Says) -> None:
    text = """\
  W1: {from: F1:2, to: S1:1, size: 6 mm2}
  W2: {from: S1:2, to: J1, size: 1 mm2}
  W3: {from: J1, to: M1:1, size: 2.5 mm2}
"""
    assert ("W2", Severity.DOUBT) in findings(says(FUSED + text))


def test_gauges_are_compared_by_copper(says: Says) -> None:
    """14 AWG is 2.08 mm²: no step after 2 mm², a step after 2.5 mm² (ASTM B258 by formula); 40 A is too much for it."""
    text = "  W1: {{from: F1:2, to: J1, size: {}}}\n  W2: {{from: J1, to: M1:1, size: 14 AWG}}\n"
    fused = FUSED.replace("rating: 30 A", "rating: 40 A")
    assert findings(says(fused.replace("6 mm2", "2 mm2") + text.format("2 mm2"))) == []
    assert findings(says(fused + text.format("2.5 mm2"))) == [("W2", Severity.DOUBT)]


@pytest.mark.parametrize(
    ("fuse", "wire", "steps"),
    [
        ("rating: 15 A", "size: 1 mm2", 0),  # counts as 18 AWG, 60 °C: 10 A x 1.5
        ("rating: 20 A", "size: 1 mm2", 1),
        ("rating: 30 A", "size: 1 mm2, insulation: 90 C", 0),  # 20 A x 1.5
        ("rating: 35 A", "size: 1 mm2, insulation: 90 C", 1),
        ("style: blade", "size: 1 mm2", 1),  # no rating: nothing shows that it protects
    ],
)
def test_a_fuse_that_protects_the_thin_wire_too_is_enough(says: Says, fuse: str, wire: str, steps: int) -> None:
    """33 CFR 183.455: 150 % of Table 5."""
    text = f"  W1: {{from: F1:2, to: J1, size: 6 mm2}}\n  W2: {{from: J1, to: M1:1, {wire}}}\n"
    assert len(says(FUSED.replace("rating: 30 A", fuse, 1) + text)) == steps


def test_a_smaller_fuse_before_the_fuse_counts(says: Says) -> None:
    text = """\
  W0: {from: G1:+, to: F2:1, size: 6 mm2}
  W3: {from: F2:2, to: F1:1, size: 6 mm2}
  W1: {from: F1:2, to: J1, size: 6 mm2}
  W2: {from: J1, to: M1:1, size: 1 mm2}
"""
    assert findings(says(ITEMS + text)) == []


def test_a_feed_with_no_fuse_is_left_to_its_own_rule(says: Says) -> None:
    text = "  W1: {from: G1:+, to: X9:1, size: 16 mm2}\n  W2: {from: X9:2, to: S1:1, size: 1 mm2}\n"
    assert says(ITEMS + text) == ()


def test_old_behind_old_is_not_scolded_but_new_is(says: Says) -> None:
    text = "  W1: {{from: F1:2, to: J1, size: 6 mm2, laid: existing}}\n  W2: {{from: J1, size: 1 mm2, laid: {}}}\n"
    assert findings(says(FUSED + text.format("existing"))) == []
    assert findings(says(FUSED + text.format("new"))) == [("W2", Severity.DOUBT)]


def test_an_unknown_size_between_does_not_hide_the_step(says: Says) -> None:
    text = """\
  W1: {from: F1:2, to: S1:1, size: 6 mm2}
  W2: {from: S1:2, to: J1}
  W3: {from: J1, to: M1:1, size: 1 mm2}
"""
    assert findings(says(FUSED + text)) == [("W3", Severity.DOUBT)]
