"""What current each wire may carry for long where it lies, by the table that the harness chose.

Joins the table with insulation, the warmest place on the way, and the wires beside it. No verdict: rules compare."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from harnessdoc.model.harness import Harness, Place, Wire
from harnessdoc.model.quantities import Size, format_celsius, plain_number
from harnessdoc.routing.routing import Routing
from harnessdoc.tables.ampacity import (
    ENGINE_SPACE_C,
    LOWEST_C,
    METRIC_MM2,
    TABLE_C,
    USUAL_C,
    ambient_factor,
    ampacity,
    grouping_factor,
    sure_ampacity,
)
from harnessdoc.tables.figures import Figure

LOADED_SHARE = 0.3
"""A wire below this share of its own limit does not warm its neighbours. Common practice, no source."""


class Limit(NamedTuple):
    """What a wire carries, in A. `least_a`: with the insulation that is stated, else with the lowest there is; by
    figures seen in print. `most_a`: with the usual insulation where none is stated. `remembered_a`: what the table is
    remembered to give; it decides nothing. `how`: the cell and the factor; `assumed`: "" or what was taken."""

    least_a: float
    most_a: float
    remembered_a: float
    how: str
    most_how: str
    assumed: str
    source: str

    @property
    def too_warm(self) -> bool:
        """Whether it lies where the insulation that was assumed stands no current at all."""
        return bool(self.assumed) and self.least_a == 0 < self.most_a


class WireLimits:
    """Limits of all wires of one harness; each is found when first asked."""

    def __init__(self, harness: Harness, routing: Routing) -> None:
        self.harness = harness
        self.routing = routing
        self.rule = harness.title.ampacity_rule
        self._known: dict[str, Limit | None] = {}
        self._ambients: dict[str, float] = {}
        self._alike: dict[tuple[float, float | None, float], Limit | None] = {}

    def of(self, wire: Wire) -> Limit | None:
        """The limit of a wire or of a stub made a wire; None where its size is unknown or its insulation is below all
        that is printed."""
        if wire.name not in self._known:
            self._known[wire.name] = self._found(wire)
        return self._known[wire.name]

    def size_for(self, wire: Wire, amps: float) -> str:
        """The smallest metric size that would carry so many A where the wire lies, for advice; "" if none does."""
        for area in METRIC_MM2:
            limit = self._found(replace(wire, size=Size(area, f"{plain_number(area)} mm²")))
            if limit is not None and limit.least_a >= amps:
                return f"{plain_number(area)} mm²"
        return ""

    def insulation_c(self, wire: Wire) -> float | None:
        """What its insulation stands: its own, else the harness's; None if neither is stated."""
        return wire.insulation_c if wire.insulation_c is not None else self.harness.title.insulation_c

    def ambient_c(self, wire: Wire) -> float:
        """The warmest ambient that is known on its way, at least the table's 30 °C."""
        if wire.name not in self._ambients:
            self._ambients[wire.name] = self._warmest(wire)
        return self._ambients[wire.name]

    def _warmest(self, wire: Wire) -> float:
        route = self.routing.routes.get(wire.name)
        runs = [self.harness.runs[run] for run in (route.runs or () if route else ())]
        names = {self.harness.place_of(end.point) for end in wire.ends} | {
            name for run in runs for name in (run.a, run.b)
        }
        places = [self.harness.places[name] for name in names if name is not None and name in self.harness.places]
        warm = [self._ambient_of(place) for place in places] + [run.warm_c for run in runs if run.warm_c is not None]
        return max([TABLE_C, *warm])

    def _ambient_of(self, place: Place) -> float:
        engine = (place.zone or "").casefold().startswith("engine")
        return max(place.warm_c or TABLE_C, ENGINE_SPACE_C[self.rule] if engine else TABLE_C)

    def _found(self, wire: Wire) -> Limit | None:
        if wire.size is None:
            return None
        stated, ambient = self.insulation_c(wire), self.ambient_c(wire)
        alike = (wire.size.area_mm2, stated, ambient)
        if alike not in self._alike:
            self._alike[alike] = self._worked_out(wire, stated, ambient)
        return self._alike[alike]

    def _worked_out(self, wire: Wire, stated: float | None, ambient: float) -> Limit | None:
        least = self._at(wire, LOWEST_C if stated is None else stated, ambient)
        most = self._at(wire, USUAL_C, ambient) if stated is None else least
        if least is None or most is None:
            return None
        assumed = "" if stated is not None else f"insulation not stated: taken for {format_celsius(LOWEST_C)}"
        return Limit(least[0], most[0], max(least[1], most[1]), least[2], most[2], assumed, least[3].source)

    def _at(self, wire: Wire, insulation_c: float, ambient_c: float) -> tuple[float, float, str, Figure] | None:
        """Limit in print, limit as remembered, how it was found, and the cell."""
        assert wire.size is not None
        sure = sure_ampacity(wire.size, insulation_c, self.rule)
        printed = ampacity(wire.size, insulation_c, self.rule)
        if sure is None or printed is None:
            return None
        factor = ambient_factor(insulation_c, ambient_c, self.rule).value
        how = f"{plain_number(sure.value, 3)} A {sure.note}"
        if factor != 1:
            how += f", × {plain_number(factor, 2)} at {format_celsius(ambient_c)} around it"
        remembered = 0.0 if printed.decides else printed.value * factor
        return sure.value * factor, remembered, how, sure


def loaded_beside(limits: WireLimits, worst_a: Mapping[str, float]) -> dict[str, int]:
    """Wire to the most wires that carry current in one run with it, itself among them. `worst_a`: wire to its worst
    current in A; wires below LOADED_SHARE of their limit are not counted."""
    found: dict[str, int] = {}
    for names in limits.routing.in_run:
        loaded = list(_loaded(limits, names, worst_a))
        for name in loaded:
            found[name] = max(found.get(name, 0), len(loaded))
    return found


def _loaded(limits: WireLimits, names: tuple[str, ...], worst_a: Mapping[str, float]) -> Iterator[str]:
    for name in names:
        limit = limits.of(limits.harness.wires[name])
        if limit is not None and worst_a.get(name, 0.0) > LOADED_SHARE * limit.least_a:
            yield name


def grouped_a(limit_a: float, conductors: int) -> float:
    """A limit in A when so many conductors that carry current lie side by side."""
    return limit_a * grouping_factor(conductors).value
