"""What to take up the meter for: tests of circuits that were worked on, tests that should read differently, new ones.

Both meter sheets are compared test by test. Wires that were worked on are measured end to end as well."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import isfinite
from typing import Final, NamedTuple

from harnessdoc.changes.change import Change
from harnessdoc.electrics.meter_tests import MeterGroup, MeterTest, meter_tests
from harnessdoc.electrics.network import build_network
from harnessdoc.electrics.readings import ohms_tolerance
from harnessdoc.electrics.study import Study, build_study
from harnessdoc.model.harness import Harness, State, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import plain_number
from harnessdoc.model.record import record
from harnessdoc.routing import route_harness

MOST_WIRES: Final = 400
"""Meter sheets of larger harnesses are not compared: each reading takes a solution of the whole (own choice)."""
NEW, DIFFERENT, WORKED_ON = "new", "should read differently", "worked on"
_WIRE_WORK: Final = frozenset(("added", "moved", "recoloured", "resized", "re-lengthened", "hardware"))
_PLUG_KEYS: Final = frozenset(("face", "mates with", "contacts", "cut"))
"""Keys of a plug that change only when somebody handles it."""
_PAPER_KEYS: Final = frozenset(("title", "remarks", "laid", "takes", "unused", "colour change", "size change"))
"""Keys of items and joints that tell nothing of copper."""


@record(frozen=True)
class Retest:
    """One reading to take. `group`: its circuit or plug; `was`: what the old state let expect, "" if the same or none.

    `why`: NEW, DIFFERENT or WORKED_ON."""

    group: str
    plug: bool
    test: MeterTest
    why: str
    was: str = ""


@record(frozen=True)
class EndToEnd:
    """A wire to be tugged at both ends and measured from one to the other, supply off. `expected`: "" if not told."""

    wire: str
    a: str
    b: str
    expected: str
    why: str


@record(frozen=True)
class Retests:
    """`wires`, then `tests` in the meter sheet's order. `circuits`: those worked on; `not_compared`: why meter sheets
    were not compared, "" where they were: then every test of `circuits` is to be taken again."""

    wires: tuple[EndToEnd, ...] = ()
    tests: tuple[Retest, ...] = ()
    circuits: tuple[str, ...] = ()
    not_compared: str = ""


def find_retests(old: Harness, new: Study, lines: Sequence[Change]) -> Retests:
    """What to measure again. `old`: in the new names; `lines`: the changes between them."""
    harness = new.network.harness
    done = _wire_work(lines)
    work = _work(old, harness, lines, set(done))
    wires = tuple(_end_to_end(new, harness.wires[name], why) for name, why in done.items())
    most = max(len(old.wires), len(harness.wires))
    if most > MOST_WIRES:
        return Retests(wires, (), work.circuits, f"{most} wires: meter sheets are compared up to {MOST_WIRES}")
    before = build_study(build_network(old), route_harness(old))
    return Retests(wires, tuple(_tests(meter_tests(before), meter_tests(new), work)), work.circuits)


# --- what was worked on


def _wire_work(lines: Sequence[Change]) -> dict[str, str]:
    """Wires that somebody had in hand, and what was done to them."""
    found: dict[str, dict[str, None]] = {}
    for line in lines:
        by_runs = line.what == "re-lengthened" and "by runs" in line.new
        if line.section == "wire" and line.what in _WIRE_WORK and not by_runs:
            found.setdefault(line.name, {})[line.what] = None
    return {name: ", ".join(whats) for name, whats in found.items()}


class _Work(NamedTuple):
    """Where somebody worked: circuits, in the order of the file; items, plugs and joints; points."""

    circuits: tuple[str, ...]
    owners: frozenset[str]
    points: frozenset[Point]

    def reaches(self, group: MeterGroup, test: MeterTest) -> bool:
        """Whether a test is of what was worked on: of such a circuit, or from a point of such a part."""
        if group.plug:
            return test.a in self.points or test.a.owner in self.owners
        return group.name in self.circuits or test.a.owner in self.owners


def _work(old: Harness, new: Harness, lines: Sequence[Change], wires: set[str]) -> _Work:
    """A wire stands for its circuit and its points; an item for the circuits that list it, else for those of its wires.

    `wires`: those that somebody had in hand; those that are gone come from the lines."""
    names = wires | {line.name for line in lines if line.section == "wire" and line.what == "gone"}
    touched = {line.name for line in lines if _by_hand(line)}
    owners = frozenset(name for name in touched if name in new.items or name in new.plugs or name in new.splices)
    points = {Point(*name.partition(":")[::2]) for name in touched - owners}
    circuits: set[str] = set()
    for harness in (old, new):
        listed = {item for circuit in harness.circuits.values() for item in circuit.items}
        circuits |= {name for name, circuit in harness.circuits.items() if not owners.isdisjoint(circuit.items)}
        unlisted = owners - listed
        for wire in harness.wires.values():
            if wire.name in names:
                points.update(wire.points)
            if wire.name in names or any(point.owner in unlisted for point in wire.points):
                circuits.add(wire.circuit or "")
    order = dict.fromkeys((*new.by_circuit, ""))
    return _Work(tuple(name for name in order if name in circuits), owners, frozenset(points))


def _by_hand(line: Change) -> bool:
    """Whether an item, a joint, a plug or a stub was worked on; what was only written differently is not."""
    if line.what in ("renamed", "found out", "unknown now", "gone"):
        return False
    if line.section == "plug":
        return line.what == "added" or line.key in _PLUG_KEYS
    if line.section == "stub":
        return line.what in ("used", "free", "added")
    return line.section in ("item", "splice") and line.key not in _PAPER_KEYS


# --- tests


def _end_to_end(study: Study, wire: Wire, why: str) -> EndToEnd:
    expected = ""
    if len(wire.points) == len(wire.ends):
        ohm = sum(study.circuit.branches[index].ohm for index in study.by_part.get(wire.name, ()))
        expected = f"under {plain_number(round(ohm + ohms_tolerance(ohm), 1))} Ω"
    return EndToEnd(wire.name, wire.a.text, wire.b.text, expected, why)


TestKey = tuple[str, str, str, str, tuple[tuple[str, str], ...]]


def _key(test: MeterTest) -> TestKey:
    return test.stage, test.unit, str(test.a), str(test.b), _state(test.state)


def _state(state: State) -> tuple[tuple[str, str], ...]:
    return tuple(sorted(state.items()))


def _tests(old: Sequence[MeterGroup], new: Sequence[MeterGroup], work: _Work) -> Iterator[Retest]:
    before = {_key(test): test for group in old for test in group.tests}
    for group in new:
        for test in group.tests:
            was = before.get(_key(test))
            expected = was.expected if was is not None and was.expected != test.expected else ""
            if was is None:
                yield Retest(group.name, group.plug, test, NEW)
            elif not _same(was, test):
                yield Retest(group.name, group.plug, test, DIFFERENT, expected)
            elif work.reaches(group, test):
                yield Retest(group.name, group.plug, test, WORKED_ON, expected)


def _same(old: MeterTest, new: MeterTest) -> bool:
    """Whether a reading that was right before is still right: each expectation's middle lies in the other's range."""
    if old.expected == new.expected:
        return True
    if not all(map(isfinite, (old.low, old.high, new.low, new.high))):
        return False
    middle, now = (old.low + old.high) / 2, (new.low + new.high) / 2
    return new.low <= middle <= new.high and old.low <= now <= old.high
