"""The stub register: what each stub was, where its other half is now, whether it is free, capped, reused and by what.

And the tails: the loom's side of a cut that has landed nowhere. Reads the harness alone; judges nothing."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from harnessdoc.model.harness import End, Harness, Stub, Wire
from harnessdoc.model.points import Point
from harnessdoc.model.record import record
from harnessdoc.model.sorting import natural

Use = Literal["free", "reused"]


@record(frozen=True)
class StubEntry:
    """One stub. `other_half`: the wires that were cut from its cavity; `used_by`: those it is joined to now.

    `cut_on`: the date of the cut, "" if not stated; `landed`: wires that sit in the same cavity beside it."""

    stub: Stub
    legend: str
    cut_on: str
    place: str | None
    other_half: tuple[Wire, ...]
    used_by: tuple[Wire, ...]
    landed: tuple[Wire, ...]
    circuits: tuple[str, ...]

    @property
    def point(self) -> Point:
        """Its cavity."""
        return self.stub.point

    @property
    def use(self) -> Use:
        """Joined again, with a wire beside it, or free."""
        return "reused" if self.stub.joined_at is not None or self.landed else "free"

    @property
    def other_half_text(self) -> str:
        """`W30 now J5 to K1:86`; "" where no wire says that it was cut from here."""
        return "; ".join(map(now, self.other_half))

    @property
    def used_by_text(self) -> str:
        """`at J5: W40 (to K5:NO), W41`; "" for a free stub."""
        said = []
        joint = self.stub.joined_at
        if joint is not None:
            said.append(f"at {joint}: {', '.join(_onward(wire, joint) for wire in self.used_by) or 'nothing else'}")
        if self.landed:
            said.append(f"in its cavity: {', '.join(_onward(wire, self.point) for wire in self.landed)}")
        return "; ".join(said)

    @property
    def cap_text(self) -> str:
        """`capped`, `NOT capped`, `cap unknown`; "" for one that is joined."""
        if self.stub.joined_at is not None:
            return ""
        return {True: "capped", False: "NOT capped", None: "cap unknown"}[self.stub.capped]


@record(frozen=True)
class Tail:
    """A wire's end that was cut and has not landed; `other`: its other end. `capped` None: nobody knows."""

    wire: Wire
    other: End
    capped: bool | None


def stub_register(harness: Harness) -> tuple[StubEntry, ...]:
    """Every stub, by plug and cavity."""
    cut_from: dict[Point, list[Wire]] = {}
    for wire in harness.wires.values():
        if wire.was_at is not None:
            cut_from.setdefault(wire.was_at, []).append(wire)
    found = [_entry(harness, stub, cut_from) for stub in harness.stubs.values()]
    return tuple(sorted(found, key=lambda entry: (natural(entry.point.owner), natural(entry.point.terminal))))


def tails(harness: Harness) -> tuple[Tail, ...]:
    """Every tail, in the order of the file."""
    found = []
    for wire in harness.wires.values():
        for end, other in (wire.ends, wire.ends[::-1]):
            if end.tail:
                found.append(Tail(wire, other, None if end.hardware is None else end.hardware.form == "cap"))
    return tuple(found)


def now(wire: Wire) -> str:
    """Where a wire runs now, a loose end last: `W30 now J5 to K1:86`, `W91 now a tail, other end unknown`."""
    first, second = sorted(wire.ends, key=lambda end: (end.tail, end.point is None))
    if second.tail:
        return f"{wire.name} now a tail, other end {first.text if not first.tail else 'a tail too'}"
    return f"{wire.name} now {first.text} to {second.text}"


def _entry(harness: Harness, stub: Stub, cut_from: Mapping[Point, list[Wire]]) -> StubEntry:
    plug = harness.plugs.get(stub.point.owner)
    named = harness.wires.get(stub.wire or "")
    cut = cut_from.get(stub.point, [])
    if named is not None and named not in cut and stub.point not in named.points:
        cut = [named, *cut]
    joined = () if stub.joined_at is None else tuple(wire for wire, _ in harness.landings.get(stub.joined_at, ()))
    landed = tuple(wire for wire, _ in harness.landings.get(stub.point, ()))
    circuits = dict.fromkeys(wire.circuit for wire in (*joined, *landed, *cut) if wire.circuit is not None)
    return StubEntry(
        stub,
        plug.legend.get(stub.point.terminal, "") if plug else "",
        plug.cut.get(stub.point.terminal, "") if plug else "",
        harness.place_of(stub.point),
        tuple(cut),
        joined,
        landed,
        tuple(harness.circuit(name).title or name for name in circuits),
    )


def _onward(wire: Wire, joint: Point) -> str:
    """A wire at a joint and where it leads."""
    ends = [end.text for end in wire.ends if end.point != joint]
    return f"{wire.name} to {ends[0]}" if ends else wire.name
