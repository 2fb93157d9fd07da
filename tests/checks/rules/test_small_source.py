"""Sources that are asked for more than they give."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

TEXT = """\
items:
  G1: {is: source, volts: 12 V, inner resistance: 0.01 mohmMOST}
  S1: {is: switch, contacts: {1-2: on}}
  S2: {is: switch, contacts: {1-2: on}}
  M1: {is: load, amps: 6 A, at: 12 V}
  M2: {is: load, amps: 6 A, at: 12 V}
wires:
  W1: {from: G1:+, to: S1:1, size: 10 mm2, length: 10 mm}
  W2: {from: S1:2, to: M1:1, size: 10 mm2, length: 10 mm}
  W3: {from: M1:2, to: G1:-, size: 10 mm2, length: 10 mm}
  W4: {from: G1:+, to: S2:1, size: 10 mm2, length: 10 mm}
  W5: {from: S2:2, to: M2:1, size: 10 mm2, length: 10 mm}
  W6: {from: M2:2, to: G1:-, size: 10 mm2, length: 10 mm}
"""


@pytest.mark.parametrize(("most", "about"), [("13 A", []), ("10 A", ["G1"]), ("5 A", ["G1"])])
def test_against_what_it_gives(says: Says, most: str, about: list[str]) -> None:
    said = says(TEXT.replace("MOST", f", amps: {most}"))
    assert [one.about for one in said if isinstance(one, Finding)] == about


def test_a_source_that_states_nothing(says: Says) -> None:
    assert says(TEXT.replace("MOST", "")) == ()


def test_one_load_alone_is_a_fault(says: Says) -> None:
    text = TEXT.replace("MOST", ", amps: 5 A").split("  W4")[0]
    (finding,) = says(text)
    assert isinstance(finding, Finding)
    assert finding.severity is Severity.FAULT
    assert finding.text.startswith("G1 is asked for ")
    assert finding.text.endswith("and gives 5 A at most")
