"""Controls: speed controllers, regulators, potentiometers."""

from __future__ import annotations

from typing import ClassVar, Literal

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature, given, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class SpeedController(Kind):
    """A power stage that pulses one side of its output; P1, P2, P3 go to the potentiometer."""

    name: ClassVar[str] = "speed controller"
    letter: ClassVar[str] = "T"

    switches: Literal["positive", "negative"] | None = given("switches", about="the side of the output that is pulsed")
    rating_a: float | None = given("rating", Unit.AMP)
    duty: tuple[float, float] | None = given("duty", Unit.PERCENT, span=True)
    own_fuse_a: float | None = given("own fuse", Unit.AMP)

    def terminals(self) -> tuple[str, ...]:
        return ("IN+", "IN-", "OUT+", "OUT-", "P1", "P2", "P3")

    def paths(self) -> tuple[InnerPath, ...]:
        pulsed = {"positive": ("+",), "negative": ("-",)}.get(self.switches or "", ("+", "-"))
        ways = tuple(
            InnerPath(f"IN{s}", f"OUT{s}", Nature.DRIVEN if s in pulsed else Nature.JOINED) for s in ("+", "-")
        )
        return (*ways, InnerPath("IN+", "IN-", Nature.LOADED))

    def marked(self) -> str:
        return shown(self.rating_a, Unit.AMP)


@record(frozen=True)
class Regulator(Kind):
    """Makes a lower voltage for electronics; both negatives are one."""

    name: ClassVar[str] = "regulator"
    letter: ClassVar[str] = "T"

    gives_v: float | None = given("gives", Unit.VOLT)
    rating_a: float | None = given("rating", Unit.AMP)

    def terminals(self) -> tuple[str, ...]:
        return ("IN+", "IN-", "OUT+", "OUT-")

    def paths(self) -> tuple[InnerPath, ...]:
        return (
            InnerPath("IN-", "OUT-", Nature.JOINED),
            InnerPath("IN+", "OUT+", Nature.DRIVEN),
            InnerPath("IN+", "IN-", Nature.LOADED),
        )

    def marked(self) -> str:
        return " ".join(filter(None, (shown(self.gives_v, Unit.VOLT), shown(self.rating_a, Unit.AMP))))


@record(frozen=True)
class Potentiometer(Kind):
    """1 and 3 are the ends of the track, 2 the wiper."""

    name: ClassVar[str] = "potentiometer"
    letter: ClassVar[str] = "R"

    ohms: float | None = given("ohms", Unit.OHM)

    def terminals(self) -> tuple[str, ...]:
        return ("1", "2", "3")

    def paths(self) -> tuple[InnerPath, ...]:
        return (InnerPath("1", "2", Nature.LOADED), InnerPath("2", "3", Nature.LOADED))

    def marked(self) -> str:
        return shown(self.ohms, Unit.OHM)
