"""What to measure: continuity, resistance and voltage tests with what the meter should show, in an order that isolates
faults: returns before feeds with the supply off, then first power through a small fuse, then each load.

Values from the network; the order and the tolerances are common practice, no source. Draws nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import cached_property
from math import isnan
from typing import Final, Literal

from harnessdoc.electrics.ohms import OhmMeter, is_open
from harnessdoc.electrics.operation import LiveRow, live_row, matching
from harnessdoc.electrics.probes import homes, probe_of
from harnessdoc.electrics.readings import ohms_tolerance, volts_tolerance
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Study
from harnessdoc.electrics.zones import Setting, Wiring
from harnessdoc.model.harness import Item, State
from harnessdoc.model.kinds.base import Side
from harnessdoc.model.kinds.controls import Regulator, SpeedController
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.loads import Load
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import format_ohms, plain_number
from harnessdoc.model.record import record

Stage = Literal["cavity ohms", "cavity volts", "returns", "feeds", "first power", "loads"]
STAGES: Final[Mapping[Stage, str]] = {
    "cavity ohms": "Supply off: each cavity",
    "cavity volts": "Supply on: each cavity, under load",
    "returns": "Supply off: returns",
    "feeds": "Supply off: fuses, contacts and loads",
    "first power": "First power, through a 1 to 3 A fuse, modules unplugged",
    "loads": "Supply on, own fuse in, all plugged in",
}
LAMP: Final = "21 W lamp across"
"""A load that a ghost voltage can't light. Common practice, no source."""
NO_SHORT: Final = "no short behind it"
SHARED: Final = 3
"""A switch that reaches loads of so many circuits is tested with its own, not with each of them."""


@record(frozen=True)
class MeterTest:
    """One thing to measure between two points. `expected`: as printed, with its tolerance; `low`, `high`: the same in V
    or ohm, nan where nothing is predicted. `load`: what is across the points; `note`: what else to know."""

    stage: Stage
    unit: Literal["V", "ohm"]
    a: Point
    b: Point
    state: State
    expected: str
    low: float
    high: float
    load: str = ""
    note: str = ""


@record(frozen=True)
class MeterGroup:
    """The tests at one plug before it is cut, or of one circuit after."""

    name: str
    plug: bool
    tests: tuple[MeterTest, ...]


def meter_tests(study: Study) -> tuple[MeterGroup, ...]:
    """All tests: plugs with wires that are still to be cut first, then circuit by circuit; empty groups left out.

    A harness without a source gives none: there is nothing to measure against."""
    writer = _Writer(study)
    if writer.reference is None:
        return ()
    groups = [MeterGroup(name, True, tuple(writer.of_plug(name))) for name in writer.to_be_cut]
    groups += [MeterGroup(name, False, tuple(writer.of_circuit(items))) for name, items in writer.by_circuit.items()]
    return tuple(group for group in groups if group.tests)


class _Writer:
    def __init__(self, study: Study) -> None:
        self.study, self.circuit = study, study.circuit
        self.harness = study.network.harness
        self.ohms = OhmMeter(study)
        self.reference = self._reference()

    def _reference(self) -> Point | None:
        """The first source's return: where the black lead stays."""
        sides = ((Point(name, t), s) for name, item in self.harness.items.items() for t, s in item.kind.sides().items())
        return next((p for p, side in sides if side is Side.RETURN and p in self.circuit.node), None)

    @property
    def ref(self) -> Point:
        """The reference, once it is known that there is one."""
        return self.reference or CHASSIS

    @cached_property
    def by_circuit(self) -> Mapping[str, list[Item]]:
        """Circuit to its items, as it lists them, else by the wires that land on them."""
        home = {name: circuit.name for circuit in self.harness.circuits.values() for name in circuit.items}
        for wire in self.harness.wires.values():
            for point in wire.points:
                if wire.circuit is not None:
                    home.setdefault(point.owner, wire.circuit)
        found: dict[str, list[Item]] = {name: [] for name in self.harness.by_circuit}
        for name, item in self.harness.items.items():
            found.setdefault(home.get(name, ""), []).append(item)
        return found

    @cached_property
    def to_be_cut(self) -> tuple[str, ...]:
        """Plugs that mate with nothing and have cavities with a wire and no cut."""
        plugs = self.harness.plugs.values()
        mated = {plug.mates_with for plug in plugs}
        return tuple(p.name for p in plugs if p.mates_with is None and p.name not in mated and self._cavities(p.name))

    def _cavities(self, plug: str) -> list[Point]:
        """Cavities that hold one wire and were not cut; with a wire on each side a plug only passes through."""
        known = self.harness.plugs[plug]
        points = [Point(plug, cavity) for cavity in known.terminals if cavity not in known.cut]
        return [point for point in points if len(self.harness.landings.get(point, ())) == 1]

    @cached_property
    def returned(self) -> frozenset[int]:
        """Nodes that copper joins to the return, whatever stands how."""
        ends = Setting(Wiring(self.circuit), {}).ends
        return frozenset(ends.back) if ends is not None else frozenset()

    @cached_property
    def rows(self) -> Mapping[str, LiveRow]:
        """Item to when it is live; only those that draw, move or feed."""
        names = (n for n, i in self.harness.items.items() if isinstance(i.kind, (Load, Relay, RelayBoard, Regulator)))
        return {name: live_row(self.study, name) for name in names}

    @cached_property
    def shared(self) -> frozenset[str]:
        """Devices that reach loads of many circuits."""
        reach: dict[str, set[str]] = {}
        for circuit, items in self.by_circuit.items():
            for item in items:
                for device in self.rows[item.name].devices if item.name in self.rows else ():
                    reach.setdefault(device, set()).add(circuit)
        return frozenset(device for device, circuits in reach.items() if len(circuits) >= SHARED)

    # --- groups

    def of_plug(self, plug: str) -> Iterator[MeterTest]:
        """Each cavity that is to be cut: to the return with the supply off, then at rest and live."""
        cavities = self._cavities(plug)
        for point in cavities:
            known = point in self.circuit.node and self._drawn(self.circuit.node[point])
            if known:
                yield self._ohm("cavity ohms", point, self.ref, {})
            else:
                yield self._unknown("cavity ohms", "ohm", point)
        for point in cavities:
            if point in self.circuit.node and self._drawn(self.circuit.node[point]):
                yield from self._fed(point, "cavity volts", load=LAMP)
            else:
                yield self._unknown("cavity volts", "V", point)

    def of_circuit(self, items: Iterable[Item]) -> Iterator[MeterTest]:
        """Returns before feeds, first power before loads."""
        of = list(items)
        steps = (self._returns, self._fuses, self._contacts, self._resistances, self._first_power, self._live)
        for step in steps:
            for item in of:
                yield from step(item)

    def _returns(self, item: Item) -> Iterator[MeterTest]:
        if isinstance(item.kind, (Load, Relay, RelayBoard, Regulator, SpeedController, Sensor, Module)):
            for terminal in item.terminals:
                point = Point(item.name, terminal)
                if point != self.ref and point in self.harness.landings and self.circuit.node[point] in self.returned:
                    yield self._ohm("returns", point, self.ref, {})

    def _fuses(self, item: Item) -> Iterator[MeterTest]:
        if isinstance(item.kind, Fuse):
            yield self._ohm("feeds", Point(item.name, "1"), Point(item.name, "2"), {}, "fuse in")
            yield self._ohm("feeds", Point(item.name, "2"), self.ref, {}, NO_SHORT)

    def _contacts(self, item: Item) -> Iterator[MeterTest]:
        if isinstance(item.kind, Switch):
            for path in item.kind.paths():
                for position in (*path.closed[:1], *(p for p in item.kind.positions() if p not in path.closed)):
                    yield self._ohm("feeds", Point(item.name, path.a), Point(item.name, path.b), {item.name: position})

    def _resistances(self, item: Item) -> Iterator[MeterTest]:
        """A coil or load by its own ohms: a bare continuity test beeps through coils and motors too."""
        kind = item.kind
        pair = ("86", "85") if isinstance(kind, Relay) else kind.named[:2] if isinstance(kind, Load) else None
        if pair is not None and any(self.study.circuit.branches[i].sort in ("coil", "load") for i in self._own(item)):
            yield self._ohm("feeds", Point(item.name, pair[0]), Point(item.name, pair[1]), {})

    def _first_power(self, item: Item) -> Iterator[MeterTest]:
        """Behind each fuse that is live with no load switched on; a small fuse would not last where one is."""
        if isinstance(item.kind, Fuse):
            yield from (test for test in self._behind(item) if test.stage == "first power")

    def _behind(self, item: Item) -> Iterator[MeterTest]:
        point = Point(item.name, "2")
        row = live_row(self.study, str(point))
        quiet = all(device in self.shared for cube in row.cubes[:1] for device in cube)
        yield from self._by_row(row, str(point), point, self.ref, "first power" if quiet else "loads", "")

    def _live(self, item: Item) -> Iterator[MeterTest]:
        kind, name = item.kind, item.name
        if isinstance(kind, Fuse):
            yield from (test for test in self._behind(item) if test.stage == "loads")
        elif isinstance(kind, Load):
            yield from self._over(item, Point(name, kind.named[0]), Point(name, kind.named[1]))
        elif isinstance(kind, Relay):
            yield from self._over(item, Point(name, "86"), Point(name, "85"))
        elif isinstance(kind, Regulator):
            yield from self._over(item, Point(name, "OUT+"), Point(name, "OUT-"))
        elif isinstance(kind, Sensor):
            yield from self._signals(item, kind)

    def _own(self, item: Item) -> tuple[int, ...]:
        return self.study.by_part.get(item.name, ())

    # --- tests

    def _ohm(self, stage: Stage, a: Point, b: Point, state: State, note: str = "") -> MeterTest:
        """A resistance; of a way that may hold loads only the least counts."""
        low, high = self.ohms.between(self.circuit.node[a], self.circuit.node[b], state)
        if is_open(low):
            return MeterTest(stage, "ohm", a, b, state, "open (OL)", low, high, note=note)
        least, most = max(0.0, low - ohms_tolerance(low)), high + ohms_tolerance(high)
        if note == NO_SHORT:
            expected = f"{_ohms_text(max(low / 2, 0.1))} or more"
            return MeterTest(stage, "ohm", a, b, state, expected, low / 2, high, note=note)
        if is_open(high):
            return MeterTest(stage, "ohm", a, b, state, "not told: electronics", least, high, note=note)
        if most < 1.5:
            expected = f"under {_ohms_text(most)}"
        elif high > 1.05 * low:
            expected = f"{_ohms_text(max(low, 0.1))} to {_ohms_text(most)}"
        else:
            expected = f"{_ohms_text(high)} ± {_ohms_text(ohms_tolerance(high))}"
        return MeterTest(stage, "ohm", a, b, state, expected, least, most, note=note)

    def _unknown(self, stage: Stage, unit: Literal["V", "ohm"], point: Point) -> MeterTest:
        nan = float("nan")
        load = LAMP if unit == "V" else ""
        return MeterTest(stage, unit, point, self.ref, {}, "not known: write it down", nan, nan, load)

    def _drawn(self, node: int) -> bool:
        """Whether anything of the circuit lies at a node."""
        return any(node in branch[:2] for branch in self.circuit.branches)

    def _fed(self, point: Point, stage: Stage, load: str = "") -> Iterator[MeterTest]:
        """A point against the reference: where it is hot, and dead by each device that takes that away."""
        row = live_row(self.study, str(point))
        yield from self._by_row(row, str(point), point, self.ref, stage, load)

    def _over(self, item: Item, a: Point, b: Point) -> Iterator[MeterTest]:
        yield from self._by_row(self.rows[item.name], item.name, a, b, "loads", "")

    def _by_row(self, row: LiveRow, name: str, a: Point, b: Point, stage: Stage, load: str) -> Iterator[MeterTest]:
        nan = float("nan")
        if row.unknown:
            yield MeterTest(stage, "V", a, b, {}, "not computed: write it down", nan, nan, load, row.unknown)
            return
        if not row.cubes:
            yield self._volt(name, stage, a, b, {}, load)
            return
        cube = row.cubes[0]
        state = {device: positions[0] for device, positions in cube.items()}
        yield self._volt(name, stage, a, b, state, load)
        for device, positions in cube.items():
            if device in self.shared and device not in self._beside(a.owner):
                continue
            for other in row.devices[device]:
                if other not in positions and not _in_any({**state, device: other}, row):
                    yield self._volt(name, stage, a, b, {**state, device: other}, load)
                    break

    def _beside(self, owner: str) -> set[str]:
        """Items of the same circuit."""
        return next(
            ({i.name for i in items} for items in self.by_circuit.values() if any(i.name == owner for i in items)),
            set(),
        )

    def _volt(self, name: str, stage: Stage, a: Point, b: Point, state: State, load: str) -> MeterTest:
        settled = self._settled(name, state)
        volts = float("nan")
        if settled is not None:
            volts = settled.volts[self.circuit.node[a]] - settled.volts[self.circuit.node[b]]
        if isnan(volts):
            return MeterTest(
                stage, "V", a, b, state, "0 V", -0.5, 0.5, load or LAMP, "floats: a bare meter reads a ghost"
            )
        volts = 0.0 if abs(volts) < 0.005 else volts
        slack = 0.5 if volts == 0 else volts_tolerance(volts)
        pulsed = self._pulsed(a, b)
        note = f"pulsed by {pulsed}: an average, here at full" if pulsed and volts else ""
        held = load or (LAMP if volts == 0 and not self._loaded(a, b) else "")
        expected = f"{_volts_text(volts)} ± {_volts_text(slack)}" if volts else "0 V"
        return MeterTest(stage, "V", a, b, state, expected, volts - slack, volts + slack, held, note)

    def _settled(self, name: str, state: State) -> Settled | None:
        """What comes out in a state, all that it does not name at rest."""
        probe = probe_of(self.study, name)
        for studied in homes(self.study, probe) if not isinstance(probe, str) else ():
            rest = {device: positions[0] for device, positions in studied.island.devices.items()}
            named = {device: position for device, position in state.items() if device in rest}
            for _, settled in matching(studied, {**rest, **named}):
                return settled
        return None

    def _loaded(self, a: Point, b: Point) -> bool:
        """Whether a load or coil lies across the points, so that a ghost can't stand."""
        pair = {self.circuit.node[a], self.circuit.node[b]}
        return any({one.a, one.b} == pair and one.sort in ("load", "coil") for one in self.circuit.branches)

    def _pulsed(self, *points: Point) -> str:
        """The controller on whose output a point hangs, "" for none."""
        potential = self.study.network.potential
        for name, item in self.harness.items.items():
            if isinstance(item.kind, SpeedController):
                outs = {potential[Point(name, f"OUT{s}")] for s in ("+", "-")}
                if outs & {potential[point] for point in points}:
                    return name
        return ""

    def _signals(self, item: Item, kind: Sensor) -> Iterator[MeterTest]:
        """A sensor's signal in each condition, while it is supplied."""
        row = live_row(self.study, item.name)
        state = {d: p[0] for cube in row.cubes[:1] for d, p in cube.items()}
        a, b = Point(item.name, "S"), Point(item.name, "-")
        for condition, span in kind.signal_v.items():
            if span is not None:
                low, high = span[0] - 0.1, span[1] + 0.1
                text = (
                    f"{_volts_text(span[0])} to {_volts_text(span[1])}"
                    if span[1] > span[0]
                    else f"{_volts_text(span[0])} ± 0.1 V"
                )
                yield MeterTest("loads", "V", a, b, {**state, item.name: condition}, text, low, high)


def _in_any(state: State, row: LiveRow) -> bool:
    """Whether some cube holds the state; devices not named stand at rest."""
    full = {device: state.get(device, positions[0]) for device, positions in row.devices.items()}
    return any(all(full[device] in positions for device, positions in cube.items()) for cube in row.cubes)


def _ohms_text(ohm: float) -> str:
    """As a meter shows it: tenths below ten ohm, two figures above."""
    if ohm < 10:
        return f"{plain_number(round(ohm + 1e-9, 1))} Ω"
    return format_ohms(float(plain_number(ohm, 2)), 2)


def _volts_text(volts: float) -> str:
    return f"{plain_number(round(volts, 1))} V"
