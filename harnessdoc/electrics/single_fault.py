"""What a single fault is: the branches it takes out or adds, the coil it holds; and the fault of parting two plugs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.joining import Joining
from harnessdoc.electrics.network import bonds
from harnessdoc.electrics.study import Study
from harnessdoc.model.points import Point

Sort = Literal["broken", "blown", "stuck", "lost", "unplugged", "shorted"]
FAULTY = ("unplug", "short", "broken", "open circuit", "disconnect", "no signal", "no ground", "ground lost")
"""Words in the names of a sensor's conditions that are faults of its wiring, not what it measures."""


def is_fault(condition: str) -> bool:
    """Whether a condition's name says that the sensor is unplugged, shorted or broken."""
    return any(word in condition.casefold() for word in FAULTY)


class Fault(NamedTuple):
    """`parts`: wires or items of which any one, at fault, does the same. `blocked`: branches it takes out; `stuck`: a
    coil held in a position; `extra`: branches it adds."""

    sort: Sort
    parts: tuple[str, ...]
    text: str
    blocked: frozenset[int] = frozenset()
    stuck: tuple[tuple[str, str], ...] = ()
    extra: tuple[Branch, ...] = ()


def parted_pairs(study: Study) -> Mapping[int, Fault]:
    """Branch of each wire at a mated pair of plugs to the fault of that pair being parted."""
    found: dict[int, Fault] = {}
    for first, second in _pairs(study):
        fault = _parted(study, first, second)
        if fault is not None:
            found.update((index, fault) for index in _wires_at(study, first) | _wires_at(study, second))
    return found


def _pairs(study: Study) -> Iterator[tuple[str, str]]:
    """Mated plugs, each pair once."""
    plugs = study.network.harness.plugs
    seen: set[frozenset[str]] = set()
    for name, plug in plugs.items():
        mate = plug.mates_with
        if mate in plugs and mate != name and frozenset((name, str(mate))) not in seen:
            seen.add(frozenset((name, str(mate))))
            yield name, str(mate)


def _wires_at(study: Study, plug: str) -> set[int]:
    harness = study.network.harness
    landings = [harness.landings.get(Point(plug, cavity), ()) for cavity in harness.plugs[plug].terminals]
    names = {wire.name for landing in landings for wire, _ in landing}
    return {index for name in names for index in study.by_part.get(name, ())}


def _parted(study: Study, first: str, second: str) -> Fault | None:
    """The pair parted: what lies on the second half's side gets nodes of its own. None where nothing is joined."""
    circuit, network = study.circuit, study.network
    joints = [pair for pair in network.joints if {pair[0].owner, pair[1].owner} != {first, second}]
    apart: Joining[Point] = Joining()
    for point in circuit.node:
        apart.add(point)
    for a, b in bonds(network.harness, network.inner, joints):
        apart.join(a, b)
    kept = {apart.root(p) for p in circuit.node if p.owner == first}
    moved = {apart.root(p) for p in circuit.node if p.owner == second} - kept
    split = {root: circuit.nodes + at for at, root in enumerate(sorted(moved))}
    blocked: set[int] = set()
    extra: list[Branch] = []
    for wire in network.harness.wires.values():
        fresh = [split.get(apart.root(point)) for point in wire.points if point in circuit.node]
        for index in study.by_part.get(wire.name, ()):
            branch = circuit.branches[index]
            if len(fresh) == 2 and any(node is not None for node in fresh):
                start, end = fresh
                blocked.add(index)
                moved_a = branch.a if start is None else start
                extra.append(branch._replace(a=moved_a, b=branch.b if end is None else end))
    if not blocked:
        return None
    return Fault("unplugged", (first, second), f"{first} and {second} parted", frozenset(blocked), extra=tuple(extra))
