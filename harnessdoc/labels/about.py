"""Which part of the harness a label speaks of: the wire's end, stub, joint or run behind its words.

A label that carries `wire`, `point` and `place` is taken at its word; else they are told from its number and subject.
"""

from __future__ import annotations

from dataclasses import dataclass

from harnessdoc.labels.label import Label, Role
from harnessdoc.model.harness import End, Harness, Wire
from harnessdoc.model.points import Point
from harnessdoc.sheet.lettering import clean


@dataclass(frozen=True, slots=True)
class About:
    """What a label speaks of. `role`: the role's word. `run`: index of the run of a loom's label."""

    role: str
    point: Point | None = None
    place: str | None = None
    wire: Wire | None = None
    end: End | None = None
    run: int | None = None


class Abouts:
    """Finds what the labels of one harness speak of."""

    def __init__(self, harness: Harness) -> None:
        """Take the harness that the labels were made of."""
        self.harness = harness
        self._wires = {clean(name): wire for name, wire in harness.wires.items()}
        self._stubs = {clean(str(point)): point for point in harness.stubs}
        self._joints = {clean(name): Point(name) for name in harness.splices}
        runs = reversed(list(enumerate(harness.runs)))  # of two runs with one name the first counts
        self._runs = {name: index for index, run in runs for name in (run.name, clean(run.name))}

    def of(self, label: Label) -> About:
        """What a label speaks of; parts that nobody can tell are None."""
        role = label.role.value
        point: Point | None = getattr(label, "point", None)
        place: str | None = getattr(label, "place", None) or None
        if label.role is Role.WIRE_END:
            wire = self._wire(label)
            end = _end(label, point, wire) if wire is not None else None
            return About(role, point or (end.point if end else None), place, wire, end)
        if label.role is Role.STUB:
            point = point if point in self.harness.stubs else self._stubs.get(label.number)
        elif role == "splice":
            point = point or self._joints.get(label.number)
        names = (place, label.number, label.subject)
        run = next((self._runs[one] for one in names if one in self._runs), None) if role == "trunk" else None
        return About(role, point, place, run=run)

    def _wire(self, label: Label) -> Wire | None:
        stated: str | None = getattr(label, "wire", None)
        return self.harness.wires.get(stated) if stated else self._wires.get(label.number)


def _end(label: Label, point: Point | None, wire: Wire) -> End:
    """The end of the wire, by its point; by the subject where both ends or none have that point."""
    here = [end for end in wire.ends if end.point == point]
    if len(here) == 1 and point is not None:
        return here[0]
    return next((end for end in wire.ends if label.subject.endswith(f" at {clean(end.text)}")), wire.a)
