"""A harness whose stubs each say one thing, for the registers."""

from __future__ import annotations

from harnessdoc.registers.find import Answer, find
from tests.electrics.written import harness_of, study_of

# X4 was cut: 1 joined again behind S2 (switched), 2 joined on the chassis, 3 joined straight behind the isolator S1,
# 4 to 8 free. 4 was measured after the cut, 5 before it, 6 nobody knows, 7 joined to a wire that leads nowhere.
TEXT = """
places: {cab: {}}
items:
  G1: {is: battery, volts: 12.6 V, inner resistance: 0.01 ohm}
  S1: {is: switch, contacts: {"1-2": on}}
  S2: {is: switch, contacts: {"1-2": on}}
  M1: {is: load, ohms: 12 ohm, at: 12 V}
  M2: {is: load, ohms: 12 ohm, at: 12 V}
  XE1: {is: earth point}
plugs:
  X4:
    face: rect-2x4
    place: cab
    legend: {"1": PUMP, "2": GND}
    cut: whole 2026-04-11
splices: {J1: {method: crimp, barrel: blue, place: cab}, J2: {}, J3: {method: screw clamp, holds: 10 mm2}, J7: {}}
wires:
  W1: {from: "G1:+", to: S1:1, size: 4 mm2, length: 1 m}
  W2: {from: S1:2, to: J3, colour: red, size: 4 mm2, length: 1 m}
  W3: {from: J3, to: S2:1, colour: red, size: 2.5 mm2, length: 1 m}
  W4: {from: S2:2, to: J1, colour: yellow, size: 1 mm2, length: 1 m, circuit: pump}
  W5: {from: J1, to: M1:1, colour: yellow, size: 1 mm2, length: 1 m, laid: existing, was at: X4:1, drive: high side}
  W6: {from: M1:2, to: J2, colour: black, size: 2.5 mm2, length: 1 m}
  W7: {from: J2, to: XE1, colour: black, size: 2.5 mm2, length: 1 m}
  W8: {from: XE1, to: "G1:-", size: 4 mm2, length: 1 m}
  W9: {from: J3, to: M2:1, size: 1 mm2, length: 1 m}
  W10: {from: M2:2, to: XE1, size: 1 mm2, length: 1 m}
  W11: {from: tail, to: XE1, colour: brown, size: 1.5 mm2, laid: existing, was at: X4:8, ends: [cap, ring M6]}
  W12: {from: J7, to: unknown, colour: violet, size: 1 mm2, laid: existing}
  W13: {from: tail, to: unknown, colour: unknown, size: unknown, laid: existing, was at: X4:6}
stubs:
  X4:1: {colour: yellow, size: 1 mm2, length: 80 mm, from: W5, did: pump relay drive, joined at: J1}
  X4:2: {colour: black, size: 2.5 mm2, length: 60 mm, joined at: J2}
  X4:3: {colour: red, size: 4 mm2, length: 60 mm, joined at: J3}
  X4:4: {colour: red/white, size: 2.5 mm2, length: 60 mm, capped: true}
  X4:5: {colour: red/blue, size: 2.5 mm2, length: 60 mm, capped: false}
  X4:6: {colour: unknown, size: unknown, length: unknown, from: W13, did: unknown}
  X4:7: {colour: violet, size: 1 mm2, length: 60 mm, joined at: J7}
  X4:8: {colour: brown, size: 1.5 mm2, length: 40 mm, from: W11, did: second return, capped: true}
circuits: {pump: {title: Spray pump}}
readings:
  - {on: 2026-04-20, between: [X4:4, chassis], when: {S1: on}, volts: 12.4 V, loaded with: 21 W lamp}
  - {on: 2026-04-20, between: [X4:4, XE1], when: {S1: off}, volts: 0 V}
  - {on: 2026-04-04, between: [X4:5, chassis], when: {S1: on}, volts: 12.5 V}
  - {on: 2026-04-04, between: [X4:8, chassis], ohms: 0.3 ohm}
"""


def asked(query: str, text: str = TEXT) -> Answer:
    """The answer to a query."""
    harness = harness_of(text)
    return find(harness, study_of(harness), query)


def names(answer: Answer) -> tuple[list[str], list[str]]:
    """What can serve and what might, by name, a tail by its wire's."""
    can, might = ([one.piece.name.split(",")[0] for one in found] for found in (answer.can, answer.might))
    return can, might
