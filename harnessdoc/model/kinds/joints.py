"""Places where copper meets: terminal strips and earth points."""

from __future__ import annotations

from itertools import pairwise
from typing import ClassVar

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature, given
from harnessdoc.model.quantities import Unit
from harnessdoc.model.record import record


@record(frozen=True)
class TerminalStrip(Kind):
    """Numbered ways; `joined` lists the ways bridged with each other, each as `1-2-3`, or `all`."""

    name: ClassVar[str] = "terminal strip"
    letter: ClassVar[str] = "X"
    takes: ClassVar[int] = 2

    ways: int = given("ways", default=2)
    joined: tuple[str, ...] = given("joined", default=())
    rating_a: float | None = given("rating", Unit.AMP)

    def terminals(self) -> tuple[str, ...]:
        return tuple(str(n) for n in range(1, self.ways + 1))

    def paths(self) -> tuple[InnerPath, ...]:
        groups = [self.terminals() if text == "all" else text.split("-") for text in self.joined]
        return tuple(InnerPath(a.strip(), b.strip(), Nature.JOINED) for group in groups for a, b in pairwise(group))


@record(frozen=True)
class EarthPoint(Kind):
    """A stud on the chassis, or on another body of metal; wires land on its name alone, as in `to: XE1`.

    Four rings on a stud at most: common practice, no source."""

    name: ClassVar[str] = "earth point"
    letter: ClassVar[str] = "X"
    takes: ClassVar[int] = 4

    body: str = given("on", default="chassis", about="the body it is bolted to; points on one body are joined")

    def terminals(self) -> tuple[str, ...]:
        return ("",)

    def on_chassis(self) -> tuple[str, ...]:
        return ("",) if self.body == "chassis" else ()
