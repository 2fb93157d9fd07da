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
    alike: dict[tuple[str, str], list[tuple[str, Wire]]] = {}
    for cavity, wire in (*cut, *(pair for pair in still if pair not in cut)):
        if wire.colour is not None and wire.size is not None:
            alike.setdefault((wire.colour.code, wire.size.written), []).append((cavity, wire))
    for (code, size), group in alike.items():
        cavities = tuple(dict.fromkeys(cavity for cavity, _ in group))
        if len(cavities) > 1:
            shown = ", ".join(f"{wire.name} in {cavity}" for cavity, wire in sorted(group, key=lambda g: natural(g[0])))
            yield RULE.finding(
                plug.name,
                f"{plug.name} holds {len(group)} wires of {code}, {size}: {shown}",
                "label both sides of each before the cut, cut one at a time, and mark each with its own band",
                plug.mark,
                circuits=tuple(wire.circuit for _, wire in group),
            )
