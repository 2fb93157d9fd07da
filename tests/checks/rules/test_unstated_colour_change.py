"""A joint behind which a colour goes on as another."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified, Severity

Says = Callable[[str], tuple[Finding | NotVerified, ...]]


BASE = """\
splices:
  J1: {{{}}}
wires: {{W1: {{to: J1, colour: yellow}}, W2: {{from: J1, colour: {}, circuit: pump}}}}
plugs: {{X4: {{face: rect-1x2}}}}
stubs: {{X4:1: {{joined at: J1, colour: {}}}}}
"""


def test_yellow_goes_on_as_white(says: Says) -> None:
    (finding,) = says(BASE.format("", "white", "unknown"))
    assert isinstance(finding, Finding)
    assert (finding.severity, finding.mark.line, finding.circuits) == (Severity.DOUBT, 3, ("pump",))
    assert finding.text == "J1 joins YE and WH (W1 YE, W2 WH) and does not state a colour change"


def test_a_stub_is_part_of_the_joint(says: Says) -> None:
    (finding,) = says(BASE.format("", "yellow", "yellow/black"))
    assert "(W1 YE, W2 YE, stub X4:1 YE/BK)" in finding.text


def test_stated_same_or_unknown_passes(says: Says) -> None:
    assert says(BASE.format("colour change: yellow goes on as white", "white", "white")) == ()
    assert says(BASE.format("", "ge", "YE")) == ()
    assert says(BASE.format("", "unknown", "unknown")) == ()
