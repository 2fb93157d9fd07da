"""What is live in which position, and whether the operation lines hold in every state that matches them.

Read from the study's outcomes; says what holds, what does not and why, and what could not be told."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from harnessdoc.electrics.cubes import Cube, cubes_of
from harnessdoc.electrics.probes import MOVED, Probe, homes, probe_of
from harnessdoc.electrics.settle import Positions, Settled
from harnessdoc.electrics.study import Studied, Study
from harnessdoc.electrics.tracing import how_live, why_dead
from harnessdoc.model.harness import Harness, Operation, State
from harnessdoc.model.kinds.loads import Load


class Verdict(NamedTuple):
    """One name of one operation line. `holds` None: not verified, and `why` says why; False: `why` is the chain that
    keeps it live or the gap that keeps it dead, in `state`. `states`: how many matched."""

    line: Operation
    name: str
    live: bool
    holds: bool | None
    states: int = 0
    state: State | None = None
    why: str = ""


def verify(study: Study, lines: Iterable[Operation]) -> tuple[Verdict, ...]:
    """Each name of each line in all states that match: `when` fixes positions, others are free, relays settle."""
    return tuple(verdict for line in lines for verdict in _of_line(study, line))


def _of_line(study: Study, line: Operation) -> Iterator[Verdict]:
    unknown = unknown_positions(study, line.when)
    for wanted, names in ((True, line.live), (False, line.dead)):
        for name in names:
            if unknown:
                yield Verdict(line, name, wanted, None, why="; ".join(unknown))
            else:
                yield _of_name(study, line, name, wanted)


def unknown_positions(study: Study, when: State) -> list[str]:
    """What a state names that there is not: devices without positions, positions that a device does not have."""
    found = []
    for device, position in when.items():
        known = positions_of(study, device)
        if not known:
            found.append(f"{device} has no positions that are known")
        elif position not in known:
            found.append(f"{device} has no position {position}, it has {', '.join(known)}")
    return found


def positions_of(study: Study, device: str) -> tuple[str, ...]:
    """All positions of what is set, or of what moves by itself."""
    coils = study.circuit.coils_of.get(device, ())
    return study.circuit.devices.get(device) or tuple(p for coil in coils[:1] for p in (coil.rest, coil.pulled))


def _of_name(study: Study, line: Operation, name: str, wanted: bool) -> Verdict:
    probe = probe_of(study, name)
    if isinstance(probe, str):
        return Verdict(line, name, wanted, None, why=probe)
    islands = homes(study, probe)
    if not islands:
        return Verdict(line, name, wanted, None, why=f"no island holds {name}")
    states = 0
    for studied in islands:
        if studied.island.too_many:
            return Verdict(line, name, wanted, None, why=_too_many(studied))
        for state, settled in matching(studied, line.when):
            states += 1
            if settled.cycle or not settled.exact:
                moved = f"{name} depends on a relay that never comes to rest" if settled.cycle else "nothing settled"
                return Verdict(line, name, wanted, None, states, state, moved)
            if probe.live(study.circuit, settled) != wanted:
                explain = why_dead if wanted else how_live
                why = explain(study.circuit, studied.plant.indices, settled, probe)
                return Verdict(line, name, wanted, False, states, state, why)
    if not states:
        return Verdict(line, name, wanted, None, why="no state matches: relays never stand like that")
    return Verdict(line, name, wanted, True, states)


def _too_many(studied: Studied) -> str:
    return f"the island of {studied.island.name} has {studied.island.states} states, too many to settle"


def matching(studied: Studied, when: State) -> Iterator[tuple[Positions, Settled]]:
    """The outcomes of an island in the states that match; what does not reach it may stand as it likes."""
    known = studied.outcomes[0][1].positions if studied.outcomes else {}
    wanted = [(device, position) for device, position in when.items() if device in known]
    for state, settled in studied.outcomes:
        positions = settled.positions
        for device, position in wanted:
            if positions[device] != position:
                break
        else:
            yield state, settled


class LiveRow(NamedTuple):
    """When one item is live: in any of the `cubes`. `devices`: what it depends on. `unknown`: why it can't be told."""

    name: str
    devices: Mapping[str, tuple[str, ...]]
    cubes: tuple[Cube, ...]
    unknown: str = ""

    @property
    def always(self) -> bool:
        """Whether it is live in every state."""
        return any(not cube for cube in self.cubes)


class CircuitTable(NamedTuple):
    """What is live when in one circuit."""

    circuit: str
    rows: tuple[LiveRow, ...]


def live_table(study: Study) -> tuple[CircuitTable, ...]:
    """Per circuit, when its loads, lamps and relays are live; circuits with none of them are left out.

    An item stands with the circuit that lists it, else with that of a wire that lands on it."""
    harness = study.network.harness
    found = []
    for circuit, names in items_by_circuit(harness).items():
        rows = tuple(live_row(study, name) for name in names)
        if rows:
            found.append(CircuitTable(circuit, rows))
    return tuple(found)


def items_by_circuit(harness: Harness) -> dict[str, list[str]]:
    """Circuit to the items that can be live; "" for those in none."""
    home = {name: circuit.name for circuit in harness.circuits.values() for name in circuit.items}
    for wire in harness.wires.values():
        for point in wire.points:
            if wire.circuit is not None:
                home.setdefault(point.owner, wire.circuit)
    found: dict[str, list[str]] = {name: [] for name in harness.by_circuit}
    for name, item in harness.items.items():
        if isinstance(item.kind, (Load, *MOVED)):
            found.setdefault(home.get(name, ""), []).append(name)
    return {circuit: names for circuit, names in found.items() if names}


def live_row(study: Study, name: str) -> LiveRow:
    """When an item is live, told by as few positions as it takes."""
    probe = probe_of(study, name)
    if isinstance(probe, str):
        return LiveRow(name, {}, (), probe)
    islands = homes(study, probe)
    if not islands or islands[0].island.too_many:
        return LiveRow(name, {}, (), _too_many(islands[0]) if islands else f"no island holds {name}")
    return _row(study, probe, islands[0])


def _row(study: Study, probe: Probe, studied: Studied) -> LiveRow:
    outcomes = studied.outcomes
    if any(settled.cycle or not settled.exact for _, settled in outcomes):
        return LiveRow(probe.name, {}, (), "a relay never comes to rest in some state")
    devices = dict(studied.island.devices)
    live = [tuple(state.values()) for state, settled in outcomes if probe.live(study.circuit, settled)]
    return LiveRow(probe.name, *cubes_of(devices, live))


def told(state: Mapping[str, str | Sequence[str]]) -> str:
    """A state or cube in words: `S1 on, B1 normal or dry`."""
    return ", ".join(
        f"{device} {position if isinstance(position, str) else ' or '.join(position)}"
        for device, position in state.items()
    )
