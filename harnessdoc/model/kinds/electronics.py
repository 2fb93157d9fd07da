"""Sensors and modules: what gives a signal. A module is a black box with named terminals."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from harnessdoc.model.kinds.base import NOTHING, InnerPath, Kind, Nature, given, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class Sensor(Kind):
    """Supply, signal and ground; with `wires` 2 it has no supply of its own."""

    name: ClassVar[str] = "sensor"
    letter: ClassVar[str] = "B"

    supply_v: float | None = given("supply", Unit.VOLT)
    signal_v: Mapping[str, tuple[float, float]] = given(
        "signal", Unit.VOLT, default=NOTHING, span=True, about="range by named condition"
    )
    wires: int = given("wires", default=3, bounds=(2, 3))

    def terminals(self) -> tuple[str, ...]:
        return ("+", "S", "-") if self.wires == 3 else ("S", "-")

    def paths(self) -> tuple[InnerPath, ...]:
        supply = (InnerPath("+", "-", Nature.LOADED),) if self.wires == 3 else ()
        return (*supply, InnerPath("S", "-", Nature.LOADED))

    def marked(self) -> str:
        return shown(self.supply_v, Unit.VOLT)


@record(frozen=True)
class Output:
    """What a module puts out on one terminal: open voltage, source resistance, and ranges by named condition."""

    open_v: float | None = given("open circuit", Unit.VOLT)
    source_ohm: float | None = given("source", Unit.OHM)
    conditions_v: Mapping[str, tuple[float, float]] = given(
        "*", Unit.VOLT, default=NOTHING, span=True, about="every other key: range by named condition"
    )


@record(frozen=True)
class Module(Kind):
    """A box whose inside nobody knows; its terminals are those named and those of its outputs."""

    name: ClassVar[str] = "module"
    letter: ClassVar[str] = "A"

    named: tuple[str, ...] = given("terminals", default=())
    output: Mapping[str, Output] = given("output", default=NOTHING)

    def terminals(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*self.named, *self.output)))
