"""What the meter said against what the network predicts: agrees, disagrees, or can't be told.

Where it disagrees, the single faults that would make it so, the closest first. No verdict on the harness."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from math import isnan, nan
from typing import Final, Literal, NamedTuple

from harnessdoc.electrics.circuit import Branch
from harnessdoc.electrics.faults import Faults, Hunt
from harnessdoc.electrics.ohms import OhmMeter, is_open
from harnessdoc.electrics.operation import matching, unknown_positions
from harnessdoc.electrics.probes import Probe, supply_v
from harnessdoc.electrics.settle import Settled
from harnessdoc.electrics.study import Studied, Study
from harnessdoc.electrics.zones import Setting
from harnessdoc.model.harness import Operation, Reading, State
from harnessdoc.model.points import Point

Says = Literal["agrees", "disagrees", "can't tell"]
BEEPS_OHM: Final = 50.0
"""Below this a meter's continuity test sounds, above twice that it does not. Common practice, no source."""
MOST_FAULTS: Final = 3


class Compared(NamedTuple):
    """A reading with what was expected, in V, ohm or A. `why`: what keeps it from being told; `faults`: single faults
    that would explain it, the closest first."""

    reading: Reading
    says: Says
    expected: tuple[float, float] | None = None
    why: str = ""
    faults: tuple[str, ...] = ()


def compare(study: Study, readings: Iterable[Reading]) -> tuple[Compared, ...]:
    """Hold each reading against the network in the states that match it."""
    bench = _Bench(study)
    return tuple(bench.compare(reading) for reading in readings)


def volts_tolerance(volts: float) -> float:
    """By how much a reading may differ from a prediction, in V: small drops by a third, a supply by its charge.

    Common practice, no source."""
    size = abs(volts)
    return min(0.1 + 0.3 * size, 0.3 + 0.05 * size)


def ohms_tolerance(ohm: float) -> float:
    """The same in ohm: a tenth, and half an ohm for the meter's leads. Common practice, no source."""
    return 0.5 + 0.1 * ohm


class _Bench:
    def __init__(self, study: Study) -> None:
        self.study, self.circuit, self.ohms = study, study.circuit, OhmMeter(study)
        self.faults = Faults(study)
        self._homes: dict[tuple[int, int], list[Studied]] = {}

    def compare(self, reading: Reading) -> Compared:
        """One reading."""
        unknown = [str(p) for p in reading.between if p not in self.circuit.node]
        if unknown:
            return _untold(reading, f"nothing is known of {' and '.join(unknown)}")
        before = self._before_cut(reading)
        if before:
            return _untold(reading, before)
        positions = unknown_positions(self.study, reading.when)
        if positions:
            return _untold(reading, "; ".join(positions))
        a, b = (self.circuit.node[point] for point in reading.between)
        if reading.volts is not None:
            return self._volts(reading, a, b, reading.volts)
        if reading.amps is not None:
            return self._amps(reading, a, b, reading.amps)
        return self._ohms(reading, a, b)

    def _before_cut(self, reading: Reading) -> str:
        """What it says of a reading that was taken while a cavity was still whole."""
        for point in reading.between:
            plug = self.study.network.harness.plugs.get(point.owner)
            cut = plug.cut.get(point.terminal) if plug else None
            if cut and reading.on and reading.on < cut:
                return f"taken before {point} was cut on {cut}: the wiring was another then"
        return ""

    def _volts(self, reading: Reading, a: int, b: int, volts: float) -> Compared:
        found = list(self._loaded(reading, a, b) if reading.loaded_with else self._seen(reading.when, a, b))
        if not found:
            return _untold(reading, "no state that was settled matches it")
        if any(isnan(value) for value, _ in found):
            return _untold(reading, "one of its points floats there, and a meter reads a ghost")
        low, high = min(value for value, _ in found), max(value for value, _ in found)
        span = self._span(reading.when, a, b)
        slack = span + max(volts_tolerance(low), volts_tolerance(high))
        if not low - slack <= volts <= high + slack:
            return Compared(reading, "disagrees", (low, high), faults=self._explained(reading, a, b, volts))
        if high - low > 2 * slack:
            free = ", ".join(_that_change(found, slack))
            return Compared(reading, "can't tell", (low, high), f"the reading does not say how {free} stood")
        return Compared(reading, "agrees", (low, high))

    def _seen(self, when: State, a: int, b: int) -> Iterator[tuple[float, State]]:
        """The voltage in all matching states of the islands that hold both points."""
        for studied in self._homes_of(a, b):
            for state, settled in matching(studied, when):
                if settled.exact:
                    yield settled.volts[a] - settled.volts[b], state

    def _homes_of(self, a: int, b: int) -> list[Studied]:
        key = (a, b)
        if key not in self._homes:
            wanted = {a, b} - set(self.circuit.grounds[:1])
            branches = self.circuit.branches

            def holds(indices: Iterable[int], nodes: set[int]) -> bool:
                return nodes <= {node for index in indices for node in branches[index][:2]}

            every = [s for s in self.study.studied if s.outcomes and holds(s.island.kept, wanted)]
            own = [s for s in every if any(holds(s.island.own, {node}) for node in wanted)]
            self._homes[key] = own or every
        return self._homes[key]

    def _loaded(self, reading: Reading, a: int, b: int) -> Iterator[tuple[float, State]]:
        """The voltage with what the reading says was put across the points; nothing if that can't be read."""
        ohm = load_ohm(reading.loaded_with or "", supply_v(self.circuit))
        if ohm is None:
            yield from self._seen(reading.when, a, b)
            return
        load = Branch(a, b, ohm, "test load", "test load", "load")
        hunt = Hunt(self.faults, _line(reading.when), Probe("meter", nodes=(a, b)))
        setting = Setting(self.faults.wiring, reading.when, hunt.gone, (load,))
        zone = setting.zone((a, b))
        if zone is not None:
            for state, settled in hunt.quiet(setting, zone):
                yield settled.volts[a] - settled.volts[b], state

    def _span(self, when: State, a: int, b: int) -> float:
        """Half the width of a sensor's stated range, where one of the points is its signal."""
        widest = 0.0
        for branch in self.circuit.branches:
            if branch.sort == "signal" and branch.a in (a, b) and branch.gate is not None:
                position = when.get(branch.gate.device)
                if position in branch.gate.closed:
                    kind = self.study.network.harness.items[branch.part].kind
                    ranges = getattr(kind, "signal_v", {})
                    span = ranges.get(position)
                    widest = max(widest, (span[1] - span[0]) / 2 if span else 0.0)
        return widest

    def _explained(self, reading: Reading, a: int, b: int, volts: float) -> tuple[str, ...]:
        """Single faults with which the network would read so, the closest first."""
        hunt = Hunt(self.faults, _line(reading.when), Probe("meter", nodes=(a, b)))
        if hunt.zone is None or hunt.zone.states > MOST_STATES:
            return ()
        ranked: list[tuple[float, str]] = []
        for fault in hunt.candidates():
            left = hunt.with_fault(fault)
            if left is None or left[1].states > MOST_STATES:
                continue
            misses = [_miss(settled, a, b, volts) for _, settled in hunt.after(fault, *left)]
            miss = min(misses, default=nan)
            if miss <= volts_tolerance(volts):
                ranked.append((round(miss, 3), fault.text))
        return tuple(text for _, text in sorted(ranked)[:MOST_FAULTS])

    def _amps(self, reading: Reading, a: int, b: int, amps: float) -> Compared:
        """A current is read where the meter stands in for a branch: a fuse, a switch, a wire."""
        index = next((i for i, one in enumerate(self.circuit.branches) if {one.a, one.b} == {a, b}), None)
        if index is None:
            return _untold(
                reading, "no fuse, contact or wire lies between its points, so the way of the current is not known"
            )
        sign = 1.0 if self.circuit.branches[index].a == a else -1.0
        home = self.study.home.get(index)
        found = [sign * s.amps[index] for _, s in matching(home, reading.when) if s.exact] if home else []
        if not found:
            return _untold(reading, "it is shared by several islands" if home is None else "no state matches it")
        low, high = min(found), max(found)
        slack = 0.1 + 0.2 * max(abs(low), abs(high))
        if not low - slack <= amps <= high + slack:
            return Compared(reading, "disagrees", (low, high))
        if high - low > 2 * slack:
            return Compared(reading, "can't tell", (low, high), "the reading does not say how all switches stood")
        return Compared(reading, "agrees", (low, high))

    def _ohms(self, reading: Reading, a: int, b: int) -> Compared:
        low, high = expected = self.ohms.between(a, b, reading.when)
        if reading.ohms is not None:
            if low - ohms_tolerance(low) <= reading.ohms <= high + ohms_tolerance(high):
                wide = high > 4 * low + 2
                why = "electronics or a diode in the way may show anything" if wide and is_open(high) else ""
                return Compared(reading, "can't tell" if why else "agrees", expected, why)
            return Compared(reading, "disagrees", expected)
        if reading.continuity is None:
            return _untold(reading, "it states no figure")
        if reading.continuity:
            sure, never = high <= BEEPS_OHM, low > 2 * BEEPS_OHM
        else:
            sure, never = low > 2 * BEEPS_OHM, high <= BEEPS_OHM
        return Compared(reading, "agrees" if sure else "disagrees" if never else "can't tell", expected)


MOST_STATES: Final = 64
"""Faults are not searched where a reading leaves more states open."""


def load_ohm(text: str, volts: float) -> float | None:
    """The resistance of a test load from its words, as in `21 W lamp` or `10 ohm`; None if they tell none."""
    found = re.search(r"(\d+(?:[.,]\d+)?)\s*(W|ohm|Ω)", text)
    if found is None:
        return None
    figure = float(found[1].replace(",", "."))
    if figure <= 0:
        return None
    return volts * volts / figure if found[2] == "W" else figure


def _line(when: State) -> Operation:
    return Operation(when)


def _untold(reading: Reading, why: str) -> Compared:
    return Compared(reading, "can't tell", why=why)


def _miss(settled: Settled, a: int, b: int, volts: float) -> float:
    across = settled.volts[a] - settled.volts[b]
    return abs((0.0 if isnan(across) else across) - volts)


def _that_change(found: Sequence[tuple[float, State]], slack: float) -> list[str]:
    """Devices of which some change alone moves the voltage by more than the slack."""
    devices = dict.fromkeys(device for _, state in found for device in state)
    moving = []
    for device in devices:
        groups: dict[tuple[tuple[str, str], ...], list[float]] = {}
        for value, state in found:
            groups.setdefault(tuple((d, p) for d, p in state.items() if d != device), []).append(value)
        if any(max(group) - min(group) > slack for group in groups.values()):
            moving.append(device)
    return moving


def point_text(points: tuple[Point, Point]) -> str:
    """`X4:3 to chassis`."""
    return f"{points[0]} to {points[1]}"
