"""What was not computed is said, and is never a finding."""

from __future__ import annotations

from collections.abc import Callable

from harnessdoc.model.finding import Finding, NotVerified

Says = Callable[[str], tuple[Finding | NotVerified, ...]]

HEAD = """\
items:
  G1: {is: battery, volts: 12.6 V}
  M1: {is: load, MORE}
wires:
  W1: {from: G1:+, to: M1:1, size: 2.5 mm2, length: LENGTH}
  W2: {from: M1:2, to: G1:-, size: 2.5 mm2, length: 1 m}
"""


def told(said: tuple[Finding | NotVerified, ...]) -> list[str]:
    assert all(isinstance(one, NotVerified) for one in said)
    return [one.text for one in said]


def test_a_load_of_unknown_draw(says: Says) -> None:
    text = HEAD.replace("MORE", "stall: 30 A").replace("LENGTH", "1 m")
    assert told(says(text)) == ["M1 is left out of all that is computed: its draw is not stated"]


def test_a_wire_of_unknown_length_that_carries_much(says: Says) -> None:
    (text,) = told(says(HEAD.replace("MORE", "amps: 5 A, at: 12 V").replace("LENGTH", "unknown")))
    assert text == "W1 carries 5.2 A: length unknown: taken as 1 m"


def test_a_wire_of_unknown_length_that_carries_little(says: Says) -> None:
    assert says(HEAD.replace("MORE", "amps: 0.2 A, at: 12 V").replace("LENGTH", "unknown")) == ()


def test_all_known(says: Says) -> None:
    assert says(HEAD.replace("MORE", "amps: 5 A, at: 12 V").replace("LENGTH", "1 m")) == ()


def test_forty_switches_in_one_island(says: Says) -> None:
    """A ladder that no single point parts: 2^40 positions are not gone through."""
    switches = "".join(f"  S{n}: {{is: switch, contacts: {{1-2: on}}}}\n" for n in range(40))
    rungs = "".join(
        f"  A{n}: {{from: S{n}:2, to: S{n + 1}:1, size: 1 mm2, length: 1 m}}\n"
        f"  B{n}: {{from: S{n}:1, to: S{n + 1}:2, size: 1 mm2, length: 1 m}}\n"
        for n in range(39)
    )
    text = f"""\
items:
  G1: {{is: battery, volts: 12.6 V}}
  M1: {{is: load, amps: 1 A, at: 12 V}}
{switches}wires:
  W1: {{from: G1:+, to: S0:1, size: 1 mm2, length: 1 m}}
  W2: {{from: S39:2, to: M1:1, size: 1 mm2, length: 1 m}}
  W3: {{from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}}
{rungs}"""
    (said,) = told(says(text))
    assert said.startswith("S0, S1, S2, S3, S4, S5 and 34 more have over a million positions together, more than 4096")
