"""Single faults: what one broken wire, blown fuse, stuck relay, lost supply, pulled plug or shorted signal changes.

For each operation line the zone of each of its names is settled with each fault that can reach it; the fault comes
over a machine that stands in a matching state. Says what changes; whether that is allowed is for the checks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cached_property
from typing import NamedTuple

from harnessdoc.electrics.aftermath import Aftermath, Sense, senses_of
from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.joining import Joining
from harnessdoc.electrics.possible import Prospect, ever_fed
from harnessdoc.electrics.probes import Probe, probe_of
from harnessdoc.electrics.settle import Plant, Settled
from harnessdoc.electrics.single_fault import Fault, Sort, is_fault, parted_pairs
from harnessdoc.electrics.study import Study, states
from harnessdoc.electrics.tracing import how_live, why_dead
from harnessdoc.electrics.zones import Setting, Wiring, Zone
from harnessdoc.model.harness import Operation, State
from harnessdoc.model.kinds.electronics import Module, Sensor
from harnessdoc.model.kinds.relays import Relay, RelayBoard

MOST_ZONE_STATES = 1024
"""A zone with more states is not searched for faults."""
SHORT_OHM = 0.01
"""Resistance of a short. Common practice, no source."""
NEARLY = 0.9
"""From this share of the usual volts on a name that must stay dead is looked at in the whole circuit: a zone leaves out
what else hangs on its way to the source, which moves voltages a little. Own choice."""
MOST_NEAR = 2
"""So many states of one fault are looked at in the whole circuit, those nearest to live."""
STILL_A = 1e-9
"""What carries less than this changes nothing by breaking."""


class Effect(NamedTuple):
    """A fault that changes whether a name is live: in which state of the devices, and by which chain or gap."""

    line: Operation
    name: str
    fault: Fault
    live: bool
    state: State
    why: str


class Searched(NamedTuple):
    """One name of one line: what single faults change, how many were tried. `unverified`: why it was not searched."""

    line: Operation
    name: str
    effects: tuple[Effect, ...] = ()
    tried: int = 0
    unverified: str = ""


class Faults:
    """The single faults of a study; what they share is found once."""

    def __init__(self, study: Study) -> None:
        self.study, self.wiring = study, Wiring(study.circuit)
        self.aftermaths: dict[tuple[object, ...], tuple[Settled, ...]] = {}
        """What came of a fault in a zone and a state: names of one line that hang on one way share it."""

    def of_line(self, line: Operation, only_dead: bool = False) -> tuple[Searched, ...]:
        """What single faults change for each name of a line; `only_dead`: only for those that must be dead."""
        self.aftermaths.clear()
        names = line.dead if only_dead else (*line.live, *line.dead)
        return tuple(_search(self, line, name) for name in names)

    @cached_property
    def series(self) -> Mapping[int, tuple[int, ...]]:
        """Wire or fuse to all those in one chain with it, with nothing branching off: breaking any does the same."""
        circuit, joined = self.study.circuit, Joining[int]()
        kinds = {i for i, b in enumerate(circuit.branches) if b.sort in ("wire", "fuse")}
        for index in kinds:
            joined.add(index)
        for node, near in self.wiring.around.items():
            if len(near) == 2 and node not in circuit.grounds and near[0][0] in kinds and near[1][0] in kinds:
                joined.join(near[0][0], near[1][0])
        groups: dict[int, list[int]] = {}
        for index in sorted(kinds):
            groups.setdefault(joined.root(index), []).append(index)
        return {index: tuple(group) for group in groups.values() for index in group}

    @cached_property
    def senses(self) -> tuple[Sense, ...]:
        """Sensors with three wires."""
        return senses_of(self.study)

    @cached_property
    def unplugged(self) -> Mapping[int, Fault]:
        """Branch of a wire at a mated pair of plugs to the fault of that pair being parted."""
        return parted_pairs(self.study)


def single_faults(study: Study, lines: Iterable[Operation], only_dead: bool = False) -> tuple[Searched, ...]:
    """For each line and name: the single faults that change whether it is live.

    `only_dead`: only names that must stay dead, as for lines that say `fails safe`."""
    faults = Faults(study)
    return tuple(searched for line in lines for searched in faults.of_line(line, only_dead))


def _search(faults: Faults, line: Operation, name: str) -> Searched:
    study = faults.study
    probe = probe_of(study, name)
    if isinstance(probe, str):
        return Searched(line, name, unverified=probe)
    moved = [device for device in line.when if device not in study.circuit.devices]
    if moved:
        return Searched(line, name, unverified=f"{', '.join(moved)} can't be set: it moves by itself")
    hunt = Hunt(faults, line, probe)
    if hunt.zone is None:
        return Searched(line, name, unverified="a source is shorted in that state")
    holds = hunt.as_wanted()
    if holds is None:
        return Searched(line, name, unverified=f"{hunt.zone.states} states decide about it, too many to try faults in")
    if not holds:
        return Searched(line, name, unverified="even without a fault it is not as the line says, or its source sags")
    tried = list(hunt.candidates())
    effects = tuple(e for fault in tried if (e := hunt.effect(fault)) is not None)
    open_ = [f"too many states decide about it with {_listed(hunt.untried)}"] if hunt.untried else []
    open_ += [f"it never comes to rest with {_listed(hunt.unsettled)}"] if hunt.unsettled else []
    return Searched(line, name, effects, len(tried), "; ".join(open_))


def _listed(faults: Sequence[Fault], most: int = 3) -> str:
    more = f" and {len(faults) - most} more" if len(faults) > most else ""
    return ", ".join(fault.text for fault in faults[:most]) + more


class Hunt:
    """The faults that can reach one probe while some positions are fixed, and what each does."""

    def __init__(self, faults: Faults, line: Operation, probe: Probe) -> None:
        self.faults, self.line, self.probe = faults, line, probe
        self.circuit = faults.study.circuit
        self.wanted = probe.name in line.live
        cut_off = (s.draw for s in faults.senses if is_fault(line.when.get(s.name, "")))
        self.gone: frozenset[int] = frozenset().union(*cut_off)
        self.nodes = tuple(probe.touched(self.circuit))
        self.own = tuple(index for index, _ in probe.across)
        self.setting = Setting(faults.wiring, line.when, self.gone)
        self.zone = self.setting.zone(self.nodes, self.own)
        self.untried: list[Fault] = []
        self.unsettled: list[Fault] = []
        self._before: dict[tuple[str, ...], Settled] = {}

    @cached_property
    def _plant(self) -> Plant:
        zone = self.zone
        assert zone is not None  # a hunt without a zone asks nothing
        return Plant(self.circuit, zone.kept, self.gone)

    @cached_property
    def perhaps(self) -> bool:
        """Whether it could be live without a fault."""
        return self.zone is not None and Prospect(self.setting, self.zone, self.probe).perhaps()

    def before(self, state: Mapping[str, str]) -> Settled:
        """What it did before any fault, in a state of the zone's devices; what `state` does not name is at rest."""
        zone = self.zone
        assert zone is not None  # as above
        full = {device: state.get(device, positions[0]) for device, positions in zone.devices.items()}
        key = tuple(full.values())
        if key not in self._before:
            self._before[key] = self._plant.settle({**self.line.when, **full})
        return self._before[key]

    def as_wanted(self) -> bool | None:
        """Whether the zone does without a fault what the line says; None where it has too many states to tell."""
        zone = self.zone
        assert zone is not None  # as above
        if not self.perhaps:
            return not self.wanted
        if zone.states > MOST_ZONE_STATES:
            return None
        return all(self.probe.live(self.circuit, self.before(s)) == self.wanted for s in self._states(zone))

    def _states(self, zone: Zone) -> Iterator[dict[str, str]]:
        """States of the zone's free devices."""
        return states(self._free(zone))

    def _free(self, zone: Zone) -> dict[str, tuple[str, ...]]:
        """The zone's free devices; a sensor that is at fault itself would be a second fault."""
        senses = {s.name for s in self.faults.senses} | _sensors(self.faults.study)
        return {
            name: tuple(p for p in positions if name not in senses or not is_fault(p)) or positions
            for name, positions in zone.devices.items()
        }

    def candidates(self) -> Iterator[Fault]:
        """The faults that can reach the zone."""
        zone, seen = self.zone, set()
        assert zone is not None  # as above
        for index in zone.kept:
            branch = self.circuit.branches[index]
            if index in self.faults.series and self.faults.series[index][0] not in seen:
                group = self.faults.series[index]
                seen.add(group[0])
                yield self._opened(index, group)
            elif branch.sort == "source":
                yield Fault("lost", (branch.part,), f"{branch.part} gives nothing", frozenset({index}))
        yield from self._sticking(zone)
        yield from dict.fromkeys(f for i in zone.kept if (f := self.faults.unplugged.get(i)) is not None)
        yield from self._shorted(zone)

    def _opened(self, index: int, group: Sequence[int]) -> Fault:
        parts = [self.circuit.branches[i] for i in group]
        told = [f"{b.part} {'blown' if b.sort == 'fuse' else 'broken'}" for b in parts]
        sort: Sort = "blown" if all(b.sort == "fuse" for b in parts) else "broken"
        return Fault(sort, tuple(b.part for b in parts), " or ".join(told), frozenset({index}))

    def _sticking(self, zone: Zone) -> Iterator[Fault]:
        items = self.faults.study.network.harness.items
        gates = (self.circuit.branches[i].gate for i in sorted(zone.inner))
        for device in dict.fromkeys(gate.device for gate in gates if gate is not None):
            if device in items and isinstance(items[device].kind, (Relay, RelayBoard)):
                for coil in self.circuit.coils_of.get(device, ())[:1]:
                    for position in (coil.rest, coil.pulled):
                        text = f"{device} stuck {position}"
                        yield Fault("stuck", (device,), text, stuck=((device, position),))

    def _shorted(self, zone: Zone) -> Iterator[Fault]:
        """Each signal in the zone, to the return, to its sensor's supply and to the highest source."""
        done: set[tuple[str, int]] = set()
        for index in sorted(zone.inner):
            branch = self.circuit.branches[index]
            if (
                branch.sort != "signal"
                or (branch.part, branch.a) in done
                or is_fault(self.line.when.get(branch.part, ""))
            ):
                continue
            done.add((branch.part, branch.a))
            to = [(node, f"shorted to {what}") for node, what in self._rails(branch.part)]
            for node, what in to:
                if node != branch.a:
                    extra = Branch(branch.a, node, SHORT_OHM, branch.part, f"short of {branch.part}", "wire")
                    yield Fault("shorted", (branch.part,), f"signal of {branch.part} {what}", extra=(extra,))

    def _rails(self, part: str) -> Iterator[tuple[int, str]]:
        if self.circuit.grounds:
            yield self.circuit.grounds[-1], "ground"
        for sense in self.faults.senses:
            if sense.name == part:
                yield sense.plus, "its own supply"
        sources = [self.circuit.branches[i] for i in self.faults.wiring.sources]
        if sources:
            top = max(sources, key=lambda source: source.volts)
            yield top.a, f"{top.part}'s feed"

    def _leaves_dead(self, fault: Fault) -> bool:
        """Whether a fault only takes out branches, and none that could make live what is dead: no chain to a return is
        among them, nor, where voltage could reach the probe, a chain to a source."""
        if self.wanted or fault.extra or fault.stuck:
            return False
        if not self.perhaps and not self._moves(fault):
            return True
        return not self.ever_fed and fault.blocked.isdisjoint(self.returns)

    @cached_property
    def ever_fed(self) -> bool:
        """Whether voltage could reach the probe with any feed lost."""
        return ever_fed(self.setting, self.probe)

    @cached_property
    def returns(self) -> frozenset[int]:
        """The chains by which clamped nodes hang on the return."""
        ends = self.setting.ends
        return frozenset(ends.back.values()) if ends is not None else frozenset()

    def _moves(self, fault: Fault) -> bool:
        """Whether a fault does more than take out branches between clamped nodes."""
        zone = self.zone
        return bool(zone is None or fault.extra or fault.stuck or fault.blocked & (zone.ways | zone.sources))

    def with_fault(self, fault: Fault) -> tuple[Setting, Zone] | None:
        """The zone as the fault leaves it, grown where a feed or a return is lost; None if a source is shorted."""
        zone = self.zone
        assert zone is not None  # as above
        if not self._moves(fault):
            return self.setting.without(fault.blocked), zone
        fixed = {**self.line.when, **dict(fault.stuck)}
        setting = Setting(self.faults.wiring, fixed, self.gone | fault.blocked, fault.extra)
        grown = setting.zone(self.nodes, self.own)
        return (setting, grown) if grown is not None else None

    def effect(self, fault: Fault) -> Effect | None:
        """The first state in which the fault changes what the line says of the name."""
        if self._leaves_dead(fault):
            return None
        left = self.with_fault(fault)
        if left is None:
            return None
        setting, zone = left
        prospect = Prospect(setting, zone, self.probe)
        if not prospect.perhaps():
            return self._told(fault, setting, zone, self.line.when, None) if self.wanted else None
        if zone.states > MOST_ZONE_STATES:
            self.untried.append(fault)
            return None
        unsettled = False
        near: list[tuple[float, int, dict[str, str], Settled]] = []
        among = None if self.wanted else states(prospect.narrowed(self._free(zone)))
        for state, settled in self.after(fault, setting, zone, among):
            if not settled.exact or settled.cycle:
                unsettled = True
                continue
            if self.probe.live(setting.circuit, settled) != self.wanted:
                return self._told(fault, setting, zone, state, settled)
            if not self.wanted and (level := self.probe.level(setting.circuit, settled)) >= NEARLY:
                near.append((-level, len(near), state, settled))
        for _, _, state, settled in sorted(near)[:MOST_NEAR]:
            if self._live_in_whole(fault, setting, state):
                return self._told(fault, setting, zone, state, settled)
        if unsettled:
            self.unsettled.append(fault)
        return None

    def _live_in_whole(self, fault: Fault, setting: Setting, state: Mapping[str, str]) -> bool:
        """Whether it is live with everything else of the vehicle in place, at rest or as far from rest as it goes."""
        plant = Plant(setting.circuit, None, fault.blocked | self.gone, fault.stuck)
        for end in (0, -1):
            others = {device: positions[end] for device, positions in self.circuit.devices.items()}
            settled = plant.settle({**others, **self.line.when, **state})
            if settled.exact and not settled.cycle and self.probe.live(setting.circuit, settled):
                return True
        return False

    def after(
        self, fault: Fault, setting: Setting, zone: Zone, among: Iterable[dict[str, str]] | None = None
    ) -> Iterator[tuple[dict[str, str], Settled]]:
        """What comes of the fault in each state, or in those `among` them, but where it changes nothing."""
        runs = Aftermath(self.faults.senses, setting, zone, fault, self.gone)
        for state in self._states(zone) if among is None else among:
            before = self.before(state)
            if zone is self.zone and not self._carries(before, fault):
                continue
            start = {device: position for device, position in before.positions.items() if device not in state}
            fixed, start = {**self.line.when, **state}, {**start, **dict(fault.stuck)}
            key = (fault, zone.kept, zone.inner, self.gone, *fixed.items(), *start.items(), runs.supplied(before))
            known = self.faults.aftermaths.get(key)
            if known is None:
                known = self.faults.aftermaths[key] = tuple(runs.settled(fixed, start, before))
            yield from ((state, settled) for settled in known)

    def quiet(self, setting: Setting, zone: Zone) -> Iterator[tuple[dict[str, str], Settled]]:
        """What a zone does in each state with no fault at all."""
        plant = Plant(setting.circuit, zone.kept, self.gone)
        for state in self._states(zone):
            yield state, plant.settle({**self.line.when, **state})

    def _carries(self, before: Settled, fault: Fault) -> bool:
        return any(abs(before.amps[index]) > STILL_A for index in fault.blocked)

    def _told(self, fault: Fault, setting: Setting, zone: Zone, state: State, settled: Settled | None) -> Effect:
        if settled is None:
            return Effect(self.line, self.probe.name, fault, False, state, "nothing feeds it any more")
        explain = why_dead if self.wanted else how_live
        why = explain(setting.circuit, zone.kept, settled, self.probe, fault.blocked | self.gone)
        return Effect(self.line, self.probe.name, fault, not self.wanted, {**self.line.when, **state}, why)


def _sensors(study: Study) -> set[str]:
    items = study.network.harness.items.items()
    return {name for name, item in items if isinstance(item.kind, (Sensor, Module))}
