"""Two wires in one plug have the same colour and size and can't be told apart once they are cut.

Why: labels fall off; after the cut only colour and size are left to tell which cavity a wire came from.

Trips:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}
    items: {M1: {is: load}, M2: {is: load}}
    wires:
      W1: {from: X4:1, to: M1:1, colour: yellow, size: 1 mm2}
      W2: {from: X4:2, to: M2:1, colour: yellow, size: 1 mm2}

Passes:
    plugs: {X4: {face: rect-2x2, cut: {1: 2026-10-11}}}
    items: {M1: {is: load}, M2: {is: load}}
    wires:
      W1: {from: X4:1, to: M1:1, colour: yellow, size: 1 mm2}
      W2: {from: X4:2, to: M2:1, colour: yellow/black, size: 1 mm2}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.harness import Harness, Plug, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.sorting import natural

RULE = Rule(
    "look-alike-wires",
    Severity.DOUBT,
    "once cut, only colour and size tell the wires of a plug apart when a label is gone",
    PRACTICE,
)

LOOKS_SAME = 1.1
"""Copper areas within this ratio look the same: 14 AWG (2.08 mm²) and 2 mm². Common practice, no source."""


def check(case: Case) -> Iterator[Finding]:
    """In each plug that is being cut, group the wires by colour and size."""
    was_at: dict[str, list[tuple[str, Wire]]] = {}
    for wire in case.harness.wires.values():
        if wire.was_at is not None:
            was_at.setdefault(wire.was_at.owner, []).append((wire.was_at.terminal, wire))
    for plug in case.harness.plugs.values():
        if plug.cut:
            yield from _in_plug(case.harness, plug, was_at.get(plug.name, []))


def _in_plug(harness: Harness, plug: Plug, cut: list[tuple[str, Wire]]) -> Iterator[Finding]:
    still = [(c, wire) for c in plug.terminals for wire, _ in harness.landings.get(Point(plug.name, c), ())]
    by_colour: dict[str, list[tuple[str, Wire, float]]] = {}
    for cavity, wire in dict.fromkeys((*cut, *still)):
        if wire.colour is not None and wire.size is not None:
            by_colour.setdefault(wire.colour.code, []).append((cavity, wire, wire.size.area_mm2))
    for code, wires in by_colour.items():
        for group in _alike(wires):
            if len({cavity for cavity, *_ in group}) > 1:
                sizes = " or ".join(dict.fromkeys(wire.size.written for _, wire, _ in group if wire.size))
                ordered = sorted(group, key=lambda one: natural(one[0]))
                shown = ", ".join(f"{wire.name} in {cavity}" for cavity, wire, _ in ordered)
                yield RULE.finding(
                    plug.name,
                    f"{plug.name} holds {len(group)} wires of {code}, {sizes}: {shown}",
                    "label both sides of each before the cut, cut one at a time, and mark each with its own band",
                    plug.mark,
                    circuits=tuple(wire.circuit for _, wire, _ in group),
                )


def _alike(wires: list[tuple[str, Wire, float]]) -> Iterator[list[tuple[str, Wire, float]]]:
    """Wires parted by size, thinnest first; nobody sees a difference below LOOKS_SAME."""
    group: list[tuple[str, Wire, float]] = []
    for one in sorted(wires, key=lambda one: one[2]):
        if group and one[2] > group[-1][2] * LOOKS_SAME:
            yield group
            group = []
        group.append(one)
    yield group
