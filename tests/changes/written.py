"""A small harness as text, edits of it, and what comparing two such texts gives."""

from __future__ import annotations

from harnessdoc.changes.change import Change
from harnessdoc.changes.compare import Changes, compare
from tests.electrics.written import harness_of

BASE = """\
harness: {title: Bench loom, number: B-1, revision: A, records: https://r.example/b}
places:
  cab: {zone: cabin}
  mast: {zone: outside}
runs:
  - {between: [cab, mast], length: 2 m, cover: split loom}
items:
  G1: {is: battery, volts: 12 V, inner resistance: 0.01 ohm, place: cab}
  F1: {is: fuse, rating: 10 A, style: blade, place: cab, title: Pump}
  F2: {is: fuse, rating: 5 A, style: blade, place: cab}
  S1: {is: switch, contacts: {"1-2": on}, place: cab}
  M1: {is: motor, amps: 5 A, at: 12 V, place: mast}
  E1: {is: lamp, watts: 21 W, at: 12 V, place: mast}
plugs:
  X4: {face: rect-2x3, place: cab, cut: {"1": 2026-03-01, "2": 2026-03-02}, legend: {"1": PMP}}
wires:
  W1: {from: "G1:+", to: "F1:1", colour: red, size: 4 mm2, length: 300 mm, circuit: supply, ends: [ring M8, tab 6.3]}
  W2: {from: "G1:+", to: "F2:1", colour: red, size: 4 mm2, length: 300 mm, circuit: supply}
  W3: {from: "F1:2", to: "S1:1", colour: red, size: 2.5 mm2, length: 400 mm, circuit: pump}
  W4: {from: "S1:2", to: "M1:1", colour: red/white, size: 2.5 mm2, circuit: pump, was at: "X4:1"}
  W5: {from: "M1:2", to: J1, colour: black, size: 2.5 mm2, length: 200 mm, circuit: pump}
  W6: {from: J1, to: "G1:-", colour: black, size: 4 mm2, circuit: supply}
  W7: {from: "F2:2", to: "E1:1", colour: brown, size: 1 mm2, circuit: light}
  W8: {from: "E1:2", to: J1, colour: black, size: 1 mm2, length: 200 mm, circuit: light}
  W9: {from: tail, to: unknown, colour: unknown, size: 1 mm2, laid: existing, was at: "X4:2"}
splices:
  J1: {method: crimp, barrel: yellow, cover: glued heat-shrink, place: mast}
stubs:
  "X4:1": {colour: red/white, size: 2.5 mm2, length: 60 mm, from: W4, did: pump, capped: true}
  "X4:2": {colour: violet, size: 1 mm2, length: 60 mm, from: W9, capped: true}
circuits:
  supply: {title: Supply, items: [G1]}
  pump: {title: Pump, items: [F1, S1, M1]}
  light: {title: Light, items: [F2, E1]}
lost functions:
  pump timer: {module: A1, waived: not wanted}
operation:
  - {when: {S1: on}, live: [M1]}
readings:
  - {on: 2026-03-01, between: ["X4:1", chassis], when: {S1: on}, volts: 12.1 V}
"""


def edited(*pairs: tuple[str, str], text: str = BASE) -> str:
    """The text with each first word of a pair replaced by the second; each must be there once."""
    for old, new in pairs:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def compared(new: str, old: str = BASE) -> Changes:
    """The changes from one text to another."""
    return compare(harness_of(old), harness_of(new))


def lines(*pairs: tuple[str, str]) -> list[str]:
    """What changed by edits of BASE: section, what, and the line."""
    return [told(line) for line in compared(edited(*pairs)).lines]


def told(line: Change) -> str:
    """A change in one line, with its section and what happened."""
    return f"{line.section} {line.what}: {line.text}"
