"""What a label is put on: how thick that is and who says so, how much of it is free, what a sleeve must slide over.

Knows the harness, its routing and the table of diameters; no stock.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from harnessdoc.labels.about import About
from harnessdoc.labels.placement import Marks, marks
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.harness import End, Harness, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import Size
from harnessdoc.routing import Routing, splice_spot
from harnessdoc.tables.outside_diameters import outside_diameter_mm

FLAT: Final = frozenset({"plug", "fuse", "relay", "item"})
"""Roles whose label goes on a flat face: no diameter is asked."""


@dataclass(frozen=True, slots=True)
class Seat:
    """Where one label sits. `outside_mm`: None if nobody knows, then `source` says what to do about it.

    `free_mm`: length that can be covered, None if not limited. `passes_mm`: the widest thing between the free end and
    the seat; `no_sleeve`: why no sleeve can be slid on, "" if one can; `sleeve_note`: when. `where`: in words.
    `place`: of a place or a run. `marks`: of the wire, None where it is no wire's end.
    """

    outside_mm: float | None
    source: str
    where: str
    place: str | None = None
    free_mm: float | None = None
    passes_mm: float = 0.0
    no_sleeve: str = ""
    sleeve_note: str = ""
    marks: Marks | None = None


class Seats:
    """Finds the seat of each label of one harness."""

    def __init__(self, harness: Harness, routing: Routing) -> None:
        """Take the harness and its routing."""
        self.harness = harness
        self.routing = routing

    def of(self, about: About) -> Seat:
        """The seat of a label that speaks of this part of the harness."""
        if about.wire is not None and about.end is not None:
            return self._wire_end(about.wire, about.end)
        if about.role == "stub" and about.point is not None:
            return self._stub(self.harness.stubs[about.point])
        if about.role == "splice":
            return self._splice(about.point)
        if about.role == "trunk":
            return self._trunk(about)
        place = about.place or self._place(about.point)
        return Seat(None, "", "on a flat face that stays when its cover comes off", place)

    def _wire_end(self, wire: Wire, end: End) -> Seat:
        kind = self._kind(end)
        marked = marks(self.routing.length_mm(wire.name))
        outside_mm, source = self._outside(wire)
        no_sleeve, passes_mm, note = self._slides(wire, end)
        free_mm = marked.length_mm if marked.ends < 2 else None
        place = self._place(wire.was_at if end.tail else end.point)
        return Seat(outside_mm, source, marked.at_end(kind), place, free_mm, passes_mm, no_sleeve, note, marks=marked)

    def _stub(self, stub: Stub) -> Seat:
        wire = self.harness.wires.get(stub.wire) if stub.wire else None
        if wire is not None and wire.outside_mm is not None and stub.size in (None, wire.size):
            outside_mm, source = self._outside(wire)
        else:
            outside_mm, source = _by_size(stub.size, f"the size of the stub {stub.point}")
        long = f" of {stub.length_mm:g} mm" if stub.length_mm is not None else ", whose length is unknown"
        note = "slide it on over the cut end, before that is capped or joined"
        place = self._place(stub.point)
        # the FAA's "none under 3 in" speaks of whole wires: a stub is always marked
        return Seat(outside_mm, source, f"on the stub{long}", place, stub.length_mm, sleeve_note=note)

    def _splice(self, at: Point | None) -> Seat:
        name = at.owner if at is not None else "the joint"
        best: tuple[float, str, str] | None = None
        for wire in self._landing(name):
            outside_mm, source = self._outside(wire)
            if outside_mm is not None and (best is None or outside_mm > best[0]):
                best = (outside_mm, source, wire.name)
        place = self._place(at)
        if best is None:
            unknown = f"no diameter is known of the wires at {name}: state `outside:` of one"
            return Seat(None, unknown, "on a wire beside the joint", place)
        note = "slide it on before the joint is made"
        return Seat(best[0], best[1], f"on {best[2]}, beside the joint", place, sleeve_note=note)

    def _trunk(self, about: About) -> Seat:
        index = about.run
        bundle = self.routing.bundles[index] if index is not None and index < len(self.routing.bundles) else None
        place = self.harness.runs[index].name if index is not None else about.place
        where, no_sleeve = "on the loom, where it is read without undoing ties", "a loom has no free end"
        if bundle is None or bundle.diameter_mm is None:
            unknown = "the loom's diameter is not known: state `outside:` of its wires"
            return Seat(None, unknown, where, place, no_sleeve=no_sleeve)
        if not bundle.verified:
            shown = ", ".join(bundle.unknown[:3]) + (" and more" if len(bundle.unknown) > 3 else "")
            unknown = f"the loom's diameter is not known: state `outside:` of {shown}"
            return Seat(None, unknown, where, place, no_sleeve=no_sleeve)
        source = f"bundle of {len(bundle.members)}, computed, covering not counted"
        return Seat(bundle.diameter_mm, source, where, place, no_sleeve=no_sleeve)

    def _place(self, at: Point | None) -> str | None:
        """The place where a point is; of a splice on a run, the run's name."""
        place = self.harness.place_of(at)
        splice = self.harness.splices.get(at.owner) if at is not None and place is None else None
        on_run = splice_spot(self.harness, splice) if splice is not None else None
        if on_run is None or on_run.spot is None:
            return place
        return self.harness.runs[on_run.spot.run].name

    def _landing(self, name: str) -> Iterator[Wire]:
        for point, ends in self.harness.landings.items():
            if point.owner == name:
                yield from (wire for wire, _ in ends)

    def _outside(self, wire: Wire) -> tuple[float | None, str]:
        """A wire's diameter and who says so. A core's is its own: tables of single wires do not speak of cores."""
        if wire.outside_mm is not None:
            return wire.outside_mm, "stated"
        if wire.cable is not None:
            return None, f"no table gives the outside of a cable's core: state `outside:` of {wire.name}"
        return _by_size(wire.size, f"the size of {wire.name}", wire.name)

    def _kind(self, end: End) -> str:
        """What an end is called where it is measured from."""
        if end.tail:
            return "cut"
        if end.point is None:
            return "end"
        return "splice" if end.point.owner in self.harness.splices else "terminal"

    def _slides(self, wire: Wire, end: End) -> tuple[str, float, str]:
        """(why no sleeve can be slid on, the widest that it must pass, when it goes on)."""
        if not wire.existing:
            return "", 0.0, "slide it on before the end's terminal or joint is made"
        if end.tail or self._relanded(wire) is end:
            return "", 0.0, "slide it on over the cut end, before that is joined or capped"
        width_mm = terminal_width_mm(end.hardware)
        if width_mm is None:
            sits = end.hardware.text if end.hardware else "what sits on its end"
            return f"the wire has its ends on, and nobody states how wide {sits} is", 0.0, ""
        return "", width_mm, "slide it on over the terminal, which is unplugged for it"

    def _relanded(self, wire: Wire) -> End | None:
        """The end of an existing wire that was cut and landed anew: told only where one end alone is new."""
        if wire.was_at is None:
            return None
        new = [end for end in wire.ends if end.point is not None and self._is_new(end.point)]
        return new[0] if len(new) == 1 else None

    def _is_new(self, point: Point) -> bool:
        item = self.harness.items.get(point.owner)
        return point.owner in self.harness.splices or (item is not None and not item.existing)


def _by_size(size: Size | None, what: str, name: str = "") -> tuple[float | None, str]:
    if size is None:
        return None, f"{what} is unknown, so no table gives its outside: find it out"
    printed = outside_diameter_mm(size)
    if printed is None:
        ask = f"state `outside:` of {name}" if name else "measure it"
        return None, f"no table gives the outside of {size.written}: {ask}"
    return printed.value, f"{size.written}: {printed.source}"


# Widths of terminals, on the wide side. Common practice, no source: blades' receptacles are rolled round 2 mm of the
# blade's width, rings are twice the screw, bullets' sockets 1.5 mm above the bullet.
def terminal_width_mm(hardware: Hardware | None) -> float | None:
    """Return how wide a bore must be to slide over a terminal, mm; None where nobody knows. Common practice."""
    if hardware is None:
        return None
    if hardware.form == "bare":
        return 0.0
    if hardware.form in ("ring", "fork") and hardware.fits.startswith("M"):
        return 2.0 * float(hardware.fits[1:])
    if hardware.form in ("tab", "blade", "bullet") and hardware.fits and not hardware.fits.startswith("M"):
        return float(hardware.fits) + (1.5 if hardware.form == "bullet" else 2.0)
    return None
