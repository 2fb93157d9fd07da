"""Loads: motors, lamps, resistors, diodes, anything else that draws. The potential does not pass through them."""

from __future__ import annotations

from typing import ClassVar, Literal

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature, given, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class Load(Kind):
    """Two terminals and a stated draw, given as amps, watts or ohms at a voltage."""

    name: ClassVar[str] = "load"
    letter: ClassVar[str] = "M"

    amps: float | None = given("amps", Unit.AMP)
    watts: float | None = given("watts", Unit.WATT)
    ohms: float | None = given("ohms", Unit.OHM)
    at_v: float | None = given("at", Unit.VOLT, about="the voltage at which amps or watts hold")
    stall_a: float | None = given("stall", Unit.AMP)
    inrush: float | None = given("inrush", about="times the steady current, when switched on")
    draws: Literal["constant resistance", "constant current"] = given("draws", default="constant resistance")
    named: tuple[str, ...] = given("terminals", default=("1", "2"), count=2, about="the two terminals' names")
    cased: bool = given("case on chassis", default=False, about="its second terminal is its case")

    def terminals(self) -> tuple[str, ...]:
        return self.named

    def paths(self) -> tuple[InnerPath, ...]:
        return (InnerPath(self.named[0], self.named[1], Nature.LOADED),)

    def on_chassis(self) -> tuple[str, ...]:
        return self.named[1:2] if self.cased else ()

    def marked(self) -> str:
        return next(
            (
                shown(value, unit)
                for value, unit in ((self.amps, Unit.AMP), (self.watts, Unit.WATT), (self.ohms, Unit.OHM))
                if value is not None
            ),
            "",
        )


@record(frozen=True)
class Motor(Load):
    """A load that turns; state what it draws when it is held (stall)."""

    name: ClassVar[str] = "motor"


@record(frozen=True)
class Lamp(Load):
    """A lamp; its letter is E by IEC 81346-2."""

    name: ClassVar[str] = "lamp"
    letter: ClassVar[str] = "E"


@record(frozen=True)
class Resistor(Load):
    """A resistor."""

    name: ClassVar[str] = "resistor"
    letter: ClassVar[str] = "R"


@record(frozen=True)
class Diode(Kind):
    """A diode; A is the anode, K the cathode."""

    name: ClassVar[str] = "diode"
    letter: ClassVar[str] = "R"

    rating_a: float | None = given("rating", Unit.AMP)

    def terminals(self) -> tuple[str, ...]:
        return ("A", "K")

    def paths(self) -> tuple[InnerPath, ...]:
        return (InnerPath("A", "K", Nature.LOADED),)
