"""Power current flows in the ground of a sensor and shifts its signal.

Why: what is lost in the shared wire adds to what the sensor says, so the reading follows the motor and not the tank.

Trips:
    items:
      G1: {is: battery, volts: 12.6 V}
      B1: {is: sensor, wires: 2, signal: {normal: 3.8 V, dry: 5 V}}
      K5: {is: relay board, supply: 12 V, input: {pulls at: 4.6 V, releases at: 4.3 V, ohms: 10 kohm}}
      M1: {is: load, amps: 10 A, at: 12 V}
    splices: {J1: {}}
    wires:
      W1: {from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}
      W2: {from: B1:-, to: J1, size: 1 mm2, length: 1 m}
      W3: {from: M1:2, to: J1, size: 1 mm2, length: 1 m}
      W4: {from: J1, to: G1:-, size: 1 mm2, length: 3 m}
      W5: {from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}
      W6: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W7: {from: G1:+, to: K5:+, size: 1 mm2, length: 1 m}

Passes:
    items:
      G1: {is: battery, volts: 12.6 V}
      B1: {is: sensor, wires: 2, signal: {normal: 3.8 V, dry: 5 V}}
      K5: {is: relay board, supply: 12 V, input: {pulls at: 4.6 V, releases at: 4.3 V, ohms: 10 kohm}}
      M1: {is: load, amps: 10 A, at: 12 V}
    wires:
      W1: {from: B1:S, to: K5:IN, size: 1 mm2, length: 1 m}
      W2: {from: B1:-, to: K5:-, size: 1 mm2, length: 1 m}
      W3: {from: M1:2, to: G1:-, size: 1 mm2, length: 1 m}
      W5: {from: K5:-, to: G1:-, size: 1 mm2, length: 1 m}
      W6: {from: G1:+, to: M1:1, size: 1 mm2, length: 1 m}
      W7: {from: G1:+, to: K5:+, size: 1 mm2, length: 1 m}
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.checks.rule import PRACTICE, Case, Rule
from harnessdoc.checks.seen import assumed, must_fail_safe, ranges_of
from harnessdoc.electrics.single_fault import is_fault
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.relays import RelayBoard
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_amps, format_volts

RULE = Rule(
    "shared-sensor-ground",
    Severity.DOUBT,
    "what power current loses in a shared ground wire adds to the sensor's signal",
    PRACTICE,
)
LEAST_V = 0.05
"""A shift of 1 % of a 5 V signal is worth a look. Common practice, no source."""
POWER_A = 0.2
"""A wire with less at its worst carries no power current."""
GROUNDS = ("-", "GND", "31", "0V")
"""Names of a module's ground terminal."""


class _Reader(NamedTuple):
    """What reads a sensor, and its ground terminal."""

    name: str
    ground: Point


class _Shift(NamedTuple):
    """The most by which one ground can lie above the other, in V, and the wire that loses most of it."""

    volts: float
    wire: str
    amps: float
    wires: tuple[str, ...]


def check(case: Case) -> Iterator[Finding]:
    """For each sensor and what reads it, add up what the wires between their grounds can lose, all loads on."""
    pairs = [(name, reader) for name, item in case.harness.items.items() if isinstance(item.kind, Sensor)
             for reader in _readers(case, name)]  # fmt: skip
    if not pairs:
        return
    above = _ways_to_ground(case)
    for sensor, reader in pairs:
        shift = _shift(case, above, Point(sensor, "-"), reader.ground)
        if shift is not None and shift.volts >= LEAST_V and shift.amps >= POWER_A:
            yield _finding(case, sensor, reader, shift)


def _readers(case: Case, sensor: str) -> Iterator[_Reader]:
    """Boards and modules with a terminal on the sensor's signal."""
    potential = case.network.potential
    signal = potential[Point(sensor, "S")]
    for name, item in case.harness.items.items():
        if isinstance(item.kind, RelayBoard) and potential[Point(name, "IN")] == signal:
            yield _Reader(name, Point(name, "-"))
        elif isinstance(item.kind, Module) and any(potential[Point(name, t)] == signal for t in item.kind.terminals()):
            ground = next((terminal for terminal in item.kind.terminals() if terminal in GROUNDS), None)
            if ground is not None:
                yield _Reader(name, Point(name, ground))


def _ways_to_ground(case: Case) -> dict[int, tuple[int, int]]:
    """Node to the wire by which it returns, as (branch, next node): the way with the fewest wires."""
    circuit = case.study.circuit
    around: dict[int, list[tuple[int, int]]] = {}
    for index, branch in enumerate(circuit.branches):
        if branch.sort == "wire":
            around.setdefault(branch.a, []).append((index, branch.b))
            around.setdefault(branch.b, []).append((index, branch.a))
    above: dict[int, tuple[int, int]] = {node: (-1, node) for node in circuit.grounds}
    todo = deque(above)
    while todo:
        node = todo.popleft()
        for index, other in around.get(node, ()):
            if other not in above:
                above[other] = (index, node)
                todo.append(other)
    return above


def _shift(case: Case, above: dict[int, tuple[int, int]], one: Point, other: Point) -> _Shift | None:
    """What the wires from each to where their ways meet lose at their worst; the greater of both, as the other may
    be without current. None where one reaches no return by wire."""
    node = case.study.circuit.node
    if node.get(one, -1) not in above or node.get(other, -1) not in above:
        return None
    first, second = (_leg(above, node[point]) for point in (one, other))
    common = set(first) & set(second)
    shifts = [_lost(case, [index for index in leg if index not in common]) for leg in (first, second)]
    return max(shifts, key=lambda shift: shift.volts)


def _leg(above: dict[int, tuple[int, int]], node: int) -> list[int]:
    found = []
    while (step := above[node])[0] >= 0:
        found.append(step[0])
        node = step[1]
    return found


def _lost(case: Case, leg: list[int]) -> _Shift:
    study = case.study
    parts = []
    for index in leg:
        worst = study.worst.get(index)
        if worst is not None:
            branch = study.circuit.branches[index]
            parts.append((worst.amps * branch.ohm, branch.part, worst.amps))
    most = max(parts, default=(0.0, "", 0.0))
    power = tuple(part for _, part, amps in parts if amps >= POWER_A)
    return _Shift(sum(volts for volts, _, _ in parts), most[1], most[2], power)


def _finding(case: Case, sensor: str, reader: _Reader, shift: _Shift) -> Finding:
    item = case.harness.items[sensor]
    text = (
        f"{sensor}'s ground and {reader.name}'s can differ by {format_volts(shift.volts, 2)}: {shift.wire} between them"
        f" carries {format_amps(shift.amps, 2)} when all is on"
    )
    margin_v = _margin_v(case, sensor, reader.name)
    severity = Severity.DOUBT
    if margin_v is not None:
        text += f"; the signal's margin at {reader.name} is {format_volts(margin_v, 2)}"
        if shift.volts >= margin_v:
            severity = Severity.DANGER if must_fail_safe(case, sensor) else Severity.FAULT
    text += assumed(case, *shift.wires)
    circuits = (circuit.name for circuit in case.harness.circuits.values() if sensor in circuit.items)
    mend = f"give {sensor} a ground wire of its own to {reader.ground}, with nothing else on it"
    return RULE.finding(sensor, text, mend, item.mark, circuits=tuple(circuits), severity=severity)


def _margin_v(case: Case, sensor: str, board: str) -> float | None:
    """The least distance in V between a healthy range's ends and the board's thresholds; None where none is stated."""
    kind = case.harness.items[board].kind
    given = kind.input if isinstance(kind, RelayBoard) else None
    spans = [span for name, span in ranges_of(case, sensor).get("S", {}).items() if not is_fault(name)]
    limits = [limit for limit in (given.pulls_v, given.releases_v) if limit is not None] if given else []
    return min((abs(limit - end) for limit in limits for span in spans for end in span), default=None)
