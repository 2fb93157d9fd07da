"""Colours against the harness's rule, for what a wire does."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


BASE = """\
items:
  G1: {is: battery}
  F1: {is: fuse}
  S1: {is: switch, contacts: {1-2: on}}
  K1: {is: relay}
  K2: {is: relay}
  M1: {is: load}
  XE1: {is: earth point}
  T1: {is: speed controller, switches: negative}
"""


def texts(said: tuple[Finding | NotVerified, ...]) -> list[str]:
    return [one.text for one in said if isinstance(one, Finding)]


def test_a_black_feed_is_doubted(says: Says) -> None:
    (finding,) = says(BASE + "wires:\n  W1: {from: G1:+, to: F1:1, colour: black}\n")
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.about, finding.mark.line) == (Severity.DOUBT, "W1", 12)
    assert finding.text.startswith("W1 is a feed in BK; rule red-black wants")
    assert finding.source


def test_a_red_return_behind_a_low_side_switch_is_doubted(says: Says) -> None:
    text = "wires: {W1: {from: M1:2, to: S1:1, colour: red}, W2: {from: S1:2, to: XE1, colour: black}}\n"
    assert [text.split(";")[0] for text in texts(says(BASE + text))] == ["W1 is a return in RD"]


def test_red_feeds_and_black_returns_pass(says: Says) -> None:
    wires = """wires:
  W1: {from: G1:+, to: F1:1, colour: red}
  W2: {from: F1:2, to: T1:IN+, colour: red}
  W3: {from: T1:IN-, to: XE1, colour: black}
  W4: {from: T1:OUT+, to: M1:1, colour: red}
  W5: {from: T1:OUT-, to: M1:2, colour: black}
  W6: {from: G1:-, to: XE1, colour: black}
"""
    assert texts(says(BASE + wires)) == []


def test_a_changeover_does_not_join_feed_and_return(says: Says) -> None:
    """A relay pair that reverses a motor: 87 on the feed, 87a on earth, 30 to the motor. Feeds stay feeds."""
    wires = """wires:
  W1: {from: G1:+, to: K1:87, colour: black}
  W2: {from: K1:87a, to: XE1, colour: red}
  W3: {from: K1:30, to: M1:1, colour: white}
  W4: {from: G1:+, to: K2:87, colour: red}
  W5: {from: K2:87a, to: XE1, colour: black}
  W6: {from: K2:30, to: M1:2, colour: white}
"""
    assert [text.split(";")[0] for text in texts(says(BASE + wires))] == [
        "W1 is a feed in BK", "W2 is a return in RD",
    ]  # fmt: skip


def test_what_was_there_before_is_not_scolded(says: Says) -> None:
    assert texts(says(BASE + "wires: {W1: {from: G1:+, to: F1:1, colour: black, laid: existing}}\n")) == []


def test_a_stated_role_goes_before_what_the_wire_reaches(says: Says) -> None:
    assert texts(says(BASE + "wires: {W1: {from: G1:+, to: F1:1, colour: black, role: return}}\n")) == []


def test_without_a_rule_nothing_is_said(says: Says) -> None:
    text = "harness: {title: t, number: N}\n" + BASE + "wires: {W1: {from: G1:+, to: F1:1, colour: black}}\n"
    assert says(text) == ()
