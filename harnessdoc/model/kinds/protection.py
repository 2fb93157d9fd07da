"""Protection: fuses and breakers."""

from __future__ import annotations

from typing import ClassVar

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature, given, shown
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class Fuse(Kind):
    """Opens for good when the current stays above its rating."""

    name: ClassVar[str] = "fuse"
    letter: ClassVar[str] = "F"

    rating_a: float | None = given("rating", Unit.AMP)
    style: str | None = given("style", about="mini, blade, maxi, bolted, glass, ...")
    cold_ohm: float | None = given("cold resistance", Unit.OHM)

    def terminals(self) -> tuple[str, ...]:
        return ("1", "2")

    def paths(self) -> tuple[InnerPath, ...]:
        return (InnerPath("1", "2", Nature.PROTECTED),)

    def marked(self) -> str:
        return " ".join(filter(None, (shown(self.rating_a, Unit.AMP), self.style)))


@record(frozen=True)
class Breaker(Fuse):
    """Opens like a fuse and can be closed again."""

    name: ClassVar[str] = "breaker"

    resets: str | None = given("resets", about="by hand, by itself, when switched off")
