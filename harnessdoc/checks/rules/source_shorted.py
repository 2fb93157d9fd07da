"""Plus and minus of a source are joined, by copper or in some position of the switches.

Why: the current is limited by the copper alone; whatever gives way first burns.

Trips:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 5 A}}
    wires: {W1: {from: G1:+, to: F1:1}, W2: {from: F1:2, to: G1:-}}

Passes:
    items: {G1: {is: battery}, F1: {is: fuse, rating: 5 A}, E1: {is: lamp, watts: 21 W}}
    wires: {W1: {from: G1:+, to: F1:1}, W2: {from: F1:2, to: E1:1}, W3: {from: E1:2, to: G1:-}}
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator, Mapping

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.electrics.network import Inner
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.kinds.base import Nature, Side
from harnessdoc.model.points import Point

RULE = Rule(
    "source-shorted",
    Severity.DANGER,
    "nothing limits the current but the copper itself",
    PRACTICE,
)
_PASSES = frozenset({Nature.JOINED, Nature.PROTECTED, Nature.CONTACT})
Way = tuple[tuple[Inner, ...], dict[str, frozenset[str]]]
"""Inner paths gone through, and for each item the positions in which all its contacts on the way are closed."""


def check(case: Case) -> Iterator[Finding]:
    """From each source's plus look for a way to its minus over wires, fuses and contacts closed together."""
    for name, item in case.harness.items.items():
        sides = item.kind.sides()
        plus = next((Point(name, terminal) for terminal, side in sides.items() if side is Side.FEED), None)
        minus = next((Point(name, terminal) for terminal, side in sides.items() if side is Side.RETURN), None)
        if plus is None or minus is None:
            continue
        ways = _ways(case, case.network.potential[plus], case.network.potential[minus])
        way = next((way for way, held in ways if _can_be(case, held)), None)
        if way is not None:
            through = ", ".join(dict.fromkeys(_named(inner) for inner in way)) or "wire alone"
            yield RULE.finding(
                name,
                f"{name}: its + and its - are joined through {through}",
                "look for a wire at the wrong terminal; do not power up before it is found",
                item.mark,
                circuits=tuple(wire.circuit for wire in case.network.wires.get(case.network.potential[minus], ())[:8]),
            )


def _named(inner: Inner) -> str:
    closed = f" ({' or '.join(inner.path.closed)})" if inner.path.closed else ""
    return f"{inner.item}:{inner.path.a}-{inner.path.b}{closed}"


def _can_be(case: Case, held: Mapping[str, frozenset[str]]) -> bool:
    """Whether those positions occur together; what moves by itself, a relay, is looked up in the settled states."""
    moved = {coil.device for coil in case.study.circuit.coils} & set(held)
    if not moved:
        return True
    return any(
        all(settled.positions.get(device) in positions for device, positions in held.items())
        for studied in case.study.studied
        if moved <= {gate.device for i in studied.island.kept if (gate := case.study.circuit.branches[i].gate)}
        for _, settled in studied.outcomes
    )


def _ways(case: Case, start: int, goal: int) -> Iterator[Way]:
    """Ways between two potentials, shortest first, through contacts that no single position keeps apart.

    Only potentials between the two count: those that the start and the goal both reach. In a sound harness the goal is
    not reached at all, and nothing is searched."""
    network = case.network
    if goal == start:
        yield (), {}
        return
    between = network.reached([start], _PASSES) & network.reached([goal], _PASSES)
    todo: deque[tuple[int, Way, frozenset[int]]] = deque(
        [(start, ((), {}), frozenset({start}))] if goal in between else []
    )
    for _ in range(MOST_TRIED):
        if not todo:
            return
        number, (way, held), passed = todo.popleft()
        for inner in network.ways.get(number, ()):
            other = network.potential[inner.b] if network.potential[inner.a] == number else network.potential[inner.a]
            if inner.path.nature not in _PASSES or other in passed or other not in between:
                continue
            together = _held(held, inner)
            if together is None:
                continue
            if other == goal:
                yield (*way, inner), together
            else:
                todo.append((other, ((*way, inner), together), passed | {other}))


def _held(held: dict[str, frozenset[str]], inner: Inner) -> dict[str, frozenset[str]] | None:
    """The positions in which this contact is closed with those before it; None if there are none."""
    closed = frozenset(inner.path.closed)
    if not closed:
        return held
    both = closed & held[inner.item] if inner.item in held else closed
    return {**held, inner.item: both} if both else None


MOST_TRIED = 20_000
"""Ways that are looked at; a harness in which plus and minus are joined has one among the first."""
