"""The splice register: what each joint joins, how it is made, where it sits, how much copper it still takes.

Reads the harness and the table of barrels; judges nothing."""

from __future__ import annotations

from itertools import combinations

from harnessdoc.model.harness import Harness, Splice, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length
from harnessdoc.model.record import record
from harnessdoc.model.sorting import natural
from harnessdoc.tables.barrels import most_copper_mm2

REMADE = frozenset({"crimp", "closed end", "solder"})
"""Methods that take no further wire as they are: the joint is cut out and made anew."""
MOST_PARTED = 12
"""With more wires than this the two sides of a barrel are not tried out."""


@record(frozen=True)
class SpliceEntry:
    """One joint. `copper_mm2`: of all that it joins, None while a size is unknown; `holds_mm2`: what its method takes,
    on one of `sides` sides; `source`: who says so. `circuits`: titles."""

    splice: Splice
    wires: tuple[Wire, ...]
    stubs: tuple[Stub, ...]
    copper_mm2: float | None
    holds_mm2: float | None
    sides: int
    source: str
    circuits: tuple[str, ...]

    @property
    def parts(self) -> tuple[Wire | Stub, ...]:
        """All that it joins."""
        return (*self.wires, *self.stubs)

    @property
    def room_mm2(self) -> float | None:
        """The thickest wire that it takes besides, mm² of copper: 0 for a full one, None where that is not known."""
        if self.holds_mm2 is None or self.copper_mm2 is None:
            return None
        return max(0.0, self.holds_mm2 - self._emptier_mm2(self.holds_mm2))

    def _emptier_mm2(self, holds_mm2: float) -> float:
        """The copper on the emptier side, the wires parted so that it holds as little as can be."""
        areas = [part.size.area_mm2 for part in self.parts if part.size is not None]
        total = sum(areas)
        if self.sides == 1:
            return total
        if len(areas) > MOST_PARTED:
            return total / 2
        picks = (sum(pick) for count in range(len(areas) + 1) for pick in combinations(areas, count))
        return min((side for side in picks if total - side <= holds_mm2 * 1.001), default=holds_mm2)

    @property
    def room_text(self) -> str:
        """What to know of the room: a closed joint is made anew."""
        return "only when it is made anew" if self.splice.method in REMADE else ""

    @property
    def where(self) -> str:
        """Its place, or where on a run it sits: `cab - tank, 340 mm from cab`; "" if nobody says."""
        splice = self.splice
        if splice.between is None:
            return splice.place or ""
        after = format_length(splice.after_mm) if splice.after_mm is not None else "distance unknown"
        return f"{' - '.join(splice.between)}, {after} from {splice.between[0]}"


def splice_register(harness: Harness) -> tuple[SpliceEntry, ...]:
    """Every splice, in natural order."""
    joined: dict[Point, list[Stub]] = {}
    for stub in harness.stubs.values():
        if stub.joined_at is not None:
            joined.setdefault(stub.joined_at, []).append(stub)
    names = sorted(harness.splices, key=natural)
    return tuple(_entry(harness, harness.splices[name], joined.get(Point(name), [])) for name in names)


def _entry(harness: Harness, splice: Splice, stubs: list[Stub]) -> SpliceEntry:
    wires = tuple(wire for wire, _ in harness.landings.get(Point(splice.name), ()))
    sizes = [*(wire.size for wire in wires), *(stub.size for stub in stubs)]
    known = [size.area_mm2 for size in sizes if size is not None]
    holds, source = splice.holds_mm2, "stated"
    figure = most_copper_mm2(splice.barrel) if splice.barrel and holds is None else None
    if figure is not None:
        holds, source = figure.value, figure.source
    circuits = dict.fromkeys(wire.circuit for wire in wires if wire.circuit is not None)
    return SpliceEntry(
        splice,
        wires,
        tuple(stubs),
        sum(known) if len(known) == len(sizes) else None,
        holds,
        2 if figure is not None and splice.method != "closed end" else 1,
        source if holds is not None else "",
        tuple(harness.circuit(name).title or name for name in circuits),
    )
