"""Sources: batteries, and anything else that feeds, such as an alternator or a solar charger."""

from __future__ import annotations

from collections.abc import Mapping
from typing import ClassVar

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature, Side, given, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class Source(Kind):
    """Feeds the harness from its + terminal."""

    name: ClassVar[str] = "source"
    letter: ClassVar[str] = "G"
    takes: ClassVar[int] = 4

    volts: float | None = given("volts", Unit.VOLT, about="voltage at rest")
    amps_max: float | None = given("amps", Unit.AMP, about="the most it can deliver")
    inner_ohm: float | None = given("inner resistance", Unit.OHM)

    def terminals(self) -> tuple[str, ...]:
        return ("+", "-")

    def paths(self) -> tuple[InnerPath, ...]:
        return (InnerPath("+", "-", Nature.LOADED),)

    def sides(self) -> Mapping[str, Side]:
        return {"+": Side.FEED, "-": Side.RETURN}

    def marked(self) -> str:
        return shown(self.volts, Unit.VOLT) if self.volts else ""


@record(frozen=True)
class Battery(Source):
    """An accumulator."""

    name: ClassVar[str] = "battery"

    capacity_ah: float | None = given("capacity", Unit.AMP_HOUR)
