"""What a point offers: ground, constant or switched supply, nothing; by the computed states and by the meter.

A reading taken after the cut counts most, then what is computed; one taken before the cut tells what the whole wire
was, not which of its halves is it now. Quantities and words; what is asked of them is `query`'s matter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from math import isnan
from typing import Final, Literal

from harnessdoc.electrics.isolation import isolation
from harnessdoc.electrics.operation import told
from harnessdoc.electrics.study import Studied, Study
from harnessdoc.model.harness import Reading
from harnessdoc.model.kinds.base import Side
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.model.points import CHASSIS, Point
from harnessdoc.model.quantities import format_ohms, format_volts
from harnessdoc.model.record import record

Nature = Literal["ground", "constant", "switched", "live", "dead"]
"""`live`: there is voltage, nobody knows whether it is switched."""
_Told = tuple[Nature, float | None, str]
LIVE_V: Final = 1.0
"""Less than this over the ground is leakage or a signal. Common practice, no source."""
GROUND_OHM: Final = 1.0
"""At most this to the chassis, the meter's leads in it, is a ground. Common practice, no source."""


@record(frozen=True)
class Evidence:
    """What is known of a point now, and what was measured before the cut. `volts`: the most over the ground, V.

    `why`, `why_before`: in words; `silent`: why nothing is known now, "" where something is."""

    nature: Nature | None = None
    volts: float | None = None
    why: str = ""
    before: Nature | None = None
    volts_before: float | None = None
    why_before: str = ""
    silent: str = ""


class Witness:
    """Asks one study about many points."""

    def __init__(self, study: Study) -> None:
        self.study = study
        self.harness = study.network.harness

    def of(self, point: Point | None, was_at: Point | None = None) -> Evidence:
        """The evidence at a point; `was_at`: the cavity its wire was cut from, for readings taken before."""
        known, silent = self._computed(point) if point else (None, "nobody knows where it leads")
        after = self._measured(point, before=False) if point else None
        cut_at = was_at or point
        before = self._measured(cut_at, before=True) if cut_at else None
        now, silent = _together(after, known, silent)
        nature, volts, why = now or (None, None, "")
        was, volts_was, why_was = before or (None, None, "")
        return Evidence(nature, volts, why, was, volts_was, why_was, silent if now is None else "")

    # --- computed

    @cached_property
    def _grounds(self) -> frozenset[int]:
        """Potentials of the sources' returns and of the chassis."""
        potential = self.study.network.potential
        points = [CHASSIS] if CHASSIS in potential else []
        for name, item in self.harness.items.items():
            points += [Point(name, t) for t, side in item.kind.sides().items() if side is Side.RETURN]
        return frozenset(potential[point] for point in points)

    @cached_property
    def _isolator(self) -> tuple[str, str] | None:
        """The switch that cuts the most off, and where it does; None where a harness has no other switch."""
        switches = [name for name, item in self.harness.items.items() if isinstance(item.kind, Switch)]
        if len(switches) < 2:
            return None
        found = isolation(self.study)
        return (found.device, found.position) if found.device is not None else None

    @cached_property
    def _islands(self) -> dict[int, list[Studied]]:
        """Node to the islands that settle it: those with a branch of their own at it, else all that keep one."""
        branches = self.study.circuit.branches
        own: dict[int, dict[int, Studied]] = {}
        kept: dict[int, dict[int, Studied]] = {}
        for number, studied in enumerate(self.study.studied):
            for found, indices in ((own, studied.island.own), (kept, studied.island.kept)):
                for index in indices:
                    for node in branches[index][:2]:
                        found.setdefault(node, {})[number] = studied
        return {node: list((own.get(node) or islands).values()) for node, islands in kept.items()}

    def _computed(self, point: Point) -> tuple[_Told | None, str]:
        potential = self.study.network.potential.get(point)
        if potential is None:
            return None, "nothing is known of it"
        if potential in self._grounds:
            return ("ground", 0.0, "joined to the return by copper"), ""
        islands = self._islands.get(self.study.circuit.node.get(point, -1), [])
        if not islands:
            return None, "nothing that is described is joined to it"
        if any(studied.island.too_many for studied in islands):
            return None, "it depends on too many positions to be computed"
        return self._by_states(self.study.circuit.node[point], islands)

    def _by_states(self, node: int, islands: Sequence[Studied]) -> tuple[_Told | None, str]:
        seen = []
        for studied in islands:
            for state, settled in studied.outcomes:
                if settled.cycle or not settled.exact:
                    return None, "it depends on a relay that never comes to rest"
                volts = settled.volts[node]
                seen.append((state, 0.0 if isnan(volts) else abs(volts)))
        while_on = ""
        if self._isolator is not None:
            device, position = self._isolator
            if any(state.get(device) == position for state, _ in seen):
                seen = [(state, volts) for state, volts in seen if state.get(device) != position]
                others = [at for at in self.study.circuit.devices[device] if at != position]
                while_on = f" while {device} is {' or '.join(others)}"
        live = [(state, volts) for state, volts in seen if volts >= LIVE_V]
        if not live:
            return ("dead", 0.0, "no voltage in any computed state"), ""
        state, most = max(live, key=lambda one: one[1])
        if len(live) == len(seen):
            return ("constant", most, f"computed {format_volts(most, 3)}{while_on}, however the rest stands"), ""
        return ("switched", most, f"computed {format_volts(most, 3)} with {self._moved(state)}"), ""

    def _moved(self, state: Mapping[str, str]) -> str:
        """What is not as it rests in a state."""
        devices = self.study.circuit.devices
        moved = {name: at for name, at in state.items() if at != devices.get(name, ("",))[0]}
        return told(moved) or "everything at rest"

    # --- measured

    def _measured(self, point: Point, *, before: bool) -> _Told | None:
        """What the readings between a point and the ground come to, those before the cut or the others."""
        volts: list[tuple[float, Reading]] = []
        grounded: Reading | None = None
        for reading in self._against_ground.get(point, ()):
            if self._is_before(reading, point) != before:
                continue
            if reading.volts is not None:
                volts.append((abs(reading.volts), reading))
            elif reading.continuity or (reading.ohms is not None and reading.ohms <= GROUND_OHM):
                grounded = reading
        live = [(figure, reading) for figure, reading in volts if figure >= LIVE_V]
        if live:
            most, _ = max(live, key=lambda one: one[0])
            dead = [(figure, reading) for figure, reading in volts if figure < LIVE_V]
            said = "; ".join(_said(reading) for _, reading in (live[-1:] + dead[-1:]))
            return ("switched" if dead else "live"), most, said
        if grounded is not None:
            return "ground", 0.0, _said(grounded)
        return ("dead", 0.0, _said(volts[-1][1])) if volts else None

    @cached_property
    def _against_ground(self) -> Mapping[Point, list[Reading]]:
        """Point to its readings against something that is ground."""
        potential = self.study.network.potential
        found: dict[Point, list[Reading]] = {}
        for reading in self.harness.readings:
            for point, other in (reading.between, reading.between[::-1]):
                if other == CHASSIS or potential.get(other) in self._grounds:
                    found.setdefault(point, []).append(reading)
        return found

    def _is_before(self, reading: Reading, point: Point) -> bool:
        """Whether a reading was taken before its cavity was cut; without a date it counts as before."""
        plug = self.harness.plugs.get(point.owner)
        cut = plug.cut.get(point.terminal) if plug else None
        return bool(cut) and (not reading.on or reading.on < str(cut))


def _together(measured: _Told | None, computed: _Told | None, silent: str) -> tuple[_Told | None, str]:
    """What the meter and the computing come to; the meter counts more, but says nothing of positions it did not see."""
    if measured is None:
        return computed, silent
    nature, volts, why = measured
    if nature == "dead":
        if computed is not None:
            return (*computed[:2], f"{computed[2]}; {why}"), ""
        return None, f"{why}, and in no other position"
    if computed is None or computed[0] == nature:
        return measured, ""
    if nature == "live" and computed[0] in ("constant", "switched"):
        return (computed[0], volts, f"{why}; {computed[2]}"), ""
    return (nature, volts, f"{why}, though it is computed otherwise: {computed[2]}"), ""


def _said(reading: Reading) -> str:
    """`12.5 V on 2026-04-04 with S1 on, loaded with 21 W lamp`."""
    figure = (
        format_volts(reading.volts) if reading.volts is not None
        else format_ohms(reading.ohms) if reading.ohms is not None else "continuity"
    )  # fmt: skip
    on = f" on {reading.on}" if reading.on else ""
    when = f" with {told(reading.when)}" if reading.when else ""
    return f"measured {figure}{on}{when}" + (f", loaded with {reading.loaded_with}" if reading.loaded_with else "")
