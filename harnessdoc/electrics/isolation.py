"""Which switch cuts the most off, and what keeps a voltage even then. Quantities and names; no verdict.

What stays joined to a source is found by copper, fuses and contacts in any position, so it may be more than is ever
live at once, never less."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from harnessdoc.electrics.operation import LiveRow, live_table
from harnessdoc.electrics.study import Study
from harnessdoc.model.kinds.sources import Source
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import Point

_CONDUCT = frozenset({"wire", "fuse", "contact", "drive"})


class Isolation(NamedTuple):
    """`device` in `position` leaves the least live; None where no switch cuts anything off. `still`: items that can be
    live even then, `unknown`: those that can't be told, each with the reason. `hot`: points that stay joined to a
    source's feed, `wires` between them. `opens_return`: it parts the return, so the whole feed keeps the battery's
    voltage against its other post."""

    device: str | None
    position: str
    still: tuple[str, ...]
    unknown: tuple[tuple[str, str], ...]
    hot: tuple[Point, ...]
    wires: tuple[str, ...]
    sources: tuple[str, ...]
    opens_return: bool = False


def isolation(study: Study) -> Isolation:
    """Find the switch and position that leave the fewest items live; of several the one that leaves the fewest points
    joined to a source."""
    rows = [row for table in live_table(study) for row in table.rows]
    best = min(_tried(study, rows), key=lambda one: (len(one.still), len(one.hot)), default=None)
    every = _with(study, rows, None, "")
    if best is None or (len(best.still), len(best.hot)) >= (len(every.still), len(every.hot)):
        return every
    return best


def _tried(study: Study, rows: list[LiveRow]) -> Iterator[Isolation]:
    for name, item in study.network.harness.items.items():
        if isinstance(item.kind, Switch) and not item.kind.momentary and name in study.circuit.devices:
            for position in study.circuit.devices[name]:
                yield _with(study, rows, name, position)


def _with(study: Study, rows: list[LiveRow], device: str | None, position: str) -> Isolation:
    still = tuple(row.name for row in rows if not row.unknown and _allows(row, device, position))
    unknown = tuple((row.name, row.unknown) for row in rows if row.unknown)
    sources = [b for b in study.circuit.branches if b.sort == "source" and b.gate is None]
    nodes = _joined(study, [b.a for b in sources], device, position, study.circuit.grounds)
    back = _joined(study, study.circuit.grounds[:1], device, position, [b.a for b in sources])
    whole = _joined(study, study.circuit.grounds[:1], None, "", [b.a for b in sources])
    harness = study.network.harness
    hot = tuple(point for point, node in study.circuit.node.items() if node in nodes)
    wires = tuple(
        wire.name
        for wire in harness.wires.values()
        if wire.points and all(study.circuit.node.get(point) in nodes for point in wire.points)
    )
    names = tuple(name for name, item in harness.items.items() if isinstance(item.kind, Source))
    return Isolation(device, position, still, unknown, hot, wires, names, len(back) < len(whole))


def _allows(row: LiveRow, device: str | None, position: str) -> bool:
    """Whether an item can be live while a device stands in a position."""
    return any(device is None or position in cube.get(device, (position,)) for cube in row.cubes)


def _joined(
    study: Study,
    starts: list[int] | tuple[int, ...],
    device: str | None,
    position: str,
    stops: list[int] | tuple[int, ...],
) -> frozenset[int]:
    """The nodes that conductors lead to, contacts of other devices in any position."""
    around: dict[int, list[int]] = {}
    for branch in study.circuit.branches:
        gate = branch.gate
        open_ = gate is not None and gate.device == device and position not in gate.closed
        if branch.sort in _CONDUCT and not open_:
            around.setdefault(branch.a, []).append(branch.b)
            around.setdefault(branch.b, []).append(branch.a)
    found = set(starts) - set(stops)
    todo = list(found)
    while todo:
        for other in around.get(todo.pop(), ()):
            if other not in found and other not in stops:
                found.add(other)
                todo.append(other)
    return frozenset(found)
