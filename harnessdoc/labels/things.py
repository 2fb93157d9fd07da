"""What the labels of joints, plugs, fuses, relays, other items and runs say; each by its own template.

Knows no wire's end (`says` does), no paper and no printer.
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.labels.label import Field, Label, Role
from harnessdoc.labels.payloads import Payloads
from harnessdoc.model.harness import Harness, Item, Plug, Run, Splice
from harnessdoc.model.kinds.protection import Fuse
from harnessdoc.model.kinds.relays import Relay, RelayBoard
from harnessdoc.model.points import Point
from harnessdoc.model.quantities import format_length
from harnessdoc.routing import Bundle, Routing, route_harness, splice_spot

Fields = tuple[Field, ...]


def thing_labels(harness: Harness, payloads: Payloads, routing: Routing | None) -> Iterator[Label]:
    """Yield a label for each joint, plug and item, and one for each end of a run that wires lie in."""
    makers = _Things(harness, payloads)
    for splice in harness.splices.values():
        yield makers.label(Role.SPLICE, splice.name, makers.splice_place(splice), makers.splice(splice))
    for plug in harness.plugs.values():
        yield makers.label(Role.PLUG, plug.name, plug.place, makers.plug(plug))
    for item in harness.items.values():
        yield makers.label(_role(item), item.name, item.place, makers.item(item))
    if harness.runs:
        known = routing or route_harness(harness)
        for run, wires, bundle in zip(harness.runs, known.in_run, known.bundles, strict=True):
            yield from makers.trunk(run, wires, bundle)


class _Things:
    """What the templates share: who is on which circuit, and what a QR holds."""

    def __init__(self, harness: Harness, payloads: Payloads) -> None:
        self.harness = harness
        self.payloads = payloads
        self.circuits: dict[str, dict[str, None]] = {}
        for circuit in harness.circuits.values():
            for name in circuit.items:
                self.circuits.setdefault(name, {})[circuit.name] = None
        for point, ends in harness.landings.items():
            for wire, _ in ends:
                if wire.circuit is not None:
                    self.circuits.setdefault(point.owner, {})[wire.circuit] = None

    def label(self, role: Role, name: str, place: str | None, fields: Fields) -> Label:
        """The label of what has a name; its QR leads to the record of its circuit, or to the book."""
        circuits = tuple(self.circuits.get(name, ()))
        payload, why_not, key = self.payloads.of_many(circuits)
        at = Point(name)
        subject = f"{role.value} {name}"
        return Label(
            role, subject, name, fields, payload, why_not, key, point=at, at=at, place=place, circuits=circuits
        )

    def splice_place(self, splice: Splice) -> str | None:
        """The joint's place, or the run that it sits on."""
        spot = splice_spot(self.harness, splice)
        if splice.place is None and spot is not None and spot.spot is not None:
            return self.harness.runs[spot.spot.run].name
        return splice.place

    def splice(self, splice: Splice) -> Fields:
        """Which wires it joins; a change of colour; how it is made and where it sits; its circuit."""
        wires = dict.fromkeys(wire.name for wire, _ in self.harness.landings.get(Point(splice.name), ()))
        joins = (
            Field(f"joins {', '.join(wires)}", ", ".join(wires), vital=True) if wires else Field("joins nothing yet")
        )
        made = ", ".join(filter(None, (splice.method, splice.cover)))
        return (
            joins,
            Field(splice.colour_change),
            Field(_on_run(splice)),
            Field(made, less=splice.method or ""),
            self._circuits(splice.name),
        )

    def plug(self, plug: Plug) -> Fields:
        """What it is called, its other half, how many cavities, its circuits."""
        count = len(plug.terminals)
        return (
            Field(f"mates with {plug.mates_with}", f"→ {plug.mates_with}", vital=True)
            if plug.mates_with
            else Field(""),
            Field(plug.title, weight=2),
            Field(f"{count} cavities" if count != 1 else "1 cavity"),
            self._circuits(plug.name),
        )

    def item(self, item: Item) -> Fields:
        """Its rating first where it is a fuse or relay: whoever changes it reads that; its title and circuits."""
        marked = item.kind.marked()
        rated = Field(marked, less=marked.split(",")[0], vital=True, weight=2)
        title = Field(item.title, weight=2)
        circuit = self._circuits(item.name)
        if circuit.full == item.title:
            circuit = Field("")
        first = (rated, title) if _role(item) is not Role.ITEM else (title, Field(marked))
        return (*first, circuit)

    def trunk(self, run: Run, wires: tuple[str, ...], bundle: Bundle) -> Iterator[Label]:
        """Both ends of a run: where it leads, where it comes from, how many wires lie in it and how thick they are."""
        if not wires:
            return
        named = (self.harness.wires[name].circuit for name in wires)
        circuits = tuple(dict.fromkeys(name for name in named if name is not None))
        payload, why_not, key = self.payloads.of_many(circuits)
        count = f"{len(wires)} wires" if len(wires) > 1 else "1 wire"
        thick = f", {bundle.diameter_mm:.0f} mm" if bundle.verified and bundle.diameter_mm else ""
        more = (Field(count + thick, less=count, vital=True), Field(self.payloads.titles(circuits)))
        for here, far in dict.fromkeys(((run.a, run.b), (run.b, run.a))):
            fields = (Field(f"from {here}", vital=True), *more)
            subject = f"run {here} → {far}"
            yield Label(
                Role.TRUNK,
                subject,
                f"→ {far}",
                fields,
                payload,
                why_not,
                key,
                at=Point(here),
                place=run.name,
                circuits=circuits,
            )

    def _circuits(self, name: str) -> Field:
        return Field(self.payloads.titles(self.circuits.get(name, ())))


def _on_run(splice: Splice) -> str:
    """How far along which run a joint sits."""
    if splice.between is None:
        return ""
    first, second = splice.between
    if splice.after_mm is None:
        return f"{first} - {second}"
    return f"{format_length(splice.after_mm)} from {first}"


def _role(item: Item) -> Role:
    if isinstance(item.kind, Fuse):
        return Role.FUSE
    return Role.RELAY if isinstance(item.kind, Relay | RelayBoard) else Role.ITEM
